"""Lift and drag of a finite foil near the water surface, the downwash behind it, hinge moments, cavitation.

The surface at high Froude number is an image: a second foil of the same lift, as far above the surface as the
foil is below it. Everything is explicit: no inner iteration.
"""

from math import cos, pi, sin, sqrt

from foilwright.smooth import positive_part, smooth_clip, smooth_step
from foilwright.water.planform import Planform

_CUTOFF = 0.2
"""Depth in chords over which the lift of a foil just under the surface comes in; half of it at 0.1."""

_STALL_WIDTH = 0.06
"""Rounding of the stall corner, in lift coefficient."""

_WAKE_CORE = 0.025
"""Core of the wake's vortex filaments, in spans of the main foil: see downwash_angle."""


def surface_factor(depth_in_chords: float) -> float:
    """Section lift slope under the surface over that in deep water [-], (16 k^2 + 1) / (16 k^2 + 2).

    A vortex at the quarter chord with its image at 2 k chords (Weissinger's point condition); the form
    given by Hough & Moran, J. Ship Research 13 (1969). High Froude number. Half at the surface. A thin
    plate with the vorticity spread along it has 0.731 in place of 0.667 at k = 0.25; from k = 1 the two
    agree within 0.3 %.
    """
    x = 16.0 * depth_in_chords * depth_in_chords
    return (x + 1.0) / (x + 2.0)


def biplane_factor(gap_in_spans: float) -> float:
    """Prandtl's factor sigma [-]: downwash of an equal, elliptically loaded foil at this gap, over its own.

    1 at no gap, 1 / (8 gap^2) far away. For a foil under the surface the gap is twice its depth. Rational
    fit to the exact integral over elliptic loading (Prandtl, NACA TR 116, 1921, has the theory; his own
    linear fit fails beyond a gap of 0.6): within 0.0005 from a gap of 0.005 up, 0.0015 below. C1 for gaps
    above 0; 1 at and below 0.
    """
    g = gap_in_spans
    if g <= 0.0:
        return 1.0
    return (1.0 + g * (80.1 + g * 117.0)) / (1.0 + g * (88.6 + g * (495.0 + g * (600.0 + g * 936.0))))


def wetted_factor(depth_in_chords: float) -> float:
    """Share of its lift [-] that a foil element at this depth keeps, C1.

    0 at the surface, 1 below 0.2 chords. Stands for a foil that planes, then leaves the water. The width is
    a choice, not a measurement.
    """
    return smooth_step(depth_in_chords, 0.0, _CUTOFF)


def _wetted_length(depth_in_chords: float) -> float:
    """Integral of wetted_factor over depth from far above the surface [chords]."""
    k = depth_in_chords
    if k <= 0.0:
        return 0.0
    if k >= _CUTOFF:
        return k - 0.5 * _CUTOFF
    t = k / _CUTOFF
    return _CUTOFF * t * t * t * (1.0 - 0.5 * t)


def wetted_share(depth: float, chord: float, span: float, sin_heel: float) -> float:
    """Average of wetted_factor over a span at heel [-]: the share of the foil that is at work.

    depth: of the foil's middle [m]. Equals wetted_factor upright; with a tip out it falls towards the share
    of the span that is under water. Chord taken as constant. Exact integral, C1.
    """
    k = depth / chord
    r = 0.5 * span * sin_heel / chord
    reach = sqrt(r * r + 1e-4)  # at least 0.01 chords, so that the quotient stays defined upright
    return (_wetted_length(k + reach) - _wetted_length(k - reach)) / (2.0 * reach)


def shallowest_tip_depth(depth: float, span: float, sin_heel: float) -> float:
    """Depth of the higher tip [m], depth - span/2 |sin heel|.

    The corner upright is rounded; at heel it reads up to 1 mm a metre of span too deep.
    """
    return depth - 0.5 * span * (sqrt(sin_heel * sin_heel + 4e-6) - 0.002)


def working_depth(depth: float, chord: float, span: float, sin_heel: float) -> float:
    """Mean depth of the part of the foil that is under water [m].

    The middle's depth while both tips are in; halfway between the surface and the deeper tip when one is
    out. Corner rounded over 0.1 chords.
    """
    return depth + 0.5 * positive_part(-shallowest_tip_depth(depth, span, sin_heel), 0.1 * chord)


