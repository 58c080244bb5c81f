"""The only loops over cases: a base row, a few numbers changed in each case, one boat speed a case.

Outermost kernels; `compiled.py` compiles them and maps them over threads. The results of a case never
depend on the case before.
"""

import numpy as np

from foilwright.compiled import compiled, over_threads
from foilwright.flight.boat import Tables, boat_from, scratch_shapes
from foilwright.flight.every_state import near_state, steady_states
from foilwright.flight.loads import N_ITEMS
from foilwright.flight.state import Around, still
from foilwright.flight.trim_at_speed import (
    FOUND_SIZE,
    LINE_SIZE,
    MOST_ROWS,
    MOST_STATES,
    Case,
    Work,
    balance,
)
from foilwright.measures import Floats, Ints
from foilwright.outcomes import GAVE_UP, NO_BALANCE, SOLVED
from foilwright.water.properties import Water


def many_states(
    base: Floats,
    tables: Tables,
    water: Water,
    around: Around,
    heel: float,
    pull_share: float,
    numbers: Ints,
    changes: Floats,
    speeds: Floats,
    start: int,
    stop: int,
    row: Floats,
    links: Floats,
    drawn: Floats,
    items: Floats,
    scan: Floats,
    states: Floats,
    counts: Ints,
    outcomes: Ints,
) -> None:
    """Every steady state of the cases start..stop, nothing assumed about neighbours.

    Case i is the base row with `changes` [cases, k] added to its numbers [k], at speeds[i] [m/s].
    Out: `states` [cases, MOST_STATES, FOUND_SIZE], `counts` [cases], `outcomes` [cases]. The rest is scratch.
    """
    for i in range(start, stop):
        for j in range(base.shape[0]):
            row[j] = base[j]
        for k in range(numbers.shape[0]):
            row[numbers[k]] = row[numbers[k]] + changes[i, k]
        case = Case(boat_from(row, links, drawn), tables, water, around, speeds[i], heel, pull_share)
        count, lost = steady_states(case, Work(items, scan, states[i]))
        counts[i] = count
        outcomes[i] = SOLVED
        if lost > 0:
            outcomes[i] = GAVE_UP
        elif count == 0:
            outcomes[i] = NO_BALANCE


def many_polished(
    base: Floats,
    tables: Tables,
    water: Water,
    around: Around,
    heel: float,
    pull_share: float,
    numbers: Ints,
    changes: Floats,
    speeds: Floats,
    start: int,
    stop: int,
    row: Floats,
    links: Floats,
    drawn: Floats,
    items: Floats,
    scan: Floats,
    found: Floats,
    near: Floats,
    states: Floats,
    outcomes: Ints,
) -> None:
    """The steady state of each case near to `near` [cases, 2]: height [m] and trim [rad].

    Out: `states` [cases, 3]: height, trim, largest miss; `outcomes` [cases]: solved, or why there is none.
    """
    for i in range(start, stop):
        for j in range(base.shape[0]):
            row[j] = base[j]
        for k in range(numbers.shape[0]):
            row[numbers[k]] = row[numbers[k]] + changes[i, k]
        case = Case(boat_from(row, links, drawn), tables, water, around, speeds[i], heel, pull_share)
        height, trim, miss, outcome = near_state(case, near[i, 0], near[i, 1], Work(items, scan, found))
        states[i, 0] = height
        states[i, 1] = trim
        states[i, 2] = miss
        outcomes[i] = outcome


def all_states(
    base: Floats,
    tables: Tables,
    water: Water,
    numbers: Ints,
    changes: Floats,
    speeds: Floats,
    heel: float = 0.0,
    pull_share: float = 1.0,
    threads: int | None = None,
) -> tuple[Floats, Ints, Ints]:
    """Compiled `many_states` over threads: states [cases, MOST_STATES, FOUND_SIZE], counts, outcomes."""
    cases = len(speeds)
    states = np.zeros((cases, MOST_STATES, FOUND_SIZE))
    counts = np.zeros(cases, dtype=np.int64)
    outcomes = np.zeros(cases, dtype=np.int64)
    links, drawn = scratch_shapes(len(base))
    kernel = compiled(many_states, balance)

    def run(start: int, stop: int) -> None:
        kernel(
            base, tables, water, still(), heel, pull_share, numbers, changes, speeds, start, stop,
            np.empty(len(base)), np.empty(links), np.empty(drawn), np.empty((N_ITEMS, 6)),
            np.empty((MOST_ROWS, LINE_SIZE)), states, counts, outcomes,
        )  # fmt: skip

    over_threads(run, cases, threads)
    return states, counts, outcomes


def near_states(
    base: Floats,
    tables: Tables,
    water: Water,
    numbers: Ints,
    changes: Floats,
    speeds: Floats,
    near: Floats,
    heel: float = 0.0,
    pull_share: float = 1.0,
    threads: int | None = None,
) -> tuple[Floats, Ints]:
    """Compiled `many_polished` over threads: states [cases, 3], outcomes."""
    cases = len(speeds)
    states = np.zeros((cases, 3))
    outcomes = np.zeros(cases, dtype=np.int64)
    links, drawn = scratch_shapes(len(base))
    kernel = compiled(many_polished, balance)

    def run(start: int, stop: int) -> None:
        kernel(
            base, tables, water, still(), heel, pull_share, numbers, changes, speeds, start, stop,
            np.empty(len(base)), np.empty(links), np.empty(drawn), np.empty((N_ITEMS, 6)),
            np.empty((MOST_ROWS, LINE_SIZE)), np.empty((MOST_STATES, FOUND_SIZE)), near, states, outcomes,
        )  # fmt: skip

    over_threads(run, cases, threads)
    return states, outcomes
