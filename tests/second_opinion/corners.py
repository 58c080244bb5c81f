"""Axes and rounded corners of the second opinion, after `docs/theory/axes.md`."""

from __future__ import annotations

from math import cos, hypot, sin

import numpy as np


def above(x, width):
    """What of x is positive, its corner a hyperbola."""
    return 0.5 * (x + np.hypot(x, width)) if isinstance(x, np.ndarray) else 0.5 * (x + hypot(x, width))


def larger(a, b, width):
    return b + above(a - b, width)


def smaller(a, b, width):
    return a - above(a - b, width)


def within(x, low, high, width):
    """Held between low and high, never quite reaching them."""
    return low + above(x - low, width) - above(x - high, width)


def ramp(x, low, high):
    """From 0 at low to 1 at high with level ends."""
    u = min(max((x - low) / (high - low), 0.0), 1.0)
    return 3 * u**2 - 2 * u**3


def earth_from_body(trim, heel, leeway=0.0):
    """Matrix that turns body components into earth components.

    First the boat is heeled about its own x, then trimmed about the level y, then headed to windward of its
    course about z: all three negative right-hand turns.
    """
    heeled = np.array([[1, 0, 0], [0, cos(heel), sin(heel)], [0, -sin(heel), cos(heel)]])
    trimmed = np.array([[cos(trim), 0, -sin(trim)], [0, 1, 0], [sin(trim), 0, cos(trim)]])
    headed = np.array([[cos(leeway), sin(leeway), 0], [-sin(leeway), cos(leeway), 0], [0, 0, 1]])
    return headed @ trimmed @ heeled
