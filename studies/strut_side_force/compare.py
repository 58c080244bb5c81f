"""Side force of a T-foil's strut: lattice with the surface's image against the closed formula.

Run from the repository's root: PYTHONPATH=src:. python studies/strut_side_force/compare.py
"""

from math import pi

import numpy as np

from foilwright.water.strut import strut_side_force
from tests.literature import vortex_lattice as vl

CHORD, FOIL_CHORD = 0.115, 0.107


def lattice(length: float, foil_span: float, wall: bool = False) -> tuple[float, float]:
    """Slope [1/rad] and CDi / CY^2 on chord x length; foil_span 0: no foil, wall: a hull at the top."""
    strut = vl.blade(length, CHORD, 0.0, 4, 24)
    n = len(strut.strip)
    whole = vl.joined(strut, vl.wing(foil_span, FOIL_CHORD, 1.0, 4, 72, -length)) if foil_span else strut
    angle = np.zeros(len(whole.strip))
    angle[:n] = 1.0
    if wall:
        mirror = np.array([1.0, 1.0, -1.0])
        v = vl.velocity(whole.control, whole.left, whole.right)
        v = v + vl.velocity(whole.control * mirror, whole.left, whole.right) * mirror
        gamma = np.linalg.solve(np.einsum("ijk,ik->ij", v, whole.normal), -angle)
    else:
        gamma = vl.circulation(whole, angle, True)
    area = length * CHORD
    slope = 2.0 * float(np.sum(gamma[:n] * (strut.right[:, 2] - strut.left[:, 2]))) / area
    drag = float("nan") if wall else 2.0 * vl.wake_drag(whole, gamma, True) / area / slope**2
    return slope, drag


def formula(length: float, hull_share: float) -> tuple[float, float]:
    force, drag = strut_side_force(1.0, 1e-3, CHORD, length, 2.0 * pi, 9.0, hull_share)
    area = length * CHORD
    return force / area / 1e-3, drag / area / (force / area) ** 2


for span in (0.0, 0.6, 0.98, 1.25):
    for length in (0.2, 0.3, 0.5, 0.7, 0.9):
        (slope, drag), (our_slope, our_drag) = lattice(length, span), formula(length, 0.0)
        print(
            f"foil {span:4.2f} m, strut {length:.1f} m:",
            f"slope {slope:.3f} formula {our_slope:.3f} ({100 * (our_slope / slope - 1):+.1f} %) ",
            f"CDi/CY^2 {drag:.4f} formula {our_drag:.4f} ({100 * (our_drag / drag - 1):+.1f} %)",
        )
for length in (0.3, 0.5, 0.9):
    slope, our_slope = lattice(length, 0.98, True)[0], formula(length, 1.0)[0]
    print(f"hull as a wall, strut {length:.1f} m: slope {slope:.3f} formula {our_slope:.3f}")
