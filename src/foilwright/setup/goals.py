"""What a stage of learning wants: ride height, bow angle, and the margins that are kept.

Common practice, no source: the figures are what coaches say, not what anybody has measured.
"""

from collections.abc import Sequence
from math import radians
from typing import NamedTuple

BANDS: dict[str, dict[str, tuple[float, float]]] = {
    "adult": {
        "first-hops": (0.15, 0.30),
        "improving": (0.25, 0.45),
        "settled": (0.40, 0.60),
        "expert": (0.60, 0.80),
    },
    "junior": {
        "first-hops": (0.10, 0.25),
        "improving": (0.20, 0.35),
        "settled": (0.30, 0.50),
        "expert": (0.30, 0.50),
    },
}
"""Ride height wanted [m]. A junior's boat has no band of its own for experts: it keeps the settled one."""

BOW = (radians(-0.5), radians(1.5))  # flying [rad]
BOW_AT_TAKE_OFF = radians(4.0)  # upper end there [rad]
CLIMB = 1.3  # times the take-off speed: where the bands for flying begin
LEAST_TIP = {"first-hops": 0.25, "improving": 0.25, "settled": 0.25, "expert": 0.15}  # [m]
OVER_WAVES = 0.15  # ride height and tip depth each clear half the wave height by this [m]
MARGINS = {"stall": radians(1.0), "ventilation": 0.0, "cavitation": 0.0, "foil_stop": radians(0.5)}
LEARNERS = ("first-hops", "improving", "settled")


class Goal(NamedTuple):
    """What is wanted at a stage. SI.

    low, high          ride height, once the boat has climbed
    bow_low, bow_high  trim, likewise
    keep               least margins, by the name of the margin
    learner            doubt about the boat never excuses flying above the band
    """

    stage: str
    low: float
    high: float
    bow_low: float
    bow_high: float
    keep: dict[str, float]
    learner: bool


class Wanted(NamedTuple):
    """The bands at one boat speed [m/s]."""

    speed: float
    low: float
    high: float
    bow_low: float
    bow_high: float


def people_of(form: str) -> str:
    """Adult or junior, by the form of boat: the wide ones are the juniors'."""
    return "junior" if form == "wide" else "adult"


def band_for(stage: str, form: str) -> tuple[float, float]:
    """The ride height wanted at a stage of learning in a form of boat [m]."""
    return BANDS[people_of(form)][stage]


def goal_for(stage: str, form: str, wave_height: float = 0.0) -> Goal:
    """The goal of a stage in a form of boat, over waves of a height [m] from trough to crest.

    Where the waves ask for more height than the band has, the band's top is kept: nobody is sent higher
    than the stage allows.
    """
    low, high = band_for(stage, form)
    over = 0.5 * wave_height + OVER_WAVES if wave_height > 0.0 else 0.0
    keep = {"tip_depth": max(LEAST_TIP[stage], over), **MARGINS}
    return Goal(stage, min(max(low, over), high), high, *BOW, keep, stage in LEARNERS)


def wanted_at(goal: Goal, speeds: Sequence[float], take_off: float | None) -> list[Wanted]:
    """The bands at each speed [m/s].

    A boat that has just taken off is low and bow up, whatever its setting. So between the take-off speed and
    CLIMB times it the lower end of the height rises in a straight line from nothing, and the upper end of the
    trim falls from BOW_AT_TAKE_OFF. The upper end of the height is the stage's everywhere.
    """
    return [_wanted(goal, speed, take_off) for speed in speeds]


def _wanted(goal: Goal, speed: float, take_off: float | None) -> Wanted:
    climbed = 1.0
    if take_off is not None:
        climbed = min(max((speed / take_off - 1.0) / (CLIMB - 1.0), 0.0), 1.0)
    bow_high = max(goal.bow_high, goal.bow_high + (1.0 - climbed) * (BOW_AT_TAKE_OFF - goal.bow_high))
    return Wanted(speed, climbed * goal.low, goal.high, goal.bow_low, bow_high)
