"""Which flat sheet stands best for a rolled-up wake? Span-average downwash: sunk or not, thin or with a core.

Run from the repository's root: PYTHONPATH=src:. python studies/wake_sheet/compare.py
"""

from math import sqrt

from foilwright.water.foil import sheet_average
from tests.literature.rolled_wake import rolled, span_average

HALF_REAR = 0.857  # rear span over main span, as on the narrow demo boat
CORE = 0.05  # half spans, ours
DRIFTS = (0.06, 0.13, 0.2, 0.26)  # of an unrolled sheet, half spans: CL 0.2 to 0.8
HEIGHTS = [0.02 * i for i in range(-15, 21)]

print("half spans: drift, height: rolled up; thin sheet, ours, ours sunk by the drift")
for drift in DRIFTS:
    place, strength = rolled(drift)
    middle = place[len(place) // 2]
    print(f"drift {drift:.3f}: middle sank {-middle.imag:.3f}, tip at {place[-1]:.3f}")
    for height in (-0.25, -0.15, -0.08, 0.0, 0.08, 0.15, 0.25, 0.4):
        thin, ours = (sheet_average(HALF_REAR, height, 1.0, core) for core in (0.0, CORE))
        sunk = sheet_average(HALF_REAR, height + drift, 1.0, CORE)
        seen = span_average(place, strength, HALF_REAR, height)
        print(f"  {height:+.2f}: {seen:.3f}; {thin:.3f}, {ours:.3f}, {sunk:.3f}")

print("core [spans]: root mean square and largest difference; rear spans 0.7 to 1.08, all drifts and heights")
wakes = [rolled(drift) for drift in DRIFTS]
seen_all = [
    (rear, height, span_average(*wake, rear, height))
    for wake in wakes
    for rear in (0.7, 0.78, 0.857, 0.93, 1.0, 1.08)
    for height in HEIGHTS
]
for core in (0.0, 0.01, 0.015, 0.02, 0.025, 0.03, 0.04, 0.05):
    away = [sheet_average(rear, height, 1.0, 2.0 * core) - seen for rear, height, seen in seen_all]
    print(f"  {core:.3f}: {sqrt(sum(d * d for d in away) / len(away)):.4f}, {max(map(abs, away)):.3f}")
