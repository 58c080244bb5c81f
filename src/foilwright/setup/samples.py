"""Common random samples for a choice: the same winds, wandering hands and doubtful boats for every setting.

Because every setting meets the same samples, a difference between two settings is known far better than
either of them alone. Drawn from a seed: the same input, the same samples.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from foilwright.measures import Floats
from foilwright.setup.sailor_hand import Hand

WINDS, BOATS = 8, 8  # samples of wind with hand, times samples of the boat
FURTHEST = 2.0  # standard deviations; what lies beyond is drawn in


class Occasion(NamedTuple):
    """Flight as it comes in some of the day's wind: wind [m/s], its angle, boat speed [m/s], heel [rad].

    weight  its share of the day
    """

    wind: float
    angle: float
    speed: float
    heel: float
    weight: float


class Samples(NamedTuple):
    """What every setting is judged over. Arrays over the winds [W], or winds and boats [W, B].

    speeds, heels, pulls  boat speed [m/s], heel [rad], share of the sail's pull
    places                how far the sailor sits forward of the usual place [m]
    doubts                of the boat's numbers [B, numbers], SI, over the whole row
    """

    speeds: Floats
    heels: Floats
    pulls: Floats
    places: Floats
    doubts: Floats


def drawn(
    occasions: Sequence[Occasion],
    hand: Hand,
    names: Sequence[str],
    bands: Mapping[str, float],
    seed: int,
    winds: int = WINDS,
    boats: int = BOATS,
) -> Samples:
    """The samples of a day: each occasion as often as its weight says, the first boat as in its file.

    bands  how sure each number of the boat's row is, by its name; those that are sure are left out
    """
    random = np.random.default_rng(seed)
    order = sorted(range(len(occasions)), key=lambda i: (occasions[i].speed, i))
    ends = np.cumsum([occasions[i].weight for i in order])
    at = [
        order[min(int(np.searchsorted(ends, (k + 0.5) / winds * ends[-1])), len(order) - 1)]
        for k in range(winds)
    ]
    wander = np.clip(random.standard_normal((winds, 3)), -FURTHEST, FURTHEST)
    wander -= wander.mean(axis=0)
    sure = np.array([bands.get(name, 0.0) for name in names])
    doubts = np.clip(random.standard_normal((boats, len(names))), -FURTHEST, FURTHEST) * sure
    doubts[0] = 0.0
    return Samples(
        np.array([occasions[i].speed for i in at]),
        np.array([occasions[i].heel for i in at]) + hand.heel * wander[:, 0],
        np.maximum(1.0 + hand.sheet * wander[:, 2], 0.3),
        hand.place * wander[:, 1],
        doubts,
    )
