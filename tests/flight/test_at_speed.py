"""Steady flight at a boat speed: the demo boats inside their expected ranges, one chain told in two ways,
directions, every steady state found.
"""

from __future__ import annotations

from functools import cache
from math import degrees, isfinite, radians

import numpy as np
import pytest

from foilwright.compiled import plain
from foilwright.flight.at_speed import (
    Steady,
    case_of,
    fly_at,
    is_flying,
    nearby,
    scratch,
    state_name,
    take_off_speed,
)
from foilwright.flight.many import all_states
from foilwright.flight.trim_at_speed import SOLVED_TOLERANCE, balance
from foilwright.outcomes import GAVE_UP, NAMES, NO_BALANCE, OUTSIDE_VALIDITY, SOLVED
from foilwright.setup.adjusters import turned
from foilwright.water.properties import water_at
from tests.demo_boats import BOATS, KN, changed, demo_boat, flying, number
from tests.random_boats import at_speeds, random_boats
from tests.states_by_grid import against_the_grid

WATER = water_at()

# Expected on the bench, fresh water at 15 degrees, adjusters at their marks. Ranges wide enough for
# differences of method; the boats are invented, so these guard against a mistake and prove nothing about the
# world.
NARROW = {
    "take-off, lightest": (7.0, 8.3),
    "take-off, usual": (7.4, 8.8),
    "take-off, heaviest": (7.8, 9.3),
    "height at 10": (0.25, 0.45),
    "height at 14": (0.42, 0.60),
    "height at 18": (0.48, 0.65),
    "trim at take-off": (2.0, 4.5),
    "trim at 14": (-0.5, 1.0),
    "trim at 20": (-2.0, -0.3),
    "drag at 12": (95.0, 130.0),
    "drag at 14": (110.0, 150.0),
    "wand at 14": (36.0, 46.0),
}
LONG = {
    "take-off, lightest": (8.4, 9.9),
    "take-off, usual": (8.6, 10.2),
    "take-off, heaviest": (8.9, 10.5),
    "height at 10": (0.10, 0.35),
    "height at 14": (0.42, 0.60),
    "height at 18": (0.50, 0.68),
    "trim at take-off": (2.0, 4.5),
    "trim at 14": (0.3, 1.9),
    "trim at 20": (-1.5, 0.3),
    "drag at 12": (155.0, 210.0),
    "drag at 14": (170.0, 230.0),
    "wand at 14": (38.0, 48.0),
}
WIDE = {
    "take-off, lightest": (6.3, 7.6),
    "take-off, usual": (6.8, 8.1),
    "take-off, heaviest": (7.2, 8.6),
    "height at 10": (0.30, 0.50),
    "height at 14": (0.44, 0.62),
    "height at 18": (0.48, 0.66),
    "trim at take-off": (2.0, 4.5),
    "trim at 14": (-0.6, 1.0),
    "trim at 20": (-1.7, 0.0),
    "drag at 12": (80.0, 112.0),
    "drag at 14": (97.0, 135.0),
    "wand at 14": (26.0, 36.0),
}
RANGES = {"marram": NARROW, "marram-curve": NARROW, "marram-reversed": NARROW, "sedge": LONG, "pipkin": WIDE}


@cache
def state(name: str, speed_kn: float) -> Steady:
    boat = demo_boat(name)
    return flying(boat, boat.row, WATER, speed_kn)


@cache
def take_off(name: str, who: str) -> float:
    """Slowest boat speed that flies [kn]."""
    boat = demo_boat(name)
    mass = getattr(boat.file.crew, f"{who}_mass_kg")
    row = changed(boat, {"crew.mass": mass - number(boat, "crew.mass")})
    speed = take_off_speed(row, boat.tables, WATER)
    assert speed is not None
    return speed / KN


def found(name: str, what: str) -> float:
    """A quantity of the table above."""
    if what == "trim at take-off":
        boat = demo_boat(name)
        return degrees(flying(boat, boat.row, WATER, take_off(name, "usual") + 0.05).trim)
    quantity, _, rest = what.partition(" at ")
    if not rest:
        who = {"lightest": "least", "usual": "usual", "heaviest": "greatest"}
        return take_off(name, who[what.split(", ")[1]])
    there = state(name, float(rest))
    return {
        "height": there.height,
        "trim": degrees(there.trim),
        "drag": there.drag,
        "wand": degrees(there.wand),
    }[quantity]


