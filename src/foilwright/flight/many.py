"""The only loops over cases: a base row, a few numbers changed in each case, one boat speed a case.

Outermost kernels; `compiled.py` compiles them and maps them over threads. The results of a case never
depend on the case before.
"""

import numpy as np

from foilwright.compiled import compiled, over_threads
from foilwright.flight.boat import Tables, boat_from, scratch_shapes
from foilwright.flight.every_state import near_state, steady_states
from foilwright.flight.loads import N_ITEMS
from foilwright.flight.look import LOOK_SIZE, look
from foilwright.flight.state import Around, still
from foilwright.flight.trim_at_speed import (
    FOUND_SIZE,
    LINE_SIZE,
    MOST_ROWS,
    MOST_STATES,
    SLOPES_AT,
    Case,
    Slopes,
    Work,
    balance,
)
from foilwright.measures import Floats, Ints
from foilwright.outcomes import GAVE_UP, NO_BALANCE, SOLVED
from foilwright.water.properties import Water


def many_flights(
    base: Floats,
    tables: Tables,
    water: Water,
    around: Around,
    heel: float,
    pull_share: float,
    numbers: Ints,
    changes: Floats,
    speeds: Floats,
    near: Floats,
    start: int,
    stop: int,
    row: Floats,
    links: Floats,
    drawn: Floats,
    items: Floats,
    scan: Floats,
    found: Floats,
    states: Floats,
    counts: Ints,
    outcomes: Ints,
    seen: Floats,
) -> None:
    """The steady states of the cases start..stop: all of them, or with `near` the one near a known state.

    Case i is the base row with `changes` [cases, k] added to its numbers [k], at speeds[i] [m/s]. `near`
    [cases, 2 or 6] holds a height [m] and a trim [rad] a case, and if known the slopes of the balance there;
    or it has no rows: then every state is sought, and nothing is assumed about neighbours. Where `seen`
    [cases, LOOK_SIZE] has rows nothing is sought: each boat is held at `near` and looked at. One kernel for
    all three, since the way to one state may have to look for every other, and each kernel takes a minute to
    compile.

    Out: `states` [cases, MOST_STATES, FOUND_SIZE]: height, trim, stable, largest miss, slopes (with `near`
    neither stable nor slopes); `counts` [cases]; `outcomes` [cases]: solved, or why there is none; `seen`.
    The rest is scratch.
    """
    for i in range(start, stop):
        for j in range(base.shape[0]):
            row[j] = base[j]
        for k in range(numbers.shape[0]):
            row[numbers[k]] = row[numbers[k]] + changes[i, k]
        case = Case(boat_from(row, links, drawn), tables, water, around, speeds[i], heel, pull_share)
        if seen.shape[0] > 0:
            look(case, near[i, 0], near[i, 1], items, seen[i])
        elif near.shape[0] > 0:
            slopes = Slopes(0.0, 0.0, 0.0, 0.0)
            if near.shape[1] > 2:
                slopes = Slopes(near[i, 2], near[i, 3], near[i, 4], near[i, 5])
            work = Work(items, scan, found)
            height, trim, miss, outcome = near_state(case, near[i, 0], near[i, 1], slopes, work)
            states[i, 0, 0] = height
            states[i, 0, 1] = trim
            states[i, 0, 3] = miss
            counts[i] = 1
            outcomes[i] = outcome
        else:
            count, lost = steady_states(case, Work(items, scan, states[i]))
            counts[i] = count
            outcomes[i] = SOLVED
            if lost > 0:
                outcomes[i] = GAVE_UP
            elif count == 0:
                outcomes[i] = NO_BALANCE


NO_NEIGHBOURS = np.zeros((0, 2))
AS_NEIGHBOUR = [0, 1, *range(SLOPES_AT, SLOPES_AT + 4)]  # columns of a state that `near_states` begins from
NO_LOOKS = np.zeros((0, LOOK_SIZE))


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
    """Every state of many cases, compiled, over threads: states [cases, MOST_STATES, FOUND_SIZE], counts,
    outcomes, as in `many_flights`.
    """
    return _flights(
        base, tables, water, numbers, changes, speeds, NO_NEIGHBOURS, NO_LOOKS, heel, pull_share, threads
    )


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
    """The state of each case near to `near` [cases, 2], or [cases, 6] with the slopes that `all_states` found
    there, compiled, over threads: states [cases, 3] as height, trim, largest miss; outcomes.
    """
    near = np.ascontiguousarray(near)
    states, _, outcomes = _flights(
        base, tables, water, numbers, changes, speeds, near, NO_LOOKS, heel, pull_share, threads
    )
    return states[:, 0, [0, 1, 3]], outcomes


def looks_at(
    base: Floats,
    tables: Tables,
    water: Water,
    numbers: Ints,
    changes: Floats,
    speeds: Floats,
    held: Floats,
    heel: float = 0.0,
    pull_share: float = 1.0,
    threads: int | None = 1,
) -> Floats:
    """Each case held at a height [m] and trim [rad], `held` [cases, 2], and looked at, compiled: what `look`
    sees [cases, LOOK_SIZE].
    """
    seen = np.zeros((len(speeds), LOOK_SIZE))
    if len(speeds):
        held = np.ascontiguousarray(held)
        _flights(base, tables, water, numbers, changes, speeds, held, seen, heel, pull_share, threads)
    return seen


def _flights(
    base: Floats,
    tables: Tables,
    water: Water,
    numbers: Ints,
    changes: Floats,
    speeds: Floats,
    near: Floats,
    seen: Floats,
    heel: float,
    pull_share: float,
    threads: int | None,
) -> tuple[Floats, Ints, Ints]:
    cases = len(speeds)
    states = np.zeros((cases, 1 if len(near) else MOST_STATES, FOUND_SIZE))
    counts = np.zeros(cases, dtype=np.int64)
    outcomes = np.zeros(cases, dtype=np.int64)
    links, drawn = scratch_shapes(len(base))
    kernel = compiled(many_flights, balance)

    def run(start: int, stop: int) -> None:
        kernel(
            base, tables, water, still(), heel, pull_share, numbers, changes, speeds, near, start, stop,
            np.empty(len(base)), np.empty(links), np.empty(drawn), np.empty((N_ITEMS, 6)),
            np.empty((MOST_ROWS, LINE_SIZE)), np.empty((MOST_STATES, FOUND_SIZE)), states, counts, outcomes,
            seen,
        )  # fmt: skip

    over_threads(run, cases, threads)
    return states, counts, outcomes
