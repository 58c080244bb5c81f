"""The setup card as data: what stands on it, whatever form it takes. Still in SI; words come in `paper/`."""

from collections.abc import Mapping
from typing import NamedTuple

from foilwright.documents.flight_view import FlightView


class CardSetting(NamedTuple):
    """One adjuster as it stands.

    change    steps from where it stands now
    one_step  one step in the boat's own words
    mark      what a ruler is held to when the count is lost, and what it reads at this setting [mm]
    """

    adjuster: str
    steps: float
    change: float
    one_step: str
    mark: str | None
    mark_mm: float | None


class SwingCheck(NamedTuple):
    """Trailing edge at the root from foil angle 0, down positive [m].

    back, forward  wand hard back, wand at its forward stop; both may be the foil's own stops
    middle         wand held at `wand` [rad], where no stop holds anything: there a slipped rod shows
    """

    back: float
    forward: float
    middle: float
    wand: float


class Expected(NamedTuple):
    """What to expect at one boat speed: one steady state. SI and radians; stripes are counted, not whole."""

    speed: float
    state: str
    height: float
    trim: float
    wand: float
    wand_touching: bool
    main_stripes: float
    rudder_stripes: float
    nearest: str


class WindColumn(NamedTuple):
    """What to expect in one wind of a day. SI and radians.

    name           low, likely or high
    wind, by_hand  at 10 m, and the same as a hand gauge at 2 m reads it
    seconds        run to take-off; none where it will not take off in this wind
    speeds         of the boat in flight close to the wind, across it and off it; none where it does not fly
    seen           what is seen across the wind, or on the next course on which it flies
    foil, heel     there
    """

    name: str
    wind: float
    by_hand: float
    seconds: float | None
    speeds: tuple[float | None, ...]
    seen: Expected | None
    foil: float
    heel: float


class HowSure(NamedTuple):
    """How well the ride height is known at one speed [m, m/s]: one standard error, and its biggest doubt."""

    speed: float
    height: float
    biggest: str
    assumed: bool  # whether the biggest doubt is something that was not measured


class CardChoice(NamedTuple):
    """What was chosen, in words.

    why      what is wrong with the settings as they stand, or why nothing is changed
    moves    the changes in their order, one at a time, each with what it does
    after    why that order, and what is left when they are made
    others   the next best settings
    tried    how it was searched
    """

    why: tuple[str, ...]
    moves: tuple[str, ...]
    after: tuple[str, ...]
    others: tuple[str, ...]
    tried: str


class StripesSeen(NamedTuple):
    """Stripes seen from another boat and what they say. SI and radians.

    main, rudder   how many showed at each strut
    expected       the state worked out for that speed, if there is one
    place          where that is in the grid: low, right or high, and bow_down, level or bow_up
    """

    speed: float
    main: float
    rudder: float
    height: float
    height_error: float
    trim: float
    trim_error: float
    expected: Expected | None
    place: tuple[str, str]


Grid = Mapping[str, Mapping[str, str | None]]
"""Words by low, right, high and bow_down, level, bow_up."""


class SetupCard(NamedTuple):
    """One card. `no_flight` says why nothing is expected, where that is so. No mass and no age of anybody.

    choice      None where the settings are taken as they stand
    grid        the first change for each place, with what it does; short_grid the same without
    expected    one state a speed: slow, middle, fast
    winds       in place of them on the card of a day: one column a wind; `date` is then the day it is for
    """

    boat: str
    invented: bool
    version: str
    parts: dict[str, str]
    sailor: str | None
    stage: str | None
    band: tuple[float, float] | None
    settings: tuple[CardSetting, ...]
    choice: CardChoice | None
    grid: Grid
    short_grid: Grid
    swing: SwingCheck
    expected: tuple[Expected, ...]
    no_flight: str | None
    take_off: float | None
    heel: float
    salinity: float  # of the water [g/kg]
    temperature: float  # of the water [deg C]
    sure: HowSure | None
    seen: StripesSeen | None
    date: str | None
    view: FlightView
    view_speed: float
    winds: tuple[WindColumn, ...] = ()
