"""Wand angles of a bench sheet that have no partner: the mark that a slip in the wand column leaves.

Every angle is read twice, with the wand going back and going forward. Where one angle going back and one
going forward have no partner, one of the two lines may say another wand angle than was held. Which one, the
fit tells: the line that lies nearer to all others with its partner's angle.
"""

from collections import defaultdict
from math import radians
from typing import NamedTuple

import numpy as np

from foilwright.evidence.bench_model import ANGLE, SINE, Readings
from foilwright.measures import Ints

SAME_WAND = radians(3.0)  # angles that near are one place, held twice


class Odd(NamedTuple):
    """An angle going back and one going forward that have no partner; each, the lines that say it."""

    back: tuple[int, ...]
    forward: tuple[int, ...]


def odd_pairs(readings: Readings) -> list[Odd]:
    """Where one angle going back and one going forward are alone, all others of their kind being in pairs."""
    groups: dict[tuple[object, ...], tuple[list[int], list[int]]] = defaultdict(lambda: ([], []))
    for i in np.flatnonzero((readings.kind == ANGLE) | (readings.kind == SINE)):
        if readings.travel[i]:
            groups[_kin(readings, int(i))][0 if readings.travel[i] > 0.0 else 1].append(int(i))
    found = []
    for back, forward in groups.values():
        alone_back, alone_forward = _alone(readings, back, forward)
        if len(alone_back) == len(alone_forward) == 1:
            found.append(
                Odd(_alike(readings, alone_back[0], back), _alike(readings, alone_forward[0], forward))
            )
    return found


def _alike(readings: Readings, one: int, side: list[int]) -> tuple[int, ...]:
    """The lines of one side that stand at the same place."""
    return tuple(i for i in side if abs(readings.wand[i] - readings.wand[one]) <= SAME_WAND)


def other_wands(readings: Readings, odd: Odd) -> list[tuple[int, float]]:
    """Lines that may say a wrong wand angle, each with the angle that would make it a pair [rad]."""
    back, forward = (float(readings.wand[side[0]]) for side in odd)
    return [(i, forward) for i in odd.back] + [(i, back) for i in odd.forward]


def _kin(readings: Readings, i: int) -> tuple[object, ...]:
    """Lines of one kind, setting and load, the level lying the same way round."""
    shifts: Ints = np.sign(readings.shifts[i]).astype(np.int64)
    return (
        int(readings.kind[i]),
        int(readings.setting[i]),
        float(readings.moment[i]),
        float(readings.arm[i]),
        tuple(shifts.tolist()),
    )


def _alone(readings: Readings, back: list[int], forward: list[int]) -> tuple[list[int], list[int]]:
    """Lines of each side that are left when all that stand at one place have been taken in pairs."""
    wand = readings.wand
    one, other = (sorted(side, key=lambda i: float(wand[i])) for side in (back, forward))
    alone: tuple[list[int], list[int]] = ([], [])
    while one and other:
        apart = wand[one[-1]] - wand[other[-1]]
        if abs(apart) <= SAME_WAND:
            one.pop()
            other.pop()
        elif apart > 0.0:
            alone[0].append(one.pop())
        else:
            alone[1].append(other.pop())
    return alone[0] + one, alone[1] + other