def foil_coefficients(
    alpha: float,
    alpha0: float,
    slope2d: float,
    cl_max: float,
    cl_min: float,
    depth: float,
    sin_heel: float,
    planform: Planform,
) -> tuple[float, float, float, float]:
    """(lift coefficient, induced drag coefficient, lift slope of the wetted part [1/rad], wetted share).

    alpha: angle of attack of the chord line to the local flow, downwash of other foils included [rad];
    alpha0, slope2d, cl_max, cl_min: the section's zero-lift angle [rad], slope [1/rad] and limits at its
    present flap angle and Reynolds number; depth: of the foil's middle [m]; sin_heel: sine of heel. Both
    coefficients are on the whole area; the caller multiplies profile drag by the wetted share too.

        slope = f / [1 / (slope2d cos(sweep) K) + (1 + tau)(1 + sigma) / (pi AR)]
        CL    = wetted x clip(slope (alpha - alpha0), stall_share x [cl_min, cl_max]), corner rounded by 0.06
        CDi   = wetted x clipped^2 (1 + delta)(1 + sigma) / (pi AR)

    Lifting line under an image (biplane) with Hough & Moran's factor on the section; f brings it to a
    lifting surface. Against a vortex lattice with image, aspect ratio 5 to 12: lift at taper 0.5 low by up
    to 1.2 % from one chord down, 2.6 % at half a chord, 7 % at a quarter; rectangular 2.4, 3.9 and 8 %;
    induced drag for the lift high by up to 1.7 % at taper 0.5, 3.6 % rectangular. High depth Froude number:
    see lift_doubt_at_low_froude. The surface acts at the mean depth of the wetted part, whose smaller aspect
    ratio with a tip out is left out. Beyond stall the lift stays at its limit: no loss, no hysteresis. Within
    0.002 of CL of the straight line when 0.5 away from both limits.
    """
    working = working_depth(depth, planform.chord, planform.span, sin_heel)
    sigma1 = 1.0 + biplane_factor(2.0 * working / planform.span)
    section = slope2d * planform.sweep_cosine * surface_factor(working / planform.chord)
    slope = planform.lift_factor * section / (1.0 + section * planform.slope_term * sigma1)
    share = planform.stall_share
    cl = smooth_clip(slope * (alpha - alpha0), share * cl_min, share * cl_max, _STALL_WIDTH)
    wetted = wetted_share(depth, planform.chord, planform.span, sin_heel)
    return wetted * cl, wetted * cl * cl * planform.drag_term * sigma1, slope, wetted


def kinked_loading_drag(cl: float, cl_from_flap: float, planform: Planform) -> float:
    """Added induced drag coefficient [-] of a flap over part of the span, on the whole area.

    cl: of the foil; cl_from_flap: the part of it that the flap's deflection makes. Zero for a full-span flap.
    Lifting line; the numbers come from planform.flap_numbers. May be slightly negative where the flap
    brings the loading nearer to elliptic.
    """
    return (cl * cl_from_flap * planform.kink_cross + cl_from_flap * cl_from_flap * planform.kink_square) / (
        pi * planform.aspect_ratio
    )


def stall_margins(
    alpha: float, alpha0: float, slope: float, cl_max: float, cl_min: float, planform: Planform
) -> tuple[float, float]:
    """Angle of attack left before stall [rad]: upwards, and downwards; negative beyond.

    slope: the third value of foil_coefficients. The limit is where the straight lift line meets the limit.
    """
    up = alpha0 + planform.stall_share * cl_max / slope - alpha
    down = alpha - alpha0 - planform.stall_share * cl_min / slope
    return up, down


def lift_doubt_at_low_froude(depth_froude: float) -> float:
    """Share of the lift [-] by which the image may be too hopeful at depth Froude number U / sqrt(g depth).

    0.11 (2 / Fh)^1.5, at most 0.13; for notes beside a result, never to change it. It is the
    two-dimensional linear theory's loss of lift below the infinite-Froude image at four chords' depth: an
    upper bound, since a finite span makes waves much longer than itself and most of the loss is then
    absent. At two chords the two-dimensional loss is twice this.
    """
    if depth_froude < 1.8:
        return 0.13
    ratio = 2.0 / depth_froude
    return 0.11 * ratio * sqrt(ratio)


def sheet_average(half_rear: float, height: float, half_main: float, core: float) -> float:
    """Downwash of a flat elliptic wake over that on a thin one, averaged over |y| <= half_rear [-].

    height: over the sheet, either sign; core: radius of its filaments [m, all four].

        m = 1 - Re sqrt((a + i z)^2 - s^2) / a,    z = sqrt(height^2 + core^2)

    exact for filaments that turn the water at Gamma r / (2 pi (r^2 + core^2)) (Rosenhead 1930): their stream
    function Gamma/(4 pi) ln(r^2 + core^2) at a height is the thin sheet's at z, and the average over the span
    is the difference of the stream function between its ends. core 0: the thin sheet (Prandtl; Milne-Thomson,
    Theoretical Aerodynamics), with a corner on it.
    """
    a, s = half_rear, half_main
    z2 = height * height + core * core
    # real part of sqrt((a + i z)^2 - s^2), without cancellation on either side
    x = a * a - z2 - s * s
    y2 = 4.0 * a * a * z2
    r = sqrt(x * x + y2 + 1e-18)
    if x < 0.0:
        return 1.0 - sqrt(0.5 * y2 / (r - x)) / a
    return 1.0 - sqrt(0.5 * (r + x)) / a


