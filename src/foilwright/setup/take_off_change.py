"""What one step of an adjuster does to the take-off speed on the bench.

At a take-off three equations hold in three unknowns (speed, height, trim): heave, pitch, and what ends the
flight on the way down. That is either the hull's lowest point meeting the water, or the flying state itself
ending: a fold, where the determinant of the balance's derivatives is nothing. Their derivative gives the
slope exactly, and Broyden's rule from the slope's prediction gives the take-off one step either way.
"""

from collections.abc import Sequence
from math import fabs
from typing import NamedTuple

import numpy as np

from foilwright.flight.at_speed import (
    Steady,
    is_flying,
    nearby,
    slowest_flying,
    take_off_speed,
)
from foilwright.flight.trim_at_speed import Slopes, is_stable
from foilwright.measures import Floats
from foilwright.setup.effects import SHARE_OF_STEP, STATE_STEP, within_range
from foilwright.setup.standing import Standing, flown, names_of
from foilwright.setup.take_off_path import TakeOff, reached_from
from foilwright.setup.trial import Trial

SPEED_STEP = 1e-4  # in differences [m/s]
TOO_FAR = 0.05  # a Newton solution this far from the speed looked for is another one [m/s]
SOLVED = 1e-8  # of weight, of weight times a metre, and [m]
SOLVED_STEP = 1e-6  # likewise of a take-off one step away
FOLD_STEP = 1e-3  # the fold is a derivative itself: wider differences of it
ABOVE = (0.0, 0.06, 0.2, 0.5)  # a flying state this far above the take-off is followed down to it [m/s]
GRID = tuple(1.5 + 0.25 * i for i in range(51))  # where the compiled search looks for the first flight [m/s]


class TakeOffChange(NamedTuple):
    """Change of the take-off speed [m/s] for one step: by the derivative, and solved each way."""

    slope: float | None
    more: float | None
    less: float | None


def take_off(standing: Standing, known: Sequence[Steady] = (), fast: bool = False) -> TakeOff | None:
    """The take-off of the boat as it stands; None where it never flies. `known` shortens the search."""
    row, tables, water, heel = standing.present_row, standing.tables, standing.water, standing.heel
    if fast and not known:
        known = _around_first_flight(standing)
    trial = Trial(standing, row, 1.0, fast)
    top = slowest_flying(known)
    reached = None if top is None else reached_from(trial, top)
    if reached is not None:
        at = np.array([reached.speed, reached.height, reached.trim])
        end = _solved(trial, at, reached.clear)
        if end is not None and fabs(end[0] - reached.speed) < TOO_FAR:
            return TakeOff(float(end[0]), float(end[1]), float(end[2]), reached.clear)
    speed = take_off_speed(row, tables, water, heel, known)
    if speed is None:
        return None
    state = _flying_down_to(standing, speed, fast)
    if state is None:
        return None
    for clear in (True, False):
        end = _solved(trial, np.array([speed, *state]), clear)
        if end is not None and fabs(end[0] - speed) < TOO_FAR:
            return TakeOff(float(end[0]), float(end[1]), float(end[2]), clear)
    return None


def take_off_from(standing: Standing, known: Sequence[Steady], fast: bool = False) -> float | None:
    """The take-off speed [m/s] to about 0.002 m/s, from known states if a flying one is among them. `fast`
    uses the compiled kernel.
    """
    top = slowest_flying(known)
    reached = None if top is None else reached_from(Trial(standing, standing.present_row, 1.0, fast), top)
    if reached is not None:
        return reached.speed
    return take_off_speed(standing.present_row, standing.tables, standing.water, standing.heel, known)


def _flying_down_to(standing: Standing, speed: float, fast: bool) -> tuple[float, float] | None:
    """Height and trim of the flying state at a speed where it is about to end, followed down from above."""
    row, tables, water, heel = standing.present_row, standing.tables, standing.water, standing.heel
    for above in ABOVE:
        [state] = flown(standing, [speed + above], fast)
        if state is None or state.state != "flying":
            continue
        height, trim = state.height, state.trim
        for share in (0.5, 0.25, 0.1, 0.03, 0.0):
            if above == 0.0:
                break
            down = nearby(row, tables, water, speed + share * above, heel, height, trim)
            if down is None or not is_flying(row, tables, heel, down[0], down[1]):
                return None
            height, trim = down[0], down[1]
        return height, trim
    return None


