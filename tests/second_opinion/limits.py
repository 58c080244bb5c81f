"""Margins of a state of sailing, after `docs/theory/margins.md`, `foil.md` and `strut.md`."""

from __future__ import annotations

from math import cos, hypot, pi, radians, sin, sqrt

import numpy as np

from tests.second_opinion.corners import ramp
from tests.second_opinion.sailing import Sailor, out_share

MARGINS = (
    "stall", "tip_depth", "ventilation", "touchdown", "cavitation", "wand_stop", "foil_stop", "hiking",
    "rudder_reversal", "wand_contact",
)  # fmt: skip


def limits(ours: Sailor, unknowns):
    """Every margin by name; None where it has no meaning."""
    found = ours.sailed(unknowns)
    speed, height, trim, _, _, reach = (float(v) for v in unknowns)
    boat, water, control, heel = ours.boat, ours.water, found.control, found.heel
    touching = control.touch >= 0.5
    margins = dict.fromkeys(MARGINS)
    margins["stall"] = min(seen.lifting.stall for seen in found.seen.values())
    tips, cavitation, ventilation = [], [], []
    for name, seen in found.seen.items():
        rise = hypot(cos(trim) * sin(heel), 0.002) - 0.002
        tips.append(seen.depth - boat[f"{name}.span"] / 2 * rise)
        over = water.air_pressure + water.density * water.gravity * seen.depth - water.vapour_pressure
        starts = sqrt(2 * over / (water.density * max(-seen.lifting.least_pressure, 0.01)))
        cavitation.append(starts - seen.past)
        chord = boat[f"{name}.strut_chord"]
        limit = radians(15) - radians(6) * ramp(speed / sqrt(water.gravity * chord), 1, 3)
        ventilation.append(limit * ramp(seen.strut / chord, 0, 0.5) - abs(seen.attack))
    margins["tip_depth"], margins["cavitation"] = min(tips), min(cavitation)
    margins["ventilation"] = min(ventilation)
    clear = lowest(ours, height, trim, heel)
    if clear > 0:
        margins["touchdown"] = clear
    if touching:
        stops = boat["wand.forward_stop"], boat["wand.aft_stop"]
        margins["wand_stop"] = min(control.wand - stops[0], stops[1] - control.wand)
        hanging, length = control.wand - trim, boat["wand.length"]
        inertia = boat["wand.mass"] * length**2 / 3
        moment = control.pull + boat["wand.mass"] * water.gravity * length / 2 * sin(hanging)
        margins["wand_contact"] = moment * length * sin(hanging) / (inertia * (2 * pi / 0.3) ** 2)
    margins["foil_stop"] = min(
        control.foil - boat["chain.foil_least"], boat["chain.foil_greatest"] - control.foil
    )
    margins["hiking"] = max(1 - out_share(reach), 0.0)
    rudder = found.seen["rudder"]
    margins["rudder_reversal"] = abs(
        water.density / 2 * rudder.past**2 * boat["rudder.area"] * rudder.lifting.lift
    )
    return margins


def lowest(ours: Sailor, height, trim, heel):
    """Height of the hull's lowest node over the undisturbed surface."""
    hull = ours.tables.hull
    x = np.asarray(hull.x)[:, None] - ours.boat["main.x"]
    y, z = np.asarray(hull.y), np.asarray(hull.z)
    up = height + x * sin(trim) + cos(trim) * (z * cos(heel) - np.abs(y * sin(heel)))
    return float(up.min())
