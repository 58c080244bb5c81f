"""Section table against thin-aerofoil theory, wind-tunnel values and a section code.

Sources - Thin aerofoil with a plain flap: H. Glauert, "Theoretical relationships for an aerofoil with hinged
flap", ARC R&M
  1095 (1927). Closed forms evaluated here; hinge moments by integrating the linear pressure distribution.
- Wind tunnel, Reynolds number about 9e6, smooth: I. H. Abbott and A. E. von Doenhoff, Theory of Wing Sections
(1959),
  as tabulated in USAF DATCOM; values written down from memory of that table, so never the only guard here.
- XFOIL 6.99 (M. Drela, "XFOIL: an analysis and design system for low Reynolds number airfoils", 1989): 200
panels,
  Ncrit 9, free transition and tripped at 5 % of chord on both sides, flap bent at mid-thickness. Its answers
  lie in data/section_xfoil.csv, made by builders/section_referee.py; rows that did not converge are absent.
- Ordinates: Abbott, von Doenhoff & Stivers, NACA Report 824 (1945), appendix tables as recomputed by R.
Carmichael. - Loss of greatest lift through roughness: W. A. Timmer, AIAA 2009-268, 18 to 20 %.

What is missed, with size and reason, stands in docs/theory/section.md; here it is named in MISSED.
"""

import csv
import importlib.util
from collections import defaultdict
from functools import cache
from math import acos, asin, cos, log, pi, sin, sqrt
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from scipy.integrate import quad

from foilwright.water.section import SectionTables, section_line, section_polar
from foilwright.water.section_data import SectionSpec, tables_for

MISSED = {
    # wind tunnel at 9e6: the section code has these too (4412 -4.3, 63-212 -1.5; thin aerofoils -4.2, -1.8 x
    # 0.8)
    ("NACA 4412", "zero lift"): "0.5 degrees",
    ("NACA 63-212", "zero lift"): "0.5 degrees; the 63-209 of the same mean line was measured at -1.4",
    ("NACA 2412", "slope"): "6.3 %",
    ("NACA 4412", "slope"): "6.3 %",
    # thin noses: the code stalls them too late, and our 3e6 is not 9e6
    ("NACA 0009", "greatest lift"): "18 %",
    ("NACA 63-209", "greatest lift"): "16 %",
    ("NACA 64-209", "greatest lift"): "14 %",
    ("NACA 64-210", "greatest lift"): "12 %",
    # a laminar bubble kinks the smooth lift curve near no lift; our line is fitted over -6 to 6 degrees on
    # purpose
    ("NACA 0009", 0, 2e5, "slope"): "14 %",
    ("NACA 0009", 0, 5e5, "slope"): "7 %",
    ("NACA 0012", 0, 2e5, "slope"): "13 %",
    ("NACA 0012", 0, 5e5, "slope"): "8 %",
    ("NACA 2412", 0, 2e5, "zero lift"): "0.4 degrees",
    ("NACA 4412", 0, 2e5, "zero lift"): "0.45 degrees",
    ("NACA 4412", 0, 2e5, "slope"): "7 %",
    # our 63-209 ordinates: XFOIL gives -0.84 on them too
    ("NACA 63-209", 2.0, "least pressure"): "0.06",
    ("NACA 63-209", 8.0, "least pressure"): "13 % too low: a sharp nose near its stall",
    # the smooth outline that NeuralFoil sees keeps flow on the flap that a sharp hinge loses
    ("NACA 63-412", 0.4, 10.0, 0, "drag"): "13 %",
    ("NACA 63-412", 0.3, 10.0, 1, "hinge"): "0.042",
    # a smooth foil keeps the flow on a flap at 15 degrees that XFOIL's sharper hinge loses
    ("NACA 63-412", 0.0, "effectiveness at 15"): "1.03 against at most 0.95",
}
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
        """Fourier series of the bent plate: A0 and A_n of Glauert, per radian."""
        series = sum(2.0 * sin(n * hinge) / (n * pi) * sin(n * theta) for n in range(1, 400))
        return 4.0 * ((1.0 - hinge / pi) * (1.0 + cos(theta)) / sin(theta) + series)

    per_incidence = -quad(lambda t: load_incidence(t) * arm(t), hinge, pi)[0] / share**2
    per_flap = -quad(lambda t: load_flap(t) * arm(t), hinge, pi, limit=400)[0] / share**2
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
    upper, lower = outline[nose::-1], outline[nose:]
    for x, y in ((9.7182, 5.0635), (39.9236, 8.0637), (70.0866, 5.1545)):
        assert np.interp(x, upper[:, 0], upper[:, 1]) == pytest.approx(y, abs=0.01)
    for x, y in ((10.2818, -2.9939), (40.0764, -3.7792)):
        assert np.interp(x, lower[:, 0], lower[:, 1]) == pytest.approx(y, abs=0.01)


