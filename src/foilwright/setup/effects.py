"""What one step of each adjuster, of the sailor's place and of the sail's pull does to a steady flight.

Twice over: by the exact derivative through the solution, and by the state found again one step either way.
Where the two differ the reason is looked for: a stop that is met, or plain curvature.

The derivative is that of the implicit function: the state x = (height, trim) keeps the balance R(x, p) = 0,
so dx/dp = -(dR/dx)^-1 dR/dp, and a reading f(x, p) (drag, rudder lift) changes by df/dp + df/dx dx/dp.
The partial derivatives are differences of the balance itself, never of its solution.
"""

from collections.abc import Mapping, Sequence
from math import radians, sqrt
from typing import NamedTuple

import numpy as np

from foilwright.compiled import plain
from foilwright.flight.at_speed import Steady, scratch
from foilwright.flight.boat import N_SCALARS, Boat, row_names
from foilwright.flight.chain_behaviour import unpacked
from foilwright.flight.trim_at_speed import Case, balance
from foilwright.linkage.chain import LINK_SIZE
from foilwright.measures import Floats
from foilwright.outcomes import NO_BALANCE, SOLVED
from foilwright.setup.adjusters import adjuster_named
from foilwright.setup.standing import (
    PULL,
    PULL_STEP,
    Reading,
    Standing,
    names_of,
    near,
    reading,
    stepped_boat,
    with_boat,
)
from foilwright.setup.trial import Trial

STATE_STEP = 1e-4  # of height [m] and trim [rad] in differences
SHARE_OF_STEP = 0.01  # of one step of an adjuster in differences
SHARE_ONE_WAY = 0.002  # likewise where the difference is taken one way only
AGREE_SHARE = 0.2  # derivative and solved step agree within this share of the larger ...
AGREE_HEIGHT, AGREE_TRIM = 0.003, radians(0.03)  # ... or within this [m, rad]
END = "end of range"
LOST = "no state"


class Change(NamedTuple):
    """Change for one step: height [m], trim [rad], drag [N], rudder lift [N]."""

    height: float
    trim: float
    drag: float
    rudder_lift: float


class Effect(NamedTuple):
    """What one step of one thing does at one speed [m/s]; everything None where there is no state.

    slope     per step, by the derivative through the solution
    more, less  one step more and one step less, solved again; None past the end of the range, or if lost
    linear    whether slope and solved steps agree on height and trim
    stop_met  which stop makes them differ, or holds the boat here, or ends the range
    """

    speed: float
    adjuster: str
    outcome: int
    slope: Change | None
    more: Change | None
    less: Change | None
    linear: bool | None
    stop_met: str


class Local(NamedTuple):
    """A state with the derivatives of balance and readings by height and trim."""

    case: Case
    height: float
    trim: float
    at: Reading
    by_state: Floats  # [4, 2]: rows lift, pitch, drag, rudder lift; columns height, trim


def effects(
    standing: Standing, states: Sequence[tuple[float, Steady | None]], fast: bool = False
) -> list[Effect]:
    """The table: every adjuster, then the pull, at each speed [m/s] with the state that counts there.

    `fast` uses the compiled kernel.
    """
    names = names_of(standing)
    present = Trial(standing, standing.present_row, 1.0, fast)
    there = [(speed, state.height, state.trim) for speed, state in states if state is not None]
    found = locals_at(present, there)
    locals_ = {local.case.speed: local for local in found}
    slopes: dict[tuple[float, str], Change] = {}
    for name in names:
        ends = present.moved(name, SHARE_ONE_WAY).readings(there)
        for local, end in zip(found, ends, strict=True):
            by_number = (_numbers(end) - _numbers(local.at)) / SHARE_ONE_WAY
            slopes[(local.case.speed, name)] = carried(local, by_number)
    steps = solved_steps(present, found, slopes)
    table = []
    for speed, state in states:
        for name in names:
            if state is None:
                table.append(Effect(speed, name, NO_BALANCE, None, None, None, None, ""))
                continue
            local = locals_[speed]
            more, less = steps[(speed, name, 1.0)], steps[(speed, name, -1.0)]
            table.append(judged(speed, name, local.at, slopes[(speed, name)], more, less))
    return table


