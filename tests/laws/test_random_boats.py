"""Random credible boats at every speed, nothing filtered: the search ends, and its answers hang together.

200 boats around each demo boat (flap from cranks, measured curve, reversed chain, two-person, whole foil) at
21 speeds, drawn from wide bounds. The directions of the trade on random boats are in test_directions.py.
"""

from __future__ import annotations

from math import radians
from typing import NamedTuple

import numpy as np
import pytest

from foilwright.flight.at_speed import TOUCHING_SHARE, is_flying
from foilwright.flight.look import RUDDER_LIFT, TOUCH
from foilwright.flight.many import all_states, looks_at, near_states
from foilwright.flight.trim_at_speed import SOLVED_TOLERANCE
from foilwright.measures import Floats, Ints
from foilwright.outcomes import GAVE_UP, NO_BALANCE, SOLVED
from foilwright.water.properties import water_at
from tests.demo_boats import BOATS, KN, demo_boat, number
from tests.random_boats import ALIKE, RandomBoats, at_speeds, random_boats

pytestmark = pytest.mark.usefixtures("compiled_physics")
WATER = water_at()
COUNT = 200
SPEEDS = np.linspace(3.0, 23.0, 21) * KN
RAKE = radians(0.5)


class Answers(NamedTuple):
    boats: RandomBoats
    changes: Floats
    speeds: Floats
    states: Floats
    counts: Ints
    outcomes: Ints


@pytest.fixture(scope="module")
def answers(compiled_physics) -> dict[str, Answers]:
    """All boats at all speeds."""
    return {name: answered(random_boats(demo_boat(name), COUNT, 100 + i)) for i, name in enumerate(BOATS)}


def answered(boats: RandomBoats) -> Answers:
    changes, speeds = at_speeds(boats, SPEEDS)
    solved = all_states(boats.base.row, boats.base.tables, WATER, boats.numbers, changes, speeds)
    return Answers(boats, changes, speeds, *solved)


def test_at_most_one_in_a_thousand_gives_up(answers):
    outcomes = np.concatenate([one.outcomes for one in answers.values()])
    assert len(outcomes) == len(BOATS) * COUNT * len(SPEEDS)
    assert (outcomes == GAVE_UP).sum() <= 0.001 * len(outcomes)
    assert np.isin(outcomes, (SOLVED, NO_BALANCE, GAVE_UP)).all()


def test_nearly_every_boat_has_a_state_at_every_speed(answers):
    """A credible boat floats, lifts or flies; less than 1 in 1,000 has no balance."""
    counts = np.concatenate([one.counts for one in answers.values()])
    assert (counts == 0).sum() <= 0.001 * len(counts)


def test_every_state_is_finite_settled_and_a_different_one(answers):
    for one in answers.values():
        assert np.isfinite(one.states).all()
        for states, count in zip(one.states, one.counts, strict=True):
            kept = states[:count]
            assert (kept[:, 3] < SOLVED_TOLERANCE).all()
            assert (np.diff(kept[:, 1]) > -1e-12).all(), "bow lowest first"
            for i in range(count - 1):
                assert np.abs(kept[i + 1, :2] - kept[i, :2]).max() > 1e-7


def test_states_come_in_odd_numbers_stable_and_unstable_by_turns(answers):
    """The moment begins bow up and ends bow down, so its changes of sign alternate and are odd in number:
    all but one in a thousand, which are folds where two states fall together.
    """
    odd = turns = several = cases = 0
    for one in answers.values():
        for states, count in zip(one.states, one.counts, strict=True):
            cases += 1
            odd += count % 2
            several += count > 1
            stable = states[:count, 2]
            turns += bool((stable == [1.0 - i % 2 for i in range(count)]).all())
    assert several > 0.01 * cases, "the draw holds boats with several states"
    assert odd >= 0.999 * cases
    assert turns >= 0.995 * cases


