"""Finite foils near the surface and the downwash behind them, against theory and lattice values.

Sources
- Glauert, The Elements of Aerofoil and Airscrew Theory, 1926, ch. XI: lifting line; his four-term table
  from memory.
- Helmbold 1942; Jones 1946: lift slope of small aspect ratios. Tuck, Phys. Fluids A 5 (1993): square wing.
- Prandtl, NACA TR 116, 1921: biplane theory and linear fit.
- Hough & Moran, J. Ship Research 13 (1969): surface factor of the section.
- Wehausen & Laitone 1960; Lamb: waves of a submerged vortex (thin_plate.py).
- Katz & Plotkin, Low-Speed Aerodynamics: vortex lattice (vortex_lattice.py).
- Benson & Land, NACA tank tests of hydrofoils: no surface effect below 4 to 5 chords, aspect ratio 6.
Lattice and closed-form numbers were computed beforehand from these recipes, by another program than the
referees beside this file, which must reproduce them.
"""

from functools import cache
from math import cos, degrees, exp, pi, radians, sin, sqrt

import numpy as np
import pytest

from foilwright.water.foil import (
    biplane_factor,
    downwash_angle,
    foil_coefficients,
    lift_doubt_at_low_froude,
    nearness_factor,
    sheet_average,
    surface_factor,
)
from foilwright.water.planform import (
    drag_excess_factor,
    lifting_line,
    lifting_surface_factor,
    planform,
)
from tests.literature import rolled_wake, thin_plate
from tests.literature import vortex_lattice as vl
from tests.literature.published import (
    CLOSED_FORM,
    MEMORY,
    MEMORY_SURE,
    READ,
    REFEREE,
    Source,
    between,
    compare,
    missed,
    percent,
)

DEEP, BIPLANE, SURFACE = "Finite foil in deep water", "Biplane factor", "Foil under the free surface"
WAVES, WASH, CARRYING = "Plate at finite Froude number", "Downwash", "A foil carrying a boat"
LINE_SOURCE = Source(DEEP, "Glauert's lifting line, 60 odd terms, section slope 2π", CLOSED_FORM)
ELLIPTIC = Source(DEEP, "Elliptic lifting line, 2π/(1 + 2/AR)", CLOSED_FORM)
HELMBOLD = Source(DEEP, "Helmbold 1942, 2π AR/(2 + √(AR² + 4))", CLOSED_FORM)
GLAUERT = Source(DEEP, "Glauert 1926, printed four-term table for rectangular wings", MEMORY)
CHART = Source(DEEP, "Classic chart of δ over taper (Anderson; Katz & Plotkin)", MEMORY_SURE)
LATTICE = Source(DEEP, "Flat vortex lattice, 16 × 80, by another program", CLOSED_FORM)
TUCK = Source(DEEP, "Tuck, Phys. Fluids A 5 (1993): square flat wing", MEMORY_SURE)
PUBLISHED_SURFACE = Source(DEEP, "Published lifting-surface slope at aspect ratio 2", MEMORY)
LATTICE_HERE = Source(SURFACE, "Vortex lattice with image, beside the tests, 10 × 40", REFEREE)
DEEP_LATTICE_HERE = Source(DEEP, "Vortex lattice beside the tests, 10 × 40", REFEREE)
ELLIPTIC_PAIR = Source(BIPLANE, "Mutual drag of two elliptic loadings, integrated", CLOSED_FORM)
PRANDTL = Source(BIPLANE, "Prandtl's fit (1 − 0.66 G)/(1.05 + 3.7 G), NACA TR 116", MEMORY_SURE)
SINGLE_VORTEX = Source(
    SURFACE, "Single-vortex factor (1 + 16 k²)/(2 + 16 k²), Hough & Moran 1969", CLOSED_FORM
)
THIN_PLATE = Source(SURFACE, "Linear thin plate under its image, 200 vortices", CLOSED_FORM)
IMAGE_LATTICE = Source(SURFACE, "Flat vortex lattice with image, 10 × 60, by another program", CLOSED_FORM)
LINE_AND_BIPLANE = Source(SURFACE, "Lifting line with thin-plate and biplane factors", CLOSED_FORM)
BENSON = Source(SURFACE, "Benson & Land, NACA tank, AR 6: no effect below 4 to 5 chords", READ)
FAR_PLATE = Source(WAVES, "Linear thin plate, 120 vortices with waves (Wehausen & Laitone 1960)", CLOSED_FORM)
VORTEX_WAVES = Source(WAVES, "Wave drag of a vortex, exp(−2/Fh²)/(2 Fc²) (Lamb)", CLOSED_FORM)
HORSESHOE = Source(WASH, "Single horseshoe of span (π/4) b, CL 0.3", CLOSED_FORM)
WAKE_LATTICE = Source(
    WASH, "Rectangular flat vortex lattice with straight wake, by another program", CLOSED_FORM
)
WAKE_HERE = Source(WASH, "Vortex lattice beside the tests, 8 × 60", REFEREE)
ROLLED = Source(WASH, "Rolled-up wake of an elliptic foil, 120 vortices", REFEREE)
VISCOUS = Source(WASH, "Silverstein, Katzoff & Bullivant, NACA TR 651 (1939): width of a wake", MEMORY_SURE)
SPIRAL = Source(WASH, "Spreiter & Sacks, J. Aeronautical Sciences 18 (1951); Kaden's spiral", MEMORY_SURE)
BOAT = Source(CARRYING, "Vortex lattice with image: 0.10 m², AR 8, 0.50 m deep, 1024.79 N", CLOSED_FORM)

TWO_PI = 2.0 * pi
DEPTHS = (0.25, 0.5, 1.0, 2.0, 4.0, 8.0)


@cache
def lattice(aspect_ratio: float, taper: float, depth: float | None) -> tuple[float, float, float]:
    return vl.wing_results(aspect_ratio, taper, depth, 10, 40)


def ours(aspect_ratio: float, taper: float, depth: float) -> tuple[float, float]:
    """Lift slope and induced-drag factor CDi pi AR / CL^2 of a foil of mean chord 1."""
    p = planform(aspect_ratio, aspect_ratio, taper, 0.0, 1.0)
    cl, cdi, slope, _ = foil_coefficients(0.1, 0.0, TWO_PI, 9.0, -9.0, depth, 0.0, p)
    return slope, cdi * pi * aspect_ratio / cl**2


