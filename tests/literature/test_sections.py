"""Section table against thin-aerofoil theory, wind-tunnel values and a section code.

- Thin aerofoil with a plain flap: H. Glauert, "Theoretical relationships for an aerofoil with hinged flap",
  ARC R&M 1095 (1927). Closed forms; hinge moments by integrating the linear pressure distribution.
- Wind tunnel, Reynolds number about 9e6, smooth: I. H. Abbott and A. E. von Doenhoff, Theory of Wing Sections
  (1959), as tabulated in USAF DATCOM; written down from memory of that table, so never the only guard here.
- XFOIL 6.99 (M. Drela, 1989): 200 panels, Ncrit 9, free transition and tripped at 5 % of chord on both sides,
  flap bent at mid-thickness. Printed values are from one run, data/section_xfoil.csv from another
  (builders/section_referee.py); points that did not converge are absent.
- NeuralFoil 0.3.3, model xxlarge, smooth: printed values, by another hand than our table (model xxxlarge).
- Ordinates: Abbott, von Doenhoff & Stivers, NACA Report 824 (1945), as recomputed by R. Carmichael.
- Loss of greatest lift through roughness: W. A. Timmer, AIAA 2009-268, 18 to 20 %.

What is missed stands in MISSED with its size and reason, and in docs/theory/section.md.
"""

import csv
import importlib.util
from collections import defaultdict
from collections.abc import Callable
from functools import cache
from math import acos, asin, cos, degrees, log, pi, sin, sqrt
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from scipy.integrate import quad

from foilwright.water.section import SectionTables, section_line, section_polar
from foilwright.water.section_data import SectionSpec, tables_for
from foilwright.water.section_polars import Frictionless
from tests.literature.published import (
    CLOSED_FORM,
    COMPUTED,
    MEMORY,
    MEMORY_SURE,
    READ,
    Share,
    Source,
    between,
    compare,
    missed,
    percent,
)

OUTLINES, THIN, FLAP = "Section outlines", "Thin aerofoil with flap", "Section with flap"
TUNNEL, CODE, PRESSURE = "Sections in the wind tunnel", "Sections by section codes", "Least pressure"
ORDINATES = Source(OUTLINES, "NACA Report 824 tables as recomputed by R. Carmichael, public page", READ)
FOUR_DIGIT = Source(OUTLINES, "NACA Report 460: thickness form of the four-digit sections", CLOSED_FORM)
BOOK = Source(OUTLINES, "Abbott & von Doenhoff, Theory of Wing Sections: printed leading-edge radii", MEMORY)
GLAUERT = Source(THIN, "Glauert, ARC R&M 1095 (1927)", CLOSED_FORM)
CAMBER = Source(THIN, "Thin-aerofoil integrals of the mean line", CLOSED_FORM)
XFOIL_FLAP = Source(FLAP, "XFOIL 6.99, 200 panels, Ncrit 9, Re 1e6, α 0", COMPUTED)
STORED_FLAP = Source(FLAP, "XFOIL 6.99, stored beside the tests, Re 1e6, means over −4 to 6°", COMPUTED)
AMES = Source(FLAP, "NACA Report 721 (Ames & Sears 1941, abstract) and section codes: guard band", READ)
DATCOM = Source(TUNNEL, "Abbott & von Doenhoff data as tabulated in USAF DATCOM, Re 9e6, smooth", MEMORY)
BOOK_0012 = Source(TUNNEL, "Abbott & von Doenhoff: 0012 at Re 6e6, smooth", MEMORY_SURE)
TIMMER = Source(TUNNEL, "Timmer, AIAA 2009-268 (abstract): roughness wrap on 63- and 64-series", READ)
XFOIL = Source(CODE, "XFOIL 6.99, 200 panels, Ncrit 9; line fitted over −2 to 4°", COMPUTED)
STORED = Source(CODE, "XFOIL 6.99, stored beside the tests", COMPUTED)
NEURAL = Source(CODE, "NeuralFoil 0.3.3, xxlarge, Ncrit 9", COMPUTED)
XFOIL_PRESSURE = Source(PRESSURE, "XFOIL 6.99, Re 1e6, free transition", COMPUTED)
BOOK_PRESSURE = Source(PRESSURE, "Abbott & von Doenhoff, appendix I: greatest (v/V)² at no lift", MEMORY_SURE)

CODES_TOO = "section codes have it too: they lack part of the loss of lift towards the tail"
SISTER = "section codes have it too, and the 63-209 of the same mean line was measured at -1.4"
RECOMPUTED = "the recomputed tables print 1.004; ordinates differ by less than 0.01 % of chord"
QUIET = "the codes' air is quieter than the tunnel's, and ours is at Re 3e6"
TRIP_TOO = "the trip takes part of it besides the measured factor"
PLATEAU = "ours is the first maximum of the lift, not a flat top behind it"
THIN_NOSE = "the codes stall thin noses too late; ours is at Re 3e6"
BUBBLE = "a laminar bubble kinks the curve near no lift; our line is fitted over −6 to 6° on purpose"
FITTED = "our straight line is fitted over −6 to 6°; at no incidence it lies off the curve"
NETWORK = "the network's own scatter of drag, 4 %"
SMOOTH_BEND = "the smooth outline that the network sees keeps flow on the flap that a sharp hinge loses"

