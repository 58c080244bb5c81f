"""Every steady state by another way, that shares with the search only the balance and the last polish.

Heave and pitch on a grid over all ride heights and trims; where both change sign among the corners of a cell
there may be a state, and Newton's rule is started from its middle.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from foilwright.compiled import plain
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.at_speed import case_of, scratch
from foilwright.flight.trim_at_speed import SOLVED_TOLERANCE, polished
from foilwright.measures import Floats
from foilwright.water.properties import Water
from tests.many_balances import all_balances

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
