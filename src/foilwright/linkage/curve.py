"""A measured curve in place of the chain: foil angle over wand angle at two or more adjuster positions.

Where rods run inside the hull their lengths cannot be reached; the curve is then all that is known, and
all that is needed. The readings are joined by cubic splines (not-a-knot ends) over wand angle and over
the adjuster positions, once, when the boat is read; the kernel looks the result up on an even grid with a
cubic that is C1 in both directions.
"""

from collections.abc import Sequence
from math import floor
from typing import NamedTuple

import numpy as np

from foilwright.measures import Floats
from foilwright.smooth import clip

WAND_FROM, WAND_TO, WAND_STEP = np.radians(-30.0), np.radians(100.0), np.radians(2.5)


class CurveTable(NamedTuple):
    """Foil angle [rad] on an even grid, `foil` [position, wand], one spare row and column at each end."""

    wand_start: float  # [rad]
    wand_step: float
    position_start: float  # [steps]
    position_step: float
    foil: Floats


def cubic_weights(t: float) -> tuple[float, float, float, float]:
    """Weights of the four neighbours at share t between the middle two (Catmull and Rom 1974), C1."""
    t2 = t * t
    t3 = t2 * t
    return (
        0.5 * (2.0 * t2 - t3 - t),
        0.5 * (2.0 - 5.0 * t2 + 3.0 * t3),
        0.5 * (t + 4.0 * t2 - 3.0 * t3),
        0.5 * (t3 - t2),
    )


def cubic_slopes(t: float) -> tuple[float, float, float, float]:
    """Derivatives of cubic_weights with respect to t."""
    t2 = t * t
    return (
        0.5 * (4.0 * t - 3.0 * t2 - 1.0),
        0.5 * (9.0 * t2 - 10.0 * t),
        0.5 * (1.0 + 8.0 * t - 9.0 * t2),
        0.5 * (3.0 * t2 - 2.0 * t),
    )


def read_curve(table: CurveTable, wand: float, position: float) -> tuple[float, float]:
    """Foil angle [rad] and gearing [rad/rad] at a wand angle [rad] and adjuster position [steps].

    Beyond the grid the last value is held with its slope (wand) or held (position).
    """
    foil = table.foil
    last_i = foil.shape[0] - 4
    last_j = foil.shape[1] - 4
    u = clip((position - table.position_start) / table.position_step, 0.0, last_i + 1.0)
    v_free = (wand - table.wand_start) / table.wand_step
    v = clip(v_free, 0.0, last_j + 1.0)
    i = int(floor(u))
    j = int(floor(v))
    if i > last_i:
        i = last_i
    if j > last_j:
        j = last_j
    a0, a1, a2, a3 = cubic_weights(u - i)
    b0, b1, b2, b3 = cubic_weights(v - j)
    d0, d1, d2, d3 = cubic_slopes(v - j)
    c0 = a0 * foil[i, j] + a1 * foil[i + 1, j] + a2 * foil[i + 2, j] + a3 * foil[i + 3, j]
    j1 = j + 1
    c1 = a0 * foil[i, j1] + a1 * foil[i + 1, j1] + a2 * foil[i + 2, j1] + a3 * foil[i + 3, j1]
    j2 = j + 2
    c2 = a0 * foil[i, j2] + a1 * foil[i + 1, j2] + a2 * foil[i + 2, j2] + a3 * foil[i + 3, j2]
    j3 = j + 3
    c3 = a0 * foil[i, j3] + a1 * foil[i + 1, j3] + a2 * foil[i + 2, j3] + a3 * foil[i + 3, j3]
    slope = d0 * c0 + d1 * c1 + d2 * c2 + d3 * c3
    value = b0 * c0 + b1 * c1 + b2 * c2 + b3 * c3 + slope * (v_free - v)
    return value, slope / table.wand_step


def spline_through(x: Floats, y: Floats, at: Floats) -> Floats:
    """Cubic spline through readings, not-a-knot ends, carried on straight beyond the first and last.

    Two readings give a line, three a parabola (de Boor, A Practical Guide to Splines, 1978, ch. IV).
    """
    n = len(x)
    inside = np.clip(at, x[0], x[-1])
    if n < 4:
        poly = np.polynomial.Polynomial.fit(x, y, n - 1)
        value, slope = poly(inside), poly.deriv()(inside)
    else:
        h = np.diff(x)
        m = np.zeros((n, n))
        r = np.zeros(n)
        for k in range(1, n - 1):
            m[k, k - 1 : k + 2] = h[k - 1], 2 * (h[k - 1] + h[k]), h[k]
            r[k] = 6 * ((y[k + 1] - y[k]) / h[k] - (y[k] - y[k - 1]) / h[k - 1])
        m[0, :3] = h[1], -(h[0] + h[1]), h[0]
        m[-1, -3:] = h[-1], -(h[-2] + h[-1]), h[-2]
        curvature = np.linalg.solve(m, r)
        piece = np.clip(np.searchsorted(x, inside) - 1, 0, n - 2)
        a = (x[piece + 1] - inside) / h[piece]
        b = 1.0 - a
        ca, cb = curvature[piece], curvature[piece + 1]
        value = a * y[piece] + b * y[piece + 1] + ((a**3 - a) * ca + (b**3 - b) * cb) * h[piece] ** 2 / 6
        slope = (y[piece + 1] - y[piece]) / h[piece]
        slope = slope + ((1 - 3 * a**2) * ca + (3 * b**2 - 1) * cb) * h[piece] / 6
    return np.asarray(value + slope * (at - inside))


def curve_table(positions: Sequence[float], readings: Sequence[tuple[Floats, Floats]]) -> CurveTable:
    """Even grid from readings: for each adjuster position [steps], wand and foil angles [rad] rising in wand.

    Between positions the same kind of spline (a straight line for two, a parabola for three); beyond the
    outermost it is carried on straight by one range, then held.
    """
    order = np.argsort(np.asarray(positions, dtype=float))
    at = np.asarray(positions, dtype=float)[order]
    wand = np.arange(WAND_FROM - WAND_STEP, WAND_TO + 1.5 * WAND_STEP, WAND_STEP)
    curves = np.array([spline_through(readings[k][0], readings[k][1], wand) for k in order])
    span = at[-1] - at[0]
    step = max(span / 12.0, 1e-6)
    grid = np.arange(at[0] - span - step, at[-1] + span + 1.5 * step, step)
    foil = np.array([spline_through(at, curves[:, j], grid) for j in range(len(wand))]).T
    return CurveTable(
        float(WAND_FROM), float(WAND_STEP), float(grid[1]), float(step), np.ascontiguousarray(foil)
    )


def no_curve() -> CurveTable:
    """The empty table of a boat that has rods."""
    return CurveTable(0.0, 1.0, 0.0, 1.0, np.zeros((4, 4)))
