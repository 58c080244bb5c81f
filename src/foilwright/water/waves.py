"""Wave resistance of the hull: Michell's thin-ship integral, tabulated once per hull, looked up in the solve.

The table is made with numpy when a boat is read. `wave_resistance` is a kernel.
"""

from math import fabs, floor, sqrt
from typing import Any, NamedTuple

import numpy as np

from foilwright.measures import Floats
from foilwright.smooth import clip
from foilwright.water.hull_shape import HullShape

SLOWEST_FROUDE = 0.12
"""Below it a hull is taken to make no waves."""

FASTEST_FROUDE = 2.0
"""Above it the share is held."""

FROUDE_SCALE = 0.5
"""Rows of the table are even in Fn / (Fn + FROUDE_SCALE)."""

WAVES = 161
"""Number of wave directions in Michell's integral."""

WIDEST_WAVE, WIDEST_PHASE = 6.0, 60.0
"""The integral stops at lambda = WIDEST_WAVE + WIDEST_PHASE / (k L)."""

_LEVELS = np.sin(0.5 * np.pi * np.linspace(0.0, 1.0, 17)) ** 2
"""Heights at which half-breadths are read, as a share of the draft, closer together at both ends."""


class WaveTable(NamedTuple):
    """Wave resistance as a share of the weight of displaced water, R / (rho g V), over speed and volume."""

    share: Floats
    """[speeds, volumes] even in Fn / (Fn + FROUDE_SCALE) and, from 0, in sqrt(volume)"""
    length: float
    """of the hull, for the Froude number [m]"""
    top_volume: float
    """displaced volume of the last column [m3]"""


def wave_resistance(table: WaveTable, speed: float, volume: float, density: float, gravity: float) -> float:
    """Wave resistance [N] of the hull at a speed [m/s] while it displaces a volume [m3].

    Cubic in both directions (Catmull-Rom) and once differentiable. In the share R / (rho g V) a hull that
    lifts out runs almost straight to zero over sqrt(V), so few columns suffice. Above the fastest speed the
    share is held, above the top volume it goes on straight. Volume is all that is known of immersion here:
    trim and heel count only through it.
    """
    if volume < 1e-9 or speed == 0.0:
        return 0.0
    speeds = table.share.shape[0]
    volumes = table.share.shape[1]
    froude = fabs(speed) / sqrt(gravity * table.length)
    low = SLOWEST_FROUDE / (SLOWEST_FROUDE + FROUDE_SCALE)
    high = FASTEST_FROUDE / (FASTEST_FROUDE + FROUDE_SCALE)
    across = (froude / (froude + FROUDE_SCALE) - low) / (high - low) * (speeds - 1)
    if across <= 0.0:
        return 0.0
    across = clip(across, 0.0, speeds - 1.0)
    along = sqrt(volume / table.top_volume) * (volumes - 1)
    i = int(floor(across))
    if i > speeds - 2:
        i = speeds - 2
    j = int(floor(along))
    if j > volumes - 2:
        j = volumes - 2
    before = i - 1 if i > 0 else 0
    after = i + 2 if i < speeds - 2 else i + 1
    left = j - 1 if j > 0 else 0
    right = j + 2 if j < volumes - 2 else j + 1
    a0, a1, a2, a3 = cubic_weights(across - i, i == 0, i == speeds - 2, 0.0)
    t = along - j
    if t > 1.0:
        b0, b1, b2, b3 = 0.0, 1.0 - t, t, 0.0
    else:
        b0, b1, b2, b3 = cubic_weights(t, j == 0, j == volumes - 2, 1.0)
    s = table.share
    share: float = (
        a0 * (b0 * s[before, left] + b1 * s[before, j] + b2 * s[before, j + 1] + b3 * s[before, right])
        + a1 * (b0 * s[i, left] + b1 * s[i, j] + b2 * s[i, j + 1] + b3 * s[i, right])
        + a2 * (b0 * s[i + 1, left] + b1 * s[i + 1, j] + b2 * s[i + 1, j + 1] + b3 * s[i + 1, right])
        + a3 * (b0 * s[after, left] + b1 * s[after, j] + b2 * s[after, j + 1] + b3 * s[after, right])
    )
    return share * density * gravity * volume


def cubic_weights(
    t: float, at_start: bool, at_end: bool, straight: float
) -> tuple[float, float, float, float]:
    """Weights of the four points around an interval of an even table, t in [0, 1] on it.

    Slopes are central differences; at the table's ends the chord's times straight (1 straight, 0 flat).
    """
    m0 = 0.5 * t * (1.0 - t) * (1.0 - t)
    m1 = 0.5 * t * t * (t - 1.0)
    step = t * t * (3.0 - 2.0 * t)
    w0 = -m0
    w1 = 1.0 - step - m1
    w2 = step + m0
    w3 = m1
    if at_start:
        w0 = 0.0
        w1 -= 2.0 * m0 * straight
        w2 += m0 * (2.0 * straight - 1.0)
    if at_end:
        w1 += m1 * (1.0 - 2.0 * straight)
        w2 += 2.0 * m1 * straight
        w3 = 0.0
    return w0, w1, w2, w3


