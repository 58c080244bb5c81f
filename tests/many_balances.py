"""The compiled balance for tests: heave and pitch at many states of one boat."""

from __future__ import annotations

import numpy as np

from foilwright.flight.boat import Tables
from foilwright.flight.look import LIFT_LEFT, PITCH_LEFT
from foilwright.flight.many import looks_at
from foilwright.measures import Floats
from foilwright.water.properties import Water

NO_CHANGE = np.zeros(0, dtype=np.int64)


def all_balances(
    row: Floats,
    tables: Tables,
    water: Water,
    speeds: Floats,
    heights: Floats,
    trims: Floats,
    heel: float = 0.0,
) -> Floats:
    """What is left of heave over weight and of pitch over weight times a metre [states, 2]."""
    held = np.stack([heights, trims], axis=1)
    none = np.zeros((len(speeds), 0))
    seen = looks_at(row, tables, water, NO_CHANGE, none, np.ascontiguousarray(speeds), held, heel)
    return seen[:, [LIFT_LEFT, PITCH_LEFT]]