@pytest.mark.parametrize(
    ("series", "published"),
    [("63", (2.4396, 4.4454, 4.9414, 3.7158, 1.6146)), ("64", (2.3406, 4.3004, 4.9800, 3.8181, 1.7211))],
)
def test_thickness_between_the_kept_forms_is_right(series: str, published: tuple[float, ...]) -> None:
    """The 10 % forms are not kept in the builder; the report gives them. Per cent of chord, to 0.003."""
    at = np.array([0.05, 0.20, 0.40, 0.60, 0.80])
    assert shapes().six_series_half_thickness(series, 10, at) * 100.0 == pytest.approx(published, abs=0.003)


def test_0012_ordinates() -> None:
    """NACA Report 460: half-thickness 6.002 % at 30 %, 4.563 % at 60 %, 0.126 % at the trailing edge."""
    found = shapes().four_digit_half_thickness(12, np.array([0.3, 0.6, 1.0])) * 100.0
    assert found == pytest.approx([6.0017, 4.5634, 0.126], abs=1e-3)


# ---- thin aerofoil with flap


@pytest.mark.parametrize(
    ("share", "tau", "moment", "per_incidence", "per_flap"),
    [
        (0.20, 0.5498, -0.6400, -0.4994, -0.9229),
        (0.30, 0.6607, -0.6416, -0.6274, -0.9654),
        (0.40, 0.7478, -0.5879, -0.7448, -1.0127),
    ],
)
def test_closed_forms_used_below(
    share: float, tau: float, moment: float, per_incidence: float, per_flap: float
) -> None:
    """The yardsticks themselves: tau = (2/pi)(sqrt(E(1-E)) + asin sqrt E) is the same effectiveness another
    way."""
    found = thin_flap(share)
    assert found[0] == pytest.approx(2.0 / pi * (sqrt(share * (1.0 - share)) + asin(sqrt(share))), abs=1e-9)
    assert found == pytest.approx((tau, moment, per_incidence, per_flap), abs=2e-3)


def effectiveness(name: str, share: float, rough: float, flap: float) -> float:
    """Lift the flap adds over thin-aerofoil lift, mean of the angles -2, 0, 2 degrees, Reynolds number
    1e6."""
    gained = [
        line_lift(name, share, rough, flap, 1e6, a) - line_lift(name, share, rough, 0.0, 1e6, a)
        for a in (-2, 0, 2)
    ]
    return float(np.mean(gained)) / (2.0 * pi * thin_flap(share)[0] * flap * DEGREE)


@pytest.mark.parametrize("name", ["NACA 0012", "NACA 63-412"])
@pytest.mark.parametrize("share", [0.2, 0.3, 0.4])
@pytest.mark.parametrize("rough", [0.0, 1.0])
def test_flap_effectiveness_is_between_three_quarters_and_eleven_tenths(
    name: str, share: float, rough: float
) -> None:
    for flap in (-10.0, -5.0, 5.0, 10.0):
        assert 0.75 <= effectiveness(name, share, rough, flap) <= 1.10, f"{flap} deg"


