"""Section data looked up in kernels: two-dimensional lift line and polar of a foil with a flap.

The tables hold coefficients of a quadratic B-spline in every direction (made by section_data), so the value
passes through every tabulated point and its first derivative is continuous; three weights a direction. Beyond
the tables the lookups hold the edge value, and `inside_tables` says so. Theory: docs/theory/section.md.
"""

from math import floor
from typing import NamedTuple

from foilwright.measures import Floats
from foilwright.smooth import clip


class SectionTables(NamedTuple):
    """One row a foil of the boat. Start and step of a grid refer to its tabulated points; the arrays carry
    one coefficient more at each end of each of those directions."""

    alpha_start: float  # [rad] two-dimensional angle of attack
    alpha_step: float
    flap_start: float  # [rad] trailing edge down positive
    flap_step: float
    log_re_start: float  # natural logarithm of the Reynolds number
    log_re_step: float
    line: Floats  # [section, re, flap, 4]: zero-lift angle [rad], lift slope [1/rad], greatest cl, least cl
    polar: Floats  # [section, re, flap, alpha, 4]: cd, cm, ch, cp_min


def grid_place(x: float, start: float, step: float, count: int) -> tuple[int, float]:
    """Nearest of `count` tabulated points to x, and the distance to it in steps (-0.5 to 0.5); x is held
    inside."""
    place = clip((x - start) / step, 0.0, count - 1.0)
    nearest = int(floor(place + 0.5))
    if nearest > count - 1:
        nearest = count - 1
    if nearest < 0:  # not a number came in
        nearest = 0
    return nearest, place - nearest


def spline_weights(t: float) -> tuple[float, float, float]:
    """Weights of the quadratic B-spline at -0.5 <= t <= 0.5 from the nearest point."""
    before = 0.5 - t
    after = 0.5 + t
    return 0.5 * before * before, 0.75 - t * t, 0.5 * after * after


def section_line(
    tables: SectionTables, section: int, flap: float, log_re: float
) -> tuple[float, float, float, float]:
    """Zero-lift angle [rad], lift slope [1/rad], greatest and least lift coefficient of one section.

    flap [rad] trailing edge down positive, log_re natural logarithm of the Reynolds number. The slope is
    fitted to the working range of cl; valid between the greatest and the least.
    """
    line = tables.line
    i, t = grid_place(log_re, tables.log_re_start, tables.log_re_step, line.shape[1] - 2)
    j, s = grid_place(flap, tables.flap_start, tables.flap_step, line.shape[2] - 2)
    along_re = spline_weights(t)
    f0, f1, f2 = spline_weights(s)
    zero_lift = 0.0
    slope = 0.0
    greatest = 0.0
    least = 0.0
    for m in range(3):
        w = along_re[m]
        a = i + m
        w0 = w * f0
        w1 = w * f1
        w2 = w * f2
        zero_lift += (
            w0 * line[section, a, j, 0] + w1 * line[section, a, j + 1, 0] + w2 * line[section, a, j + 2, 0]
        )
        slope += (
            w0 * line[section, a, j, 1] + w1 * line[section, a, j + 1, 1] + w2 * line[section, a, j + 2, 1]
        )
        greatest += (
            w0 * line[section, a, j, 2] + w1 * line[section, a, j + 1, 2] + w2 * line[section, a, j + 2, 2]
        )
        least += (
            w0 * line[section, a, j, 3] + w1 * line[section, a, j + 1, 3] + w2 * line[section, a, j + 2, 3]
        )
    return zero_lift, slope, greatest, least


def section_polar(
    tables: SectionTables, section: int, flap: float, log_re: float, alpha: float
) -> tuple[float, float, float, float]:
    """Drag, moment, hinge moment and least pressure coefficient of one section at a two-dimensional angle of
    attack.

    Returns cd; cm about the quarter chord, nose up positive; ch on the flap chord squared, positive when it
    pushes the trailing edge down (towards more lift), 0 for a section without flap; cp_min, negative. alpha
    [rad] of the chord line with the flap at rest, flap [rad], log_re natural logarithm of the Reynolds
    number.
    """
    polar = tables.polar
    i, t = grid_place(log_re, tables.log_re_start, tables.log_re_step, polar.shape[1] - 2)
    j, s = grid_place(flap, tables.flap_start, tables.flap_step, polar.shape[2] - 2)
    k, r = grid_place(alpha, tables.alpha_start, tables.alpha_step, polar.shape[3] - 2)
    along_re = spline_weights(t)
    along_flap = spline_weights(s)
    a0, a1, a2 = spline_weights(r)
    k1 = k + 1
    k2 = k + 2
    cd = 0.0
    cm = 0.0
    ch = 0.0
    cp_min = 0.0
    for m in range(3):
        a = i + m
        for n in range(3):
            b = j + n
            w = along_re[m] * along_flap[n]
            w0 = w * a0
            w1 = w * a1
            w2 = w * a2
            cd += (
                w0 * polar[section, a, b, k, 0]
                + w1 * polar[section, a, b, k1, 0]
                + w2 * polar[section, a, b, k2, 0]
            )
            cm += (
                w0 * polar[section, a, b, k, 1]
                + w1 * polar[section, a, b, k1, 1]
                + w2 * polar[section, a, b, k2, 1]
            )
            ch += (
                w0 * polar[section, a, b, k, 2]
                + w1 * polar[section, a, b, k1, 2]
                + w2 * polar[section, a, b, k2, 2]
            )
            cp_min += (
                w0 * polar[section, a, b, k, 3]
                + w1 * polar[section, a, b, k1, 3]
                + w2 * polar[section, a, b, k2, 3]
            )
    return cd, cm, ch, cp_min


def section_hinge(tables: SectionTables, section: int, flap: float, log_re: float, alpha: float) -> float:
    """The hinge moment coefficient of `section_polar` alone, a quarter of the work."""
    polar = tables.polar
    i, t = grid_place(log_re, tables.log_re_start, tables.log_re_step, polar.shape[1] - 2)
    j, s = grid_place(flap, tables.flap_start, tables.flap_step, polar.shape[2] - 2)
    k, r = grid_place(alpha, tables.alpha_start, tables.alpha_step, polar.shape[3] - 2)
    along_re = spline_weights(t)
    along_flap = spline_weights(s)
    a0, a1, a2 = spline_weights(r)
    ch = 0.0
    for m in range(3):
        for n in range(3):
            w = along_re[m] * along_flap[n]
            ch += (
                w * a0 * polar[section, i + m, j + n, k, 2]
                + w * a1 * polar[section, i + m, j + n, k + 1, 2]
                + w * a2 * polar[section, i + m, j + n, k + 2, 2]
            )
    return ch


def inside_tables(tables: SectionTables, flap: float, log_re: float, alpha: float) -> float:
    """1 when flap [rad], log_re and alpha [rad] all lie on the tabulated grid, else 0 (a held edge value came
    back)."""
    last_re = tables.log_re_start + tables.log_re_step * (tables.polar.shape[1] - 3)
    last_flap = tables.flap_start + tables.flap_step * (tables.polar.shape[2] - 3)
    last_alpha = tables.alpha_start + tables.alpha_step * (tables.polar.shape[3] - 3)
    if log_re < tables.log_re_start or log_re > last_re:
        return 0.0
    if flap < tables.flap_start or flap > last_flap:
        return 0.0
    if alpha < tables.alpha_start or alpha > last_alpha:
        return 0.0
    return 1.0
