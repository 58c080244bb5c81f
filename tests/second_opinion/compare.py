"""What the second opinion and the package say of the same boat, side by side."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from foilwright.flight.at_speed import Steady, fly_at
from foilwright.outcomes import GAVE_UP, NO_BALANCE
from tests.second_opinion.balance import ITEMS, Flyer, State
from tests.second_opinion.draws import Case


class Difference(NamedTuple):
    """Second opinion less the package, at one steady state; loads and what they are shares of the weight."""

    height: float  # from what is left over at the package's state, by our own derivatives [m]
    trim: float  # [rad]
    wand: float  # [rad]
    foil: float  # [rad]
    force: float  # largest over the items, share of the weight
    pitching: float  # moment about body y, largest over the items, over weight [m]
    rolling: float  # moments about body x and z, likewise
    relative_force: float  # largest over items of more than a thousandth of the weight, share of that force
    drag: float  # share of it
    worst: str  # item with the largest rolling moment difference


def states_of_the_package(case: Case) -> list[Steady]:
    every = fly_at(case.row, case.boat.tables, case.water, case.speed, case.heel)
    return [state for state in every if state.outcome not in (NO_BALANCE, GAVE_UP)]


def flyer(case: Case) -> Flyer:
    return Flyer(case.row, case.boat.names, case.boat.tables, case.water, case.speed, case.heel)


def difference(ours: Flyer, theirs: Steady) -> Difference:
    """Everything compared at the package's state, and how far our own state lies from it."""
    found = ours.balance(theirs.height, theirs.trim)
    step_height, step_trim = own_step(ours, theirs.height, theirs.trim)
    forces, pitching, rolling, shares = {}, {}, {}, [0.0]
    for item in ITEMS:
        miss = found.loads[item] - np.array(theirs.loads[item])
        size = float(np.linalg.norm(found.loads[item][:3]))
        forces[item] = float(np.linalg.norm(miss[:3])) / found.weight
        pitching[item] = abs(float(miss[4])) / found.weight
        rolling[item] = float(np.abs(miss[[3, 5]]).max()) / found.weight
        if size > 1e-3 * found.weight:
            shares.append(forces[item] * found.weight / size)
    return Difference(
        step_height,
        step_trim,
        found.control.shown - theirs.wand,
        found.control.foil - theirs.foil,
        max(forces.values()),
        max(pitching.values()),
        max(rolling.values()),
        max(shares),
        (found.drag - theirs.drag) / theirs.drag,
        max(rolling, key=lambda item: rolling[item]),
    )


def own_step(ours: Flyer, height: float, trim: float) -> tuple[float, float]:
    """Newton's step from a place to our own balance [m, rad], central differences."""
    at = np.array([height, trim])
    columns = []
    for k, h in enumerate((1e-5, 1e-5)):
        step = h * np.eye(2)[k]
        columns.append((np.array(ours.misses(at + step)) - np.array(ours.misses(at - step))) / (2 * h))
    step = np.linalg.solve(np.array(columns).T, -np.array(ours.misses(at)))
    return float(step[0]), float(step[1])


def nearest(states: list[Steady], ours: State) -> tuple[float, float]:
    """How far our state lies from the nearest of the package's [m, rad]."""
    misses = [(ours.height - state.height, ours.trim - state.trim) for state in states]
    return min(misses, key=lambda miss: abs(miss[0]) + abs(miss[1]))