def lifting_line_by_sums(aspect_ratio: float, taper: float, terms: int) -> tuple[float, float, float]:
    """Slope, tau, delta: the same equation written out again, any number of odd terms."""
    rows, right = [], []
    for j in range(1, terms + 1):
        theta = pi * j / (2 * terms)
        chord = 2.0 / (1.0 + taper) * (1.0 - (1.0 - taper) * cos(theta)) / aspect_ratio
        mu = chord * TWO_PI / 4.0
        rows.append([sin((2 * i + 1) * theta) * ((2 * i + 1) * mu + sin(theta)) for i in range(terms)])
        right.append(mu * sin(theta))
    a = np.linalg.solve(np.array(rows), np.array(right))
    slope = pi * aspect_ratio * a[0]
    delta = sum((2 * i + 1) * (a[i] / a[0]) ** 2 for i in range(1, terms))
    return slope, (TWO_PI / slope - 1.0) * aspect_ratio / 2.0 - 1.0, delta


# --- unbounded fluid ---

LINE = [  # AR, rectangular slope, delta, tau, taper 0.4 slope, delta
    (4, 4.0284, 0.0285, 0.1195, 4.1506, 0.0048),
    (6, 4.5304, 0.0483, 0.1607, 4.6678, 0.0088),
    (8, 4.8377, 0.0676, 0.1952, 4.9794, 0.0130),
    (10, 5.0468, 0.0859, 0.2249, 5.1880, 0.0172),
    (12, 5.1991, 0.1031, 0.2511, 5.3378, 0.0213),
]


@pytest.mark.parametrize("row", LINE)
def test_lifting_line_of_trapezoids(row):
    ar, slope, delta, tau, slope4, delta4 = row
    rectangular, tapered = lifting_line(ar, 1.0), lifting_line(ar, 0.4)
    name = f"AR {ar}, lifting line"
    compare(f"{name}, rectangular: slope", slope, rectangular.slope, 1e-3, "/rad", LINE_SOURCE)
    compare(f"{name}, rectangular: δ", delta, rectangular.delta, 1e-3, "", LINE_SOURCE)
    compare(f"{name}, rectangular: τ", tau, rectangular.tau, 1e-3, "", LINE_SOURCE)
    compare(f"{name}, taper 0.4: slope", slope4, tapered.slope, 1e-3, "/rad", LINE_SOURCE)
    compare(f"{name}, taper 0.4: δ", delta4, tapered.delta, 1e-3, "", LINE_SOURCE)
    # never above elliptic loading
    assert rectangular.slope < tapered.slope < TWO_PI / (1.0 + 2.0 / ar)


@pytest.mark.parametrize(
    ("taper", "slope", "delta"),
    [
        (0.7, 4.9181, 0.0338),
        (0.6, 4.9427, 0.0245),
        (0.5, 4.9640, 0.0172),
        (0.3, 4.9846, 0.0141),
        (0.2, 4.9717, 0.0251),
    ],
)
def test_lifting_line_of_other_tapers(taper, slope, delta):
    line = lifting_line(8.0, taper)
    compare(f"AR 8, lifting line, taper {taper}: slope", slope, line.slope, 1e-3, "/rad", LINE_SOURCE)
    compare(f"AR 8, lifting line, taper {taper}: δ", delta, line.delta, 1e-3, "", LINE_SOURCE)


def test_least_induced_drag_near_taper_035_to_04():
    tapers = np.linspace(0.2, 1.0, 33)
    best = tapers[np.argmin([lifting_line(8.0, t).delta for t in tapers])]
    compare("AR 8: taper of least δ", 0.375, best, 0.03, "", CHART)


@pytest.mark.parametrize(("ar", "slope"), [(4, 4.1888), (6, 4.7124), (8, 5.0265), (10, 5.2360), (12, 5.3856)])
def test_elliptic_lifting_line(ar, slope):
    """Our slope term with no excess: what a trapezoid's lifting line stays below."""
    elliptic = TWO_PI / (1.0 + TWO_PI / (pi * ar))
    compare(f"AR {ar}: elliptic slope", slope, elliptic, 1e-3, "/rad", ELLIPTIC, referee=True)
    line = lifting_line(ar, 0.4)
    share = line.slope / elliptic
    between(f"AR {ar}: taper 0.4 over elliptic, lifting line", 0.988, 1.0, share, "", ELLIPTIC)


@pytest.mark.parametrize(
    ("ratio", "delta60", "tau60", "delta4", "tau4"),
    [
        (0.5, 0.0202, 0.099, 0.019, 0.10),
        (0.75, 0.0355, 0.135, 0.034, 0.14),
        (1.0, 0.0511, 0.166, 0.049, 0.17),
        (1.25, 0.0662, 0.193, 0.063, 0.20),
        (1.5, 0.0808, 0.217, 0.076, 0.22),
    ],
)
def test_glauert_rectangular_table(ratio, delta60, tau60, delta4, tau4):
    """Converged values to their last figure; Glauert's printed ones to 5 %, and from his own four terms."""
    ar = ratio * TWO_PI
    line, name = lifting_line(ar, 1.0), f"rectangular, AR/a0 {ratio:g}"
    compare(f"{name}: δ, 60 terms", delta60, line.delta, 2e-4, "", LINE_SOURCE)
    compare(f"{name}: τ, 60 terms", tau60, line.tau, 6e-4, "", LINE_SOURCE)
    _, tau, delta = lifting_line_by_sums(ar, 1.0, 4)
    compare(f"{name}: δ, his four terms", delta4, delta, 1.1e-3, "", GLAUERT, referee=True)
    compare(f"{name}: τ, his four terms", tau4, tau, 6e-3, "", GLAUERT, referee=True)
    row, reason = (
        f"{name}: δ as printed",
        "his table has four terms, ours sixty; with four we get his",
    )
    if ratio in (0.5, 1.25, 1.5):
        missed(row, delta4, line.delta, percent(5), percent(6.5), reason, "", GLAUERT)
    else:
        compare(row, delta4, line.delta, percent(5), "", GLAUERT)
    compare(f"{name}: τ as printed", tau4, line.tau, percent(5), "", GLAUERT)


