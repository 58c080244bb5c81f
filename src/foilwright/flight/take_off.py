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


def slowest_point(curve: Floats, count: int) -> int:
    """The slowest point that holds itself; -1 if there is none."""
    best = -1
    for i in range(count):
        if curve[i, HOLDS] > 0.0 and (best < 0 or curve[i, 0] < curve[best, 0]):
            best = i
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
    i = slowest_point(curve, count)
    if i < 0:
        return WayUp(STUCK, -1.0, 0.0, 0.0, -1.0, -1.0, -1.0, -1.0, 0.0, -1.0)
    slowest = curve[i, 0]
    speed = slowest
    surplus = curve[i, SURPLUS_AT]
    height = curve[i, 1]
    hump = surplus
    hump_speed = speed
    hump_height = height
    if surplus <= 0.0:
        return WayUp(STUCK, speed, height, 0.0, -1.0, -1.0, hump, hump_speed, hump_height, slowest)
    inertia = (1.0 + WATER_CARRIED) / case.water.gravity
    seconds = inertia * speed / surplus
    take_off = -1.0
    at_take_off = -1.0
    clear = curve[i, CLEAR]
    if clear > 0.0:
        take_off = speed
        at_take_off = seconds
    end = NOTHING_ABOVE
    for _ in range(MOST_LEGS):
        step = 1
        if curve[i, SPEED_SLOPE] < 0.0:
            step = -1
        end = NOTHING_ABOVE
        while 0 <= i + step < count and curve[i + step, NUMBER] == curve[i, NUMBER]:
            k = i + step
            if curve[k, HOLDS] == 0.0 or curve[k, 0] <= speed:
                break
            if curve[k, SURPLUS_AT] <= 0.0:
                share = surplus / (surplus - curve[k, SURPLUS_AT])
                reached = speed + share * (curve[k, 0] - speed)
                there = height + share * (curve[k, 1] - height)
                if take_off < 0.0:
                    hump = 0.0
                    hump_speed = reached
                    hump_height = there
                    if clear + share * (curve[k, CLEAR] - clear) > 0.0:
                        take_off = reached
                        at_take_off = seconds
                flying = 0.0
                if clear + share * (curve[k, CLEAR] - clear) > 0.0:
                    flying = 1.0
                return WayUp(
                    STEADY,
                    reached,
                    there,
                    flying,
                    take_off,
                    at_take_off,
                    hump,
                    hump_speed,
                    hump_height,
                    slowest,
                )
            lasted = inertia * (curve[k, 0] - speed) * 0.5 * (1.0 / surplus + 1.0 / curve[k, SURPLUS_AT])
            if take_off < 0.0:
                if curve[k, CLEAR] > 0.0:
                    share = -clear / (curve[k, CLEAR] - clear)
                    take_off = speed + share * (curve[k, 0] - speed)
                    at_take_off = seconds + share * lasted
                elif curve[k, SURPLUS_AT] < hump:
                    hump = curve[k, SURPLUS_AT]
                    hump_speed = curve[k, 0]
                    hump_height = curve[k, 1]
            seconds = seconds + lasted
            i = k
            speed = curve[i, 0]
            surplus = curve[i, SURPLUS_AT]
            height = curve[i, 1]
            clear = curve[i, CLEAR]
        if 0 <= i + step < count and curve[i + step, NUMBER] == curve[i, NUMBER]:
            # A fold: on at the next state above, at the furthest boat speed of this one.
            speed = speed + fold_beyond(curve, i, step)
            new = jump(curve, count, speed + 1e-6, height)
            if new < 0:
                break
            share = (speed + 1e-6 - curve[new, 0]) / (curve[new + 1, 0] - curve[new, 0])
            surplus = curve[new, SURPLUS_AT] + share * (curve[new + 1, SURPLUS_AT] - curve[new, SURPLUS_AT])
            height = curve[new, 1] + share * (curve[new + 1, 1] - curve[new, 1])
            clear = curve[new, CLEAR] + share * (curve[new + 1, CLEAR] - curve[new, CLEAR])
            i = new
            if curve[new, SPEED_SLOPE] < 0.0:
                i = new + 1
            if take_off < 0.0 and clear > 0.0:
                take_off = speed
                at_take_off = seconds
            if surplus <= 0.0:
                # It falls back from there to the nearest slower steady state of that leg.
                return fallen(curve, i, speed, take_off, at_take_off, hump, hump_speed, hump_height, slowest)
            continue
        if curve[i, 0] > 15.0:
            end = FASTER
        break
    flying = 0.0
    if clear > 0.0:
        flying = 1.0
    return WayUp(end, speed, height, flying, take_off, at_take_off, hump, hump_speed, hump_height, slowest)


def fold_beyond(curve: Floats, i: int, step: int) -> float:
    """How much further than point i the boat speed goes before it turns back towards the next point [m/s]."""
    apart = fabs(curve[i + step, LENGTH] - curve[i, LENGTH])
    here = step * curve[i, SPEED_SLOPE]
    there = step * curve[i + step, SPEED_SLOPE]
    if here <= 0.0 or there >= 0.0:
        return 0.0
    beyond: float = 0.5 * here * apart * here / (here - there)
    return beyond


def fallen(
    curve: Floats,
    i: int,
    speed: float,
    take_off: float,
    seconds: float,
    hump: float,
    hump_speed: float,
    hump_height: float,
    slowest: float,
) -> WayUp:
    """The end of a jump to a state without surplus: the boat slows on that leg until the surplus is back."""
    step = -1
    if curve[i, SPEED_SLOPE] < 0.0:
        step = 1
    k = i
    while 0 <= k + step < curve.shape[0] and curve[k + step, NUMBER] == curve[k, NUMBER]:
        if curve[k + step, HOLDS] == 0.0:
            break
        k = k + step
        if curve[k, SURPLUS_AT] > 0.0:
            flying = 0.0
            if curve[k, CLEAR] > 0.0:
                flying = 1.0
            return WayUp(
                STEADY,
                curve[k, 0],
                curve[k, 1],
                flying,
                take_off,
                seconds,
                hump,
                hump_speed,
                hump_height,
                slowest,
            )
    return WayUp(NOTHING_ABOVE, speed, curve[i, 1], 0.0, -1.0, -1.0, hump, hump_speed, hump_height, slowest)
