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

from foilwright.water.hull_shape import HullShape, hull_from_offsets
from foilwright.water.waves import thin_ship_resistance

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


def test_wetted_surface():
    """S / L^2 = 0.14879, 0.12753; S / (L (2T + B)) = 0.6613."""
    assert wetted_surface(1.0, 0.1, 1.0 / 16.0) == pytest.approx(0.14879, abs=1e-5)
    assert wetted_surface(1.0, 0.1, 1.0 / 20.0) == pytest.approx(0.12753, abs=1e-5)
    assert wetted_surface(1.0, 0.1, 0.0625) / 0.225 == pytest.approx(0.6613, abs=1e-4)


@pytest.mark.parametrize(("beam", "draft", "column"), [(0.1, 1 / 16, 0), (0.1, 1 / 20, 1), (0.05, 1 / 16, 2)])
def test_wave_resistance_coefficient(beam, draft, column):
    rows = {froude: row[column] for froude, row in ROWS.items() if row[column] is not None}
    assert coefficient(1.0, beam, draft, list(rows)) == pytest.approx(np.array(list(rows.values())), rel=5e-3)


def test_share_of_the_weight():
    """R / (rho g V) with V = 4/9 LBT, to 0.5 % and the last printed digit."""
    froude = np.array(list(ROWS))
    speeds = froude * np.sqrt(G)
    resistance = thin_ship_resistance(wigley(1.0, 0.1, 0.0625), np.array([0.0625]), speeds, G)[:, 0]
    for found, row in zip(resistance / (G * 4.0 / 9.0 * 0.1 * 0.0625), ROWS.values(), strict=True):
        assert found == pytest.approx(row[3], rel=5e-3, abs=5e-6)  # printed to 1e-5


def test_grows_with_the_square_of_the_beam():
    speeds = np.array([1.0, 1.3, 2.0])
    hulls = [wigley(1.0, beam, 0.0625, 31, 9) for beam in (0.05, 0.1)]
    one, two = (thin_ship_resistance(hull, np.array([0.0625]), speeds, G) for hull in hulls)
    assert two == pytest.approx(4.0 * one, rel=1e-12)


def test_humps_and_hollows():
    """Humps at Fn 0.205, 0.2375, 0.300, 0.500 (0.986, 1.396, 2.142, 4.517), hollows at 0.2175, 0.260, 0.345
    (0.619, 0.847, 1.237); to 0.005 in Fn, 0.5 % in C_w and its last printed digit."""
    froude = np.arange(0.1975, 0.56, 0.0025)
    values = coefficient(1.0, 0.1, 1.0 / 16.0, froude)
    inner = values[1:-1]
    tops = np.flatnonzero((inner > values[:-2]) & (inner > values[2:])) + 1
    dips = np.flatnonzero((inner < values[:-2]) & (inner < values[2:])) + 1
    assert froude[tops] == pytest.approx(np.array([0.205, 0.2375, 0.300, 0.500]), abs=0.005)
    assert froude[dips] == pytest.approx(np.array([0.2175, 0.260, 0.345]), abs=0.005)
    assert values[tops] == pytest.approx(np.array([0.986, 1.396, 2.142, 4.517]), rel=5e-3, abs=5e-4)
    assert values[dips] == pytest.approx(np.array([0.619, 0.847, 1.237]), rel=5e-3, abs=5e-4)


def test_dinghy_size():
    """L 3.4 m, B 0.34 m, T 0.125 m, 999.1 kg/m3: newtons, to 0.5 % and the last printed digit."""
    speeds = np.array([1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0])
    found = 999.1 * thin_ship_resistance(wigley(3.4, 0.34, 0.125), np.array([0.125]), speeds, G)[:, 0]
    for value, expected in zip(found, [0.221, 0.910, 2.154, 8.604, 14.28, 17.05, 18.99], strict=True):
        assert value == pytest.approx(expected, rel=5e-3, abs=5e-4)


@pytest.mark.parametrize("froude", [0.25, 0.35, 0.50])
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
    assert coefficient(length, beam, draft, [froude])[0] == pytest.approx(brute, rel=5e-3)
    assert brute == pytest.approx(ROWS[froude][0], rel=1e-3)
