"""The sail: same on both tacks, smooth in angle and power, and no surprise when it is eased."""

from itertools import pairwise
from math import cos, isfinite, pi, radians, sin

import pytest

from foilwright.air.sails import (
    aspect_ratio_of,
    effort_drop,
    reefed,
    sail_coefficients,
    sail_force,
)
from tests.laws.dual import Dual, for_duals, slope_of, value_of

ASPECT = aspect_ratio_of(4.9, 6.9)
ANGLES = (0, 3, 10, 17, 26, 27, 28, 40, 49.9, 50.1, 65, 79.9, 80.1, 100, 140, 179)


def at(degrees, power, wind=8.0):
    b = radians(degrees)
    return sail_force(6.9, ASPECT, 1.225, wind * cos(b), -wind * sin(b), power)


@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize("power", [0.0, 0.3, 1.0])
def test_the_other_tack_is_the_mirror(angle, power):
    here, there = at(angle, power), at(-angle, power)
    assert here.drive == pytest.approx(there.drive)
    assert here.side == pytest.approx(-there.side)
    assert here.drop == there.drop


def test_wind_from_ahead_pushes_back_and_from_astern_forward():
    assert at(0.0, 1.0).drive < 0.0
    assert at(0.0, 1.0).side == 0.0
    assert at(180.0, 1.0).drive > 0.0
    assert abs(at(180.0, 1.0).side) < 1e-9
    assert at(40.0, 1.0).drive > 0.0
    assert at(40.0, 1.0).side > 0.0


def test_no_wind_no_force():
    nothing = sail_force(6.9, ASPECT, 1.225, 0.0, 0.0, 1.0)
    assert nothing.drive == nothing.side == 0.0


@pytest.mark.parametrize("angle", range(10, 140, 10))
def test_easing_takes_away_side_force_and_drive_all_the_way(angle):
    """One root of the roll balance: side force falls with power at every apparent wind angle sailed."""
    forces = [at(angle, 0.02 * i) for i in range(51)]
    for less, more in pairwise(forces):
        assert less.side < more.side
        assert less.drive < more.drive


def test_a_luffing_sail_is_a_flag():
    for angle in ANGLES:
        c = sail_coefficients(radians(angle), 0.0, ASPECT)
        assert c.lift == 0.0
        assert c.drag == pytest.approx(0.06)


@pytest.mark.parametrize("power", [0.0, 0.2, 0.4, 0.7, 1.0])
def test_smooth_in_the_angle(power):
    """No corner: slopes of neighbouring steps of 0.05 degrees differ by what a curve bends in it."""
    step = radians(0.05)
    for pick in ("lift", "drag"):
        values = [
            getattr(sail_coefficients(-pi + i * step, power, ASPECT), pick) for i in range(int(2 * pi / step))
        ]
        slopes = [(b - a) / step for a, b in pairwise(values)]
        assert max(abs(b - a) for a, b in pairwise(slopes)) < 0.08


@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize("power", [0.02, 0.39, 0.41, 0.98])
def test_slopes_by_duals_through_the_same_text(angle, power):
    force = for_duals(sail_force, {})
    b, step = radians(angle), 1e-6
    along, across = 8.0 * cos(b), -8.0 * sin(b)
    for seed in range(3):
        at_ = [along, across, power]
        duals = [Dual(x, 1.0 if i == seed else 0.0) for i, x in enumerate(at_)]
        ours = force(6.9, ASPECT, 1.225, *duals)
        up = [x + (step if i == seed else 0.0) for i, x in enumerate(at_)]
        down = [x - (step if i == seed else 0.0) for i, x in enumerate(at_)]
        for k in range(2):
            high, low = (sail_force(6.9, ASPECT, 1.225, *place)[k] for place in (up, down))
            assert slope_of(ours[k]) == pytest.approx((high - low) / (2 * step), rel=1e-4, abs=1e-2)
            assert value_of(ours[k]) == sail_force(6.9, ASPECT, 1.225, *at_)[k]


def test_odd_numbers_do_no_harm():
    for power in (-0.5, 0.0, 1.0, 3.0):
        for aspect in (0.0, 0.3, 40.0):
            for along, across in ((0.0, 0.0), (-1e-9, 1e-9), (60.0, -60.0)):
                assert all(isfinite(x) for x in sail_force(7.0, aspect, 1.2, along, across, power))


def test_size_for_a_single_hander():
    """Eased in flight, 12 m/s of apparent wind at 25 degrees: a thrust of about a tenth of the weight."""
    force = at(25.0, 0.35, 12.0)
    assert 60.0 < force.drive < 160.0
    assert force.side < 400.0


def test_the_head_opens_as_the_sail_is_eased():
    drops = [effort_drop(6.9, ASPECT, power) for power in (1.0, 0.5, 0.0)]
    assert drops[0] == 0.0
    assert drops == sorted(drops)
    assert drops[2] == pytest.approx(0.085 * 4.9, rel=0.01)
    assert effort_drop(6.9, ASPECT, 1.5) == 0.0
    assert effort_drop(6.9, ASPECT, -0.5) == drops[2]


def test_a_reef_keeps_the_shape():
    assert reefed(7.0, 2.0, 1.0) == (7.0, 2.0)
    assert reefed(7.0, 2.0, 0.9) == pytest.approx((5.67, 1.8))
