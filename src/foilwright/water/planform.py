"""What a foil's outline does to its lift and drag: numbers worked out once, when the boat is read.

Glauert's lifting line for a trapezoid gives the span loading; fitted factors bring it to a lifting surface.
The kernels in foil.py take the result as a `Planform`.
"""

from math import cos, exp, log, pi
from typing import NamedTuple

import numpy as np

from foilwright.measures import Floats

_TERMS = 60
_TWO_PI = 2.0 * pi


class Planform(NamedTuple):
    """One foil's outline as numbers; every field a float."""

    span: float
    """[m]"""
    area: float
    """[m2]"""
    chord: float
    """mean chord, area / span [m]"""
    moment_chord: float
    """mean aerodynamic chord, the length that moment coefficients go with [m]"""
    aspect_ratio: float
    """span^2 / area [-]"""
    slope_term: float
    """(1 + tau) / (pi aspect ratio): induced angle per lift coefficient in deep water [rad]"""
    drag_term: float
    """(1 + delta) / (pi aspect ratio): induced drag coefficient per lift coefficient squared, deep [-]"""
    lift_factor: float
    """lifting surface over lifting line, on the lift slope [-]"""
    sweep_cosine: float
    """cosine of the quarter-chord sweep, on the section's lift slope [-]"""
    stall_share: float
    """lift coefficient of the foil over that of its most loaded section [-]"""
    centre_share: float
    """aerodynamic centre aft of the leading edge of the mean aerodynamic chord, over that chord [-]"""
    flap_share: float
    """share of a full-span flap's change of zero-lift angle that a flap over part of the span gives [-]"""
    kink_cross: float
    """induced drag of the flap's kinked loading: factor of CL x CL from flap / (pi aspect ratio) [-]"""
    kink_square: float
    """same, factor of (CL from flap)^2 / (pi aspect ratio) [-]"""


class LiftingLine(NamedTuple):
    """Results of the lifting line in deep water for a foil at one angle of attack."""

    slope: float
    """lift slope [1/rad]"""
    tau: float
    """excess of the mean induced angle over elliptic loading [-]"""
    delta: float
    """excess of induced drag over elliptic loading [-]"""
    terms: Floats
    """Fourier terms A_1, A_3, A_5 ... per radian of angle of attack [1/rad]"""


def _stations(
    taper: float, aspect_ratio: float, section_slope: float
) -> tuple[Floats, Floats, Floats, Floats]:
    """Angles of the control stations, odd orders, mu = c a0 / (4 b) there, and the matrix."""
    theta: Floats = 0.5 * pi * np.arange(1.0, _TERMS + 1.0) / _TERMS
    order: Floats = 2.0 * np.arange(_TERMS, dtype=np.float64) + 1.0
    chord: Floats = 2.0 / (1.0 + taper) * (1.0 - (1.0 - taper) * np.cos(theta)) / aspect_ratio  # of the span
    mu: Floats = 0.25 * section_slope * chord
    matrix: Floats = np.sin(np.outer(theta, order)) * (np.outer(mu, order) + np.sin(theta)[:, None])
    return theta, order, mu, matrix


def lifting_line(aspect_ratio: float, taper: float, section_slope: float = _TWO_PI) -> LiftingLine:
    """Glauert's lifting line for a straight trapezoid, 60 odd terms, section slope [1/rad].

    Circulation 2 b U sum A_n sin(n theta) with y = (b/2) cos theta, theta_j = pi j / (2 N), mu = c a0 / (4
    b):

        sum A_n sin(n theta) (n mu + sin theta) = mu alpha sin theta
        CL = pi AR A_1,  delta = sum n (A_n / A_1)^2 - 1,  CL / alpha = a0 / (1 + a0 (1 + tau) / (pi AR))

    Source: H. Glauert, The Elements of Aerofoil and Airscrew Theory, 1926, ch. XI.
    """
    theta, order, mu, matrix = _stations(taper, aspect_ratio, section_slope)
    terms: Floats = np.asarray(np.linalg.solve(matrix, mu * np.sin(theta)), dtype=np.float64)
    slope = float(pi * aspect_ratio * terms[0])
    tau = (1.0 / slope - 1.0 / section_slope) * pi * aspect_ratio - 1.0
    delta = float(np.sum(order * (terms / terms[0]) ** 2)) - 1.0
    return LiftingLine(slope, tau, delta, terms)


