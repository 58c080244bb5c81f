"""Lattice against lifting line over outline and depth: the two planform factors, and what is left.

Run from the repository's root: PYTHONPATH=src:. python studies/lifting_surface/compare.py
"""

from math import pi

from foilwright.water.foil import foil_coefficients
from foilwright.water.planform import drag_excess_factor, lifting_line, lifting_surface_factor, planform
from tests.literature.vortex_lattice import wing_results

print("deep water: slope lattice/line (ours), delta lattice/line (ours)")
for taper in (1.0, 0.7, 0.5, 0.4, 0.3):
    for ar in (4.0, 6.0, 8.0, 10.0, 12.0, 16.0):
        line = lifting_line(ar, taper)
        slope, k, centre = wing_results(ar, taper, None, 10, 40)
        print(
            f"taper {taper:.1f} AR {ar:4.0f}  {slope / line.slope:.4f} ({lifting_surface_factor(ar):.4f})"
            f"  {(k - 1.0) / line.delta:.3f} ({drag_excess_factor(ar):.3f})  centre {centre:.4f}"
            f" ({planform(ar, ar, taper, 0.0, 1.0).centre_share:.4f})"
        )
print("under the surface: explicit formula over lattice, lift slope and induced drag for the lift, per cent")
for taper in (1.0, 0.5, 0.4):
    for ar in (5.0, 6.0, 8.0, 10.0, 12.0):
        outline = planform(ar, ar, taper, 0.0, 1.0)
        row = []
        for depth in (0.25, 0.5, 1.0, 2.0, 4.0, 8.0):
            slope, k, _ = wing_results(ar, taper, depth, 10, 40)
            cl, cdi, ours, _ = foil_coefficients(0.1, 0.0, 2.0 * pi, 9.0, -9.0, depth, 0.0, outline)
            row.append(f"{100 * (ours / slope - 1):+5.1f}/{100 * (cdi / cl**2 * pi * ar / k - 1):+4.1f}")
        print(f"taper {taper:.1f} AR {ar:4.0f}", *row)
