"""Planar four-bar linkages from textbooks, turned by the chain of one rod.

A chain of one rod is a four-bar: input crank a on the wand's pivot, coupler b the rod, rocker c the in-arm of
the driven crank, ground d between the pivots. Textbook angles are counted from the ground line, here laid
along x. The branch (open or crossed) is chosen as on a boat: by the side on which the in-arm is drawn. The
rod's length is set by lengthening it from whatever the drawing has, so that no closed form of the test's own
enters.

Sources:
- R. L. Norton, Design of Machinery, Example 4-1 (a, b, c, d = 40, 120, 80, 100 mm at 40 deg) and Problem 4-6,
  row a (2, 7, 9, 6 at 30 deg); the printed angles to 0.01 deg. Recalled from memory, and confirmed by the
  next.
- F. Freudenstein, Approximate synthesis of four-bar linkages, Trans. ASME 77 (1955) 853-861:
  K1 cos(t4) - K2 cos(t2) + K3 = cos(t2 - t4); the rows without a printed source are solved from it.
"""

from __future__ import annotations

from math import acos, cos, degrees, pi, radians, sin

import numpy as np
import pytest

from foilwright.linkage.chain import DRAWN_SIZE, LINK_SIZE, Turned, draw_chain, turn_chain
from tests.literature.published import CLOSED_FORM, MEMORY, MEMORY_SURE, Source, compare

TOPIC = "Chain of rods"
EXAMPLE = Source(TOPIC, "Norton, Design of Machinery, Example 4-1", MEMORY_SURE)
PROBLEM = Source(TOPIC, "Norton, Design of Machinery, Problem 4-6, row a", MEMORY)
FREUDENSTEIN = Source(TOPIC, "Freudenstein, Trans. ASME 77, 1955", CLOSED_FORM)
RATIO = Source(TOPIC, "ω4/ω2 = (a/c) sin(θ2 - θ3) / sin(θ4 - θ3)", CLOSED_FORM)
COSINES = Source(TOPIC, "Cosine rule where crank and coupler lie in one line", CLOSED_FORM)

OPEN, CROSSED = 1.0, -1.0
DRAWN_AT = radians(60.0)  # where the input crank stands in the drawing


def four_bar(a: float, b: float, c: float, d: float, branch: float, theta2: float) -> tuple[float, Turned]:
    """Rocker angle [rad] and the chain with its input crank at theta2 [rad]; lengths in any unit."""
    links = np.zeros((1, LINK_SIZE))
    links[0, 1] = d
    links[0, 3] = c
    links[0, 4] = branch * radians(100.0)  # any direction on the branch's side will do
    drawn = np.zeros((1, DRAWN_SIZE))
    draw_chain(0.0, 0.0, a, DRAWN_AT, links, drawn)
    links[0, 0] = b - drawn[0, 9]
    draw_chain(0.0, 0.0, a, DRAWN_AT, links, drawn)
    turned = turn_chain(drawn, links, DRAWN_AT - theta2)
    return float(links[0, 4] + turned.turn), turned


def coupler_angle(a: float, c: float, d: float, theta2: float, theta4: float) -> float:
    return float(np.arctan2(c * sin(theta4) - a * sin(theta2), d + c * cos(theta4) - a * cos(theta2)))


def turned_to(angle_deg: float, near_deg: float) -> float:
    """The same direction, counted as the printed one is [deg]."""
    return near_deg + (angle_deg - near_deg + 180.0) % 360.0 - 180.0


