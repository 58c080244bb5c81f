"""A second opinion on the balance of a boat: plain, slow, and written from the theory pages alone.

Nothing of the package's physics is used: only its row of numbers, its tables and the water's properties.
Where a page says what is solved, another way of solving it is taken: wand, chain and foil by nested
bracketing, the boat by Powell's hybrid method or by bracketing in height and trim.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable
from math import atan2, cos, hypot, log, radians, sin, tanh
from typing import NamedTuple

import numpy as np
from scipy.optimize import brentq, root

from tests.second_opinion.corners import earth_from_body, ramp, smaller, within
from tests.second_opinion.foils import Foil, Lifting, Section, downwash, junction_drag, strut_force
from tests.second_opinion.hull import hull_friction, hull_in_water, planing, transom_drag, wave_drag
from tests.second_opinion.linkage import FINEST, Chain, Curve, Moved, Wand, wand_at

ITEMS = (
    "boat weight", "crew weight", "main foil", "main strut", "rudder foil", "rudder strut", "buoyancy",
    "hull friction", "hull waves", "transom", "planing", "wand", "hull air", "mast air", "crew air", "sail",
    "pull",
)  # fmt: skip
STOP = radians(0.3)


class Seen(NamedTuple):
    """A foil with its strut as the margins need them."""

    lifting: Lifting
    depth: float
    past: float  # water past it [m/s]
    attack: float  # angle of attack of the strut [rad]
    strut: float  # its wetted length


class Looked(NamedTuple):
    """All loads but those of sail and pull, and what they came from."""

    loads: dict[str, np.ndarray]  # force and moment about G, body axes
    put: Callable[..., None]  # adds one more at a place: item, force, place
    control: Control
    seen: dict[str, Seen]


class Control(NamedTuple):
    """Wand, chain and foil settled together."""

    foil: float
    wand: float  # as the loads use it
    shown: float  # as a person is told
    touch: float
    pull: float  # towards forward, elastic less what the foil pulls [N m]
    resting: Wand
    moved: Moved
    lifting: Lifting


class Balance(NamedTuple):
    heave: float  # over weight
    pitch: float  # over weight [m]
    loads: dict[str, np.ndarray]  # force and moment about G, body axes
    control: Control
    drag: float
    weight: float


class State(NamedTuple):
    height: float
    trim: float
    balance: Balance


class Flyer:
    """A boat in water at a speed and heel; `balance` looks at a height and trim."""

    def __init__(self, row, names, tables, water, speed, heel=0.0):
        self.boat = dict(zip(names, (float(v) for v in row), strict=True))
        self.boat["gravity"] = water.gravity
        self.tables, self.water, self.speed, self.heel = tables, water, speed, heel
        curve = self.boat["chain.from_curve"] > 0.5
        self.chain = Curve(self.boat, tables.curve) if curve else Chain(self.boat)

    def height_of(self, height, trim, x, y, z):
        return float(height + (earth_from_body(trim, self.heel) @ (x - self.boat["main.x"], y, z))[2])

    def control(self, foil, pivot, trim):
        """Foil angle from one equation; the wand angle that belongs to it is bracketed inside."""
        boat, q = self.boat, self.water.density / 2 * self.speed**2
        length, forward, aft = boat["wand.length"], boat["wand.forward_stop"], boat["wand.aft_stop"]

        def wand_from(psi, moment):
            pull = boat["wand.tension"] - self.chain.at(psi).gearing * moment
            rest = wand_at(boat, pivot, trim, self.heel, q, pull)
            off = ramp(rest.free, 1, 1.03)
            ahead = rest.angle - boat["wand.bend"] * rest.push * (length - rest.immersed / 2)
            return within(ahead + off * (forward - ahead), forward, aft, STOP), rest, 1 - off

        def settled(d):
            lifting = foil.at(d)
            psi = brentq(lambda p: wand_from(p, lifting.hinge)[0] - p, forward, aft, **FINEST)
            moved = self.chain.at(psi)
            free = (
                boat["chain.foil_at_drawing"]
                + moved.turn
                + moved.play / 2 * tanh(lifting.hinge)
                + moved.give * lifting.hinge
            )
            return free, psi, moved, lifting

        low, high = boat["chain.foil_least"], boat["chain.foil_greatest"]
        d = brentq(lambda d: within(settled(d)[0], low, high, STOP) - d, low, high, xtol=1e-13, rtol=1e-13)
        free, psi, moved, lifting = settled(d)
        _, rest, touch = wand_from(psi, lifting.hinge)
        held = abs(free - d) >= 0.02 and abs(moved.gearing) >= 0.001
        shown = psi - (free - d) / moved.gearing if held else psi
        pull = boat["wand.tension"] - moved.gearing * lifting.hinge
        return Control(d, psi, shown, touch, pull, rest, moved, lifting)

    def air(self, height):
        """Velocity of the boat through the air at a height over the water, earth axes; here no wind."""
        return np.array([self.speed, 0.0, 0.0])

    def look(self, height, trim, leeway=0.0, rudder=0.0, out=1.0):
        """Every load but those of sail and pull; `out` is the share of its reach that the crew is out."""
        boat, water, U = self.boat, self.water, self.speed
        earth = earth_from_body(trim, self.heel, leeway)
        body = earth.T
        masses = np.array([boat["mass.mass"], boat["crew.mass"]])
        places = np.array(
            [[boat["mass.x"], 0, boat["mass.z"]], [boat["crew.x"], -out * boat["crew.out"], boat["crew.z"]]]
        )
        G = masses @ places / masses.sum()
        loads = dict.fromkeys(ITEMS, np.zeros(6))

        def put(item, force, at, turning=0.0):
            moment = np.cross(np.asarray(at) - G, force) + np.array([0, turning, 0])
            loads[item] = np.concatenate([force, moment])

        for item, mass, place in zip(ITEMS[:2], masses, places, strict=True):
            put(item, body @ (0, 0, -mass * water.gravity), place)

        along, across, up = body @ (U, 0, 0)
        past, q, angle = hypot(along, up, 0.1), water.density / 2 * (along**2 + up**2), atan2(-up, along)

        lean = cos(trim) * sin(self.heel)  # tip below the middle, share of the half span
        depths, foils, seen = {}, {}, {}
        for which, name in enumerate(("main", "rudder")):
            depths[name] = -self.height_of(height, trim, boat[f"{name}.x"], 0, boat[f"{name}.z"])
            chord = boat[f"{name}.area"] / boat[f"{name}.span"]
            section = Section(self.tables.sections, which, log(past * chord / water.viscosity))
            if name == "main":
                main = Foil(boat, name, section, angle, q, depths[name], lean)
                pivot = self.height_of(height, trim, boat["wand.pivot_x"], 0, boat["wand.pivot_z"])
                control = self.control(main, pivot, trim)
                foils[name] = control.lifting, up
            else:
                turned = downwash(
                    foils["main"][0].lift,
                    boat,
                    depths["main"],
                    depths["rudder"],
                    depths["main"] - depths["rudder"],
                    boat["main.x"] - boat["rudder.x"],
                )
                rear = Foil(boat, name, section, angle - turned, q, depths[name], lean)
                foils[name] = rear.at(0.0), up + turned * past

        wet = hull_in_water(self.tables.hull, height, trim, self.heel, boat["main.x"])
        for name in ("main", "rudder"):
            lifting, upward = foils[name]
            S, chord, share = (
                boat[f"{name}.area"],
                boat[f"{name}.strut_chord"],
                boat[f"{name}.strut_thickness"],
            )
            L = q * S * lifting.lift
            D = q * S * lifting.drag + lifting.wetted * junction_drag(q, chord, share)
            c, s = along / past, -upward / past
            arm = S / boat[f"{name}.span"] * boat[f"{name}.moment_chord_ratio"]
            put(
                f"{name} foil",
                np.array([L * s - D * c, 0, L * c + D * s]),
                (boat[f"{name}.x"], 0, boat[f"{name}.z"]),
                -q * S * arm * lifting.moment,
            )

            whole = boat[f"{name}.strut_top"] - boat[f"{name}.z"]
            local = depths[name] / (cos(trim) * cos(self.heel))
            wetted = smaller(local, whole, 0.01)
            piercing = ramp(whole - local, 0, 0.04)
            sunk = -height if name == "main" else wet.transom_depth
            wall = 0.5 * (1 - piercing) * ramp(sunk, 0, 0.1)
            attack = atan2(across, along) + (rudder if name == "rudder" else 0.0)
            force = strut_force(chord, share, wetted, past, attack, piercing, wall, water, q)
            seen[name] = Seen(lifting, depths[name], past, attack, wetted)
            straight, sideways = along / hypot(along, across), across / hypot(along, across)
            put(
                f"{name} strut",
                np.array(
                    [
                        force.side * sideways - force.drag * straight,
                        -force.side * straight - force.drag * sideways,
                        0,
                    ]
                ),
                (boat[f"{name}.x"], 0, boat[f"{name}.z"] + wetted / 2),
            )

        if wet.volume > 0:
            centre = np.array([wet.x, wet.y, wet.z])
            length = self.tables.hull.length
            put("buoyancy", body @ (0, 0, water.density * water.gravity * wet.volume), centre)
            put(
                "hull friction",
                body @ (-hull_friction(wet, U, boat["hull.form_factor"], water), 0, 0),
                centre,
            )
            waves = boat["hull.wave_share"] * wave_drag(self.tables.waves, U, wet.volume, water)
            put("hull waves", body @ (-waves, 0, 0), centre)
            put(
                "transom",
                body @ (-transom_drag(wet, U, length, water), 0, 0),
                (self.tables.hull.x[0], wet.y, wet.z),
            )
            plane = planing(wet, U, trim, boat["hull.planing_share"], water)
            put("planing", body @ (-plane.drag, 0, plane.lift), (plane.x, wet.y, wet.z))

        psi, push = control.wand, control.touch * control.resting.push
        reach = boat["wand.length"] - control.resting.immersed / 2
        put(
            "wand",
            push * np.array([-cos(psi), 0, sin(psi)]),
            (boat["wand.pivot_x"] - reach * sin(psi), 0, boat["wand.pivot_z"] - reach * cos(psi)),
        )

        for item, area, at in (
            ("hull air", boat["air.hull_drag_area"], (self.tables.hull.length / 2, 0, boat["air.hull_z"])),
            ("mast air", boat["air.mast_drag_area"], (boat["air.mast_x"], 0, boat["air.mast_z"])),
            ("crew air", boat["air.crew_drag_area"], places[1]),
        ):
            air = self.air(self.height_of(height, trim, *at))
            put(item, body @ air * (-water.air_density / 2 * area * float(np.linalg.norm(air))), at)
        return Looked(loads, put, control, seen)

    def balance(self, height, trim):
        """Every load, and what is left over in heave and pitch."""
        boat = self.boat
        loads, put, control, _ = self.look(height, trim)
        earth = earth_from_body(trim, self.heel)
        W = (boat["mass.mass"] + boat["crew.mass"]) * self.water.gravity
        drag = -float((earth @ np.sum([v[:3] for v in loads.values()], axis=0))[0])
        put("pull", earth.T @ (drag, 0, 0), (boat["rig.effort_x"], 0, boat["rig.effort_z"]))
        total = np.sum(list(loads.values()), axis=0)
        return Balance(
            float((earth @ total[:3])[2]) / W, -float((earth @ total[3:])[1]) / W, loads, control, drag, W
        )

    def misses(self, place):
        found = self.balance(*place)
        return found.heave, found.pitch

    def solve_near(self, height, trim):
        """A steady state from a first guess, by Powell's hybrid method; None where it does not get there."""
        answer = root(self.misses, (height, trim), method="hybr", options={"xtol": 1e-11, "eps": 1e-8})
        if np.abs(answer.fun).max() > 1e-8:
            return None
        return State(float(answer.x[0]), float(answer.x[1]), self.balance(*answer.x))

    def height_that_carries(self, trim, guess=None):
        """Height at which the weight is carried at a trim, bracketed; None where there is none in range."""
        low, high = -1.2, 2.0
        if guess is not None:
            near = [max(low, guess - 0.05), min(high, guess + 0.05)]
            if self.misses((near[0], trim))[0] > 0 > self.misses((near[1], trim))[0]:
                low, high = near
        if not self.misses((low, trim))[0] > 0 > self.misses((high, trim))[0]:
            return None
        return brentq(lambda h: self.misses((h, trim))[0], low, high, xtol=1e-5)

    def solve(self, first=-8.0, last=11.5, step=1.0):
        """Every steady state seen on a grid of trims [deg], with no start from anywhere."""
        rows, height = [], None
        for trim in np.radians(np.arange(first, last + step / 2, step)):
            height = self.height_that_carries(float(trim), height)
            if height is not None:
                rows.append((float(trim), height, self.misses((height, float(trim)))[1]))
        found = []
        for (t0, h0, p0), (t1, h1, p1) in itertools.pairwise(rows):
            if t1 - t0 < radians(1.5 * step) and p0 * p1 < 0:
                share = p0 / (p0 - p1)
                state = self.solve_near(h0 + share * (h1 - h0), t0 + share * (t1 - t0))
                if state is None or not t0 - 1e-9 < state.trim < t1 + 1e-9:
                    trim = brentq(
                        lambda t: self.misses((self.height_that_carries(t), t))[1], t0, t1, xtol=1e-7
                    )
                    state = self.solve_near(self.height_that_carries(trim), trim)
                if state is not None:
                    found.append(state)
        return found
