"""Foils and struts of the second opinion, after `docs/theory/section.md`, `foil.md`, `foil-flow.md`,
`downwash.md` and `strut.md`.
"""

from __future__ import annotations

import cmath
import itertools
from math import cos, hypot, log, log10, pi, sin, sqrt
from typing import NamedTuple

import numpy as np

from tests.second_opinion.corners import above, ramp, within


class Section:
    """One foil's section at one Reynolds number: the tensor product of quadratic B-splines."""

    def __init__(self, tables, which, log_re):
        self.tables = tables
        by_re = bumps(log_re, tables.log_re_start, tables.log_re_step, tables.line.shape[1])
        self.lines = np.tensordot(by_re, tables.line[which], 1)
        self.polars = np.tensordot(by_re, tables.polar[which], 1)

    def by_flap(self, flap):
        return bumps(flap, self.tables.flap_start, self.tables.flap_step, self.lines.shape[0])

    def line(self, flap):
        """Zero-lift angle, slope, greatest and least lift."""
        return tuple(float(v) for v in self.by_flap(flap) @ self.lines)

    def polar(self, flap, alpha):
        """Drag, moment, hinge moment, least pressure."""
        by_alpha = bumps(alpha, self.tables.alpha_start, self.tables.alpha_step, self.polars.shape[1])
        return tuple(float(v) for v in by_alpha @ np.tensordot(self.by_flap(flap), self.polars, 1))


def bumps(x, start, step, count):
    """All quadratic B-splines of an even grid at x; there is one more than points at either end."""
    place = min(max((x - start) / step, 0.0), count - 3.0)
    away = np.abs(place - np.arange(-1, count - 1))
    return np.where(away <= 0.5, 0.75 - away**2, np.where(away < 1.5, (1.5 - away) ** 2 / 2, 0.0))


class Lifting(NamedTuple):
    lift: float  # coefficients on the whole area
    drag: float
    moment: float
    hinge: float  # [N m]
    wetted: float
    stall: float  # angle that is left to the nearer stall [rad]
    least_pressure: float


def share_of_lift_left(depth, half_rise):
    """Mean over the span of what the surface leaves; depths in chords, numerically."""
    R = sqrt(half_rise**2 + 1e-4)
    edges = np.clip([-1.0, (0.0 - depth) / R, (0.2 - depth) / R, 1.0], -1, 1)
    total = 0.0
    for low, high in itertools.pairwise(edges):
        for node, weight in GAUSS:
            z = depth + R * ((low + high) / 2 + node * (high - low) / 2)
            total += weight * (high - low) / 2 * ramp(z, 0, 0.2)
    return total / 2


GAUSS = tuple(zip(*(v.tolist() for v in np.polynomial.legendre.leggauss(4)), strict=True))


def image_share(gap):
    """Induced angle of the image over that of the foil itself."""
    g = gap
    if g <= 0:
        return 1.0
    return (1 + 80.1 * g + 117 * g**2) / (1 + 88.6 * g + 495 * g**2 + 600 * g**3 + 936 * g**4)


