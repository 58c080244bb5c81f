"""How well a setting does: what it misses of a goal over the speeds, and what the changes to it cost.

One unit of miss is 10 mm of ride height or 0.1 degrees of bow angle outside its band, averaged over the
speeds. A change costs about one unit too: it has to be worth that much to be asked for. Too high counts
twice.
"""

from collections.abc import Mapping, Sequence
from math import radians
from typing import NamedTuple

import numpy as np

from foilwright.flight.margins import SPANS
from foilwright.measures import Floats
from foilwright.setup.goals import Goal, Wanted
from foilwright.setup.order import place_in_order

HEIGHT_UNIT, TRIM_UNIT = 0.01, radians(0.1)  # [m, rad]
TOO_HIGH = 2.0
MARGIN_UNITS = 10.0  # of one whole span of a margin short (`flight/margins.py` SPANS)
CHANGE_COST, LATER_COST, STEP_COST = 1.0, 0.25, 0.01  # of a change; for each place later in the order; a step
RAISED = 1e-6  # [m]


class Judged(NamedTuple):
    """A setting judged.

    settings          every adjuster [steps from the mark];  changes  those that move [steps from the present]
    heights, trims    at each speed [m, rad]
    miss, cost        in units; both together decide
    short             margins not kept: (index of the speed, margin, by how much in its SI unit)
    raises            whether it lifts the boat above the band where it was not as high before
    """

    settings: Mapping[str, float]
    changes: Mapping[str, float]
    heights: tuple[float, ...]
    trims: tuple[float, ...]
    miss: float
    cost: float
    short: tuple[tuple[int, str, float], ...]
    raises: bool

    @property
    def total(self) -> float:
        """Miss and cost together: the smaller the better."""
        return self.miss + self.cost


class Bands(NamedTuple):
    """The bands of all speeds as arrays [speeds]."""

    low: Floats
    high: Floats
    bow_low: Floats
    bow_high: Floats


def bands_of(wanted: Sequence[Wanted]) -> Bands:
    """The bands side by side."""
    return Bands(*(np.array([one[i] for one in wanted]) for i in range(1, 5)))


def band_miss(bands: Bands, heights: Floats, trims: Floats, slack_h: Floats, slack_t: Floats) -> Floats:
    """Miss of the bands in units, averaged over the last axis; within the slack counts as inside."""
    return np.asarray(np.mean(miss_by_speed(bands, heights, trims, slack_h, slack_t), axis=-1), dtype=float)


def miss_by_speed(bands: Bands, heights: Floats, trims: Floats, slack_h: Floats, slack_t: Floats) -> Floats:
    """Miss of the bands in units at each speed; within the slack counts as inside."""
    low = np.maximum(bands.low - heights - slack_h, 0.0)
    high = np.maximum(heights - bands.high - slack_h, 0.0)
    down = np.maximum(bands.bow_low - trims - slack_t, 0.0)
    up = np.maximum(trims - bands.bow_high - slack_t, 0.0)
    found = (low + TOO_HIGH * high) / HEIGHT_UNIT + (down + up) / TRIM_UNIT
    return np.asarray(found, dtype=float)


def change_cost(role: str, steps: float) -> float:
    """What one change costs, in units."""
    return CHANGE_COST + LATER_COST * place_in_order(role) + STEP_COST * abs(steps)


def margins_short(
    goal: Goal, margins: Sequence[Mapping[str, float | None]], flew: Sequence[bool]
) -> tuple[tuple[int, str, float], ...]:
    """Every margin that is less than the goal keeps, by speed; margins that do not apply are not short.

    Where the boat flies at present and would not any more, the touchdown margin is short by a whole span.
    """
    short = []
    for i, (at, flies) in enumerate(zip(margins, flew, strict=True)):
        if flies and at.get("touchdown") is None:
            short.append((i, "touchdown", SPANS["touchdown"]))
        for name, least in goal.keep.items():
            value = at.get(name)
            if value is not None and value < least:
                short.append((i, name, least - value))
    return tuple(short)


def margin_miss(short: Sequence[tuple[int, str, float]], speeds: int) -> float:
    """Miss of the margins in units, averaged over the speeds."""
    return sum(MARGIN_UNITS * by / SPANS[name] for _, name, by in short) / speeds


def raises(bands: Bands, heights: Floats, present: Floats) -> bool:
    """Whether the boat goes above the band at any speed, and higher there than it is now."""
    return bool(np.any(heights > np.maximum(bands.high, present) + RAISED))


def judged(
    settings: Mapping[str, float],
    changes: Mapping[str, float],
    roles: Mapping[str, str],
    goal: Goal,
    bands: Bands,
    heights: Sequence[float],
    trims: Sequence[float],
    margins: Sequence[Mapping[str, float | None]] | None,
    present: Sequence[float],
    flew: Sequence[bool],
) -> Judged:
    """One setting judged from its states; without margins these count as kept.

    present, flew  height and whether the boat flies at each speed with the present setting
    """
    h, t, nothing = np.array(heights), np.array(trims), np.zeros(len(heights))
    short = margins_short(goal, margins, flew) if margins is not None else ()
    miss = float(band_miss(bands, h, t, nothing, nothing)) + margin_miss(short, len(heights))
    cost = sum(change_cost(roles[name], steps) for name, steps in changes.items())
    return Judged(
        dict(settings), dict(changes), tuple(heights), tuple(trims), miss, cost, short,
        raises(bands, h, np.array(present)),
    )  # fmt: skip


def may_be_known(goal: Goal, bands: Bands, present: Judged) -> bool:
    """Whether doubt could excuse the present setting: no margin short, no learner above the band."""
    over = bool(np.any(np.array(present.heights) > bands.high + RAISED))
    return not present.short and not (goal.learner and over)


def inside_what_is_known(
    goal: Goal, bands: Bands, present: Judged, doubts: Sequence[tuple[float, float]]
) -> bool:
    """Whether nothing that is known speaks against the present setting.

    Each height and trim is within its band, or outside by less than its standard error. Margins are kept as
    predicted: doubt excuses none of them, and for a learner it excuses no height above the band.
    """
    if not may_be_known(goal, bands, present):
        return False
    heights, trims = np.array(present.heights), np.array(present.trims)
    slack = np.array(doubts).reshape(-1, 2)
    return float(band_miss(bands, heights, trims, slack[:, 0], slack[:, 1])) <= 0.0
