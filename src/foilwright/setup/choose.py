"""Which adjusters to turn, by whole steps, for a goal over a range of speeds: few changes, people first.

Every setting up to three changes away is scored from the effects (`score.py`). The best are solved, in the
order of their scores, until none that is left could do better even if its score were as wrong as is allowed
for. Then the neighbours of the winner are tried, and the winner is solved again from nothing.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from foilwright.flight.at_speed import Steady
from foilwright.flight.boat import N_SCALARS, row_names
from foilwright.linkage.chain import LINK_SIZE
from foilwright.outcomes import NO_BALANCE, SOLVED
from foilwright.setup.effects import doubts_of, local_at
from foilwright.setup.goals import Goal, wanted_at
from foilwright.setup.judge import Bands, Judged, bands_of, inside_what_is_known, judged, may_be_known
from foilwright.setup.order import role_of
from foilwright.setup.reach import reach_of
from foilwright.setup.search import Search, judge_states, searched
from foilwright.setup.standing import Standing, flown
from foilwright.setup.walk import Move, in_order

SAME = 1e-3  # a state found again in full is the same within this [m, rad]
RUNNERS_UP = 2

INSIDE, KNOWN, NOTHING_BETTER, CHANGED, NO_FLIGHT = (
    "inside", "inside what is known", "nothing better", "changed", "no flight"
)  # fmt: skip


Counts = tuple[int, int, bool]


class Choice(NamedTuple):
    """What was chosen and why.

    speeds      those that have a state at present [m/s]; lost  those that have none
    moves       the changes in the order to make them
    why         inside, inside what is known, nothing better, changed, or no flight
    doubts      how sure height and trim are at each speed [m, rad], where that decided
    scored, solved  how many settings were scored, and how many of them solved
    proved      no setting left unsolved could do better, as far as the scores can be trusted
    states      those that count with the chosen setting, at the speeds that have one at present
    """

    outcome: int
    settings: Mapping[str, float]
    speeds: tuple[float, ...]
    lost: tuple[float, ...]
    bands: Bands
    present: Judged | None
    chosen: Judged | None
    moves: tuple[Move, ...]
    runners_up: tuple[Judged, ...]
    why: str
    doubts: tuple[tuple[float, float], ...]
    scored: int
    solved: int
    proved: bool
    states: Sequence[Steady | None] | None


def choose(
    standing: Standing,
    goal: Goal,
    speeds: Sequence[float],
    take_off: float | None,
    bands_of_numbers: Mapping[str, float] | None = None,
    fast: bool = False,
    states: Sequence[Steady | None] | None = None,
    movable: Sequence[str] | None = None,
) -> Choice:
    """The settings for a goal over boat speeds [m/s], from where the adjusters stand.

    take_off          the present take-off speed [m/s], from which the bands for slow flight follow
    bands_of_numbers  how sure the row's numbers are, by name; without them nothing is excused by doubt
    fast              use the compiled kernels;  states  the present states at the speeds, where known
    movable           the adjusters that may be touched; all of them if left out
    """
    found = flown(standing, speeds, fast) if states is None else list(states)
    have = [(speed, state) for speed, state in zip(speeds, found, strict=True) if state is not None]
    lost = tuple(speed for speed, state in zip(speeds, found, strict=True) if state is None)
    kept = tuple(speed for speed, _ in have)
    bands = bands_of(wanted_at(goal, kept, take_off))
    if not any(state.state == "flying" for _, state in have):
        now, none = dict(standing.settings), (None, None, (), ())
        outcome = SOLVED if have else NO_BALANCE
        return Choice(outcome, now, kept, lost, bands, *none, NO_FLIGHT, (), 0, 0, False, None)
    roles = roles_of(standing)
    heights = tuple(state.height for _, state in have)
    trims = tuple(state.trim for _, state in have)
    flew = tuple(state.state == "flying" for _, state in have)
    margins = [state.margins for _, state in have]
    present = judged(standing.settings, {}, roles, goal, bands, heights, trims, margins, heights, flew)
    locals_ = [local_at(standing, speed, state.height, state.trim) for speed, state in have]
    by_state = tuple(local.by_state for local in locals_)
    search = Search(standing, goal, kept, bands, roles, present, flew, fast, by_state, locals_[0].case)

    def ended(why: str, doubts: Sequence[tuple[float, float]] = (), counts: Counts = (1, 1, True)) -> Choice:
        settings = present.settings
        return Choice(
            SOLVED, settings, kept, lost, bands, present, present, (), (), why, tuple(doubts), *counts, found
        )

    if present.miss == 0.0:
        return ended(INSIDE)
    if may_be_known(goal, bands, present):
        doubts = doubts_of(standing, locals_, bands_of_numbers or {})
        if inside_what_is_known(goal, bands, present, doubts):
            return ended(KNOWN, doubts)
    names = [a.name for a in standing.adjusters if movable is None or a.name in movable]
    search = search._replace(reach=reach_of(standing, locals_, names, fast))
    best, tried, scored, proved = searched(search, names, RUNNERS_UP)
    for one in best:
        if one.total >= present.total:
            break
        moves = in_order(search, one)
        after = None if moves is None else _found_again(search, one)
        if moves is None or after is None:
            continue
        others = _others(best, one, present)
        return Choice(
            SOLVED, one.settings, kept, lost, bands, present, one, moves, others, CHANGED, (), scored, tried,
            proved, after,
        )  # fmt: skip
    return ended(NOTHING_BETTER, (), (scored, tried, proved))


def roles_of(standing: Standing) -> dict[str, str]:
    """What each adjuster is for."""
    names = row_names((len(standing.row) - N_SCALARS) // LINK_SIZE)
    return {adjuster.name: role_of(adjuster, names) for adjuster in standing.adjusters}


def _found_again(search: Search, one: Judged) -> list[Steady | None] | None:
    """The states of a setting solved from nothing, where they are those that it was judged by."""
    states = flown(search.standing._replace(settings=one.settings), search.speeds, search.fast)
    full = judge_states(search, one.settings, states)
    same = full is not None and bool(
        np.abs(np.array(full.heights) - np.array(one.heights)).max() < SAME
        and np.abs(np.array(full.trims) - np.array(one.trims)).max() < SAME
    )
    return states if same else None


def _others(best: Sequence[Judged], chosen: Judged, present: Judged) -> tuple[Judged, ...]:
    """The next best settings, each moving other adjusters, and all better than the present."""
    sets = [frozenset(chosen.changes)]
    found: list[Judged] = []
    for one in best:
        if one.total < present.total and frozenset(one.changes) not in sets and len(found) < RUNNERS_UP:
            sets.append(frozenset(one.changes))
            found.append(one)
    return tuple(found)
