"""Second opinion on sailing in a wind: wind, sail and all six balances.

After `docs/theory/wind.md`, `sails.md`, `loads.md` and `sailing-in-wind.md`.

States are found by Powell's hybrid method, from a guess or from starts spread over the range; no curve is
followed. The loads but for the sail are those of `balance.py` with leeway, rudder and wind.
"""

from __future__ import annotations

from math import atan2, cos, log, pi, radians, sin, sqrt, tan
from typing import NamedTuple

import numpy as np
from scipy.interpolate import CubicHermiteSpline, PchipInterpolator
from scipy.optimize import root

from tests.second_opinion.balance import Control, Flyer, Seen
from tests.second_opinion.corners import above, earth_from_body, ramp

UNKNOWNS = ("boat speed", "ride height", "trim", "leeway", "rudder", "reach")
LEFT_OVER = ("surplus", "side", "heave", "roll", "pitch", "yaw")
SCALES = np.array([0.5, 0.08, 0.02, 0.03, 0.03, 0.2])
LOWEST = np.array([0.4, -1.0, radians(-10), radians(-20), radians(-35), -0.45])
HIGHEST = np.array([16.0, 1.6, radians(14), radians(20), radians(35), 1.98])


def share_of_wind(height, roughness):
    """Wind at a height over that at 10 m: the wall law, below half a metre a parabola level at the water."""
    z0 = min(max(roughness, 1e-6), 0.2)
    if height >= 0.5:
        return log(height / z0) / log(10 / z0)
    # of the shape a + c z^2 with value and slope of the logarithm at half a metre, from the water up
    z = max(height, 0.0)
    return (log(0.5 / z0) + (z * z - 0.25) / (2 * 0.25)) / log(10 / z0)


ANGLES = np.array([27.0, 50, 80, 100, 180])  # [deg]
LIFT = np.array([1.5, 1.5, 0.95, 0.85, 0])
DRAG = np.array([0.02, 0.15, 0.8, 1, 0.9])
LIFT_SLOPES = np.array([0, 0, -0.0075689, -0.0063433, -0.0127658])  # as printed [1/deg]
DRAG_SLOPES = np.array([0, 0.00874, 0.0133564, 0, 0])
LIFT_CURVE = CubicHermiteSpline(ANGLES, LIFT, LIFT_SLOPES)
DRAG_CURVE = CubicHermiteSpline(ANGLES, DRAG, DRAG_SLOPES)


def slopes_by_the_rule(values, straight):
    """Slopes at the nodes as the page derives them: Fritsch and Butland's, the last straight or level."""
    slopes = PchipInterpolator(ANGLES, values).derivative()(ANGLES)
    last = (values[-1] - values[-2]) / (ANGLES[-1] - ANGLES[-2])
    slopes[0], slopes[-1] = 0.0, (3 * last - slopes[-2]) / 2 if straight else 0.0
    return slopes


def sail_coefficients(aspect, angle, power):
    """Lift and drag of the sail at an apparent wind angle from dead ahead [rad], not below nothing."""
    degree = max(angle * 180 / pi, 27.0)
    lift, parasitic = float(LIFT_CURVE(degree)), float(DRAG_CURVE(degree))
    if angle < radians(50):
        pays = tan(angle) / (2 * (1 / (pi * aspect) + 0.005))
        lift = min(lift, pays) - max(0.3 - abs(lift - pays), 0.0) ** 2 / 1.2
    kept = ramp(power, 0, 0.4)
    kept += ramp(angle, radians(50), radians(80)) * (power - kept)
    a = (power - 1) / 3
    drag = 0.06 + (parasitic - 0.06) * kept
    drag += ((1 + 3 * a * a) / (pi * aspect) + 0.005) * (power * lift) ** 2
    return power * lift, drag


def sail_force(area, aspect, density, along, across, power):
    """Drive and side force to port of a sail that moves with (along, across) through the air."""
    speed = sqrt(along**2 + across**2 + 1e-6)
    angle = atan2(-across, along)
    lift, drag = sail_coefficients(aspect, abs(angle), power)
    lift = lift if angle >= 0 else -lift
    half = density / 2 * area * speed
    return half * (-lift * across - drag * along), half * (lift * along - drag * across)


def out_share(q):
    return q - above(q - 1, 0.04)


def power_at(q):
    return above(2 - q, 0.04) - above(1 - q, 0.04)


class Sailed(NamedTuple):
    """All loads of a boat in a wind and what is left over of the six balances."""

    left: np.ndarray  # over the weight; moments over weight times a metre
    loads: dict[str, np.ndarray]
    control: Control
    weight: float
    heel: float
    seen: dict[str, Seen]