# row: size of the miss, reason
MISSED: dict[str, tuple[float | Share, str]] = {
    "63-012: leading-edge radius of the book": (0.084, RECOMPUTED),
    "64-012: leading-edge radius of the book": (0.037, RECOMPUTED),
    "NACA 63-412, flap share 0.3, 15°, free: effectiveness": (0.08, SMOOTH_BEND),
    "NACA 0012, flap share 0.2, 15°, free: η": (percent(9), SMOOTH_BEND),
    "NACA 0012, flap share 0.2, 15°, tripped: η": (percent(8), SMOOTH_BEND),
    "NACA 0012, flap share 0.3, 5°, free: η": (percent(6.5), FITTED),
    "NACA 0012, flap share 0.3, 5°, tripped: η": (percent(3.5), FITTED),
    "NACA 0012, flap share 0.3, 10°, free: η": (percent(3.5), FITTED),
    "NACA 0012, flap share 0.3, 15°, free: η": (percent(5.5), SMOOTH_BEND),
    "NACA 0012, flap share 0.4, 5°, free: η": (percent(4.5), FITTED),
    "NACA 0012, flap share 0.4, 10°, free: η": (percent(4), FITTED),
    "NACA 0012, flap share 0.4, 15°, free: η": (percent(4), SMOOTH_BEND),
    "NACA 0012, flap share 0.4, 15°, tripped: η": (percent(6), SMOOTH_BEND),
    "NACA 63-412, flap share 0.3, -5°, free: η": (percent(4), FITTED),
    "NACA 63-412, flap share 0.3, -5°, tripped: η": (percent(3.5), FITTED),
    "NACA 63-412, flap share 0.3, 5°, free: η": (percent(4), FITTED),
    "NACA 63-412, flap share 0.3, 10°, tripped: η": (percent(7), SMOOTH_BEND),
    "NACA 63-412, flap share 0.3, 15°, free: η": (percent(17), SMOOTH_BEND),
    "NACA 63-412, flap share 0.3, 15°, tripped: η": (percent(14), SMOOTH_BEND),
    "NACA 0012, flap share 0.3, 5°, free: lift": (percent(7), FITTED),
    "NACA 0012, flap share 0.3, 10°, free: lift": (percent(3.5), FITTED),
    "NACA 0012, flap share 0.3, 15°, free: lift": (percent(6.5), SMOOTH_BEND),
    "NACA 0012, flap share 0.3, 5°, tripped: lift": (percent(4), FITTED),
    "NACA 0012, flap share 0.3, 15°, tripped: lift": (percent(3.5), SMOOTH_BEND),
    "NACA 63-412, flap share 0.3, 0°, free: lift": (percent(4), FITTED),
    "NACA 63-412, flap share 0.3, 5°, free: lift": (percent(4.5), FITTED),
    "NACA 63-412, flap share 0.3, 15°, free: lift": (percent(12), SMOOTH_BEND),
    "NACA 0012, flap share 0.3, 10°, free: drag": (percent(3.5), NETWORK),
    "NACA 0012, flap share 0.3, 15°, free: drag": (percent(10.5), SMOOTH_BEND),
    "NACA 63-412, flap share 0.4, −10 to 10°, free: drag, worst mean": (13.5, SMOOTH_BEND),
    "NACA 63-412, flap share 0.3, −10 to 10°, tripped: hinge moment, worst mean": (0.042, SMOOTH_BEND),
    "NACA 0009: greatest lift": (percent(18.5), THIN_NOSE),
    "NACA 63-209: greatest lift": (percent(16), THIN_NOSE),
    "NACA 64-209: greatest lift": (percent(14.5), THIN_NOSE),
    "NACA 64-210: greatest lift": (percent(12.5), THIN_NOSE),
    "NACA 4412: zero lift": (0.51, CODES_TOO),
    "NACA 63-212: zero lift": (0.52, SISTER),
    "NACA 2412: slope": (percent(6.5), CODES_TOO),
    "NACA 4412: slope": (percent(6.5), CODES_TOO),
    "NACA 63-412: aerodynamic centre": (0.0105, CODES_TOO),
    "NACA 0012: least drag": (percent(12), QUIET),
    "NACA 63-209: greatest lift lost": (2.6, TRIP_TOO),
    "NACA 0009, Re 2e5, free: slope": (percent(14.5), BUBBLE),
    "NACA 0009, Re 5e5, free: slope": (percent(7), BUBBLE),
    "NACA 0012, Re 2e5, free: slope": (percent(14), BUBBLE),
    "NACA 0012, Re 5e5, free: slope": (percent(8), BUBBLE),
    "NACA 0009, Re 2e5, NeuralFoil: slope": (percent(16), BUBBLE),
    "NACA 0009, Re 5e5, NeuralFoil: slope": (percent(7), BUBBLE),
    "NACA 0012, Re 2e5, NeuralFoil: slope": (percent(14.5), BUBBLE),
    "NACA 0012, Re 5e5, NeuralFoil: slope": (percent(8), BUBBLE),
    "NACA 63-412, Re 2e6, NeuralFoil: greatest lift": (percent(4.5), PLATEAU),
    "NACA 2412, Re 2e5, free: zero of the line": (0.38, BUBBLE),
    "NACA 4412, Re 2e5, free: zero of the line": (0.45, BUBBLE),
    "NACA 4412, Re 2e5, free: slope": (percent(7), BUBBLE),
    "NACA 63-209 at 2°: least pressure": (0.06, "XFOIL gives -0.84 on our ordinates too"),
    "NACA 63-209 at 8°: least pressure": (
        percent(13.5),
        "a sharp nose near its stall; ours is the cautious one",
    ),
}


def stated(
    row: str, published: float | None, ours: float, tolerance: float | Share, unit: str, source: Source
) -> None:
    """The row as met, or as missed where it is listed so."""
    if row in MISSED:
        size, reason = MISSED[row]
        missed(row, published, ours, tolerance, size, reason, unit, source)
    else:
        compare(row, published, ours, tolerance, unit, source)


DEGREE = pi / 180.0
HERE = Path(__file__).resolve().parent
SECTIONS = ("NACA 0009", "NACA 0012", "NACA 2412", "NACA 4412", "NACA 63-209", "NACA 63-212", "NACA 63-412",
            "NACA 64-210")  # fmt: skip


def thin_flap(share: float) -> tuple[float, float, float, float]:
    """Effectiveness; per radian: c_m about c/4, C_h by incidence, C_h by flap (on the flap chord squared)."""
    hinge = acos(1.0 - 2.0 * (1.0 - share))
    effectiveness = 1.0 - (hinge - sin(hinge)) / pi
    moment = -2.0 * sqrt(share * (1.0 - share) ** 3)

    def arm(theta: float) -> float:
        return 0.5 * (cos(hinge) - cos(theta)) * 0.5 * sin(theta)

    def load_incidence(theta: float) -> float:  # pressure difference of a flat plate, per radian
        return 4.0 * (1.0 + cos(theta)) / sin(theta)

    def load_flap(theta: float) -> float:
        """Fourier series of the bent plate, summed: A0 and 2/pi times the sum of sin(n h) sin(n t)/n."""
        series = log(abs(sin(0.5 * (theta + hinge)) / sin(0.5 * (theta - hinge)))) / pi
        return 4.0 * ((1.0 - hinge / pi) * (1.0 + cos(theta)) / sin(theta) + series)

    per_incidence = -quad(lambda t: load_incidence(t) * arm(t), hinge, pi)[0] / share**2
    per_flap = -quad(lambda t: load_flap(t) * arm(t), hinge, pi, limit=200)[0] / share**2
    return effectiveness, moment, per_incidence, per_flap


