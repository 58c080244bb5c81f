"""The curve of surplus and the way up it, after `docs/theory/sailing-in-wind.md` and `take-off.md`.

One curve only, followed in small even steps with fresh differences at every point; what lies between two
points is read from straight lines.
"""

from __future__ import annotations

import itertools
from typing import NamedTuple

import numpy as np

from tests.second_opinion.limits import lowest
from tests.second_opinion.sailing import HIGHEST, LOWEST, SCALES, Sailor, holds, starts_over_the_range

FIVE = slice(1, 6)  # all but the surplus
FASTEST = 11.0  # [m/s]; no take-off is looked for beyond


class Point(NamedTuple):
    at: np.ndarray
    surplus: float
    holds: bool
    clear: float  # height of the hull's lowest point over the water [m]


class Way(NamedTuple):
    """One way from rest; what was not met is None."""

    speed: float  # where it ends
    flying: bool
    take_off: float | None
    hump: float | None
    hump_speed: float | None
    seconds: float | None
    slowest: float


def balanced(ours: Sailor, start, square):
    """Newton from a place on the five balances and square to a direction (in scales), with its slopes."""
    x = np.array(start, dtype=float)
    for _ in range(4):
        J = slopes(ours, x) * SCALES
        whole = np.vstack([J[FIVE], square])
        for _ in range(3):
            left = ours.sailed(x).left
            miss = np.append(left[FIVE], square @ ((x - start) / SCALES))
            if np.abs(miss).max() < 1e-9:
                return x, float(left[0]), J
            step = np.linalg.solve(whole, -miss)
            x = x + SCALES * step * min(1.0, 1.0 / np.abs(step).max())
    return None


def slopes(ours: Sailor, x):
    """Forward differences of what is left over by each unknown."""
    here = ours.sailed(x).left
    return np.array([(ours.sailed(x + h).left - here) / h.sum() for h in 1e-5 * np.diag(SCALES)]).T


def curve_from(ours: Sailor, speed, step=0.4):
    """Points of the curve that passes a boat speed, from one end of the range to the other."""
    by_speed = np.array([1.0, 0, 0, 0, 0, 0])
    first = None
    for place in starts_over_the_range(8, seed=1):
        place[0] = speed
        first = balanced(ours, place, by_speed)
        if first is not None and inside(first[0]) and holds(first[2] / SCALES):
            break
        first = None
    if first is None:
        return []
    sides = []
    for sense in (-1.0, 1.0):
        x, _, J = first
        side: list[Point] = []
        tangent, stride = sense * by_speed, step
        while inside(x) and len(side) < 400:
            along = np.linalg.svd(J[FIVE])[2][-1]
            tangent = along if along @ tangent > 0 else -along
            while stride > 0.02:
                found = balanced(ours, x + SCALES * tangent * stride, tangent)
                if found is not None and np.abs((found[0] - x) / SCALES).max() < 2 * stride:
                    turned = np.linalg.svd(found[2][FIVE])[2][-1]
                    if abs(turned @ tangent) > 0.9:
                        break
                stride /= 2
            else:
                break
            x, surplus, J = found
            side.append(point(ours, x, surplus, J))
            stride = min(1.5 * stride, step)
        sides.append(side)
    return [*reversed(sides[0]), point(ours, *first), *sides[1]]


def inside(x):
    return bool((x > LOWEST).all() and (x < HIGHEST).all() and x[0] < FASTEST)


def point(ours: Sailor, x, surplus, J):
    heel = ours.sailed(x).heel
    return Point(x, surplus, holds(J / SCALES), lowest(ours, float(x[1]), float(x[2]), heel))


def way_up(points, gravity):
    """From the slowest point that holds itself to where the surplus is nothing, over folds."""
    standing = [k for k, p in enumerate(points) if p.holds]
    k = min(standing, key=lambda k: points[k].at[0])
    legs = [points[k]]
    ended = None
    for _ in range(1000):
        here = points[k]
        beside = [
            j
            for j in (k - 1, k + 1)
            if 0 <= j < len(points) and points[j].holds and points[j].at[0] > here.at[0]
        ]
        if beside:
            k = beside[0]
        else:  # the curve turns back: to the next that holds itself at this boat speed
            over = [
                max(pair, key=lambda p: p.at[0])
                for pair in itertools.pairwise(points)
                if all(p.holds and p is not here for p in pair)
                and min(p.at[0] for p in pair) <= here.at[0] <= max(p.at[0] for p in pair)
            ]
            if not over:
                ended = here
                break
            higher = [p for p in over if p.at[1] > here.at[1]]
            after = min(higher, key=lambda p: p.at[1]) if higher else max(over, key=lambda p: p.at[1])
            k = next(j for j, p in enumerate(points) if p is after)
        legs.append(points[k])
        if points[k].surplus <= 0 < here.surplus:
            share = here.surplus / (here.surplus - points[k].surplus)
            x = here.at + share * (points[k].at - here.at)
            ended = Point(x, 0.0, True, here.clear + share * (points[k].clear - here.clear))
            break
    end = ended if ended is not None else legs[-1]
    take_off, seconds, hump = None, None, None
    rising = next((j for j in range(1, len(legs)) if legs[j - 1].clear <= 0 < legs[j].clear), None)
    before = legs if rising is None else legs[:rising]
    if before:
        hump = min(before, key=lambda p: p.surplus)
    if rising is not None:
        a, b = legs[rising - 1], legs[rising]
        take_off = float(a.at[0] - a.clear / (b.clear - a.clear) * (b.at[0] - a.at[0]))
        seconds = legs[0].at[0] / legs[0].surplus
        for a, b in itertools.pairwise(legs[:rising]):
            seconds += 2 * (b.at[0] - a.at[0]) / (a.surplus + b.surplus)
        a, b = legs[rising - 1], legs[rising]
        seconds = 1.05 / gravity * (seconds + 2 * (take_off - a.at[0]) / (a.surplus + b.surplus))
    return Way(
        float(end.at[0]),
        end.clear > 0,
        take_off,
        None if hump is None else hump.surplus,
        None if hump is None else float(hump.at[0]),
        seconds,
        float(legs[0].at[0]),
    )
