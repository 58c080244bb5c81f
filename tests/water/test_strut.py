"""Strut and friction kernels: limits, smoothness, signs."""

from math import pi

import numpy as np
import pytest

from foilwright.water.friction import friction_coefficient
from foilwright.water.strut import (
    junction_drag,
    spray_drag,
    strut_drag,
    strut_side_force,
    ventilation_angle,
    working_length,
)


def assert_smooth(f, start: float, stop: float, steps: int) -> None:
    """No jump in value or slope: with a quarter of the step the largest change of slope is less than half."""

    def kink(n: int) -> float:
        values = np.array([f(x) for x in np.linspace(start, stop, n + 1)])
        return float(np.max(np.abs(np.diff(values, 2)))) * n

    assert kink(4 * steps) < 0.5 * kink(steps) + 1e-9


def side(length: float, angle: float = 0.05, hull_share: float = 0.0) -> tuple[float, float]:
    return strut_side_force(2.5e4, angle, 0.115, length, 2.0 * pi, 0.9, hull_share)


def test_friction_is_guarded_and_falls():
    values = [friction_coefficient(x) for x in (-1e6, 0.0, 100.0, 1e3, 1e4, 1e5, 1e6, 1e8)]
    assert values[0] == values[1] == pytest.approx(0.0269, abs=1e-4)
    assert values[1:] == sorted(values[1:], reverse=True)
    assert_smooth(friction_coefficient, 5e3, 2e4, 400)


def test_dry_struts_feel_nothing():
    assert strut_drag(8.0, 0.115, 0.12, -0.1, 1.0, 1000.0, 1e-6) == (0.0, 0.0)
    assert side(-0.1) == pytest.approx((0.0, 0.0), abs=0.0)
    assert strut_drag(0.0, 0.115, 0.12, 0.5, 1.0, 1000.0, 1e-6) == (0.0, 0.0)
    assert working_length(0.5) == 0.5


def test_spray_only_where_the_strut_pierces_the_surface():
    profile, spray = strut_drag(8.0, 0.115, 0.12, 0.5, 0.0, 1000.0, 1e-6)
    assert spray == 0.0
    assert profile > 0.0
    # independent of depth once it is four thicknesses long
    assert spray_drag(1e4, 0.014, 0.3) == spray_drag(1e4, 0.014, 0.9) > spray_drag(1e4, 0.014, 0.03)


def test_profile_drag_follows_the_wetted_length_and_either_direction_of_flow():
    one, two = (strut_drag(8.0, 0.115, 0.12, h, 1.0, 1000.0, 1e-6)[0] for h in (0.3, 0.6))
    assert two == pytest.approx(2.0 * one)
    assert strut_drag(-8.0, 0.115, 0.12, 0.3, 1.0, 1000.0, 1e-6)[0] == one


def test_thin_struts_have_no_junction_drag():
    assert 0.0 < junction_drag(1.0, 1.0, 0.03) < 2e-4
    assert junction_drag(1.0, 1.0, 0.09) > 0.08


def test_side_force_is_odd_capped_and_longer_is_stronger():
    assert side(0.5)[0] == pytest.approx(-side(0.5, -0.05)[0])
    assert side(0.5)[1] == pytest.approx(side(0.5, -0.05)[1])
    assert side(0.5)[1] > 0.0
    forces = [side(h)[0] for h in np.linspace(0.0, 1.0, 60)]
    assert all(np.diff(forces) > 0.0)
    angles = [side(0.5, a)[0] for a in np.linspace(-1.0, 1.0, 80)]
    assert all(np.diff(angles) > 0.0)
    assert max(angles) < 2.5e4 * 0.115 * 0.5 * 0.9 * 0.9
    # a hull over the top helps
    assert side(0.5, 0.05, 1.0)[0] > 1.2 * side(0.5)[0]
    assert side(0.5, 0.05, 1.0)[1] < side(0.5)[1] * (side(0.5, 0.05, 1.0)[0] / side(0.5)[0]) ** 2


def test_small_and_large_aspect_ratio():
    # short: Jones's slope pi A / 2 on the effective aspect ratio, 1.32 of the geometric one
    force, _ = strut_side_force(1.0, 1e-4, 1.0, 0.021, 2.0 * pi, 9.0, 0.0)
    assert force / 0.021 / 1e-4 == pytest.approx(0.5 * pi * 1.32 * 0.021, rel=0.02)
    assert side(0.5)[0] / (2.5e4 * 0.115 * 0.5 * 0.05) < 2.0 * pi


def test_c1():
    assert_smooth(lambda h: side(h)[0], -0.05, 0.3, 400)
    assert_smooth(lambda h: side(h)[1], -0.05, 0.3, 400)
    assert_smooth(lambda h: strut_drag(8.0, 0.115, 0.12, h, 1.0, 1000.0, 1e-6)[0], -0.05, 0.3, 400)
    assert_smooth(lambda h: strut_drag(8.0, 0.115, 0.12, h, 1.0, 1000.0, 1e-6)[1], -0.05, 0.3, 400)
    assert_smooth(lambda a: side(0.5, a)[0], -0.4, 0.4, 400)
    assert_smooth(lambda k: ventilation_angle(k, 5.0), -0.5, 1.0, 400)
    assert_smooth(lambda fn: ventilation_angle(2.0, fn), 0.0, 5.0, 400)