@cache
def tables(name: str, share: float, rough: float) -> SectionTables:
    return tables_for([SectionSpec(name, share, rough)])


def line_lift(name: str, share: float, rough: float, flap: float, reynolds: float, alpha: float) -> float:
    zero_lift, slope, _, _ = section_line(tables(name, share, rough), 0, flap * DEGREE, log(reynolds))
    return slope * (alpha * DEGREE - zero_lift)


def polar(
    name: str, share: float, rough: float, flap: float, reynolds: float, alpha: float
) -> tuple[float, ...]:
    return section_polar(tables(name, share, rough), 0, flap * DEGREE, log(reynolds), alpha * DEGREE)


@cache
def xfoil() -> dict[tuple[str, float, float, float, int], np.ndarray]:
    """Rows of alpha_deg, cl, cd, cm, cp_min, ch by (section, flap share, flap angle, Reynolds number,
    tripped)."""
    found: dict[tuple[str, float, float, float, int], list[list[float]]] = defaultdict(list)
    with (HERE / "data" / "section_xfoil.csv").open() as file:
        for row in csv.DictReader(file):
            key = (row["section"], float(row["flap_share"]), float(row["flap_deg"]), float(row["reynolds"]),
                   int(row["tripped"]))  # fmt: skip
            found[key].append(
                [float(row[k] or "nan") for k in ("alpha_deg", "cl", "cd", "cm", "cp_min", "ch")]
            )
    return {key: np.array(sorted(rows)) for key, rows in found.items()}


def shapes() -> ModuleType:
    spec = importlib.util.spec_from_file_location(
        "section_shapes", HERE.parents[1] / "builders/section_shapes.py"
    )
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


# ---- ordinates


def test_63_412_goes_through_the_published_ordinates() -> None:
    """Per cent of chord, to 0.01 (the page prints four decimals; between stations we interpolate)."""
    outline = shapes().section_coordinates("63", 4, 12, 401) * 100.0
    nose = int(np.argmin(outline[:, 0]))
    sides = {"upper": outline[nose::-1], "lower": outline[nose:]}
    for side, x, y in (
        ("upper", 9.718, 5.0635),
        ("upper", 39.924, 8.0637),
        ("upper", 70.087, 5.1545),
        ("lower", 10.282, -2.9939),
        ("lower", 40.076, -3.7792),
    ):
        found = float(np.interp(x, sides[side][:, 0], sides[side][:, 1]))
        compare(f"63-412, {side} side at {x} %", y, found, 0.01, "% of chord", ORDINATES)


@pytest.mark.parametrize(
    ("series", "published"),
    [("63", (2.4396, 4.4454, 4.9414, 3.7158, 1.6146)), ("64", (2.3406, 4.3004, 4.9800, 3.8181, 1.7211))],
)
def test_thickness_between_the_kept_forms_is_right(series: str, published: tuple[float, ...]) -> None:
    """The 10 % forms are not kept in the builder; the report gives them. Per cent of chord, to 0.003."""
    at = np.array([0.05, 0.20, 0.40, 0.60, 0.80])
    found = shapes().six_series_half_thickness(series, 10, at) * 100.0
    for x, y, ours in zip(at, published, found, strict=True):
        compare(f"{series}-010, half-thickness at {100 * x:.0f} %", y, ours, 0.003, "% of chord", ORDINATES)


def test_0012_ordinates() -> None:
    """NACA Report 460: half-thickness 6.002 % at 30 %, 4.563 % at 60 %, 0.126 % at the trailing edge."""
    at = np.array([0.3, 0.6, 1.0])
    found = shapes().four_digit_half_thickness(12, at) * 100.0
    for x, y, ours in zip(at, (6.0017, 4.5634, 0.126), found, strict=True):
        compare(f"0012, half-thickness at {100 * x:.0f} %", y, ours, 1e-3, "% of chord", FOUR_DIGIT)


def leading_edge_radius(series: str, thickness: float) -> float:
    nodes = sorted(shapes().RADII[series])
    weights = shapes().lagrange(thickness, nodes)
    return float(sum(w * shapes().RADII[series][n] for w, n in zip(weights, nodes, strict=True)))


def test_leading_edge_radii() -> None:
    """Per cent of chord, to 0.005; the 10 % form is interpolated."""
    rows = (("63", 12, 1.004), ("64", 12, 1.004), ("63", 9, 0.590), ("64", 10, 0.701))
    for series, thickness, radius in rows:
        found = leading_edge_radius(series, thickness)
        stated(
            f"{series}-0{thickness:02}: leading-edge radius", radius, found, 0.005, "% of chord", ORDINATES
        )
    for series, radius in (("63", 1.087), ("64", 1.040)):
        row = f"{series}-012: leading-edge radius of the book"
        stated(row, radius, leading_edge_radius(series, 12), 0.005, "% of chord", BOOK)


# ---- thin aerofoil with flap


@pytest.mark.parametrize(
    ("share", "hinge", "tau", "lift", "moment", "per_incidence", "per_flap"),
    [
        (0.15, 134.427, 0.4805, 3.0191, -0.6070, -0.4273, -0.9031),
        (0.20, 126.870, 0.5498, 3.4546, -0.6400, -0.4994, -0.9229),
        (0.25, 120.000, 0.6090, 3.8264, -0.6495, -0.5653, -0.9436),
        (0.30, 113.578, 0.6607, 4.1516, -0.6416, -0.6274, -0.9654),
        (0.35, 107.458, 0.7067, 4.4401, -0.6201, -0.6869, -0.9884),
        (0.40, 101.537, 0.7478, 4.6985, -0.5879, -0.7448, -1.0127),
        (0.45, 95.739, 0.7848, 4.9312, -0.5472, -0.8018, -1.0384),
    ],
)
def test_closed_forms_used_below(
    share: float,
    hinge: float,
    tau: float,
    lift: float,
    moment: float,
    per_incidence: float,
    per_flap: float,
) -> None:
    """The yardsticks themselves: tau = (2/pi)(sqrt(E(1-E)) + asin sqrt E) is the same effectiveness another
    way."""
    found = thin_flap(share)
    assert found[0] == pytest.approx(2.0 / pi * (sqrt(share * (1.0 - share)) + asin(sqrt(share))), abs=1e-9)
    name = f"flap share {share:g}"
    angle = degrees(acos(1.0 - 2.0 * (1.0 - share)))
    compare(f"{name}: place of the hinge", hinge, angle, 5e-4, "°", GLAUERT, referee=True)
    compare(f"{name}: τ", tau, found[0], 1e-4, "", GLAUERT, referee=True)
    compare(f"{name}: lift", lift, 2.0 * pi * found[0], 1e-4, "/rad", GLAUERT, referee=True)
    compare(f"{name}: moment", moment, found[1], 1e-4, "/rad", GLAUERT, referee=True)
    compare(
        f"{name}: hinge moment by incidence", per_incidence, found[2], 1e-4, "/rad", GLAUERT, referee=True
    )
    compare(f"{name}: hinge moment by flap", per_flap, found[3], 1e-4, "/rad", GLAUERT, referee=True)


