"""A boat as it stands with its sailor, and its steady states: all at a speed, or those near known ones.

Plain Python, or the compiled kernels where their code is already in this process; both find the same states.
"""

import sys
from collections.abc import Mapping, Sequence
from math import degrees
from typing import NamedTuple

import numpy as np

from foilwright.compiled import compiled, plain
from foilwright.flight import look
from foilwright.flight.at_speed import Steady, case_of, described, fly_at, nothing, scratch
from foilwright.flight.boat import Boat, Tables
from foilwright.flight.chain_behaviour import unpacked
from foilwright.flight.control import STOP_ROUNDING
from foilwright.flight.many import all_states, many_flights, near_states
from foilwright.flight.trim_at_speed import SOLVED_TOLERANCE, Case, balance, polished
from foilwright.measures import Floats
from foilwright.outcomes import NO_BALANCE, SOLVED
from foilwright.setup.adjusters import Adjuster, adjuster_named, change_at, turned
from foilwright.setup.settle import settled
from foilwright.side_by_side import side_by_side
from foilwright.water.properties import Water

PULL = "sail-pull"
PULL_STEP = 0.1  # one step of it: this much more of the drag
HELD_BY_STOP = 0.02  # how far a stop holds the foil from where the chain would have it, to be named [deg]
TOUCHING = 0.5


class Standing(NamedTuple):
    """A boat ready to fly: with its sailor, its adjusters where `settings` has them, in its water.

    row       its numbers with every adjuster at its mark and the sailor aboard [SI]
    settings  where each adjuster stands [steps from the mark]
    heel      to leeward positive [rad]
    """

    row: Floats
    tables: Tables
    water: Water
    adjusters: tuple[Adjuster, ...]
    settings: Mapping[str, float]
    heel: float = 0.0

    @property
    def present_row(self) -> Floats:
        """The row with the settings in it."""
        return turned(self.row, self.adjusters, self.settings)


class Reading(NamedTuple):
    """What is read off one state, balanced or not. SI.

    lift, pitch  what is left of heave (over weight) and pitch (bow up, over weight times a metre)
    stop         the stop that acts there, if any: see `stop_at`
    """

    lift: float
    pitch: float
    drag: float
    rudder_lift: float
    stop: str


def names_of(standing: Standing) -> tuple[str, ...]:
    """All that can be turned: the adjusters, and the sail's pull."""
    return (*(adjuster.name for adjuster in standing.adjusters), PULL)


def stepped(standing: Standing, name: str, steps: float) -> tuple[Floats, float]:
    """Change of the row and of the pull share when one thing is moved by `steps` from where it stands."""
    change = np.zeros_like(standing.row)
    if name == PULL:
        return change, PULL_STEP * steps
    adjuster = adjuster_named(standing.adjusters, name)
    at = standing.settings.get(name, 0.0)
    change[list(adjuster.numbers)] = change_at(adjuster, at + steps) - change_at(adjuster, at)
    return change, 0.0


def stepped_boat(standing: Standing, name: str, steps: float) -> tuple[Boat, float]:
    """The boat, and the change of the pull share, with one thing moved by `steps` from where it stands."""
    change, pull = stepped(standing, name, steps)
    return plain(unpacked(standing.present_row + change)), pull


def with_boat(case: Case, moved: tuple[Boat, float]) -> Case:
    """The case with a moved thing in it."""
    return case._replace(boat=moved[0], pull_share=case.pull_share + moved[1])


def reading(case: Case, height: float, trim: float) -> Reading:
    """The balance as `trim_at_speed.balance` has it, with drag, rudder lift and the stop that acts."""
    seen = plain(np.zeros(look.LOOK_SIZE))
    look.look(case, height, trim, plain(scratch().items), seen)
    return reading_of(seen)


def reading_of(seen: Sequence[float] | Floats) -> Reading:
    """The reading of one look."""
    return Reading(
        float(seen[look.LIFT_LEFT]),
        float(seen[look.PITCH_LEFT]),
        float(seen[look.DRAG]),
        float(seen[look.RUDDER_LIFT]),
        stop_of(seen),
    )


