"""The setup card as data: what stands on it, whatever form it takes. Still in SI; words come in `paper/`."""

from typing import NamedTuple

from foilwright.documents.flight_view import FlightView

BANDS: dict[str, dict[str, tuple[float, float]]] = {
    "adult": {
        "first-hops": (0.15, 0.30),
        "improving": (0.25, 0.45),
        "settled": (0.40, 0.60),
        "expert": (0.60, 0.80),
    },
    "junior": {"first-hops": (0.10, 0.25), "improving": (0.20, 0.35), "settled": (0.30, 0.50)},
}
"""Ride height wanted at each stage of learning [m]. Common practice, no source; an expert junior has none."""

JUNIOR_CREW_KG = 60.0
"""A boat whose usual crew is lighter than this is taken for a junior's."""


class CardSetting(NamedTuple):
    """One adjuster as it stands.

    one_step  one step in the boat's own words
    mark      what a ruler is held to when the count is lost, and what it reads at this setting [mm]
    """

    adjuster: str
    steps: float
    one_step: str
    mark: str | None
    mark_mm: float | None


class SwingCheck(NamedTuple):
    """Trailing edge at the root from foil angle 0, down positive [m]: wand hard back, wand forward."""

    back: float
    forward: float


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


class HowSure(NamedTuple):
    """How well the ride height is known at one speed [m, m/s]: one standard error, and its biggest doubt."""

    speed: float
    height: float
    biggest: str
    assumed: bool  # whether the biggest doubt is something that was not measured


class SetupCard(NamedTuple):
    """One card. `no_flight` says why nothing is expected, where that is so. No mass and no age of anybody."""

    boat: str
    invented: bool
    version: str
    parts: dict[str, str]
    sailor: str | None
    stage: str | None
    band: tuple[float, float] | None
    settings: tuple[CardSetting, ...]
    swing: SwingCheck
    expected: tuple[Expected, ...]
    no_flight: str | None
    take_off: float | None
    heel: float
    salinity: float  # of the water [g/kg]
    temperature: float  # of the water [deg C]
    sure: HowSure | None
    date: str | None
    view: FlightView
    view_speed: float


def band_for(stage: str | None, usual_crew_kg: float) -> tuple[float, float] | None:
    """The ride height wanted at a stage of learning [m]."""
    people = "junior" if usual_crew_kg < JUNIOR_CREW_KG else "adult"
    return BANDS[people].get(stage) if stage else None
