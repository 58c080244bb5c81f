"""Steering: the demo boats inside their expected ranges, directions, what the turn asks of the sailor."""

from __future__ import annotations

from functools import cache
from math import degrees, isfinite, isinf, pi, radians

import numpy as np
import pytest

from foilwright.flight.at_speed import Steady, case_of, fly_at
from foilwright.flight.state import steady as straight_on
from foilwright.flight.state import still
from foilwright.flight.steering import Turn, bench_turn, course_stability, on_centreline, turn_of
from foilwright.water.properties import water_at
from tests.demo_boats import KN, changed, demo_boat, number

WATER = water_at()
NAMES = ("marram", "pipkin", "sedge")

# Turn a degree of rudder, degrees a second, with the hull in the water at 6 kn and flying at 12 kn. Wide
# enough for differences of method; the boats are invented.
RANGES = {
    "marram": ((0.9, 1.6), (1.6, 2.8)),
    "pipkin": ((1.0, 1.9), (1.9, 3.3)),
    "sedge": ((0.7, 1.3), (1.2, 2.3)),
}


@cache
def turns(name: str, speed_kn: float, heel: float = 0.0) -> tuple[tuple[Steady, Turn], ...]:
    boat = demo_boat(name)
    found = []
    for steady in fly_at(boat.row, boat.tables, WATER, speed_kn * KN, heel):
        case = case_of(boat.row, boat.tables, WATER, steady.speed, heel)
        found.append(
            (steady, bench_turn(case, steady.height, steady.trim, boat.numbers["mass.pitch_radius_m"]))
        )
    return tuple(found)


def turn(name: str, speed_kn: float) -> Turn:
    (found,) = (turn for steady, turn in turns(name, speed_kn) if steady.stable)
    return found


@pytest.mark.parametrize("name", NAMES)
def test_demo_boats_turn_as_expected(name):
    afloat, flying = RANGES[name]
    assert afloat[0] <= turn(name, 6.0).yaw_rate <= afloat[1]
    assert flying[0] <= turn(name, 12.0).yaw_rate <= flying[1]
    assert next(s.state for s, _ in turns(name, 12.0) if s.stable) == "flying"
    assert next(s.state for s, _ in turns(name, 6.0) if s.stable) != "flying"


@pytest.mark.parametrize("name", NAMES)
def test_the_turn_is_slower_than_that_of_two_wheels_and_not_by_half(name):
    """Two blades that did not slip would turn by U / (distance between them); they slip as they carry."""
    for speed_kn in (4.0, 6.0, 8.0, 12.0, 16.0, 20.0):
        wheels = speed_kn * KN / (number(demo_boat(name), "main.x") - number(demo_boat(name), "rudder.x"))
        for _, found in turns(name, speed_kn):
            assert 0.5 * wheels < found.yaw_rate < wheels


@pytest.mark.parametrize("name", NAMES)
def test_push_and_roll_grow_with_speed(name):
    """The side push about with speed squared; the roll is outwards, and the crew goes in for it."""
    found = [turn(name, speed) for speed in (4.0, 6.0, 12.0, 16.0, 20.0)]
    pushes = [one.side_acceleration for one in found]
    rolls = [-one.roll_moment for one in found]
    assert pushes == sorted(pushes) and rolls == sorted(rolls) and rolls[0] > 0.0
    for one, speed in zip(found, (4.0, 6.0, 12.0, 16.0, 20.0), strict=True):
        assert one.side_acceleration == pytest.approx(speed * KN * one.yaw_rate)
        assert one.crew_out < 0.0 < one.heel
    assert 1.5 < np.log(pushes[1] / pushes[0]) / np.log(6.0 / 4.0) < 2.1
    assert 1.3 < np.log(pushes[4] / pushes[2]) / np.log(20.0 / 12.0) < 2.1


@pytest.mark.parametrize("name", NAMES)
def test_the_roll_is_that_of_the_side_force_under_the_centre_of_gravity(name):
    """Mass x acceleration, at a depth between the keel line and the foils."""
    boat = demo_boat(name)
    mass = number(boat, "mass.mass") + number(boat, "crew.mass")
    centre = (number(boat, "mass.mass") * number(boat, "mass.z")
              + number(boat, "crew.mass") * number(boat, "crew.z")) / mass  # fmt: skip
    found = turn(name, 12.0)
    arm = -found.roll_moment / (mass * found.side_acceleration)
    assert centre - 0.1 < arm < centre - number(boat, "main.z")


@pytest.mark.parametrize("name", NAMES)
def test_where_nobody_moves_a_flying_boat_banks_as_a_bicycle_does(name):
    """tan(heel) = a/g: flying, the lift carries the turn and the struts nothing, within 3 %."""
    for speed_kn in (12.0, 16.0, 20.0):
        found = turn(name, speed_kn)
        banked = speed_kn * KN * found.yaw_rate_heeled / WATER.gravity
        assert found.heel == pytest.approx(banked, rel=0.03)
        assert found.yaw_rate_heeled > found.yaw_rate


