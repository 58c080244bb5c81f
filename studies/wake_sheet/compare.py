"""Should the flat wake sheet sink? Span-average downwash of a rolled-up wake against flat sheets.

Run from the repository's root: PYTHONPATH=src:. python studies/wake_sheet/compare.py
"""

from math import pi

from foilwright.water.foil import downwash_angle
from tests.literature.rolled_wake import rolled, span_average

HALF_REAR = 0.857  # rear span over main span, as on the narrow demo boat


def flat(height: float) -> float:
    """Half span 1, downwash on the sheet 1, far aft, deep."""
    return downwash_angle(0.5 * pi, 1.0, 2.0, 2.0 * HALF_REAR, height, 1e5, 1e5, 1e6)


for drift in (0.065, 0.13, 0.2, 0.26):
    place, strength = rolled(drift)
    middle = place[len(place) // 2]
    print(f"drift {drift:.3f} half spans: middle sank {-middle.imag:.3f}, tip at {place[-1]:.3f}")
    for height in (-0.25, -0.15, -0.08, 0.0, 0.08, 0.15, 0.25, 0.4):
        print(
            f"  height {height:+.2f}"
            f"  rolled {span_average(place, strength, HALF_REAR, height):.3f}"
            f"  flat {flat(height):.3f}  flat, sunk {flat(height + drift):.3f}"
        )
