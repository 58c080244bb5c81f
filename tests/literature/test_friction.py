"""Friction line of the 8th International Towing Tank Conference, Madrid 1957, and how far it is from a plate.

0.075 / (log10 Re - 2)^2; Schoenherr 1932, Transactions of the Society of Naval Architects and Marine
Engineers 40: 0.242 / sqrt(C_F) = log10(Re C_F). Values times 1000, to 5e-4.
"""

from math import exp, log, log10, sqrt

import pytest

from foilwright.water.friction import friction_coefficient

LINES = {  # Reynolds number: ITTC-57, Schoenherr
    1e5: (8.3333, 7.1794),
    2e5: (6.8828, 6.1375),
    5e5: (5.4815, 5.0575),
    1e6: (4.6875, 4.4094),
    2e6: (4.0543, 3.8722),
    5e6: (3.3967, 3.2938),
    1e7: (3.0000, 2.9343),
    1e8: (2.0833, 2.0720),
    1e9: (1.5306, 1.5309),
}


def schoenherr(reynolds):
    value = 3e-3
    for _ in range(60):
        value = (0.242 / log10(reynolds * value)) ** 2
    return value


@pytest.mark.parametrize("reynolds", LINES)
def test_lines(reynolds):
    ittc, plate = LINES[reynolds]
    assert 1e3 * friction_coefficient(reynolds) == pytest.approx(ittc, abs=5e-4)
    assert 1e3 * schoenherr(reynolds) == pytest.approx(plate, abs=5e-4)


def test_exact_anchors():
    assert friction_coefficient(1e7) == pytest.approx(3.0e-3, rel=1e-12)
    assert friction_coefficient(1e5) == pytest.approx(0.075 / 9.0, rel=1e-12)


def test_it_is_a_correlation_line():
    """16 % over a smooth turbulent plate at Re 1e5, 6 % at 1e6: stated in the theory page."""
    assert friction_coefficient(1e5) / schoenherr(1e5) == pytest.approx(1.16, abs=0.005)
    assert friction_coefficient(1e6) / schoenherr(1e6) == pytest.approx(1.06, abs=0.005)


def test_finite_and_smooth_at_rest():
    assert friction_coefficient(0.0) == pytest.approx(0.01875 * (1.0 + 1.0 / log(10.0)))
    step = 1e-6
    below = (friction_coefficient(1e4) - friction_coefficient(1e4 * exp(-step))) / step
    above = (friction_coefficient(1e4 * exp(step)) - friction_coefficient(1e4)) / step
    assert below == pytest.approx(above, rel=1e-4)
    values = [friction_coefficient(10.0**power) * 10.0**power / sqrt(10.0**power) for power in range(-2, 10)]
    assert values == sorted(values)
