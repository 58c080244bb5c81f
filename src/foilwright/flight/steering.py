"""How the boat answers its tiller: the steady turn that a small rudder angle makes, at constant boat speed.

From the derivatives of the one list of loads by height, trim, leeway, rate of turn, heel and rudder angle,
with the hull's own side force where it is in the water (`water/hull_side.py`), which the straight course has
no need of. Whatever holds the boat on its straight course (sail, sailor) is taken to stay as it is; heel is
held by the sailor, who moves for it, or is let go to where nobody need move.
"""

from math import cos, sin, sqrt
from typing import NamedTuple

import numpy as np

from foilwright.axes import attitude, bow_up_moment, heeling_moment, to_body, to_earth
from foilwright.compiled import plain
from foilwright.flight.boat import Boat
from foilwright.flight.loads import ITEMS, N_ITEMS, loads, sums
from foilwright.flight.state import State, steady
from foilwright.flight.trim_at_speed import SOLVED_TOLERANCE, Case, polished
from foilwright.measures import Floats
from foilwright.water.hull_side import hull_side_force

STEP = 1e-4
"""For central differences [m, rad, rad/s]."""

RUDDER_STRUT = ITEMS.index("rudder strut")
UNKNOWNS = ("height", "trim", "leeway", "yaw_rate", "heel")
SIDE, UP, PITCH, YAW, ROLL = range(5)
LEAST_DETERMINANT = 1e-12


class TurnBalance(NamedTuple):
    """What is left of five balances in a steady turn, over weight (and over weight times a metre)."""

    side: float  # to leeward, less mass x speed x rate of turn
    up: float
    pitch: float  # bow up
    yaw: float  # bow to leeward
    roll: float  # heel to leeward
    rudder_force: float  # of the rudder strut across its blade, to leeward, over weight


class Turn(NamedTuple):
    """The steady turn for one radian of rudder, straight from the derivatives at a steady state.

    Signs as everywhere: a positive rudder angle turns to leeward. Everything is a change a radian.
    """

    yaw_rate: float  # [rad/s]
    side_acceleration: float  # to leeward [m/s2]
    leeway: float  # [rad]
    height: float  # [m]
    trim: float  # [rad]
    roll_moment: float  # that the turn makes with heel held, to leeward positive [N m]
    crew_out: float  # how far the crew moves out to windward to hold that heel [m]
    heel: float  # further to leeward, with which nobody need move [rad]; not a number where there is none
    yaw_rate_heeled: float  # of the turn with that heel [rad/s]
    blade_force: float  # across the rudder strut in the steady turn, to leeward [N]
    blade_force_first: float  # the same before the boat has begun to turn [N]
    holds_course: bool  # with tiller and heel held a small push in sway and yaw dies out
    settling: float  # time constant of the slowest sway-yaw motion [s]; infinite where it does not settle


def on_centreline(boat: Boat) -> Boat:
    """The boat with its crew on the centreline: on the bench no sail asks for anything else."""
    return boat._replace(crew=boat.crew._replace(out=0.0))


def turning(state: State, leeway: float, rudder: float, yaw_rate: float) -> State:
    """A state with another leeway and rudder, turning about the vertical, bow to leeward [rad/s]."""
    turned = state._replace(leeway=leeway, rudder=rudder)
    roll_rate, pitch_rate, body_yaw = to_body(attitude(state.trim, state.heel, leeway), 0.0, 0.0, yaw_rate)
    return turned._replace(roll_rate=roll_rate, pitch_rate=pitch_rate, yaw_rate=body_yaw)


def turn_balance(case: Case, state: State, yaw_rate: float, items: Floats) -> TurnBalance:
    """The balances of a steady turn at a rate [rad/s]; `state` carries everything else.

    Forces across the course and upwards, moments about level axes through the centre of gravity. The
    forces' centripetal share is the only inertia: products of rates are of second order in the turn.
    """
    turned = turning(state, state.leeway, state.rudder, yaw_rate)
    boat = case.boat
    flight = loads(boat, case.tables, case.water, case.around, turned, case.pull_share, items)
    force_x, force_y, force_z, moment_x, moment_y, moment_z = sums(items)
    a = attitude(turned.trim, turned.heel, turned.leeway)
    mass = boat.mass.mass + boat.crew.mass
    if flight.hull.volume > 0.0:
        centre_x = (boat.mass.mass * boat.mass.x + boat.crew.mass * boat.crew.x) / mass
        centre_z = (boat.mass.mass * boat.mass.z + boat.crew.mass * boat.crew.z) / mass
        along, across, _ = to_body(a, turned.speed, 0.0, 0.0)
        hull = hull_side_force(
            case.tables.hull, turned.height, sin(turned.trim), cos(turned.trim), boat.main.x,
            centre_x, along, across, turned.yaw_rate, case.water.density,
        )  # fmt: skip
        force_y += hull.force
        moment_x -= (-turned.height - hull.below - centre_z) * hull.force
        moment_z += hull.moment
    _, side, up = to_earth(a, force_x, force_y, force_z)
    roll, pitch, yaw = to_earth(a, moment_x, moment_y, moment_z)
    weight = flight.weight
    return TurnBalance(
        (side - mass * turned.speed * yaw_rate) / weight,
        up / weight,
        bow_up_moment(pitch) / weight,
        yaw / weight,
        heeling_moment(roll) / weight,
        float(items[RUDDER_STRUT, 1]) / weight,
    )


