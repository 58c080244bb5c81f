"""What the page asks while a person moves things: the drawing, the flight over speeds, effects.

Warm and of fixed shape: the boat is made ready once, the compiled physics is used as soon as it is there and
the plain physics until then. Both give the same answers.
"""

from collections.abc import Mapping, Sequence
from functools import lru_cache
from math import radians
from typing import Any, NamedTuple, TypedDict

import numpy as np

from foilwright.documents.answers import (
    AssumedAnswer,
    FlyRow,
    SwingAnswer,
    assumed_answer,
    fly_row,
    shown_number,
    swing_answer,
)
from foilwright.documents.bench_blank import BATTEN_MM, blank_sheet
from foilwright.documents.bench_record import KINDS
from foilwright.documents.boat_file import boat_from_text
from foilwright.documents.boat_numbers import ReadyBoat, ready
from foilwright.documents.changed import changed
from foilwright.documents.effect_answers import EffectRow, effects_answer
from foilwright.documents.page_view import Arrow, BoatDrawn, ChainDrawn, arrows, boat_drawn, chain_drawn
from foilwright.documents.sailor import Sailor, sailor_from
from foilwright.flight.at_speed import Steady, case_of, described, fly_at, nothing, scratch
from foilwright.flight.chain_behaviour import chain_at, locks_at
from foilwright.flight.many import all_states
from foilwright.jobs.conditions import (
    Conditions,
    conditions_from,
    heel_from,
    row_for,
    settings_from,
    speeds_from,
    standing_of,
)
from foilwright.jobs.how_sure import Flying, assumed_changes, reference_state
from foilwright.jobs.make_card import swing_check, view_of
from foilwright.measures import Floats
from foilwright.mistakes import Mistake
from foilwright.outcomes import GAVE_UP, NO_BALANCE, OUTCOMES
from foilwright.setup.effects import effects
from foilwright.setup.standing import compiled_at_hand, counted
from foilwright.setup.take_off_change import TakeOffChange, take_off_from

WAND_DEGREES = range(-20, 101)
SWEEP = "4:24:0.5"
MOST_BOATS_READY = 32
NOT_ASKED = TakeOffChange(None, None, None)


class Asked(NamedTuple):
    """A boat with a sailor and its adjusters where somebody put them, in its water."""

    boat: ReadyBoat
    settings: dict[str, float]
    sailor: Sailor
    row: Floats
    around: Conditions
    heel: float


class PageRow(FlyRow):
    """A steady state with its loads as arrows."""

    arrows: list[Arrow]


class DrawingAnswer(TypedDict):
    """The boat, its chain and its swing check."""

    format: str
    version: int
    boat: str
    boat_version: str
    usual_sailor_kg: float
    drawn: BoatDrawn
    chain: ChainDrawn
    swing_check: SwingAnswer


class SweepAnswer(TypedDict):
    """Steady states over boat speeds. `counts` holds the place of the state that counts at each speed."""

    format: str
    version: int
    rows: list[PageRow]
    counts: list[int | None]
    take_off_speed_kn: float | None


class PageEffects(TypedDict):
    """What one step of each thing does at one speed."""

    format: str
    version: int
    rows: list[EffectRow]


class PageAssumed(TypedDict):
    """What the file did not tell, and what each guess costs."""

    format: str
    version: int
    assumed: list[AssumedAnswer]


class PageKind(TypedDict):
    """One kind of reading."""

    what: str
    meaning: str
    unit: str
    places: list[str]
    wand: bool
    load: bool


class PageBlank(TypedDict):
    """A bench sheet to be filled in."""

    format: str
    version: int
    boat: str
    kinds: list[PageKind]
    batten_mm: float
    lines: list[dict[str, str | float | None]]


@lru_cache(MOST_BOATS_READY)
def boat_of_text(text: str, file: str) -> ReadyBoat:
    """A boat made ready once for each text of its file."""
    return ready(boat_from_text(text, file), file=file)


def asked(
    boat: ReadyBoat,
    sailor: str,
    settings: Sequence[str] = (),
    heel: str = "0",
    water: str = "fresh",
    temperature: str = "15",
) -> Asked:
    """What a person asked for, read; raises Mistake. Without a sailor the boat's usual one sails."""
    present = settings_from(boat, settings, "set")
    who = sailor_from(sailor or f"{usual_mass(boat):g}")
    return Asked(
        boat, present, who, row_for(boat, present, who), conditions_from(water, temperature), heel_from(heel)
    )


def usual_mass(boat: ReadyBoat) -> float:
    """Everyone aboard together, where nobody said who sails [kg]."""
    return boat.numbers["crew.usual_mass_kg"]


def drawing(it: Asked) -> DrawingAnswer:
    """The boat drawn with its adjusters where they are."""
    boat, row = it.boat, it.row
    return {
        "format": "foilwright/drawing",
        "version": 1,
        "boat": boat.name,
        "boat_version": boat.version,
        "usual_sailor_kg": usual_mass(boat),
        "drawn": boat_drawn(boat, row, it.settings),
        "chain": chain_over_wand(it),
        "swing_check": swing_answer(swing_check(boat, row, view_of(boat, row, None))),
    }


def chain_over_wand(it: Asked) -> ChainDrawn:
    """The chain at every degree of wand that the page draws."""
    boat, row = it.boat, it.row
    points = chain_at(row, boat.tables, [radians(angle) for angle in WAND_DEGREES])
    return chain_drawn(boat, row, points, locks_at(row, boat.tables))


