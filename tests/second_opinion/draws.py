"""Random boats for the second opinion: every number of an example boat moved within bounds."""

from __future__ import annotations

from math import radians
from typing import NamedTuple

import numpy as np

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.measures import Floats
from foilwright.water.properties import Water, water_at
from tests.demo_boats import BOATS, KN, demo_boat

TENTH = (
    "span",
    "wand.length",
    "paddle_length",
    "paddle_width",
    "stick_width",
    "strut_chord",
    "strut_thickness",
    "crank_arm",
    "in_arm",
    "out_arm",
)
AREAS = ("area",)
MASSES = ("mass.mass", "crew.mass", "wand.mass")
PLACES = (
    "mass.x",
    "mass.z",
    "crew.x",
    "crew.out",
    "crew.z",
    "air.hull_z",
    "air.mast_x",
    "air.mast_z",
    "effort_x",
    "effort_z",
    "main.x",
    "main.z",
    "rudder.x",
    "rudder.z",
    "wand.pivot_x",
    "wand.pivot_z",
    "links.0.pivot_x",
    "links.0.pivot_z",
)
SMALL_PLACES = ("strut_top", "links.1.pivot_x", "links.1.pivot_z", "links.2.pivot_x", "links.2.pivot_z")
DEGREES = {
    "incidence": 1.0,
    "foil_at_drawing": 1.0,
    "forward_stop": 3.0,
    "aft_stop": 3.0,
    "foil_least": 2.0,
    "foil_greatest": 2.0,
    "_direction": 8.0,
    "wand_at_drawing": 4.0,
}


class Case(NamedTuple):
    base: str
    boat: ReadyBoat
    row: Floats
    water: Water
    speed: float  # [m/s]
    heel: float  # [rad]


def draw(count: int, seed: int) -> list[Case]:
    """Cases in turn over the five example boats."""
    rng = np.random.default_rng(seed)
    return [one(BOATS[k % len(BOATS)], rng) for k in range(count)]


def one(base: str, rng: np.random.Generator) -> Case:
    boat = demo_boat(base)
    row = boat.row.copy()
    whole = row[boat.names.index("main.incidence_per_turn")] > 0
    parted = not whole and rng.random() < 0.3
    for k, name in enumerate(boat.names):
        even, up = rng.uniform(-1, 1), rng.uniform(0, 1)
        if name.endswith(AREAS):
            row[k] *= 1 + 0.12 * even
        elif name in MASSES:
            row[k] *= 1 + 0.20 * even
        elif name.endswith(TENTH):
            row[k] *= 1 + 0.10 * even
        elif name.endswith(PLACES):
            row[k] += 0.08 * even
        elif name.endswith(SMALL_PLACES):
            row[k] += 0.01 * even
        elif name.endswith("rod_longer"):
            row[k] += 0.0015 * even
        elif name == "chain.play":
            row[k] += radians(0.3 if whole else 1.0) * up
        elif name.endswith(".play"):
            row[k] += 0.0004 * up
        elif name.endswith(".stretch"):
            row[k] += 5e-7 * up
        elif name == "chain.give":
            row[k] += (0.0003 if whole else 0.003) * up
        elif name == "wand.bend":
            row[k] += radians(0.4) * up
        elif name == "wand.tension":
            row[k] *= 1 + 0.5 * even
        elif name == "chain.curve_position":
            row[k] += 3 * even
        elif name.endswith(("hull.form_factor", "wave_share")):
            row[k] *= 1 + 0.05 * even
        elif name.endswith("sweep_cosine"):
            row[k] -= 0.03 * up
        elif parted and name in PART_SPAN:
            row[k] = PART_SPAN[name]
        else:
            row[k] += sum(radians(d) * even for ending, d in DEGREES.items() if name.endswith(ending))
    if rng.random() < 0.3:
        water = water_at(
            temperature_c=rng.uniform(5, 25), salinity_g_kg=35.0 * rng.random(), air_temperature_c=10.0
        )
    else:
        water = water_at()
    heel = radians(rng.uniform(-15, 5)) if rng.random() < 0.35 else 0.0
    return Case(base, boat, row, water, rng.uniform(5, 22) * KN, heel)


# a flap over the middle 0.6 of the span, at taper 0.5 and aspect ratio 9
PART_SPAN = {
    "main.flap_span_share": 0.6,
    "main.flap_share": 0.70,
    "main.kink_cross": -0.13,
    "main.kink_square": 0.71,
}
