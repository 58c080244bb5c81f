"""How far a state is from each of its limits, and which is nearest.

Each margin is in the limit's own unit, positive inside; of two foils or struts the worse one counts.
The nearest limit is the smallest margin as a share of a stated span, since degrees and metres cannot
be compared.
"""

from math import cos, pi, radians, sin, sqrt
from typing import NamedTuple

from foilwright.flight.boat import Boat, Tables
from foilwright.flight.loads import Flight
from foilwright.flight.state import State
from foilwright.water.foil import cavitation_speed, shallowest_tip_depth, stall_margins
from foilwright.water.hull import lowest_point
from foilwright.water.planform import Planform
from foilwright.water.properties import Water
from foilwright.water.strut import ventilation_margin

CONTACT_PERIOD = 0.3  # encounter period at which the wand's contact with waves is judged [s]

SPANS: dict[str, float] = {
    "stall": radians(4.0),
    "tip_depth": 0.15,  # the least depth wanted of a tip (common practice, no source)
    "ventilation": radians(5.0),
    "touchdown": 0.20,
    "cavitation": 2.5,
    "wand_stop": radians(10.0),
    "foil_stop": radians(3.0),
    "hiking": 0.2,
    "rudder_reversal": 20.0,
    "wand_contact": 0.05,
}
"""What counts as one share of each margin: a comfortable distance (rad, m, m/s, N, share of reach)."""


class Margins(NamedTuple):
    """Distances from the limits in SI and radians; `hiking` belongs to sailing in wind."""

    stall: float
    tip_depth: float
    ventilation: float
    touchdown: float
    cavitation: float
    wand_stop: float
    foil_stop: float
    rudder_reversal: float
    wand_contact: float


def smaller(a: float, b: float) -> float:
    """The smaller of two, sharp."""
    if a < b:
        return a
    return b


def foil_stall(
    flow_alpha: float, zero_lift: float, slope: float, most: float, least: float, planform: Planform
) -> float:
    """Angle of attack left before a foil stalls either way [rad]."""
    up, down = stall_margins(flow_alpha, zero_lift, slope, most, least, planform)
    return smaller(up, down)


def margins(boat: Boat, tables: Tables, water: Water, state: State, flight: Flight) -> Margins:
    """All margins of one state from what the loads found on the way.

    Ventilation is that of the struts, where air comes down; a foil that comes near the surface shows in its
    tip's depth. Touchdown is the height of the hull's lowest point. Rudder reversal is how far the rudder
    foil's load is from changing sides, where its seat and its rake mechanism change sides with it. Wand
    contact is the largest wave amplitude the paddle follows at an encounter period of 0.3 s: inertia x
    amplitude x frequency^2 / (length sin(wand angle)) against tension, weight and chain load.
    """
    main = flight.main
    rudder = flight.rudder
    sin_heel = sin(state.heel)
    stall = smaller(
        foil_stall(
            main.alpha, main.zero_lift, main.slope, main.most_lift, main.least_lift, boat.main_planform
        ),
        foil_stall(
            rudder.alpha,
            rudder.zero_lift,
            rudder.slope,
            rudder.most_lift,
            rudder.least_lift,
            boat.rudder_planform,
        ),
    )
    tip = smaller(
        shallowest_tip_depth(flight.main_depth, boat.main.span, cos(state.trim) * sin_heel),
        shallowest_tip_depth(flight.rudder_depth, boat.rudder.span, cos(state.trim) * sin_heel),
    )
    air = smaller(
        strut_ventilation(
            flight.main_strut_angle, flight.main_strut_wetted, boat.main.strut_chord, state, water
        ),
        strut_ventilation(
            flight.rudder_strut_angle, flight.rudder_strut_wetted, boat.rudder.strut_chord, state, water
        ),
    )
    hull = lowest_point(
        tables.hull, state.height, sin(state.trim), cos(state.trim), sin_heel, cos(state.heel), boat.main.x
    )
    bubbles = smaller(
        inception(main.least_pressure, flight.main_depth, water) - flight.main_speed,
        inception(rudder.least_pressure, flight.rudder_depth, water) - flight.rudder_speed,
    )
    control = flight.control
    wand = smaller(control.wand - boat.wand.forward_stop, boat.wand.aft_stop - control.wand)
    foil = smaller(control.foil - boat.chain.foil_least, boat.chain.foil_greatest - control.foil)
    lift = 0.5 * water.density * flight.rudder_speed * flight.rudder_speed * boat.rudder.area * rudder.lift
    tilt = sin(control.wand - state.trim)
    holding = control.pull + 0.5 * boat.wand.mass * water.gravity * boat.wand.length * tilt
    inertia = boat.wand.mass * boat.wand.length * boat.wand.length / 3.0
    frequency = 2.0 * pi / CONTACT_PERIOD
    contact = holding * boat.wand.length * tilt / (inertia * frequency * frequency)
    return Margins(stall, tip, air, hull, bubbles, wand, foil, sqrt(lift * lift), contact)


def strut_ventilation(angle: float, wetted: float, chord: float, state: State, water: Water) -> float:
    """Ventilation margin [rad] of a strut with so much of its length under water [m]."""
    return ventilation_margin(angle, wetted / chord, state.speed / sqrt(water.gravity * chord))


def inception(least_pressure: float, depth: float, water: Water) -> float:
    """Speed [m/s] at which cavitation starts at a least pressure coefficient and depth [m]."""
    return cavitation_speed(
        least_pressure, depth, water.density, water.gravity, water.air_pressure, water.vapour_pressure
    )
