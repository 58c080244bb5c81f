"""The waterline with its corner rounded: how much of a point or a segment is under water. Kernels.

Depths d are below the undisturbed surface, positive down [m].
"""

from math import fabs

BLEND = 0.005
"""Half-width of the rounded waterline [m]: water begins to count 5 mm above the surface, fully 5 mm below
it."""


def wet_depth(d: float) -> float:
    """Depth d below the surface [m] if positive, else 0, with a rounded corner (twice differentiable).

    A quartic between -BLEND and +BLEND, 0.94 mm at d = 0; exactly d below, exactly 0 above, so that a hull
    clear of the water by more than BLEND feels nothing at all.
    """
    if d <= -BLEND:
        return 0.0
    if d >= BLEND:
        return d
    t = 0.5 * (d + BLEND) / BLEND
    return BLEND * t * t * t * (2.0 - t)


def wet_step(d: float) -> float:
    """Slope of wet_depth: 0 above the surface, 1 below, a cubic between."""
    if d <= -BLEND:
        return 0.0
    if d >= BLEND:
        return 1.0
    t = 0.5 * (d + BLEND) / BLEND
    return t * t * (3.0 - 2.0 * t)


def wet_depth_integral(d: float) -> float:
    """Integral of wet_depth from far above the surface to d [m2]; d^2/2 + BLEND^2/10 below it."""
    if d <= -BLEND:
        return 0.0
    if d >= BLEND:
        return 0.5 * d * d + 0.1 * BLEND * BLEND
    t = 0.5 * (d + BLEND) / BLEND
    return BLEND * BLEND * t * t * t * t * (1.0 - 0.4 * t)


def wet_depth_second_integral(d: float) -> float:
    """Integral of wet_depth_integral [m3]; d^3/6 + d BLEND^2/10 below the surface."""
    if d <= -BLEND:
        return 0.0
    if d >= BLEND:
        return d * d * d / 6.0 + 0.1 * BLEND * BLEND * d
    t = 0.5 * (d + BLEND) / BLEND
    return BLEND * BLEND * BLEND * t * t * t * t * t * (0.4 - 2.0 / 15.0 * t)


def wet_segment(d0: float, d1: float) -> tuple[float, float, float, float]:
    """Means along a straight segment whose ends lie d0 and d1 below the surface [m], s running from 0 to 1 on
    it.

    Returns the means of wet_step [-], of wet_depth [m], of s wet_depth [m] and of the integral of d
    wet_step(d) [m2]. Exact, except where d0 and d1 differ by less than 0.1 mm, where Simpson's rule avoids
    the division (error < 1e-11).
    """
    delta = d1 - d0
    if fabs(delta) < 1e-4:
        dm = 0.5 * (d0 + d1)
        p0 = wet_depth(d0)
        pm = wet_depth(dm)
        p1 = wet_depth(d1)
        k0 = d0 * p0 - wet_depth_integral(d0)
        km = dm * pm - wet_depth_integral(dm)
        k1 = d1 * p1 - wet_depth_integral(d1)
        return (
            (wet_step(d0) + 4.0 * wet_step(dm) + wet_step(d1)) / 6.0,
            (p0 + 4.0 * pm + p1) / 6.0,
            (2.0 * pm + p1) / 6.0,
            (k0 + 4.0 * km + k1) / 6.0,
        )
    inverse = 1.0 / delta
    g0 = wet_depth_integral(d0)
    g1 = wet_depth_integral(d1)
    h0 = wet_depth_second_integral(d0)
    h1 = wet_depth_second_integral(d1)
    return (
        (wet_depth(d1) - wet_depth(d0)) * inverse,
        (g1 - g0) * inverse,
        (g1 - (h1 - h0) * inverse) * inverse,
        (d1 * g1 - d0 * g0 - 2.0 * (h1 - h0)) * inverse,
    )
