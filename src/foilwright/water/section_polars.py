"""From the outline of a section to rows of the section table (needs the extra `polars`).

Lift, drag and moment: NeuralFoil on the bent outline. Hinge moment: its surface speeds over the flap. Least
pressure: a panel method on the same bent outline at the same lift. Set-up only: nothing here runs in a solve.
"""

from __future__ import annotations

import importlib
from typing import Any

import numpy as np

from foilwright.measures import Floats
from foilwright.mistakes import Mistake

DEGREE = np.pi / 180.0
ALPHA = np.arange(-10.0, 18.01, 1.0) * DEGREE
FLAP = np.arange(-10.0, 15.01, 5.0) * DEGREE
LOG_RE = np.linspace(np.log(1e5), np.log(3e6), 7)
FINE_ALPHA = np.arange(-15.0, 20.01, 0.5) * DEGREE
CRITICAL_AMPLIFICATION = 9.0  # transition by the e^9 method: an ordinary wind tunnel, a smooth foil in a lake
TRIP = 0.05  # share of chord at which the rough foil is turbulent, both sides
MODEL = "xxxlarge"
TAIL, HINGE_REACH = 0.97, 0.03  # shares of chord, in the search for the least pressure
STALL_REACH = 4.0 * DEGREE
LINE_ALPHA = 6.0 * DEGREE  # the straight lift line is fitted between minus and plus this ...
LINE_SHARE = 0.75  # ... but never past this share of the greatest or least lift ...
LINE_LEAST = 4.0 * DEGREE  # ... over at least this stretch
LINE_SLOPE = (0.095 / DEGREE, 0.125 / DEGREE)  # the slope is held inside this; 2 pi is 0.1097 a degree


def library(name: str) -> Any:
    """A build-time library, or a Mistake that says how to get it."""
    try:
        return importlib.import_module(name)
    except ImportError as error:
        raise Mistake(
            where="section with coordinates of its own",
            came=f"the Python library {name} is not installed",
            allowed="coordinates can be tabulated only with the extra 'polars'",
            mend="Install it (pip install 'foilwright[polars]'), or name one of the known sections.",
        ) from error


def panel_speeds(outline: Floats) -> tuple[Floats, Floats, Floats]:
    """Surface speeds at the corners for unit onset flow along +x, along +y, and for circulation alone.

    Linear-vortex panel method: streamfunction constant on the body (Drela 1989, without the boundary layer);
    unknowns are the vortex strengths at the corners, which are the surface speeds, and the streamfunction;
    Kutta condition at the trailing edge, whose two corners must be one point. The third flow has no onset and
    breaks the Kutta condition by one; it takes lift away as a boundary layer does. `outline` (n, 2) runs from
    the trailing edge over the upper side and back.
    """
    x, y = outline[:, 0], outline[:, 1]
    n = len(x)
    dx, dy = np.diff(x), np.diff(y)
    length = np.hypot(dx, dy)
    tx, ty = dx / length, dy / length
    rx, ry = x[:, None] - x[None, :-1], y[:, None] - y[None, :-1]
    x1 = rx * tx + ry * ty
    x2 = x1 - length
    index = np.arange(n)
    own = (index[:, None] == index[None, :-1]) | (index[:, None] == index[None, :-1] + 1)
    off = np.where(own, 0.0, -rx * ty + ry * tx)
    r1, r2 = np.maximum(x1**2 + off**2, 1e-24), np.maximum(x2**2 + off**2, 1e-24)
    log1, log2 = np.log(r1), np.log(r2)
    angle = np.arctan2(x1, off) - np.arctan2(x2, off)
    constant = 0.5 * (x1 * log1 - x2 * log2) - length + off * angle  # integral of ln r along the panel
    growing = (x1 * constant + 0.25 * (r2 * log2 - r1 * log1 + r1 - r2)) / length  # weighted 0 to 1 along it
    matrix = np.zeros((n + 1, n + 1))
    matrix[:n, 1:n] += growing / (2.0 * np.pi)
    matrix[:n, : n - 1] += (constant - growing) / (2.0 * np.pi)
    matrix[:n, n] = -1.0
    matrix[n, [0, n - 1]] = 1.0
    right = np.zeros((n + 1, 3))
    right[:n, 0], right[:n, 1] = -y, x
    right[n, 2] = 1.0
    # the two trailing-edge corners are one point, so one equation is spare: smooth strength there instead
    matrix[n - 1, :] = 0.0
    matrix[n - 1, [0, 1, 2, n - 1, n - 2, n - 3]] = [1.0, -2.0, 1.0, -1.0, 2.0, -1.0]
    right[n - 1] = 0.0
    solved = np.asarray(np.linalg.solve(matrix, right), dtype=np.float64)
    return solved[:n, 0], solved[:n, 1], solved[:n, 2]


