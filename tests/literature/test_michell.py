"""Thin-ship wave resistance of the Wigley hull.

Michell 1898, Philosophical Magazine 45:106-123: R = 4 rho g^2 / (pi U^2) times the integral over lambda from
1 of |P|^2 lambda^2 / sqrt(lambda^2 - 1). For y = B/2 (1 - (2x/L)^2)(1 - (z/T)^2) both inner integrals have
closed forms; the outer one was done by adaptive quadrature over u, lambda = cosh u. C_w = R / (1/2 rho U^2
S), times 1000, to 0.5 %.

No published table of theory values could be opened (Tuck 1989, Michelsen 1960, Gotman 2002 have them); place
and height of the last hump match plots remembered from the 1979 wave-resistance workshop. The hull goes in as
offsets, 81 stations of 41 nodes.
"""

import numpy as np
import pytest

from foilwright.water.hull import hull_in_water
from foilwright.water.hull_shape import HullShape, hull_from_offsets
from foilwright.water.waves import thin_ship_resistance
from tests.literature.published import (
    CLOSED_FORM,
    MEMORY,
    MEMORY_SURE,
    REFEREE,
    Source,
    compare,
    percent,
)

TOPIC = "Hull: Wigley's"
SHAPE = Source(TOPIC, "Hydrostatics of the Wigley hull, closed forms and quadrature", CLOSED_FORM)
TANKS = Source(TOPIC, "Wetted surface from the ITTC cooperative Wigley programme", MEMORY_SURE)
MICHELL = Source(TOPIC, "Michell 1898, closed inner integrals and adaptive quadrature", CLOSED_FORM)
BRUTE = Source(TOPIC, "Michell's integral by 120 × 60 Gauss points", REFEREE)
WORKSHOP = Source(TOPIC, "Last hump in plots of the 1979 wave-resistance workshop", MEMORY)

G = 9.80665

# Froude number: C_w x 1000 for L/B 10, L/T 16 | L/B 10, L/T 20 | L/B 20, L/T 16; R / (rho g V) of the first
ROWS = {
    0.20: (0.888, 0.838, 0.251, 0.00095),
    0.225: (0.874, None, None, 0.00118),
    0.25: (1.064, 0.972, 0.300, 0.00178),
    0.30: (2.142, 1.846, 0.605, 0.00516),
    0.35: (1.248, 1.106, 0.352, 0.00409),
    0.40: (2.734, 2.272, 0.772, 0.01172),
    0.45: (4.154, 3.377, 1.173, 0.02253),
    0.50: (4.517, 3.653, 1.275, 0.03025),
    0.60: (3.918, 3.187, 1.106, 0.03778),
    0.80: (2.595, None, None, 0.04449),
    1.00: (1.836, None, None, 0.04918),
}


def wigley(length: float, beam: float, draft: float, stations: int = 81, nodes: int = 41) -> HullShape:
    x = np.linspace(0.0, length, stations)
    down = np.linspace(1.0, 0.0, nodes)
    plan = 0.5 * beam * (1.0 - (2.0 * x / length - 1.0) ** 2)
    return hull_from_offsets(x, np.outer(plan, 1.0 - down**2), np.tile(draft * (1.0 - down), (stations, 1)))


def wetted_surface(length: float, beam: float, draft: float) -> float:
    """Of the Wigley hull, by quadrature of the area element [m2]."""
    node, weight = np.polynomial.legendre.leggauss(60)
    x, z = node[:, None], 0.5 * (node[None, :] + 1.0)  # 2x/L and depth/T
    along = -2.0 * x * beam / length * (1.0 - z**2)
    down = -beam * z / draft * (1.0 - x**2)
    return float(2.0 * 0.5 * length * 0.5 * draft * (weight @ np.sqrt(1.0 + along**2 + down**2) @ weight))


def coefficient(length: float, beam: float, draft: float, froude) -> np.ndarray:
    """C_w x 1000 at Froude numbers."""
    speeds = np.asarray(froude) * np.sqrt(G * length)
    resistance = thin_ship_resistance(wigley(length, beam, draft), np.array([draft]), speeds, G)[:, 0]
    return 1e3 * resistance / (0.5 * speeds**2 * wetted_surface(length, beam, draft))