def test_ten_degrees_of_flap() -> None:
    """Flap share 0.3: worth 6.607 degrees of incidence, 0.7246 of lift and -0.1120 of moment."""
    tau, moment, _, _ = thin_flap(0.3)
    compare("10° of flap, share 0.3: incidence", 6.607, 10.0 * tau, 1e-3, "°", GLAUERT, referee=True)
    found = 2.0 * pi * tau * 10.0 * DEGREE
    compare("10° of flap, share 0.3: lift", 0.7246, found, 1e-4, "", GLAUERT, referee=True)
    compare("10° of flap, share 0.3: moment", -0.1120, moment * 10 * DEGREE, 1e-4, "", GLAUERT, referee=True)


def thin_camber(slope: Callable[[float], float]) -> tuple[float, float]:
    """Zero-lift angle [deg] and quarter-chord moment of a mean line, from its slope over x."""

    def term(weight: Callable[[float], float]) -> float:
        kink = acos(1.0 - 2.0 * 0.4)
        return float(
            quad(lambda t: slope(0.5 * (1 - cos(t))) * weight(t), 0, pi, points=[kink], limit=200)[0]
        )

    zero_lift = -term(lambda t: cos(t) - 1.0) / pi
    return degrees(zero_lift), -0.5 * (term(cos) - term(lambda t: cos(2.0 * t)))


@pytest.mark.parametrize(
    ("name", "camber", "zero_lift", "moment"),
    [
        ("1412", 1, -1.039, -0.0266),
        ("2412", 2, -2.077, -0.0531),
        ("4412", 4, -4.155, -0.1062),
        ("63-212", 0.2, -1.824, -0.050),
        ("63-412", 0.4, -3.648, -0.100),
    ],
)
def test_camber_of_a_thin_aerofoil(name: str, camber: float, zero_lift: float, moment: float) -> None:
    """To 1e-3. Four-digit: the mean line of our builder; a = 1: the closed slope, endless at both ends.

    Measured 6-series sections reach 75 to 85 % of that zero-lift angle; ours at Re 1e6, tripped or not, 0.7
    to 0.85.
    """
    if camber >= 1:
        found = thin_camber(lambda x: float(shapes().four_digit_mean_line(camber, np.array([x]))[1][0]))
    else:
        found = thin_camber(lambda x: camber / (4.0 * pi) * log((1.0 - x) / x) if 0.0 < x < 1.0 else 0.0)
    compare(f"{name}: zero lift of the mean line", zero_lift, found[0], 1e-3, "°", CAMBER, referee=camber < 1)
    compare(f"{name}: moment of the mean line", moment, found[1], 1e-3, "", CAMBER, referee=camber < 1)
    if camber < 1:
        ours = section_line(tables(f"NACA {name}", 0.0, 0.0), 0, 0.0, log(1e6))[0] / DEGREE
        between(f"{name}: zero lift over that of the mean line", 0.75, 0.85, ours / zero_lift, "", CAMBER)


# ---- section with flap


def effectiveness(name: str, share: float, rough: float, flap: float, angles: tuple[float, ...]) -> float:
    """Lift the flap adds over thin-aerofoil lift, mean over the angles [deg], Reynolds number 1e6."""
    gained = [
        line_lift(name, share, rough, flap, 1e6, a) - line_lift(name, share, rough, 0.0, 1e6, a)
        for a in angles
    ]
    return float(np.mean(gained)) / (2.0 * pi * thin_flap(share)[0] * flap * DEGREE)


@pytest.mark.parametrize("name", ["NACA 0012", "NACA 63-412"])
@pytest.mark.parametrize("share", [0.2, 0.3, 0.4])
@pytest.mark.parametrize("rough", [0.0, 1.0])
def test_flap_effectiveness_is_between_three_quarters_and_eleven_tenths(
    name: str, share: float, rough: float
) -> None:
    for flap in (-10.0, -5.0, 5.0, 10.0):
        found = effectiveness(name, share, rough, flap, (-2.0, 0.0, 2.0))
        row = f"{name}, flap share {share}, {flap:g}°, {WAY[int(rough)]}: effectiveness"
        between(row, 0.75, 1.10, found, "", AMES)


@pytest.mark.parametrize("name", ["NACA 0012", "NACA 63-412"])
@pytest.mark.parametrize("rough", [0, 1])
def test_flap_effectiveness_falls_at_fifteen_degrees(name: str, rough: int) -> None:
    found = effectiveness(name, 0.3, rough, 15.0, (-2.0, 0.0, 2.0))
    row = f"{name}, flap share 0.3, 15°, {WAY[rough]}: effectiveness"
    if row in MISSED:
        stated(row, 0.95, found, 0.0, "", AMES)
    else:
        between(row, 0.65, 0.95, found, "", AMES)


WAY = ("free", "tripped")
EFFECTIVENESS = {  # section, flap share: by flap angle, free and tripped
    ("NACA 0012", 0.2): {5: (1.02, 0.94), 10: (0.96, 0.90), 15: (0.84, 0.80)},
    ("NACA 0012", 0.3): {5: (1.07, 0.97), 10: (1.00, 0.93), 15: (0.87, 0.82)},
    ("NACA 0012", 0.4): {5: (1.08, 1.00), 10: (1.02, 0.96), 15: (0.89, 0.84)},
    ("NACA 63-412", 0.3): {
        -10: (1.03, 0.99),
        -5: (1.06, 1.00),
        5: (1.06, 0.95),
        10: (1.04, 0.85),
        15: (0.88, 0.71),
    },
}