@pytest.mark.parametrize(("name", "what"), [(name, what) for name in RANGES for what in RANGES[name]])
def test_demo_boats_on_the_bench(name, what):
    low, high = RANGES[name][what]
    assert low <= found(name, what) <= high


@pytest.mark.parametrize("name", BOATS)
def test_states_are_whole_and_sane_at_every_speed(name):
    """Ride height rises with speed once the boat flies, and the bow comes down; everything is a number."""
    boat = demo_boat(name)
    heights = []
    for speed_kn in np.arange(2.0, 22.0, 1.0):
        for there in fly_at(boat.row, boat.tables, WATER, float(speed_kn) * KN):
            if there.outcome != SOLVED:  # below the Reynolds numbers of the section data
                assert speed_kn < 4.0, (speed_kn, NAMES[there.outcome], there.limit)
                assert (there.outcome, there.limit[:12]) == (OUTSIDE_VALIDITY, "section data")
            assert -0.5 < there.height < 1.0
            assert abs(degrees(there.trim)) < 8.0
            assert all(isfinite(x) for load in there.loads.values() for x in load)
            assert all(margin is None or isfinite(margin) for margin in there.margins.values())
            assert there.drag > 0.0
            assert sum(there.drag_by_part.values()) == pytest.approx(there.drag)
            if there.state == "flying" and there.stable:
                heights.append(there.height)
    assert heights == sorted(heights)
    assert len(heights) >= 10
    drags = [state(name, speed).drag for speed in (12.0, 14.0, 16.0, 18.0, 20.0)]
    assert drags == sorted(drags)


def test_slow_boats_float_and_fast_boats_fly(marram):
    (slow,) = fly_at(marram.row, marram.tables, WATER, 2.0 * KN)
    assert slow.state == "floating"
    assert slow.buoyancy > 0.95 * 115.0 * WATER.gravity
    assert slow.margins["touchdown"] is None
    (lifting,) = fly_at(marram.row, marram.tables, WATER, 7.0 * KN)
    assert lifting.state == "lifting"
    fast = state("marram", 14.0)
    assert fast.buoyancy == 0.0
    assert fast.margins["touchdown"] is not None and fast.margins["touchdown"] > 0.2
    assert fast.main_lift + fast.rudder_lift == pytest.approx(115.0 * WATER.gravity, rel=0.02)
    assert [state_name(0.96, -0.1), state_name(0.5, -0.01), state_name(0.0, 0.01)] == [
        "floating",
        "lifting",
        "flying",
    ]


# one chain, told in two ways, and turned the other way round


@pytest.mark.parametrize(
    "settings",
    [
        {},
        {"main-rod": -3.0},
        {"main-rod": 3.0},
        {"main-rod": 1.5, "wand-length": 2.0},
        {"wand-length": -2.0, "rudder-rake": 3.0},
        {"sailor-aft": 2.0, "wand-tension": 3.0},
    ],
)
def test_cranked_and_curve_given_boat_fly_the_same(settings):
    """Within 5 mm and 0.05 degrees, in every state from 8 to 20 knots."""
    cranked, curve = demo_boat("marram"), demo_boat("marram-curve")
    rows = [turned(boat.row, boat.adjusters, settings) for boat in (cranked, curve)]
    for speed_kn in np.arange(8.0, 20.1, 1.0):
        one, other = (
            fly_at(row, boat.tables, WATER, speed_kn * KN)
            for row, boat in zip(rows, (cranked, curve), strict=True)
        )
        assert len(one) == len(other)
        for a, b in zip(one, other, strict=True):
            assert abs(a.height - b.height) < 0.005
            assert degrees(abs(a.trim - b.trim)) < 0.05
            assert (a.state, a.stable, a.outcome) == (b.state, b.stable, b.outcome)


@pytest.mark.parametrize("speed_kn", [9.5, 10.0, 12.0, 14.0, 17.0, 20.0])
def test_reversed_chain_turns_its_rod_round_and_flies_the_same_otherwise(speed_kn):
    """Within 40 mm of Marram at the mark; a longer rod lowers it, a shorter one raises it."""
    boat = demo_boat("marram-reversed")
    at_mark = state("marram-reversed", speed_kn).height
    assert abs(at_mark - state("marram", speed_kn).height) < 0.040
    for turns in (1.0, -1.0):
        row = turned(boat.row, boat.adjusters, {"main-rod": turns})
        reversed_moves = flying(boat, row, WATER, speed_kn).height - at_mark
        forth = demo_boat("marram")
        row = turned(forth.row, forth.adjusters, {"main-rod": turns})
        moves = flying(forth, row, WATER, speed_kn).height - state("marram", speed_kn).height
        assert reversed_moves * turns < -0.008
        assert moves * turns > 0.008


