"""Chain, measured curve and wand of the second opinion: every loop closed by a bracketing root finder.

After `docs/theory/chain.md`, `curve.md` and `wand.md`. The chain is a row of triangles whose third side is
the rod: the angle at each driven pivot is searched for, and gearing and arms come from the closure
condition's derivatives.
"""

from __future__ import annotations

from math import acos, atan2, cos, hypot, pi, sin, sqrt
from typing import NamedTuple

import numpy as np
from scipy.interpolate import CubicHermiteSpline
from scipy.optimize import brentq

from tests.second_opinion.corners import above, smaller

# least angle between an in-arm and the line to the driving tip; the greatest is pi less it
NEAREST = acos(0.999999)
FINEST = {"xtol": 1e-14, "rtol": 1e-14, "maxiter": 200}


class Link(NamedTuple):
    """Nine numbers of the row."""

    rod_longer: float
    pivot_x: float
    pivot_z: float
    in_arm: float
    in_direction: float
    out_arm: float
    out_direction: float
    play: float
    stretch: float


class Moved(NamedTuple):
    """What the chain does at a wand angle."""

    turn: float  # of the last crank [rad]
    gearing: float
    play: float  # [rad]
    give: float  # [rad/(N m)]
    slack: float
    transmission: float  # [rad]


def direction(angle):
    return np.array([cos(angle), sin(angle)])


def square_to(v):
    """The vector turned a quarter turn from forward to up."""
    return np.array([-v[1], v[0]])


def links_of(boat):
    """The links of a boat's row, by name."""
    found: list[Link] = []
    while f"links.{len(found)}.pivot_x" in boat:
        found.append(Link(*(boat[f"links.{len(found)}.{key}"] for key in Link._fields)))
    return found


class Chain:
    """Cranks and rods as drawn; `at` moves them."""

    def __init__(self, boat):
        self.boat, self.links, self.drawn = boat, links_of(boat), []
        pivot = np.array([boat["wand.pivot_x"], boat["wand.pivot_z"]])
        arm, way = boat["chain.crank_arm"], boat["chain.crank_direction"]
        for link in self.links:
            tip = pivot + arm * direction(way)
            driven = np.array([link.pivot_x, link.pivot_z])
            pin = driven + link.in_arm * direction(link.in_direction)
            to_tip = tip - driven
            ahead = atan2(to_tip[1], to_tip[0])
            side = 1.0 if sin(link.in_direction - ahead) >= 0 else -1.0
            self.drawn.append((pivot, arm, way, hypot(*(pin - tip)) + link.rod_longer, side))
            pivot, arm, way = driven, link.out_arm, link.out_direction

    def at(self, wand):
        turned = -(
            wand - self.boat["chain.wand_at_drawing"]
        )  # forward to up is positive; aft is the other way
        gearing, play, give, slack, least_sine = -1.0, 0.0, 0.0, 1.0, 1.0
        for link, (pivot, arm, way, rod, side) in zip(self.links, self.drawn, strict=True):
            out = arm * direction(way + turned)
            px, pz = pivot + out - (link.pivot_x, link.pivot_z)
            far, ahead, r = hypot(px, pz), atan2(pz, px), link.in_arm

            def open_by(angle, far=far, r=r, rod=rod):
                return far * far + r * r - 2 * far * r * cos(angle) - rod * rod

            slack = min(slack, 1 - abs((far * far + r * r - rod * rod) / (2 * far * r)))
            if open_by(NEAREST) >= 0:
                angle = NEAREST
            elif open_by(pi - NEAREST) <= 0:
                angle = pi - NEAREST
            else:
                angle = brentq(open_by, NEAREST, pi - NEAREST, **FINEST)
            now = ahead + side * angle
            arm_in = r * direction(now)
            along = arm_in - np.array([px, pz])
            # closure |along|^2 = rod^2: its slopes by the driven and the driving angle
            by_driven, by_driving = 2 * along @ square_to(arm_in), -2 * along @ square_to(out)
            by_rod = 2 * rod
            least_sine = min(least_sine, abs(by_driven) / (by_rod * r))
            step = -by_driving / by_driven
            a_metre_of_rod = abs(by_rod / by_driven)  # turn of the driven crank
            gearing *= step
            play = play * abs(step) + link.play * a_metre_of_rod
            give = give * step**2 + link.stretch * a_metre_of_rod**2
            turned = (now - link.in_direction + pi) % (2 * pi) - pi
        return Moved(
            turned,
            gearing,
            play + self.boat["chain.play"],
            give + self.boat["chain.give"],
            slack,
            atan2(least_sine, sqrt(max(0.0, 1 - least_sine**2))),
        )


class Curve:
    """The measured curve: piecewise cubics with the neighbours' difference as slope, first over positions."""

    def __init__(self, boat, table):
        self.boat = boat
        rows, columns = table.foil.shape
        # the outermost row and column only give slopes
        where = (
            np.clip((boat["chain.curve_position"] - table.position_start) / table.position_step, 0, rows - 3)
            + 1
        )
        line = cubic(np.arange(1, rows - 1), table.foil)(where)
        self.curve = cubic(table.wand_start + table.wand_step * np.arange(columns - 2), line, table.wand_step)
        self.slope = self.curve.derivative()
        self.ends = table.wand_start, table.wand_start + table.wand_step * (columns - 3)

    def at(self, wand):
        inside = min(max(wand, self.ends[0]), self.ends[1])
        gearing = float(self.slope(inside))
        foil = float(self.curve(inside)) + gearing * (wand - inside)
        return Moved(
            foil - self.boat["chain.foil_at_drawing"],
            gearing,
            self.boat["chain.play"],
            self.boat["chain.give"],
            1.0,
            pi / 2,
        )


def cubic(places, values, step=1.0):
    """Through the inner values, with slopes from the neighbours on both sides."""
    return CubicHermiteSpline(places, values[1:-1], (values[2:] - values[:-2]) / (2 * step))


class Wand(NamedTuple):
    angle: float  # of a straight wand without stops [rad]
    immersed: float  # [m]
    push: float  # [N]
    free: float  # pivot height over the length that is left


def wand_at(boat, height, trim, heel, dynamic_pressure, pull):
    """Where the wand rests with the pivot at a height and a pull forward [N m]."""
    upright, leaning = cos(trim) * cos(heel), sin(trim)
    lean, reach = atan2(leaning, upright), hypot(upright, leaning)
    length, clear = boat["wand.length"], above(height / reach, 0.02)
    forward = above(pull, 0.05)
    paddle, stick, wide = boat["wand.paddle_length"], boat["wand.stick_width"], boat["wand.paddle_width"]

    def at(s):
        c = smaller(clear / (length - s), 0.9998, 0.0004)
        over = above(s - paddle, 0.005) - above(-paddle, 0.005)
        return c, 1.28 * dynamic_pressure * c * c * (stick * s + (wide - stick) * (s - over))

    def moment(s):
        c, push = at(s)
        weight = boat["wand.mass"] * boat["gravity"] * length / 2 * sqrt(1 - c * c)
        return push * (length - s / 2) - forward - weight

    s = 0.9 * length if moment(0.9 * length) < 0 else brentq(moment, 0.0, 0.9 * length, **FINEST)
    c, push = at(s)
    return Wand(lean + acos(c), s, push, clear / (length - s))
