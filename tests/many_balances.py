"""The compiled balance for tests: heave and pitch at many states of one boat."""

from __future__ import annotations

import numpy as np

from foilwright.compiled import compiled
from foilwright.flight.boat import Tables, boat_from, scratch_shapes
from foilwright.flight.loads import N_ITEMS
from foilwright.flight.state import Around, still
from foilwright.flight.trim_at_speed import Case, balance
from foilwright.measures import Floats
from foilwright.water.properties import Water


def many_balances(
    row: Floats,
    tables: Tables,
    water: Water,
    around: Around,
    heel: float,
    speeds: Floats,
    heights: Floats,
    trims: Floats,
    links: Floats,
    drawn: Floats,
    items: Floats,
    misses: Floats,
) -> None:
    """What is left of heave and pitch in each state, into `misses` [states, 2]."""
    boat = boat_from(row, links, drawn)
    for i in range(speeds.shape[0]):
        case = Case(boat, tables, water, around, speeds[i], heel, 1.0)
        lift, pitch = balance(case, heights[i], trims[i], items)
        misses[i, 0] = lift
        misses[i, 1] = pitch


def all_balances(
    row: Floats,
    tables: Tables,
    water: Water,
    speeds: Floats,
    heights: Floats,
    trims: Floats,
    heel: float = 0.0,
) -> Floats:
    """Compiled `many_balances`: heave over weight and pitch over weight times a metre [states, 2]."""
    misses = np.zeros((len(speeds), 2))
    links, drawn = scratch_shapes(len(row))
    compiled(many_balances, balance)(
        row, tables, water, still(), heel, speeds, heights, trims,
        np.empty(links), np.empty(drawn), np.empty((N_ITEMS, 6)), misses,
    )  # fmt: skip
    return misses