def test_lifting_line_agrees_with_the_same_equation_written_again():
    line = lifting_line(9.15, 0.5)
    assert (line.slope, line.tau, line.delta) == pytest.approx(lifting_line_by_sums(9.15, 0.5, 60), rel=1e-9)


@pytest.mark.parametrize(
    ("ar", "slope", "e", "centre"),
    [
        (4, 3.612, 0.9938, 0.232),
        (6, 4.2145, 0.9839, 0.239),
        (8, 4.586, 0.972, 0.242),
        (10, 4.838, 0.9596, 0.244),
        (12, 5.0216, 0.9475, 0.245),
    ],
)
def test_referee_lattice_and_lifting_surface(ar, slope, e, centre):
    a, k, x = lattice(ar, 1.0, None)
    name = f"AR {ar}, rectangular"
    compare(f"{name}: lattice slope", slope, a, 1e-3, "/rad", LATTICE, referee=True)
    compare(f"{name}: lattice e", e, 1.0 / k, 1e-3, "", LATTICE, referee=True)
    compare(f"{name}: lattice centre", centre, x, 1e-3, "chords", LATTICE, referee=True)
    # and ours, to 1e-3; the factors are fits over aspect ratios 4 to 16
    p = planform(ar, ar, 1.0, 0.0, 1.0)
    line = lifting_line(ar, 1.0)
    if ar in (6, 8):
        size, reason = {6: 0.002, 8: 0.0012}[ar], "the lifting-surface factor is a fit: 0.05 % of the slope"
        missed(f"{name}: slope", slope, line.slope * p.lift_factor, 1e-3, size, reason, "/rad", LATTICE)
    else:
        compare(f"{name}: slope", slope, line.slope * p.lift_factor, 1e-3, "/rad", LATTICE)
    compare(f"{name}: e", e, 1.0 / (p.drag_term * pi * ar), 1e-3, "", LATTICE)
    row = f"{name}: aerodynamic centre"
    if ar == 4:
        reason = "0.25 − 0.065/AR is a fit for larger aspect ratios"
        missed(row, centre, p.centre_share, 1e-3, 0.002, reason, "chords", LATTICE)
    else:
        compare(row, centre, p.centre_share, 1e-3, "chords", LATTICE)


@pytest.mark.parametrize(
    ("ar", "factor"), [(4, 0.8966), (6, 0.9303), (8, 0.9480), (10, 0.9586), (12, 0.9659)]
)
def test_lifting_surface_factor(ar, factor):
    compare(f"AR {ar}: lifting surface over line", factor, lifting_surface_factor(ar), 6e-4, "", LATTICE)
    below = {4: 10.0, 6: 7.0, 8: 5.0, 10: 4.0}
    if ar in below:
        found = 100.0 * (1.0 - lifting_surface_factor(ar))
        compare(f"AR {ar}: lifting surface below line", below[ar], found, 0.5, "%", LATTICE)


def test_small_aspect_ratio_anchors_of_the_lattice():
    one, two = (vl.wing_results(ar, 1.0, None, 16, 60)[0] for ar in (1.0, 2.0))
    compare("AR 1: slope of the square wing", 1.46023, one, 1e-3, "/rad", TUCK, referee=True)
    compare("AR 1: lattice slope", 1.4601, one, 1e-3, "/rad", LATTICE, referee=True)
    compare("AR 2: published slope", 2.474, two, 1e-3, "/rad", PUBLISHED_SURFACE, referee=True)
    compare("AR 2: lattice slope", 2.4742, two, 1e-3, "/rad", LATTICE, referee=True)


@pytest.mark.parametrize(("ar", "slope"), [(4, 3.8832), (6, 4.5287), (8, 4.9058), (10, 5.1510), (12, 5.3227)])
def test_helmbold_is_the_upper_neighbour(ar, slope):
    """Helmbold, without a planform term, is 7 % above a rectangular lifting surface at aspect ratio 8."""
    helmbold = TWO_PI * ar / (2.0 + sqrt(ar * ar + 4.0))
    compare(f"AR {ar}: Helmbold's slope", slope, helmbold, 1e-3, "/rad", HELMBOLD, referee=True)
    above = {8: 7.0, 10: 6.0}
    if ar in above:
        found = 100.0 * (helmbold / ours(ar, 1.0, 1e3)[0] - 1.0)
        compare(f"AR {ar}: Helmbold above rectangular", above[ar], found, 0.5, "%", HELMBOLD)


@pytest.mark.parametrize("taper", [0.4, 0.5, 0.7])
@pytest.mark.parametrize("ar", [5, 8, 10, 12])
def test_deep_tapered_foils_against_the_lattice(ar, taper):
    a, k, _ = lattice(ar, taper, None)
    slope, factor = ours(ar, taper, 1e3)
    name = f"AR {ar}, taper {taper}, deep"
    compare(f"{name}: slope", round(a, 4), slope, percent(0.8), "/rad", DEEP_LATTICE_HERE)
    compare(f"{name}: CDi π AR/CL²", round(k, 4), factor, percent(0.6), "", DEEP_LATTICE_HERE)
    assert drag_excess_factor(ar) < 1.0


# --- biplane factor ---

SIGMA = {
    0.02: 0.8905,
    0.05: 0.7845,
    0.10: 0.6565,
    0.15: 0.5604,
    0.20: 0.4842,
    0.25: 0.4221,
    0.30: 0.3705,
    0.40: 0.2905,
    0.50: 0.2322,
    0.60: 0.1886,
    0.80: 0.1298,
    1.0: 0.0935,
    2.0: 0.0287,
}


def sigma_exact(gap: float) -> float:
    """Mutual over self induced drag of two elliptic loadings; y = cos theta, half span 1."""
    theta = pi * (np.arange(4000) + 0.5) / 4000
    zeta = np.cos(theta) + 2j * gap
    root = np.sqrt(zeta - 1.0) * np.sqrt(zeta + 1.0)
    weight = np.sin(theta) ** 2
    return float(np.sum((1.0 - (zeta / root).real) * weight) / np.sum(weight))


