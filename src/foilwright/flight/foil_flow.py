"""One T-foil in its flow: section data and finite-span formulas brought together."""

from typing import NamedTuple

from foilwright.flight.boat import Foil, Tables
from foilwright.water.foil import (
    flap_hinge_moment,
    foil_coefficients,
    kinked_loading_drag,
    whole_foil_hinge_moment,
)
from foilwright.water.planform import Planform
from foilwright.water.section import section_hinge, section_line, section_polar


class FoilFlow(NamedTuple):
    """What a horizontal foil makes of its flow. Coefficients on the whole area."""

    alpha: float  # chord line to local flow, downwash included [rad]
    lift: float  # lift coefficient
    drag: float  # profile and induced drag coefficient
    moment: float  # about the quarter chord of the mean aerodynamic chord, nose up positive
    hinge: float  # moment on flap or whole foil, positive towards more lift [N m]
    zero_lift: float  # angle of attack of no lift [rad]
    slope: float  # of the finite foil near the surface [1/rad]
    most_lift: float  # section limits
    least_lift: float
    least_pressure: float  # least pressure coefficient, negative
    section_alpha: float  # two-dimensional angle of attack of the section [rad]
    flap: float  # [rad]
    wetted: float  # share of the foil at work


class FoilLift(NamedTuple):
    """The first half of it: what the lift line of the section gives."""

    alpha: float
    lift: float
    induced: float  # drag coefficient
    zero_lift: float
    slope: float
    most_lift: float
    least_lift: float
    section_alpha: float
    flap: float
    wetted: float


def foil_lift(
    foil: Foil,
    planform: Planform,
    tables: Tables,
    section: int,
    flow_angle: float,
    depth: float,
    sin_heel: float,
    log_re: float,
    foil_angle: float,
) -> FoilLift:
    """Lift of the foil at an angle of the flow to the keel line [rad] and a foil angle of its control [rad].

    The section is read at the angle of attack it sees behind the induced flow: zero-lift angle plus
    finite-span over section slope times the rest. A flap over part of the span counts as a full-span
    one turned by its share of the effect.
    """
    flap = foil.flap_per_turn * foil_angle
    alpha = flow_angle + foil.incidence + foil.incidence_per_turn * foil_angle
    zero_lift, slope2d, most, least = section_line(
        tables.sections, section, flap * planform.flap_share, log_re
    )
    lift, induced, slope, wetted = foil_coefficients(
        alpha, zero_lift, slope2d, most, least, depth, sin_heel, planform
    )
    section_alpha = zero_lift + slope / slope2d * (alpha - zero_lift)
    return FoilLift(alpha, lift, induced, zero_lift, slope, most, least, section_alpha, flap, wetted)


def flap_turning(
    foil: Foil,
    planform: Planform,
    tables: Tables,
    section: int,
    pressure: float,
    log_re: float,
    there: FoilLift,
) -> float:
    """Hinge moment of a controlled flap [N m], as in `foil_flow`."""
    hinge = section_hinge(tables.sections, section, there.flap, log_re, there.section_alpha)
    flap_chord = planform.chord * foil.flap_chord_share
    flap_area = planform.area * foil.flap_chord_share * foil.flap_span_share
    return foil.flap_per_turn * there.wetted * flap_hinge_moment(pressure, flap_area, flap_chord, hinge)


def foil_flow(
    foil: Foil,
    planform: Planform,
    tables: Tables,
    section: int,
    flow_angle: float,
    pressure: float,
    depth: float,
    sin_heel: float,
    log_re: float,
    foil_angle: float,
) -> FoilFlow:
    """The foil at an angle of the flow to the keel line [rad] and a foil angle of its control [rad].

    pressure  dynamic pressure of the flow [Pa]; depth of the foil's middle [m]; log_re of the mean chord
    """
    there = foil_lift(foil, planform, tables, section, flow_angle, depth, sin_heel, log_re, foil_angle)
    return whole_flow(foil, planform, tables, section, pressure, log_re, there)


def whole_flow(
    foil: Foil,
    planform: Planform,
    tables: Tables,
    section: int,
    pressure: float,
    log_re: float,
    there: FoilLift,
) -> FoilFlow:
    """The second half: drag, moments and pressure from the section's polar."""
    wetted = there.wetted
    profile, moment, hinge, least_pressure = section_polar(
        tables.sections, section, there.flap, log_re, there.section_alpha
    )
    drag = there.induced + wetted * profile
    if planform.kink_square > 0.0:
        unflapped, _, _, _ = section_line(tables.sections, section, 0.0, log_re)
        kink = wetted * there.slope * (unflapped - there.zero_lift)
        drag = drag + kinked_loading_drag(there.lift, kink, planform)
    flap_chord = planform.chord * foil.flap_chord_share
    flap_area = planform.area * foil.flap_chord_share * foil.flap_span_share
    turning = foil.flap_per_turn * wetted * flap_hinge_moment(pressure, flap_area, flap_chord, hinge)
    turning = turning + foil.incidence_per_turn * whole_foil_hinge_moment(
        pressure, there.lift, drag, wetted * moment, there.alpha, foil.pivot_share, planform
    )
    return FoilFlow(
        there.alpha,
        there.lift,
        drag,
        wetted * moment,
        turning,
        there.zero_lift,
        there.slope,
        there.most_lift,
        there.least_lift,
        least_pressure,
        there.section_alpha,
        there.flap,
        wetted,
    )
