"""Every steady state of one boat in one wind: where the surplus of thrust is nothing. Kernels."""

from math import fabs
from typing import NamedTuple

from foilwright.flight.wind_balance import (
    SCALES,
    N,
    Sailing,
    holds_itself,
    inside,
    slopes_in_wind,
)
from foilwright.flight.wind_curve import (
    LENGTH,
    MOST_POINTS,
    NUMBER,
    SURPLUS_AT,
    SURPLUS_SLOPE,
    between,
    cubic,
    is_between_rows,
    is_on_a_curve,
    place_at_speed,
    tangent_at,
    trace,
)
from foilwright.flight.wind_margins import put_margins
from foilwright.flight.wind_scan import BUT_SPEED, BUT_SURPLUS, N_TRIMS, between_rows, scan_trims
from foilwright.flight.wind_settle import FRESH, Work, settle
from foilwright.measures import Floats

SEED_SPEEDS = (3.5, 4.5, 5.5, 2.5, 7.0, 10.0)  # at which curves are looked for, in this order [m/s]
EVERYTHING = (0, 1, 2, 3, 4, 5)
SOLVED_MISS = 1e-9  # of weight, and of weight times a metre
LOOKS = 6  # places between two points where the cubic of the surplus is read
NEAR_NOTHING = 5e-4  # of weight: a surplus that stays so near to nothing is read itself, not by its cubic
TOUCHING = 1e-4  # of weight: looks so near to nothing that between them it may be passed
MOST_FOUND = 12
FOUND_SIZE = 24
"""Of a state: six unknowns; 6 stable, 7 holds itself, 8 change of surplus with boat speed [s/m], 9 the
largest left over, 10 standing (0 floating, 1 lifting, 2 flying), 11 heel [rad], 12..21 the margins of
MARGIN_NAMES, 22 the nearest of them (its place), 23 that margin as a share of its span."""
STABLE, SURGE, MISS = 6, 8, 9
GOLDEN = 0.6180339887498949
UNKNOWN = 1e9  # of a surplus that could not be read


class Answer(NamedTuple):
    """What a search found: states in work.found, points in work.curve."""

    states: int
    points: int
    lost: int  # places where the surplus changes sign and no state was pinned down


class Tally(NamedTuple):
    """How many states lie in work.found, and how many changes of sign were not pinned down."""

    states: int
    lost: int


def find_curves(case: Sailing, seeds: Floats, work: Work) -> int:
    """Every curve of states balanced but for the surplus, into work.curve; count of points.

    Looked for at each boat speed of `seeds` [m/s]: a state there that lies on no known curve starts one.
    """
    count = 0
    number = 0.0
    for k in range(seeds.shape[0]):
        known = place_at_speed(work, count, seeds[k])
        scan_trims(case, seeds[k], known, work)
        for i in range(N_TRIMS - 1):
            both = work.scan[i, 7] * work.scan[i + 1, 7]
            crosses = both > 0.0 and work.scan[i, 6] * work.scan[i + 1, 6] <= 0.0
            if crosses and is_between_rows(work, count, i) == 0.0:
                miss = between_rows(case, i, work)
                if miss < 1e-8 and inside(work.x) > 0.0 and is_on_a_curve(work, count) == 0.0:
                    before = count
                    count = trace(case, work, count, number)
                    if count > before:
                        number = number + 1.0
                    if count >= MOST_POINTS - 2:
                        return count
    return count


def surplus_between(curve: Floats, i: int, share: float) -> float:
    """The surplus between the points i and i + 1, by the cubic through both."""
    step = curve[i + 1, LENGTH] - curve[i, LENGTH]
    return cubic(
        curve[i, SURPLUS_AT],
        curve[i + 1, SURPLUS_AT],
        step * curve[i, SURPLUS_SLOPE],
        step * curve[i + 1, SURPLUS_SLOPE],
        share,
    )


def place_between(work: Work, i: int, share: float) -> None:
    """Puts into work.x the place between the points i and i + 1."""
    for j in range(N):
        work.x[j] = between(work.curve, i, share, j)


def near_points(work: Work, i: int) -> float:
    """1 where work.x lies between the points i and i + 1, give or take half their distance."""
    total = 0.0
    apart = 0.0
    for j in range(N):
        middle = 0.5 * (work.curve[i, j] + work.curve[i + 1, j])
        off = (work.x[j] - middle) / SCALES[j]
        whole = (work.curve[i + 1, j] - work.curve[i, j]) / SCALES[j]
        total = total + off * off
        apart = apart + whole * whole
    if total < apart + 1e-6:
        return 1.0
    return 0.0


