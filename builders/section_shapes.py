"""Ordinates of the sections that the shipped table holds: NACA four-digit and NACA 63- and 64-series.

Four-digit: the closed form of Jacobs, Ward & Pinkerton, NACA Report 460 (1933), blunt trailing edge
(last coefficient 0.1015).

Six-series: the basic thickness forms 63-0NN and 64-0NN (Abbott, von Doenhoff & Stivers, NACA Report 824,
1945; here to four decimals as recomputed by R. Carmichael's public-domain program, appendix I, with the
leading-edge radius) at 6, 9, 12 and 15 % of thickness, a cubic in thickness between them at every station,
a cubic spline in the angle theta, x = (1 - cos theta) / 2, between stations, on the mean line a = 1 of the
same report laid on at right angles.
"""

from __future__ import annotations

import numpy as np
from scipy.interpolate import CubicSpline

STATIONS = np.array(
    [0.0, 0.5, 0.75, 1.25, 2.5, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0,
     55.0, 60.0, 65.0, 70.0, 75.0, 80.0, 85.0, 90.0, 95.0, 100.0]
)  # fmt: skip

# half-thickness in per cent of chord at the stations, by series and thickness
FORMS: dict[str, dict[int, list[float]]] = {
    "63": {
        6: [0.0, 0.5039, 0.6094, 0.7709, 1.0568, 1.4626,
            1.7666, 2.0107, 2.3872, 2.6572, 2.8424, 2.9558, 2.9990,
            2.9712, 2.8764, 2.7218, 2.5161, 2.2679, 1.9844,
            1.6727, 1.3433, 1.0075, 0.6806, 0.3820, 0.1371, 0.0],
        9: [0.0, 0.7489, 0.9069, 1.1497, 1.5815, 2.1958,
            2.6550, 3.0237, 3.5915, 3.9974, 4.2743, 4.4414, 4.5001,
            4.4499, 4.2974, 4.0556, 3.7383, 3.3586, 2.9282,
            2.4585, 1.9654, 1.4674, 0.9867, 0.5512, 0.1971, 0.0],
        12: [0.0, 0.9837, 1.1938, 1.5181, 2.0980, 2.9256,
             3.5432, 4.0386, 4.8003, 5.3431, 5.7115, 5.9304, 6.0005,
             5.9220, 5.7051, 5.3698, 4.9354, 4.4206, 3.8398,
             3.2113, 2.5567, 1.9002, 1.2724, 0.7076, 0.2521, 0.0],
        15: [0.0, 1.2039, 1.4653, 1.8712, 2.6018, 3.6488,
             4.4285, 5.0531, 6.0121, 6.6934, 7.1532, 7.4222, 7.4992,
             7.3860, 7.0988, 6.6640, 6.1072, 5.4529, 4.7194,
             3.9318, 3.1175, 2.3072, 1.5389, 0.8524, 0.3026, 0.0],
    },
    "64": {
        6: [0.0, 0.4918, 0.5954, 0.7517, 1.0216, 1.4022,
            1.6897, 1.9237, 2.2931, 2.5675, 2.7675, 2.9020, 2.9761,
            2.9855, 2.9133, 2.7685, 2.5688, 2.3244, 2.0441,
            1.7359, 1.4078, 1.0697, 0.7351, 0.4226, 0.1568, 0.0],
        9: [0.0, 0.7360, 0.8907, 1.1245, 1.5306, 2.1064,
            2.5408, 2.8946, 3.4525, 3.8661, 4.1668, 4.3673, 4.4758,
            4.4817, 4.3608, 4.1326, 3.8234, 3.4492, 3.0232,
            2.5581, 2.0661, 1.5628, 1.0689, 0.6112, 0.2254, 0.0],
        12: [0.0, 0.9755, 1.1802, 1.4904, 2.0331, 2.8075,
             3.3914, 3.8668, 4.6159, 5.1704, 5.5721, 5.8381, 5.9789,
             5.9752, 5.7972, 5.4788, 5.0545, 4.5462, 3.9721,
             3.3488, 2.6938, 2.0289, 1.3815, 0.7862, 0.2883, 0.0],
        15: [0.0, 1.2077, 1.4608, 1.8458, 2.5250, 3.5019,
             4.2382, 4.8374, 5.7808, 6.4780, 6.9814, 7.3125, 7.4832,
             7.4629, 7.2202, 6.8050, 6.2609, 5.6145, 4.8898,
             4.1079, 3.2917, 2.4688, 1.6740, 0.9484, 0.3459, 0.0],
    },
}  # fmt: skip
RADII = {  # leading-edge radius, per cent of chord
    "63": {6: 0.267, 9: 0.590, 12: 1.004, 15: 1.473},
    "64": {6: 0.249, 9: 0.566, 12: 1.004, 15: 1.556},
}