@pytest.mark.parametrize(("name", "share"), EFFECTIVENESS)
def test_flap_effectiveness_of_a_section_code(name: str, share: float) -> None:
    """At no incidence, to 3 %."""
    for flap, row in EFFECTIVENESS[name, share].items():
        for rough, published in enumerate(row):
            found = effectiveness(name, share, rough, flap, (0.0,))
            stated(
                f"{name}, flap share {share}, {flap}°, {WAY[rough]}: η",
                published,
                found,
                percent(3),
                "",
                XFOIL_FLAP,
            )


BENT_LIFT = {  # section: tripped, by flap angle
    ("NACA 0012", 0): {5: 0.3882, 10: 0.7241, 15: 0.9402},
    ("NACA 0012", 1): {5: 0.3524, 10: 0.6740, 15: 0.8860},
    ("NACA 63-412", 0): {-10: -0.3996, -5: -0.0331, 0: 0.3499, 5: 0.7357, 10: 1.1012, 15: 1.3033},
}


@pytest.mark.parametrize(("name", "tripped"), BENT_LIFT)
def test_lift_of_a_bent_section_at_no_incidence(name: str, tripped: int) -> None:
    """Flap share 0.3, ours and the stored run: to 3 % or 0.01 of lift (0.09 degrees of incidence)."""
    for flap, lift in BENT_LIFT[name, tripped].items():
        row = f"{name}, flap share 0.3, {flap}°, {WAY[tripped]}: lift"
        stated(row, lift, line_lift(name, 0.3, tripped, flap, 1e6, 0.0), percent(3, 0.01), "", XFOIL_FLAP)
        rows = xfoil()[(name, 0.3, float(flap) or 0.01, 1e6, tripped)]
        again = float(np.interp(0.0, rows[:, 0], rows[:, 1]))
        row += ", stored run"
        if (name, flap) == ("NACA 63-412", 10):
            reason = (
                "the two runs have not quite the same ordinates, and the flap's flow is about to separate"
            )
            missed(row, lift, again, percent(3), percent(3.5), reason, "", XFOIL_FLAP, referee=True)
        else:
            compare(row, lift, again, percent(3, 0.01), "", XFOIL_FLAP, referee=True)


def test_drag_of_a_bent_section_at_no_incidence() -> None:
    """0012, flap share 0.3, free: to 3 %."""
    for flap, drag in {5: 0.00563, 10: 0.00828, 15: 0.01386}.items():
        found = polar("NACA 0012", 0.3, 0, flap, 1e6, 0.0)[0]
        stated(f"NACA 0012, flap share 0.3, {flap}°, free: drag", drag, found, percent(3), "", XFOIL_FLAP)


def test_lift_of_a_bent_section_without_friction() -> None:
    """The panel method behind our table on a 0012 bent at mid-thickness, to 2 %; 1.11 of a thin aerofoil."""
    outline = shapes().section_coordinates("4-digit", 0, 12, 101)
    behind = np.clip((outline[:, 0] - 0.7) / 0.002 + 0.5, 0.0, 1.0)  # the bend is spread over 0.2 % of chord
    for flap, lift in {5: 0.4039, 10: 0.8057, 15: 1.2034}.items():
        turn = flap * DEGREE * behind
        x, y = outline[:, 0] - 0.7, outline[:, 1]
        bent = np.stack([0.7 + x * np.cos(turn) + y * np.sin(turn), y * np.cos(turn) - x * np.sin(turn)], -1)
        body = Frictionless(bent)
        found = body.size * sin(-body.zero_lift)
        compare(
            f"NACA 0012, flap share 0.3, {flap}°, frictionless: lift", lift, found, percent(2), "", XFOIL_FLAP
        )
        share = found / (2.0 * pi * thin_flap(0.3)[0] * flap * DEGREE)
        compare(f"NACA 0012, flap share 0.3, {flap}°, frictionless: η", 1.11, share, 0.02, "", XFOIL_FLAP)


def test_hinge_moment_is_the_usual_share_of_thin_aerofoil_theory() -> None:
    """Tripped 12 % section: thickness and boundary layer leave 0.5 to 0.8 of C_h_alpha, 0.6 to 1 of
    C_h_delta."""
    _, _, per_incidence, per_flap = thin_flap(0.3)
    by_incidence = polar("NACA 0012", 0.3, 1, 0, 1e6, 4)[2] - polar("NACA 0012", 0.3, 1, 0, 1e6, -4)[2]
    by_flap = polar("NACA 0012", 0.3, 1, 5, 1e6, 0)[2] - polar("NACA 0012", 0.3, 1, -5, 1e6, 0)[2]
    assert 0.5 < by_incidence / (8 * DEGREE) / per_incidence < 0.8
    assert 0.6 < by_flap / (10 * DEGREE) / per_flap < 1.0


@pytest.mark.parametrize("name", ["NACA 0012", "NACA 63-412"])
@pytest.mark.parametrize("share", [0.2, 0.3, 0.4])
@pytest.mark.parametrize("tripped", [0, 1])
def test_bent_section_against_xfoil(name: str, share: float, tripped: int) -> None:
    """Means over -4 to 6 degrees at 1e6 below three quarters of stall, the worst of four flap angles from -10
    to 10: lift 0.08, drag 12 %, moment 0.015, hinge 0.04, least pressure 15 %."""
    worst = dict.fromkeys(("lift", "drag", "moment", "hinge moment", "least pressure"), 0.0)
    for flap in (-10.0, -5.0, 5.0, 10.0):
        rows = xfoil()[(name, share, flap, 1e6, tripped)]
        _, _, greatest, least = section_line(tables(name, share, 0.0), 0, flap * DEGREE, log(1e6))
        rows = rows[(rows[:, 0] >= -4.0) & (rows[:, 0] <= 6.0)]
        rows = rows[(rows[:, 1] < 0.75 * greatest) & (rows[:, 1] > 0.75 * least)]
        assert len(rows) >= 3
        lift = np.array([line_lift(name, share, tripped, flap, 1e6, a) for a in rows[:, 0]])
        ours = np.array([polar(name, share, tripped, flap, 1e6, a) for a in rows[:, 0]])
        means = (
            np.abs(lift - rows[:, 1]),
            100.0 * np.abs(ours[:, 0] / rows[:, 2] - 1.0),
            np.abs(ours[:, 1] - rows[:, 3]),
            np.abs(ours[:, 2] - rows[:, 5]),
            100.0 * np.abs(ours[:, 3] - rows[:, 4]) / np.maximum(1.0, -rows[:, 4]),
        )
        for what, mean in zip(worst, means, strict=True):
            worst[what] = max(worst[what], float(np.mean(mean)))
    limits = {"lift": 0.08, "drag": 12.0, "moment": 0.015, "hinge moment": 0.04, "least pressure": 15.0}
    for what, difference in worst.items():
        unit = "%" if what in ("drag", "least pressure") else ""
        row = f"{name}, flap share {share}, −10 to 10°, {WAY[tripped]}: {what}, worst mean"
        stated(row, None, difference, limits[what], unit, STORED_FLAP)