def closed_trailing_edge(outline: Floats) -> Floats:
    """The outline with a blunt trailing edge closed by a wedge over the whole chord (0.13 % of chord a
    side)."""
    gap = outline[0] - outline[-1]
    nose = int(np.argmin(outline[:, 0]))
    share = np.clip(outline[:, 0], 0.0, 1.0)[:, None]
    half = 0.5 * gap[None, :] * share
    return np.concatenate([outline[: nose + 1] - half[: nose + 1], outline[nose + 1 :] + half[nose + 1 :]])


class Frictionless:
    """An outline in frictionless flow: zero-lift angle, moment at zero lift, least pressure."""

    def __init__(self, outline: Floats) -> None:
        self.body = closed_trailing_edge(outline)
        self.speeds = panel_speeds(self.body)
        step = np.diff(self.body, axis=0)
        self.length = np.hypot(step[:, 0], step[:, 1])
        self.lift_x, self.lift_y, self.lift_loose = (
            float(np.sum((g[1:] + g[:-1]) * self.length)) for g in self.speeds
        )
        self.size = float(np.hypot(self.lift_x, self.lift_y))
        self.zero_lift = -float(np.arctan2(self.lift_x, self.lift_y))
        speed = self.speeds[0] * np.cos(self.zero_lift) + self.speeds[1] * np.sin(self.zero_lift)
        pressure = 1.0 - (0.5 * (speed[1:] ** 2 + speed[:-1] ** 2))
        middle = 0.5 * (self.body[1:] + self.body[:-1])
        # force on a panel is -cp times its outward normal (dy, -dx) for an outline run anticlockwise
        fx, fy = -pressure * step[:, 1], pressure * step[:, 0]
        self.zero_moment = -float(np.sum((middle[:, 0] - 0.25) * fy - middle[:, 1] * fx))

    def least_pressure(self, alpha: Floats, lift: Floats, hinge: float, flap: float) -> Floats:
        """Least pressure coefficient at each angle [rad] when the boundary layer leaves only the given lift.

        The lost lift is taken off partly as incidence, partly as circulation at kept incidence: the boundary
        layer does both. Half and half meets the nose suction of XFOIL's viscous solutions; with the flap
        [rad] beyond 5 degrees the loss sits at the flap, and the share of circulation grows by 0.05 a degree
        to 0.85. Behind TAIL nothing counts. Within HINGE_REACH of the hinge (0 = none) only the mean speed of
        each side counts: the boundary layer rounds the endless speed at the sharp corner.
        """
        x = self.body[:, 0]
        near = (np.abs(x - hinge) < HINGE_REACH) & (hinge > 0.0)
        weight = np.zeros_like(x)
        weight[1:-1] = 0.5 * (self.length[1:] + self.length[:-1])
        upper = np.arange(len(x)) < int(np.argmin(x))
        means = [weight * side for side in (near & upper, near & ~upper) if side.any()]
        rows = [np.eye(len(x))[(x < TAIL) & ~near], *(m[None, :] / m.sum() for m in means)]
        seen = np.concatenate(rows)
        along_x, along_y, loose = (seen @ g for g in self.speeds)
        c, s = np.cos(alpha), np.sin(alpha)
        lost = self.lift_x * c + self.lift_y * s - lift
        loosened = float(np.clip(0.5 + 0.05 * (abs(flap) / DEGREE - 5.0), 0.5, 0.85)) * lost
        turned = np.arcsin(np.clip((lift + loosened) / self.size, -1.0, 1.0)) + self.zero_lift
        c, s = np.cos(turned), np.sin(turned)
        speed = np.outer(c, along_x) + np.outer(s, along_y) - np.outer(loosened / self.lift_loose, loose)
        return np.asarray(1.0 - np.max(speed**2, axis=1))