def pinned(case: Sailing, work: Work, i: int, low: float, high: float) -> float:
    """Puts the state between two shares of the way from point i to i + 1 into work.x; its miss."""
    start = surplus_between(work.curve, i, low)
    end = surplus_between(work.curve, i, high)
    place_between(work, i, low + (high - low) * start / (start - end + 1e-300))
    miss = settle(case, work, EVERYTHING, EVERYTHING, SOLVED_MISS, 14, FRESH)
    if miss < SOLVED_MISS and near_points(work, i) > 0.0:
        return miss
    # Slowly: halve, back onto the curve at the boat speed of the middle.
    for _ in range(12):
        middle = 0.5 * (low + high)
        place_between(work, i, middle)
        if settle(case, work, BUT_SPEED, BUT_SURPLUS, SOLVED_MISS, 10, FRESH) > SOLVED_MISS:
            break
        if work.r[0] * start > 0.0:
            low = middle
        else:
            high = middle
    miss = settle(case, work, EVERYTHING, EVERYTHING, SOLVED_MISS, 20, FRESH)
    if miss < SOLVED_MISS and near_points(work, i) > 0.0:
        return miss
    return 1.0


def is_near_nothing(curve: Floats, i: int) -> float:
    """1 where the surplus stays so near to nothing between point i and i + 1 that its cubic cannot tell."""
    last = fabs(curve[i, SURPLUS_AT])
    for k in range(1, LOOKS + 1):
        here = fabs(surplus_between(curve, i, k / LOOKS))
        if here < NEAR_NOTHING and last < NEAR_NOTHING:
            return 1.0
        last = here
    return 0.0


def surplus_itself(case: Sailing, work: Work, i: int, share: float, side: float) -> float:
    """The surplus on the curve at the boat speed of a share of the way from point i to i + 1, times `side`;
    UNKNOWN where nothing balances there.
    """
    place_between(work, i, share)
    if settle(case, work, BUT_SPEED, BUT_SURPLUS, SOLVED_MISS, 14, FRESH) > SOLVED_MISS:
        return UNKNOWN
    surplus: float = work.r[0]
    return side * surplus


def passes_nothing(case: Sailing, work: Work, i: int, low: float, high: float, side: float) -> float:
    """Share of the way between two where the surplus is on the other side of nothing; -1 where it is nowhere.

    Golden section towards where it is least, to a thousandth of the way.
    """
    left = high - GOLDEN * (high - low)
    right = low + GOLDEN * (high - low)
    at_left = surplus_itself(case, work, i, left, side)
    at_right = surplus_itself(case, work, i, right, side)
    while high - low > 1e-3:
        if at_left < 0.0:
            return left
        if at_right < 0.0:
            return right
        if at_left < at_right:
            high = right
            right = left
            at_right = at_left
            left = high - GOLDEN * (high - low)
            at_left = surplus_itself(case, work, i, left, side)
        else:
            low = left
            left = right
            at_left = at_right
            right = low + GOLDEN * (high - low)
            at_right = surplus_itself(case, work, i, right, side)
    return -1.0


def halved(case: Sailing, work: Work, i: int, before: float, after: float, side: float) -> float:
    """Puts the state between two shares of the way into work.x, `before` on that side; its miss."""
    for _ in range(12):
        middle = 0.5 * (before + after)
        if surplus_itself(case, work, i, middle, side) > 0.0:
            before = middle
        else:
            after = middle
    place_between(work, i, 0.5 * (before + after))
    settle(case, work, BUT_SPEED, BUT_SURPLUS, SOLVED_MISS, 14, FRESH)
    miss = settle(case, work, EVERYTHING, EVERYTHING, SOLVED_MISS, 14, FRESH)
    if near_points(work, i) > 0.0:
        return miss
    return 1.0


