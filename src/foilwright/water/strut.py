"""Struts: drag along, force across, and when air may come down them."""

from math import fabs, pi, sqrt

from foilwright.smooth import positive_part, smooth_clip, smooth_step
from foilwright.water.friction import friction_coefficient

_WETTING = 0.02
"""Wetted length over which a strut's forces come in as it enters the water [m]."""

_STALL_WIDTH = 0.06
"""Rounding of the strut's stall corner, in side-force coefficient."""


def working_length(wetted_length: float) -> float:
    """Wetted length [m], nothing when negative, its corner rounded over 20 mm; exact beyond."""
    return wetted_length * smooth_step(wetted_length, 0.0, _WETTING)


def section_drag(friction: float, thickness_ratio: float) -> float:
    """Profile drag coefficient on chord [-], 2 Cf (1 + 2 t/c + 60 (t/c)^4).

    Source: Hoerner, Fluid-Dynamic Drag, 1965, ch. 6: greatest thickness at 30 % of the chord, attached flow,
    t/c below 0.25, turbulent all along.
    """
    t2 = thickness_ratio * thickness_ratio
    return 2.0 * friction * (1.0 + 2.0 * thickness_ratio + 60.0 * t2 * t2)


def spray_drag(dynamic_pressure: float, thickness: float, wetted_length: float) -> float:
    """Drag of the spray thrown where a strut goes through the surface [N], 0.24 q t^2.

    Source: Hoerner 1965, ch. 10; from U / sqrt(g c) of about 3, sharp entry, no side force; a factor 1.5
    either way. Comes in over a wetted length of four thicknesses (our choice).
    """
    return 0.24 * dynamic_pressure * thickness * thickness * smooth_step(wetted_length, 0.0, 4.0 * thickness)


def strut_drag(
    speed: float,
    chord: float,
    thickness_ratio: float,
    wetted_length: float,
    piercing: float,
    density: float,
    viscosity: float,
) -> tuple[float, float]:
    """(profile drag, spray drag) of a strut [N].

    chord, wetted_length [m]; piercing: share of the spray, 1 when the strut goes through a free surface, 0
    under a floating hull; density [kg/m3], kinematic viscosity [m2/s]. ITTC-57 friction at the chord's
    Reynolds number.
    """
    q = 0.5 * density * speed * speed
    friction = friction_coefficient(fabs(speed) * chord / viscosity)
    profile = q * chord * working_length(wetted_length) * section_drag(friction, thickness_ratio)
    return profile, piercing * spray_drag(q, chord * thickness_ratio, wetted_length)


def junction_drag(dynamic_pressure: float, thickness: float, thickness_ratio: float) -> float:
    """Added drag where a strut meets a foil [N], q t^2 (17 (t/c)^2 - 0.05), never below zero.

    thickness: of the thicker of the two [m]. Source: Hoerner 1965, ch. 8, a strut on a foil, no fillet; a
    factor 2 either way. Corner rounded over 0.004 in the coefficient.
    """
    coefficient = positive_part(17.0 * thickness_ratio * thickness_ratio - 0.05, 0.004)
    return dynamic_pressure * thickness * thickness * coefficient


def strut_side_force(
    dynamic_pressure: float,
    angle: float,
    chord: float,
    wetted_length: float,
    slope2d: float,
    cl_max: float,
    hull_share: float,
) -> tuple[float, float]:
    """(side force, induced drag) of a strut [N] with a T-foil at its foot and the surface at its top.

    angle: of attack of the strut, side force has its sign [rad]; slope2d: section lift slope [1/rad];
    cl_max: greatest section lift coefficient; hull_share: 0 when the top goes through the free surface, 1
    when it ends in a wall (a wide hull afloat), between for a narrow hull.

        A  = wetted length / chord,  Ae = A 1.32 / (1 + 0.08 A) (1 + 2.1 hull_share)
        slope = slope2d Ae / (kappa + sqrt(kappa^2 + Ae^2)),  kappa = slope2d / pi
        CDi = CY^2 / (pi A_d),  A_d = A 1.35 / (1 + 0.036 A) (1 + 2.1 hull_share)

    Helmbold's slope on an effective aspect ratio close to the geometric one, fitted to a vortex lattice of
    a T-foil under the surface's image (potential zero there: high Froude number): the foil's help and the
    surface's loss nearly cancel. Within 2 % on both for wetted length / chord 1.7 to 8, foil span 0.6 to
    1.25 m; a wall at the top: slope within 2 %, induced drag an estimate.
    """
    length = working_length(wetted_length)
    aspect = length / chord
    wall = 1.0 + 2.1 * hull_share
    effective = aspect * wall * 1.32 / (1.0 + 0.08 * aspect)
    kappa = slope2d / pi
    slope = slope2d * effective / (kappa + sqrt(kappa * kappa + effective * effective))
    limit = 0.9 * cl_max
    cy = smooth_clip(slope * angle, -limit, limit, _STALL_WIDTH)
    # CY^2 / (pi A_d) x q c length, with the length cancelled so that a dry strut divides by nothing
    induced = dynamic_pressure * chord * chord * cy * cy * (1.0 + 0.036 * aspect) / (1.35 * pi * wall)
    fade = smooth_step(wetted_length, 0.0, _WETTING)
    return dynamic_pressure * chord * length * cy, fade * induced


def ventilation_angle(depth_in_chords: float, chord_froude: float) -> float:
    """Angle of attack at which air is likely to come down [rad].

    15 deg at U / sqrt(g c) below 1 (Harwood, Young & Ceccio, J. Fluid Mech. 800, 2016: fully wetted up to
    about 15 deg), 9 deg from 3 (middle of the 8 to 10 deg of common practice, no source; design angles
    there are 3 to 4 deg), smoothly between. Less when less than half a chord is under water (Benson & Land,
    NACA tank tests: abrupt changes above about half a chord), nothing at the surface.
    """
    deep = smooth_step(depth_in_chords, 0.0, 0.5)
    return deep * (0.2617993877991494 - 0.10471975511965978 * smooth_step(chord_froude, 1.0, 3.0))


def ventilation_margin(angle_of_attack: float, depth_in_chords: float, chord_froude: float) -> float:
    """Angle left before ventilation is likely [rad], ventilation_angle - |angle of attack|; a guide, no
    promise.

    depth_in_chords: of a foil, or wetted length / chord of a strut. Nicks, weed and gusts start it earlier.
    """
    return ventilation_angle(depth_in_chords, chord_froude) - fabs(angle_of_attack)