def slopes_at_state(standing: Standing, speed: float, state: Steady) -> dict[str, Change]:
    """The derivative alone, for one step of every adjuster and of the pull, at one state."""
    local = local_at(standing, speed, state.height, state.trim)
    return {
        name: slope_one_way(local, stepped_boat(standing, name, SHARE_ONE_WAY)) for name in names_of(standing)
    }


def local_at(standing: Standing, speed: float, height: float, trim: float) -> Local:
    """The derivatives at a solved state."""
    [local] = locals_at(Trial(standing, standing.present_row), [(speed, height, trim)])
    return local


def locals_at(trial: Trial, states: Sequence[tuple[float, float, float]]) -> list[Local]:
    """The derivatives at solved states: boat speed [m/s], height [m], trim [rad]."""
    d = STATE_STEP
    around = ((0.0, 0.0), (d, 0.0), (-d, 0.0), (0.0, d), (0.0, -d))
    points = [(speed, height + h, trim + t) for speed, height, trim in states for h, t in around]
    seen = trial.readings(points)
    found = []
    for i, (speed, height, trim) in enumerate(states):
        at, *ends = seen[len(around) * i : len(around) * (i + 1)]
        up, down, bow_up, bow_down = (_numbers(end) for end in ends)
        by_state = np.stack([up - down, bow_up - bow_down], axis=1) / (2.0 * d)
        found.append(Local(trial.case._replace(speed=speed), height, trim, at, by_state))
    return found


def slope_of(local: Local, ends: Sequence[tuple[Boat, float]]) -> Change:
    """The exact derivative for one step of one thing, moved by SHARE_OF_STEP up and down in `ends`."""
    up, down = (reading(with_boat(local.case, end), local.height, local.trim) for end in ends)
    return carried(local, (_numbers(up) - _numbers(down)) / (2.0 * SHARE_OF_STEP))


def slope_one_way(local: Local, end: tuple[Boat, float]) -> Change:
    """The same from one end only, moved by SHARE_ONE_WAY: half the work."""
    up = reading(with_boat(local.case, end), local.height, local.trim)
    return carried(local, (_numbers(up) - _numbers(local.at)) / SHARE_ONE_WAY)


def carried(local: Local, by_number: Floats) -> Change:
    """From the derivatives at a held state to those of the state that keeps the balance."""
    moved = -np.linalg.solve(local.by_state[:2], by_number[:2])
    follows = by_number[2:] + local.by_state[2:] @ moved
    return Change(float(moved[0]), float(moved[1]), float(follows[0]), float(follows[1]))


def solved_steps(
    present: Trial, locals_: Sequence[Local], slopes: Mapping[tuple[float, str], Change]
) -> dict[tuple[float, str, float], tuple[Change, str] | str]:
    """Every state one step either way, with the stop that acts there; or in words why there is none."""
    standing = present.standing
    found: dict[tuple[float, str, float], tuple[Change, str] | str] = {}
    asked: dict[float, list[tuple[Local, str, float]]] = {}
    for local in locals_:
        for name in names_of(standing):
            for sign in (1.0, -1.0):
                if within_range(standing, name, sign):
                    pull = PULL_STEP * sign if name == PULL else 0.0
                    asked.setdefault(local.case.pull_share + pull, []).append((local, name, sign))
                else:
                    found[(local.case.speed, name, sign)] = END
    moved = {
        (name, sign): present.moved(name, sign)
        for name in names_of(standing)
        for sign in (1.0, -1.0)
        if within_range(standing, name, sign)
    }
    ends_of: dict[tuple[str, float], list[tuple[Local, tuple[float, float]]]] = {}
    for pull_share, ones in asked.items():
        rows = [moved[(name, sign)].row for _, name, sign in ones]
        starts = []
        for local, name, sign in ones:
            slope = slopes[(local.case.speed, name)]
            starts.append((local.height + sign * slope.height, local.trim + sign * slope.trim))
        known = [local.by_state for local, _, _ in ones]
        ends = near(
            standing,
            rows,
            pull_share,
            [local.case.speed for local, _, _ in ones],
            starts,
            present.fast,
            known,
        )
        for (local, name, sign), end in zip(ones, ends, strict=True):
            if end is None:
                found[(local.case.speed, name, sign)] = LOST
            else:
                ends_of.setdefault((name, sign), []).append((local, end))
    for (name, sign), kept in ends_of.items():
        readings = moved[(name, sign)].readings([(local.case.speed, *end) for local, end in kept])
        for (local, end), after in zip(kept, readings, strict=True):
            change = Change(
                end[0] - local.height,
                end[1] - local.trim,
                after.drag - local.at.drag,
                after.rudder_lift - local.at.rudder_lift,
            )
            found[(local.case.speed, name, sign)] = (change, after.stop)
    return found