def nearness_factor(distance_in_spans: float) -> float:
    """Downwash at a distance behind the bound vortex over that far behind [-].

    A single horseshoe of span (pi/4) b, in its own plane: 1.037 at one span, 1.007 at 2.3.
    """
    near = 0.39269908169872414 / distance_in_spans
    return 0.5 * (1.0 + sqrt(1.0 + near * near))


def downwash_angle(
    cl_main: float,
    aspect_ratio_main: float,
    span_main: float,
    span_rear: float,
    height_over_sheet: float,
    depth_main: float,
    depth_rear: float,
    distance_aft: float,
) -> float:
    """Downwash of the main foil and its image on the rear foil [rad], averaged over the rear span; down
    positive.

    cl_main: lift coefficient of the main foil on its whole area; spans, depths, distance aft [m];
    height_over_sheet: rear foil above the main foil's wake sheet [m], either sign.

        nearness x 2 CL / (pi AR) x [m(height over the sheet) + m(depth_main + depth_rear)]

    with m of sheet_average. The filaments' core of 0.025 spans is the thickness of the viscous wake, 0.020
    (Silverstein, Katzoff & Bullivant, NACA TR 651, 1939), and what fits that wake best when it has rolled up.
    On the sheet it takes 10 % off for a rear span of 0.86 main spans, 22 % for an equal one.

    The sheet is the horizontal plane through the main foil: height_over_sheet = depth_main - depth_rear.
    Its middle sinks by up to 0.13 spans on the way, but it rolls up as it sinks, and its tips, which carry
    most of the vorticity, do not. A rolled-up wake gives the average within 10 % of the sheet's for a rear
    span of 0.86 main spans; a descended flat sheet would be up to 40 % off. No waves.
    """
    s = 0.5 * span_main
    a = 0.5 * span_rear
    core = _WAKE_CORE * span_main
    own = sheet_average(a, height_over_sheet, s, core)
    image = sheet_average(a, depth_main + depth_rear, s, core)
    factor = nearness_factor(distance_aft / span_main)
    return factor * (own + image) * 2.0 * cl_main / (pi * aspect_ratio_main)


def cavitation_number(
    speed: float, depth: float, density: float, gravity: float, air_pressure: float, vapour_pressure: float
) -> float:
    """(p_air + rho g depth - p_vapour) / (rho U^2 / 2) [-]; cavitation starts when -cp_min reaches it."""
    pressure = air_pressure + density * gravity * depth - vapour_pressure
    return pressure / (0.5 * density * speed * speed + 1e-9)


def cavitation_speed(
    cp_min: float, depth: float, density: float, gravity: float, air_pressure: float, vapour_pressure: float
) -> float:
    """Speed at which cavitation starts [m/s] for a lowest pressure coefficient cp_min (negative) [-].

    A cp_min above -0.01 counts as -0.01. Clean water, smooth foil: nuclei, nicks and gaps start it earlier.
    """
    suction = -cp_min
    if suction < 0.01:
        suction = 0.01
    pressure = air_pressure + density * gravity * depth - vapour_pressure
    if pressure < 0.0:
        pressure = 0.0
    return sqrt(2.0 * pressure / (density * suction))


def flap_hinge_moment(dynamic_pressure: float, flap_area: float, flap_chord: float, ch: float) -> float:
    """Moment about the flap's hinge [N m], positive when it pushes the trailing edge down, to more lift.

    ch: hinge-moment coefficient on flap area and flap chord, trailing edge down positive (mostly negative)
    [-].
    """
    return dynamic_pressure * flap_area * flap_chord * ch


def whole_foil_hinge_moment(
    dynamic_pressure: float,
    cl: float,
    cd: float,
    cm_quarter: float,
    alpha: float,
    pivot_share: float,
    planform: Planform,
) -> float:
    """Moment about the pivot of a foil that turns as a whole [N m], positive nose up, to more lift.

    cm_quarter: section moment about its quarter chord, nose up positive [-]; pivot_share: pivot aft of the
    leading edge over the mean aerodynamic chord. The lift acts at the finite foil's aerodynamic centre, a
    little ahead of the quarter chord; coefficients on the whole area and, for cm, the mean aerodynamic
    chord.
    """
    normal = cl * cos(alpha) + cd * sin(alpha)
    arm = pivot_share - planform.centre_share
    return dynamic_pressure * planform.area * planform.moment_chord * (cm_quarter + arm * normal)