@pytest.mark.parametrize("name", ["NACA 0012", "NACA 63-412"])
@pytest.mark.parametrize("rough", [0.0, 1.0])
def test_flap_effectiveness_falls_at_fifteen_degrees(name: str, rough: float) -> None:
    if (name, rough, "effectiveness at 15") not in MISSED:
        assert 0.65 <= effectiveness(name, 0.3, rough, 15.0) <= 0.95


def test_hinge_moment_is_the_usual_share_of_thin_aerofoil_theory() -> None:
    """Tripped 12 % section: thickness and boundary layer leave 0.5 to 0.8 of C_h_alpha, 0.6 to 1 of
    C_h_delta."""
    _, _, per_incidence, per_flap = thin_flap(0.3)
    by_incidence = polar("NACA 0012", 0.3, 1, 0, 1e6, 4)[2] - polar("NACA 0012", 0.3, 1, 0, 1e6, -4)[2]
    by_flap = polar("NACA 0012", 0.3, 1, 5, 1e6, 0)[2] - polar("NACA 0012", 0.3, 1, -5, 1e6, 0)[2]
    assert 0.5 < by_incidence / (8 * DEGREE) / per_incidence < 0.8
    assert 0.6 < by_flap / (10 * DEGREE) / per_flap < 1.0


# ---- wind tunnel


@pytest.mark.parametrize(
    ("name", "zero_lift", "moment", "slope", "greatest"),
    [
        ("NACA 0009", 0.0, 0.0, 0.109, 1.32),
        ("NACA 2412", -2.0, -0.047, 0.105, 1.68),
        ("NACA 4412", -3.8, -0.093, 0.105, 1.67),
        ("NACA 63-209", -1.4, -0.032, 0.111, 1.40),
        ("NACA 63-212", -2.0, -0.035, 0.114, 1.63),
        ("NACA 63-412", -2.8, -0.075, 0.117, 1.77),
        ("NACA 64-209", -1.5, -0.040, 0.107, 1.40),
        ("NACA 64-210", -1.6, -0.040, 0.110, 1.45),
    ],
)
def test_wind_tunnel_values(
    name: str, zero_lift: float, moment: float, slope: float, greatest: float
) -> None:
    """Measured at 9e6, our table ends at 3e6. Zero lift to 0.3 degrees, slope to 6 %, moment to 0.015."""
    found = section_line(tables(name, 0.0, 0.0), 0, 0.0, log(3e6))
    if (name, "zero lift") not in MISSED:
        assert found[0] / DEGREE == pytest.approx(zero_lift, abs=0.3)
    if (name, "slope") not in MISSED:
        assert found[1] * DEGREE == pytest.approx(slope, rel=0.06)
    assert polar(name, 0.0, 0.0, 0.0, 3e6, zero_lift)[1] == pytest.approx(moment, abs=0.015)
    if (name, "greatest lift") not in MISSED:
        assert found[2] == pytest.approx(greatest, rel=0.10)


# ---- XFOIL


def straight(rows: np.ndarray) -> tuple[float, float]:
    """Zero-lift angle [deg] and slope [1/deg] of XFOIL's rows between -2 and 4 degrees."""
    used = rows[(rows[:, 0] >= -2.0) & (rows[:, 0] <= 4.0)]
    slope, at_zero = np.polyfit(used[:, 0], used[:, 1], 1)
    return float(-at_zero / slope), float(slope)


