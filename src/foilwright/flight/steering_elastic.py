"""The tiller elastic: how stiff and how tight, so that a stray hand does little and a meant turn stays light.

Two equal elastics, one a side, from the tiller's end to the boat, both stretched with the tiller amidships.
"""

from math import inf, radians
from typing import NamedTuple

STRAY_PULL: dict[str, float] = {"first-hops": 5.0, "improving": 4.0, "settled": 2.5, "expert": 1.5}
"""Pull of a hand at the tiller's end that nobody meant, by stage of learning [N]: common practice, no source.

A guess of 1 to 1.5 N for a degree that the tiller of the stage wanders (`setup/sailor_hand.py`).
"""

MEANT_TURN = radians(5.0)
MEANT_TURN_MOST = 8.0  # [N] at the tiller's end: common practice, no source, 3 to 8
TACK = radians(20.0)
TACK_MOST = 25.0  # [N]: common practice, no source, 10 to 25
JUNIOR_SHARE = 2.0 / 3.0  # of all these forces for a junior: common practice, no source


class TillerHand(NamedTuple):
    """What the hand does unmeant, and what it is asked for when it means to turn."""

    stray: float  # [N] at the tiller's end
    keep_within: float  # rudder angle [rad]
    meant_most: float  # most force for MEANT_TURN [N]
    tack_most: float  # most force of the elastic alone at TACK [N]


class TillerElastic(NamedTuple):
    """One of the two elastics, at the tiller's end."""

    within: float  # rudder angle that the stray pull then makes [rad]
    as_asked: bool  # whether that is the angle asked for
    stiffness: float  # of one elastic [N/m]
    pretension: float  # of each, tiller amidships [N]
    least_pretension: float  # below it a side goes slack inside the angle [N]
    most_pretension: float  # above it the meant turn or the tack gets too heavy [N]
    meant_force: float  # at the tiller's end for MEANT_TURN, the water's share with it [N]
    tack_force: float  # of the elastic at TACK [N]
    asked_meant_force: float  # for MEANT_TURN with the lightest elastic that does as asked [N]
    asked_tack_force: float  # of that elastic at TACK [N]


def tiller_hand(stage: str, keep_within: float, junior: bool) -> TillerHand:
    """The default hand of a stage of learning, to be kept inside a rudder angle [rad]."""
    share = JUNIOR_SHARE if junior else 1.0
    return TillerHand(share * STRAY_PULL[stage], keep_within, share * MEANT_TURN_MOST, share * TACK_MOST)


def centring_force(stiffness: float, pretension: float, travel: float) -> float:
    """Force of both elastics towards amidships at a travel of the tiller's end [N], travel >= 0 [m].

    Both sides taut: twice the stiffness. Beyond the travel at which one side is slack only the other pulls.
    """
    slack = pretension / stiffness if stiffness > 0.0 else inf
    return 2.0 * stiffness * travel if travel <= slack else pretension + stiffness * travel


def stiffness_for(hand: TillerHand, within: float, tiller: float, water_least: float) -> float:
    """Stiffness of one elastic [N/m] that holds the stray pull inside an angle [rad], the water helping.

    tiller: length [m]; water_least: least centring force of the water at the tiller's end [N/rad].
    """
    wanted = hand.stray / within - water_least
    return max(0.0, 0.5 * wanted / tiller)


def pretension_band(
    hand: TillerHand, within: float, tiller: float, stiffness: float, water_most: float
) -> tuple[float, float]:
    """Least and most pretension [N]; most is below least where the elastic cannot be had."""
    least = stiffness * tiller * within
    meant, tack = tiller * MEANT_TURN, tiller * TACK
    room = hand.meant_most - water_most * MEANT_TURN
    most = hand.tack_most - stiffness * tack
    if 2.0 * stiffness * meant > room:
        most = min(most, room - stiffness * meant)
    return least, most


def tiller_elastic(
    hand: TillerHand, tiller: float, water_least: float, water_most: float
) -> TillerElastic | None:
    """The elastic that keeps the stray pull inside the angle asked for, or inside the least that can be had.

    water_least and water_most: centring force of the water at the tiller's end over the speeds it is for, in
    the steady turn [N/rad]. None where the water alone makes a meant turn too heavy, or pulls the tiller away
    harder than any elastic may.
    """

    def band(angle: float) -> tuple[float, float, float]:
        stiffness = stiffness_for(hand, angle, tiller, water_least)
        return (stiffness, *pretension_band(hand, angle, tiller, stiffness, water_most))

    stiffness, least, most = band(hand.keep_within)
    asked_meant = least + (stiffness * tiller + water_most) * MEANT_TURN
    asked_tack = least + stiffness * tiller * TACK
    as_asked, within = most >= least, hand.keep_within
    if not as_asked:
        low, high = hand.keep_within, MEANT_TURN
        if low >= high or band(high)[2] < band(high)[1]:
            return None
        for _ in range(60):
            middle = 0.5 * (low + high)
            _, low_end, high_end = band(middle)
            low, high = (low, middle) if high_end >= low_end else (middle, high)
        within = high
        stiffness, least, most = band(within)
    pretension = max(least, min(most, stiffness * tiller * MEANT_TURN))
    meant = centring_force(stiffness, pretension, tiller * MEANT_TURN) + water_most * MEANT_TURN
    tack = centring_force(stiffness, pretension, tiller * TACK)
    return TillerElastic(
        within, as_asked, stiffness, pretension, least, most, meant, tack, asked_meant, asked_tack
    )
