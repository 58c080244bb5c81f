"""Newton's rule on any choice of the balances and the unknowns of sailing in wind. Kernels."""

from math import fabs, pi
from typing import NamedTuple

from foilwright.flight.elimination import eliminate
from foilwright.flight.wind_balance import SCALES, STEP, N, Sailing, left_over
from foilwright.measures import Floats
from foilwright.smooth import clip

LONGEST = 2.5  # step of one unknown, in its scale
FRESH = 5  # steps on one set of slopes; as an age: none yet


class Work(NamedTuple):
    """Scratch of one thread; what is found is in `curve` and `found`."""

    items: Floats  # [17, 6]
    x: Floats  # [6] the unknowns
    r: Floats  # [6] what is left over
    there: Floats  # [6] the same a step away
    base: Floats  # [6] where a step started
    tangent: Floats  # [6] of the curve, in scaled unknowns
    slopes: Floats  # [6, 6]
    near: Floats  # [6, 6] the same, kept up to date by Broyden's rule
    a: Floats  # [6, 8] equations to be solved
    scan: Floats  # [N_TRIMS, 7], see wind_scan
    curve: Floats  # [MOST_POINTS, POINT_SIZE], see wind_curve
    found: Floats  # [MOST_FOUND, FOUND_SIZE], see wind_states


def keep_in_range(x: Floats) -> None:
    """Holds the unknowns where the loads mean something; a balance at such an edge is thrown away later."""
    x[0] = clip(x[0], 0.05, 40.0)
    x[1] = clip(x[1], -1.2, 2.0)
    x[2] = clip(x[2], -15.0 * pi / 180.0, 20.0 * pi / 180.0)
    x[3] = clip(x[3], -0.6, 0.6)
    x[4] = clip(x[4], -1.0, 1.0)
    x[5] = clip(x[5], -1.0, 2.2)


def largest(r: Floats, equations: tuple[int, ...]) -> float:
    """The largest of what the named balances leave over, as a size."""
    most = 0.0
    for i in range(len(equations)):
        size = fabs(r[equations[i]])
        if not size <= most:
            most = size
    return most


def settle(
    case: Sailing,
    work: Work,
    unknowns: tuple[int, ...],
    equations: tuple[int, ...],
    tolerance: float,
    steps: int,
    age: int,
) -> float:
    """Turns the named unknowns of work.x until the named balances hold; the largest left over.

    Newton with Broyden's updates, no unknown more than LONGEST of its scale at a time, and fresh slopes
    every few steps or where a step made it worse. age: FRESH to begin with fresh slopes, 0 to begin with
    those of the last call for the same unknowns. Above the tolerance: it did not settle.
    """
    n = len(unknowns)
    x = work.x
    r = work.r
    near = work.near
    left_over(case, x, r, work.items)
    miss = largest(r, equations)
    for _ in range(steps):
        if miss < tolerance:
            return miss
        if age >= FRESH:
            for j in range(n):
                step = STEP * SCALES[unknowns[j]]
                kept = x[unknowns[j]]
                x[unknowns[j]] = kept + step
                left_over(case, x, work.there, work.items)
                x[unknowns[j]] = kept
                for i in range(n):
                    near[i, j] = (work.there[equations[i]] - r[equations[i]]) / STEP
            age = 0
        for i in range(n):
            for j in range(n):
                work.a[i, j] = near[i, j]
            work.a[i, n] = -r[equations[i]]
        if eliminate(work.a, n, 1) == 0.0:
            return miss
        longest = 1.0
        for j in range(n):
            if fabs(work.a[j, n]) > longest * LONGEST:
                longest = fabs(work.a[j, n]) / LONGEST
        size = 1e-300
        for j in range(n):
            before = x[unknowns[j]]
            work.base[j] = before
            x[unknowns[j]] = before + SCALES[unknowns[j]] * work.a[j, n] / longest
        keep_in_range(x)
        for j in range(n):
            work.base[j] = (x[unknowns[j]] - work.base[j]) / SCALES[unknowns[j]]
            size = size + work.base[j] * work.base[j]
        for i in range(n):
            work.there[i] = r[equations[i]]
        left_over(case, x, r, work.items)
        last = miss
        miss = largest(r, equations)
        for i in range(n):
            off = r[equations[i]] - work.there[i]
            for j in range(n):
                off = off - near[i, j] * work.base[j]
            off = off / size
            for j in range(n):
                near[i, j] = near[i, j] + off * work.base[j]
        age = age + 1
        if miss > 0.7 * last and age > 1:
            age = FRESH
    return miss


def put_unknowns(x: Floats, rows: Floats, row: int) -> None:
    """Copies the six unknowns from the start of a row."""
    for j in range(N):
        x[j] = rows[row, j]
