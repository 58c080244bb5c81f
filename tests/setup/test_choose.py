"""Choice: the same as trying everything, people before parts, no learner raised, nothing for nothing."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from math import radians

import numpy as np
import pytest

from foilwright.flight.at_speed import fly_at
from foilwright.setup.adjusters import Adjuster
from foilwright.setup.choose import CHANGED, INSIDE, KNOWN, NO_FLIGHT, choose, roles_of
from foilwright.setup.goals import BANDS, Goal, goal_for, wanted_at
from foilwright.setup.judge import change_cost, raises
from foilwright.setup.order import ORDER
from foilwright.setup.score import whole_steps
from foilwright.setup.search import Search, judge_in_full
from foilwright.setup.standing import Standing, flown
from tests.demo_boats import KN, demo_boat

SPEEDS = [speed * KN for speed in (11.0, 14.0, 17.0)]
TAKE_OFF = 8.6 * KN


def standing(name: str, water, **settings: float) -> Standing:
    boat = demo_boat(name)
    at = {**boat.present, **{key.replace("_", "-"): steps for key, steps in settings.items()}}
    return Standing(boat.row, boat.tables, water, boat.adjusters, at)


def shortened(it: Standing, ranges: dict[str, tuple[int, int]]) -> Standing:
    """The boat with fewer adjusters, and fewer steps of them."""
    kept = []
    for adjuster in it.adjusters:
        if adjuster.name in ranges:
            low, high = ranges[adjuster.name]
            inside = (adjuster.steps >= low) & (adjuster.steps <= high)
            kept.append(replace(adjuster, steps=adjuster.steps[inside], amounts=adjuster.amounts[inside]))
    settings = {name: it.settings[name] for name in ranges}
    return it._replace(adjusters=tuple(kept), settings=settings)


def everything(it: Standing, goal: Goal) -> tuple[dict[str, float], float]:
    """The best setting by solving every one from nothing, compiled: the settings and their total."""
    choice = choose(it, goal, SPEEDS, TAKE_OFF, states=flown(it, SPEEDS, True))
    assert choice.present is not None
    flew = tuple(height > 0.05 for height in choice.present.heights)
    search = Search(it, goal, choice.speeds, choice.bands, roles_of(it), choice.present, flew, True)
    best = (dict(it.settings), choice.present.total)
    for steps in product(*(whole_steps(adjuster) for adjuster in it.adjusters)):
        settings = dict(zip([adjuster.name for adjuster in it.adjusters], steps, strict=True))
        one = judge_in_full(search, settings)
        if one is not None and not one.raises and one.total < best[1]:
            best = (settings, one.total)
    return best


SMALL: tuple[tuple[str, str, dict[str, tuple[int, int]]], ...] = (
    ("marram", "improving", {"main-rod": (-4, 1), "rudder-rake": (-2, 2)}),
    ("marram", "expert", {"main-rod": (0, 5), "sailor-aft": (-2, 2)}),
    ("marram-reversed", "improving", {"main-rod": (-1, 4), "sailor-aft": (-2, 2)}),
    ("pipkin", "improving", {"wand-length": (-4, 1), "sailor-aft": (-3, 3)}),
    ("sedge", "improving", {"main-rod": (-3, 0), "gearing": (-1, 3), "wand-length": (-1, 0)}),
)


@pytest.mark.usefixtures("compiled_physics")
@pytest.mark.parametrize(("name", "stage", "ranges"), SMALL)
def test_the_same_as_trying_everything(name, stage, ranges, fresh):
    it = shortened(standing(name, fresh), ranges)
    goal = goal_for(stage, demo_boat(name).form)
    choice = choose(it, goal, SPEEDS, TAKE_OFF)
    settings, total = everything(it, goal)
    assert choice.why == CHANGED and choice.proved and choice.chosen is not None
    assert dict(choice.settings) == settings
    assert choice.chosen.total == pytest.approx(total, abs=1e-6)


def test_right_height_and_bow_2_degrees_up_moves_the_sailor_or_the_rake_first(fresh):
    it = standing("marram", fresh)
    speed = 12.0 * KN
    [state] = flown(it, [speed], False)
    assert state is not None
    goal = Goal(
        "settled", state.height - 0.05, state.height + 0.05,
        state.trim - radians(2.3), state.trim - radians(1.7), {}, True,
    )  # fmt: skip
    choice = choose(it, goal, [speed], None)
    assert choice.why == CHANGED
    roles = [move.role for move in choice.moves]
    assert roles[0] in ("place", "bow")
    assert choice.moves[0].steps < 0.0 if roles[0] == "place" else choice.moves[0].steps > 0.0
    assert choice.chosen is not None and choice.chosen.miss < 1.0
    low, high = goal.low - 0.02, goal.high + 0.02
    assert low < choice.chosen.heights[0] < high
    only_height = choose(it, goal, [speed], None, movable=["main-rod", "wand-length"])
    assert only_height.why != CHANGED, "neither rod nor wand can lower the bow"


@pytest.mark.parametrize("name", ["marram", "marram-reversed", "sedge", "pipkin"])
@pytest.mark.parametrize("stage", ["first-hops", "improving", "settled"])
def test_no_learner_is_raised_above_the_band_by_any_change_on_the_way(name, stage, fresh):
    boat = demo_boat(name)
    lowest = {"main_rod": -2.0} if name in ("marram", "sedge") else {"wand_length": -2.0}
    for settings in ({}, lowest):
        it = standing(name, fresh, **settings)
        choice = choose(it, goal_for(stage, boat.form), SPEEDS, TAKE_OFF)
        assert choice.present is not None and choice.chosen is not None
        before = np.array(choice.present.heights)
        at = before.copy()
        for move in choice.moves:
            at = at + np.array(move.heights)
            assert not raises(choice.bands, at, before + 1e-9), (move.adjuster, at)
        assert not raises(choice.bands, np.array(choice.chosen.heights), before)


def test_undoing_the_changes_restores_the_prediction_exactly(fresh):
    it = standing("marram", fresh, wand_length=1.0)
    before = [fly_at(it.present_row, it.tables, fresh, speed) for speed in SPEEDS]
    choice = choose(it, goal_for("improving", "narrow"), SPEEDS, TAKE_OFF)
    assert choice.moves
    settings = dict(choice.settings)
    for move in reversed(choice.moves):
        settings[move.adjuster] -= move.steps
    back = it._replace(settings=settings)
    assert settings == dict(it.settings)
    assert [fly_at(back.present_row, it.tables, fresh, speed) for speed in SPEEDS] == before


def test_nothing_is_changed_where_all_is_inside_or_inside_what_is_known(fresh):
    it = standing("sedge", fresh)
    choice = choose(it, goal_for("settled", "two-person"), SPEEDS, 9.8 * KN)
    assert choice.why == INSIDE and not choice.moves and dict(choice.settings) == dict(it.settings)
    boat, it = demo_boat("marram"), standing("marram", fresh)
    goal = goal_for("settled", "narrow")
    known, sure = (choose(it, goal, SPEEDS, TAKE_OFF, bands) for bands in (boat.bands, {}))
    assert known.present is not None and known.present.miss > 0.0  # bow down, by less than the boat is known
    assert known.why == KNOWN and not known.moves and sure.why != KNOWN


def test_doubt_never_excuses_a_learner_above_the_band(fresh):
    it = standing("marram", fresh)
    loose = {name: 3.0 * band for name, band in demo_boat("marram").bands.items()}
    choice = choose(it, goal_for("improving", "narrow"), SPEEDS, TAKE_OFF, loose)
    assert choice.why == CHANGED


def test_one_change_rather_than_two_and_each_worth_its_cost(fresh):
    choice = choose(standing("sedge", fresh), goal_for("expert", "two-person"), SPEEDS, 9.8 * KN)
    assert choice.chosen is not None and choice.chosen.miss == 0.0 and len(choice.moves) == 1
    assert all(other.total >= choice.chosen.total for other in choice.runners_up)
    assert {frozenset(other.changes) for other in choice.runners_up}.isdisjoint(
        {frozenset(choice.chosen.changes)}
    )


def test_people_cost_less_than_parts():
    costs = [change_cost(role, 1.0) for role in ORDER]
    assert costs == sorted(costs) and ORDER[0] == "place"


def test_a_boat_without_a_state_gets_no_choice(fresh):
    it = standing("marram", fresh)
    choice = choose(it, goal_for("improving", "narrow"), SPEEDS, None, states=[None, None, None])
    assert choice.why == NO_FLIGHT and choice.outcome != 0 and dict(choice.settings) == dict(it.settings)


def test_an_adjuster_that_stands_between_steps_may_stay_there(fresh):
    it = standing("marram", fresh, main_rod=0.5)
    choice = choose(it, goal_for("improving", "narrow"), SPEEDS, TAKE_OFF)
    for name, steps in choice.settings.items():
        assert steps == it.settings[name] or steps == round(steps)


def test_compiled_and_plain_choose_the_same(compiled_physics, fresh):
    for name in ("marram", "pipkin"):
        it = standing(name, fresh)
        goal = goal_for("improving", demo_boat(name).form)
        plain, fast = (choose(it, goal, SPEEDS, TAKE_OFF, fast=way) for way in (False, True))
        assert plain.settings == fast.settings and plain.solved == fast.solved


@pytest.mark.parametrize("form", ["narrow", "wide", "two-person"])
def test_bands_rise_with_the_stage_and_waves_never_lift_them_out(form):
    stages = list(BANDS["adult"])
    goals = [goal_for(stage, form) for stage in stages]
    assert [goal.low for goal in goals] == sorted(goal.low for goal in goals)
    assert [goal.high for goal in goals] == sorted(goal.high for goal in goals)
    for stage, calm in zip(stages, goals, strict=True):
        rough = goal_for(stage, form, wave_height=0.6)
        assert calm.low <= rough.low <= rough.high == calm.high
        assert rough.keep["tip_depth"] > 0.4499 > calm.keep["tip_depth"]
        assert calm.keep["tip_depth"] >= 0.15


def test_slow_flight_has_its_own_bands():
    goal = goal_for("settled", "narrow")
    just_off, climbed = wanted_at(goal, [4.0, 8.0], 4.0)
    assert just_off.low == 0.0 and climbed.low == goal.low and just_off.high == climbed.high == goal.high
    assert just_off.bow_high == pytest.approx(radians(4.0)) and climbed.bow_high == goal.bow_high
    [unknown] = wanted_at(goal, [4.0], None)
    assert unknown.low == goal.low


def test_roles_follow_what_an_adjuster_changes(fresh):
    assert roles_of(standing("marram", fresh)) == {
        "main-rod": "height", "wand-length": "height", "gearing": "spread", "rudder-rake": "bow",
        "wand-tension": "tension", "sailor-aft": "place",
    }  # fmt: skip
    assert roles_of(standing("marram-curve", fresh))["main-rod"] == "height"
    boat = demo_boat("marram")
    shim = Adjuster(
        "shim", (boat.names.index("main.incidence"),), np.array([0.0, 1.0]), np.array([[0.0], [0.01]])
    )
    assert roles_of(standing("marram", fresh)._replace(adjusters=(shim,))) == {"shim": "ashore"}