def stop_of(seen: Sequence[float] | Floats) -> str:
    """The stop that acts on a state: on the foil, on the wand, or the hull in the water; or nothing."""
    held = degrees(seen[look.HELD_BACK])
    if held > HELD_BY_STOP:
        return "foil greatest"
    if held < -HELD_BY_STOP:
        return "foil least"
    if seen[look.HULL_VOLUME] > 0.0:
        return "hull touching"
    if seen[look.TOUCH] < TOUCHING:
        return "wand off the water"
    if seen[look.OFF_FORWARD] < STOP_ROUNDING:
        return "wand forward"
    if seen[look.OFF_AFT] < STOP_ROUNDING:
        return "wand aft"
    return ""


def compiled_at_hand() -> bool:
    """Whether the compiled kernel is in this process already, so that using it costs no compiling."""
    if "numba" not in sys.modules:
        return False
    return bool(compiled(many_flights, balance).signatures)  # type: ignore[attr-defined]


def flown(standing: Standing, speeds: Sequence[float], fast: bool) -> list[Steady | None]:
    """The state that counts at each speed [m/s]: see `counted`. `fast` uses the compiled kernel."""
    return [counted(rows) for rows in flown_rows(standing, speeds, fast)]


def flown_rows(standing: Standing, speeds: Sequence[float], fast: bool) -> list[list[Steady]]:
    """The rows at each speed [m/s], as `fly_at` has them; the stable states alone where `fast`."""
    row = standing.present_row
    if not fast:
        return side_by_side(
            lambda speed: fly_at(row, standing.tables, standing.water, speed, standing.heel), speeds
        )
    states, counts, _ = all_states(
        row, standing.tables, standing.water, np.zeros(0, dtype=np.int64), np.zeros((len(speeds), 0)),
        np.array(speeds), standing.heel,
    )  # fmt: skip
    base = case_of(row, standing.tables, standing.water, 1.0, standing.heel)
    items = scratch().items
    found: list[list[Steady]] = []
    for speed, state, count in zip(speeds, states, counts, strict=True):
        stable = [one for one in state[:count] if one[2] > 0.0]
        case = base._replace(speed=float(speed))
        rows = [described(case, float(one[0]), float(one[1]), True, items) for one in stable]
        found.append(rows or [nothing(case, NO_BALANCE, "heave and pitch")])
    return found


def counted(rows: Sequence[Steady]) -> Steady | None:
    """Of the states at one speed the one that counts: stable; flying before lifting; on its wand; the lowest.

    A second flying state is a breach: far above the wand's reach, carried by what the surface takes away.
    """
    stable = [one for one in rows if one.state and one.stable]
    return min(
        stable, key=lambda one: (one.state != "flying", not one.wand_touching, one.height), default=None
    )


def near(
    standing: Standing,
    rows: Sequence[Floats],
    pull_share: float,
    speeds: Sequence[float],
    starts: Sequence[tuple[float, float]],
    fast: bool,
    known: Sequence[Floats] | None = None,
    tolerance: float = SOLVED_TOLERANCE,
) -> list[tuple[float, float] | None]:
    """Height [m] and trim [rad] of the state near each start, one row of numbers and one speed each.

    None where the search does not settle. `fast` uses the compiled kernel. Without it, slopes of the balance
    that are `known` at the starts [2, 2] save looks at it, and `tolerance` [of weight] may be coarser.
    """
    tables, water, heel = standing.tables, standing.water, standing.heel
    if not rows:
        return []
    found: list[tuple[float, float] | None] = []
    if fast:
        base = standing.present_row
        changes = np.array(rows) - base
        numbers = np.flatnonzero(np.abs(changes).max(axis=0) > 0.0)
        states, outcomes = near_states(
            base, tables, water, numbers, np.ascontiguousarray(changes[:, numbers]), np.array(speeds),
            np.array(starts), heel, pull_share,
        )  # fmt: skip
        for state, outcome in zip(states, outcomes, strict=True):
            found.append((float(state[0]), float(state[1])) if int(outcome) == SOLVED else None)
        return found
    base_case = case_of(standing.row, tables, water, 1.0, heel, pull_share)
    items = plain(scratch().items)
    boat, last = base_case.boat, standing.row
    for i, (row, speed, start) in enumerate(zip(rows, speeds, starts, strict=True)):
        if row is not last:
            boat, last = plain(unpacked(row)), row
        case = base_case._replace(boat=boat, speed=float(speed))
        if known is not None:
            found.append(settled(case, start, known[i], items, tolerance))
            continue
        height, trim, miss, _ = polished(case, start[0], start[1], items)
        found.append((height, trim) if miss <= SOLVED_TOLERANCE else None)
    return found
