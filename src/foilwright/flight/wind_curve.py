"""The curve of states balanced but for the surplus of thrust, followed along its own length. Kernels.

Five balances in six unknowns leave curves: one through floating, take-off and flight in most cases. A curve
may turn back in boat speed (a fold: the boat jumps clear), so it is followed along its length, not along the
boat speed, and the surplus of thrust on it is continuous.
"""

from math import fabs, sqrt

from foilwright.flight.elimination import eliminate
from foilwright.flight.wind_balance import (
    SCALES,
    N,
    Sailing,
    clear_by,
    holds_itself,
    inside,
    left_over,
    slopes_in_wind,
)
from foilwright.flight.wind_scan import BUT_SURPLUS
from foilwright.flight.wind_settle import Work, largest
from foilwright.measures import Floats

MOST_POINTS = 360
POINT_SIZE = 19
"""Of a point: six unknowns; 6 surplus, 7 its change along the curve, 8 change of boat speed along the curve
[m/s], 9 holds itself, 10 number of the curve, 11 length so far, 12 height of the hull's lowest point [m],
13..18 the tangent in scaled unknowns."""
SURPLUS_AT, SURPLUS_SLOPE, SPEED_SLOPE, HOLDS, NUMBER, LENGTH, CLEAR, TANGENT = 6, 7, 8, 9, 10, 11, 12, 13
ON_CURVE = 1e-8  # of weight, at the points
FIRST_STEP, LEAST_STEP, MOST_STEP = 0.3, 2e-3, 1.6  # along the curve, in scaled unknowns
LEAST_SPEED, MOST_SPEED = 0.4, 16.0  # boat speeds looked at [m/s], if nobody asks for less
STRAIGHT = 0.75  # least cosine between two tangents next to each other


def tangent_at(work: Work) -> float:
    """Turns work.tangent into the tangent by work.slopes, on in the same sense; 0 where there is none."""
    a = work.a
    for i in range(5):
        for j in range(N):
            a[i, j] = work.slopes[i + 1, j]
        a[i, N] = 0.0
    for j in range(N):
        a[5, j] = work.tangent[j]
    a[5, N] = 1.0
    if eliminate(a, N, 1) == 0.0:
        return 0.0
    size = 0.0
    for j in range(N):
        size = size + a[j, N] * a[j, N]
    size = sqrt(size)
    if not 0.0 < size < 1e12:
        return 0.0
    for j in range(N):
        work.tangent[j] = a[j, N] / size
    return 1.0


def put_point(case: Sailing, work: Work, count: int, number: float, length: float, sense: float) -> None:
    """Writes the point at work.x, whose slopes and tangent are in work; sense -1: followed backwards."""
    point = work.curve
    for j in range(N):
        point[count, j] = work.x[j]
        point[count, TANGENT + j] = sense * work.tangent[j]
    along = 0.0
    for j in range(N):
        along = along + work.slopes[0, j] * work.tangent[j]
    point[count, SURPLUS_AT] = work.r[0]
    point[count, SURPLUS_SLOPE] = sense * along
    point[count, SPEED_SLOPE] = sense * work.tangent[0] * SCALES[0]
    point[count, HOLDS] = holds_itself(work.slopes, work.a)
    point[count, NUMBER] = number
    point[count, CLEAR] = clear_by(case, work.x)
    point[count, LENGTH] = sense * length


def corrected(case: Sailing, work: Work, step: float) -> float:
    """From work.base along work.tangent by a step, and back onto the curve: 1 where that worked.

    Newton square to the tangent, with Broyden's updates in work.near, which starts as work.slopes.
    """
    x = work.x
    r = work.r
    near = work.near
    a = work.a
    for j in range(N):
        x[j] = work.base[j] + step * SCALES[j] * work.tangent[j]
        for i in range(5):
            near[i, j] = work.slopes[i + 1, j]
    left_over(case, x, r, work.items)
    last = largest(r, BUT_SURPLUS)
    for _ in range(6):
        if last < ON_CURVE:
            return 1.0
        for i in range(5):
            for j in range(N):
                a[i, j] = near[i, j]
            a[i, N] = -r[i + 1]
            work.there[i] = r[i + 1]
        for j in range(N):
            a[5, j] = work.tangent[j]
        a[5, N] = 0.0
        if eliminate(a, N, 1) == 0.0:
            return 0.0
        size = 1e-300
        for j in range(N):
            move = a[j, N]
            if not fabs(move) < 0.7 * step + 1e-3:
                return 0.0
            size = size + move * move
            x[j] = x[j] + SCALES[j] * move
        left_over(case, x, r, work.items)
        miss = largest(r, BUT_SURPLUS)
        if not miss < 0.8 * last:
            return 0.0
        last = miss
        for i in range(5):
            off = r[i + 1] - work.there[i]
            for j in range(N):
                off = off - near[i, j] * a[j, N]
            off = off / size
            for j in range(N):
                near[i, j] = near[i, j] + off * a[j, N]
    if last < ON_CURVE:
        return 1.0
    return 0.0


