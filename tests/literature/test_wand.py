"""The wand by plane geometry, and its paddle by the drag of a flat plate.

- Geometry: a straight stick from a pivot at height H that touches the water with its tip stands at cos(phi) =
  H / l from the vertical, and d(phi)/dH = -1 / (l sin(phi)): elementary trigonometry.
- Paddle: S. F. Hoerner, Fluid-Dynamic Drag, 1965, ch. 3: a flat plate square to the flow has CD of about 1.17
  (square) rising with its length; the size of the force, 2 N at 3 kn and 13 N at 8 kn for 50 x 25 mm, is
  common practice, no source, and agrees with CD 1.25.
"""

from __future__ import annotations

from math import cos, degrees, pi, radians, sin

import pytest

from foilwright.linkage.wand import PADDLE_NORMAL, Touch, touching, wetted_area
from tests.demo_boats import KN
from tests.literature.published import (
    CLOSED_FORM,
    MEMORY,
    PRACTICE,
    Source,
    between,
    compare,
    missed,
    percent,
)

TOPIC = "Wand"
GEOMETRY = Source(TOPIC, "cos φ = H / l, dφ/dH = -1 / (l sin φ)", CLOSED_FORM)
PADDLE = Source(TOPIC, "Pull of a 50 x 25 mm paddle square to the flow", PRACTICE)
PLATE = Source(TOPIC, "Hoerner, Fluid-Dynamic Drag, 1965, ch. 3: a square and an endless plate", MEMORY)

ROWS = [
    (1.2, 0.6, 60.000, -5.51),
    (1.2, 0.8, 48.190, -6.41),
    (1.2, 1.0, 33.557, -8.64),
    (1.2, 1.1, 23.556, -11.95),
]


def light(height: float, length: float, trim: float = 0.0, heel: float = 0.0, pressure: float = 1e8) -> Touch:
    """A wand without weight that a thread holds: in fast water its paddle only brushes the surface."""
    return touching(
        height, cos(trim), sin(trim), cos(heel), length, 0.1, 0.045, 0.01, 0.0, 0.0, pressure, 0.01
    )


@pytest.mark.parametrize(("length", "height", "angle_deg", "per_100_mm"), ROWS)
def test_wand_angle_over_pivot_height(length, height, angle_deg, per_100_mm):
    """Within 0.01 degrees, and the rate within 0.01 degrees a 100 mm (the printed table's own rounding)."""
    touch = light(height, length)
    assert touch.immersed < 1e-5
    where = f"wand {length:g} m, pivot {height:g} m up"
    ours = degrees(touch.angle)
    if height == 1.1:
        reason = "the pivot's height is rounded off over 20 mm at nothing: 0.09 mm too high here"
        missed(f"{where}: angle", angle_deg, ours, 0.01, 0.011, reason, "°", GEOMETRY)
    else:
        compare(f"{where}: angle", angle_deg, ours, 0.01, "°", GEOMETRY)
    step = 1e-4
    rate = (light(height + step, length).angle - light(height - step, length).angle) / (2.0 * step)
    compare(f"{where}: its change", per_100_mm, 0.1 * degrees(rate), 0.01, "° a 100 mm", GEOMETRY)


@pytest.mark.parametrize(("length", "height", "angle_deg", "per_100_mm"), ROWS)
def test_bow_up_adds_to_the_wand_angle(length, height, angle_deg, per_100_mm):
    """The wand's angle to the water is the same; its angle to the hull is that plus the trim."""
    for trim in (radians(3.0), radians(-2.0)):
        assert light(height, length, trim).angle == pytest.approx(light(height, length).angle + trim)


def test_heel_lets_the_wand_trail_less():
    """In the boat's own plane the water is H / cos(heel) away."""
    upright = light(0.7 / cos(0.3), 1.2)
    assert light(0.7, 1.2, 0.0, 0.3).angle == pytest.approx(upright.angle, abs=1e-3)
    assert light(0.7, 1.2, 0.0, -0.3) == light(0.7, 1.2, 0.0, 0.3)


def test_out_of_reach():
    """A pivot higher than the wand is long: off the water, and said so."""
    assert light(1.25, 1.2).cosine == pytest.approx(1.25 / 1.2, rel=1e-3)
    assert light(1.10, 1.2).cosine < 1.0


@pytest.mark.parametrize(("speed_kn", "force"), [(3.0, 2.0), (8.0, 13.0)])
def test_size_of_the_force_on_a_paddle(speed_kn, force):
    """50 x 25 mm square on, within 15 per cent."""
    pressure = 0.5 * 999.1 * (speed_kn * KN) ** 2
    ours = PADDLE_NORMAL * pressure * 0.050 * 0.025
    compare(f"paddle at {speed_kn:g} kn", force, ours, percent(15.0), "N", PADDLE)


def test_flat_plate_coefficient_lies_between_square_and_endless():
    """Hoerner 1965, ch. 3: 1.17 for a square plate, 1.98 for an endless one; ours is of 2 : 1 to 3 : 1."""
    between("normal-force coefficient of the paddle", 1.17, 1.40, PADDLE_NORMAL, "", PLATE)


def test_moments_balance_at_the_pivot():
    """The push at half the immersed length holds the elastic and the weight half way down."""
    for speed_kn, tension, weight in ((6.0, 3.0, 1.5), (12.0, 2.0, 1.0), (18.0, 4.0, 2.0)):
        pressure = 0.5 * 999.1 * (speed_kn * KN) ** 2
        touch = touching(0.8, 1.0, 0.0, 1.0, 1.12, 0.1, 0.045, 0.01, weight, tension, pressure, 0.05)
        arm = 1.12 - 0.5 * touch.immersed
        area = wetted_area(touch.immersed, 0.1, 0.045, 0.01)
        assert touch.push == pytest.approx(PADDLE_NORMAL * pressure * cos(touch.angle) ** 2 * area, rel=1e-6)
        # The pull's corner at nothing is rounded over 0.05 N m.
        held = tension + 0.5 * weight * 1.12 * sin(touch.angle)
        assert touch.push * arm == pytest.approx(held, abs=1e-3)
        # The tip lies the immersed length beyond the surface.
        assert (1.12 - touch.immersed) * cos(touch.angle) == pytest.approx(0.8, abs=5e-4)


def test_more_tension_or_less_speed_sinks_the_paddle():
    pressure = 0.5 * 999.1 * (10.0 * KN) ** 2

    def immersed(tension: float, at: float) -> float:
        return touching(0.8, 1.0, 0.0, 1.0, 1.12, 0.1, 0.045, 0.01, 1.5, tension, at, 0.05).immersed

    assert immersed(4.0, pressure) > immersed(2.0, pressure)
    assert immersed(3.0, 0.5 * pressure) > immersed(3.0, pressure)


def test_the_answer_does_not_depend_on_the_guess():
    pressure = 0.5 * 999.1 * (9.0 * KN) ** 2
    found = [
        touching(0.7, 1.0, 0.02, 1.0, 1.12, 0.1, 0.045, 0.01, 1.5, 3.0, pressure, guess).angle
        for guess in (0.0, 0.01, 0.3, 1.0, 5.0)
    ]
    assert found == pytest.approx([found[0]] * len(found), abs=1e-9)
    assert 0.0 < found[0] < 0.5 * pi