def flap_hinge_moment(up: Floats, low: Floats, x: Floats, flap: float, share: float) -> Floats:
    """Hinge moment coefficient on the flap chord squared, positive trailing edge down, from surface speeds.

    `up`, `low` (cases, stations): speeds at stations centred in stretches with edges `x` (stations + 1),
    shares of chord of the straight section. Pressure 1 - speed^2 on both sides, at right angles to the flap,
    times the distance behind the hinge (the part along the flap has no arm to speak of).
    """
    arm = np.clip((x - (1.0 - share)) / np.cos(flap), 0.0, share)
    weight = 0.5 * (arm[1:] ** 2 - arm[:-1] ** 2)  # exact first moment of each stretch that lies on the flap
    return np.asarray(-((up**2 - low**2) @ weight) / share**2)


def bent(outline: Floats, share: float, flap: float) -> Any:
    """The aerosandbox section with its flap (share of chord) turned by `flap` [rad]: real bent geometry."""
    section = library("aerosandbox").Airfoil(coordinates=outline).repanel(n_points_per_side=101)
    if share > 0.0 and flap != 0.0:
        section = section.add_control_surface(
            deflection=flap / DEGREE, hinge_point_x=1.0 - share, modify_polars=False
        )
    return section


def coefficients(
    outline: Floats, share: float, flap: float, tripped: bool, alpha: Floats, reynolds: Floats
) -> Floats:
    """cl, cd, cm, ch, cp_min, confidence (cases, 6) at angles alpha [rad] of the straight section's chord
    line.

    The shape that NeuralFoil sees is a smooth fit to the bent outline, which lifts a little more; both are
    put through the panel method, and the difference of their zero-lift angles and zero-lift moments is taken
    off.
    """
    neuralfoil = library("neuralfoil")
    section = bent(outline, share, flap)
    normal = section.normalize(return_dict=True)
    turn = float(normal["rotation_angle"]) * DEGREE
    chord = 1.0 / float(normal["scale_factor"])
    nose = np.array([-float(normal["x_translation"]), -float(normal["y_translation"])])
    fitted = normal["airfoil"].to_kulfan_airfoil(n_weights_per_side=8, normalize_coordinates=False)
    back = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    seen = Frictionless(nose + chord * np.asarray(fitted.coordinates) @ back)
    true = Frictionless(np.asarray(section.coordinates))

    alpha_seen = alpha - (true.zero_lift - seen.zero_lift)
    end = TRIP if tripped else 1.0
    raw = neuralfoil.get_aero_from_kulfan_parameters(
        fitted.kulfan_parameters, alpha=(alpha_seen + turn) / DEGREE, Re=reynolds * chord,
        n_crit=CRITICAL_AMPLIFICATION, xtr_upper=end, xtr_lower=end, model_size=MODEL,
    )  # fmt: skip
    cl, cd = raw["CL"] * chord, raw["CD"] * chord
    # forces act at the quarter point of the bent chord line; moment about the quarter chord of the straight
    # section
    quarter = nose + 0.25 * chord * np.array([np.cos(turn), -np.sin(turn)]) - np.array([0.25, 0.0])
    fx, fy = cd * np.cos(alpha) - cl * np.sin(alpha), cl * np.cos(alpha) + cd * np.sin(alpha)
    cm = raw["CM"] * chord**2 - (quarter[0] * fy - quarter[1] * fx) + true.zero_moment - seen.zero_moment
    ch = np.zeros(len(alpha))
    if share > 0.0:
        stations = len(neuralfoil.bl_x_points)
        up = np.stack([raw[f"upper_bl_ue/vinf_{i}"] for i in range(stations)], axis=1)
        low = np.stack([raw[f"lower_bl_ue/vinf_{i}"] for i in range(stations)], axis=1)
        edges = nose[0] + chord * np.cos(turn) * np.linspace(0.0, 1.0, stations + 1)
        ch = flap_hinge_moment(up, low, edges, flap, share)
    hinge = 1.0 - share if share > 0.0 and flap != 0.0 else 0.0
    cp_min = true.least_pressure(alpha, cl, hinge, flap)
    return np.stack([cl, cd, cm, ch, cp_min, raw["analysis_confidence"]], axis=1)