# ---- wind tunnel


@pytest.mark.parametrize(
    ("name", "zero_lift", "moment", "slope", "centre", "greatest"),
    [
        ("NACA 0009", 0.0, 0.0, 0.109, 0.250, 1.32),
        ("NACA 2412", -2.0, -0.047, 0.105, 0.247, 1.68),
        ("NACA 4412", -3.8, -0.093, 0.105, 0.247, 1.67),
        ("NACA 63-209", -1.4, -0.032, 0.111, 0.262, 1.40),
        ("NACA 63-212", -2.0, -0.035, 0.114, 0.263, 1.63),
        ("NACA 63-412", -2.8, -0.075, 0.117, 0.271, 1.77),
        ("NACA 64-209", -1.5, -0.040, 0.107, 0.261, 1.40),
        ("NACA 64-210", -1.6, -0.040, 0.110, 0.258, 1.45),
    ],
)
def test_wind_tunnel_values(
    name: str, zero_lift: float, moment: float, slope: float, centre: float, greatest: float
) -> None:
    """Measured at 9e6, our table ends at 3e6. Zero lift to 0.3 degrees, slope to 6 %, moment to 0.015,
    aerodynamic centre to 0.01 of chord, greatest lift to 10 %.

    The angle of greatest lift is not there to compare: ours is a straight line up to it.
    """
    table = tables(name, 0.0, 0.0)
    found = section_line(table, 0, 0.0, log(3e6))
    stated(f"{name}: zero lift", zero_lift, found[0] / DEGREE, 0.3, "°", DATCOM)
    stated(f"{name}: slope", slope, found[1] * DEGREE, percent(6), "/°", DATCOM)
    stated(f"{name}: moment", moment, polar(name, 0.0, 0.0, 0.0, 3e6, zero_lift)[1], 0.015, "", DATCOM)
    low, high = (polar(name, 0.0, 0.0, 0.0, 3e6, zero_lift + a)[1] for a in (0.0, 6.0))
    ours = 0.25 - (high - low) / (found[1] * 6.0 * DEGREE)
    stated(f"{name}: aerodynamic centre", centre, ours, 0.01, "chords", DATCOM)
    stated(f"{name}: greatest lift", greatest, found[2], percent(10), "", DATCOM)


def test_0012_in_the_wind_tunnel() -> None:
    """Measured at 6e6; ours at 3e6. Slope to 6 %, greatest lift and least drag to 10 %."""
    found = section_line(tables("NACA 0012", 0.0, 0.0), 0, 0.0, log(3e6))
    stated("NACA 0012: slope", 0.1065, found[1] * DEGREE, percent(6), "/°", BOOK_0012)
    stated("NACA 0012: greatest lift", 1.59, found[2], percent(10), "", BOOK_0012)
    least = min(polar("NACA 0012", 0.0, 0.0, 0.0, 3e6, a)[0] for a in np.arange(-4.0, 4.1, 0.5))
    stated("NACA 0012: least drag", 0.0058, least, percent(10), "", BOOK_0012)


@pytest.mark.parametrize("name", ["NACA 63-209", "NACA 63-412"])
def test_roughness_takes_a_fifth_of_greatest_lift(name: str) -> None:
    """18 to 20 % of it."""
    smooth, rough = (section_line(tables(name, 0.0, r), 0, 0.0, log(1e6))[2] for r in (0.0, 1.0))
    stated(f"{name}: greatest lift lost", 19.0, 100.0 * (1.0 - rough / smooth), 1.0, "%", TIMMER)


# ---- section codes

