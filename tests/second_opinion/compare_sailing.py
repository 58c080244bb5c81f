"""What the second opinion and the package say of the same boat in the same wind, side by side."""

from __future__ import annotations

from math import radians
from typing import NamedTuple

import numpy as np

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.many_in_wind import all_in_wind
from foilwright.flight.sailing_in_wind import sailing_case
from foilwright.flight.wind_balance import Helm, left_over
from foilwright.measures import Floats
from foilwright.water.properties import Water
from tests.demo_boats import BOATS, KN, NO_CHANGE
from tests.second_opinion.balance import ITEMS
from tests.second_opinion.draws import one
from tests.second_opinion.sailing import Sailor, out_share, power_at


class WindCase(NamedTuple):
    base: str
    boat: ReadyBoat
    row: Floats
    water: Water
    wind: float  # at 10 m [m/s]
    angle: float  # [rad]
    heels: tuple[float, float]  # afloat, in flight [rad]
    roughness: float  # [m]


class Miss(NamedTuple):
    """Second opinion less the package, at one steady state; loads and what they are shares of the weight."""

    speed: float  # from what is left over at the package's state, by our own derivatives [m/s]
    height: float  # likewise [m]
    trim: float  # [rad]
    leeway: float  # [rad]
    rudder: float  # [rad]
    reach: float
    out: float  # share of the reach that the crew is out
    power: float
    force: float  # largest over the items, share of the weight
    moment: float  # largest about any axis over the items, over weight [m]
    relative_force: float  # largest over items of more than a thousandth of the weight, share of that force
    worst: str  # item of `relative_force`


def draw_in_wind(count: int, seed: int) -> list[WindCase]:
    """Random boats as for the bench, each in a random wind, with heels of all credible kinds."""
    rng = np.random.default_rng(seed)
    cases = []
    for k in range(count):
        base = one(BOATS[k % len(BOATS)], rng)
        heels = (radians(rng.uniform(-3, 3)), radians(rng.uniform(-18, 2)))
        cases.append(
            WindCase(
                base.base, base.boat, base.row, base.water, rng.uniform(5, 20) * KN,
                radians(rng.uniform(45, 150)), heels, 10 ** rng.uniform(-4, -2.8),
            )
        )  # fmt: skip
    return cases


def states_in_wind(case: WindCase) -> Floats:
    """The package's states, a row each, the six unknowns first."""
    winds = np.array([(case.wind, case.angle, *case.heels)])
    nothing = np.zeros((1, 0))
    found = all_in_wind(
        case.row, case.boat.tables, case.water, case.roughness, NO_CHANGE, nothing, winds, threads=1
    )
    return found.states[0, : found.counts[0]]


def sailor(case: WindCase) -> Sailor:
    return Sailor(
        case.row, case.boat.names, case.boat.tables, case.water, case.wind, case.angle, case.heels,
        case.roughness,
    )  # fmt: skip


def loads_of_the_package(case: WindCase, unknowns: Floats) -> tuple[Floats, Floats]:
    """What is left over and every item, at six numbers."""
    package = sailing_case(
        case.row, case.boat.tables, case.water, case.wind, case.angle, Helm(*case.heels), case.roughness
    )
    left, items = np.zeros(6), np.zeros((len(ITEMS), 6))
    left_over(package, np.ascontiguousarray(unknowns), left, items)
    return left, items


def miss_in_wind(ours: Sailor, case: WindCase, state: Floats) -> Miss:
    """Everything compared at the package's state, and how far our own state lies from it."""
    place = np.array(state[:6])
    found = ours.sailed(place)
    items = loads_of_the_package(case, place)[1]
    step = np.linalg.solve(ours.slopes(place), -found.left)
    reach = float(place[5])
    forces, moments, shares = {}, {}, {"": 0.0}
    for item, theirs in zip(ITEMS, items, strict=True):
        miss, size = found.loads[item] - theirs, float(np.linalg.norm(found.loads[item][:3]))
        forces[item] = float(np.linalg.norm(miss[:3])) / found.weight
        moments[item] = float(np.abs(miss[3:]).max()) / found.weight
        if size > 1e-3 * found.weight:
            shares[item] = forces[item] * found.weight / size
    worst = max(shares, key=lambda item: shares[item])
    return Miss(
        speed=float(step[0]),
        height=float(step[1]),
        trim=float(step[2]),
        leeway=float(step[3]),
        rudder=float(step[4]),
        reach=float(step[5]),
        out=out_share(reach + step[5]) - out_share(reach),
        power=power_at(reach + step[5]) - power_at(reach),
        force=max(forces.values()),
        moment=max(moments.values()),
        relative_force=shares[worst],
        worst=worst,
    )
