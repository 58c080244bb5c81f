"""One change at a time: the order in which to make the changes to a chosen setting."""

from collections.abc import Sequence
from itertools import permutations
from typing import NamedTuple

import numpy as np

from foilwright.setup.adjusters import turned
from foilwright.setup.judge import Judged, raises
from foilwright.setup.order import place_in_order
from foilwright.setup.search import Search
from foilwright.setup.standing import near


class Move(NamedTuple):
    """One change in its turn: steps, the setting it ends at, and what it does at each speed [m, rad]."""

    adjuster: str
    role: str
    steps: float
    setting: float
    heights: tuple[float, ...]
    trims: tuple[float, ...]


def in_order(search: Search, one: Judged) -> tuple[Move, ...] | None:
    """The changes in the coach's order; in another where one would raise the boat above its band."""
    names = sorted(one.changes, key=lambda name: (place_in_order(search.roles[name]), name))
    for order in permutations(names):
        moves = _walked(search, one, order)
        if moves is not None:
            return moves
    return None


def _walked(search: Search, one: Judged, order: Sequence[str]) -> tuple[Move, ...] | None:
    standing, speeds = search.standing, list(search.speeds)
    settings = dict(search.present.settings)
    before = list(zip(search.present.heights, search.present.trims, strict=True))
    moves = []
    for name in order:
        settings[name] = one.settings[name]
        row = turned(standing.row, standing.adjusters, settings)
        if settings == dict(one.settings):
            after: list[tuple[float, float] | None] = list(zip(one.heights, one.trims, strict=True))
        else:
            rows = [row] * len(speeds)
            starts = [
                (height + one.changes[name] * bend.slope[0], trim + one.changes[name] * bend.slope[1])
                for (height, trim), bend in zip(before, search.reach[name], strict=True)
            ]
            after = near(standing, rows, 1.0, speeds, starts, search.fast, search.by_state)
        states = [state for state in after if state is not None]
        if len(states) < len(speeds):
            return None
        heights = np.array([state[0] for state in states])
        if raises(search.bands, heights, np.array(search.present.heights)):
            return None
        moves.append(
            Move(
                name, search.roles[name], one.changes[name], settings[name],
                tuple(b[0] - a[0] for a, b in zip(before, states, strict=True)),
                tuple(b[1] - a[1] for a, b in zip(before, states, strict=True)),
            )
        )  # fmt: skip
        before = states
    return tuple(moves)