def slopes_of_turn(case: Case, state: State) -> tuple[Floats, Floats]:
    """Derivatives of the balance by the five UNKNOWNS [6, 5] and by the rudder angle [6]."""
    items = plain(np.zeros((N_ITEMS, 6)))

    def slope(ahead: State, rate_ahead: float, behind: State, rate_behind: float) -> Floats:
        one = turn_balance(case, ahead, rate_ahead, items)
        other = turn_balance(case, behind, rate_behind, items)
        difference: Floats = np.array(one) - np.array(other)
        return difference / (2.0 * STEP)

    columns = []
    for name in UNKNOWNS:
        if name == "yaw_rate":
            columns.append(slope(state, STEP, state, -STEP))
        else:
            here = getattr(state, name)
            columns.append(
                slope(state._replace(**{name: here + STEP}), 0.0, state._replace(**{name: here - STEP}), 0.0)
            )
    by_rudder = slope(
        state._replace(rudder=state.rudder + STEP), 0.0, state._replace(rudder=state.rudder - STEP), 0.0
    )
    return np.column_stack(columns), by_rudder


def turn_of(case: Case, state: State, yaw_radius: float) -> Turn:
    """The steady turn a radian of rudder from a steady straight state; yaw_radius: of the boat's mass [m].

    Raises ValueError where the balances do not determine a turn.
    """
    by_unknown, by_rudder = slopes_of_turn(case, state)
    boat, speed = case.boat, state.speed
    mass = boat.mass.mass + boat.crew.mass
    weight = mass * case.water.gravity
    held = by_unknown[:ROLL, :4]
    if abs(np.linalg.det(held)) < LEAST_DETERMINANT:
        raise ValueError("the balances do not determine a turn")
    response = -np.linalg.solve(held, by_rudder[:ROLL])
    height, trim, leeway, yaw_rate = (float(x) for x in response)
    roll = weight * float(by_rudder[ROLL] + by_unknown[ROLL, :4] @ response)
    blade = weight * float(by_rudder[5] + by_unknown[5, :4] @ response)
    heel, heeled_rate = float("nan"), float("nan")
    if abs(np.linalg.det(by_unknown[:5])) > LEAST_DETERMINANT:
        free = -np.linalg.solve(by_unknown[:5], by_rudder[:5])
        heel, heeled_rate = float(free[4]), float(free[3])
    out = boat.crew.out * state.out_share
    holds, settling = course_stability(boat, out, by_unknown, weight, speed, yaw_radius)
    return Turn(
        yaw_rate=yaw_rate,
        side_acceleration=speed * yaw_rate,
        leeway=leeway,
        height=height,
        trim=trim,
        roll_moment=roll,
        crew_out=roll / (boat.crew.mass * case.water.gravity * cos(state.heel)),
        heel=heel,
        yaw_rate_heeled=heeled_rate,
        blade_force=blade,
        blade_force_first=weight * float(by_rudder[5]),
        holds_course=holds,
        settling=settling,
    )


def course_stability(
    boat: Boat, out: float, by_unknown: Floats, weight: float, speed: float, yaw_radius: float
) -> tuple[bool, float]:
    """Whether sway and yaw settle with tiller, heel, height and trim held, and their slowest time [s].

    With leeway b and rate r: m U (db/dt + r) = Y_b b + Y_r r and I dr/dt = N_b b + N_r r, where the side
    row of the derivatives holds Y_r - m U already. Inertia of the boat and of the crew as a point, `out` from
    the centreline [m]; no added mass. Stable where both roots have negative real parts (Routh): the classic
    criterion Y_b N_r > N_b (Y_r - m U).
    """
    side, yaw = weight * by_unknown[SIDE, 2:4], weight * by_unknown[YAW, 2:4]
    total = boat.mass.mass + boat.crew.mass
    apart = boat.mass.x - boat.crew.x
    reduced = boat.mass.mass * boat.crew.mass / total
    inertia = boat.mass.mass * yaw_radius * yaw_radius + reduced * (apart * apart + out * out)
    matrix = np.array([side / (total * speed), yaw / inertia])
    trace, determinant = float(np.trace(matrix)), float(np.linalg.det(matrix))
    holds = trace < 0.0 and determinant > 0.0
    if not holds:
        return False, float("inf")
    square = 0.25 * trace * trace - determinant
    slowest = 0.5 * trace + (sqrt(square) if square > 0.0 else 0.0)
    return True, -1.0 / slowest


def bench_turn(case: Case, height: float, trim: float, yaw_radius: float) -> Turn:
    """The turn from a steady state of the bench: no leeway, no rudder, the crew on the centreline.

    Heeled, that shifts the state by a trace (their air drag pitches the boat), so it is settled anew.
    """
    case = case._replace(boat=on_centreline(case.boat))
    height, trim, miss, _ = polished(case, height, trim, plain(np.zeros((N_ITEMS, 6))))
    if miss > SOLVED_TOLERANCE:
        raise ValueError("the steady state is lost with the crew on the centreline")
    return turn_of(case, steady(case.speed, height, trim, case.heel), yaw_radius)