# directions

HIGHER = {
    "more foil angle at the same wand angle": {"chain.foil_at_drawing": radians(0.5)},
    "a longer wand": {"wand.length": 0.030},
    "less rudder-foil incidence": {"rudder.incidence": radians(-0.5)},
    "the sailor 100 mm aft": {"crew.x": -0.1},
}


@pytest.mark.parametrize("name", ["marram", "sedge", "pipkin"])
@pytest.mark.parametrize("what", HIGHER)
def test_what_makes_it_fly_higher(name, what):
    boat = demo_boat(name)
    for speed_kn in (11.0, 14.0, 18.0):
        up = flying(boat, changed(boat, HIGHER[what]), WATER, speed_kn)
        down = flying(boat, changed(boat, {k: -v for k, v in HIGHER[what].items()}), WATER, speed_kn)
        at_mark = state(name, speed_kn)
        assert up.height > at_mark.height > down.height
        if "incidence" in what or "sailor" in what:
            assert up.trim > at_mark.trim > down.trim


@pytest.mark.parametrize("name", ["marram", "sedge", "pipkin"])
def test_heavier_crews_take_off_later(name):
    speeds = [take_off(name, who) for who in ("least", "usual", "greatest")]
    assert speeds[0] + 0.1 < speeds[1] < speeds[2] - 0.1


@pytest.mark.parametrize("name", ["marram", "sedge", "pipkin"])
def test_half_a_degree_more_rake_leaves_the_rudder_foil_its_load(name):
    """In steady flight the shares follow from where weight and pull are: within 3 % of the weight."""
    boat = demo_boat(name)
    weight = (number(boat, "mass.mass") + number(boat, "crew.mass")) * WATER.gravity
    for speed_kn in (11.0, 12.0, 14.0, 17.0, 20.0):
        raked = flying(boat, changed(boat, {"rudder.incidence": radians(0.5)}), WATER, speed_kn)
        assert abs(raked.rudder_lift - state(name, speed_kn).rudder_lift) < 0.03 * weight


# solving


@pytest.mark.parametrize("name", BOATS)
def test_every_state_is_balanced_and_its_stability_is_that_of_the_stiffness(name):
    """Miss below 1e-9 of the weight; stable where lift falls with height and the determinant of the central
    differences is positive."""
    boat = demo_boat(name)
    step = 1e-5
    for row in (boat.row, random_boats(boat, 1, 21).row(0)):
        for speed_kn in (4.0, 7.0, 8.0, 8.64, 9.0, 11.0, 15.0, 20.0):
            case = case_of(row, boat.tables, WATER, speed_kn * KN, 0.0)
            items = plain(scratch().items)
            for there in fly_at(row, boat.tables, WATER, speed_kn * KN):
                lift, pitch = balance(case, there.height, there.trim, items)
                assert max(abs(lift), abs(pitch)) < 1e-9
                columns = [
                    np.subtract(
                        balance(case, there.height + up * step, there.trim + bow * step, items),
                        balance(case, there.height - up * step, there.trim - bow * step, items),
                    )
                    / (2.0 * step)
                    for up, bow in ((1.0, 0.0), (0.0, 1.0))
                ]
                stiffness = np.array(columns).T
                stable = stiffness[0, 0] < 0.0 and np.linalg.det(stiffness) > 0.0
                assert there.stable == stable


@pytest.mark.slow
@pytest.mark.usefixtures("compiled_physics")
@pytest.mark.parametrize("name", BOATS)
def test_no_state_is_missed(name):
    """Every state that is found on a grid of 12.5 mm and 0.125 degrees is found by the search: 20 boats of
    50, those with several states among them. The same on 200 boats: `studies/every_state`.
    """
    met = against_the_grid(name, 50, 79, looked_at=20)
    assert met.missed == []
    assert met.gave_up == 0
    assert met.several >= 1, "the seed draws no boat with several states"


@pytest.mark.parametrize("speed_kn", [7.61, 7.64, 7.67])
def test_pipkin_can_stand_in_two_ways_near_take_off(pipkin, speed_kn):
    """Hull just touching, or clear and bow up, with an unstable state between: it jumps clear."""
    touching, between, clear = fly_at(pipkin.row, pipkin.tables, WATER, speed_kn * KN)
    assert (touching.stable, between.stable, clear.stable) == (True, False, True)
    assert touching.state == "lifting"
    assert clear.state == "flying"
    assert touching.height < between.height < clear.height
    assert touching.trim < between.trim < clear.trim


