"""Steadiness of hand by stage of learning, and how fast people answer. SI and radians."""

from math import log2, radians
from typing import NamedTuple


class Hand(NamedTuple):
    """How much a sailor wanders about the mean while sailing straight: root mean square."""

    heel: float  # [rad]
    place: float  # fore and aft [m]
    sheet: float  # share of full sail force [-]
    tiller: float  # rudder angle [rad]


HANDS: dict[str, Hand] = {
    "first-hops": Hand(radians(5.0), 0.12, 0.20, radians(4.0)),
    "improving": Hand(radians(3.5), 0.08, 0.14, radians(2.5)),
    "settled": Hand(radians(2.0), 0.05, 0.08, radians(1.5)),
    "expert": Hand(radians(1.2), 0.03, 0.05, radians(1.0)),
}
"""Common practice, no source: the tiller from what coaches see on a straight course (1 to 2 degrees, learners
3 to 5), the others in the same proportion. A factor of 1.5 either way is credible for any one sailor."""

USUAL_STAGE = "improving"


def hand_of(stage: str | None) -> Hand:
    """The hand of a stage; that of the improving where none is told."""
    return HANDS[stage or USUAL_STAGE]


REACTION_PARTS = ((0.001, 0.030), (0.008, 0.009), (0.070, 0.090), (0.010, 0.015), (0.030, 0.040))
"""Sensing, way in, thinking, way out, muscle: least and most [s] (teaching notes after Kosinski's review)."""
LIGHT_REACTION, SOUND_REACTION = 0.190, 0.160  # simple reactions of the young [s], same notes


def choice_reaction(choices: int) -> float:
    """Time to choose among n equally likely answers [s]: 0.20 + 0.15 log2(n + 1).

    Hick 1952, Quarterly Journal of Experimental Psychology 4:11-26; constants from memory, good to a third.
    """
    return 0.20 + 0.15 * log2(choices + 1.0)


def phase_lost(delay: float, frequency: float) -> float:
    """Phase [rad] that a delay [s] costs at a frequency [rad/s].

    A hand that follows an error crosses over at 2 to 5 rad/s with an effective delay of 0.15 to 0.30 s
    (McRuer & Jex 1967, IEEE Transactions on Human Factors in Electronics 8:231-249): above about 1 Hz nobody
    follows.
    """
    return delay * frequency
