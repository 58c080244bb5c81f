"""Cavitation number and inception speed in closed form.

sigma = (p_air + rho g h - p_vapour) / (rho U^2 / 2); inception where -cp_min reaches it (textbook definition,
e.g. Faltinsen, Hydrodynamics of High-Speed Marine Vehicles, 2005). Water at 15 degrees: fresh 999.103 kg/m3,
vapour pressure 1705.8 Pa (IAPWS-95); sea 1025.976 kg/m3 (TEOS-10), 1670.9 Pa (Sharqawy, Lienhard & Zubair).
Air 101325 Pa, g 9.80665, depth 0.5 m. Tolerance 0.1 %, or the last printed figure.
"""

import pytest

from foilwright.water.foil import cavitation_number, cavitation_speed
from tests.literature.published import CLOSED_FORM, COMPUTED, Source, compare, percent

TOPIC = "Cavitation"
FORMULA = Source(TOPIC, "Cavitation number and inception speed at 0.5 m depth, water at 15 °C", CLOSED_FORM)
XFOIL = Source(TOPIC, "The same with least pressures by XFOIL 6.99, Re 1e6", COMPUTED)

FRESH = (0.5, 999.103, 9.80665, 101325.0, 1705.8)
SEA = (0.5, 1025.976, 9.80665, 101325.0, 1670.9)
NUMBERS = [
    (5.0, 8.369, 8.163),
    (7.5, 3.720, 3.628),
    (10.0, 2.092, 2.041),
    (12.5, 1.339, 1.306),
    (15.0, 0.930, 0.907),
    (17.5, 0.683, 0.666),
    (20.0, 0.523, 0.510),
]
SPEEDS = [
    (0.5, 20.46, 20.20),
    (0.6, 18.67, 18.44),
    (1.0, 14.47, 14.29),
    (1.5, 11.81, 11.66),
    (2.0, 10.23, 10.10),
    (3.0, 8.35, 8.25),
    (4.0, 7.23, 7.14),
]


@pytest.mark.parametrize(("speed", "fresh", "sea"), NUMBERS)
def test_cavitation_number(speed, fresh, sea):
    for water, numbers, value in (("fresh", FRESH, fresh), ("sea", SEA, sea)):
        found = cavitation_number(speed, *numbers)
        compare(f"{water}, {speed:g} m/s: number", value, found, percent(0.1, 5e-4), "", FORMULA)


@pytest.mark.parametrize(("suction", "fresh", "sea"), SPEEDS)
def test_inception_speed(suction, fresh, sea):
    for water, numbers, value in (("fresh", FRESH, fresh), ("sea", SEA, sea)):
        found = cavitation_speed(-suction, *numbers)
        compare(f"{water}, cp −{suction:g}: speed", value, found, percent(0.1, 5e-3), "m/s", FORMULA)
    # the two are one relation read both ways
    assert cavitation_number(cavitation_speed(-suction, *FRESH), *FRESH) == pytest.approx(suction, rel=1e-9)


@pytest.mark.parametrize(("angle", "suction", "speed"), [(2, 0.76, 16.6), (6, 2.96, 8.4)])
def test_a_cambered_section(angle, suction, speed):
    """NACA 63-412: lowest pressure at 2 and 6 degrees of angle of attack, to the last figure printed."""
    found = cavitation_speed(-suction, *FRESH)
    compare(f"NACA 63-412 at {angle}°, fresh: speed", speed, found, 0.05, "m/s", XFOIL)


def test_no_suction_is_no_error():
    assert cavitation_speed(0.3, *FRESH) == cavitation_speed(-0.01, *FRESH) > 100.0
    assert cavitation_number(0.0, *FRESH) > 1e9
