"""The tiller elastic: it does what it is asked, at the pull it says, and says when it cannot be had."""

from __future__ import annotations

from math import radians

import pytest

from foilwright.flight.steering_elastic import (
    MEANT_TURN,
    STRAY_PULL,
    TACK,
    TillerHand,
    centring_force,
    tiller_elastic,
    tiller_hand,
)
from foilwright.setup.sailor_hand import hand_of

HAND = TillerHand(2.0, radians(1.5), 8.0, 25.0)
LENGTH = 0.9


def test_both_sides_pull_until_one_is_slack():
    assert centring_force(50.0, 4.0, 0.04) == pytest.approx(4.0)  # two of 50 N/m, 40 mm
    assert centring_force(50.0, 4.0, 0.08) == pytest.approx(8.0)  # one has just gone slack
    assert centring_force(50.0, 4.0, 0.10) == pytest.approx(9.0)
    assert centring_force(0.0, 0.0, 0.1) == 0.0


@pytest.mark.parametrize("water", [-10.0, 0.0, 20.0])
def test_it_keeps_the_stray_pull_in_and_the_turn_light(water):
    """At the angle asked for, elastic and water together balance the stray pull."""
    found = tiller_elastic(HAND, LENGTH, water, water)
    assert found is not None and found.as_asked and found.within == HAND.keep_within
    travel = LENGTH * found.within
    for pretension in (found.least_pretension, found.pretension, found.most_pretension):
        held = centring_force(found.stiffness, pretension, travel) + water * found.within
        assert held == pytest.approx(HAND.stray)
        meant = centring_force(found.stiffness, pretension, LENGTH * MEANT_TURN) + water * MEANT_TURN
        assert meant <= HAND.meant_most + 1e-9
        assert centring_force(found.stiffness, pretension, LENGTH * TACK) <= HAND.tack_most + 1e-9
    assert found.least_pretension <= found.pretension <= found.most_pretension
    assert found.meant_force <= HAND.meant_most + 1e-9 and found.tack_force <= HAND.tack_most + 1e-9


def test_water_that_helps_wants_less_cord_and_a_shorter_tiller_more():
    plain, helped = tiller_elastic(HAND, LENGTH, 0.0, 0.0), tiller_elastic(HAND, LENGTH, 20.0, 20.0)
    short = tiller_elastic(HAND, 0.7, 0.0, 0.0)
    assert plain is not None and helped is not None and short is not None
    assert helped.stiffness < plain.stiffness < short.stiffness
    strong = tiller_elastic(HAND, LENGTH, 100.0, 80.0)
    assert strong is not None and strong.stiffness == 0.0 and strong.pretension == 0.0


def test_what_cannot_be_had_is_the_least_angle_that_can():
    asked = HAND._replace(stray=5.0, keep_within=radians(1.0))
    found = tiller_elastic(asked, LENGTH, 0.0, 0.0)
    assert found is not None and not found.as_asked
    assert radians(1.0) < found.within < MEANT_TURN
    assert max(found.asked_meant_force - 8.0, found.asked_tack_force - 25.0) > 0.0
    assert found.most_pretension == pytest.approx(found.least_pretension, abs=1e-6)
    assert max(found.meant_force / 8.0, found.tack_force / 25.0) == pytest.approx(1.0)
    tighter = tiller_elastic(asked._replace(keep_within=0.99 * found.within), LENGTH, 0.0, 0.0)
    wider = tiller_elastic(asked._replace(keep_within=1.01 * found.within), LENGTH, 0.0, 0.0)
    assert tighter is not None and not tighter.as_asked
    assert wider is not None and wider.as_asked


def test_nothing_helps_where_the_water_alone_is_too_much():
    assert tiller_elastic(HAND, LENGTH, 0.0, 9.0 / MEANT_TURN) is None
    assert tiller_elastic(HAND, LENGTH, -400.0, -400.0) is None


@pytest.mark.parametrize("junior", [False, True])
@pytest.mark.parametrize("stage", STRAY_PULL)
def test_the_hand_of_each_stage_has_an_elastic_of_usual_size(stage, junior):
    """3 to 8 N for 5 degrees and 10 to 25 N at 20 (common practice, no source), two thirds for a junior."""
    share = 2.0 / 3.0 if junior else 1.0
    found = tiller_elastic(tiller_hand(stage, hand_of(stage).tiller, junior), LENGTH, 0.0, 0.0)
    assert found is not None and found.as_asked
    assert 3.0 * share <= found.meant_force <= 8.0 * share + 1e-9
    assert 10.0 * share <= found.tack_force <= 25.0 * share + 1e-9