# a, b, c, d; theta2; branch; theta3, theta4, transmission angle; velocity ratio, None where not given; source
CRANK_ROCKER = (40, 120, 80, 100)
ROWS = [
    (CRANK_ROCKER, 40.0, OPEN, 20.298, 57.325, 37.03, 0.2799, EXAMPLE),
    (CRANK_ROCKER, 40.0, CROSSED, -60.978, -98.005, 37.03, None, EXAMPLE),
    ((2, 7, 9, 6), 30.0, OPEN, 88.837, 117.286, 28.45, -0.3992, PROBLEM),
    ((2, 7, 9, 6), 30.0, CROSSED, 244.789, 216.340, 28.45, None, PROBLEM),
    (CRANK_ROCKER, 90.0, OPEN, 18.888, 80.257, 61.37, 0.5390, FREUDENSTEIN),
    (CRANK_ROCKER, 90.0, CROSSED, 297.509, 236.140, 61.37, None, FREUDENSTEIN),
    ((0.1, 0.5, 0.1, 0.5), 70.0, OPEN, 0.0, 70.0, 70.0, 1.0, FREUDENSTEIN),
    ((0.1, 0.5, 0.1, 0.5), 70.0, CROSSED, 337.189, 267.189, 70.0, None, FREUDENSTEIN),
]
NAMES = ("bars", "theta2", "branch", "theta3", "theta4", "transmission", "ratio", "source")


@pytest.mark.parametrize(NAMES, ROWS)
def test_angles_of_rocker_and_coupler(bars, theta2, branch, theta3, theta4, transmission, ratio, source):
    """Within 0.01 degrees; the velocity ratio, where it is given, within 1e-4."""
    a, b, c, d = bars
    rocker, turned = four_bar(a, b, c, d, branch, radians(theta2))
    assert turned.slack > 0.0
    coupler = coupler_angle(a, c, d, radians(theta2), rocker)
    where = f"{'/'.join(map(str, bars))} at {theta2:g}°, {'open' if branch == OPEN else 'crossed'}"
    compare(f"{where}: rocker", theta4, turned_to(degrees(rocker), theta4), 0.01, "°", source)
    compare(f"{where}: coupler", theta3, turned_to(degrees(coupler), theta3), 0.01, "°", source)
    compare(f"{where}: transmission", transmission, degrees(turned.transmission), 0.01, "°", source)
    if ratio is not None:
        # The wand's angle is counted aft, against the crank's own angle.
        compare(f"{where}: velocity ratio", ratio, -turned.gearing, 1e-4, "", RATIO)


@pytest.mark.parametrize(("bars", "theta2", "branch"), [row[:3] for row in ROWS])
def test_freudensteins_equation_and_the_velocity_ratio_formula(bars, theta2, branch):
    """The same rows, and both branches, against the formulas themselves."""
    a, b, c, d = bars
    at = radians(theta2)
    rocker, turned = four_bar(a, b, c, d, branch, at)
    k3 = (a * a - b * b + c * c + d * d) / (2 * a * c)
    assert d / a * cos(rocker) - d / c * cos(at) + k3 == pytest.approx(cos(at - rocker), abs=1e-9)
    coupler = coupler_angle(a, c, d, at, rocker)
    formula = a / c * sin(at - coupler) / sin(rocker - coupler)
    assert -turned.gearing == pytest.approx(formula, abs=1e-9)
    across = (b * b + c * c - a * a - d * d + 2 * a * d * cos(at)) / (2 * b * c)
    angle = acos(across)
    assert turned.transmission == pytest.approx(min(angle, pi - angle), abs=1e-9)


@pytest.mark.parametrize(
    ("bars", "grashof"),
    [
        ((40, 120, 80, 100), True),
        ((2, 7, 9, 6), True),
        ((60, 180, 120, 200), True),
        ((35, 80, 60, 90), True),
        ((3, 5, 5, 8), False),
    ],
)
def test_grashof(bars, grashof):
    """The shortest link turns all the way round only where s + l < p + q (Grashof 1883)."""
    sizes = sorted(bars)
    assert (sizes[0] + sizes[3] < sizes[1] + sizes[2]) == grashof
    a, b, c, d = bars
    slacks = [four_bar(a, b, c, d, OPEN, at)[1].slack for at in np.linspace(0.0, 2.0 * pi, 361)]
    assert (min(slacks) > 0.0) == grashof