# section, Reynolds number: free transition: zero lift [deg], slope [1/deg], greatest lift, least drag, drag
# at cl 0.4, moment at no incidence; tripped: zero lift, slope, least drag, drag at cl 0.4
XFOIL_ROWS = {
    ("NACA 0009", 2e5): (0, 0.1366, 0.88, 0.0086, 0.0095, 0, 0, 0.1091, 0.0145, 0.0154),
    ("NACA 0009", 5e5): (0, 0.1252, 1.04, 0.0053, 0.0078, 0, 0, 0.1108, 0.0117, 0.0123),
    ("NACA 0009", 1e6): (0, 0.1125, 1.25, 0.0043, 0.0071, 0, 0, 0.1117, 0.0102, 0.0106),
    ("NACA 0009", 2e6): (0, 0.1078, 1.44, 0.0043, 0.0064, 0, 0, 0.1126, 0.0089, 0.0093),
    ("NACA 0012", 2e5): (0, 0.1447, 1.10, 0.0102, 0.0109, 0, 0, 0.1083, 0.0156, 0.0165),
    ("NACA 0012", 5e5): (0, 0.1115, 1.24, 0.0062, 0.0084, 0, 0, 0.1106, 0.0126, 0.0132),
    ("NACA 0012", 1e6): (0, 0.1069, 1.39, 0.0054, 0.0071, 0, 0, 0.1120, 0.0109, 0.0114),
    ("NACA 0012", 2e6): (0, 0.1099, 1.56, 0.0052, 0.0062, 0, 0, 0.1131, 0.0096, 0.0099),
    ("NACA 2412", 2e5): (-2.03, 0.1193, 1.33, 0.0098, 0.0098, -0.061, -1.91, 0.1072, 0.0158, 0.0163),
    ("NACA 2412", 5e5): (-2.24, 0.1182, 1.39, 0.0063, 0.0069, -0.050, -1.95, 0.1097, 0.0127, 0.0131),
    ("NACA 2412", 1e6): (-2.20, 0.1152, 1.52, 0.0055, 0.0056, -0.052, -1.97, 0.1112, 0.0110, 0.0113),
    ("NACA 2412", 2e6): (-2.16, 0.1104, 1.68, 0.0052, 0.0052, -0.053, -1.99, 0.1125, 0.0096, 0.0099),
    ("NACA 63-412", 2e5): (-3.06, 0.1028, 1.31, 0.0111, 0.0119, -0.076, -2.66, 0.1085, 0.0152, 0.0156),
    ("NACA 63-412", 5e5): (-3.04, 0.1119, 1.36, 0.0071, 0.0073, -0.080, -2.76, 0.1107, 0.0123, 0.0126),
    ("NACA 63-412", 1e6): (-3.04, 0.1137, 1.45, 0.0056, 0.0057, -0.081, -2.82, 0.1120, 0.0106, 0.0109),
    ("NACA 63-412", 2e6): (-3.06, 0.1137, 1.60, 0.0047, 0.0048, -0.082, -2.87, 0.1130, 0.0093, 0.0096),
    ("NACA 63-209", 2e5): (-1.44, 0.1136, 0.91, 0.0092, 0.0093, -0.037, -1.37, 0.1094, 0.0141, 0.0147),
    ("NACA 63-209", 5e5): (-1.59, 0.1059, 0.98, 0.0061, 0.0063, -0.041, -1.41, 0.1109, 0.0114, 0.0118),
    ("NACA 63-209", 1e6): (-1.57, 0.1088, 1.22, 0.0048, 0.0052, -0.041, -1.44, 0.1117, 0.0099, 0.0102),
    ("NACA 63-209", 2e6): (-1.56, 0.1103, 1.48, 0.0041, 0.0047, -0.042, -1.46, 0.1124, 0.0087, 0.0089),
}
# the same by NeuralFoil, free transition: zero lift, slope, greatest lift, least drag, drag at cl 0.4; None
# where its greatest value was read behind the stall
NEURAL_ROWS = {
    ("NACA 0009", 2e5): (0, 0.1386, None, 0.00865, 0.0095),
    ("NACA 0009", 5e5): (0, 0.1254, 1.06, 0.0054, 0.0076),
    ("NACA 0009", 1e6): (0, 0.1117, 1.24, 0.0045, 0.0070),
    ("NACA 0009", 2e6): (0, 0.1075, 1.45, 0.0044, 0.0064),
    ("NACA 0012", 2e5): (0, 0.1459, 1.12, 0.0101, 0.0109),
    ("NACA 0012", 5e5): (0, 0.1113, 1.25, 0.0063, 0.0083),
    ("NACA 0012", 1e6): (0, 0.1067, 1.40, 0.0054, 0.0070),
    ("NACA 0012", 2e6): (0, 0.1094, 1.57, 0.0052, 0.0063),
    ("NACA 2412", 2e5): (-2.05, 0.1192, 1.33, 0.0100, 0.0100),
    ("NACA 2412", 5e5): (-2.28, 0.1178, 1.39, 0.0064, 0.0069),
    ("NACA 2412", 1e6): (-2.24, 0.1140, 1.53, 0.0056, 0.0056),
    ("NACA 2412", 2e6): (-2.22, 0.1100, 1.68, 0.0052, 0.0052),
    ("NACA 63-412", 2e5): (-3.06, 0.1023, 1.33, 0.0110, 0.0119),
    ("NACA 63-412", 5e5): (-3.07, 0.1124, 1.41, 0.0071, 0.0074),
    ("NACA 63-412", 1e6): (-3.06, 0.1141, 1.54, 0.0056, 0.0058),
    ("NACA 63-412", 2e6): (-3.09, 0.1145, 1.74, 0.0048, 0.0048),
    ("NACA 63-209", 2e5): (-1.48, 0.1118, None, 0.0092, 0.0093),
    ("NACA 63-209", 5e5): (-1.59, 0.1059, 1.05, 0.0061, 0.0063),
    ("NACA 63-209", 1e6): (-1.58, 0.1094, 1.23, 0.0049, 0.0052),
    ("NACA 63-209", 2e6): (-1.57, 0.1109, 1.46, 0.0042, 0.0046),
}


def straight(rows: np.ndarray) -> tuple[float, float]:
    """Zero-lift angle [deg] and slope [1/deg] of XFOIL's rows between -2 and 4 degrees."""
    used = rows[(rows[:, 0] >= -2.0) & (rows[:, 0] <= 4.0)]
    slope, at_zero = np.polyfit(used[:, 0], used[:, 1], 1)
    return float(-at_zero / slope), float(slope)


def no_lift(rows: np.ndarray) -> float:
    """Angle where XFOIL's lift is nothing [deg]: not the zero of the line where a bubble kinks the curve."""
    near = rows[(rows[:, 0] > -6.0) & (rows[:, 0] < 3.0)]
    return float(np.interp(0.0, near[:, 1], near[:, 0]))


def drags(rows: np.ndarray, drag: np.ndarray) -> tuple[float, float]:
    """Least drag and drag at cl 0.4, of attached flow, over XFOIL's own lift."""
    working = (rows[:, 0] > -4.0) & (rows[:, 0] < 6.0)
    return float(drag[working].min()), float(np.interp(0.4, rows[working, 1], drag[working]))


@cache
def our_numbers(name: str, reynolds: float, tripped: int) -> tuple[float, float, float, float, float, float]:
    """Zero lift [deg], slope [1/deg], greatest lift, least drag, drag at cl 0.4, moment at no incidence."""
    zero_lift, slope, greatest, _ = section_line(tables(name, 0.0, float(tripped)), 0, 0.0, log(reynolds))
    rows = xfoil()[(name, 0.0, 0.0, reynolds, tripped)]
    drag = np.array([polar(name, 0.0, tripped, 0.0, reynolds, a)[0] for a in rows[:, 0]])
    moment = polar(name, 0.0, tripped, 0.0, reynolds, 0.0)[1]
    return zero_lift / DEGREE, slope * DEGREE, greatest, *drags(rows, drag), moment


def where(name: str, reynolds: float, tripped: int) -> str:
    return f"{name}, Re {reynolds:.0e}, {WAY[tripped]}".replace("e+0", "e")