def flying_alone(one: Answers, places: Ints) -> list[int]:
    """Those cases with one state, stable and with the hull clear."""
    kept = []
    for i in places:
        if one.counts[i] == 1 and one.states[i, 0, 2] > 0.5:
            row = one.boats.row(int(i) // len(SPEEDS))
            if is_flying(row, one.boats.base.tables, 0.0, *map(float, one.states[i, 0, :2])):
                kept.append(int(i))
    return kept


@pytest.mark.parametrize("name", ["marram", "sedge", "pipkin"])
def test_half_a_degree_more_rake_leaves_the_rudder_foil_its_load(name, compiled_physics):
    """Within 3 % of the weight, wherever the boat goes on flying; the bow goes down and the boat with it.

    Among boats that differ as boats of one kind do. Of 52,072 such pairs of boat and speed (six draws of 200
    boats) one was over it, by 0.03 %: a flap boat whose rudder foil passes through the main foil's wake on
    the way, where downwash changes fastest.
    """
    one = answered(random_boats(demo_boat(name), COUNT // 2, 102, ALIKE))
    pairs = raked_pairs(one)
    assert len(pairs) > 1000
    for pair in pairs:
        assert abs(pair.change) < 0.03, pair
        assert pair.sinks and pair.bows, pair


def test_half_a_degree_more_rake_on_whole_foils_of_wide_bounds(answers):
    """The same within 3 % where the wand is on the water, and the directions everywhere.

    Above its wand's reach a boat is held by the surface alone, its main foil about to breach, and one that
    half a degree brings back down onto its wand falls 0.2 m at once: 0.4 % of the Pipkins of these bounds, by
    up to 9 % of the weight. On the wand 4 of 16,660 Pipkins lose 3.1 to 3.3 %, with the bow two degrees down
    at 22 kn and more.
    """
    pairs = raked_pairs(answers["pipkin"])
    assert len(pairs) > 200
    for pair in pairs:
        assert abs(pair.change) < 0.03 or not pair.on_its_wand, pair
        assert pair.sinks and pair.bows, pair
    assert sum(not pair.on_its_wand for pair in pairs) < 0.02 * len(pairs)


class Raked(NamedTuple):
    boat: int
    speed_kn: float
    change: float  # of the rudder foil's lift, as a share of the weight
    on_its_wand: bool
    sinks: bool
    bows: bool


def raked_pairs(one: Answers) -> list[Raked]:
    """What half a degree more rake does to every boat that flies, alone of its states, and goes on flying."""
    base = one.boats.base
    chosen = np.array(flying_alone(one, np.arange(len(one.speeds))), dtype=np.int64)
    numbers = np.append(one.boats.numbers, base.names.index("rudder.incidence"))
    raked = np.c_[one.changes[chosen], np.full(len(chosen), RAKE)]
    everything = (base.row, base.tables, WATER, numbers, raked, one.speeds[chosen])
    at_first = np.ascontiguousarray(one.states[chosen, 0, :2])
    near, outcomes = near_states(*everything, at_first)
    _, counts, _ = all_states(*everything)
    as_drawn = (base.row, base.tables, WATER, one.boats.numbers, one.changes[chosen], one.speeds[chosen])
    looks, raked_looks = looks_at(*as_drawn, at_first), looks_at(*everything, near[:, :2])
    pairs = []
    for k, i in enumerate(chosen):
        row = one.boats.row(int(i) // len(SPEEDS))
        after = row.copy()
        after[base.names.index("rudder.incidence")] += RAKE
        height, trim = (float(x) for x in near[k, :2])
        if outcomes[k] != SOLVED or counts[k] != 1 or not is_flying(after, base.tables, 0.0, height, trim):
            continue  # it comes down: no longer a flying state
        was = one.states[i, 0, :2]
        speed = float(one.speeds[i])
        weight = (row[base.names.index("mass.mass")] + row[base.names.index("crew.mass")]) * WATER.gravity
        pairs.append(
            Raked(
                int(i) // len(SPEEDS),
                speed / KN,
                float(raked_looks[k, RUDDER_LIFT] - looks[k, RUDDER_LIFT]) / weight,
                bool(looks[k, TOUCH] >= TOUCHING_SHARE),
                bool(height < was[0]),
                bool(trim < was[1]),
            )
        )
    assert len(pairs) > 0.9 * len(chosen)
    return pairs


def test_boats_are_drawn_within_their_bounds_and_the_same_every_time():
    boat = demo_boat("marram")
    boats, again = random_boats(boat, 50, 3), random_boats(boat, 50, 3)
    assert np.array_equal(boats.changes, again.changes)
    rows = np.array([boats.row(i) for i in range(50)])
    area = rows[:, boat.names.index("main.area")] / number(boat, "main.area")
    assert 0.85 <= area.min() < 0.9 and 1.1 < area.max() <= 1.15
    rake = rows[:, boat.names.index("rudder.incidence")] - number(boat, "rudder.incidence")
    assert np.abs(rake).max() <= radians(1.0)
    assert len(boats.numbers) > 60