class Foil:
    """A T-foil's horizontal in a flow: everything but the foil angle is given."""

    def __init__(self, boat, name, section, flow, q, depth, lean):
        self.get = lambda key: boat[f"{name}.{key}"]
        self.section, self.flow, self.q, self.depth = section, flow, q, depth
        b, S = self.get("span"), self.get("area")
        self.chord, self.ratio = S / b, b * b / S
        sine = lean
        tip = depth - b / 2 * (hypot(sine, 0.002) - 0.002)
        middle = depth + above(-tip, 0.1 * self.chord) / 2
        k = middle / self.chord
        self.bend = (16 * k * k + 1) / (16 * k * k + 2)
        self.image = image_share(2 * middle / b)
        self.wetted = share_of_lift_left(depth / self.chord, b * sine / (2 * self.chord))
        self.bare_zero = section.line(0.0)[0]

    def at(self, turn):
        """Coefficients and hinge moment at a foil angle."""
        get, AR = self.get, self.ratio
        flap = get("flap_per_turn") * turn
        alpha = self.flow + get("incidence") + get("incidence_per_turn") * turn
        zero, a0, most, least = self.section.line(flap * get("flap_share"))
        near = a0 * get("sweep_cosine") * self.bend
        slope = get("lift_factor") * near / (1 + near * (1 + get("tau")) * (1 + self.image) / (pi * AR))
        share = get("stall_share")
        CLw = within(slope * (alpha - zero), share * least, share * most, 0.06)
        CDi = CLw**2 * (1 + get("delta")) * (1 + self.image) / (pi * AR)
        cd, cm, ch, cp = self.section.polar(flap, zero + slope / a0 * (alpha - zero))
        CL, CD, CM = self.wetted * CLw, self.wetted * (CDi + cd), self.wetted * cm
        if get("kink_square") > 0:
            by_flap = self.wetted * slope * (self.bare_zero - zero)
            CD += (get("kink_cross") * CL * by_flap + get("kink_square") * by_flap**2) / (pi * AR)
        E, S, mac = get("flap_chord_share"), get("area"), self.chord * get("moment_chord_ratio")
        hinge = (
            get("flap_per_turn") * self.wetted * self.q * S * E * get("flap_span_share") * self.chord * E * ch
        )
        hinge += (
            get("incidence_per_turn")
            * self.q
            * S
            * mac
            * (CM + (get("pivot_share") - get("centre_share")) * (CL * cos(alpha) + CD * sin(alpha)))
        )
        stall = min(zero + share * most / slope - alpha, alpha - zero - share * least / slope)
        return Lifting(CL, CD, CM, hinge, self.wetted, stall, cp)


def downwash(CL, boat, main_depth, rear_depth, over, aft):
    """Angle by which the main foil's flat wake and its image turn the flow down, mean over the rear span."""
    b = boat["main.span"]
    AR, s, a = b * b / boat["main.area"], b / 2, boat["rudder.span"] / 2

    def mean(height):
        z = hypot(height, 0.025 * b)  # the filaments' core
        return 1 - cmath.sqrt((a + 1j * z) ** 2 - s * s).real / a

    near = (1 + sqrt(1 + (pi * b / (8 * aft)) ** 2)) / 2
    return 2 * CL / (pi * AR) * (mean(over) + mean(main_depth + rear_depth)) * near


def friction_line(re):
    """ITTC 1957, below 1e4 its tangent."""
    if re >= 1e4:
        return 0.075 / (log10(re) - 2) ** 2
    return 0.01875 * (1 - (max(re, 0.0) / 1e4 - 1) / log(10))


def junction_drag(q, chord, share):
    return q * (share * chord) ** 2 * above(17 * share**2 - 0.05, 0.004)


class StrutForce(NamedTuple):
    drag: float  # [N]
    side: float


def strut_force(chord, share, wetted, speed, angle, piercing, wall, water, q):
    """Drag and side force of a strut: drag from the foil's rounded speed, side force from its q."""
    in_water = ramp(wetted, 0, 0.02)
    length, t, side_q, q = wetted * in_water, share * chord, q, water.density / 2 * speed**2
    cd = 2 * friction_line(speed * chord / water.viscosity) * (1 + 2 * share + 60 * share**4)
    drag = q * chord * length * cd + 0.24 * q * t * t * ramp(wetted, 0, 4 * t) * piercing
    A, w, a0, most = length / chord, 1 + 2.1 * wall, 6.0, 0.9
    Ae, kappa = 1.32 * A * w / (1 + 0.08 * A), a0 / pi
    slope = a0 * Ae / (kappa + sqrt(kappa**2 + Ae**2))
    CY = within(slope * angle, -0.9 * most, 0.9 * most, 0.06)
    drag += side_q * chord**2 * CY**2 * (1 + 0.036 * A) / (1.35 * pi * w) * in_water
    return StrutForce(drag, side_q * chord * length * CY)
