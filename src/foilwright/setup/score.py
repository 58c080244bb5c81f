"""A score for every setting within reach, from the effects: which are worth solving, and in what order.

Each adjuster alone changes height and trim by slope x steps + curvature x steps^2 / 2, both from its effects;
together their changes add up. A second total is what the setting would have if the score were as wrong as is
allowed for, in its favour: a setting whose second total is above the best solved one need not be solved.
"""

from collections.abc import Mapping, Sequence
from itertools import combinations
from typing import NamedTuple

import numpy as np

from foilwright.measures import Floats
from foilwright.setup.adjusters import Adjuster
from foilwright.setup.judge import STEP_COST, Bands, Judged, band_miss, change_cost
from foilwright.setup.reach import Bend

MOST_CHANGES = 3
WRONG_SHARE = 0.25  # how wrong a predicted change of height or trim may be, as a share of it ...
WRONG_HEIGHT, WRONG_TRIM = 0.004, 0.001  # ... and beside that [m, rad]
MOST_BEND = 0.5  # curvature never does more than this share of what the slope does


class Alone(NamedTuple):
    """One adjuster alone: steps from the present, and the change of height [m] and trim [rad] by speed."""

    steps: Floats  # [settings]
    heights: Floats  # [settings, speeds]
    trims: Floats


class Scored(NamedTuple):
    """Every setting scored.

    moved    [settings, adjusters]: steps from the present
    totals   [settings];  at_best  the same if the score is as wrong as is allowed for
    """

    names: tuple[str, ...]
    moved: Floats
    heights: Floats  # [settings, speeds]
    trims: Floats
    totals: Floats
    at_best: Floats
    wrong_heights: Floats  # [settings, speeds]: how wrong the score may be
    wrong_trims: Floats

    def changes(self, i: int) -> dict[str, float]:
        """The changes of one setting [steps from the present]."""
        return {name: float(s) for name, s in zip(self.names, self.moved[i], strict=True) if s != 0.0}


def whole_steps(adjuster: Adjuster) -> list[float]:
    """The settings that an adjuster can stand at, in whole steps from its mark."""
    return [float(s) for s in range(round(adjuster.least), round(adjuster.greatest) + 1)]


def alone_of(adjuster: Adjuster, at: float, by_speed: Sequence[Bend]) -> Alone:
    """An adjuster that stands `at` [steps from its mark], moved to every other whole step of its range."""
    steps = np.array([s - at for s in whole_steps(adjuster) if abs(s - at) > 1e-9])
    heights, trims = (
        [_bent(steps, *(None if one is None else one[i] for one in bend)) for bend in by_speed]
        for i in (0, 1)
    )
    shape = (len(steps), len(by_speed))
    return Alone(steps, np.array(heights).T.reshape(shape), np.array(trims).T.reshape(shape))


def _bent(steps: Floats, slope: float | None, more: float | None, less: float | None) -> Floats:
    straight = np.asarray((slope or 0.0) * steps, dtype=float)
    if more is None or less is None:
        return straight
    most = MOST_BEND * np.abs(straight)
    bend = np.clip(0.5 * (more + less) * steps**2, -most, most)
    return np.asarray(straight + bend, dtype=float)


def score(
    bands: Bands, present: Judged, roles: Mapping[str, str], names: Sequence[str], alone: Sequence[Alone]
) -> Scored:
    """Every setting from one to MOST_CHANGES changes away from the present one."""
    heights, trims = np.array(present.heights), np.array(present.trims)
    moved, at_height, at_trim, totals, at_best = [], [], [], [], []
    off_height, off_trim = [], []
    movable = [i for i, one in enumerate(alone) if len(one.steps)]
    for count in range(1, MOST_CHANGES + 1):
        for chosen in combinations(movable, count):
            grids = np.meshgrid(*(np.arange(len(alone[i].steps)) for i in chosen), indexing="ij")
            picks = [grid.ravel() for grid in grids]
            by_height = [alone[i].heights[pick] for i, pick in zip(chosen, picks, strict=True)]
            by_trim = [alone[i].trims[pick] for i, pick in zip(chosen, picks, strict=True)]
            h, t = heights + sum(by_height), trims + sum(by_trim)
            wrong_h = WRONG_HEIGHT + WRONG_SHARE * sum(np.abs(one) for one in by_height)
            wrong_t = WRONG_TRIM + WRONG_SHARE * sum(np.abs(one) for one in by_trim)
            steps = np.zeros((len(picks[0]), len(alone)))
            for i, pick in zip(chosen, picks, strict=True):
                steps[:, i] = alone[i].steps[pick]
            cost = sum(change_cost(roles[names[i]], 0.0) for i in chosen) + STEP_COST * np.abs(steps).sum(
                axis=1
            )
            nothing = np.zeros_like(h)
            moved.append(steps)
            at_height.append(h)
            at_trim.append(t)
            totals.append(cost + band_miss(bands, h, t, nothing, nothing))
            off_height.append(np.asarray(wrong_h))
            off_trim.append(np.asarray(wrong_t))
            at_best.append(cost + band_miss(bands, h, t, np.asarray(wrong_h), np.asarray(wrong_t)))
    if not moved:
        none = np.zeros((0, len(heights)))
        nothing = np.zeros(0)
        return Scored(tuple(names), np.zeros((0, len(alone))), none, none, nothing, nothing, none, none)
    parts = (moved, at_height, at_trim, totals, at_best, off_height, off_trim)
    return Scored(tuple(names), *(np.concatenate(part) for part in parts))
