"""The wake of an elliptically loaded foil rolling up in the cross plane: a referee for the flat sheet.

Vortices that start on the span with elliptic loading and drift with their own smoothed velocity (time =
distance aft / speed), as in Westwater 1935 and Krasny 1987. Half span 1, downwash of the flat sheet 1.
The smoothing is the core that the thickness of the viscous wake gives, see docs/theory/downwash.md.
"""

import numpy as np

CORE = 0.04


def _velocity(points, vortices, strength, smoothing: float):
    d = points[:, None] - vortices[None, :]
    k = strength / (2.0 * np.pi * (np.abs(d) ** 2 + smoothing**2))
    return np.sum(1j * k * d, axis=1)


def rolled(drift: float, vortices: int = 120, step: float = 0.005):
    """Places (y + i z) and strengths of the vortices after a drift of `drift` half spans at the sheet's
    downwash."""
    theta = np.pi * np.arange(vortices + 1) / vortices
    place = (-np.cos(0.5 * (theta[1:] + theta[:-1]))).astype(complex)
    strength = np.diff(-2.0 * np.sin(theta))
    for _ in range(round(drift / step)):
        half = place + 0.5 * step * _velocity(place, place, strength, CORE)
        place = place + step * _velocity(half, place, strength, CORE)
    return place, strength


def span_average(place, strength, half_rear: float, height: float) -> float:
    """Downwash averaged over |y| <= half_rear at a height over the foil's plane."""
    y = np.linspace(-half_rear, half_rear, 161)
    return float(-np.mean(_velocity(y + 1j * height, place, strength, CORE).imag))
