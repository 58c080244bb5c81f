"""From a boat as it stands, its steady states and a choice to the setup card as data."""

from collections.abc import Mapping, Sequence
from math import cos, radians
from typing import NamedTuple

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.flight_view import STRIPE_EVERY, FlightView, edge_travel, exposed, flight_view
from foilwright.documents.sailor import Sailor
from foilwright.documents.setup_card import (
    CardChoice,
    CardSetting,
    Expected,
    SetupCard,
    StripesSeen,
    SwingCheck,
)
from foilwright.documents.turn_words import (
    after_words,
    grid_words,
    move_words,
    order_words,
    tried_words,
    why_words,
)
from foilwright.evidence.stripes import Struts, seen_from_stripes
from foilwright.flight.at_speed import Steady, fly_at
from foilwright.flight.chain_behaviour import chain_at, swing_angles
from foilwright.jobs.choose_setting import Chosen
from foilwright.jobs.conditions import Conditions, StripesRead
from foilwright.jobs.how_sure import Flying, how_sure, reference_state
from foilwright.measures import Floats
from foilwright.outcomes import OUTCOMES, SOLVED
from foilwright.paper import texts
from foilwright.setup.goals import BOW, band_for
from foilwright.setup.grid import BOW_DOWN, BOW_UP, HIGH, LEVEL, LOW, RIGHT, Entry
from foilwright.setup.standing import counted
from foilwright.units import from_si

SWING_ANGLES = tuple(radians(angle) for angle in (45.0, 35.0, 55.0, 25.0, 65.0))
"""Where the wand may be held between its stops, if not at the chain's drawing position [rad]."""

AS_EXPECTED = (0.05, radians(0.5))
"""Without a stage: seen within this of what was worked out is right, and level [m, rad]."""


class Made(NamedTuple):
    """All that a card is made of: `row` is the boat with its settings and its sailor.

    present, settings  where each adjuster stood, and where it is to stand [steps from the mark]
    rows               the state that counts at each speed, or the row that says why there is none
    """

    boat: ReadyBoat
    row: Floats
    present: Mapping[str, float]
    settings: Mapping[str, float]
    sailor: Sailor
    stage: str | None
    rows: Sequence[Steady]
    take_off: float | None
    around: Conditions
    heel: float
    entries: Mapping[tuple[str, str], Entry]
    chosen: Chosen | None
    stripes: StripesRead | None
    date: str | None


def setup_card(made: Made) -> SetupCard:
    """The card as data."""
    boat, row, rows = made.boat, made.row, made.rows
    drawn = drawn_state(rows)
    view = view_of(boat, row, drawn)
    reference = drawn if drawn is not None and drawn.outcome == SOLVED else reference_state(rows)
    records = boat.file.adjusters
    return SetupCard(
        boat=boat.name,
        invented="invented" in (boat.file.notes or "").lower(),
        version=boat.version,
        parts=boat.file.part_ids(),
        sailor=made.sailor.name,
        stage=made.stage,
        band=band_for(made.stage, boat.form) if made.stage else None,
        settings=card_settings(boat, made.settings, made.present),
        choice=card_choice(boat, made.chosen) if made.chosen else None,
        grid=grid_words(made.entries, records),
        short_grid=grid_words(made.entries, records, True),
        swing=swing_check(boat, row, view),
        expected=tuple(expected(boat, row, steady) for steady in rows if steady.stable and steady.state),
        no_flight=no_flight(rows),
        take_off=made.take_off,
        heel=made.heel,
        salinity=made.around.salinity,
        temperature=made.around.temperature,
        sure=how_sure(Flying(boat, row, made.around.water, reference)) if reference else None,
        seen=stripes_seen(made) if made.stripes else None,
        date=made.date,
        view=view,
        view_speed=drawn.speed if drawn else 0.0,
    )


def card_choice(boat: ReadyBoat, chosen: Chosen) -> CardChoice:
    """What was chosen, in words for a card."""
    choice, records = chosen.choice, boat.file.adjusters
    return CardChoice(
        why=tuple(why_words(choice)),
        moves=tuple(move_words(choice, records, False)),
        after=(*order_words(choice), *after_words(choice)),
        others=tuple(one["sentence"] for one in chosen.runners_up),
        tried=" ".join(tried_words(choice)),
    )