def follow(case: Sailing, work: Work, count: int, number: float, sense: float) -> int:
    """From the state in work.x along the curve, upwards in boat speed first or downwards; count of points.

    The start itself is written as the first point only where `sense` is +1.
    """
    x = work.x
    curve = work.curve
    left_over(case, x, work.r, work.items)
    slopes_in_wind(case, x, work.r, work.slopes, work.there, 0, work.items)
    for j in range(N):
        work.tangent[j] = 0.0
    work.tangent[0] = sense
    if tangent_at(work) == 0.0:
        return count
    length = 0.0
    if sense > 0.0:
        put_point(case, work, count, number, length, sense)
        count = count + 1
    first = count
    step = FIRST_STEP
    while count < MOST_POINTS:
        for j in range(N):
            work.base[j] = x[j]
        ok = 0.0
        while step > LEAST_STEP:
            ok = corrected(case, work, step)
            if ok > 0.0:
                if inside(x) == 0.0 or x[0] < LEAST_SPEED or x[0] > case.fastest:
                    return count
                slopes_in_wind(case, x, work.r, work.slopes, work.there, 0, work.items)
                for j in range(N):
                    work.there[j] = work.tangent[j]
                ok = tangent_at(work)
                straight = 0.0
                for j in range(N):
                    straight = straight + work.there[j] * work.tangent[j]
                if ok > 0.0 and (straight > STRAIGHT or step < 4.0 * LEAST_STEP):
                    break
                ok = 0.0
                # Back to the start of the step, with its slopes and its tangent.
                for j in range(N):
                    x[j] = work.base[j]
                    work.tangent[j] = work.there[j]
                left_over(case, x, work.r, work.items)
                slopes_in_wind(case, x, work.r, work.slopes, work.there, 0, work.items)
            step = 0.5 * step
        if ok == 0.0:
            return count
        length = length + step
        put_point(case, work, count, number, length, sense)
        count = count + 1
        step = 1.4 * step
        if step > MOST_STEP:
            step = MOST_STEP
        if count - first > 6 and distance(x, curve, first) < 0.4 * step:
            return count  # round a closed curve
    return count


def distance(x: Floats, curve: Floats, row: int) -> float:
    """How far a state is from a point, in scaled unknowns."""
    total = 0.0
    for j in range(N):
        off = (x[j] - curve[row, j]) / SCALES[j]
        total = total + off * off
    return sqrt(total)


def turn_round(curve: Floats, first: int, end: int) -> None:
    """Turns the order of the points first..end - 1 round."""
    low = first
    high = end - 1
    while low < high:
        for j in range(POINT_SIZE):
            kept = curve[low, j]
            curve[low, j] = curve[high, j]
            curve[high, j] = kept
        low = low + 1
        high = high - 1


def is_on_a_curve(work: Work, count: int) -> float:
    """1 where the state in work.x lies on a curve that is known already: compared at its own boat speed."""
    curve = work.curve
    x = work.x
    for i in range(count - 1):
        if curve[i, NUMBER] == curve[i + 1, NUMBER]:
            low = curve[i, 0]
            high = curve[i + 1, 0]
            if (low - x[0]) * (high - x[0]) <= 0.0 and fabs(high - low) > 1e-12:
                share = (x[0] - low) / (high - low)
                total = 0.0
                for j in range(1, N):
                    off = (x[j] - between(curve, i, share, j)) / SCALES[j]
                    total = total + off * off
                if total < 0.05:
                    return 1.0
    return 0.0


def place_at_speed(work: Work, count: int, speed: float) -> float:
    """Puts the first place at a boat speed on a known curve that holds itself into work.x; 0 if none."""
    curve = work.curve
    for i in range(count - 1):
        if curve[i, NUMBER] == curve[i + 1, NUMBER] and curve[i, HOLDS] > 0.0:
            low = curve[i, 0]
            high = curve[i + 1, 0]
            if (low - speed) * (high - speed) <= 0.0 and fabs(high - low) > 1e-12:
                for j in range(N):
                    work.x[j] = between(curve, i, (speed - low) / (high - low), j)
                return 1.0
    return 0.0


def is_between_rows(work: Work, count: int, row: int) -> float:
    """1 where one known curve passes between a row of the scan and the next."""
    curve = work.curve
    scan = work.scan
    speed = scan[row, 0]
    passes = 0
    for i in range(count - 1):
        if curve[i, NUMBER] == curve[i + 1, NUMBER]:
            low = curve[i, 0]
            high = curve[i + 1, 0]
            if (low - speed) * (high - speed) <= 0.0 and fabs(high - low) > 1e-12:
                share = (speed - low) / (high - low)
                trim = between(curve, i, share, 2)
                aside = fabs(between(curve, i, share, 3) - scan[row, 3]) / SCALES[3]
                if scan[row, 2] - 1e-3 <= trim <= scan[row + 1, 2] + 1e-3 and aside < 3.0:
                    passes = passes + 1
    if passes > 0:
        return 1.0
    return 0.0


def between(curve: Floats, i: int, share: float, j: int) -> float:
    """An unknown between the points i and i + 1, by the cubic through both and their tangents."""
    step = curve[i + 1, LENGTH] - curve[i, LENGTH]
    scale: float = SCALES[j]
    return cubic(
        curve[i, j],
        curve[i + 1, j],
        step * scale * curve[i, TANGENT + j],
        step * scale * curve[i + 1, TANGENT + j],
        share,
    )


def cubic(start: float, end: float, start_slope: float, end_slope: float, share: float) -> float:
    """Hermite's cubic: values and slopes over the whole interval at both ends."""
    t = share
    return (
        start
        + t * start_slope
        + t * t * (3.0 * (end - start) - 2.0 * start_slope - end_slope)
        + t * t * t * (2.0 * (start - end) + start_slope + end_slope)
    )


def trace(case: Sailing, work: Work, count: int, number: float) -> int:
    """The whole curve through the state in work.x, added to work.curve in order; count of points."""
    for j in range(N):
        work.found[0, j] = work.x[j]
    first = count
    count = follow(case, work, count, number, -1.0)
    turn_round(work.curve, first, count)
    for j in range(N):
        work.x[j] = work.found[0, j]
    return follow(case, work, count, number, 1.0)
