"""Laws of the turn: the mirror, and the derivative against a turn solved anew in full."""

from __future__ import annotations

from math import radians

import numpy as np
import pytest
from scipy.optimize import root

from foilwright.compiled import plain
from foilwright.flight.at_speed import case_of, fly_at, scratch
from foilwright.flight.load_items import STRUT_MOST_LIFT, STRUT_SLOPE
from foilwright.flight.loads import loads
from foilwright.flight.state import State, steady
from foilwright.flight.steering import bench_turn, on_centreline, turn_balance, turn_of
from foilwright.flight.trim_at_speed import SOLVED_TOLERANCE, Case, polished
from foilwright.water.properties import water_at
from foilwright.water.strut import strut_side_force
from tests.demo_boats import KN, demo_boat

WATER = water_at()
PLACES = [("marram", 6.0), ("marram", 12.0), ("pipkin", 12.0), ("sedge", 18.0)]


def straight(name: str, speed_kn: float, heel: float = 0.0) -> tuple[Case, State, float]:
    """The stable bench state with the crew amidships, and the boat's yaw radius."""
    boat = demo_boat(name)
    found = next(s for s in fly_at(boat.row, boat.tables, WATER, speed_kn * KN, heel) if s.stable)
    case = case_of(boat.row, boat.tables, WATER, found.speed, heel)
    case = case._replace(boat=on_centreline(case.boat))
    height, trim, miss, _ = polished(case, found.height, found.trim, plain(scratch().items))
    assert miss < SOLVED_TOLERANCE
    return case, steady(found.speed, height, trim, heel), boat.numbers["mass.pitch_radius_m"]


def solved_turn(case: Case, state: State, rudder: float, held: tuple[float, ...]) -> tuple[np.ndarray, float]:
    """Height, trim, leeway and rate of turn with a rudder angle, all four balances solved together by a
    general root finder; and the roll moment left over. `held`: what sail and sailor hold, straight on."""
    items = plain(scratch().items)

    def left(unknowns: np.ndarray) -> np.ndarray:
        height, trim, leeway, rate = (float(x) for x in unknowns)
        there = state._replace(height=height, trim=trim, leeway=leeway, rudder=rudder)
        return np.array(turn_balance(case, there, rate, items))[:5] - np.array(held)[:5]

    start = np.array([state.height, state.trim, 0.0, 0.0])
    found = root(lambda u: left(u)[:4], start, tol=1e-12, options={"xtol": 1e-12})
    assert np.abs(left(found.x)[:4]).max() < 1e-8
    return found.x - start, float(left(found.x)[4])


@pytest.mark.parametrize(("name", "speed_kn"), PLACES)
def test_the_mirrored_rudder_makes_the_mirrored_turn(name, speed_kn):
    """Full turns of 1 degree each way: rate, leeway and roll change sign, height and trim do not."""
    case, state, _ = straight(name, speed_kn)
    held = turn_balance(case, state, 0.0, plain(scratch().items))
    one, roll = solved_turn(case, state, radians(1.0), held)
    other, roll_back = solved_turn(case, state, radians(-1.0), held)
    assert one[2:] == pytest.approx(-other[2:], rel=1e-6)
    assert one[:2] == pytest.approx(other[:2], abs=1e-7)
    assert roll == pytest.approx(-roll_back, rel=1e-6)


@pytest.mark.parametrize(("name", "speed_kn"), PLACES)
@pytest.mark.parametrize("heel", [0.0, -10.0])
def test_the_derivative_is_that_of_the_turn_solved_anew(name, speed_kn, heel):
    """Turns of +-0.2 degrees solved in full, against the linear one: 0.5 % of rate, leeway and roll."""
    case, state, radius = straight(name, speed_kn, radians(heel))
    linear = turn_of(case, state, radius)
    held = turn_balance(case, state, 0.0, plain(scratch().items))
    rudder = radians(0.2)
    one, roll = solved_turn(case, state, rudder, held)
    other, roll_back = solved_turn(case, state, -rudder, held)
    height, trim, leeway, rate = (one - other) / (2.0 * rudder)
    assert linear.yaw_rate == pytest.approx(rate, rel=5e-3)
    assert linear.leeway == pytest.approx(leeway, rel=5e-3)
    weight = (case.boat.mass.mass + case.boat.crew.mass) * WATER.gravity
    assert linear.roll_moment == pytest.approx(weight * (roll - roll_back) / (2.0 * rudder), rel=5e-3)
    assert linear.height == pytest.approx(height, rel=2e-2, abs=1e-4)
    assert linear.trim == pytest.approx(trim, rel=2e-2, abs=1e-4)


def test_heeled_to_either_side_the_turn_is_the_same_one_mirrored():
    """Crew amidships: heel to windward with the rudder to leeward is the mirror of the opposite."""
    ones = []
    for heel in (-8.0, 8.0):
        case, state, radius = straight("marram", 13.0, radians(heel))
        ones.append(turn_of(case, state, radius))
    for name, sign in (
        ("yaw_rate", 1.0),
        ("leeway", 1.0),
        ("height", -1.0),
        ("trim", -1.0),
        ("roll_moment", 1.0),
    ):
        assert getattr(ones[0], name) == pytest.approx(sign * getattr(ones[1], name), rel=1e-5), name


def test_the_bench_is_not_touched_by_the_crew_going_amidships():
    boat = demo_boat("marram")
    found = next(s for s in fly_at(boat.row, boat.tables, WATER, 12.0 * KN) if s.stable)
    case = case_of(boat.row, boat.tables, WATER, found.speed, 0.0)
    left = turn_balance(
        case._replace(boat=on_centreline(case.boat)),
        steady(found.speed, found.height, found.trim, 0.0),
        0.0,
        plain(scratch().items),
    )
    assert np.abs(np.array(left)).max() < 1e-9
    assert bench_turn(case, found.height, found.trim, 0.9).yaw_rate > 0.0


@pytest.mark.parametrize(("name", "speed_kn"), [("marram", 12.0), ("pipkin", 12.0), ("sedge", 18.0)])
def test_flying_it_is_the_two_blade_boat_of_the_textbooks(name, speed_kn):
    """A mass on two blades of side stiffness C1 (at l1 ahead of it) and C2 (l2 behind, turned by the rudder),
    as in any text on the handling of vehicles: with a = l1 + l2, rate / rudder = U C1 C2 a / (C1 C2 a^2 +
    m U^2 (C2 l2 - C1 l1)). Stiffness of the blades alone, by the strut's own formula: within 1.5 %."""
    case, state, radius = straight(name, speed_kn)
    flight = loads(
        case.boat, case.tables, case.water, case.around, state, case.pull_share, plain(scratch().items)
    )
    boat, small = case.boat, 1e-4
    pressure = 0.5 * WATER.density * state.speed**2
    blades = ((boat.main, flight.main_strut_wetted), (boat.rudder, flight.rudder_strut_wetted))
    first, second = (
        strut_side_force(pressure, small, foil.strut_chord, wetted, STRUT_SLOPE, STRUT_MOST_LIFT, 0.0)[0]
        / small
        for foil, wetted in blades
    )
    mass = boat.mass.mass + boat.crew.mass
    centre = (boat.mass.mass * boat.mass.x + boat.crew.mass * boat.crew.x) / mass
    ahead, behind = boat.main.x - centre, centre - boat.rudder.x
    apart = ahead + behind
    stiff = first * second
    slip = mass * state.speed**2 * (second * behind - first * ahead)
    assert turn_of(case, state, radius).yaw_rate == pytest.approx(
        state.speed * stiff * apart / (stiff * apart**2 + slip), rel=0.015
    )