def take_off_changes(standing: Standing, at: TakeOff | None, fast: bool = False) -> dict[str, TakeOffChange]:
    """One step of every adjuster and of the pull, at a known take-off. `fast` uses the compiled kernel."""
    names = names_of(standing)
    if at is None:
        return dict.fromkeys(names, TakeOffChange(None, None, None))
    present = Trial(standing, standing.present_row, 1.0, fast)
    point = np.array([at.speed, at.height, at.trim])
    inverse = np.asarray(np.linalg.inv(_jacobian(present, point, at.clear)), dtype=float)
    changes = {}
    for name in names:
        ends = [present.moved(name, sign * SHARE_OF_STEP) for sign in (1.0, -1.0)]
        up, down = (_miss(end, point, at.clear) for end in ends)
        slope = -inverse @ ((up - down) / (2.0 * SHARE_OF_STEP))
        solved: list[float | None] = []
        for sign in (1.0, -1.0):
            end = None
            if within_range(standing, name, sign):
                start = np.asarray(point + sign * slope)
                end = _solved(present.moved(name, sign), start, at.clear, inverse)
            solved.append(None if end is None else float(end[0]) - at.speed)
        changes[name] = TakeOffChange(float(slope[0]), solved[0], solved[1])
    return changes


def _miss(trial: Trial, point: Floats, clear: bool) -> Floats:
    """Heave, pitch, and what ends the flight at (speed, height, trim): lowest point [m], or the fold."""
    speed, height, trim = (float(x) for x in point)
    lift, pitch = trial.balance(speed, height, trim)
    end = trial.lowest(height, trim) if clear else _determinant(_slopes(trial, speed, height, trim))
    return np.array([lift, pitch, end])


def _slopes(trial: Trial, speed: float, height: float, trim: float) -> Slopes:
    """Derivatives of the balance by central differences."""
    columns = []
    for h, t in ((STATE_STEP, 0.0), (0.0, STATE_STEP)):
        up = trial.balance(speed, height + h, trim + t)
        down = trial.balance(speed, height - h, trim - t)
        columns.append([(a - b) / (2.0 * STATE_STEP) for a, b in zip(up, down, strict=True)])
    return Slopes(columns[0][0], columns[1][0], columns[0][1], columns[1][1])


def _determinant(s: Slopes) -> float:
    return s.lift_by_height * s.pitch_by_trim - s.lift_by_trim * s.pitch_by_height


def _jacobian(trial: Trial, point: Floats, clear: bool) -> Floats:
    columns = []
    for i, step in enumerate((SPEED_STEP, STATE_STEP, STATE_STEP)):
        to = np.zeros(3)
        to[i] = step if clear else FOLD_STEP
        columns.append((_miss(trial, point + to, clear) - _miss(trial, point - to, clear)) / (2.0 * to[i]))
    return np.stack(columns, axis=1)


def _solved(trial: Trial, start: Floats, clear: bool, known: Floats | None = None) -> Floats | None:
    """The take-off near a start, by Broyden's rule; None if lost, or not stable above it."""
    point = np.array(start, dtype=float)
    fresh = known is None
    close = SOLVED if fresh else SOLVED_STEP
    if known is None:
        jacobian = _jacobian(trial, point, clear)
        if fabs(float(np.linalg.det(jacobian))) < 1e-12:
            return None
        known = np.asarray(np.linalg.inv(jacobian), dtype=float)
    inverse = known
    miss = _miss(trial, point, clear)
    for _ in range(20):
        if np.abs(miss).max() < close:
            break
        step = np.clip(-inverse @ miss, -0.3, 0.3)
        point = point + step
        if point[0] <= 0.0:
            return None
        after = _miss(trial, point, clear)
        turn = inverse @ (after - miss)
        size = float(step @ turn)
        if fabs(size) > 1e-18:
            inverse = inverse + np.outer(step - turn, step @ inverse) / size
        miss = after
    if np.abs(miss).max() >= close:
        return None
    # From a known take-off one step stays on its branch; that is not looked at again.
    if clear and fresh and is_stable(_slopes(trial, *(float(x) for x in point))) < 0.5:
        return None
    return point


def _around_first_flight(standing: Standing) -> list[Steady]:
    """The first flight on a grid of speeds and what stands just below it, by the compiled kernel."""
    below: Steady | None = None
    for i in range(0, len(GRID), 8):
        for state in flown(standing, GRID[i : i + 8], True):
            if state is not None and state.state == "flying":
                return [state] if below is None else [below, state]
            below = state or below
    return []
