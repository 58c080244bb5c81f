"""Two-dimensional thin plate under a free surface, any Froude number: a referee for the surface factor.

The plate is a row of vortices, each with its linear free-surface image (Wehausen & Laitone, Surface Waves,
1960; Lamb, Hydrodynamics): with z = x + i y, the vortex at c, the stream U towards +x and k = g / U^2, the
complex velocity of a unit vortex is

    1/(2 pi i (z - c)) + 1/(2 pi i (z - c*)) - (k/pi) exp(-i k t) int_{-inf}^{t} exp(i k s)/s ds,   t = z - c*

and the integral is -E1(-i k t), plus 2 pi i downstream of the vortex. At infinite Froude number the last
term vanishes.
"""

import numpy as np
from scipy.special import exp1


def solve(depth: float, froude: float | None, panels: int = 120):
    """Circulations of a plate of chord 1 at a depth [chords], unit speed and angle, and their places from
    the nose.

    froude: on depth, U / sqrt(g h); None for infinite; a depth of None is deep water.
    """
    place = (np.arange(panels) + 0.25) / panels
    control = (np.arange(panels) + 0.75) / panels
    c = place[None, :] - 1j * depth
    z = control[:, None] - 1j * depth
    w = 1.0 / (2j * np.pi * (z - c)) + 1.0 / (2j * np.pi * (z - np.conj(c)))
    if froude is not None:
        k = 1.0 / (froude**2 * depth)
        t = z - np.conj(c)
        integral = -exp1(-1j * k * t) + np.where(t.real > 0.0, 2j * np.pi, 0.0)
        w = w - k / np.pi * np.exp(-1j * k * t) * integral
    # complex velocity is u - i v; a clockwise (lifting) row has v = -1 on the plate
    gamma = np.linalg.solve(-w.imag, -np.ones(panels))
    return gamma, place


def lift_ratio(depth: float, froude: float | None = None, panels: int = 120) -> float:
    """Lift over that in deep water, where the row of vortices is exact: pi at unit angle, speed and chord."""
    gamma, _ = solve(depth, froude, panels)
    return float(-np.sum(gamma) / np.pi)


def centre_of_lift(depth: float) -> float:
    """Centre of lift from the nose [chords] at infinite Froude number."""
    gamma, place = solve(depth, None, 200)
    return float(np.sum(gamma * place) / np.sum(gamma))


def wave_drag_ratio(depth: float, froude: float) -> float:
    """CDw / CL^2 from the wave far downstream: elevation 2 |S| / U with S the row's sum of Gamma exp(i k
    c*)."""
    gamma, place = solve(depth, froude)
    k = 1.0 / (froude**2 * depth)
    s = np.sum(gamma * np.exp(1j * k * (place + 1j * depth)))
    return float(0.5 * k * abs(s) ** 2 / np.sum(gamma) ** 2)