def test_toggles_and_transmission_of_the_crank_rocker():
    """40/120/80/100: the rocker swings between 54.90 and 128.68 degrees (by the cosine rule where crank and
    coupler lie in one line); the transmission angle runs from 26.38 at 0 to 86.42 degrees at 180."""
    angles = np.radians(np.arange(0.0, 360.0, 0.05))
    rocker = [degrees(four_bar(*CRANK_ROCKER, OPEN, at)[0]) for at in angles]
    compare("40/120/80/100: rocker at its folded toggle", 54.90, min(rocker), 0.01, "°", COSINES)
    compare("40/120/80/100: rocker at its extended toggle", 128.68, max(rocker), 0.01, "°", COSINES)
    compare("40/120/80/100: swing of the rocker", 73.78, max(rocker) - min(rocker), 0.01, "°", COSINES)
    for theta2, angle in ((0.0, 26.38), (180.0, 86.42)):
        ours = degrees(four_bar(*CRANK_ROCKER, OPEN, radians(theta2))[1].transmission)
        compare(f"40/120/80/100: transmission at {theta2:g}°", angle, ours, 0.01, "°", COSINES)


def test_synthesis_through_three_points():
    """Freudenstein's synthesis for 30, 60, 90 -> 45, 67.5, 97.5 degrees (ground 1): a 2.00917, b 0.74764, c
    1.95746.

    The constants of the equation are solved here; the linkage that they give is then turned by the chain,
    drawn in its middle position, and goes through all three points.
    """
    crank, rocker = np.radians([30.0, 60.0, 90.0]), np.radians([45.0, 67.5, 97.5])
    k1, k2, k3 = np.linalg.solve(
        np.array([np.cos(rocker), -np.cos(crank), np.ones(3)]).T, np.cos(crank - rocker)
    )
    for k, published, found in zip((1, 2, 3), (0.49772, 0.51087, 1.05641), (k1, k2, k3), strict=True):
        compare(f"three-point synthesis: K{k}", published, found, 1e-4, "", FREUDENSTEIN, referee=True)
    a, c = 1.0 / k1, 1.0 / k2
    b = (a * a + c * c + 1.0 - 2.0 * a * c * k3) ** 0.5
    for bar, published, found in zip("abc", (2.00917, 0.74764, 1.95746), (a, b, c), strict=True):
        compare(f"three-point synthesis: {bar}", published, found, 1e-4, "", FREUDENSTEIN, referee=True)
    links = np.zeros((1, LINK_SIZE))
    links[0, [1, 3, 4]] = 1.0, c, rocker[1]
    drawn = np.zeros((1, DRAWN_SIZE))
    draw_chain(0.0, 0.0, a, crank[1], links, drawn)
    assert drawn[0, 9] == pytest.approx(b, abs=1e-9)
    for at, expected in zip(crank, rocker, strict=True):
        turned = turn_chain(drawn, links, crank[1] - at)
        name = f"synthesis through three points: rocker at {degrees(at):.0f}°"
        compare(name, degrees(expected), degrees(rocker[1] + turned.turn), 0.01, "°", FREUDENSTEIN)


def test_square_arms_gear_as_their_lengths():
    """Both arms square to a rod: ratio r1 sin(psi1) / (r2 sin(psi2)) = r1 / r2 (virtual work)."""
    links = np.zeros((1, LINK_SIZE))
    links[0, [1, 2, 3, 4]] = -0.9, 0.0225, 0.040, -0.5 * pi
    drawn = np.zeros((1, DRAWN_SIZE))
    draw_chain(0.0, 0.0, 0.0175, -0.5 * pi, links, drawn)
    turned = turn_chain(drawn, links, 0.0)
    compare("square arms of 17.5 and 40 mm: gearing", 0.4375, -turned.gearing, 1e-9, "", RATIO)
    assert degrees(turned.transmission) == pytest.approx(90.0)