class Sailor(Flyer):
    """A boat in a wind: `sailed` looks at six unknowns, `solve_from` and `solve_anywhere` find states."""

    def __init__(self, row, names, tables, water, wind, angle, heels, roughness):
        super().__init__(row, names, tables, water, 1.0)
        self.wind = wind * np.array([-cos(angle), sin(angle), 0.0])
        self.heels, self.roughness = heels, roughness

    def air(self, height):
        return np.array([self.speed, 0.0, 0.0]) - share_of_wind(height, self.roughness) * self.wind

    def sailed(self, unknowns):
        U, height, trim, leeway, rudder, reach = (float(v) for v in unknowns)
        floating, flying = self.heels
        self.speed, self.heel = U, floating + (flying - floating) * ramp(height, -0.05, 0.25)
        loads, put, control, seen = self.look(height, trim, leeway, rudder, out_share(reach))
        earth = earth_from_body(trim, self.heel, leeway)

        boat, power = self.boat, power_at(reach)
        area, aspect = boat["rig.sail_area"], boat["rig.aspect_ratio"]
        x, z = boat["rig.effort_x"], boat["rig.effort_z"]
        drop = 4 / (5 * pi) * (1 - power) / 3 * sqrt(aspect * area) / 1.1
        past = earth.T @ self.air(self.height_of(height, trim, x, 0, z))
        drive, side = sail_force(area, aspect, self.water.air_density, past[0], past[1], power)
        put("sail", np.array([drive, side, 0.0]), (x, 0, z - drop))

        W = (boat["mass.mass"] + boat["crew.mass"]) * self.water.gravity
        total = np.sum(list(loads.values()), axis=0)
        force, moment = earth @ total[:3] / W, earth @ total[3:] / W
        left = np.array([force[0], force[1], force[2], -moment[0], -moment[1], moment[2]])
        return Sailed(left, loads, control, W, self.heel, seen)

    def slopes(self, unknowns, step=1e-4):
        """Change of what is left over by each unknown [6, 6], central differences."""
        at = np.asarray(unknowns, dtype=float)
        columns = []
        for h in step * np.diag(SCALES):
            columns.append((self.sailed(at + h).left - self.sailed(at - h).left) / (2 * h.sum()))
        return np.array(columns).T

    def solve_from(self, guess):
        """A steady state in range by Powell's hybrid method; None where it does not get there."""

        def misses(scaled):
            try:
                return self.sailed(np.clip(scaled * SCALES, LOWEST - SCALES, HIGHEST + SCALES)).left
            except ValueError:
                return np.full(6, 10.0)

        answer = root(
            misses, np.asarray(guess) / SCALES, method="hybr", options={"xtol": 1e-11, "maxfev": 300}
        )
        found = answer.x * SCALES
        if np.abs(answer.fun).max() > 1e-8 or (found < LOWEST).any() or (found > HIGHEST).any():
            return None
        return found

    def solve_anywhere(self, starts):
        """Every state that is reached from starts spread over the range."""
        found: list[np.ndarray] = []
        for start in starts:
            state = self.solve_from(start)
            if state is not None and all(np.abs((state - s) / SCALES).max() > 1e-4 for s in found):
                found.append(state)
        return sorted(found, key=lambda state: float(state[0]))

    def stable(self, unknowns):
        """Whether a state holds itself and its surplus falls with boat speed, by our slopes."""
        J = self.slopes(unknowns)
        faster = J[0, 0] - J[0, 1:] @ np.linalg.solve(J[1:, 1:], J[1:, 0])
        return holds(J) and bool(faster < 0)


def holds(J):
    """Whether a state with these slopes is pushed back while crew and rudder follow."""
    hands = J[np.ix_((1, 3, 5), (3, 4, 5))]  # side, roll, yaw by leeway, rudder, reach
    drifting = np.linalg.det(hands) / np.linalg.det(J[np.ix_((3, 5), (4, 5))])
    kept = J[np.ix_((2, 4), (1, 2))] - J[np.ix_((2, 4), (3, 4, 5))] @ np.linalg.solve(
        hands, J[np.ix_((1, 3, 5), (1, 2))]
    )
    return bool(drifting < 0 and kept[0, 0] < 0 and np.linalg.det(kept) > 0)


def starts_over_the_range(count, seed):
    """Places where a boat might sail: height, trim and the rest drawn, boat speed in even steps."""
    rng = np.random.default_rng(seed)
    return [
        np.array(
            [
                speed,
                rng.uniform(-0.2, 0.6),
                radians(rng.uniform(-3, 4)),
                radians(rng.uniform(0, 4)),
                radians(rng.uniform(-3, 3)),
                rng.uniform(0.2, 1.6),
            ]
        )
        for speed in np.linspace(1.5, 11.0, count)
    ]