@pytest.mark.parametrize("name", NAMES)
def test_it_holds_its_course_with_the_tiller_held(name):
    for speed_kn in (4.0, 8.0, 12.0, 20.0):
        for _, found in turns(name, speed_kn):
            assert found.holds_course and 0.02 < found.settling < 0.3


def test_a_rudder_ahead_of_the_weight_does_not_hold_its_course(marram):
    """The boat sailed backwards, as it were: weight far aft of both blades."""
    row = changed(marram, {"crew.x": -4.0, "mass.x": -4.0})
    steady = next(s for s in fly_at(marram.row, marram.tables, WATER, 12.0 * KN) if s.stable)
    case = case_of(row, marram.tables, WATER, steady.speed, 0.0)
    case = case._replace(boat=on_centreline(case.boat))
    found = turn_of(case, straight_on(case.speed, steady.height, steady.trim, 0.0), 0.9)
    assert not found.holds_course and isinf(found.settling)


def test_stability_of_a_textbook_pair(marram):
    """m U = 10, I = 2: sway and yaw damping alone, roots -0.5 and -2: the slowest takes 2 s."""
    case = case_of(marram.row, marram.tables, WATER, 1.0, 0.0)
    boat = case.boat._replace(
        mass=case.boat.mass._replace(mass=10.0, x=0.0),
        crew=case.boat.crew._replace(mass=1e-9, x=0.0, out=0.0),
    )
    slopes = np.zeros((6, 5))
    slopes[0, 2], slopes[3, 3] = -5.0, -4.0
    holds, seconds = course_stability(boat, 0.0, slopes, 1.0, 1.0, np.sqrt(0.2))
    assert holds
    assert seconds == pytest.approx(2.0)
    slopes[0, 2] = 5.0
    assert course_stability(boat, 0.0, slopes, 1.0, 1.0, np.sqrt(0.2))[0] is False


@pytest.mark.parametrize("name", NAMES)
def test_first_the_blade_pushes_back_then_the_turn_takes_it_off(name):
    """Before the turn, the strut's slope times the pressure; in the steady turn hardly anything is left."""
    boat = demo_boat(name)
    for speed_kn in (6.0, 12.0, 20.0):
        found = turn(name, speed_kn)
        pressure = 0.5 * WATER.density * (speed_kn * KN) ** 2
        most = 2.0 * pi * pressure * number(boat, "rudder.strut_chord") * -number(boat, "rudder.z")
        # Flying high, less than a sixth of the strut is left in the water to push.
        assert -most < found.blade_force_first < -0.12 * most
        assert abs(found.blade_force) < 0.15 * -found.blade_force_first


def test_heeled_to_windward_the_turn_is_still_whole():
    for steady, found in turns("marram", 12.0, radians(-10.0)):
        assert steady.stable and degrees(steady.heel) == pytest.approx(-10.0)
        assert all(isfinite(x) for x in found)
        assert 1.6 < found.yaw_rate < 2.8
        assert found.height != 0.0  # heeled, a turn moves the boat up or down


def test_a_state_under_sail_turns_much_the_same(marram):
    """Leeway, sail and crew out, 11 kn of wind abeam: the sail's own change with the turn comes in."""
    there, _ = turns("marram", 12.0)[0]
    case = case_of(marram.row, marram.tables, WATER, there.speed, 0.0, 0.0)
    case = case._replace(around=still()._replace(wind_y=11.0 * KN, roughness=2e-4))
    state = straight_on(there.speed, there.height, there.trim, 0.0)
    state = state._replace(leeway=0.01, rudder=-0.005, power=0.6, out_share=0.8)
    found = turn_of(case, state, 0.9)
    assert all(isfinite(x) for x in found) and found.holds_course
    assert found.yaw_rate == pytest.approx(turn("marram", 12.0).yaw_rate, rel=0.1)


def test_the_hull_in_the_water_counts_for_little(monkeypatch, marram):
    """Without the hull's own side force Marram at 6 kn turns within 10 % of it; flying, exactly the same."""
    from foilwright.flight import steering
    from foilwright.water.hull_side import HullSide

    before = {speed: turn("marram", speed).yaw_rate for speed in (6.0, 12.0)}
    monkeypatch.setattr(steering, "hull_side_force", lambda *_: HullSide(0.0, 0.0, 0.0))
    for speed_kn, share in ((6.0, 0.10), (12.0, 1e-12)):
        steady = next(s for s in fly_at(marram.row, marram.tables, WATER, speed_kn * KN) if s.stable)
        case = case_of(marram.row, marram.tables, WATER, steady.speed, 0.0)
        found = bench_turn(case, steady.height, steady.trim, 0.9)
        assert found.yaw_rate == pytest.approx(before[speed_kn], rel=share)
    assert found.yaw_rate == before[12.0]
