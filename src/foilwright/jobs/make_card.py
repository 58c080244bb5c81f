"""From a boat, a sailor and speeds to the setup card as data. Settings are taken as they stand."""

from collections.abc import Mapping, Sequence
from math import cos

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.flight_view import STRIPE_EVERY, FlightView, edge_travel, exposed, flight_view
from foilwright.documents.sailor import Sailor
from foilwright.documents.setup_card import CardSetting, Expected, SetupCard, SwingCheck, band_for
from foilwright.flight.at_speed import Steady
from foilwright.flight.chain_behaviour import swing_angles
from foilwright.jobs.how_sure import Flying, how_sure, reference_state
from foilwright.measures import Floats
from foilwright.outcomes import OUTCOMES, SOLVED
from foilwright.paper import texts
from foilwright.units import from_si
from foilwright.water.properties import Water


def setup_card(
    boat: ReadyBoat,
    row: Floats,
    settings: Mapping[str, float],
    sailor: Sailor,
    stage: str | None,
    rows: Sequence[Steady],
    take_off: float | None,
    water: Water,
    salinity: float,
    temperature: float,
    heel: float,
    date: str | None,
) -> SetupCard:
    """The card for these rows of steady states; `row` is the boat with its settings and its sailor."""
    drawn = drawn_state(rows)
    view = view_of(boat, row, drawn)
    reference = reference_state(rows)
    return SetupCard(
        boat=boat.name,
        invented="invented" in (boat.file.notes or "").lower(),
        version=boat.version,
        parts=boat.file.part_ids(),
        sailor=sailor.name,
        stage=stage,
        band=band_for(stage, boat.numbers["crew.usual_mass_kg"]),
        settings=card_settings(boat, settings),
        swing=swing_check(boat, row, view),
        expected=tuple(expected(boat, row, steady) for steady in rows if steady.stable and steady.state),
        no_flight=no_flight(rows),
        take_off=take_off,
        heel=heel,
        salinity=salinity,
        temperature=temperature,
        sure=how_sure(Flying(boat, row, water, reference)) if reference else None,
        date=date,
        view=view,
        view_speed=drawn.speed if drawn else 0.0,
    )


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
    pivot_share = boat.numbers.get("main_foil.pivot_share", 0.0)
    return SwingCheck(
        edge_travel(view.main, view.whole_foil, pivot_share, back),
        edge_travel(view.main, view.whole_foil, pivot_share, forward),
    )


def card_settings(boat: ReadyBoat, settings: Mapping[str, float]) -> tuple[CardSetting, ...]:
    """Every adjuster of the boat as it stands, with what a ruler reads there."""
    found = []
    for record in boat.file.adjusters:
        steps = settings[record.name]
        reading = None
        if record.mark_mm is not None:
            reading = record.mark_mm + steps * (record.mark_mm_per_step or 0.0)
        found.append(CardSetting(record.name, steps, record.one_step, record.mark, reading))
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
