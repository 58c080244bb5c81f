"""How sure the ride height is: what each assumption is worth, and all doubts together.

Each number is put to its ends, the sailor and the settings kept. What the balance then misses gives the
change of the state to first order, from the slopes of the balance at the solved state; the dozen that
matter most are solved again. The shape of the hull is left out: a flying hull is out of the water.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from foilwright.compiled import plain
from foilwright.documents.boat_numbers import FOILS, ReadyBoat, section_specs
from foilwright.documents.boat_table import given_errors
from foilwright.documents.setup_card import HowSure
from foilwright.flight.at_speed import Steady, case_of, scratch
from foilwright.flight.boat import Tables
from foilwright.flight.chain_behaviour import unpacked
from foilwright.flight.trim_at_speed import (
    SOLVED_TOLERANCE,
    Case,
    Slopes,
    balance,
    larger_of,
    settled,
    slopes_at,
)
from foilwright.measures import Floats
from foilwright.outcomes import SOLVED
from foilwright.units import to_si
from foilwright.water.properties import Water
from foilwright.water.section import SectionTables
from foilwright.water.section_data import tables_for

REFERENCE_SPEED = to_si(12.0, "kn")
"""Where assumptions are weighed, or at the nearest speed that flies [m/s]."""

SOLVED_AGAIN = 12
"""How many of the largest changes are solved again rather than taken to first order ..."""

SOLVED_FOR_SUM = 4
"""... and how many where only their sum is asked for."""

WORTH_IT = 0.001
"""Changes below this [m] are left at first order."""

OF_SECTIONS = ("roughness", "zero_lift_shift_deg", "greatest_lift_factor", "flap_chord_share")
"""Numbers of a foil that change its section tables, some of them beside the row."""


class Flying(NamedTuple):
    """The boat as it flies: the row with its settings and its sailor, and the solved state."""

    boat: ReadyBoat
    row: Floats
    water: Water
    state: Steady


class _Ends(NamedTuple):
    """A number at its low and its high end, each as a row and its tables."""

    low: tuple[Floats, Tables]
    high: tuple[Floats, Tables]


def reference_state(rows: Sequence[Steady]) -> Steady | None:
    """The stable flying state nearest to the reference speed."""
    flying = [s for s in rows if s.state == "flying" and s.stable and s.outcome == SOLVED]
    return min(flying, key=lambda s: abs(s.speed - REFERENCE_SPEED), default=None)


def assumed_changes(flying: Flying) -> list[float | None]:
    """Change of ride height [m] when each assumption goes from low to high, in the boat's order."""
    bands = {one.name: (one.low, one.high) for one in flying.boat.assumed}
    changes = height_changes(flying, bands)
    return [changes[one.name] for one in flying.boat.assumed]


def how_sure(flying: Flying) -> HowSure:
    """All doubts together as one standard error: measured ones by their own, assumed ones by half their band.

    Independent of each other, so their squares add; doubts of the models are not in it.
    """
    boat = flying.boat
    bands = {one.name: (one.low, one.high) for one in boat.assumed}
    assumed = set(bands)
    errors = given_errors(boat.file)
    bands |= {name: (boat.numbers[name] - se, boat.numbers[name] + se) for name, se in errors.items()}
    changes = height_changes(flying, bands, SOLVED_FOR_SUM)
    parts = {name: 0.5 * (change or 0.0) for name, change in changes.items()}
    biggest = max(parts, key=lambda name: abs(parts[name]), default="")
    total = sum(part * part for part in parts.values()) ** 0.5
    return HowSure(flying.state.speed, total, biggest, biggest in assumed)


def height_changes(
    flying: Flying, bands: Mapping[str, tuple[float, float]], again: int = SOLVED_AGAIN
) -> dict[str, float | None]:
    """Change of ride height [m] from low to high for numbers of the boat file, in the file's units.

    None where one of the `again` largest, which are solved again, finds no state at one of its ends.
    """
    state = flying.state
    items = plain(scratch().items)
    case = case_of(flying.row, flying.boat.tables, flying.water, state.speed, state.heel)
    lift, pitch = balance(case, state.height, state.trim, items)
    slopes = slopes_at(case, state.height, state.trim, lift, pitch, items)
    ends = {name: _ends(flying, name, low, high) for name, (low, high) in bands.items()}
    changes: dict[str, float | None] = {}
    for name, both in ends.items():
        heights = [_first_order(flying, case, slopes, row, tables, items) for row, tables in both]
        changes[name] = heights[1] - heights[0]
    largest = sorted(changes, key=lambda name: -abs(changes[name] or 0.0))[:again]
    for name in largest:
        if abs(changes[name] or 0.0) > WORTH_IT:
            found = [_height(flying, case, slopes, row, tables, items) for row, tables in ends[name]]
            low, high = found
            changes[name] = None if low is None or high is None else high - low
    return changes


def _first_order(
    flying: Flying, reference: Case, slopes: Slopes, row: Floats, tables: Tables, items: Floats
) -> float:
    """Change of ride height [m] that takes away what this row misses, by the slopes of the balance."""
    if _is_same(flying, row, tables):
        return 0.0
    state = flying.state
    lift, pitch = balance(_changed(flying, reference, row, tables), state.height, state.trim, items)
    determinant = slopes.lift_by_height * slopes.pitch_by_trim - slopes.lift_by_trim * slopes.pitch_by_height
    return -(slopes.pitch_by_trim * lift - slopes.lift_by_trim * pitch) / determinant


def _height(
    flying: Flying, reference: Case, slopes: Slopes, row: Floats, tables: Tables, items: Floats
) -> float | None:
    """Ride height [m] of the state of this row, found from the state as it is; None where none settles."""
    state = flying.state
    if _is_same(flying, row, tables):
        return state.height
    case = _changed(flying, reference, row, tables)
    lift, pitch = balance(case, state.height, state.trim, items)
    height, _, lift, pitch = settled(case, state.height, state.trim, lift, pitch, slopes, items)
    return None if larger_of(lift, pitch) > SOLVED_TOLERANCE else height


def _changed(flying: Flying, reference: Case, row: Floats, tables: Tables) -> Case:
    """The case as it flies, with another row, and other tables where those are others."""
    case = reference._replace(boat=plain(unpacked(row)))
    return case if tables is flying.boat.tables else case._replace(tables=plain(tables))


def _is_same(flying: Flying, row: Floats, tables: Tables) -> bool:
    return tables is flying.boat.tables and np.array_equal(row, flying.row)


def _ends(flying: Flying, name: str, low: float, high: float) -> _Ends:
    return _Ends(_with(flying, name, low), _with(flying, name, high))


def _with(flying: Flying, name: str, value: float) -> tuple[Floats, Tables]:
    """The row and the tables with one number of the file changed; the sailor stays who it is."""
    boat = flying.boat
    row = flying.row + (boat.row_with({name: value}) - boat.row)
    crew = boat.names.index("crew.mass")
    row[crew] = flying.row[crew]
    tables = boat.tables
    if name.endswith(OF_SECTIONS):
        tables = tables._replace(sections=_sections_with(boat, name, value))
    return row, tables


def _sections_with(boat: ReadyBoat, name: str, value: float) -> SectionTables:
    """The section tables with one number of a foil changed; the other foil's are kept."""
    i = FOILS.index(name.partition(".")[0])
    changed = tables_for([section_specs(boat.file, {**boat.numbers, name: value})[i]])
    sections = boat.tables.sections
    line, polar = sections.line.copy(), sections.polar.copy()
    line[i], polar[i] = changed.line[0], changed.polar[0]
    return sections._replace(line=line, polar=polar)
