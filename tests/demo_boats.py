"""The demo boats as tests want them: read once, with numbers of their rows changed by name."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

import numpy as np

from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ReadyBoat, ready
from foilwright.documents.examples import example
from foilwright.flight.at_speed import Steady, fly_at
from foilwright.measures import Floats, Ints
from foilwright.water.properties import Water

BOATS = ("marram", "marram-curve", "marram-reversed", "sedge", "pipkin")
KN = 1852.0 / 3600.0  # one knot [m/s]
NO_CHANGE: Ints = np.zeros(0, dtype=np.int64)


@cache
def demo_boat(name: str) -> ReadyBoat:
    """A demo boat by the name of its file."""
    return ready(read_boat(example(name)))


def changed(boat: ReadyBoat, added: Mapping[str, float]) -> Floats:
    """The boat's row with amounts added to some of its numbers, by their names in the row [SI]."""
    row = boat.row.copy()
    for name, amount in added.items():
        row[boat.names.index(name)] += amount
    return row


def number(boat: ReadyBoat, name: str) -> float:
    """One number of the boat's row [SI]."""
    return float(boat.row[boat.names.index(name)])


def flying(boat: ReadyBoat, row: Floats, water: Water, speed_kn: float) -> Steady:
    """The one stable flying state at a speed; a test that asks for it where there is none, or two, fails."""
    (state,) = (s for s in fly_at(row, boat.tables, water, speed_kn * KN) if s.state == "flying" and s.stable)
    return state
