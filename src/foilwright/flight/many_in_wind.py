"""The only loop over cases in wind: a base row, a few numbers changed in each case, one wind a case.

The outermost kernel; `compiled.py` compiles it and maps it over threads. The results of a case never depend
on the case before.
"""

import sys
from math import cos, sin
from typing import NamedTuple

import numpy as np

from foilwright.compiled import cache_folder, compiled, over_threads
from foilwright.flight.boat import Tables, boat_from, scratch_shapes
from foilwright.flight.loads import N_ITEMS
from foilwright.flight.state import Around
from foilwright.flight.take_off import way_up
from foilwright.flight.wind_balance import Helm, Sailing, left_over
from foilwright.flight.wind_curve import MOST_POINTS, MOST_SPEED, POINT_SIZE
from foilwright.flight.wind_scan import N_TRIMS, SCAN_SIZE
from foilwright.flight.wind_settle import Work
from foilwright.flight.wind_states import FOUND_SIZE, MOST_FOUND, SEED_SPEEDS, find_curves, states_on_curves
from foilwright.measures import Floats, Ints
from foilwright.outcomes import GAVE_UP, NO_BALANCE, SOLVED
from foilwright.water.properties import Water

WAY_SIZE = 11  # the numbers of a WayUp


class InWind(NamedTuple):
    """One case: what the air does and what heel is held. SI and radians."""

    wind: float  # at 10 m [m/s]
    angle: float  # between the course and where the wind comes from [rad]
    floating_heel: float  # to leeward positive [rad]
    flying_heel: float


def wind_around(wind: float, angle: float, roughness: float) -> Around:
    """Wind [m/s] from starboard at an angle off the course [rad], on flat water."""
    return Around(
        -wind * cos(angle), wind * sin(angle), roughness, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0
    )


def many_in_wind(
    base: Floats,
    tables: Tables,
    water: Water,
    roughness: float,
    numbers: Ints,
    changes: Floats,
    winds: Floats,
    seeds: Floats,
    fastest: float,
    start: int,
    stop: int,
    row: Floats,
    links: Floats,
    drawn: Floats,
    work: Work,
    states: Floats,
    ways: Floats,
    counts: Ints,
    outcomes: Ints,
) -> None:
    """Every steady state of the cases start..stop, and the way up from rest of each.

    Case i is the base row with `changes` [cases, k] added to its numbers [k], in winds[i] [cases, 4], the
    numbers of InWind. Out: `states` [cases, MOST_FOUND, FOUND_SIZE], `ways` [cases, WAY_SIZE], `counts`,
    `outcomes`. The rest is scratch.
    """
    for i in range(start, stop):
        for j in range(base.shape[0]):
            row[j] = base[j]
        for k in range(numbers.shape[0]):
            row[numbers[k]] = row[numbers[k]] + changes[i, k]
        case = Sailing(
            boat_from(row, links, drawn),
            tables,
            water,
            wind_around(winds[i, 0], winds[i, 1], roughness),
            Helm(winds[i, 2], winds[i, 3]),
            fastest,
        )
        points = find_curves(case, seeds, work)
        way = way_up(case, work, points)
        ways[i, 0] = way.end
        ways[i, 1] = way.speed
        ways[i, 2] = way.height
        ways[i, 3] = way.flying
        ways[i, 4] = way.take_off
        ways[i, 5] = way.seconds
        ways[i, 6] = way.hump
        ways[i, 7] = way.hump_speed
        ways[i, 8] = way.hump_height
        ways[i, 9] = way.slowest
        ways[i, 10] = way.flying_surplus
        answer = states_on_curves(case, work, points)
        for k in range(answer.states):
            for j in range(FOUND_SIZE):
                states[i, k, j] = work.found[k, j]
        counts[i] = answer.states
        outcomes[i] = SOLVED
        if answer.lost > 0:
            outcomes[i] = GAVE_UP
        elif answer.states == 0:
            outcomes[i] = NO_BALANCE


def at_hand() -> bool:
    """Whether the compiled kernel is in this process or kept on disk, so that using it costs no compiling."""
    if "numba" in sys.modules and compiled(many_in_wind, left_over).signatures:  # type: ignore[attr-defined]
        return True
    folder = cache_folder()
    return folder is not None and any(folder.rglob("many_in_wind.many_in_wind-*.nbi"))


def scratch_in_wind() -> Work:
    """Scratch of one thread."""
    return Work(
        np.zeros((N_ITEMS, 6)), np.zeros(6), np.zeros(6), np.zeros(6), np.zeros(6), np.zeros(6),
        np.zeros((6, 6)), np.zeros((6, 6)), np.zeros((6, 8)), np.zeros((N_TRIMS, SCAN_SIZE)),
        np.zeros((MOST_POINTS, POINT_SIZE)), np.zeros((MOST_FOUND, FOUND_SIZE)),
    )  # fmt: skip


class Found(NamedTuple):
    """What a batch found, by case."""

    states: Floats  # [cases, MOST_FOUND, FOUND_SIZE]
    ways: Floats  # [cases, WAY_SIZE]
    counts: Ints
    outcomes: Ints


def all_in_wind(
    base: Floats,
    tables: Tables,
    water: Water,
    roughness: float,
    numbers: Ints,
    changes: Floats,
    winds: Floats,
    seeds: Floats | None = None,
    threads: int | None = None,
    fastest: float = MOST_SPEED,
) -> Found:
    """Compiled `many_in_wind` over threads; `winds` [cases, 4] are the numbers of InWind."""
    cases = len(winds)
    found = Found(
        np.zeros((cases, MOST_FOUND, FOUND_SIZE)),
        np.zeros((cases, WAY_SIZE)),
        np.zeros(cases, dtype=np.int64),
        np.zeros(cases, dtype=np.int64),
    )
    links, drawn = scratch_shapes(len(base))
    kernel = compiled(many_in_wind, left_over)
    looked_at = np.array(SEED_SPEEDS) if seeds is None else seeds

    def run(start: int, stop: int) -> None:
        kernel(
            base, tables, water, roughness, numbers, changes, winds, looked_at, fastest, start, stop,
            np.empty(len(base)), np.empty(links), np.empty(drawn), scratch_in_wind(), *found,
        )  # fmt: skip

    over_threads(run, cases, threads)
    return found