@pytest.mark.parametrize("name", SECTIONS)
@pytest.mark.parametrize("tripped", [0, 1])
@pytest.mark.parametrize("reynolds", [2e5, 5e5, 1e6, 2e6])
def test_lift_line_against_xfoil(name: str, tripped: int, reynolds: float) -> None:
    """Zero lift to 0.3 degrees, slope to 6 %: what a fit over a boat's angles may differ from one over -2 to
    4."""
    zero_lift, slope = straight(xfoil()[(name, 0.0, 0.0, reynolds, tripped)])
    found = section_line(tables(name, 0.0, float(tripped)), 0, 0.0, log(reynolds))
    problems = []
    if abs(found[0] / DEGREE - zero_lift) > 0.3 and (name, tripped, reynolds, "zero lift") not in MISSED:
        problems.append(f"zero lift {found[0] / DEGREE:.2f} against {zero_lift:.2f}")
    if abs(found[1] * DEGREE / slope - 1.0) > 0.06 and (name, tripped, reynolds, "slope") not in MISSED:
        problems.append(f"slope {found[1] * DEGREE:.4f} against {slope:.4f}")
    assert not problems


@pytest.mark.parametrize("name", SECTIONS)
@pytest.mark.parametrize("tripped", [0, 1])
@pytest.mark.parametrize("reynolds", [2e5, 5e5, 1e6, 2e6])
def test_drag_against_xfoil(name: str, tripped: int, reynolds: float) -> None:
    """Least drag and drag at cl 0.4 to 5 %: NeuralFoil's own 4 % and our grid."""
    rows = xfoil()[(name, 0.0, 0.0, reynolds, tripped)]
    ours = np.array([polar(name, 0.0, tripped, 0.0, reynolds, a)[0] for a in rows[:, 0]])
    working = (rows[:, 0] > -4.0) & (rows[:, 0] < 6.0)
    assert ours[working].min() == pytest.approx(rows[working, 2].min(), rel=0.05)
    at = [float(np.interp(0.4, rows[working, 1], drag[working])) for drag in (rows[:, 2], ours)]
    assert at[1] == pytest.approx(at[0], rel=0.05)


@pytest.mark.parametrize("name", SECTIONS)
@pytest.mark.parametrize("tripped", [0, 1])
def test_moment_against_xfoil(name: str, tripped: int) -> None:
    """At Reynolds number 1e6 between -2 and 6 degrees to 0.008 (at cl 0.4 that moves the centre of force 2 %
    of chord)."""
    rows = xfoil()[(name, 0.0, 0.0, 1e6, tripped)]
    for row in rows[(rows[:, 0] >= -2.0) & (rows[:, 0] <= 6.0)]:
        assert polar(name, 0.0, tripped, 0.0, 1e6, row[0])[1] == pytest.approx(row[3], abs=0.008)


@pytest.mark.parametrize(
    ("name", "reynolds", "greatest"),
    [
        ("NACA 0009", 2e5, 0.88), ("NACA 0009", 5e5, 1.04), ("NACA 0009", 1e6, 1.25),
        ("NACA 0009", 2e6, 1.44), ("NACA 0012", 2e5, 1.10), ("NACA 0012", 5e5, 1.24),
        ("NACA 0012", 1e6, 1.39), ("NACA 0012", 2e6, 1.56), ("NACA 2412", 2e5, 1.33),
        ("NACA 2412", 5e5, 1.39), ("NACA 2412", 1e6, 1.52), ("NACA 2412", 2e6, 1.68),
        ("NACA 63-412", 2e5, 1.31), ("NACA 63-412", 5e5, 1.36), ("NACA 63-412", 1e6, 1.45),
        ("NACA 63-412", 2e6, 1.60), ("NACA 63-209", 2e5, 0.91), ("NACA 63-209", 5e5, 0.98),
        ("NACA 63-209", 1e6, 1.22), ("NACA 63-209", 2e6, 1.48),
    ],
)  # fmt: skip
def test_greatest_lift_against_xfoil(name: str, reynolds: float, greatest: float) -> None:
    """Smooth, to 9 %. Both codes stall late by 5 to 15 % (common practice, no source)."""
    assert section_line(tables(name, 0.0, 0.0), 0, 0.0, log(reynolds))[2] == pytest.approx(greatest, rel=0.09)