FIT = {
    0.02: 0.8779,
    0.05: 0.7830,
    0.10: 0.6577,
    0.15: 0.5614,
    0.20: 0.4849,
    0.25: 0.4228,
    0.30: 0.3713,
    0.40: 0.2909,
    0.50: 0.2310,
    0.60: 0.1847,
    0.80: 0.1177,
    1.0: 0.0716,
}


@pytest.mark.parametrize("gap", SIGMA)
def test_biplane_factor(gap):
    name = f"gap {gap:g}"
    compare(f"{name}: σ integrated", SIGMA[gap], sigma_exact(gap), 2e-4, "", ELLIPTIC_PAIR, referee=True)
    compare(f"{name}: σ", SIGMA[gap], biplane_factor(gap), 2e-3, "", ELLIPTIC_PAIR)
    prandtl = (1.0 - 0.66 * gap) / (1.05 + 3.7 * gap)
    if gap in FIT:
        compare(f"{name}: Prandtl's fit", FIT[gap], prandtl, 5e-5, "", PRANDTL, referee=True)
    if 1 / 15 <= gap <= 0.5:  # the fit's own range
        compare(f"{name}: σ as Prandtl's fit", FIT[gap], biplane_factor(gap), 2e-3, "", PRANDTL)
    if gap == 2.0:
        assert prandtl < 0.0


def test_biplane_factor_at_every_gap():
    for gap in np.geomspace(1e-3, 30.0, 60):
        assert biplane_factor(gap) == pytest.approx(sigma_exact(gap), abs=1.5e-3 if gap < 0.005 else 6e-4)
    assert biplane_factor(0.0) == 1.0
    assert biplane_factor(100.0) * 8.0 * 100.0**2 == pytest.approx(1.0, rel=0.01)


# --- free surface, infinite Froude number ---

TWO_D = {
    0.25: (0.6667, 0.7309),
    0.5: (0.8333, 0.8545),
    1.0: (0.9444, 0.9473),
    2.0: (0.9848, 0.9851),
    4.0: (0.9961, 0.9961),
    8.0: (0.9990, 0.9990),
}
RATIO = {  # aspect ratio: lift over deep lift by the lattice, by lifting line with biplane factor
    6: ((0.6991, 0.8052, 0.8984, 0.9566, 0.9855, 0.9960), (0.6898, 0.7930, 0.8873, 0.9499, 0.9827, 0.9951)),
    8: ((0.6998, 0.8056, 0.8958, 0.9512, 0.9815, 0.9945), (0.6924, 0.7954, 0.8858, 0.9447, 0.9787, 0.9935)),
    10: ((0.7017, 0.8080, 0.8965, 0.9489, 0.9787, 0.9931), (0.6956, 0.7992, 0.8872, 0.9425, 0.9757, 0.9921)),
}
OTHER_RATIO = {
    (4, 1.0): (0.7036, 0.8126, 0.9101, 0.9676, 0.9908),
    (5, 1.0): (0.7000, 0.8071, 0.9024, 0.9612, 0.9880),
    (12, 1.0): (0.7034, 0.8107, 0.8983, 0.9483, 0.9768),
    (8, 0.4): (0.6913, 0.7929, 0.8852, 0.9464, 0.9803),
    (10, 0.4): (0.6937, 0.7954, 0.8854, 0.9432, 0.9770),
}
DRAG = {  # aspect ratio: CDi pi AR / CL^2, and 1 + sigma
    6: ((1.697, 1.535, 1.349, 1.179, 1.075, 1.033), (1.695, 1.533, 1.341, 1.166, 1.059, 1.017)),
    8: ((1.764, 1.615, 1.435, 1.255, 1.121, 1.057), (1.748, 1.605, 1.422, 1.232, 1.094, 1.029)),
    10: ((1.816, 1.676, 1.504, 1.321, 1.169, 1.085), (1.785, 1.657, 1.484, 1.291, 1.130, 1.043)),
}


@pytest.mark.parametrize("depth", DEPTHS)
def test_surface_factor_of_the_section(depth):
    vortex, plate = TWO_D[depth]
    name = f"h/c {depth:g}, section"
    compare(f"{name}: factor", vortex, surface_factor(depth), 1e-4, "", SINGLE_VORTEX)
    found = thin_plate.lift_ratio(depth, None, 200)
    compare(f"{name}: thin plate", plate, found, 1e-4, "", THIN_PLATE, referee=True)
    row = f"{name}: factor as for a thin plate"
    if depth >= 1.0:
        compare(row, plate, surface_factor(depth), percent(0.31), "", THIN_PLATE)
    else:
        reason = "one vortex at the quarter chord stands for the section, as in the published formula"
        size = {0.25: 8.9, 0.5: 2.5}[depth]
        missed(row, plate, surface_factor(depth), percent(0.31), percent(size), reason, "", THIN_PLATE)


@pytest.mark.parametrize(("depth", "place"), [(8.0, 0.2499), (1.0, 0.2434), (0.5, 0.2324), (0.25, 0.2222)])
def test_centre_of_lift_moves_forward_near_the_surface(depth, place):
    found = thin_plate.centre_of_lift(depth)
    compare(f"h/c {depth:g}, section: centre", place, found, 2e-4, "chords", THIN_PLATE, referee=True)


# Depth in chords: what our explicit formula may miss the lattice's lift over deep lift by, per cent.
RATIO_MISSED = {
    1.0: {0.25: 8.1, 0.5: 4.0, 1.0: 2.4, 2.0: 1.6, 4.0: 0.8},
    0.4: {0.25: 6.6, 0.5: 1.7, 1.0: 0.4, 2.0: 0.4},
}
RATIO_REASON = "the lifting line exaggerates what the image's wake takes; nothing is fitted to mend that"


def _lift_over_deep(name, lattice_ratio, found, taper, depth):
    row = f"{name}: lift over deep"
    if abs(found - lattice_ratio) > 3e-3:
        size = percent(RATIO_MISSED[taper][depth])
        missed(row, lattice_ratio, found, 3e-3, size, RATIO_REASON, "", IMAGE_LATTICE)
    else:
        compare(row, lattice_ratio, found, 3e-3, "", IMAGE_LATTICE)


