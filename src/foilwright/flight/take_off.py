"""From rest into flight, over the surplus of thrust: how far a boat gets in one wind. Kernels.

The boat starts where the slowest balanced state holds itself and goes on as long as the surplus is positive.
Where the curve of balanced states turns back in boat speed the boat jumps to the next state above that holds
itself at the same boat speed.
"""

from math import fabs
from typing import NamedTuple

from foilwright.flight.wind_balance import Sailing
from foilwright.flight.wind_curve import (
    CLEAR,
    HOLDS,
    LENGTH,
    NUMBER,
    SPEED_SLOPE,
    SURPLUS_AT,
    between,
)
from foilwright.flight.wind_settle import Work
from foilwright.measures import Floats

STUCK, STEADY, NOTHING_ABOVE, FASTER = 0, 1, 2, 3
"""How a way up ends: no surplus at the start, steady, no state holds itself above, beyond the range."""
WATER_CARRIED = 0.05
"""Added mass in surge over displaced mass: a spheroid of the slenderness of a dinghy's hull has 0.03 to 0.06
(Lamb, Hydrodynamics, art. 114); in flight there is hardly any, so the run comes out a little long."""
MOST_LEGS = 8


class WayUp(NamedTuple):
    """One way from rest. SI; nothing is -1."""

    end: int  # one of the above
    speed: float  # where it ends [m/s]
    height: float  # ride height there [m]
    flying: float  # 1 where the hull is clear there
    take_off: float  # boat speed where the hull comes clear [m/s]
    seconds: float  # from rest until then
    hump: float  # least surplus before that, share of the weight
    hump_speed: float  # [m/s]
    hump_height: float  # [m]
    slowest: float  # boat speed of the slowest balanced state [m/s]
    flying_surplus: float  # greatest surplus of any state in flight that holds itself, share of the weight


def slowest_point(curve: Floats, count: int) -> int:
    """The slowest point that holds itself; -1 if there is none."""
    best = -1
    for i in range(count):
        if curve[i, HOLDS] > 0.0 and (best < 0 or curve[i, 0] < curve[best, 0]):
            best = i
    return best


def flying_surplus(curve: Floats, count: int) -> float:
    """Greatest surplus of the points in flight that hold themselves, share of the weight; -1 without any."""
    best = -1.0
    for i in range(count):
        if curve[i, HOLDS] > 0.0 and curve[i, CLEAR] > 0.0 and curve[i, SURPLUS_AT] > best:
            best = curve[i, SURPLUS_AT]
    return best


def jump(curve: Floats, count: int, speed: float, height: float) -> int:
    """Where a boat at a speed and height comes to: the first of the two points around the next state above.

    Among the pairs of points that hold themselves with the boat speed between them: the lowest that is not
    below, else the highest; -1 if there is none.
    """
    best = -1
    best_height = 0.0
    for i in range(count - 1):
        low = curve[i, 0]
        high = curve[i + 1, 0]
        holds = curve[i, HOLDS] > 0.0 and curve[i + 1, HOLDS] > 0.0
        around = (low - speed) * (high - speed) <= 0.0 and fabs(high - low) > 1e-12
        if holds and around and curve[i, NUMBER] == curve[i + 1, NUMBER]:
            there = between(curve, i, (speed - low) / (high - low), 1)
            above = there > height - 0.01
            best_above = best_height > height - 0.01
            better = best < 0 or (above and not best_above)
            if above == best_above:
                better = better or (above and there < best_height) or (not above and there > best_height)
            if better:
                best = i
                best_height = there
    return best