def test_roughness_takes_a_fifth_of_greatest_lift() -> None:
    for name in ("NACA 63-209", "NACA 63-412"):
        smooth, rough = (section_line(tables(name, 0.0, r), 0, 0.0, log(1e6))[2] for r in (0.0, 1.0))
        assert 0.17 < 1.0 - rough / smooth < 0.23


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
    """XFOIL, Reynolds number 1e6, free transition, at 0, 2, 4, 6, 8 degrees: to 0.05 below 3 degrees, else 10
    %.

    At no lift also Abbott & von Doenhoff, appendix I: (v/V)^2 1.31 (0009) and 1.41 (0012).
    """
    for alpha, value in zip((0.0, 2.0, 4.0, 6.0, 8.0), least, strict=True):
        allowed = 0.05 if alpha < 3.0 else 0.10 * abs(value)
        missed = (name, alpha, "least pressure") in MISSED
        assert missed or polar(name, 0.0, 0.0, 0.0, 1e6, alpha)[3] == pytest.approx(value, abs=allowed)


@pytest.mark.parametrize("name", ["NACA 0012", "NACA 63-412"])
@pytest.mark.parametrize("share", [0.2, 0.3, 0.4])
@pytest.mark.parametrize("flap", [-10.0, -5.0, 5.0, 10.0])
@pytest.mark.parametrize("tripped", [0, 1])
def test_bent_section_against_xfoil(name: str, share: float, flap: float, tripped: int) -> None:
    """Means over -4 to 6 degrees at 1e6 below three quarters of stall: lift 0.08, drag 12 %, moment 0.015,
    hinge 0.04."""
    rows = xfoil()[(name, share, flap, 1e6, tripped)]
    _, _, greatest, least = section_line(tables(name, share, 0.0), 0, flap * DEGREE, log(1e6))
    rows = rows[(rows[:, 0] >= -4.0) & (rows[:, 0] <= 6.0)]
    rows = rows[(rows[:, 1] < 0.75 * greatest) & (rows[:, 1] > 0.75 * least)]
    assert len(rows) >= 3
    lift = np.array([line_lift(name, share, tripped, flap, 1e6, a) for a in rows[:, 0]])
    ours = np.array([polar(name, share, tripped, flap, 1e6, a) for a in rows[:, 0]])
    assert np.mean(np.abs(lift - rows[:, 1])) < 0.08
    if (name, share, flap, tripped, "drag") not in MISSED:
        assert np.mean(np.abs(ours[:, 0] / rows[:, 2] - 1.0)) < 0.12
    assert np.mean(np.abs(ours[:, 1] - rows[:, 3])) < 0.015
    if (name, share, flap, tripped, "hinge") not in MISSED:
        assert np.mean(np.abs(ours[:, 2] - rows[:, 5])) < 0.04
    assert np.mean(np.abs(ours[:, 3] - rows[:, 4]) / np.maximum(1.0, -rows[:, 4])) < 0.15


@pytest.mark.parametrize(
    ("name", "flap", "lift"),
    [
        ("NACA 0012", 5.0, 0.3882), ("NACA 0012", 10.0, 0.7241), ("NACA 63-412", -10.0, -0.3996),
        ("NACA 63-412", -5.0, -0.0331), ("NACA 63-412", 0.0, 0.3499), ("NACA 63-412", 5.0, 0.7357),
        ("NACA 63-412", 10.0, 1.1012),
    ],
)  # fmt: skip
def test_lift_of_a_bent_smooth_section_at_no_incidence(name: str, flap: float, lift: float) -> None:
    """XFOIL 6.99 by another hand, flap 0.3, 1e6, free transition: to 0.04 of lift (0.35 degrees of
    incidence)."""
    assert line_lift(name, 0.3, 0.0, flap, 1e6, 0.0) == pytest.approx(lift, abs=0.04)
