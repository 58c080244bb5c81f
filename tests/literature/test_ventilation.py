"""When a foil or strut is likely to draw air, and when a tip comes out.

Sources
- Harwood, Young & Ceccio, J. Fluid Mech. 800 (2016): a surface-piercing strut can stay fully wetted to about
  15 degrees (from memory).
- Benson & Land, NACA tank tests of hydrofoils: abrupt changes of lift and drag above half a chord of depth.
- Common practice, no source: design leeway 3 to 4 degrees, ventilation likely above 8 to 10 degrees at
  U / sqrt(g c) above 3.
- Kirchhoff and Rayleigh: fully ventilated plate, CN = 2 pi sin a / (4 + pi sin a).
- Geometry: a tip of a foil of span b emerges at heel phi when its depth is less than b/2 sin(phi).
"""

from math import degrees, pi, radians, sin

import pytest

from foilwright.water.foil import shallowest_tip_depth, wetted_share
from foilwright.water.strut import ventilation_angle, ventilation_margin
from tests.literature.published import CLOSED_FORM, MEMORY, PRACTICE, READ, Source, between, compare

TOPIC = "Ventilation and tips coming out"
STRUT = Source(TOPIC, "Harwood, Young & Ceccio, J. Fluid Mech. 800 (2016)", MEMORY)
LEEWAY = Source(TOPIC, "Vertical strut of a sailing craft at U/√(g c) above 3", PRACTICE)
TANK = Source(TOPIC, "Benson & Land, NACA tank tests of hydrofoils: abrupt changes above half a chord", READ)
TIP = Source(TOPIC, "Geometry: h = b/2 sin(heel)", CLOSED_FORM)
PLATE = Source(TOPIC, "Kirchhoff & Rayleigh: fully ventilated plate, 2π sin a/(4 + π sin a)", CLOSED_FORM)


def test_limit_angle_over_speed():
    slow, fast = degrees(ventilation_angle(4.0, 0.5)), degrees(ventilation_angle(4.0, 5.0))
    compare("slow strut: stays wetted to", 15.0, slow, 0.1, "°", STRUT)
    between("fast strut: ventilation likely above", 8.0, 10.0, fast, "°", LEEWAY)
    angles = [ventilation_angle(4.0, 0.5 + 0.1 * i) for i in range(40)]
    assert angles == sorted(angles, reverse=True)


def test_design_leeway_keeps_a_margin_and_ten_degrees_has_none():
    for sign in (-1.0, 1.0):
        kept, gone = (degrees(ventilation_margin(sign * radians(a), 4.0, 5.0)) for a in (4.0, 10.0))
        side = "to leeward" if sign > 0.0 else "to windward"
        between(f"design leeway of 4° {side}: margin kept", 4.0, 6.0, kept, "°", LEEWAY)
        between(f"10° {side}: margin", -2.0, 0.0, gone, "°", LEEWAY)


def test_half_a_chord_is_where_it_begins_to_shrink():
    deep = ventilation_angle(4.0, 5.0)
    begins = next(0.01 * i for i in range(100) if ventilation_angle(0.01 * i, 5.0) == deep)
    compare("depth above which the limit shrinks", 0.5, begins, 0.01, "chords", TANK)
    assert ventilation_angle(0.4, 5.0) < deep
    assert ventilation_angle(0.25, 5.0) == pytest.approx(0.5 * deep)
    assert ventilation_angle(0.0, 5.0) == 0.0
    assert ventilation_angle(-1.0, 5.0) == 0.0


@pytest.mark.parametrize(("heel", "depth"), [(20.0, 0.171), (30.0, 0.250)])
def test_a_tip_emerges(heel, depth):
    """Span 1.0 m: 0.171 m at 20 degrees of heel, 0.250 m at 30; either way of heel; within 1 mm."""
    for sign in (-1.0, 1.0):
        found = depth - shallowest_tip_depth(depth, 1.0, sign * sin(radians(heel)))
        compare(f"span 1 m, heel {sign * heel:g}°: a tip comes out at", depth, found, 1.1e-3, "m", TIP)
    # half a chord further down the whole foil works; with the middle at the surface half of it does
    chord = 0.1
    assert wetted_share(depth + 0.5 * chord, chord, 1.0, sin(radians(heel))) == pytest.approx(1.0, abs=1e-9)
    assert wetted_share(0.1 * chord, chord, 1.0, sin(radians(heel))) == pytest.approx(0.5, abs=1e-9)


@pytest.mark.parametrize(("angle", "normal"), [(5.0, 0.1281), (10.0, 0.2400), (15.0, 0.3379)])
def test_what_full_ventilation_would_leave(angle, normal):
    """Not computed by the package: the loss that the margin guards, three quarters of the wetted slope."""
    a = sin(radians(angle))
    found = 2.0 * pi * a / (4.0 + pi * a)
    compare(f"ventilated plate at {angle:g}°: CN", normal, found, 1e-4, "", PLATE, referee=True)
    assert normal < 0.25 * 2.0 * pi * radians(angle)