def most_loaded_section(taper: float, line: LiftingLine) -> tuple[float, float]:
    """CL of the foil over the largest local lift coefficient, and where it is as a share of the half span.

    Looked for over the inner 95 % of the half span.
    """
    y = np.linspace(0.0, 0.95, 191)
    order = 2.0 * np.arange(len(line.terms)) + 1.0
    circulation = np.sin(np.outer(np.arccos(y), order)) @ line.terms
    chord = 2.0 / (1.0 + taper) * (1.0 - (1.0 - taper) * y)  # of the mean chord
    # local cl = 4 b sum / c; CL = pi AR A_1; b / mean chord = AR
    local = 4.0 * circulation / chord / (pi * line.terms[0])
    worst = int(np.argmax(local))
    return 1.0 / float(local[worst]), float(y[worst])


def flap_numbers(aspect_ratio: float, taper: float, flap_span_share: float) -> tuple[float, float, float]:
    """(flap_share, kink_cross, kink_square) of a flap over the middle share of the span.

    Lifting line with the flap's angle over |y| < flap_span_share x b/2 only, terms s_n = B_n / B_1 beside
    those of plain angle of attack r_n = A_n / A_1. With CL = CL_plain + CL_flap, and K the excess over CL^2
    (1 + delta) / (pi AR): K = [2 CL CL_flap sum n r_n (s_n - r_n) + CL_flap^2 sum n (s_n - r_n)^2] / (pi
    AR).
    """
    if flap_span_share >= 1.0:
        return 1.0, 0.0, 0.0
    theta, order, mu, matrix = _stations(taper, aspect_ratio, _TWO_PI)
    # share of each station's cell that lies on the flap, so that the result varies smoothly with the share
    half_cell = 0.25 * pi / _TERMS
    start = np.arccos(max(flap_span_share, 0.0))
    on_flap = np.clip((theta + half_cell - start) / (2.0 * half_cell), 0.0, 1.0)
    plain = np.linalg.solve(matrix, mu * np.sin(theta))
    kinked = np.linalg.solve(matrix, mu * np.sin(theta) * on_flap)
    if kinked[0] <= 0.0:
        return 0.0, 0.0, 0.0
    r, s = plain / plain[0], kinked / kinked[0]
    cross = 2.0 * float(np.sum(order * r * (s - r)))
    square = float(np.sum(order * (s - r) ** 2))
    return float(kinked[0] / plain[0]), cross, square


def lifting_surface_factor(aspect_ratio: float) -> float:
    """Lift slope of a flat lifting surface over that of the lifting line [-], 1 / (1 + 0.513 AR^-1.077).

    Fitted to a vortex lattice of rectangular wings, aspect ratio 4 to 16, within 0.0006; tapers 0.3 to 1
    differ by up to 0.006.
    """
    return 1.0 / (1.0 + 0.513 * exp(-1.077 * log(aspect_ratio)))


def drag_excess_factor(aspect_ratio: float) -> float:
    """Lifting surface's delta over the lifting line's [-], 1 / (1 + 9.6 / AR + 73 / AR^3).

    The tips of a lifting surface carry less than the lifting line says, so its loading is nearer to
    elliptic. Fitted to the same lattice, rectangular, aspect ratio 4 to 16; with tapers 0.3 to 0.7 delta is
    then within 0.006.
    """
    return 1.0 / (1.0 + 9.6 / aspect_ratio + 73.0 / aspect_ratio**3)


def planform(span: float, area: float, taper: float, sweep: float, flap_span_share: float) -> Planform:
    """A foil's planform numbers from span [m], area [m2], taper (tip over root), quarter-chord sweep [rad],
    and the share of the span that has a flap (1 for full span or none).

    Validity: trapezoids of aspect ratio 4 to 16, taper 0.2 to 1, sweep below 0.5 rad, no twist.
    """
    aspect_ratio = span * span / area
    line = lifting_line(aspect_ratio, taper)
    delta = line.delta * drag_excess_factor(aspect_ratio)
    stall_share, _ = most_loaded_section(taper, line)
    flap_share, kink_cross, kink_square = flap_numbers(aspect_ratio, taper, flap_span_share)
    chord = area / span
    return Planform(
        span=span,
        area=area,
        chord=chord,
        moment_chord=chord * 4.0 / 3.0 * (1.0 + taper + taper * taper) / (1.0 + taper) ** 2,
        aspect_ratio=aspect_ratio,
        slope_term=(1.0 + line.tau) / (pi * aspect_ratio),
        drag_term=(1.0 + delta) / (pi * aspect_ratio),
        lift_factor=lifting_surface_factor(aspect_ratio),
        sweep_cosine=cos(sweep),
        stall_share=min(stall_share, 1.0),
        centre_share=0.25 - 0.065 / aspect_ratio,
        flap_share=flap_share,
        kink_cross=kink_cross,
        kink_square=kink_square,
    )
