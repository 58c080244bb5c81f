"""Credible random boats: every number of a demo boat varied within bounds, all kinds of control, none left
out.

A random boat is its demo boat's row with some amounts added, so its hull and sections stay those of the demo
boat. Each number is drawn evenly and by itself between the bounds below, which are wide: a fifth of every
mass, a seventh of every area, a degree of every angle, all at once. Boats of one kind, built and rigged by
different hands, differ by about half as much (`ALIKE`; common practice, no source).
"""

from __future__ import annotations

from math import radians
from typing import NamedTuple

import numpy as np

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.measures import Floats, Ints

SHARES = {
    "mass.mass": 0.20,
    "crew.mass": 0.20,
    "air.hull_drag_area": 0.30,
    "air.mast_drag_area": 0.30,
    "air.crew_drag_area": 0.30,
    "hull.form_factor": 0.05,
    "main.span": 0.10,
    "main.area": 0.15,
    "main.strut_chord": 0.10,
    "rudder.span": 0.10,
    "rudder.area": 0.15,
    "rudder.strut_chord": 0.10,
    "wand.length": 0.10,
    "wand.paddle_length": 0.20,
    "wand.paddle_width": 0.20,
    "wand.mass": 0.30,
    "wand.tension": 0.50,
    "chain.crank_arm": 0.10,
    "chain.play": 1.00,
    "links.*.in_arm": 0.10,
    "links.*.out_arm": 0.10,
    "links.*.play": 1.00,
}
"""Bounds as a share of the number itself."""

AMOUNTS = {
    "mass.x": 0.08,
    "mass.z": 0.08,
    "crew.x": 0.08,
    "crew.z": 0.08,
    "rig.effort_x": 0.20,
    "rig.effort_z": 0.30,
    "main.x": 0.08,
    "main.z": 0.08,
    "main.incidence": radians(1.0),
    "rudder.x": 0.08,
    "rudder.z": 0.08,
    "rudder.incidence": radians(1.0),
    "wand.pivot_x": 0.08,
    "wand.pivot_z": 0.04,
    "wand.forward_stop": radians(2.0),
    "wand.aft_stop": radians(2.0),
    "chain.foil_at_drawing": radians(1.0),
    "chain.foil_least": radians(1.0),
    "chain.foil_greatest": radians(1.0),
    "chain.crank_direction": radians(5.0),
    "chain.curve_position": 3.0,
    "links.*.rod_longer": 0.001,
    "links.*.pivot_x": 0.02,
    "links.*.pivot_z": 0.01,
    "links.*.in_direction": radians(5.0),
    "links.*.out_direction": radians(5.0),
}
"""Bounds as an amount [m, rad, steps]."""


ALIKE = 0.5
"""The share of the bounds within which boats of one kind differ."""


class RandomBoats(NamedTuple):
    """Boats as changes of a demo boat: `changes` [boats, k] are added to the `numbers` [k] of its row."""

    base: ReadyBoat
    numbers: Ints
    changes: Floats

    def row(self, i: int) -> Floats:
        """The whole row of one boat."""
        row = self.base.row.copy()
        row[self.numbers] += self.changes[i]
        return row


def random_boats(base: ReadyBoat, count: int, seed: int, share: float = 1.0) -> RandomBoats:
    """So many boats around a demo boat, within that share of the bounds."""
    rng = np.random.default_rng(seed)
    numbers, bounds = [], []
    for place, name in enumerate(base.names):
        first, _, rest = name.partition(".")
        pattern = f"{first}.*.{rest.partition('.')[2]}" if first == "links" else name
        if pattern in SHARES:
            bound = SHARES[pattern] * abs(float(base.row[place]))
        else:
            bound = AMOUNTS.get(pattern, 0.0)
        if pattern == "main.incidence" and base.row[base.names.index("main.incidence_per_turn")] > 0.5:
            bound = 0.0  # of a whole foil the angle at the drawing position is the same angle
        if bound > 0.0:
            numbers.append(place)
            bounds.append(share * bound)
    spread = rng.uniform(-1.0, 1.0, (count, len(numbers)))
    return RandomBoats(base, np.array(numbers, dtype=np.int64), spread * np.array(bounds))


def at_speeds(boats: RandomBoats, speeds: Floats) -> tuple[Floats, Floats]:
    """Changes and speeds of every boat at every speed, boat by boat."""
    return np.repeat(boats.changes, len(speeds), axis=0), np.tile(speeds, len(boats.changes))