def within_range(standing: Standing, name: str, steps: float) -> bool:
    """Whether a thing can be moved by `steps` from where it stands."""
    if name == PULL:
        return True
    adjuster = adjuster_named(standing.adjusters, name)
    return adjuster.least - 1e-9 <= standing.settings.get(name, 0.0) + steps <= adjuster.greatest + 1e-9


def judged(
    speed: float,
    name: str,
    at: Reading,
    slope: Change,
    more: tuple[Change, str] | str,
    less: tuple[Change, str] | str,
) -> Effect:
    """One row: whether derivative and solved steps agree, and the stop that is to blame if not."""
    changes = [one if isinstance(one, str) else one[0] for one in (more, less)]
    stops = [one if isinstance(one, str) else one[1] for one in (more, less)]
    linear = all(
        isinstance(change, str) or agrees(slope, change, sign)
        for change, sign in zip(changes, (1.0, -1.0), strict=True)
    )
    stop = at.stop
    if not linear:
        differ = [
            stop_there
            for change, stop_there, sign in zip(changes, stops, (1.0, -1.0), strict=True)
            if not isinstance(change, str) and not agrees(slope, change, sign)
        ]
        stop = stop or next((one for one in [*differ, *stops] if one), "")
    stop = stop or next((one for one in stops if one in (LOST, END)), "")
    linear = linear and LOST not in stops
    kept = [None if isinstance(change, str) else change for change in changes]
    return Effect(speed, name, SOLVED, slope, kept[0], kept[1], linear, stop)


def agrees(slope: Change, change: Change, sign: float) -> bool:
    """Whether a solved step [either way] is what the derivative says, in height and trim."""
    pairs = ((slope.height, change.height, AGREE_HEIGHT), (slope.trim, change.trim, AGREE_TRIM))
    return all(abs(sign * b - a) <= max(AGREE_SHARE * max(abs(a), abs(b)), floor) for a, b, floor in pairs)


def doubts_of(
    standing: Standing, locals_: Sequence[Local], bands: Mapping[str, float]
) -> list[tuple[float, float]]:
    """How sure height [m] and trim [rad] of each state are, one standard error, from how sure the boat is.

    bands  how sure each number of the row is, by its name [SI]; taken as independent of each other. What is
           in the section tables or in the hull's shape is no number of the row and not in it.
    """
    row = standing.present_row
    index = {name: i for i, name in enumerate(row_names_of(row))}
    items = plain(scratch().items)
    squares = np.zeros((len(locals_), 2))
    for name, band in bands.items():
        other = row.copy()
        other[index[name]] += SHARE_OF_STEP * band
        boat = plain(unpacked(other))
        for i, local in enumerate(locals_):
            lift, pitch = balance(local.case._replace(boat=boat), local.height, local.trim, items)
            by_band = np.array([lift - local.at.lift, pitch - local.at.pitch]) / SHARE_OF_STEP
            squares[i] += np.linalg.solve(local.by_state[:2], by_band) ** 2
    return [(sqrt(height), sqrt(trim)) for height, trim in squares]


def row_names_of(row: Floats) -> tuple[str, ...]:
    """The names of a row's numbers, from its length."""
    return row_names((len(row) - N_SCALARS) // LINK_SIZE)


def _numbers(at: Reading) -> Floats:
    return np.array([at.lift, at.pitch, at.drag, at.rudder_lift])