def wave_table(shape: HullShape, gravity: float = 9.80665, speeds: int = 40, volumes: int = 8) -> WaveTable:
    """Table for a hull: level keel line, drafts up to three quarters of the hull's depth.

    The integral wants finer sections than the hydrostatics: 41 stations and 9 nodes of a parametric hull are
    enough. gravity [m/s2] leaves the shares as they are (they depend on the Froude number alone).
    """
    depth = float(shape.z.max()) - shape.lowest
    drafts = 0.75 * depth * (np.arange(97) / 96.0) ** 2
    displaced = _level_volumes(shape, drafts)
    wanted = (np.arange(1, volumes + 1) / volumes) ** 2 * displaced[-1]
    drafts = np.interp(np.sqrt(wanted), np.sqrt(displaced), drafts)
    low = SLOWEST_FROUDE / (SLOWEST_FROUDE + FROUDE_SCALE)
    high = FASTEST_FROUDE / (FASTEST_FROUDE + FROUDE_SCALE)
    across = np.linspace(low, high, speeds)
    froude = FROUDE_SCALE * across / (1.0 - across)
    share = np.zeros((speeds, volumes + 1))
    share[1:, 1:] = thin_ship_resistance(shape, drafts, froude[1:] * sqrt(gravity * shape.length), gravity)
    share[:, 1:] /= gravity * wanted
    return WaveTable(share, shape.length, float(wanted[-1]))


def thin_ship_resistance(shape: HullShape, drafts: Floats, speeds: Floats, gravity: float) -> Floats:
    """Wave resistance over water density [m4/s2], [speeds, drafts]; keel line level.

    Michell 1898 (Philosophical Magazine 45:106-123) in the form
        R / rho = 4 g^2 / (pi U^2)  integral over lambda from 1 of |P|^2 lambda^2 / sqrt(lambda^2 - 1),
        P = integral over the immersed centre plane of dy/dx exp(k lambda^2 z + i k lambda x), k = g / U^2,
    with lambda = cosh(u), which removes the root. Both exponentials are integrated in closed form, against
    straight pieces of y in x and in z. The transom is left open: dy/dx is integrated over the hull and no
    step closes it. A blunt bow is closed by its step. Speeds [m/s],
    gravity [m/s2], drafts [m] of the lowest point.
    """
    steps = np.array([_steps_of_breadth(shape, draft) for draft in drafts])
    levels = np.multiply.outer(drafts, _LEVELS - 1.0)
    result = np.empty((len(speeds), len(drafts)))
    for row, speed in enumerate(speeds):
        kappa = gravity / (speed * speed)
        u = np.linspace(0.0, np.arccosh(WIDEST_WAVE + WIDEST_PHASE / (kappa * shape.length)), WAVES)
        lam = np.cosh(u)
        weight = u[1] * lam**2
        weight[[0, -1]] *= 0.5
        turn = _turning(shape.x, kappa * lam)
        p = ((_decaying(levels, kappa * lam**2) @ steps) * turn).sum(axis=2)
        result[row] = (p.real**2 + p.imag**2) @ weight
        result[row] *= 4.0 * gravity * gravity / (np.pi * speed * speed)
    return result


def half_breadths(shape: HullShape, heights: Floats) -> Floats:
    """Half-breadth [m] at heights above the keel line [m], [heights, stations]; 0 below the bottom."""
    y = np.empty((len(heights), shape.x.size))
    for i in range(shape.x.size):
        rising = np.maximum.accumulate(shape.z[i])
        y[:, i] = np.interp(heights, rising, shape.y[i], left=0.0)
    return y


def _steps_of_breadth(shape: HullShape, draft: float) -> Floats:
    """Growth of half-breadth [m] over each piece between stations, last the closing of the bow.

    [levels, pieces].
    """
    y = half_breadths(shape, shape.lowest + draft * _LEVELS)
    return np.hstack([np.diff(y, axis=1), -y[:, -1:]])


def _turning(x: Floats, k: Floats) -> np.ndarray[tuple[Any, ...], np.dtype[np.complex128]]:
    """Mean of exp(i k x) over each piece between stations, last its value at the bow; [waves, pieces]."""
    value = np.exp(1j * np.outer(k, x))
    mean = np.diff(value, axis=1) / (1j * np.outer(k, np.diff(x)))
    return np.hstack([mean, value[:, -1:]])


def _decaying(z: Floats, a: Floats) -> Floats:
    """Weights of the values at levels z (ascending to 0) in the integral of a broken line times exp(a z).

    z [drafts, levels], a [waves]: [drafts, waves, levels].
    Over one gap the integral of exp(a z) is (top - bottom) / a; the upper level has the
    share top / a - (top - bottom) / (a q) of it, q = a gap, the lower level the rest.
    """
    z, a = z[:, None, :], a[:, None]
    gaps = np.diff(z)
    value = np.exp(a * z)
    q = a * gaps
    top = value[..., 1:]
    whole = (top - value[..., :-1]) / a
    small = q < 1e-4
    upper = np.where(small, top * gaps * (0.5 - q / 6.0), top / a - whole / np.where(small, 1.0, q))
    weights = np.zeros_like(value)
    weights[..., 1:] += upper
    weights[..., :-1] += whole - upper
    return weights


def _level_volumes(shape: HullShape, drafts: Floats) -> Floats:
    """Volume [m3] displaced, keel line level, at drafts [m] of the lowest point that ascend from 0."""
    breadth = half_breadths(shape, shape.lowest + drafts) @ shape.width
    slices = (breadth[1:] + breadth[:-1]) * np.diff(drafts)
    return np.concatenate([[0.0], np.cumsum(slices)])