def first_greatest(lift: Floats) -> float:
    """The first maximum of a lift curve on a fine grid that stays one over the next STALL_REACH; else its
    greatest.

    Shorter dips are the laminar bubble moving, or the flow over the flap giving way before the section does.
    """
    reach = int(round(STALL_REACH / (FINE_ALPHA[1] - FINE_ALPHA[0])))
    for i in range(1, len(lift) - 2):
        if lift[i] > 0.2 and lift[i] >= np.max(lift[i + 1 : i + 1 + reach]):
            return float(lift[i])
    return float(np.max(lift))


def straight_line(lift: Floats) -> Floats:
    """Zero-lift angle [rad], slope [1/rad], greatest and least cl of a lift curve on FINE_ALPHA.

    Least squares over the angles a boat flies at, LINE_ALPHA either way, and not past LINE_SHARE of either
    stall: wide enough that the kink of a laminar bubble near zero lift (0.14 a degree over two or three
    degrees) does not set the slope, and even about zero so that a symmetric section has no lift at no
    incidence.
    """
    inner = np.abs(FINE_ALPHA) < 10.01 * DEGREE
    middle = int(np.argmin(np.where(inner, np.abs(lift), np.inf)))
    greatest = first_greatest(lift[middle:])
    least = -first_greatest(-lift[middle::-1])
    used = (
        (np.abs(FINE_ALPHA) < LINE_ALPHA + 1e-9)
        & (lift < LINE_SHARE * greatest)
        & (lift > LINE_SHARE * least)
    )
    if np.count_nonzero(used) * (FINE_ALPHA[1] - FINE_ALPHA[0]) < LINE_LEAST:
        centre = FINE_ALPHA[used].mean() if used.any() else FINE_ALPHA[middle]
        used = np.abs(FINE_ALPHA - centre) < 0.5 * LINE_LEAST
    slope = float(np.clip(np.polyfit(FINE_ALPHA[used], lift[used], 1)[0], *LINE_SLOPE))
    return np.array([np.mean(FINE_ALPHA[used]) - np.mean(lift[used]) / slope, slope, greatest, least])


def tabulate(outline: Floats, share: float) -> tuple[Floats, Floats]:
    """Line [trip, re, flap, 4] and polar [trip, re, flap, alpha, 4] of one outline with one flap share (0 =
    none).

    Grids: LOG_RE, FLAP, ALPHA; trip 0 free transition, 1 tripped. Without a flap the flap grid has one point.
    """
    flaps = FLAP if share > 0.0 else np.zeros(1)
    line = np.zeros((2, len(LOG_RE), len(flaps), 4))
    polar = np.zeros((2, len(LOG_RE), len(flaps), len(ALPHA), 4))
    reynolds, alpha = np.repeat(np.exp(LOG_RE), len(FINE_ALPHA)), np.tile(FINE_ALPHA, len(LOG_RE))
    shown = np.searchsorted(FINE_ALPHA, ALPHA - 1e-9)
    for f, flap in enumerate(flaps):
        for trip in (0, 1):
            found = coefficients(outline, share, float(flap), bool(trip), alpha, reynolds)
            found = found.reshape(len(LOG_RE), len(FINE_ALPHA), 6)
            polar[trip, :, f] = found[:, shown, 1:5]
            for r in range(len(LOG_RE)):
                line[trip, r, f] = straight_line(found[r, :, 0])
    return line, polar