@pytest.mark.parametrize(
    ("draft", "surface", "coefficient_of_surface"), [(1 / 16, 0.14879, 0.6613), (1 / 20, 0.12753, None)]
)
def test_hydrostatics(draft, surface, coefficient_of_surface):
    """Volume 4/9 LBT, waterplane 2/3 LB, midship section 2/3 BT; S/L^2 and S/(L (2T + B)).

    The quadrature to its last figure; ours, wall-sided above the waterline, volume and waterplane to 0.1 %,
    surface to 0.3 % (the rounded waterline is worth 0.1 % here).
    """
    name = f"L/T {1 / draft:g}"
    length, beam, size = 10.0, 1.0, 10.0 * draft
    x, down = np.linspace(0.0, length, 81), np.append(np.linspace(1.0, 0.0, 41), -0.2)
    plan = 0.5 * beam * (1.0 - (2.0 * x / length - 1.0) ** 2)
    hull = hull_from_offsets(
        x, np.outer(plan, 1.0 - np.maximum(down, 0.0) ** 2), np.tile(size * (1.0 - down), (81, 1))
    )
    found = hull_in_water(hull, -size, 0.0, 1.0, 0.0, 1.0, 0.5 * length)
    block = found.volume / (length * beam * size)
    compare(f"{name}: block coefficient", 0.4444, block, percent(0.1), "", SHAPE)
    plane = found.waterplane / (length * beam)
    compare(f"{name}: waterplane / (L B)", 0.6667, plane, percent(0.1), "", SHAPE)
    middle = float(np.trapezoid(2.0 * hull.y[40], hull.z[40])) - 0.2 * size * beam  # the wall-sided part
    compare(f"{name}: midship section / (B T)", 0.6667, middle / (beam * size), percent(0.1), "", SHAPE)
    prismatic = found.volume / (length * middle)
    compare(f"{name}: prismatic coefficient", 0.6667, prismatic, percent(0.1), "", SHAPE)
    ours = found.wetted_area / length**2
    compare(f"{name}: S/L²", surface, ours, percent(0.3), "", SHAPE)
    exact = wetted_surface(1.0, 0.1, draft)
    compare(f"{name}: S/L² by quadrature", surface, exact, 1e-5, "", SHAPE, referee=True)
    if coefficient_of_surface is not None:
        share = found.wetted_area / (length * (2.0 * size + beam))
        compare(f"{name}: S/(L (2T + B))", coefficient_of_surface, share, percent(0.3), "", SHAPE)
        compare(f"{name}: S/(L (2T + B)) of the tanks", 0.661, share, percent(0.3), "", TANKS)


@pytest.mark.parametrize(("beam", "draft", "column"), [(0.1, 1 / 16, 0), (0.1, 1 / 20, 1), (0.05, 1 / 16, 2)])
def test_wave_resistance_coefficient(beam, draft, column):
    rows = {froude: row[column] for froude, row in ROWS.items() if row[column] is not None}
    name = f"L/B {1 / beam:g}, L/T {1 / draft:g}"
    for froude, found in zip(rows, coefficient(1.0, beam, draft, list(rows)), strict=True):
        compare(f"{name}, Fn {froude:g}: Cw × 1000", rows[froude], found, percent(0.5), "", MICHELL)


def test_share_of_the_weight():
    """R / (rho g V) with V = 4/9 LBT, to 0.5 % and the last printed digit."""
    froude = np.array(list(ROWS))
    speeds = froude * np.sqrt(G)
    resistance = thin_ship_resistance(wigley(1.0, 0.1, 0.0625), np.array([0.0625]), speeds, G)[:, 0]
    shares = resistance / (G * 4.0 / 9.0 * 0.1 * 0.0625)
    for fn, found, row in zip(ROWS, shares, ROWS.values(), strict=True):
        compare(f"L/B 10, L/T 16, Fn {fn:g}: R/(rho g V)", row[3], found, percent(0.5, 5e-6), "", MICHELL)


def test_grows_with_the_square_of_the_beam():
    speeds = np.array([1.0, 1.3, 2.0])
    hulls = [wigley(1.0, beam, 0.0625, 31, 9) for beam in (0.05, 0.1)]
    one, two = (thin_ship_resistance(hull, np.array([0.0625]), speeds, G) for hull in hulls)
    assert two == pytest.approx(4.0 * one, rel=1e-12)