@pytest.mark.parametrize(("name", "reynolds"), XFOIL_ROWS)
def test_bare_section_against_xfoil(name: str, reynolds: float) -> None:
    """Zero lift to 0.3 degrees, slope to 6 % (what a fit over a boat's angles may differ from one over -2 to
    4), drag to 5 % or half its last figure, greatest lift to 9 %, moment to 0.008.

    The stored run agrees with the printed one to 0.05 degrees, 2 %, 3 % and half a last figure.
    """
    row = XFOIL_ROWS[name, reynolds]
    for tripped, numbers in enumerate((row[:6], row[6:])):
        at, found = where(name, reynolds, tripped), our_numbers(name, reynolds, tripped)
        stated(f"{at}: zero lift", numbers[0], found[0], 0.3, "°", XFOIL)
        stated(f"{at}: slope", numbers[1], found[1], percent(6), "/°", XFOIL)
        least, middle = numbers[2:4] if tripped else numbers[3:5]
        stated(f"{at}: least drag", least, found[3], percent(5, 5e-5), "", XFOIL)
        stated(f"{at}: drag at cl 0.4", middle, found[4], percent(5, 5e-5), "", XFOIL)
        if not tripped:
            stated(f"{at}: greatest lift", numbers[2], found[2], percent(9), "", XFOIL)
            stated(f"{at}: moment at α 0", numbers[5], found[5], 0.008, "", XFOIL)
        rows = xfoil()[(name, 0.0, 0.0, reynolds, tripped)]
        again = (no_lift(rows), straight(rows)[1], *drags(rows, rows[:, 2]))
        assert again[0] == pytest.approx(numbers[0], abs=0.055)
        assert again[1] == pytest.approx(numbers[1], rel=0.02)
        assert again[2:] == pytest.approx((least, middle), rel=0.03, abs=6e-5)


@pytest.mark.parametrize(("name", "reynolds"), NEURAL_ROWS)
def test_bare_section_against_another_run_of_the_network(name: str, reynolds: float) -> None:
    """Smooth; tolerances as against XFOIL, and 4 % of drag, 3 % of greatest lift."""
    zero_lift, slope, greatest, least, middle = NEURAL_ROWS[name, reynolds]
    at, found = where(name, reynolds, 0).replace("free", "NeuralFoil"), our_numbers(name, reynolds, 0)
    stated(f"{at}: zero lift", zero_lift, found[0], 0.3, "°", NEURAL)
    stated(f"{at}: slope", slope, found[1], percent(6), "/°", NEURAL)
    if greatest is not None:
        stated(f"{at}: greatest lift", greatest, found[2], percent(3), "", NEURAL)
    stated(f"{at}: least drag", least, found[3], percent(4, 5e-5), "", NEURAL)
    stated(f"{at}: drag at cl 0.4", middle, found[4], percent(4, 5e-5), "", NEURAL)


@pytest.mark.parametrize("name", SECTIONS)
@pytest.mark.parametrize("tripped", [0, 1])
@pytest.mark.parametrize("reynolds", [2e5, 5e5, 1e6, 2e6])
def test_lift_line_against_the_stored_run(name: str, tripped: int, reynolds: float) -> None:
    """Our line's zero against that of a line through XFOIL's lift from -2 to 4 degrees, to 0.3 degrees; of
    the sections that have no printed row also the rest."""
    rows = xfoil()[(name, 0.0, 0.0, reynolds, tripped)]
    at, found = where(name, reynolds, tripped), our_numbers(name, reynolds, tripped)
    zero_lift, slope = straight(rows)
    stated(f"{at}: zero of the line", round(zero_lift, 3), found[0], 0.3, "°", STORED)
    if (name, reynolds) not in XFOIL_ROWS:
        least, middle = drags(rows, rows[:, 2])
        stated(f"{at}: zero lift", round(no_lift(rows), 3), found[0], 0.3, "°", STORED)
        stated(f"{at}: slope", round(slope, 5), found[1], percent(6), "/°", STORED)
        stated(f"{at}: least drag", round(least, 6), found[3], percent(5), "", STORED)
        stated(f"{at}: drag at cl 0.4", round(middle, 6), found[4], percent(5), "", STORED)


@pytest.mark.parametrize("name", SECTIONS)
@pytest.mark.parametrize("tripped", [0, 1])
def test_moment_against_xfoil(name: str, tripped: int) -> None:
    """At Reynolds number 1e6 between -2 and 6 degrees to 0.008 (at cl 0.4 that moves the centre of force 2 %
    of chord)."""
    rows = xfoil()[(name, 0.0, 0.0, 1e6, tripped)]
    used = rows[(rows[:, 0] >= -2.0) & (rows[:, 0] <= 6.0)]
    worst = max(abs(polar(name, 0.0, tripped, 0.0, 1e6, row[0])[1] - row[3]) for row in used)
    stated(
        f"{where(name, 1e6, tripped)}: moment, −2 to 6°, largest difference", None, worst, 0.008, "", STORED
    )


@pytest.mark.parametrize(
    ("name", "least"),
    [
        ("NACA 0009", (-0.31, -0.77, -1.96, -3.55, -5.58)),
        ("NACA 0012", (-0.41, -0.76, -1.42, -2.56, -3.95)),
        ("NACA 2412", (-0.57, -0.79, -1.34, -2.18, -3.35)),
        ("NACA 63-412", (-0.60, -0.76, -1.69, -2.96, -4.42)),
        ("NACA 63-209", (-0.38, -0.89, -2.14, -3.91, -6.54)),
    ],
)
def test_least_pressure_against_xfoil(name: str, least: tuple[float, ...]) -> None:
    """Reynolds number 1e6, free transition: to 0.05 below 3 degrees, else 10 %.

    At no lift also the book's (v/V)^2 of 1.31 (0009) and 1.41 (0012).
    """
    for alpha, value in zip((0, 2, 4, 6, 8), least, strict=True):
        tolerance = 0.05 if alpha < 3 else percent(10)
        found = polar(name, 0.0, 0.0, 0.0, 1e6, alpha)[3]
        stated(f"{name} at {alpha}°: least pressure", value, found, tolerance, "", XFOIL_PRESSURE)
    speeds = {"NACA 0009": 1.31, "NACA 0012": 1.41}
    if name in speeds:
        found = 1.0 - polar(name, 0.0, 0.0, 0.0, 1e6, 0.0)[3]
        compare(f"{name} at no lift: greatest (v/V)²", speeds[name], found, 0.05, "", BOOK_PRESSURE)