def stripes_seen(made: Made) -> StripesSeen:
    """What stripes seen say of height and bow, and where in the grid that is.

    Out of the right place only by more than one standard error: half a stripe is no reason to turn anything.
    """
    read = made.stripes
    assert read is not None
    boat, row = made.boat, made.row
    view = view_of(boat, row, None)
    spacing = view.main.top[0] - view.rudder.top[0]
    struts = Struts(spacing, view.main.top[1], view.rudder.top[1], STRIPE_EVERY)
    seen = seen_from_stripes(read.main, read.rudder, struts, made.heel)
    there = counted(fly_at(row, boat.tables, made.around.water, read.speed, made.heel))
    low, high = -1.0, 9.0
    bow_low, bow_high = BOW
    if made.stage:
        low, high = band_for(made.stage, boat.form)
    elif there is not None:
        low, high = there.height - AS_EXPECTED[0], there.height + AS_EXPECTED[0]
        bow_low, bow_high = there.trim - AS_EXPECTED[1], there.trim + AS_EXPECTED[1]
    height = _place(seen.height, low, high, seen.height_error, (LOW, RIGHT, HIGH))
    bow = _place(seen.trim, bow_low, bow_high, seen.trim_error, (BOW_DOWN, LEVEL, BOW_UP))
    worked_out = None if there is None else expected(boat, row, there)
    return StripesSeen(read.speed, read.main, read.rudder, *seen, worked_out, (height, bow))


def _place(value: float, low: float, high: float, error: float, names: tuple[str, str, str]) -> str:
    if value < low - error:
        return names[0]
    return names[2] if value > high + error else names[1]


def drawn_state(rows: Sequence[Steady]) -> Steady | None:
    """The state that is drawn: the stable flying one nearest to the middle of the speeds asked for."""
    flying = [s for s in rows if s.stable and s.state == "flying"]
    middle = 0.5 * (rows[0].speed + rows[-1].speed)
    return min(flying, key=lambda s: abs(s.speed - middle), default=None)


def view_of(boat: ReadyBoat, row: Floats, steady: Steady | None) -> FlightView:
    """The drawing's data: as it flies, or with the chain in its drawing position."""
    if steady is not None:
        return flight_view(boat, row, True, steady.height, steady.trim, steady.wand, steady.foil)
    number = dict(zip(boat.names, map(float, row), strict=True))
    return flight_view(
        boat, row, False, 0.0, 0.0, number["chain.wand_at_drawing"], number["chain.foil_at_drawing"]
    )


def swing_check(boat: ReadyBoat, row: Floats, view: FlightView) -> SwingCheck:
    """What the trailing edge does ashore [m]."""
    back, forward = swing_angles(row, boat.tables)
    middle = held_between(boat, row)
    pivot_share = boat.numbers.get("main_foil.pivot_share", 0.0)

    def edge(foil: float) -> float:
        return edge_travel(view.main, view.whole_foil, pivot_share, foil)

    return SwingCheck(edge(back), edge(forward), edge(middle[1]), middle[0])


def held_between(boat: ReadyBoat, row: Floats) -> tuple[float, float]:
    """A wand angle where no stop is met, the drawing position if it is one, and the foil angle there [rad].

    With the wand at its stops the foil often stands at its own: a rod that has slipped does not show there.
    """
    drawing = dict(zip(boat.names, map(float, row), strict=True))["chain.wand_at_drawing"]
    points = chain_at(row, boat.tables, (drawing, *SWING_ANGLES))
    free = next((point for point in points if not point.stop and not point.locked), points[0])
    return free.wand, free.foil


def card_settings(
    boat: ReadyBoat, settings: Mapping[str, float], present: Mapping[str, float]
) -> tuple[CardSetting, ...]:
    """Every adjuster as it is to stand, with what a ruler reads there."""
    found = []
    for record in boat.file.adjusters:
        steps = settings[record.name]
        reading = None
        if record.mark_mm is not None:
            reading = record.mark_mm + steps * (record.mark_mm_per_step or 0.0)
        change = steps - present[record.name]
        found.append(CardSetting(record.name, steps, change, record.one_step, record.mark, reading))
    return tuple(found)


def expected(boat: ReadyBoat, row: Floats, steady: Steady) -> Expected:
    """One row of what to expect."""
    view = view_of(boat, row, steady)
    # Heel to either side shortens what shows above the water along a strut that leans.
    lean = 1.0 / max(cos(steady.heel), 0.5)
    return Expected(
        speed=steady.speed,
        state=steady.state,
        height=steady.height,
        trim=steady.trim,
        wand=steady.wand,
        wand_touching=steady.wand_touching,
        main_stripes=lean * exposed(view, view.main) / STRIPE_EVERY,
        rudder_stripes=lean * exposed(view, view.rudder) / STRIPE_EVERY,
        nearest=steady.nearest,
    )


def no_flight(rows: Sequence[Steady]) -> str | None:
    """Why there is nothing to expect, in words; nothing where the boat flies at one of the speeds."""
    if any(s.stable and s.state == "flying" for s in rows):
        return None
    low, high = (f"{from_si(end.speed, 'kn'):g} kn" for end in (rows[0], rows[-1]))
    if any(s.outcome == SOLVED for s in rows):
        return texts.NO_FLIGHT_HULL.format(low=low, high=high)
    outcome = OUTCOMES[rows[0].outcome]
    return texts.NO_FLIGHT_OUTCOME.format(
        low=low, high=high, sentence=outcome.sentence, remedy=outcome.remedy
    )
