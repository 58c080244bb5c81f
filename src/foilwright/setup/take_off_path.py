"""The flying state followed down to its take-off by ride height: the same way for a clear end and a fold.

At each height the balance gives boat speed and trim. On the way down the speed falls with the height until
the hull meets the water, or until it would rise again: that is the fold, where the flying state ends. By
speed instead of by height the fold could not be passed, and its place not be seen.
"""

from math import fabs
from typing import NamedTuple

import numpy as np

from foilwright.flight.at_speed import Steady
from foilwright.measures import Floats
from foilwright.setup.trial import Trial

STEP_DOWN = 0.06  # [m]
INTO_WATER = 0.004  # [m]
MOST_STEPS = 24
CLOSE = 1e-6  # of weight
DIFFERENCE = 1e-5  # [m/s, rad]
LOOKS = 8
LONGEST = 0.24  # step of speed [m/s] or trim [rad]
JUST_ABOVE = 0.001  # [m]
FOLD_CLOSE = 2e-4  # [m]
ROUNDS = 6  # of the last search for the end


class TakeOff(NamedTuple):
    """A take-off: boat speed [m/s], ride height [m], trim [rad]; `clear`: the hull touches there, no fold."""

    speed: float
    height: float
    trim: float
    clear: bool


class _Path:
    """Speed and trim that balance at a height, with the derivatives learnt on the way (Broyden)."""

    def __init__(self, trial: Trial, top: Steady) -> None:
        self.trial = trial
        at = np.array([top.speed, top.trim])
        here = self._miss(top.height, at)
        columns = []
        for i in (0, 1):
            moved = at.copy()
            moved[i] += DIFFERENCE
            columns.append((self._miss(top.height, moved) - here) / DIFFERENCE)
        self.slopes = np.stack(columns, axis=1)

    def _miss(self, height: float, at: Floats) -> Floats:
        return np.array(self.trial.balance(float(at[0]), height, float(at[1])))

    def at(self, height: float, start: Floats) -> Floats | None:
        """Speed and trim at a height, from a start; None where nothing is near."""
        at = np.array(start, dtype=float)
        miss = self._miss(height, at)
        for _ in range(LOOKS):
            if np.abs(miss).max() < CLOSE:
                return at
            if fabs(float(np.linalg.det(self.slopes))) < 1e-12:
                return None
            step = np.clip(-np.linalg.solve(self.slopes, miss), -LONGEST, LONGEST)
            at = at + step
            if at[0] <= 0.5:
                return None
            after = self._miss(height, at)
            wrong = after - miss - self.slopes @ step
            self.slopes = self.slopes + np.outer(wrong, step) / (step @ step + 1e-300)
            miss = after
        return at if np.abs(miss).max() < CLOSE else None

    def lowest(self, height: float, at: Floats) -> float:
        """The hull's lowest point over the water [m]."""
        return self.trial.lowest(height, float(at[1]))


def reached_from(trial: Trial, top: Steady) -> TakeOff | None:
    """The take-off below a stable flying state, to about 0.001 m/s; None where the way down is lost."""
    path = _Path(trial, top)
    points: list[tuple[float, Floats]] = [(top.height, np.array([top.speed, top.trim]))]
    shorter = 1.0
    for _ in range(MOST_STEPS):
        height, last = points[-1]
        # Just into the water and no deeper: there everything bends.
        step = shorter * min(STEP_DOWN, max(path.lowest(height, last), 0.0) + INTO_WATER)
        start = last
        if len(points) > 1:
            start = last + step / (points[-2][0] - height) * (last - points[-2][1])
        below = height - step
        found = path.at(below, start)
        if found is None:
            shorter *= 0.5
            continue
        points.append((below, found))
        if found[0] > last[0]:
            return _fold(path, points)
        if path.lowest(below, found) < 0.0:
            return _touching(path, points)
    return None


def _touching(path: _Path, points: list[tuple[float, Floats]]) -> TakeOff | None:
    """Where the hull meets the water between the last two points; or the fold, if that comes first."""
    (high, above), (low, under) = points[-2:]
    over, below = path.lowest(high, above), path.lowest(low, under)
    height, found = low, under
    for _ in range(ROUNDS):
        share = over / (over - below)
        height = high + share * (low - high)
        solved = path.at(height, above + share * (under - above))
        if solved is None:
            return None
        found = solved
        lowest = path.lowest(height, found)
        if found[0] > above[0]:
            return _fold(path, [*points[:-1], (height, found)])
        if fabs(lowest) < 1e-5:
            break
        if lowest > 0.0:
            high, above, over = height, found, lowest
        else:
            low, under, below = height, found, lowest
    # The speed may have been through its least just before.
    higher = path.at(height + JUST_ABOVE, found)
    if higher is not None and higher[0] < found[0]:
        return _fold(path, [points[-2], (height + JUST_ABOVE, higher), (height, found)])
    return TakeOff(float(found[0]), height, float(found[1]), True)


def _fold(path: _Path, points: list[tuple[float, Floats]]) -> TakeOff | None:
    """Where the speed is least, by parabolas; the hull must be clear of the water there.

    The last three points hold the least speed between them: the middle one is slower than the other two.
    """
    if len(points) < 3:
        return None
    three = list(points[-3:])
    for _ in range(ROUNDS):
        heights = np.array([height for height, _ in three])
        bend, slope, _ = np.polyfit(heights - heights[1], np.array([at[0] for _, at in three]), 2)
        if bend <= 0.0:
            return None
        upper, lower = 0.9 * heights[[0, 2]] + 0.1 * heights[1]
        height = float(np.clip(heights[1] - 0.5 * slope / bend, lower, upper))
        if abs(height - heights[1]) < FOLD_CLOSE:
            break
        found = path.at(height, min(three, key=lambda one: abs(one[0] - height))[1])
        if found is None:
            return None
        four = sorted([*three, (height, found)], key=lambda one: -one[0])
        slowest = min((1, 2), key=lambda i: float(four[i][1][0]))
        three = four[slowest - 1 : slowest + 2]
    height, found = three[1]
    if path.lowest(height, found) < 0.0:
        return None
    return TakeOff(float(found[0]), height, float(found[1]), False)