@pytest.mark.parametrize("ar", RATIO)
def test_lift_ratio_rows(ar):
    deep = lattice(ar, 1.0, None)[0]
    for depth, by_lattice, by_line in zip(DEPTHS, *RATIO[ar], strict=True):
        ratio = lattice(ar, 1.0, depth)[0] / deep
        name = f"AR {ar}, rectangular, h/c {depth:g}"
        compare(f"{name}: lattice lift over deep", by_lattice, ratio, 3e-3, "", IMAGE_LATTICE, referee=True)
        gap = 2.0 * depth / ar
        line = (1.0 + 2.0 / ar) / (1.0 / TWO_D[depth][1] + 2.0 * (1.0 + biplane_factor(gap)) / ar)
        compare(f"{name}: line and biplane", by_line, line, 1e-3, "", LINE_AND_BIPLANE)
        found = ours(ar, 1.0, depth)[0] / ours(ar, 1.0, 1e4)[0]
        _lift_over_deep(name, by_lattice, found, 1.0, depth)
        if depth >= 0.5:
            assert found < TWO_D[depth][0]  # the whole foil loses more than its section


@pytest.mark.parametrize(("ar", "taper"), OTHER_RATIO)
def test_lift_ratio_of_other_outlines(ar, taper):
    deep = lattice(ar, taper, None)[0]
    for depth, expected in zip(DEPTHS, OTHER_RATIO[ar, taper], strict=False):
        name = f"AR {ar}, " + ("rectangular" if taper == 1.0 else f"taper {taper}") + f", h/c {depth:g}"
        ratio = lattice(ar, taper, depth)[0] / deep
        compare(f"{name}: lattice lift over deep", expected, ratio, 3e-3, "", IMAGE_LATTICE, referee=True)
        found = ours(ar, taper, depth)[0] / ours(ar, taper, 1e4)[0]
        _lift_over_deep(name, expected, found, taper, depth)


DRAG_OVER_DEEP = {
    6: (1.670, 1.510, 1.327, 1.160, 1.057, 1.016),
    8: (1.715, 1.570, 1.395, 1.220, 1.090, 1.028),
    10: (1.743, 1.609, 1.444, 1.268, 1.122, 1.041),
}
DRAG_MISSED = {6: 1.5, 8: 2.3, 10: 3.0}  # per cent, by aspect ratio
DRAG_REASON = "(1 + δ)(1 + σ): a rectangle's own excess is kept whole near the surface, where it fades"


@pytest.mark.parametrize("ar", DRAG)
def test_induced_drag_rows(ar):
    deep = lattice(ar, 1.0, None)[1]
    over = dict(zip(DEPTHS, DRAG_OVER_DEEP[ar], strict=True))
    for depth, factor, sigma1 in zip(DEPTHS, *DRAG[ar], strict=True):
        k = lattice(ar, 1.0, depth)[1]
        name = f"AR {ar}, rectangular, h/c {depth:g}"
        compare(f"{name}: lattice CDi π AR/CL²", factor, k, 5e-3, "", IMAGE_LATTICE, referee=True)
        compare(f"{name}: lattice, over deep", over[depth], k / deep, 5e-3, "", IMAGE_LATTICE, referee=True)
        one_and_sigma = 1.0 + biplane_factor(2.0 * depth / ar)
        compare(f"{name}: 1 + σ", sigma1, one_and_sigma, 2e-3, "", LINE_AND_BIPLANE)
        compare(f"{name}: 1 + σ as drag over deep", over[depth], one_and_sigma, percent(3), "", IMAGE_LATTICE)
        found, row = ours(ar, 1.0, depth)[1], f"{name}: CDi π AR/CL²"
        if abs(found - factor) <= 5e-3:
            compare(row, factor, found, 5e-3, "", IMAGE_LATTICE)
        else:
            missed(row, factor, found, 5e-3, percent(DRAG_MISSED[ar]), DRAG_REASON, "", IMAGE_LATTICE)


@pytest.mark.parametrize(("depth", "centre"), [(1.0, 0.235), (0.5, 0.224), (0.25, 0.213)])
def test_aerodynamic_centre_near_the_surface(depth, centre):
    found, name = lattice(8, 1.0, depth)[2], f"AR 8, rectangular, h/c {depth:g}"
    compare(f"{name}: lattice centre", centre, found, 1e-3, "chords", IMAGE_LATTICE, referee=True)
    ours_deep = planform(8.0, 8.0, 1.0, 0.0, 1.0).centre_share
    reason = "ours does not move with depth; 3 % of a chord is 3 mm"
    row, size = f"{name}: aerodynamic centre", {1.0: 0.008, 0.5: 0.019, 0.25: 0.03}[depth]
    missed(row, centre, ours_deep, 1e-3, size, reason, "chords", IMAGE_LATTICE)


def test_the_lattice_has_converged():
    """Aspect ratio 8, a quarter of a chord deep: 6 x 40 panels against the 10 x 60 of the rows."""
    near, deep = (vl.wing_results(8, 1.0, depth, 6, 40)[0] for depth in (0.25, None))
    compare("AR 8, h/c 0.25, 6 × 40 panels", 0.6993, near / deep, 5e-4, "", IMAGE_LATTICE, referee=True)


# What the explicit formula is worth: largest difference from the lattice, by depth in chords.
LIFT_BOUND = {
    1.0: (0.086, 0.042, 0.025, 0.017, 0.009, 0.004),
    0.5: (0.079, 0.028, 0.013, 0.011, 0.009, 0.008),
    0.4: (0.078, 0.024, 0.010, 0.010, 0.009, 0.008),
}
DRAG_BOUND = {1.0: 0.038, 0.5: 0.019, 0.4: 0.016}


