"""Slider-crank tables, by the chain of one rod with a very long in-arm.

x = r cos t + sqrt(l^2 - (r sin t - e)^2), r 50, l 200, offset e, in mm (elementary; any text on mechanisms).
The chain knows no slider: an in-arm of 100 m whose pivot lies far below leaves the straight line by 0.01 mm,
one far above by as much the other way, and their mean by 1e-6 mm.
"""

from __future__ import annotations

from math import atan2, radians, sin, sqrt

import numpy as np
import pytest

from foilwright.linkage.chain import DRAWN_SIZE, LINK_SIZE, draw_chain, turn_chain
from tests.literature.published import CLOSED_FORM, Source, compare

SLIDER = Source(
    "Chain of rods", "Slider-crank, x = r cos θ + √(l² − (r sin θ − e)²), r 50, l 200", CLOSED_FORM
)
CRANK, ROD, ARM, MIDDLE = 50.0, 200.0, 1e5, 200.0


def slider(theta: float, offset: float) -> tuple[float, float]:
    """Place of the slider and its change with the crank angle, each a mean of the two long arms [mm]."""
    places, rates = [], []
    for side in (-1.0, 1.0):  # pivot of the long arm below and above the slider's line
        links = np.zeros((1, LINK_SIZE))
        links[0, [1, 2, 3]] = MIDDLE, offset + side * ARM, ARM
        # drawn with the crank square up and the in-arm's tip where the rod then reaches it
        tip = sqrt(ROD**2 - (CRANK - offset) ** 2)
        links[0, 4] = atan2(-side * ARM, tip - MIDDLE)
        drawn = np.zeros((1, DRAWN_SIZE))
        draw_chain(0.0, 0.0, CRANK, radians(90.0), links, drawn)
        links[0, 0] = ROD - drawn[0, 9]
        draw_chain(0.0, 0.0, CRANK, radians(90.0), links, drawn)
        turned = turn_chain(drawn, links, radians(90.0) - theta)
        assert turned.slack > 0.0
        direction = links[0, 4] + turned.turn
        places.append(MIDDLE + ARM * np.cos(direction))
        rates.append(turned.gearing * ARM * sin(direction))  # the wand's angle counts against the crank's
    return float(np.mean(places)), float(np.mean(rates))


ROWS = [  # crank angle: place and rate, in line; place and rate, 20 mm off line
    (0, 250.0000, 0.0, 248.9975, 5.0252),
    (30, 241.7326, -30.4554, 243.2388, -26.0829),
    (45, 232.2055, -41.7053, 234.7650, -38.0778),
    (60, 220.2562, -48.8454, 223.6380, -46.2339),
    (90, 193.6492, -50.0000, 197.7372, -50.0000),
    (120, 170.2562, -37.7571, 173.6380, -40.3686),
    (180, 150.0000, 0.0, 148.9975, -5.0252),
]


@pytest.mark.parametrize("row", ROWS)
def test_place_and_rate(row):
    """To 1e-3 mm and mm/rad."""
    theta, *values = row
    for offset, place, rate in ((0, *values[:2]), (20, *values[2:])):
        found = slider(radians(theta), float(offset))
        name = f"slider-crank, {offset} mm off line, at {theta}°"
        compare(f"{name}: place", place, found[0], 1e-3, "mm", SLIDER)
        compare(f"{name}: rate", rate, found[1], 1e-3, "mm/rad", SLIDER)


@pytest.mark.parametrize(("offset", "stroke"), [(0, 100.000), (20, 100.538)])
def test_stroke(offset, stroke):
    """Between the dead centres, where crank and rod lie in one line: offset e = (l + r) sin t, (l - r) sin
    t."""
    outer, inner = np.arcsin(offset / (ROD + CRANK)), np.pi + np.arcsin(offset / (ROD - CRANK))
    found = slider(float(outer), float(offset))[0] - slider(float(inner), float(offset))[0]
    compare(f"slider-crank, {offset} mm off line: stroke", stroke, found, 1e-3, "mm", SLIDER)
