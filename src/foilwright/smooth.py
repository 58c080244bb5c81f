"""Smooth stand-ins for corners, so that gradients survive the waterline, stops and stall.

Each takes a width: the distance over which the corner is rounded. Values differ from the sharp
function most at the corner, by the stated share of that width; three widths away 8 % of it are left
(16 % of smooth_abs), ten widths away 2.5 %.
"""

from math import fabs, sqrt


def positive_part(x: float, width: float) -> float:
    """Smooth max(x, 0): (x + sqrt(x^2 + width^2)) / 2. At the corner it reads width / 2."""
    return 0.5 * (x + sqrt(x * x + width * width))


def positive_slope(x: float, width: float) -> float:
    """Smooth step from 0 to 1 at x = 0, the slope of positive_part; 0.5 at the corner."""
    return 0.5 * (1.0 + x / sqrt(x * x + width * width))


def smooth_max(a: float, b: float, width: float) -> float:
    """Smooth larger of two; width / 2 too large where they are equal."""
    d = a - b
    return 0.5 * (a + b + sqrt(d * d + width * width))


def smooth_min(a: float, b: float, width: float) -> float:
    """Smooth smaller of two; width / 2 too small where they are equal."""
    d = a - b
    return 0.5 * (a + b - sqrt(d * d + width * width))


def smooth_abs(x: float, width: float) -> float:
    """Smooth |x|, zero at zero: sqrt(x^2 + width^2) - width. Far away it reads width too little."""
    return sqrt(x * x + width * width) - width


def smooth_clip(x: float, low: float, high: float, width: float) -> float:
    """Smooth limit of x to [low, high]; width / 2 inside the limit when x stands at the limit.

    Both corners are hyperbolas, so the value never leaves [low, high] and its slope never
    vanishes, which lets a solver find its way back from a stop.
    """
    return low + positive_part(x - low, width) - positive_part(x - high, width)


def clip(x: float, low: float, high: float) -> float:
    """Sharp limit of x to [low, high], for table edges and domain guards."""
    if x < low:
        return low
    if x > high:
        return high
    return x


def smooth_step(x: float, low: float, high: float) -> float:
    """0 below low, 1 above high, a cubic with flat ends between (C1)."""
    t = clip((x - low) / (high - low), 0.0, 1.0)
    return t * t * (3.0 - 2.0 * t)


def sign_of(x: float) -> float:
    """-1 or +1; +1 at zero."""
    if x < 0.0:
        return -1.0
    return 1.0


def share_of(part: float, whole: float) -> float:
    """|part| / |whole|, 0 where the whole is nothing."""
    if fabs(whole) < 1e-12:
        return 0.0
    return fabs(part) / fabs(whole)
