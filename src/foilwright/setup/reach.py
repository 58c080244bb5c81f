"""What each adjuster alone does to height and trim, one step either way: what the scores of settings need.

The same derivative and the same solved steps as in `effects.py`, without drag, rudder lift and stops.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from foilwright.compiled import plain
from foilwright.flight.at_speed import scratch
from foilwright.flight.trim_at_speed import balance
from foilwright.setup.effects import SHARE_OF_STEP, Local, within_range
from foilwright.setup.standing import Standing, near, stepped, stepped_boat, with_boat

CLOSE = 1e-6  # of weight: a solved step is near enough for the bend of a curve
Pair = tuple[float, float]  # height [m] and trim [rad]


class Bend(NamedTuple):
    """Change of height and trim for one step: by derivative, and solved each way, None without a state."""

    slope: Pair
    more: Pair | None
    less: Pair | None


def reach_of(
    standing: Standing, locals_: Sequence[Local], names: Sequence[str], fast: bool
) -> dict[str, list[Bend]]:
    """Every adjuster at every state, in the order of `locals_`. `fast` uses the compiled kernel."""
    items = plain(scratch().items)
    slopes: dict[tuple[str, int], Pair] = {}
    asked: list[tuple[str, int, float]] = []
    rows, speeds, starts, known = [], [], [], []
    base = standing.present_row
    for name in names:
        ends = [stepped_boat(standing, name, sign * SHARE_OF_STEP) for sign in (1.0, -1.0)]
        inside = [sign for sign in (1.0, -1.0) if within_range(standing, name, sign)]
        whole = {sign: base + stepped(standing, name, sign)[0] for sign in inside}
        for i, local in enumerate(locals_):
            up, down = (balance(with_boat(local.case, e), local.height, local.trim, items) for e in ends)
            by_step = (np.array(up) - np.array(down)) / (2.0 * SHARE_OF_STEP)
            moved = -np.linalg.solve(local.by_state[:2], by_step)
            slopes[(name, i)] = (float(moved[0]), float(moved[1]))
            for sign, row in whole.items():
                asked.append((name, i, sign))
                rows.append(row)
                speeds.append(local.case.speed)
                starts.append((local.height + sign * float(moved[0]), local.trim + sign * float(moved[1])))
                known.append(local.by_state)
    ends_of = dict(zip(asked, near(standing, rows, 1.0, speeds, starts, fast, known, CLOSE), strict=True))

    def change(name: str, i: int, sign: float) -> Pair | None:
        end = ends_of.get((name, i, sign))
        return None if end is None else (end[0] - locals_[i].height, end[1] - locals_[i].trim)

    return {
        name: [
            Bend(slopes[(name, i)], change(name, i, 1.0), change(name, i, -1.0)) for i in range(len(locals_))
        ]
        for name in names
    }
