"""Axes and signs: bow up, heel to leeward, leeway, and what they do to the flow past foils and struts."""

from __future__ import annotations

from math import atan2, cos, radians, sin

import numpy as np
import pytest

from foilwright.axes import attitude, bow_up_moment, cross, heeling_moment, height_of, to_body, to_earth

ANGLES = [
    (0.0, 0.0, 0.0),
    (0.1, 0.0, 0.0),
    (0.0, 0.2, 0.0),
    (0.0, 0.0, 0.05),
    (0.07, -0.25, 0.04),
    (-0.12, 0.4, -0.08),
]
X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)


def right_hand(axis: int, angle: float) -> np.ndarray:
    """Right-hand rotation about a coordinate axis."""
    c, s = cos(angle), sin(angle)
    i, j = (axis + 1) % 3, (axis + 2) % 3
    turn = np.eye(3)
    turn[i, i], turn[i, j], turn[j, i], turn[j, j] = c, -s, s, c
    return turn


@pytest.mark.parametrize("angles", ANGLES)
def test_heading_then_trim_then_heel_each_a_negative_right_hand_turn(angles):
    """By three plain rotation matrices: Rz(-leeway) Ry(-trim) Rx(-heel)."""
    trim, heel, leeway = angles
    whole = right_hand(2, -leeway) @ right_hand(1, -trim) @ right_hand(0, -heel)
    a = attitude(trim, heel, leeway)
    columns = np.array([to_earth(a, *axis) for axis in (X, Y, Z)]).T
    assert columns == pytest.approx(whole, abs=1e-15)
    assert columns.T @ columns == pytest.approx(np.eye(3), abs=1e-15)
    assert np.linalg.det(columns) == pytest.approx(1.0)


@pytest.mark.parametrize("angles", ANGLES)
def test_there_and_back(angles):
    a = attitude(*angles)
    v = (0.3, -1.7, 2.2)
    assert to_body(a, *to_earth(a, *v)) == pytest.approx(v, abs=1e-15)
    assert to_earth(a, *to_body(a, *v)) == pytest.approx(v, abs=1e-15)
    assert height_of(a, *v) == pytest.approx(to_earth(a, *v)[2], abs=1e-15)


def test_bow_up_raises_the_bow():
    assert height_of(attitude(0.1, 0.0, 0.0), *X) == pytest.approx(sin(0.1))


def test_heel_to_leeward_lowers_port():
    assert height_of(attitude(0.0, 0.1, 0.0), *Y) == pytest.approx(-sin(0.1))
    mast_head = to_earth(attitude(0.0, 0.1, 0.0), 0.0, 0.0, 5.0)
    assert mast_head[1] > 0.0, "the mast leans to leeward, which is port"


def test_a_boat_with_leeway_points_to_windward_of_its_course():
    bow = to_earth(attitude(0.0, 0.0, 0.1), *X)
    assert bow[1] == pytest.approx(-sin(0.1)), "windward is starboard, -y"
    # It moves to leeward of where it points: its velocity has a leeward part in its own axes.
    assert to_body(attitude(0.0, 0.0, 0.1), *X)[1] == pytest.approx(sin(0.1))


def flow_angles(trim: float, heel: float, leeway: float) -> tuple[float, float]:
    """Angle of attack of the keel line, and of a strut, for a boat that moves along its course."""
    along, across, up = to_body(attitude(trim, heel, leeway), *X)
    return atan2(-up, along), atan2(across, along)


def test_foil_angle_is_trim_less_leeway_times_sine_of_heel():
    """To first order in trim and leeway, at any heel."""
    trim, leeway = radians(1.5), radians(3.0)
    for heel in (-0.4, -0.2, 0.0, 0.3):
        foil, strut = flow_angles(trim, heel, leeway)
        assert foil == pytest.approx(trim * cos(heel) - leeway * sin(heel), abs=2e-4)
        assert strut == pytest.approx(leeway * cos(heel) + trim * sin(heel), abs=2e-4)


def test_heeled_to_windward_leeway_loads_the_foil_and_bow_up_unloads_the_strut():
    foil, strut = flow_angles(radians(1.0), radians(-15.0), radians(2.0))
    assert foil > flow_angles(radians(1.0), radians(-15.0), 0.0)[0]
    assert strut < flow_angles(0.0, radians(-15.0), radians(2.0))[1]


def test_words_for_moments():
    """A push up at the bow is bow up; a push to leeward at the mast is heel to leeward."""
    _, pitch, _ = cross(1.0, 0.0, 0.0, 0.0, 0.0, 10.0)
    assert bow_up_moment(pitch) == pytest.approx(10.0)
    roll, _, _ = cross(0.0, 0.0, 2.0, 0.0, 10.0, 0.0)
    assert heeling_moment(roll) == pytest.approx(20.0)


def test_vector_product_is_right_handed():
    assert cross(*X, *Y) == Z
    assert cross(*Y, *Z) == X
    assert cross(*Z, *X) == Y
    a, b = (0.3, -1.2, 0.7), (2.0, 0.1, -0.4)
    assert cross(*a, *b) == pytest.approx(tuple(np.cross(a, b)))
