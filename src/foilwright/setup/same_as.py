"""Between two adjusters, of one boat or of two: how many steps of B do what one step of A does.

Weighted least squares on ride height and trim: 10 mm of height counts as much as 0.1 degrees of bow angle.
The steps follow from the effects by derivative and are then corrected with the state solved at that many
steps (Gauss-Newton, with the slope between the last two), as far as B's range reaches. What B cannot imitate
is left over, and said.
"""

from math import radians
from typing import NamedTuple

import numpy as np

from foilwright.flight.at_speed import Steady
from foilwright.measures import Floats
from foilwright.outcomes import NO_BALANCE, OUTSIDE_VALIDITY, SOLVED
from foilwright.setup.effects import SHARE_OF_STEP, Change, Local, local_at, slope_of, within_range
from foilwright.setup.standing import (
    PULL,
    PULL_STEP,
    Standing,
    near,
    reading,
    stepped,
    stepped_boat,
    with_boat,
)

HEIGHT_WEIGHT, TRIM_WEIGHT = 0.010, radians(0.1)  # counts as much as each other [m, rad]
LEAST_EFFECT = 0.1  # of those weights: a step that does less than this cannot stand for another
ROUNDS = 12
SETTLED = 1e-4  # [steps]


class SameAs(NamedTuple):
    """One step of A, in steps of B.

    steps        of B, from where it stands; None where there are none
    change       what one step of A does
    imitated     what that many steps of B do;  left_over  what A's step does beyond it
    within_range whether B can be moved that far from where it stands
    limit        what the outcome is about
    """

    outcome: int
    steps: float | None
    change: Change | None
    imitated: Change | None
    left_over: Change | None
    within_range: bool | None
    limit: str


def same_as(
    a: Standing, a_state: Steady | None, a_name: str, b: Standing, b_state: Steady | None, b_name: str
) -> SameAs:
    """Steps of `b_name` on boat B for one step of `a_name` on boat A, each from its own state at its speed.

    At the upper end of A's range one step back is taken, with its sign turned.
    """
    for state, which in ((a_state, "the first boat"), (b_state, "the second boat")):
        if state is None:
            return SameAs(NO_BALANCE, None, None, None, None, None, which)
    assert a_state is not None and b_state is not None
    change = one_step(a, _local(a, a_state), a_name)
    if change is None:
        return SameAs(NO_BALANCE, None, None, None, None, None, f"one step of {a_name}")
    local = _local(b, b_state)
    slope = _slope(b, local, b_name)
    wanted, per_step = _weighted(change), _weighted(slope)
    size = float(per_step @ per_step)
    if size < LEAST_EFFECT**2:
        return SameAs(OUTSIDE_VALIDITY, None, change, None, None, None, f"{b_name} hardly does anything here")
    steps = float(wanted @ per_step) / size
    imitated = _times(slope, steps)
    inside = within_range(b, b_name, steps)
    at, done = 0.0, np.zeros(2)
    for _ in range(ROUNDS if inside else 0):
        solved = moved(b, local, b_name, steps)
        if solved is None:
            break
        imitated = solved
        now = _weighted(solved)
        if abs(steps - at) > 1e-6:
            per_step = (now - done) / (steps - at)  # the slope there, where effects are curved
        size = float(per_step @ per_step)
        correction = float((wanted - now) @ per_step) / size if size > 0.0 else 0.0
        if abs(correction) < SETTLED or not within_range(b, b_name, steps + correction):
            break
        at, done, steps = steps, now, steps + correction
    left = Change(*(mine - other for mine, other in zip(change, imitated, strict=True)))
    return SameAs(SOLVED, steps, change, imitated, left, inside, "")


def one_step(standing: Standing, local: Local, name: str) -> Change | None:
    """What one step more does, solved; at the end of the range what one step less does, turned round."""
    sign = 1.0 if within_range(standing, name, 1.0) else -1.0
    solved = moved(standing, local, name, sign)
    return None if solved is None else _times(solved, sign)


def moved(standing: Standing, local: Local, name: str, steps: float) -> Change | None:
    """The change of a state when one thing is moved by some steps, solved; None where the state is lost."""
    change, _ = stepped(standing, name, steps)
    pull = local.case.pull_share + (PULL_STEP * steps if name == PULL else 0.0)
    slope = _slope(standing, local, name)
    start = (local.height + steps * slope.height, local.trim + steps * slope.trim)
    [end] = near(standing, [standing.present_row + change], pull, [local.case.speed], [start], False)
    if end is None:
        return None
    after = reading(with_boat(local.case, stepped_boat(standing, name, steps)), *end)
    return Change(
        end[0] - local.height,
        end[1] - local.trim,
        after.drag - local.at.drag,
        after.rudder_lift - local.at.rudder_lift,
    )


def _local(standing: Standing, state: Steady) -> Local:
    return local_at(standing, state.speed, state.height, state.trim)


def _slope(standing: Standing, local: Local, name: str) -> Change:
    return slope_of(local, [stepped_boat(standing, name, sign * SHARE_OF_STEP) for sign in (1.0, -1.0)])


def _weighted(change: Change) -> Floats:
    return np.array([change.height / HEIGHT_WEIGHT, change.trim / TRIM_WEIGHT])


def _times(change: Change, steps: float) -> Change:
    return Change(*(steps * part for part in change))
