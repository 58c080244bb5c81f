"""The sail: published generic coefficients, and one parameter for all the ways of easing it. Kernels.

Angles in the plane square to the mast; forces in that same plane. The sail is the same on both tacks.
Drag of mast, hull and sailors is not in it: those are areas of their own (`air/windage.py`).
"""

from math import atan2, cos, fabs, pi, sin, sqrt, tan
from typing import NamedTuple

from foilwright.smooth import smooth_step

DEGREES = 180.0 / pi
CLOSE = 27.0  # apparent wind angle of the first published node [degrees]
CLOSE_LIFT = 1.5  # lift coefficient there
CLOSE_DRAG = 0.02  # parasitic drag coefficient there
SEPARATION = 0.005  # drag that grows with lift squared beside the induced one
CAP_ROUNDING = 0.3  # of lift, where it meets that of greatest drive
FLATTEST = 0.4  # power down to which flattening leaves the parasitic drag as it is
LUFFING_DRAG = 0.06  # drag coefficient of a sail that pulls nothing
LEAST_WIND = 1.0e-3  # apparent winds below this are taken as this where they divide [m/s]


class SailCoefficients(NamedTuple):
    """On the sail's own area."""

    lift: float  # square to the apparent wind, [-]
    drag: float  # along it [-]


class SailForce(NamedTuple):
    """In the plane square to the mast."""

    drive: float  # forward [N]
    side: float  # to port [N]
    drop: float  # centre of effort below that of full power, along the mast [m]


def cubic(t: float, width: float, y0: float, slope0: float, y1: float, slope1: float) -> float:
    """Hermite's cubic between two nodes; t from 0 to 1, slopes per unit of `width`."""
    s = 1.0 - t
    return (y0 * (1.0 + 2.0 * t) + slope0 * width * t) * s * s + (
        y1 * (1.0 + 2.0 * s) - slope1 * width * s
    ) * t * t


def full_lift(degrees: float) -> float:
    """Published greatest lift coefficient [-] of a mainsail, apparent wind angle 0 to 180 [degrees].

    Nodes 27, 50, 80, 100, 180: 1.50, 1.50, 0.95, 0.85, 0 (Hazen 1980, New England Sailing Yacht Symposium,
    as in Larsson & Eliasson, Principles of Yacht Design). Between them a monotone cubic (slopes of Fritsch &
    Butland 1984; straight at 180, where lift changes sign), C1. Below 27 it is held at 1.50.
    """
    if degrees <= 50.0:
        return CLOSE_LIFT
    if degrees <= 80.0:
        return cubic((degrees - 50.0) / 30.0, 30.0, 1.5, 0.0, 0.95, -0.0075689)
    if degrees <= 100.0:
        return cubic((degrees - 80.0) / 20.0, 20.0, 0.95, -0.0075689, 0.85, -0.0063433)
    return cubic((degrees - 100.0) / 80.0, 80.0, 0.85, -0.0063433, 0.0, -0.0127658)


def parasitic_drag(degrees: float) -> float:
    """Published parasitic drag coefficient [-] of a mainsail at full power, apparent wind angle [degrees].

    0.02, 0.15, 0.80, 1.00, 0.90 at the same nodes and from the same source; level below 27, at 100, at 180.
    """
    if degrees <= CLOSE:
        return CLOSE_DRAG
    if degrees <= 50.0:
        return cubic((degrees - CLOSE) / 23.0, 23.0, CLOSE_DRAG, 0.0, 0.15, 0.00874)
    if degrees <= 80.0:
        return cubic((degrees - 50.0) / 30.0, 30.0, 0.15, 0.00874, 0.80, 0.0133564)
    if degrees <= 100.0:
        return cubic((degrees - 80.0) / 20.0, 20.0, 0.80, 0.0133564, 1.0, 0.0)
    return cubic((degrees - 100.0) / 80.0, 80.0, 1.0, 0.0, 0.90, 0.0)


def induced_factor(aspect_ratio: float) -> float:
    """Drag that comes with lift, per lift squared [-]: 1/(pi AR) + 0.005 (Hazen 1980).

    aspect_ratio [-] is that of the sail with its image in the water. Below 1 it is taken as 1.
    """
    if aspect_ratio < 1.0:
        return 1.0 / pi + SEPARATION
    return 1.0 / (pi * aspect_ratio) + SEPARATION


def lift_at_full_power(degrees: float, induced: float) -> float:
    """Lift coefficient [-] of a sail trimmed for greatest drive, apparent wind angle 0 to 180 [degrees].

    The published one, and close to the wind no more than pays: drive C_L sin(b) - C_D cos(b) is greatest at
    C_L = tan(b) / (2 k), k the factor on lift squared, so that more lift would only heel the boat. This is
    the stated extrapolation below 27 degrees. The corner of the two is rounded by a parabola 0.3 of lift wide
    (C1; 0.075 too low at the corner, exact beyond); aspect ratios above 2.4 leave 27 degrees untouched.
    """
    most = full_lift(degrees)
    if degrees >= 50.0:
        return most
    paying = tan(degrees / DEGREES) / (2.0 * induced)
    gap = fabs(most - paying)
    least = most
    if paying < most:
        least = paying
    if gap < CAP_ROUNDING:
        least = least - (CAP_ROUNDING - gap) * (CAP_ROUNDING - gap) / (4.0 * CAP_ROUNDING)
    return least


