"""Fits the biplane factor and says how far the shipped rational function is from the exact integral.

Run from the repository's root: PYTHONPATH=src python studies/biplane_factor/fit.py
"""

import numpy as np
from scipy.optimize import least_squares

from foilwright.water.foil import biplane_factor


def exact(gap: float) -> float:
    """Mutual over self induced drag of two elliptic loadings (half span 1, y = cos theta)."""
    theta = np.pi * (np.arange(20000) + 0.5) / 20000
    zeta = np.cos(theta) + 2j * gap
    local = 1.0 - (zeta / (np.sqrt(zeta - 1.0) * np.sqrt(zeta + 1.0))).real
    weight = np.sin(theta) ** 2
    return float(np.sum(local * weight) / np.sum(weight))


def rational(p, g):
    """1 at 0 and 1 / (8 g^2) far away, whatever the five numbers."""
    return (1.0 + p[0] * g + p[1] * g**2) / (1.0 + p[2] * g + p[3] * g**2 + p[4] * g**3 + 8.0 * p[1] * g**4)


gaps = np.array([0.005, 0.01, 0.02, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.5, 2, 3, 5, 10])
values = np.array([exact(g) for g in gaps])
fit = least_squares(lambda p: rational(p, gaps) - values, [5.0, 5.0, 10.0, 20.0, 20.0], max_nfev=20000)
print("fitted", np.round(fit.x, 2), "largest error", np.abs(fit.fun).max())
print(f"{'gap':>8} {'exact':>8} {'shipped':>8} {'Prandtl':>8}")
for gap in np.concatenate([[0.001, 0.002], gaps, [30.0]]):
    prandtl = (1.0 - 0.66 * gap) / (1.05 + 3.7 * gap)
    print(f"{gap:8.3f} {exact(gap):8.4f} {biplane_factor(gap):8.4f} {prandtl:8.4f}")