@pytest.mark.parametrize("taper", LIFT_BOUND)
def test_explicit_formula_against_the_lattice_with_image(taper):
    """Largest difference over aspect ratios 5, 6, 8, 10 and 12."""
    outline = "rectangular" if taper == 1.0 else f"taper {taper}"
    worst_drag = 0.0
    for depth, bound in zip(DEPTHS, LIFT_BOUND[taper], strict=True):
        worst = 0.0
        for ar in (5, 6, 8, 10, 12):
            a, k, _ = lattice(ar, taper, depth)
            slope, factor = ours(ar, taper, depth)
            worst = max(worst, 100.0 * abs(slope / a - 1.0))
            worst_drag = max(worst_drag, 100.0 * abs(factor / k - 1.0))
        row = f"AR 5 to 12, {outline}, h/c {depth:g}: slope, largest difference"
        compare(row, None, worst, 100.0 * bound, "%", LATTICE_HERE)
    row = f"AR 5 to 12, {outline}, every depth: drag at the lift, largest difference"
    compare(row, None, worst_drag, 100.0 * DRAG_BOUND[taper], "%", LATTICE_HERE)


def test_no_surface_effect_deeper_than_five_chords():
    """Benson & Land: aspect ratio 6, no visible effect on lift below 4 to 5 chords. Ours: under 2 %."""
    for depth, least in ((4.0, 0.98), (5.0, 0.985)):
        found = ours(6, 1.0, depth)[0] / ours(6, 1.0, 1e4)[0]
        between(f"AR 6, h/c {depth:g}: no visible effect on lift", least, 1.0, found, "", BENSON)


@pytest.mark.parametrize(
    ("speed", "cl", "angle", "cdi", "drag"),
    [(6.0, 0.5698, 7.231, 0.01429, 25.71), (10.0, 0.2051, 2.603, 0.00185, 9.25)],
)
def test_a_foil_carrying_a_boat(speed, cl, angle, cdi, drag):
    """Lattice with image: rectangular, 0.10 m2, aspect ratio 8, 0.50 m deep, 1024.79 N in fresh water at 15
    degrees."""
    area, density = 0.10, 999.1
    p = planform(sqrt(8.0 * area), area, 1.0, 0.0, 1.0)
    q, close, at = 0.5 * density * speed**2, percent(0.5), f"{speed:g} m/s"
    compare(f"{at}: CL to carry", cl, 1024.79 / (q * area), close, "", BOAT, referee=True)
    got, got_drag, slope, _ = foil_coefficients(radians(angle), 0.0, TWO_PI, 9.0, -9.0, 0.5, 0.0, p)
    compare(f"{at}: CL at {angle}°", cl, got, close, "", BOAT)
    compare(f"{at}: slope", 4.515, slope, close, "/rad", BOAT)
    deep = foil_coefficients(radians(angle), 0.0, TWO_PI, 9.0, -9.0, 1e3, 0.0, p)[2]
    compare(f"{at}: slope over deep", 0.9846, slope / deep, close, "", BOAT)
    per_lift = got_drag / got**2 * cl**2
    compare(f"{at}: CDi", cdi, per_lift, close, "", BOAT)
    compare(f"{at}: induced drag", drag, per_lift * q * area, close, "N", BOAT)
    compare(f"{at}: CDi π AR/CL²", 1.106, got_drag / got**2 * pi * 8.0, close, "", BOAT)
    reynolds = speed * p.chord / 1.1386e-6
    compare(f"{at}: Reynolds number", {6.0: 5.89e5, 10.0: 9.82e5}[speed], reynolds, close, "", BOAT)


# --- finite Froude number: a caution only ---

FROUDE: dict[float | None, tuple[float, ...]] = {
    0.5: (1.298, 1.104, 1.028, 1.007),
    1: (0.864, 0.764, 0.836, 0.906),
    1.5: (0.448, 0.607, 0.763, 0.870),
    2: (0.443, 0.634, 0.790, 0.888),
    2.5: (0.491, 0.685, 0.828, 0.911),
    3: (0.543, 0.732, 0.860, 0.930),
    4: (0.632, 0.802, 0.904, 0.954),
    5: (0.692, 0.845, 0.929, 0.968),
    7: (0.761, 0.891, 0.955, 0.981),
    10: (0.805, 0.918, 0.970, 0.988),
}
PLATE_RATIO: dict[float | None, tuple[float, ...]] = {**FROUDE, None: (0.8545, 0.9473, 0.9851, 0.9961)}
WAVE_DRAG = {
    0.5: 0.0002,
    1: 0.0633,
    1.5: 0.0903,
    2: 0.0755,
    2.5: 0.0580,
    3: 0.0445,
    4: 0.0276,
    5: 0.0185,
    7: 0.0098,
    10: 0.0049,
}


VORTEX_DRAG = {
    0.5: 0.0007,
    1: 0.0677,
    1.5: 0.0914,
    2: 0.0758,
    2.5: 0.0581,
    3: 0.0445,
    4: 0.0276,
    5: 0.0185,
    7: 0.0098,
    10: 0.0049,
}


@pytest.mark.parametrize("froude", PLATE_RATIO)
def test_two_dimensional_plate_at_finite_froude(froude):
    for depth, ratio in zip((0.5, 1.0, 2.0, 4.0), PLATE_RATIO[froude], strict=True):
        found = thin_plate.lift_ratio(depth, froude)
        at = "∞" if froude is None else f"{froude:g}"
        compare(f"Fh {at}, h/c {depth:g}: lift over deep", ratio, found, 3e-3, "", FAR_PLATE, referee=True)
    if froude is not None:
        found = thin_plate.wave_drag_ratio(1.0, froude)
        compare(f"Fh {at}, h/c 1: CDw/CL²", WAVE_DRAG[froude], found, 3e-4, "", FAR_PLATE, referee=True)
        vortex = exp(-2.0 / froude**2) / (2.0 * froude**2)
        row = f"Fh {at}, h/c 1: CDw/CL² of a vortex"
        compare(row, VORTEX_DRAG[froude], vortex, 1e-4, "", VORTEX_WAVES, referee=True)


@pytest.mark.parametrize("froude", [2, 2.5, 3, 4, 5, 7, 10])
def test_stated_doubt_is_the_two_dimensional_loss_at_four_chords(froude):
    loss = round(1.0 - FROUDE[froude][3] / 0.9961, 4)
    found = lift_doubt_at_low_froude(froude)
    compare(f"Fh {froude:g}, h/c 4: loss beyond the image's", loss, found, 0.012, "", FAR_PLATE)


# --- downwash ---