def test_humps_and_hollows():
    """Within 0.005 in Fn, 0.5 % in C_w and its last printed digit."""
    froude = np.arange(0.1975, 0.56, 0.0025)
    values = coefficient(1.0, 0.1, 1.0 / 16.0, froude)
    inner = values[1:-1]
    tops = np.flatnonzero((inner > values[:-2]) & (inner > values[2:])) + 1
    dips = np.flatnonzero((inner < values[:-2]) & (inner < values[2:])) + 1
    humps = ((0.205, 0.986), (0.2375, 1.396), (0.300, 2.142), (0.500, 4.517))
    hollows = ((0.2175, 0.619), (0.260, 0.847), (0.345, 1.237))
    for kind, places, rows in (("hump", tops, humps), ("hollow", dips, hollows)):
        for place, (fn, height) in zip(places, rows, strict=True):
            compare(f"{kind} at Fn {fn:g}: place", fn, froude[place], 0.005, "", MICHELL)
            compare(f"{kind} at Fn {fn:g}: Cw × 1000", height, values[place], percent(0.5, 5e-4), "", MICHELL)
    compare("last hump: place", 0.5, froude[tops[-1]], 0.01, "", WORKSHOP)
    compare("last hump: Cw × 1000", 4.5, values[tops[-1]], 0.05, "", WORKSHOP)


def test_dinghy_size():
    """L 3.4 m, B 0.34 m, T 0.125 m, 999.1 kg/m3: newtons, to 0.5 % and the last printed digit."""
    size = (3.4, 0.34, 0.125)
    compare("dinghy size: volume", 0.0642, 4.0 / 9.0 * 3.4 * 0.34 * 0.125, 5e-5, "m³", SHAPE, referee=True)
    compare("dinghy size: wetted surface", 1.230, wetted_surface(*size), 5e-4, "m²", SHAPE, referee=True)
    speeds = np.array([1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0])
    found = 999.1 * thin_ship_resistance(wigley(*size), np.array([0.125]), speeds, G)[:, 0]
    expected = [0.221, 0.910, 2.154, 8.604, 14.28, 17.05, 18.99]
    for speed, value, newtons in zip(speeds, found, expected, strict=True):
        compare(f"dinghy size at {speed:g} m/s", newtons, value, percent(0.5, 5e-4), "N", MICHELL)


BRUTE_ROWS = {0.25: 1.0649, 0.35: 1.2480, 0.50: 4.5172}


@pytest.mark.parametrize("froude", BRUTE_ROWS)
def test_brute_force(froude):
    """Sources summed one by one: 120 x 60 Gauss points of the exact hull and a fine sum over lambda, with no
    closed form, no cosh and no polygon in common with the code."""
    length, beam, draft = 1.0, 0.1, 1.0 / 16.0
    kappa = 1.0 / (froude**2 * length)
    gx, wx = np.polynomial.legendre.leggauss(120)
    gz, wz = np.polynomial.legendre.leggauss(60)
    x, z = 0.5 * length * gx, 0.5 * draft * (gz - 1.0)
    source = -4.0 * beam * x / length**2  # dy/dx at z = 0
    s = np.linspace(0.0, 3.5, 2001)  # lambda = 1 + s^2 takes the root out: d lambda / sqrt(lambda^2 - 1)
    lam = 1.0 + s**2
    along = np.exp(1j * kappa * np.outer(lam, x)) @ (0.5 * length * wx * source)
    down = np.exp(kappa * np.outer(lam**2, z)) @ (0.5 * draft * wz * (1.0 - (z / draft) ** 2))
    integrand = np.abs(along * down) ** 2 * lam**2 * 2.0 / np.sqrt(lam + 1.0)
    resistance = 4.0 * G * kappa / np.pi * np.trapezoid(integrand, s)
    brute = 1e3 * resistance / (0.5 * froude**2 * G * length * wetted_surface(length, beam, draft))
    found = coefficient(length, beam, draft, [froude])[0]
    compare(f"Fn {froude:g}: Cw × 1000", BRUTE_ROWS[froude], found, percent(0.5), "", BRUTE)
    compare(
        f"Fn {froude:g}: Cw × 1000, sum", BRUTE_ROWS[froude], brute, percent(0.1), "", BRUTE, referee=True
    )
    assert brute == pytest.approx(ROWS[froude][0], rel=1e-3)