def lagrange(at: float, nodes: list[int]) -> np.ndarray:
    """Weights of the polynomial through `nodes` at `at`."""
    return np.array([np.prod([(at - m) / (n - m) for m in nodes if m != n]) for n in nodes])


def six_series_half_thickness(series: str, thickness: float, x: np.ndarray) -> np.ndarray:
    """Half-thickness (share of chord) of the basic form at x; `thickness` in per cent of chord."""
    nodes = sorted(FORMS[series])
    weights = lagrange(thickness, nodes)
    y = weights @ np.array([FORMS[series][n] for n in nodes]) / 100.0
    radius = float(weights @ np.array([RADII[series][n] for n in nodes])) / 100.0
    theta = np.arccos(1.0 - 2.0 * STATIONS / 100.0)
    spline = CubicSpline(
        theta, y, bc_type=((1, np.sqrt(radius / 2.0)), (1, 0.0))
    )  # y ~ sqrt(2 r x) at the nose
    return np.asarray(spline(np.arccos(1.0 - 2.0 * x)))


def a1_mean_line(design_lift: float, x: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Height and slope of the mean line a = 1 (uniform load) for a design lift coefficient."""
    inner = np.clip(x, 1e-12, 1.0 - 1e-12)
    y = -design_lift / (4.0 * np.pi) * ((1.0 - inner) * np.log(1.0 - inner) + inner * np.log(inner))
    edge = np.clip(x, 0.005, 0.995)  # the slope is singular at both ends; the report uses that at 0.5 %
    return y, design_lift / (4.0 * np.pi) * np.log((1.0 - edge) / edge)


def four_digit_half_thickness(thickness: float, x: np.ndarray) -> np.ndarray:
    poly = 0.2969 * np.sqrt(x) + x * (-0.1260 + x * (-0.3516 + x * (0.2843 - 0.1015 * x)))
    return 5.0 * thickness / 100.0 * poly


def four_digit_mean_line(camber: float, x: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Height and slope, `camber` in per cent of chord, greatest at 40 %."""
    m, p = camber / 100.0, 0.4
    front = x < p
    y = np.where(front, m / p**2 * (2 * p * x - x**2), m / (1 - p) ** 2 * (1 - 2 * p + 2 * p * x - x**2))
    slope = np.where(front, 2 * m / p**2 * (p - x), 2 * m / (1 - p) ** 2 * (p - x))
    return y, slope


def straight_behind(side: np.ndarray, from_x: float = 0.95) -> np.ndarray:
    """One side with its last 5 % of chord straight, as the tabulated stations leave it.

    The cusp of these forms and the endless slope of their mean line at the trailing edge cannot be built, and
    section codes do not converge on them.
    """
    kept = side[side[:, 0] < from_x]
    last = np.array([np.interp(from_x, side[:, 0], side[:, 0]), np.interp(from_x, side[:, 0], side[:, 1])])
    share = np.linspace(0.0, 1.0, 5)[:, None]
    return np.concatenate([kept, last + share * (np.array([1.0, 0.0]) - last)])


def section_coordinates(family: str, camber: float, thickness: float, points: int = 101) -> np.ndarray:
    """Closed outline, trailing edge - upper side - nose - lower side - trailing edge, in shares of chord.

    `family` is "4-digit" (camber in per cent at 40 % chord), "63" or "64" (camber = ten times the design
    lift).
    """
    x = 0.5 * (1.0 - np.cos(np.linspace(0.0, np.pi, points)))
    if family == "4-digit":
        half = four_digit_half_thickness(thickness, x)
        y, slope = four_digit_mean_line(camber, x)
    else:
        half = six_series_half_thickness(family, thickness, x)
        y, slope = a1_mean_line(camber / 10.0, x)
    turn = np.arctan(slope)
    upper = np.stack([x - half * np.sin(turn), y + half * np.cos(turn)], axis=1)
    lower = np.stack([x + half * np.sin(turn), y - half * np.cos(turn)], axis=1)
    if family != "4-digit":
        upper, lower = straight_behind(upper), straight_behind(lower)
    return np.concatenate([upper[::-1], lower[1:]])