def horseshoe(x: float, z: float, s: float) -> float:
    """Downwash per circulation on the centre line, bound span 2 s."""
    r = sqrt(x * x + s * s + z * z)
    bound = x / (x * x + z * z) * 2.0 * s / (4.0 * pi * r)
    return bound + s / (2.0 * pi * (s * s + z * z)) * (1.0 + x / r)


@pytest.mark.parametrize(
    ("ar", "at1", "at2", "at3", "pair", "sheet", "image"),
    [(8, 1.150, 1.119, 1.114, 1.109, 1.368, 0.154), (10, 0.920, 0.895, 0.891, 0.887, 1.094, 0.178)],
)
def test_downwash_rows_of_a_horseshoe(ar, at1, at2, at3, pair, sheet, image):
    """CL 0.3, elliptic-equivalent bound span (pi/4) b, chord 1, degrees."""
    cl, b = 0.3, float(ar)
    s = pi / 8.0 * b
    gamma = b * cl / (4.0 * s)  # area b x chord 1
    name, close = f"AR {ar}", percent(1)
    for x, expected in ((1.0, at1), (2.0, at2), (3.0, at3)):
        at = f"{name}, {x:g} spans aft: horseshoe"
        found = degrees(gamma * horseshoe(x * b, 0.0, s))
        compare(at, expected, found, close, "°", HORSESHOE, referee=True)
        got = vl.velocity(
            np.array([[x * b, 0.0, 0.0]]), np.array([[0.0, -s, 0.0]]), np.array([[0.0, s, 0.0]])
        )
        found = degrees(-gamma * got[0, 0, 2])
        compare(f"{at} of the lattice", expected, found, close, "°", HORSESHOE, referee=True)
        # our nearness factor is this horseshoe's
        near = nearness_factor(x)
        compare(f"{at}, nearness", round(expected / pair, 4), near, percent(0.2), "", HORSESHOE)
    found = degrees(16.0 * cl / (pi**3 * ar))
    compare(f"{name}: rolled-up pair, far aft", pair, found, 1e-3, "°", HORSESHOE, referee=True)
    found = degrees(gamma * horseshoe(2.0 * b, 8.0, s))
    compare(f"{name}: image 4 chords deep, 2 spans aft", image, found, close, "°", HORSESHOE, referee=True)
    found = degrees(2.0 * cl / (pi * ar) * sheet_average(0.45 * b, 0.0, 0.5 * b, 0.0))
    compare(f"{name}: flat sheet, far aft", sheet, found, 1e-3, "°", HORSESHOE)


def lattice_wake(ar: float, taper: float):
    surface = vl.wing(ar, 2.0 / (1.0 + taper), taper, 8, 60)
    gamma = vl.circulation(surface, np.ones(len(surface.strip)), False)
    cl = 2.0 * float(np.sum(gamma * (surface.right[:, 1] - surface.left[:, 1]))) / ar
    return surface, gamma, cl


def between_trailing_vortices(surface, gamma, x: float, y: float) -> float:
    """Downwash on the wake plane, read halfway between trailing vortices and interpolated to y."""
    edges = np.unique(np.concatenate([surface.left[:, 1], surface.right[:, 1]]))
    theta = np.arccos(-edges / edges[-1])
    middles = -edges[-1] * np.cos(0.5 * (theta[1:] + theta[:-1]))
    points = np.stack([np.full_like(middles, x), middles, np.zeros_like(middles)], -1)
    return float(np.interp(y, middles, -vl.field(points, surface, False)[:, :, 2] @ gamma))


@pytest.mark.parametrize(("ar", "rows"), [(8, (0.779, 0.757, 0.753)), (10, (0.745, 0.723, 0.718))])
def test_centre_line_downwash_rows_of_the_lattice(ar, rows):
    surface, gamma, cl = lattice_wake(ar, 1.0)
    for x, expected in zip((1.0, 2.0, 3.0), rows, strict=True):
        w = between_trailing_vortices(surface, gamma, x * ar, 0.0)
        row = f"AR {ar}, centre line, {x:g} spans aft: of 2CL/(π AR)"
        compare(row, expected, w / (2.0 * cl / (pi * ar)), percent(3), "", WAKE_LATTICE, referee=True)


def test_off_centre_downwash_needs_care_with_the_lattice():
    """0.15 spans off the centre line, 2 spans aft, aspect ratio 8: 0.83 of 2 CL / (pi AR) between the
    vortices.

    Read at the point itself, which lies close to a trailing vortex of a 60-strip lattice, it is 1.018: a
    number that has been quoted, and an artefact.
    """
    surface, gamma, cl = lattice_wake(8, 1.0)
    flat = 2.0 * cl / (pi * 8.0)
    off = between_trailing_vortices(surface, gamma, 16.0, 1.2) / flat
    assert off == pytest.approx(0.83, abs=0.01)
    for x, quoted in ((1.0, 1.040), (2.0, 1.018), (3.0, 1.014)):
        at_point = -float(vl.field(np.array([[8.0 * x, 1.2, 0.0]]), surface, False)[0, :, 2] @ gamma) / flat
        row = f"AR 8, 0.15 spans off the middle, {x:g} spans aft: of 2CL/(π AR), at a trailing vortex"
        compare(row, quoted, at_point, percent(3), "", WAKE_LATTICE, referee=True)
    reason = "read close to a trailing vortex of the lattice: between the vortices it gives 0.83"
    row = "AR 8, 0.15 spans off the middle, 2 spans aft: of 2CL/(π AR)"
    missed(row, 1.018, off, percent(3), 0.20, reason, "", WAKE_LATTICE)


