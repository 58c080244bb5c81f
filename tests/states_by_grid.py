"""Every steady state by another way, that shares with the search only the balance and the last polish.

Heave and pitch on a grid over all ride heights and trims; where both change sign among the corners of a cell
there may be a state, and Newton's rule is started from its middle.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from foilwright.compiled import plain
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.at_speed import case_of, scratch
from foilwright.flight.many import all_states
from foilwright.flight.trim_at_speed import SOLVED_TOLERANCE, polished
from foilwright.measures import Floats
from foilwright.outcomes import GAVE_UP
from foilwright.water.properties import Water, water_at
from tests.demo_boats import KN, demo_boat
from tests.many_balances import all_balances
from tests.random_boats import random_boats

HEIGHTS = np.arange(-0.6, 1.3001, 0.0125)  # [m]
TRIMS = np.radians(np.arange(-8.0, 11.5001, 0.125))
APART = 1e-6  # [m, rad]


def states_by_grid(row: Floats, boat: ReadyBoat, water: Water, speed: float) -> Floats:
    """Heights and trims [n, 2] of the states of a row at a boat speed [m/s]."""
    trims, heights = np.meshgrid(TRIMS, HEIGHTS, indexing="ij")
    flat = (np.full(trims.size, speed), heights.ravel(), trims.ravel())
    misses = all_balances(row, boat.tables, water, *flat).reshape(*trims.shape, 2)
    i, j = np.nonzero(changing(misses[:, :, 0]) & changing(misses[:, :, 1]))
    case = case_of(row, boat.tables, water, speed, 0.0)
    items = plain(scratch().items)
    found: list[tuple[float, float]] = []
    for height, trim in zip(
        0.5 * (HEIGHTS[j] + HEIGHTS[j + 1]), 0.5 * (TRIMS[i] + TRIMS[i + 1]), strict=True
    ):
        state = polished(case, float(height), float(trim), items)
        if state[2] < SOLVED_TOLERANCE and not is_among(state[:2], np.array(found).reshape(-1, 2)):
            found.append(state[:2])
    return np.array(found).reshape(-1, 2)


def changing(values: Floats) -> npt.NDArray[np.bool_]:
    """The cells of a grid whose corners differ in sign."""
    up = values > 0.0
    corners = (up[:-1, :-1], up[1:, :-1], up[:-1, 1:], up[1:, 1:])
    both: npt.NDArray[np.bool_] = np.logical_or.reduce(corners) & ~np.logical_and.reduce(corners)
    return both


def is_among(state: tuple[float, float], states: Floats) -> bool:
    """Whether a height and trim are among some [n, 2 or more]."""
    return bool(np.any(np.abs(states[:, :2] - state).max(axis=1, initial=0.0) < APART))


def is_inside(state: tuple[float, float]) -> bool:
    """Whether a state lies on the grid."""
    height, trim = state
    return bool(HEIGHTS[0] < height < HEIGHTS[-1] and TRIMS[0] <= trim <= TRIMS[-1])


class Met(NamedTuple):
    """The search and the grid on random boats."""

    on_grid: int  # states that the grid found
    missed: list[str]  # those of them that the search lacks, in words
    more: int  # states of the search that the grid stepped over
    several: int  # cases with more than one state
    gave_up: int


def against_the_grid(name: str, count: int, seed: int, looked_at: int | None = None) -> Met:
    """So many boats around a demo boat, each at a speed from 4 to 22 kn. The grid is slow: `looked_at` of
    them, those with several states first, or all.
    """
    boat, water = demo_boat(name), water_at()
    boats = random_boats(boat, count, seed)
    speeds = np.random.default_rng(seed).uniform(4.0, 22.0, count) * KN
    given = (boat.row, boat.tables, water, boats.numbers, boats.changes, speeds)
    states, counts, outcomes = all_states(*given)
    on_grid, missed, more = 0, [], 0
    several_first = np.argsort(counts <= 1, kind="stable")
    for i in map(int, several_first[:looked_at]):
        speed = float(speeds[i])
        theirs, ours = states_by_grid(boats.row(i), boat, water, speed), states[i, : counts[i]]
        inside = [(float(h), float(t)) for h, t in theirs if is_inside((float(h), float(t)))]
        on_grid += len(inside)
        for where in inside:
            if not is_among(where, ours):
                missed.append(f"{name} {i} at {speed / KN:.2f} kn: {where}")
        more += sum(not is_among((float(one[0]), float(one[1])), theirs) for one in ours)
    return Met(on_grid, missed, more, int((counts > 1).sum()), int((outcomes == GAVE_UP).sum()))