def way_up(case: Sailing, work: Work, count: int) -> WayUp:
    """How far a boat gets from rest, over the points in work.curve.

    The run is timed as the mass of boat and crew, with 5 % for the water it carries, over the surplus; up to
    the slowest balanced state, where the crew sails with an eased sheet, the surplus is taken as it is there.
    """
    curve = work.curve
    aloft = flying_surplus(curve, count)
    i = slowest_point(curve, count)
    if i < 0:
        return WayUp(STUCK, -1.0, 0.0, 0.0, -1.0, -1.0, -1.0, -1.0, 0.0, -1.0, aloft)
    slowest = curve[i, 0]
    at = curve[i, 0]
    surplus = curve[i, SURPLUS_AT]
    height = curve[i, 1]
    clear = curve[i, CLEAR]
    hump = surplus
    hump_speed = at
    hump_height = height
    take_off = -1.0
    at_take_off = -1.0
    inertia = (1.0 + WATER_CARRIED) / case.water.gravity
    seconds = 0.0
    end = STUCK
    if surplus > 0.0:
        end = NOTHING_ABOVE
        seconds = inertia * at / surplus
        if clear > 0.0:
            take_off = at
            at_take_off = seconds
    legs = 0
    while end == NOTHING_ABOVE and legs < MOST_LEGS:
        legs = legs + 1
        step = 1
        if curve[i, SPEED_SLOPE] < 0.0:
            step = -1
        k = i + step
        while is_ahead(curve, count, i, k, at) > 0.0:
            share = 1.0
            if curve[k, SURPLUS_AT] <= 0.0:
                share = surplus / (surplus - curve[k, SURPLUS_AT])
                end = STEADY
            new = at + share * (curve[k, 0] - at)
            new_clear = clear + share * (curve[k, CLEAR] - clear)
            left = surplus + share * (curve[k, SURPLUS_AT] - surplus)
            # Near a steady state the run would last for ever: timed by the mean of the surplus there.
            lasted = 2.0 * inertia * (new - at) / (surplus + left)
            if take_off < 0.0:
                if new_clear > 0.0:
                    part = -clear / (new_clear - clear)
                    take_off = at + part * (new - at)
                    at_take_off = seconds + part * lasted
                elif left < hump:
                    hump = left
                    hump_speed = new
                    hump_height = height + share * (curve[k, 1] - height)
            seconds = seconds + lasted
            height = height + share * (curve[k, 1] - height)
            at = new
            clear = new_clear
            surplus = left
            i = k
            k = i + step
            if end == STEADY:
                break
        if end == NOTHING_ABOVE:
            if 0 <= k < count and curve[k, NUMBER] == curve[i, NUMBER]:
                # A fold: on at the next state above, at the furthest boat speed of this one.
                at = at + fold_beyond(curve, i, step) + 1e-6
                new_at = jump(curve, count, at, height)
                if new_at < 0:
                    break
                share = (at - curve[new_at, 0]) / (curve[new_at + 1, 0] - curve[new_at, 0])
                surplus = between_points(curve, new_at, share, SURPLUS_AT)
                height = between_points(curve, new_at, share, 1)
                clear = between_points(curve, new_at, share, CLEAR)
                i = new_at
                if curve[new_at, SPEED_SLOPE] < 0.0:
                    i = new_at + 1
                if take_off < 0.0 and clear > 0.0:
                    take_off = at
                    at_take_off = seconds
                if surplus <= 0.0:
                    # Not enough to go on from there: it slows on that leg until thrust and drag meet.
                    i = slower_with_surplus(curve, count, i)
                    if i < 0:
                        break
                    end = STEADY
                    at = curve[i, 0]
                    height = curve[i, 1]
                    clear = curve[i, CLEAR]
            else:
                if at > case.fastest - 2.0:
                    end = FASTER
                break
    flying = 0.0
    if clear > 0.0 and end != STUCK:
        flying = 1.0
    return WayUp(
        end, at, height, flying, take_off, at_take_off, hump, hump_speed, hump_height, slowest, aloft
    )


def is_ahead(curve: Floats, count: int, i: int, k: int, speed: float) -> float:
    """1 where point k goes on from point i: same curve, holds itself, faster."""
    if k < 0 or k >= count:
        return 0.0
    if curve[k, NUMBER] == curve[i, NUMBER] and curve[k, HOLDS] > 0.0 and curve[k, 0] > speed:
        return 1.0
    return 0.0


def between_points(curve: Floats, i: int, share: float, j: int) -> float:
    """A number of the curve on the straight line between the points i and i + 1."""
    value: float = curve[i, j] + share * (curve[i + 1, j] - curve[i, j])
    return value


def fold_beyond(curve: Floats, i: int, step: int) -> float:
    """How much further than point i the boat speed goes before it turns back towards the next point [m/s]."""
    apart = fabs(curve[i + step, LENGTH] - curve[i, LENGTH])
    here = step * curve[i, SPEED_SLOPE]
    there = step * curve[i + step, SPEED_SLOPE]
    if here <= 0.0 or there >= 0.0:
        return 0.0
    beyond: float = 0.5 * here * apart * here / (here - there)
    return beyond


def slower_with_surplus(curve: Floats, count: int, i: int) -> int:
    """The first point with a surplus on the way from point i to slower ones; -1 if there is none."""
    step = -1
    if curve[i, SPEED_SLOPE] < 0.0:
        step = 1
    k = i + step
    while 0 <= k < count and curve[k, NUMBER] == curve[i, NUMBER] and curve[k, HOLDS] > 0.0:
        if curve[k, SURPLUS_AT] > 0.0:
            return k
        k = k + step
    return -1