@pytest.mark.parametrize(
    ("ar", "depth", "per_cl"), [(8, 2.0, 0.0225), (8, 4.0, 0.0085), (10, 2.0, 0.0222), (10, 4.0, 0.0097)]
)
def test_downwash_of_the_image(ar, depth, per_cl):
    """On the centre line, 2.5 spans aft: the lattice 3 %, our elliptic sheet within 9 % of it."""
    surface, _, _ = lattice_wake(ar, 1.0)
    # circulation of the foil itself under its image
    under = vl.wing(float(ar), 1.0, 1.0, 8, 60, -depth)
    g = vl.circulation(under, np.ones(len(under.strip)), True)
    c = 2.0 * float(np.sum(g * (under.right[:, 1] - under.left[:, 1]))) / ar
    w = -float(vl.field(np.array([[2.5 * ar, 0.0, 2.0 * depth]]), surface, False)[0, :, 2] @ g) / c
    row = f"AR {ar}, image {depth:g} chords deep, 2.5 spans aft: per CL"
    compare(f"{row}, lattice", per_cl, w, percent(3), "rad", WAKE_LATTICE, referee=True)
    with_image = downwash_angle(1.0, ar, ar, 0.05 * ar, 0.0, depth, depth, 2.5 * ar)
    without = downwash_angle(1.0, ar, ar, 0.05 * ar, 0.0, 1e5, 1e5, 2.5 * ar)
    found = with_image - without
    if abs(found / per_cl - 1.0) <= 0.03:
        compare(row, per_cl, found, percent(3), "rad", WAKE_LATTICE)
    else:
        reason = "elliptic loading for a rectangle's: more of it in the middle"
        missed(row, per_cl, found, percent(3), percent(9), reason, "rad", WAKE_LATTICE)


@pytest.mark.parametrize("taper", [0.4, 0.5])
@pytest.mark.parametrize("ar", [8, 10])
def test_span_average_against_the_lattice(ar, taper):
    """Rear span 0.86 of the main one, 2.3 spans aft: within 6 % at every height, off the sheet and on it."""
    surface, gamma, cl = lattice_wake(ar, taper)
    y = np.linspace(-0.43 * ar, 0.43 * ar, 401)
    for height in (0.04, 0.1, 0.25, 0.5):
        points = np.stack([np.full_like(y, 2.3 * ar), y, np.full_like(y, height * ar)], -1)
        w = -float(np.mean(vl.field(points, surface, False)[:, :, 2] @ gamma))
        got = downwash_angle(cl, ar, ar, 0.86 * ar, height * ar, 1e5, 1e5, 2.3 * ar)
        row = f"AR {ar}, taper {taper}, {height:g} spans above: mean over the rear span, per CL"
        compare(row, round(w / cl, 5), got / cl, percent(6), "rad", WAKE_HERE)


@pytest.mark.parametrize("drift", [0.06, 0.13, 0.2, 0.26])
@pytest.mark.parametrize(("rear", "limit"), [(0.75, 13.0), (0.857, 10.0), (1.0, 12.0), (1.08, 10.0)])
def test_rolled_up_wake_keeps_the_flat_sheet_average(rear, limit, drift):
    """The sheet sinks but its tips do not: leave the flat sheet where it left the foil.

    rear: span of the rear foil in main spans; drift: sinking of an unrolled sheet in half spans, 0.13 at CL
    0.4 and 0.26 at CL 0.8 for aspect ratio 9, 2.3 spans aft. The largest difference over all heights; a thin
    sheet is up to 40 % off where the spans are equal, a descended one up to 40 % off at 0.86.
    """
    place, strength = rolled_wake.rolled(drift)
    worst = 0.0
    for height in (-0.25, -0.15, -0.08, 0.0, 0.08, 0.15, 0.25, 0.4):
        rolled = rolled_wake.span_average(place, strength, rear, height)
        # half span 1 and unit downwash on the sheet: 2 CL / (pi AR) = 1
        flat = downwash_angle(0.5 * pi, 1.0, 2.0, 2.0 * rear, height, 1e5, 1e5, 1e6)
        worst = max(worst, 100.0 * abs(flat / rolled - 1.0))
    row = f"rear span {rear:g}, drift {drift:g} half spans: mean over the rear span, largest difference"
    compare(row, None, worst, limit, "%", ROLLED)
    if rear < 0.9:
        sunk = downwash_angle(0.5 * pi, 1.0, 2.0, 2.0 * rear, 0.15 + drift, 1e5, 1e5, 1e6)
        assert sunk < 0.95 * rolled_wake.span_average(place, strength, rear, 0.15)


def test_core_of_the_wake_is_its_viscous_thickness_and_what_fits_the_rolled_up_wake_best():
    """0.020 spans from the wake's measured width, 0.021 from roll-up alone at CL 0.4; best fit 0.0225.

    Half width of a viscous wake 0.68 sqrt(cd (x/c + 0.15)) chords (Silverstein, Katzoff & Bullivant, NACA
    TR 651, 1939), shape cos^2; a sheet of Rosenhead filaments has half its vorticity's peak at 0.766 cores.
    Roll-up: a pair of such filaments with the energy that the foil's induced drag leaves, ln(2 s'/core) - 1/2
    = pi^2/4 with s' = pi/4 half spans (Spreiter & Sacks 1951), reached at a drift of 0.36 half spans and
    growing as Kaden's spiral, drift^(2/3).
    """
    ar, cd, spans_aft = 9.0, 0.008, 2.3
    width = 0.68 * sqrt(cd * (spans_aft * ar + 0.15)) / ar
    ours = 0.025
    compare("core of the viscous wake, spans", round(0.5 * width / 0.766, 4), ours, 0.006, "", VISCOUS)
    rolled_up = pi / 4.0 * exp(-(pi**2) / 4.0 - 0.5)
    drift = 2.0 * 0.4 / (pi * ar) * spans_aft * 2.0
    growing = round(rolled_up * (drift / 0.357) ** (2 / 3), 4)
    compare("core by roll-up alone at CL 0.4, spans", growing, ours, 0.006, "", SPIRAL)

    cores = np.array([0.01, 0.015, 0.02, 0.025, 0.03, 0.04])
    squares = np.zeros(len(cores))
    for place, strength in map(rolled_wake.rolled, (0.06, 0.13, 0.2, 0.26)):
        for rear in (0.7, 0.78, 0.857, 0.93, 1.0, 1.08):
            for height in np.linspace(-0.3, 0.4, 15):
                rolled = rolled_wake.span_average(place, strength, rear, float(height))
                squares += [(sheet_average(rear, float(height), 1.0, 2.0 * c) - rolled) ** 2 for c in cores]
    assert cores[np.argmin(squares)] in (0.02, 0.025)
    assert squares[3] < 1.05 * squares.min()