def twist_of(power: float) -> float:
    """Third part of the loading over the first [-] as the head is opened: -(1 - power)/3.

    At power 0 it is -1/3, where the load runs out flat at the head; more would push the head to windward.
    How far sailors open the head as they ease is common practice, no source; what it does is lifting-line
    theory, see `effort_drop` and `twist_cost`.
    """
    opened = 1.0 - power
    if opened < 0.0:
        opened = 0.0
    elif opened > 1.0:
        opened = 1.0
    return -opened / 3.0


def twist_cost(twist: float) -> float:
    """Factor on induced drag at the same lift [-]: 1 + 3 (A3/A1)^2 (Glauert 1926, lifting line)."""
    return 1.0 + 3.0 * twist * twist


def effort_drop(area: float, aspect_ratio: float, power: float) -> float:
    """How far the centre of effort comes down as the sail is eased [m], along the mast.

    area [m2], aspect_ratio [-], power [-]. A load sin(t) + a sin(3t) over a reflecting plane has its centroid
    at (4/pi)(1/3 + a/5) of the height H (lifting line, closed form; Jones 1950, NACA TN 2249, for the same
    trade against induced drag), so the drop is -4/(5 pi) a H, with H = sqrt(AR A)/1.1 the mast. At half power
    4 % of the mast, at none 8.5 %.
    """
    height = sqrt(fabs(area * aspect_ratio)) / 1.1
    return -0.8 / pi * twist_of(power) * height


def sail_coefficients(angle: float, power: float, aspect_ratio: float) -> SailCoefficients:
    """Lift and drag coefficients of the sail [-].

    angle of the apparent wind in the plane square to the mast, from ahead, -pi to pi [rad]: lift changes sign
    with it. power [-]: share of full sail force, 1 the sail trimmed for greatest drive, 0 luffing.
    Lift goes with power and the drag that comes with lift by its square, as published for flattening (0.4 to
    1; Kerwin 1978, Hazen 1980), with the head opened by `twist_of`. Parasitic drag stays as published down to
    power 0.4 and goes to that of a luffing sail below (0.06: flags, Fairthorne 1930, ARC R&M 1345, from
    memory). Abaft 50 to 80 degrees, where it comes of the sail standing square to the wind, it goes with
    power all the way. C1 in both. Soft single sail, steady wind; below 27 degrees see `lift_at_full_power`.
    """
    degrees = fabs(angle) * DEGREES
    induced = induced_factor(aspect_ratio)
    lift = power * lift_at_full_power(degrees, induced)
    kept = smooth_step(power, 0.0, FLATTEST)
    if degrees > 50.0:
        kept = kept + smooth_step(degrees, 50.0, 80.0) * (power - kept)
    parasitic = LUFFING_DRAG + (parasitic_drag(degrees) - LUFFING_DRAG) * kept
    twisted = twist_cost(twist_of(power)) * (induced - SEPARATION) + SEPARATION
    drag = parasitic + twisted * lift * lift
    if angle < 0.0:
        lift = -lift
    return SailCoefficients(lift, drag)


def sail_force(
    area: float, aspect_ratio: float, air_density: float, along: float, across: float, power: float
) -> SailForce:
    """Force of the sail [N] in the plane square to the mast.

    area [m2]; aspect_ratio [-]; air_density [kg/m3]; along, across: the velocity of the sail through the air
    in the heeled frame [m/s], forward and to port positive: `along` is positive with the wind from ahead,
    `across` negative with the wind from starboard. The part along the mast does nothing (Kerwin 1978). Drive
    forward positive, side to port positive; both act at the centre of effort, lowered by `drop`.
    """
    speed = sqrt(along * along + across * across + LEAST_WIND * LEAST_WIND)
    c = sail_coefficients(atan2(-across, along), power, aspect_ratio)
    force = 0.5 * air_density * area * speed
    # Lift stands square to the flow, forward for wind from either side.
    return SailForce(
        -force * (c.lift * across + c.drag * along),
        force * (c.lift * along - c.drag * across),
        effort_drop(area, aspect_ratio, power),
    )


def aspect_ratio_of(mast_height: float, area: float) -> float:
    """Aspect ratio of the sail with its image in the water [-]: (1.1 H)^2 / A (Hazen 1980).

    mast_height H above the deck [m]; area [m2].
    """
    return (1.1 * mast_height) ** 2 / area


class Reefed(NamedTuple):
    """A rig with some of the sail rolled away; its aspect ratio stays."""

    area: float  # [m2]
    effort_above_foot: float  # [m]


def reefed(area: float, effort_above_foot: float, reef: float) -> Reefed:
    """Area and centre of effort of a reefed sail: height goes with the reef R, area with R^2.

    Heel moment about the foot goes with R^3 (similarity; Kerwin 1978, Hazen 1980). R is 1 unreefed [-].
    """
    return Reefed(area * reef * reef, effort_above_foot * reef)


def drive_and_heel(lift: float, drag: float, angle: float) -> tuple[float, float]:
    """Drive and side force coefficients [-] of lift and drag at an apparent wind angle [rad]."""
    return lift * sin(angle) - drag * cos(angle), lift * cos(angle) + drag * sin(angle)
