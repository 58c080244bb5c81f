"""One adjuster in steps of another, and the grid of first changes from a boat's own effects."""

from __future__ import annotations

from math import radians

import pytest

from foilwright.flight.at_speed import Steady
from foilwright.outcomes import NO_BALANCE, OUTSIDE_VALIDITY, SOLVED
from foilwright.setup.choose import roles_of
from foilwright.setup.effects import slopes_at_state
from foilwright.setup.grid import BOWS, HEIGHTS, grid
from foilwright.setup.same_as import same_as
from foilwright.setup.standing import PULL, Standing, flown
from tests.demo_boats import BOATS, KN, demo_boat


def standing(name: str, water, **settings: float) -> tuple[Standing, Steady | None]:
    boat = demo_boat(name)
    at = {**boat.present, **{key.replace("_", "-"): steps for key, steps in settings.items()}}
    it = Standing(boat.row, boat.tables, water, boat.adjusters, at)
    [state] = flown(it, [12.0 * KN], False)
    return it, state


def test_an_adjuster_is_itself(fresh):
    boat = standing("marram", fresh)
    for adjuster in ("main-rod", "rudder-rake", "sailor-aft", PULL):
        same = same_as(*boat, adjuster, *boat, adjuster)
        assert same.outcome == SOLVED and same.steps == pytest.approx(1.0, abs=1e-3)
        assert same.left_over == pytest.approx((0.0,) * 4, abs=2e-2)


def test_there_and_back(fresh):
    """So many holes of the wand do what a turn of the rod does, and a hole what so much of a turn does."""
    marram, pipkin = standing("marram", fresh), standing("pipkin", fresh)
    there = same_as(*marram, "main-rod", *pipkin, "wand-length")
    back = same_as(*pipkin, "wand-length", *marram, "main-rod")
    assert there.steps is not None and back.steps is not None
    assert there.steps * back.steps == pytest.approx(1.0, rel=0.05)
    assert there.left_over is not None and abs(there.left_over.height) < 0.001


def test_a_reversed_rod_turns_the_other_way(fresh):
    same = same_as(*standing("marram", fresh), "main-rod", *standing("marram-reversed", fresh), "main-rod")
    assert same.steps == pytest.approx(-1.0, abs=0.1)


def test_least_squares_leaves_over_what_a_bow_adjuster_cannot_do(fresh):
    """No other number of steps comes nearer, by the weights of 10 mm and 0.1 degrees."""
    boat = standing("marram", fresh)
    same = same_as(*boat, "main-rod", *boat, "rudder-rake")
    assert same.steps is not None and same.change is not None
    assert same.left_over is not None and same.imitated is not None

    def left(share: float) -> float:
        assert same.change is not None and same.imitated is not None
        height = (same.change.height - share * same.imitated.height) / 0.010
        trim = (same.change.trim - share * same.imitated.trim) / radians(0.1)
        return height**2 + trim**2

    assert left(1.0) <= min(left(0.9), left(1.1))
    assert same.left_over.height == pytest.approx(same.change.height - same.imitated.height)
    assert left(1.0) > 1.0


def test_what_cannot_be_told_is_said(fresh):
    marram = standing("marram", fresh)
    nothing = same_as(*marram, "main-rod", *marram, "wand-tension")
    assert nothing.outcome == OUTSIDE_VALIDITY and nothing.steps is None and "wand-tension" in nothing.limit
    none = same_as(marram[0], None, "main-rod", *marram, "main-rod")
    assert none.outcome == NO_BALANCE and none.limit == "the first boat"


def test_beyond_the_range_is_said(fresh):
    marram, full = standing("marram", fresh), standing("pipkin", fresh, wand_length=3.0)
    same = same_as(*marram, "main-rod", *full, "wand-length")
    assert same.steps is not None and same.steps > 1.0 and same.within_range is False


@pytest.mark.parametrize("name", BOATS)
def test_every_place_of_the_grid_does_what_it_is_for(name, fresh):
    it, state = standing(name, fresh)
    assert state is not None
    entries = grid(slopes_at_state(it, state.speed, state), it.adjusters, roles_of(it), it.settings)
    assert list(entries) == [(height, bow) for height in HEIGHTS for bow in BOWS]
    for (height, bow), entry in entries.items():
        first = entry.first
        if (height, bow) == ("right", "level"):
            assert first is None and entry.advice == ("change nothing",)
            continue
        assert first is not None and first.steps == round(first.steps) != 0.0
        if height == "low":
            assert first.height > 0.0
        if height == "high":
            assert first.height < 0.0
        if height == "right":
            assert first.trim > radians(0.1) if bow == "bow_down" else first.trim < -radians(0.1)
    assert entries[("low", "bow_up")].advice == ("look for drag and power",)
    for place in (("low", "bow_down"), ("right", "bow_up"), ("high", "bow_up")):
        first = entries[place].first
        assert first is not None and first.adjuster == "sailor-aft", "people first"


def test_the_grid_turns_a_reversed_rod_the_right_way_and_does_without_a_rod(fresh):
    turns = {}
    for name in ("marram", "marram-reversed", "pipkin"):
        it, state = standing(name, fresh)
        assert state is not None
        entries = grid(slopes_at_state(it, state.speed, state), it.adjusters, roles_of(it), it.settings)
        turns[name] = entries[("high", "level")].first
    marram, other, pipkin = turns["marram"], turns["marram-reversed"], turns["pipkin"]
    assert marram is not None and other is not None and pipkin is not None
    assert marram.adjuster == other.adjuster == "main-rod" and marram.steps == -other.steps
    assert pipkin.adjuster == "wand-length"


def test_no_place_of_the_grid_goes_beyond_the_range(fresh):
    it, state = standing("marram", fresh, sailor_aft=-3.0, rudder_rake=6.0)
    assert state is not None
    entries = grid(slopes_at_state(it, state.speed, state), it.adjusters, roles_of(it), it.settings)
    for entry in entries.values():
        for turn in (entry.first, entry.then):
            if turn is not None:
                [adjuster] = [a for a in it.adjusters if a.name == turn.adjuster]
                assert adjuster.least <= it.settings[turn.adjuster] + turn.steps <= adjuster.greatest
    assert entries[("right", "bow_up")] == (None, None, ()), (
        "nothing left that lowers the bow: no height instead"
    )