def states_near_nothing(case: Sailing, work: Work, i: int, tally: Tally) -> Tally:
    """Adds the states between point i and i + 1 where the surplus stays near to nothing.

    The cubic between two points is some 1e-4 of weight off, so by it two states that lie near each other, or
    one of them, would be lost. Here the surplus itself is read at every look and where it comes nearest.
    """
    before = work.curve[i, SURPLUS_AT]
    here = before
    for k in range(LOOKS + 1):
        side = 1.0 if here > 0.0 else -1.0
        after = here
        if k < LOOKS - 1:
            after = surplus_itself(case, work, i, (k + 1) / LOOKS, 1.0)
        elif k == LOOKS - 1:
            after = work.curve[i + 1, SURPLUS_AT]
        if fabs(before) < UNKNOWN and fabs(here) < UNKNOWN and fabs(after) < UNKNOWN:
            low = max(k - 1.0, 0.0) / LOOKS
            high = min(k + 1.0, float(LOOKS)) / LOOKS
            if side * here <= side * before and side * here <= side * after and fabs(here) < TOUCHING:
                other = passes_nothing(case, work, i, low, high, side)
                if other >= 0.0:
                    if side * before > 0.0:
                        tally = kept(case, work, tally, halved(case, work, i, low, other, side))
                    if side * after > 0.0:
                        tally = kept(case, work, tally, halved(case, work, i, high, other, side))
            if k < LOOKS and here * after <= 0.0:
                tally = kept(case, work, tally, halved(case, work, i, k / LOOKS, high, side))
        before = here
        here = after
    return tally


def states_by_cubic(case: Sailing, work: Work, i: int, tally: Tally) -> Tally:
    """Adds the states between point i and i + 1 where the cubic through both passes nothing."""
    curve = work.curve
    crosses = curve[i, SURPLUS_AT] * curve[i + 1, SURPLUS_AT] <= 0.0
    last = curve[i, SURPLUS_AT]
    for k in range(1, LOOKS + 1):
        here = surplus_between(curve, i, k / LOOKS)
        if here * last <= 0.0 and (here != 0.0 or last != 0.0):
            miss = pinned(case, work, i, (k - 1) / LOOKS, k / LOOKS)
            if miss < SOLVED_MISS or crosses:
                tally = kept(case, work, tally, miss)
        last = here
    return tally


def kept(case: Sailing, work: Work, tally: Tally, miss: float) -> Tally:
    """With the state in work.x, which misses its balances by that much, or with one more that was lost."""
    if miss >= SOLVED_MISS:
        return Tally(tally.states, tally.lost + 1)
    if inside(work.x) == 0.0:
        return tally
    return Tally(keep_state(case, work, tally.states, miss), tally.lost)


def keep_state(case: Sailing, work: Work, count: int, miss: float) -> int:
    """Adds the state in work.x to work.found if it is new; count of states."""
    found = work.found
    x = work.x
    for i in range(count):
        off = 0.0
        for j in range(N):
            off = off + fabs(found[i, j] - x[j]) / SCALES[j]
        if off < 1e-4:
            return count
    if count == MOST_FOUND:
        return count
    slopes_in_wind(case, x, work.r, work.slopes, work.there, 0, work.items)
    for j in range(N):
        found[count, j] = x[j]
        work.tangent[j] = 0.0
    work.tangent[0] = 1.0
    holds = holds_itself(work.slopes, work.a)
    surge = 1.0
    if tangent_at(work) > 0.0 and fabs(work.tangent[0]) > 1e-9:
        surge = 0.0
        for j in range(N):
            surge = surge + work.slopes[0, j] * work.tangent[j]
        surge = surge / (work.tangent[0] * SCALES[0])
    found[count, STABLE] = 0.0
    if holds > 0.0 and surge < 0.0:
        found[count, STABLE] = 1.0
    found[count, 7] = holds
    found[count, SURGE] = surge
    found[count, MISS] = miss
    put_margins(case, work, count)
    return count + 1


def states_on_curves(case: Sailing, work: Work, points: int) -> Answer:
    """Every state on the curves in work.curve, into work.found."""
    tally = Tally(0, 0)
    for i in range(points - 1):
        if work.curve[i, NUMBER] == work.curve[i + 1, NUMBER]:
            if is_near_nothing(work.curve, i) > 0.0:
                tally = states_near_nothing(case, work, i, tally)
            else:
                tally = states_by_cubic(case, work, i, tally)
    return Answer(tally.states, points, tally.lost)


def sailing_states(case: Sailing, seeds: Floats, work: Work) -> Answer:
    """Every steady state of a case, into work.found; the curves of surplus behind, into work.curve."""
    return states_on_curves(case, work, find_curves(case, seeds, work))
