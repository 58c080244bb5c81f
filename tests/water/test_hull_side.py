"""The side force of a drifting and turning hull: where it comes from, which way it points."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from foilwright.water.hull_shape import HullShape, hull_from_offsets
from foilwright.water.hull_side import HullSide, hull_side_force
from tests.demo_boats import demo_boat

DENSITY = 1000.0
LENGTH, DRAFT = 4.0, 0.2


def box() -> HullShape:
    """A box of even draft all along."""
    x = np.linspace(0.0, LENGTH, 41)
    y = np.tile([0.0, 0.25, 0.25], (x.size, 1))
    z = np.tile([0.0, 0.0, 0.6], (x.size, 1))
    return hull_from_offsets(x, y, z)


def side(shape: HullShape, height: float, sideways: float, yaw_rate: float, speed: float = 3.0) -> HullSide:
    return hull_side_force(
        shape, height, 0.0, 1.0, 0.0, 0.5 * LENGTH, speed, sideways, yaw_rate, DENSITY
    )  # fmt: skip


def test_a_box_has_the_derivatives_of_a_wing_of_low_aspect_ratio():
    """Clarke, Gedling & Hine 1983, leading terms about amidships, in units of rho L^2 U/2 and so on:
    Y_v = -pi (T/L)^2, N_v = half of it, Y_r = minus half of it, N_r = a quarter of it. Rounding of the draft
    5e-5 of it."""
    unit = pi * (DRAFT / LENGTH) ** 2
    half = 0.5 * DENSITY * 3.0 * LENGTH**2
    drift, turn = side(box(), -DRAFT, 1.0, 0.0), side(box(), -DRAFT, 0.0, 1.0)
    assert drift.force / half == pytest.approx(-unit, rel=2e-4)
    assert drift.moment / (half * LENGTH) == pytest.approx(-0.5 * unit, rel=2e-4)
    assert turn.force / (half * LENGTH) == pytest.approx(0.5 * unit, rel=2e-4)
    assert turn.moment / (half * LENGTH**2) == pytest.approx(-0.25 * unit, rel=2e-4)


def test_mirrored_motion_gives_the_mirrored_force():
    hull = demo_boat("marram").tables.hull
    one, other = side(hull, -0.15, 0.2, 0.05), side(hull, -0.15, -0.2, -0.05)
    assert other == (-one.force, -one.moment, one.below)


def test_it_goes_with_speed_and_ends_where_the_hull_leaves_the_water():
    hull = demo_boat("pipkin").tables.hull
    slow, fast = side(hull, -0.1, 0.1, 0.02, 2.0), side(hull, -0.1, 0.1, 0.02, 4.0)
    assert fast.force == pytest.approx(2.0 * slow.force)
    forces = [abs(side(hull, height, 0.1, 0.0).force) for height in (-0.2, -0.1, -0.05, 0.0, 0.05)]
    assert forces == sorted(forces, reverse=True)
    assert forces[-1] == 0.0
    assert 0.0 < forces[3] < 1e-3 * forces[0]


@pytest.mark.parametrize("name", ["marram", "pipkin", "sedge"])
def test_a_hull_turns_into_its_drift_and_resists_turning(name):
    """A drift to leeward is resisted, and the force sits forward (the bow is pushed back to windward, so that
    the hull alone would turn across its course); a turn is damped."""
    hull = demo_boat(name).tables.hull
    drift, turn = side(hull, -0.15, 0.1, 0.0), side(hull, -0.15, 0.0, 0.1)
    assert drift.force < 0.0 and drift.moment < 0.0
    assert turn.moment < 0.0
