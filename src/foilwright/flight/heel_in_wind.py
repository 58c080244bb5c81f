"""The heel in flight that pays best in each wind, with every margin kept. Over the compiled batch."""

from collections.abc import Sequence
from math import cos, radians
from typing import NamedTuple

import numpy as np

from foilwright.flight.boat import Tables
from foilwright.flight.helm_policy import FLOATING_HEEL
from foilwright.flight.many_in_wind import all_in_wind
from foilwright.flight.wind_margins import FLYING, MARGIN_NAMES, MARGINS, STANDING
from foilwright.flight.wind_states import STABLE
from foilwright.measures import Floats
from foilwright.water.properties import Water

HEELS = tuple(radians(-4.0 * k) for k in range(7))  # sailed first: 0 to 24 degrees to windward
CLOSER = radians(2.0)  # then either side of the best of them
KEPT = ("stall", "tip_depth", "ventilation", "touchdown", "cavitation", "wand_stop", "foil_stop")
KEPT_AT = tuple(MARGINS + MARGIN_NAMES.index(name) for name in KEPT)


class BestHeel(NamedTuple):
    """The best flying state in one wind; `state` is a row of what the batch finds, None where none flies."""

    heel: float  # in flight, to leeward positive [rad]
    kept: bool  # whether every margin of KEPT is positive
    state: Floats | None


def best_heels(
    row: Floats,
    tables: Tables,
    water: Water,
    roughness: float,
    winds: Sequence[tuple[float, float]],
    made_good: bool = False,
    threads: int | None = None,
) -> list[BestHeel]:
    """The heel in flight for greatest boat speed in each (wind [m/s], true wind angle [rad]).

    With `made_good`, for greatest speed straight to or from the wind. A state that keeps its margins goes
    before one that does not; without any that keeps them, the one nearest to keeping them.
    """
    best = [BestHeel(0.0, False, None)] * len(winds)
    tries = [(i, heel) for i in range(len(winds)) for heel in HEELS]
    for _ in range(2):
        cases = np.array([(*winds[i], radians(FLOATING_HEEL), heel) for i, heel in tries]).reshape(-1, 4)
        found = all_in_wind(
            row, tables, water, roughness, np.zeros(0, dtype=np.int64), np.zeros((len(tries), 0)), cases,
            None, threads,
        )  # fmt: skip
        for (i, heel), states, count in zip(tries, found.states, found.counts, strict=True):
            for state in states[:count]:
                if state[STABLE] > 0.0 and state[STANDING] == FLYING:
                    new = BestHeel(heel, least_margin(state) > 0.0, state)
                    if worth(new, winds[i][1], made_good) > worth(best[i], winds[i][1], made_good):
                        best[i] = new
        tries = [
            (i, one.heel + side)
            for i, one in enumerate(best)
            if one.state is not None
            for side in (-CLOSER, CLOSER)
        ]
    return best


def least_margin(state: Floats) -> float:
    """The least of the margins that are to be kept, in its own unit."""
    return float(min(state[k] for k in KEPT_AT))


def worth(one: BestHeel, angle: float, made_good: bool) -> tuple[float, float]:
    """What is compared: margins kept first, then speed; without them, how near it is to keeping them."""
    if one.state is None:
        return (-1.0, 0.0)
    if not one.kept:
        return (0.0, least_margin(one.state))
    speed = float(one.state[0])
    return (1.0, speed * abs(cos(angle)) if made_good else speed)