def test_no_balance_says_so(marram):
    """A boat that no foil can carry, with its hull made of lead: no state, and no traceback."""
    heavy = changed(marram, {"mass.mass": 2000.0})
    (nothing,) = fly_at(heavy, marram.tables, WATER, 10.0 * KN)
    assert nothing.outcome == NO_BALANCE
    assert not nothing.stable and nothing.margins["stall"] is None


@pytest.mark.usefixtures("compiled_physics")
def test_nothing_gives_up_over_all_settings_of_the_demo_boats(boats):
    """Random settings over their whole ranges, 3 to 22 knots."""
    rng = np.random.default_rng(6)
    for boat in boats.values():
        changes = np.array(
            [
                turned(
                    boat.row,
                    boat.adjusters,
                    {one.name: float(rng.uniform(one.least, one.greatest)) for one in boat.adjusters},
                )
                - boat.row
                for _ in range(60)
            ]
        )
        numbers = np.flatnonzero(np.abs(changes).max(axis=0) > 0.0)
        speeds = rng.uniform(3.0, 22.0, len(changes)) * KN
        states, counts, outcomes = all_states(
            boat.row, boat.tables, WATER, numbers, np.ascontiguousarray(changes[:, numbers]), speeds
        )
        assert (outcomes != GAVE_UP).all()
        assert np.isfinite(states).all()
        assert (counts >= 1).all()
        for kept, count in zip(states, counts, strict=True):
            assert (kept[:count, 3] < SOLVED_TOLERANCE).all()


def test_nearby_follows_a_state_and_says_when_it_cannot(marram):
    there = state("marram", 12.0)
    moved = nearby(marram.row, marram.tables, WATER, 12.3 * KN, 0.0, there.height, there.trim)
    again = flying(marram, marram.row, WATER, 12.3)
    assert moved is not None
    assert moved[:2] == pytest.approx((again.height, again.trim), abs=1e-8)
    assert moved[2]
    heavy = changed(marram, {"mass.mass": 2000.0})
    assert nearby(heavy, marram.tables, WATER, 12.0 * KN, 0.0, there.height, there.trim) is None


def test_take_off_speed_is_where_the_flying_states_begin(marram):
    speed = take_off_speed(marram.row, marram.tables, WATER)
    assert speed is not None
    above = [s for s in fly_at(marram.row, marram.tables, WATER, speed + 0.01) if s.stable]
    below = [s for s in fly_at(marram.row, marram.tables, WATER, speed - 0.01) if s.stable]
    assert any(s.state == "flying" for s in above)
    assert all(s.state != "flying" for s in below)
    known = [s for kn in (6.0, 10.0, 14.0) for s in fly_at(marram.row, marram.tables, WATER, kn * KN)]
    assert take_off_speed(marram.row, marram.tables, WATER, 0.0, known) == pytest.approx(speed, abs=0.005)
    there = state("marram", 10.0)
    assert is_flying(marram.row, marram.tables, 0.0, there.height, there.trim)
    assert not is_flying(marram.row, marram.tables, 0.0, -0.05, 0.0)


def test_heeled_to_windward_it_flies_a_little_lower(marram):
    """Ten degrees: a tip nearer the surface, the weight shared with leaning lift."""
    upright = state("marram", 14.0)
    (heeled,) = fly_at(marram.row, marram.tables, WATER, 14.0 * KN, radians(-10.0))
    assert 0.0 < upright.height - heeled.height < 0.06
    assert heeled.margins["tip_depth"] is not None and upright.margins["tip_depth"] is not None
    assert heeled.margins["tip_depth"] < upright.margins["tip_depth"] - 0.05


@pytest.mark.usefixtures("compiled_physics")
def test_speeds_next_to_each_other_have_states_next_to_each_other(marram):
    """From 10 knots up one state, moving smoothly: no jump of more than 5 mm in a tenth of a knot."""
    boats = random_boats(marram, 1, 0)
    speeds = np.arange(10.0, 20.0, 0.1) * KN
    changes, at = at_speeds(boats._replace(changes=np.zeros_like(boats.changes)), speeds)
    states, counts, _ = all_states(marram.row, marram.tables, WATER, boats.numbers, changes, at)
    assert (counts == 1).all()
    assert np.abs(np.diff(states[:, 0, 0])).max() < 0.02
    assert np.abs(np.diff(states[20:, 0, 0])).max() < 0.005
