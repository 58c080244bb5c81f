"""Hull in the water of the second opinion, after `docs/theory/hull.md` and `waves.md`.

Each station is cut into level slices instead of being walked round: between two depths where something has a
corner the slice's width is a straight line in depth, and Gauss points do the rest exactly.
"""

from __future__ import annotations

from math import cos, pi, sin, sqrt
from typing import NamedTuple

import numpy as np
from scipy.interpolate import CubicHermiteSpline

from tests.second_opinion.corners import above, ramp
from tests.second_opinion.foils import friction_line

EDGE = 0.005  # half height of the rounded waterline [m]
NODES, WEIGHTS = np.polynomial.legendre.leggauss(4)


def under(depth):
    """Share of the water at a depth: 0 above, 1 below, a step of the third degree between."""
    t = np.clip((depth + EDGE) / (2 * EDGE), 0, 1)
    return t * t * (3 - 2 * t)


def rate_under(depth):
    t = np.clip((depth + EDGE) / (2 * EDGE), 0, 1)
    return 6 * t * (1 - t) / (2 * EDGE)


def rounded_depth(depth):
    """Integral of `under`."""
    t = min(max((depth + EDGE) / (2 * EDGE), 0.0), 1.0)
    return EDGE * t**3 * (2 - t) if t < 1 else depth


class Wet(NamedTuple):
    volume: float
    x: float
    y: float
    z: float
    area: float
    length: float
    middle: float
    waterplane: float
    transom_area: float
    transom_depth: float


def hull_in_water(hull, height, trim, heel, reference):
    """Hydrostatics with (reference, 0, 0) at a height above the undisturbed surface."""
    x, w = np.asarray(hull.x), np.asarray(hull.width)
    y, z = np.asarray(hull.y), np.asarray(hull.z)
    base = height + (x - reference) * sin(trim)
    ring_y = np.concatenate([-y[:, ::-1], y], axis=1)
    ring_z = np.concatenate([z[:, ::-1], z], axis=1)
    across = ring_y * cos(heel) + ring_z * sin(heel)
    depth = -(base[:, None] + cos(trim) * (ring_z * cos(heel) - ring_y * sin(heel)))
    keel_depth = -(base + cos(trim) * z[:, 0] * cos(heel))
    transom_depth = rounded_depth(float(keel_depth[0]))
    if depth.max() <= -EDGE:
        return Wet(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, transom_depth)

    corners = np.concatenate([np.clip(depth, -EDGE, None), np.full((x.size, 1), EDGE)], axis=1)
    corners = np.sort(np.minimum(corners, np.maximum(depth.max(axis=1), -EDGE)[:, None]), axis=1)
    low, high = corners[:, :-1, None], corners[:, 1:, None]
    level = ((low + high) / 2 + (high - low) / 2 * NODES).reshape(x.size, -1)
    weight = ((high - low) / 2 * WEIGHTS).reshape(x.size, -1)

    c0, d0 = across[:, None, :], depth[:, None, :]
    c1, d1 = np.roll(across, -1, axis=1)[:, None, :], np.roll(depth, -1, axis=1)[:, None, :]
    cut = (np.minimum(d0, d1) <= level[:, :, None]) & (level[:, :, None] < np.maximum(d0, d1))
    rise = np.where(d1 == d0, 1.0, d1 - d0)
    where = c0 + (c1 - c0) * (level[:, :, None] - d0) / rise
    sense = np.where(cut, -np.sign(d1 - d0), 0.0)
    width, moment = (sense * where).sum(axis=2), (sense * where**2 / 2).sum(axis=2)

    share = weight * under(level) / cos(trim)
    up = -(level + base[:, None]) / cos(trim)  # level coordinate at right angles to `across`
    A = (share * width).sum(axis=1)
    volume = float(w @ A)
    if volume <= 0:
        return Wet(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, transom_depth)
    c = float(w @ (share * moment).sum(axis=1)) / volume
    v = float(w @ (share * width * up).sum(axis=1)) / volume
    waterplane = float(w @ (weight * rate_under(level) / cos(trim) * width).sum(axis=1))

    sides = 0.0
    for sign in (1.0, -1.0):
        down = -(base[:, None] + cos(trim) * (z * cos(heel) - sign * y * sin(heel)))
        sides += float((np.asarray(hull.area) * mean_under(down[:, :-1], down[:, 1:])).sum())
    wet = under(keel_depth) * w
    length = float(wet.sum())
    middle = float((wet * x).sum()) / length if length > 0 else 0.0
    return Wet(
        volume,
        float(w @ (A * x)) / volume,
        c * cos(heel) - v * sin(heel),
        c * sin(heel) + v * cos(heel),
        sides,
        length,
        middle,
        waterplane,
        float(A[0]),
        transom_depth,
    )


def mean_under(d0, d1):
    """Mean of `under` along straight pieces, cut where they meet the edges of the rounding."""
    step = np.where(np.abs(d1 - d0) < 1e-12, 1e-12, d1 - d0)
    a, b = np.clip((-EDGE - d0) / step, 0, 1), np.clip((EDGE - d0) / step, 0, 1)
    first, second = np.minimum(a, b), np.maximum(a, b)
    total = np.zeros_like(d0)
    for low, high in ((np.zeros_like(d0), first), (first, second), (second, np.ones_like(d0))):
        for node, weight in zip(NODES, WEIGHTS, strict=True):
            r = (low + high) / 2 + node * (high - low) / 2
            total += weight * (high - low) / 2 * under(d0 + r * (d1 - d0))
    return total


def wave_drag(waves, speed, volume, water):
    """Read from the table: piecewise cubics over speed, then over the root of the volume."""
    fn = speed / sqrt(water.gravity * waves.length)
    if fn < 0.12 or volume <= 0:
        return 0.0
    share = np.asarray(waves.share)
    rows, columns = share.shape
    low, high = 0.12 / 0.62, 2 / 2.5
    slopes = np.gradient(share, axis=0)
    slopes[0] = slopes[-1] = 0
    place = (min(fn, 2.0) / (min(fn, 2.0) + 0.5) - low) / (high - low) * (rows - 1)
    line = CubicHermiteSpline(np.arange(rows), share, slopes)(place)
    column = sqrt(volume / waves.top_volume) * (columns - 1)
    inner = np.gradient(line)  # its ends are the last chords
    if column > columns - 1:
        value = line[-1] + inner[-1] * (column - columns + 1)
    else:
        value = CubicHermiteSpline(np.arange(columns), line, inner)(column)
    return float(value) * water.density * water.gravity * volume


def hull_friction(wet, speed, form, water):
    C = friction_line(speed * (wet.length + 0.01) / water.viscosity)
    return water.density / 2 * speed**2 * wet.area * C * form


def transom_drag(wet, speed, length, water):
    fade = 1 - ramp(speed / sqrt(water.gravity * length), 0.4, 0.5)
    return 0.2 * water.density / 2 * speed**2 * wet.transom_area * fade


class Planing(NamedTuple):
    lift: float
    drag: float
    x: float


def planing(wet, speed, trim, share, water):
    if wet.length < 1e-9 or share == 0 or wet.waterplane <= 0:
        return Planing(0.0, 0.0, wet.middle)
    beam, angle = wet.waterplane / wet.length, above(trim, 0.0035)
    lift = share * water.density / 2 * speed**2 * beam**2 * 0.0120
    lift *= sqrt(wet.length / beam) * (angle * 180 / pi) ** 1.1
    return Planing(lift, lift * (angle + angle**3 / 3), wet.middle + wet.length / 4)
