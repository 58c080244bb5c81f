"""Sailing in a wind: everything balances, the surplus is one smooth curve, and boats behave like boats."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from math import cos, hypot, radians

import numpy as np
import pytest

from foilwright import outcomes
from foilwright.compiled import plain
from foilwright.flight.helm_policy import held, usual_helm
from foilwright.flight.hump import hump_of
from foilwright.flight.loads import ITEMS, SAIL, loads
from foilwright.flight.many_in_wind import all_in_wind, scratch_in_wind
from foilwright.flight.sailing_in_wind import (
    NO_THRUST,
    InOneWind,
    best_made_good,
    sail_in,
    sailing_case,
)
from foilwright.flight.wind_balance import (
    heel_at,
    left_over,
    out_share,
    power_at,
    slopes_in_wind,
    state_of,
)
from foilwright.flight.wind_curve import cubic
from foilwright.flight.wind_margins import FLYING, STANDING
from foilwright.flight.wind_scan import BUT_SPEED, BUT_SURPLUS
from foilwright.flight.wind_settle import FRESH, settle
from foilwright.flight.wind_states import SURGE
from foilwright.water.properties import water_at
from tests.demo_boats import KN, NO_CHANGE, demo_boat

ROUGHNESS = 5e-4
WATER = water_at(15.0, 0.0)


@cache
def sailed(name: str, wind_kn: float, angle_deg: float) -> InOneWind:
    boat = demo_boat(name)
    return sail_in(
        boat.row, boat.tables, WATER, wind_kn * KN, radians(angle_deg), ROUGHNESS, None, curves=True
    )


FEW = [("marram", 12.0, 50.0), ("pipkin", 9.0, 90.0), ("sedge", 16.0, 110.0)]


@pytest.mark.parametrize(("name", "wind", "angle"), FEW)
def test_all_six_balances_hold_at_every_state(name, wind, angle):
    """Solved to far below 1e-6 of the weight, and of the weight times a metre, and thrust is drag."""
    boat = demo_boat(name)
    helm = usual_helm(wind * KN, radians(angle))
    case = sailing_case(boat.row, boat.tables, WATER, wind * KN, radians(angle), helm, ROUGHNESS)
    work = scratch_in_wind()
    states = sailed(name, wind, angle).states
    assert states and all(one.state for one in states)
    for one in states:
        # The reach again, from what people are told: out to 1, then the power.
        reach = one.out_share if one.power > 0.99 else 2.0 - one.power
        work.x[:] = (one.speed, one.height, one.trim, one.leeway, one.rudder, reach)
        everything = (0, 1, 2, 3, 4, 5)
        assert settle(case, plain(work), everything, everything, 1e-9, 20, FRESH) < 1e-9
        assert work.x[:5] == pytest.approx(
            (one.speed, one.height, one.trim, one.leeway, one.rudder), abs=1e-4
        )
        assert np.abs(work.r).max() < 1e-6
        thrust = one.thrust * one.speed
        drags = sum(one.drag_by_part.values()) * one.speed
        assert thrust == pytest.approx(drags, rel=1e-6), "thrust power is the sum of the drag powers"


def test_the_other_tack_is_the_mirror():
    """Wind from port, crew to port, heel, leeway and rudder the other way: every load is mirrored."""
    boat = demo_boat("marram")
    case = sailing_case(boat.row, boat.tables, WATER, 12 * KN, radians(70.0), held(radians(-8.0)), ROUGHNESS)
    starboard, port = np.zeros((len(ITEMS), 6)), np.zeros((len(ITEMS), 6))
    for height in (-0.1, 0.4):
        x = np.array([6.0, height, radians(1.0), radians(2.0), radians(-1.0), 0.8])
        state = state_of(case.helm, x)
        mirrored = state._replace(
            heel=-state.heel, leeway=-state.leeway, rudder=-state.rudder, out_share=-state.out_share
        )
        other = case.around._replace(wind_y=-case.around.wind_y)
        loads(case.boat, case.tables, case.water, case.around, state, 0.0, plain(starboard))
        loads(case.boat, case.tables, case.water, other, mirrored, 0.0, plain(port))
        assert port == pytest.approx(starboard * np.array([1, -1, 1, -1, 1, -1]), abs=1e-9)


@pytest.mark.parametrize(("name", "wind", "angle"), FEW)
def test_the_surplus_is_continuous_through_take_off(name, wind, angle):
    """Halfway between any two points next to each other the surplus, solved again, is between them."""
    boat = demo_boat(name)
    helm = usual_helm(wind * KN, radians(angle))
    case = sailing_case(boat.row, boat.tables, WATER, wind * KN, radians(angle), helm, ROUGHNESS)
    work = scratch_in_wind()
    curve = max(sailed(name, wind, angle).curves, key=len)
    assert {"lifting", "flying"} <= {point.state for point in curve}
    weight = (case.boat.mass.mass + case.boat.crew.mass) * WATER.gravity
    for before, after in pairwise(curve):
        if not (before.holds and after.holds) or after.speed - before.speed < 0.05:
            continue
        middle = 0.5 * (before.speed + after.speed)
        reach = [one.out_share if one.power > 0.99 else 2.0 - one.power for one in (before, after)]
        work.x[:] = (
            middle,
            0.5 * (before.height + after.height),
            0.5 * (before.trim + after.trim),
            0.5 * (before.leeway + after.leeway),
            0.5 * (before.rudder + after.rudder),
            0.5 * sum(reach),
        )
        assert settle(case, plain(work), BUT_SPEED, BUT_SURPLUS, 1e-8, 30, FRESH) < 1e-8
        off = work.r[0] - 0.5 * (before.surplus + after.surplus) / weight
        assert abs(off) < 0.006, "half a per cent of the weight off the straight line"


def test_the_reach_moves_the_crew_out_and_then_eases_the_sail():
    reaches = np.linspace(-0.4, 1.95, 60)
    outs = [out_share(float(q)) for q in reaches]
    powers = [power_at(float(q)) for q in reaches]
    assert (np.diff(outs) > 0.0).all()
    assert (np.diff(powers) < 0.0).all()
    assert out_share(0.5) == pytest.approx(0.5, abs=1e-3)
    assert (out_share(1.5), power_at(1.5)) == pytest.approx((1.0, 0.5), abs=2e-3)
    assert 0.0 < power_at(1.98) < 0.05


def test_heel_goes_over_as_the_hull_comes_out():
    helm = usual_helm(12 * KN, radians(50.0))
    assert heel_at(helm, -0.2) == 0.0
    assert heel_at(helm, 0.4) == pytest.approx(radians(-16.0))
    assert usual_helm(12 * KN, radians(90.0)).flying == pytest.approx(radians(-10.0))
    assert usual_helm(3.0, radians(90.0)).flying > radians(-5.0)
    assert usual_helm(12 * KN, radians(90.0), 0.0).flying == 0.0


def test_pushes_are_answered_where_a_state_is_stable():
    """More leeway gives more force to windward and more height less lift, at a stable flying state."""
    boat = demo_boat("marram")
    one = next(one for one in sailed("marram", 12.0, 50.0).states if one.state == "flying" and one.stable)
    helm = usual_helm(12 * KN, radians(50.0))
    case = sailing_case(boat.row, boat.tables, WATER, 12 * KN, radians(50.0), helm, ROUGHNESS)
    work = scratch_in_wind()
    work.x[:] = (one.speed, one.height, one.trim, one.leeway, one.rudder, 2.0 - one.power)
    scratch = plain(work)
    left_over(case, scratch.x, scratch.r, scratch.items)
    slopes_in_wind(case, scratch.x, scratch.r, scratch.slopes, scratch.there, 0, scratch.items)
    assert work.slopes[1, 3] < 0.0
    assert work.slopes[2, 1] < 0.0
    assert work.slopes[3, 5] < 0.0, "reach pushes to windward"


def test_too_close_to_the_wind_there_is_no_thrust():
    boat = demo_boat("marram")
    found = sail_in(boat.row, boat.tables, WATER, 10 * KN, radians(25.0), ROUGHNESS)
    (row,) = found.states
    assert (row.outcome, row.limit, row.state) == (outcomes.NO_BALANCE, NO_THRUST, "")
    assert row.margins and all(value is None for value in row.margins.values())


def test_what_is_told_of_a_state():
    states = sailed("marram", 12.0, 50.0).states
    assert [one.speed for one in states] == sorted(one.speed for one in states)
    flying = best_made_good(states, True)
    assert flying is not None
    assert flying.state == "flying"
    assert flying.made_good == pytest.approx(flying.speed * cos(radians(50.0)))
    assert flying.margins["hiking"] == pytest.approx(0.0, abs=0.03)
    assert (flying.margins["touchdown"] or 0.0) > 0.2
    assert flying.nearest in flying.margins
    assert flying.nearest != "hiking", "easing the sail is how it is sailed, not a limit"
    assert flying.heel == pytest.approx(radians(-16.0))
    assert best_made_good(states, False) is None


def test_the_sail_pulls_along_the_course_what_the_rest_holds_back():
    one = sailed("pipkin", 9.0, 90.0).states[0]
    assert set(one.drag_by_part) <= set(ITEMS[:SAIL])
    assert one.drag_by_part["main strut"] > 0.0
    assert hypot(one.thrust, one.drag) > 0.0
    assert cubic(1.0, 2.0, 1.0, 1.0, 0.5) == pytest.approx(1.5)


@pytest.mark.parametrize("name", ("marram", "sedge", "pipkin"))
def test_faster_on_a_reach_than_close_to_the_wind(name):
    def best(angle: float) -> float:
        return max(one.speed for one in sailed(name, 12.0, angle).states if one.stable)

    assert best(90.0) > best(50.0) + 1.0


def test_the_hump_is_told_by_its_parts():
    """Marram in 12 kn at 50 degrees just gets over it from rest; the main foil at high lift is most of it."""
    found = sailed("marram", 12.0, 50.0)
    hump = hump_of(max(found.curves, key=len))
    assert hump is not None
    assert hump.speed == pytest.approx(8.5 * KN, abs=1.0 * KN)
    assert hump.thrust - sum(hump.drag_by_part.values()) == pytest.approx(hump.surplus, abs=0.1)
    assert next(iter(hump.drag_by_part)) == "main foil"
    assert list(hump.change_by_part.values()) == sorted(hump.change_by_part.values(), reverse=True)
    assert found.way.flying == 1.0
    assert 0.0 < hump.surplus < 0.1 * hump.thrust
    assert found.way.hump_speed == pytest.approx(hump.speed, abs=0.05)


@pytest.mark.usefixtures("compiled_wind")
@pytest.mark.parametrize("name", ["marram", "sedge", "pipkin"])
@pytest.mark.parametrize("below", [1e-2, 1e-3, 1e-6])
def test_just_below_the_take_off_wind_states_take_turns(name, below):
    """Abeam: one in the water that holds its speed, one where the surplus rises, and the flying one."""
    boat = demo_boat(name)

    def states(wind):
        winds = np.array([(wind, radians(90.0), radians(-2.0), radians(-8.0))])
        found = all_in_wind(
            boat.row, boat.tables, WATER, ROUGHNESS, NO_CHANGE, np.zeros((1, 0)), winds, threads=1
        )
        return sorted(found.states[0, : found.counts[0]].tolist())

    low, high = 6.0 * KN, 14.0 * KN
    for _ in range(32):
        middle = 0.5 * (low + high)
        in_the_water = any(state[STANDING] < FLYING for state in states(middle))
        low, high = (middle, high) if in_the_water else (low, middle)
    assert [state[SURGE] < 0.0 for state in states(high * (1.0 - below))] == [True, False, True]


@pytest.mark.usefixtures("compiled_wind")
@pytest.mark.parametrize(("name", "angle"), [("marram", 130.0), ("pipkin", 90.0)])
def test_states_come_and_go_in_pairs(name, angle):
    """The surplus begins above nothing and ends below it, so its states are odd in number, in every wind:
    also beside the winds in which two of them fall together, which are sought out here.
    """
    boat = demo_boat(name)

    def counts(speeds):
        helms = [usual_helm(wind, radians(angle)) for wind in speeds]
        winds = np.array([(wind, radians(angle), *helm) for wind, helm in zip(speeds, helms, strict=True)])
        none = np.zeros((len(winds), 0))
        return all_in_wind(boat.row, boat.tables, WATER, ROUGHNESS, NO_CHANGE, none, winds).counts

    speeds = np.arange(3.5, 8.5, 0.05)
    found = counts(speeds)
    changing = np.flatnonzero(np.diff(found))
    assert len(changing) >= 2
    for i in changing:
        low, high = speeds[i], speeds[i + 1]
        for _ in range(20):
            middle = 0.5 * (low + high)
            [here] = counts([middle])
            assert here % 2 == 1, middle
            low, high = (middle, high) if here == found[i] else (low, middle)
    assert (found % 2 == 1).all()
