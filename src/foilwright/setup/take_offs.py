"""Take-off speeds of many settings at once: where the hull comes clear of the water, upright.

Looked for on a ladder of boat speeds: every fourth rung first, then only the rungs between which the hull
comes clear.
"""

from math import cos, sin

import numpy as np

from foilwright.flight.at_speed import case_of
from foilwright.flight.many import all_states
from foilwright.measures import Floats, Ints
from foilwright.setup.standing import Standing
from foilwright.water.hull import lowest_point

CLIMB_STEP, CLIMB_STEPS = 0.15, 8  # of the speeds at which a take-off is looked for [m/s], either way
STRIDE = 4  # rungs looked at first
TRIMS = np.radians(np.linspace(-8.0, 10.0, 37))  # at which the hull's lowest point is tabled


def climb_speeds(take_off: float | None, middle: float) -> Floats:
    """Boat speeds around the present take-off [m/s], or around the middle of what is sailed without one."""
    about = take_off if take_off is not None else middle
    return np.asarray(about + np.arange(-CLIMB_STEPS, CLIMB_STEPS + 1) * CLIMB_STEP, dtype=float)


def take_offs_of(standing: Standing, speeds: Floats, changes: Floats) -> list[float]:
    """Slowest boat speed at which each change of the row lets it fly [m/s], infinite without one.

    changes  of the row as it stands [settings, numbers];  speeds  the ladder, rising

    Good to 0.06 m/s where the hull meets the water and to 0.10 m/s where the flying state ends above it. A
    take-off below the lowest rung counts as there.
    """
    clear = np.full((len(changes), len(speeds)), np.nan)
    coarse = np.arange(0, len(speeds), STRIDE)
    which = np.repeat(np.arange(len(changes)), len(coarse))
    rungs = np.tile(coarse, len(changes))
    clear[which, rungs] = _clear(standing, changes, which, speeds, rungs)
    finer = []
    for i in range(len(changes)):
        wet = coarse[~(clear[i, coarse] > 0.0)]
        last = int(wet[-1]) if wet.size else 0
        finer += [(i, rung) for rung in range(last + 1, min(last + STRIDE, len(speeds))) if wet.size]
        clear[i, :last] = -1.0
        clear[i, last + STRIDE + 1 :] = 1.0
        if not wet.size:
            clear[i] = 1.0
    if finer:
        which, rungs = np.array(finer).T
        clear[which, rungs] = _clear(standing, changes, which, speeds, rungs)
    return [_first_clear(speeds, one) for one in clear]


def _clear(standing: Standing, changes: Floats, which: Ints, speeds: Floats, rungs: Ints) -> Floats:
    """Height of the hull's lowest point over the water [m] of some settings, each at its speed."""
    base = standing.present_row
    numbers = np.flatnonzero(np.abs(changes).max(axis=0) > 0.0)
    states, counts, _ = all_states(
        base, standing.tables, standing.water, numbers, np.ascontiguousarray(changes[which][:, numbers]),
        np.ascontiguousarray(speeds[rungs]), 0.0,
    )  # fmt: skip
    x = case_of(base, standing.tables, standing.water, 1.0, 0.0).boat.main.x
    level = np.array([lowest_point(standing.tables.hull, 0.0, sin(t), cos(t), 0.0, 1.0, x) for t in TRIMS])
    height = np.where(states[:, :, 2] > 0.0, states[:, :, 0], np.nan)
    height[np.arange(height.shape[1])[None, :] >= counts[:, None]] = np.nan
    clear = height + np.interp(states[:, :, 1], TRIMS, level)
    # Of several states at a speed the lowest that is clear of the water; without one the highest that is not.
    lowest = np.where(clear > 0.0, clear, np.inf).min(axis=1)
    highest = np.where(clear <= 0.0, clear, -np.inf).max(axis=1)
    return np.asarray(np.where(np.isfinite(lowest), lowest, highest), dtype=float)


def _first_clear(speeds: Floats, clear: Floats) -> float:
    """The speed from which the hull stays clear, by a straight line between two of the speeds [m/s]."""
    wet = np.flatnonzero(~(clear > 0.0))
    first = int(wet[-1]) + 1 if wet.size else 0
    if first >= len(speeds):
        return float("inf")
    if first == 0:
        return float(speeds[0])
    below, above = clear[first - 1], clear[first]
    share = -below / (above - below) if np.isfinite(below) else 0.5
    return float(speeds[first - 1] + share * (speeds[first] - speeds[first - 1]))