def chain_with(boat: ReadyBoat, values: Mapping[str, Any], settings: Sequence[str] = ()) -> ChainDrawn:
    """The chain as it would be with other values in the boat file; raises Mistake. Nothing is kept."""
    return chain_over_wand(asked(ready(changed(boat.file, values), file=boat.name), "", settings))


def sweep(it: Asked, speeds: str = SWEEP, with_take_off: bool = True) -> SweepAnswer:
    """Every steady state at each boat speed, with the loads as arrows."""
    each = speeds_from(speeds, 0.5)
    by_speed = states_over(it, each)
    rows: list[PageRow] = []
    counts: list[int | None] = []
    for states in by_speed:
        best = counted(states)
        counts.append(None if best is None else len(rows) + states.index(best))
        for state in states:
            pulled = arrows(state.loads, it.row, it.boat.names, state.trim)
            rows.append({**fly_row(state), "arrows": pulled})
    off = None
    if with_take_off:
        known = [state for states in by_speed for state in states]
        standing = standing_of(it.boat, it.settings, it.sailor, it.around.water, it.heel)
        off = take_off_from(standing, known, compiled_at_hand())
    return {
        "format": "foilwright/sweep",
        "version": 1,
        "rows": rows,
        "counts": counts,
        "take_off_speed_kn": None if off is None else shown_number("take_off_speed", off),
    }


def states_over(it: Asked, speeds: Sequence[float]) -> list[list[Steady]]:
    """Every state at each speed, by the compiled physics where it is at hand."""
    row, tables, water, heel = it.row, it.boat.tables, it.around.water, it.heel
    if not compiled_at_hand():
        return [fly_at(row, tables, water, speed, heel) for speed in speeds]
    none = np.zeros(0, dtype=np.int64)
    states, counts, outcomes = all_states(
        row, tables, water, none, np.zeros((len(speeds), 0)), np.array(speeds), heel
    )
    base = case_of(row, tables, water, 1.0, heel)
    items = scratch().items
    found = []
    for speed, state, count, outcome in zip(speeds, states, counts, outcomes, strict=True):
        case = base._replace(speed=float(speed))
        rows = [
            described(case, float(one[0]), float(one[1]), bool(one[2]), items) for one in state[: int(count)]
        ]
        if int(outcome) == GAVE_UP:
            rows.append(nothing(case, GAVE_UP, "the search between two bow angles"))
        elif not rows:
            rows.append(nothing(case, NO_BALANCE, "heave and pitch"))
        found.append(rows)
    return found


def effects_at(it: Asked, speed: str) -> PageEffects:
    """What one step of every adjuster does at one boat speed."""
    value, *more = speeds_from(speed, 1.0)
    if more:
        raise Mistake("--speed", f"`{speed}`, a range", "one boat speed in kn", "Write for example 12.")
    standing = standing_of(it.boat, it.settings, it.sailor, it.around.water, it.heel)
    [states] = states_over(it, [value])
    table = effects(standing, [(value, counted(states))], compiled_at_hand())
    # The take-off column costs a search of its own for every adjuster; the page does not show it.
    unknown = {effect.adjuster: NOT_ASKED for effect in table}
    answer = effects_answer(it.boat.name, it.boat.version, it.settings, table, None, unknown)
    return {"format": "foilwright/effects", "version": 1, "rows": answer["rows"]}


def guesses(it: Asked) -> PageAssumed:
    """What the boat file did not tell, dearest first."""
    rows = [state for states in states_over(it, speeds_from("6:20:1", 1.0)) for state in states]
    state = reference_state(rows)
    boat = it.boat
    changes: Sequence[float | None] = [None] * len(boat.assumed)
    if state is not None:
        changes = assumed_changes(Flying(boat, it.row, it.around.water, state))
    told = [
        assumed_answer(one, None if state is None else state.speed, change)
        for one, change in zip(boat.assumed, changes, strict=True)
    ]
    told.sort(key=lambda one: -abs(one["ride_height_change_mm"] or 0.0))
    return {"format": "foilwright/assumed", "version": 1, "assumed": told}


def sheet_to_fill(boat: ReadyBoat) -> PageBlank:
    """The bench sheet of a boat before anything was read, line by line in the order of the measurement."""
    return {
        "format": "foilwright/blank",
        "version": 1,
        "boat": boat.name,
        "kinds": [
            {
                "what": what,
                "meaning": kind.meaning,
                "unit": kind.unit,
                "places": list(kind.places),
                "wand": kind.wand,
                "load": kind.load,
            }
            for what, kind in KINDS.items()
        ],
        "batten_mm": BATTEN_MM,
        "lines": [blank._asdict() for blank in blank_sheet(boat.file)],
    }


def warm_up(it: Asked) -> None:
    """Gets the compiled physics ready; takes a minute the first time on a machine."""
    none = np.zeros(0, dtype=np.int64)
    all_states(it.row, it.boat.tables, it.around.water, none, np.zeros((1, 0)), np.array([6.0]))


def outcome_words() -> dict[str, str]:
    """Every outcome with its sentence and remedy."""
    return {outcome.name: f"{outcome.sentence} {outcome.remedy}" for outcome in OUTCOMES}
