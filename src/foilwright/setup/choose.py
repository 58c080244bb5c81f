"""Which adjusters to turn, by whole steps, for a goal over a range of speeds: as few as possible, people first.

Every setting up to three changes away is scored with the effects (slope and curvature of each adjuster, added
up); the best of them are solved in full, in the order of their scores, until no setting that is left could do
better even if its score were as wrong as is allowed for. Then the neighbours of the winner are tried.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, permutations
from typing import NamedTuple

import numpy as np

from foilwright.flight.at_speed import Steady, case_of, described, scratch
from foilwright.flight.boat import N_SCALARS, row_names
from foilwright.linkage.chain import LINK_SIZE
from foilwright.measures import Floats
from foilwright.outcomes import NO_BALANCE, SOLVED
from foilwright.setup.adjusters import Adjuster, turned
from foilwright.setup.effects import Effect, doubt, effects, local_at
from foilwright.setup.goals import Goal, wanted_at
from foilwright.setup.judge import Bands, Judged, band_miss, bands_of, change_cost, inside_what_is_known, judged
from foilwright.setup.order import place_in_order, role_of
from foilwright.setup.standing import Standing, flown, near

MOST_CHANGES = 3
MOST_SOLVED = 96  # settings solved in full at the most
ROUND = 12
SCORE_SHARE = 0.25  # how wrong a predicted change of height or trim may be, as a share of it ...
SCORE_HEIGHT, SCORE_TRIM = 0.004, 0.001  # ... and beside that [m, rad]
SAME = 1e-3  # a state found again in full is the same within this [m, rad]
RUNNERS_UP = 2

INSIDE, KNOWN, NOTHING_BETTER, CHANGED, NO_FLIGHT = (
    "inside", "inside what is known", "nothing better", "changed", "no flight"
)  # fmt: skip


class Move(NamedTuple):
    """One change in its turn: by how many steps, to which setting, and what it does at each speed [m, rad]."""

    adjuster: str
    role: str
    steps: float
    setting: float
    heights: tuple[float, ...]
    trims: tuple[float, ...]


class Choice(NamedTuple):
    """What was chosen and why.

    speeds      those that have a state at present [m/s]; lost  those that have none
    moves       the changes in the order to make them
    why         inside, inside what is known, nothing better, changed, or no flight
    doubts      how sure height and trim are at each speed [m, rad]
    scored, solved  how many settings were scored, and how many of them solved
    proved      no setting left unsolved could do better, as far as the scores can be trusted
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


class _Search(NamedTuple):
    standing: Standing
    goal: Goal
    speeds: tuple[float, ...]
    bands: Bands
    roles: Mapping[str, str]
    present: Judged
    fast: bool


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
    if not have:
        return Choice(
            NO_BALANCE, dict(standing.settings), kept, lost, bands, None, None, (), (), NO_FLIGHT, (), 0, 0, False
        )
    roles = roles_of(standing)
    heights = tuple(state.height for _, state in have)
    trims = tuple(state.trim for _, state in have)
    present = judged(
        standing.settings, {}, roles, goal, bands, heights, trims, [state.margins for _, state in have], heights
    )
    doubts = _doubts(standing, have, bands_of_numbers or {})
    search = _Search(standing, goal, kept, bands, roles, present, fast)

    def ended(chosen: Judged, moves: tuple[Move, ...], others: tuple[Judged, ...], why: str, counts: tuple[int, int, bool]) -> Choice:
        return Choice(
            SOLVED, chosen.settings, kept, lost, bands, present, chosen, moves, others, why, doubts, *counts
        )

    if present.miss == 0.0:
        return ended(present, (), (), INSIDE, (1, 1, True))
    if inside_what_is_known(goal, bands, present, doubts):
        return ended(present, (), (), KNOWN, (1, 1, True))
    table = effects(standing, have, fast)
    names = [a.name for a in standing.adjusters if movable is None or a.name in movable]
    best, tried, scored, proved = _searched(search, table, names)
    for one in best:
        if one.total >= present.total:
            break
        moves = _in_order(search, one)
        if moves is None or not _found_again(search, one):
            continue
        others = _others(best, one)
        return ended(one, moves, others, CHANGED, (scored, tried, proved))
    return ended(present, (), _others(best, present), NOTHING_BETTER, (scored, tried, proved))


def roles_of(standing: Standing) -> dict[str, str]:
    """What each adjuster is for."""
    names = row_names((len(standing.row) - N_SCALARS) // LINK_SIZE)
    return {adjuster.name: role_of(adjuster, names) for adjuster in standing.adjusters}


def judge_in_full(
    standing: Standing, goal: Goal, bands: Bands, speeds: Sequence[float], present: Judged, settings: Mapping[str, float], fast: bool
) -> Judged | None:
    """One setting solved from nothing at every speed and judged; None where a speed has no state."""
    states = flown(standing._replace(settings=settings), speeds, fast)
    if any(state is None for state in states):
        return None
    kept = [state for state in states if state is not None]
    changes = {
        name: steps - present.settings[name]
        for name, steps in settings.items()
        if steps != present.settings[name]
    }
    return judged(
        settings, changes, roles_of(standing), goal, bands, [s.height for s in kept], [s.trim for s in kept],
        [s.margins for s in kept], present.heights,
    )  # fmt: skip


def _doubts(
    standing: Standing, have: Sequence[tuple[float, Steady]], bands: Mapping[str, float]
) -> tuple[tuple[float, float], ...]:
    return tuple(doubt(standing, local_at(standing, v, s.height, s.trim), bands) for v, s in have)


# Scoring ---------------------------------------------------------------------------------------------------


class _Scored(NamedTuple):
    """Settings scored: their changes, predicted states, totals, and totals if the score is as wrong as may be."""

    changes: list[dict[str, float]]
    heights: Floats
    trims: Floats
    totals: Floats
    at_best: Floats


def _score(search: _Search, table: Sequence[Effect], names: Sequence[str]) -> _Scored:
    """Every setting from one to MOST_CHANGES changes away."""
    alone = {name: _predicted(search, table, name) for name in names}
    roles = search.roles
    present_h, present_t = np.array(search.present.heights), np.array(search.present.trims)
    changes: list[dict[str, float]] = []
    parts: list[tuple[Floats, Floats, Floats, Floats]] = []
    for count in range(1, MOST_CHANGES + 1):
        for names_moved in combinations(names, count):
            if any(len(alone[name][0]) == 0 for name in names_moved):
                continue
            grids = np.meshgrid(*(np.arange(len(alone[name][0])) for name in names_moved), indexing="ij")
            picks = [grid.ravel() for grid in grids]
            dh = [alone[name][1][pick] for name, pick in zip(names_moved, picks, strict=True)]
            dt = [alone[name][2][pick] for name, pick in zip(names_moved, picks, strict=True)]
            h, t = present_h + sum(dh), present_t + sum(dt)
            slack_h = SCORE_HEIGHT + SCORE_SHARE * np.sum(np.abs(dh), axis=0)
            slack_t = SCORE_TRIM + SCORE_SHARE * np.sum(np.abs(dt), axis=0)
            steps = [alone[name][0][pick] for name, pick in zip(names_moved, picks, strict=True)]
            cost = np.zeros(len(picks[0]))
            for name, moved in zip(names_moved, steps, strict=True):
                cost += change_cost(roles[name], 0.0) + (change_cost(roles[name], 1.0) - change_cost(roles[name], 0.0)) * np.abs(moved)
            nothing = np.zeros_like(h)
            parts.append(
                (h, t, cost + band_miss(search.bands, h, t, nothing, nothing), cost + band_miss(search.bands, h, t, slack_h, slack_t))
            )
            changes += [dict(zip(names_moved, map(float, row), strict=True)) for row in zip(*steps, strict=True)]
    if not parts:
        none = np.zeros((0, len(search.speeds)))
        return _Scored([], none, none, np.zeros(0), np.zeros(0))
    return _Scored(changes, *(np.concatenate([part[i] for part in parts]) for i in range(4)))


def _predicted(search: _Search, table: Sequence[Effect], name: str) -> tuple[Floats, Floats, Floats]:
    """An adjuster alone: every other whole setting as steps from the present, with changes of height and trim.

    Slope and curvature, where both steps were solved; curvature never more than half of what the slope does.
    """
    [adjuster] = [a for a in search.standing.adjusters if a.name == name]
    at = search.standing.settings.get(name, 0.0)
    steps = np.array([s - at for s in whole_steps(adjuster) if abs(s - at) > 1e-9])
    heights, trims = [], []
    for speed in search.speeds:
        [effect] = [e for e in table if e.speed == speed and e.adjuster == name]
        for quantity, out in (("height", heights), ("trim", trims)):
            slope = getattr(effect.slope, quantity)
            straight = slope * steps
            bend = np.zeros_like(steps)
            if effect.more is not None and effect.less is not None:
                second = getattr(effect.more, quantity) + getattr(effect.less, quantity)
                bend = np.clip(0.5 * second * steps**2, -0.5 * np.abs(straight), 0.5 * np.abs(straight))
            out.append(straight + bend)
    return steps, np.array(heights).T.reshape(len(steps), -1), np.array(trims).T.reshape(len(steps), -1)


def whole_steps(adjuster: Adjuster) -> list[float]:
    """The settings that an adjuster can stand at, in whole steps from its mark."""
    return [float(s) for s in range(round(adjuster.least), round(adjuster.greatest) + 1)]


# Solving ---------------------------------------------------------------------------------------------------


def _searched(
    search: _Search, table: Sequence[Effect], names: Sequence[str]
) -> tuple[list[Judged], int, int, bool]:
    """Judged settings, the best first; how many were solved and scored, and whether the search is proved."""
    scored = _score(search, table, names)
    order = np.argsort(scored.totals, kind="stable")
    left_at_best = np.minimum.accumulate(scored.at_best[order][::-1])[::-1] if len(order) else np.zeros(0)
    known: dict[tuple[tuple[str, float], ...], Judged] = {}
    limit = search.present.total
    tried = position = 0
    while position < len(order) and tried < MOST_SOLVED and left_at_best[position] < limit:
        batch = [int(i) for i in order[position : position + ROUND] if scored.at_best[i] < limit]
        position += ROUND
        tried += len(batch)
        _solve(search, [(scored.changes[i], scored.heights[i], scored.trims[i]) for i in batch], known)
        limit = min([limit, *(one.total for one in known.values())])
    proved = position >= len(order) or bool(left_at_best[position] >= limit)
    tried += _neighbours(search, names, known)
    return sorted(known.values(), key=lambda one: (one.total, len(one.changes))), tried, len(order), proved


def _neighbours(search: _Search, names: Sequence[str], known: dict[tuple[tuple[str, float], ...], Judged]) -> int:
    """Tries one step either way around the best setting, until none of them is better: how many were solved."""
    tried = 0
    limits = {a.name: (a.least, a.greatest) for a in search.standing.adjusters}
    while known:
        best = min(known.values(), key=lambda one: one.total)
        if best.total >= search.present.total:
            break
        fresh = []
        for changes in _around(best.changes):
            inside = all(limits[n][0] <= search.present.settings[n] + s <= limits[n][1] for n, s in changes.items())
            if inside and changes and tuple(sorted(changes.items())) not in known:
                fresh.append((changes, np.array(best.heights), np.array(best.trims)))
        tried += len(fresh)
        _solve(search, fresh, known)
        if not fresh or min(known.values(), key=lambda one: one.total) is best:
            break
    return tried


def _around(changes: Mapping[str, float]) -> Iterator[dict[str, float]]:
    for name, steps in changes.items():
        yield {other: s for other, s in changes.items() if other != name}
        for by in (-1.0, 1.0):
            if steps + by != 0.0:
                yield {**changes, name: steps + by}


def _solve(
    search: _Search,
    asked: Sequence[tuple[Mapping[str, float], Floats, Floats]],
    known: dict[tuple[tuple[str, float], ...], Judged],
) -> None:
    """Solves and judges settings near their predicted states; the ones that raise the boat too far are dropped."""
    standing, speeds = search.standing, search.speeds
    rows, starts = [], []
    settings = []
    for changes, heights, trims in asked:
        at = {n: s + changes.get(n, 0.0) for n, s in search.present.settings.items()}
        settings.append(at)
        row = turned(standing.row, standing.adjusters, at)
        rows += [row] * len(speeds)
        starts += [(float(h), float(t)) for h, t in zip(heights, trims, strict=True)]
    ends = near(standing, rows, 1.0, list(speeds) * len(asked), starts, search.fast)
    for k, (changes, _, _) in enumerate(asked):
        states = ends[k * len(speeds) : (k + 1) * len(speeds)]
        if any(state is None for state in states):
            continue
        heights = [state[0] for state in states if state is not None]
        trims = [state[1] for state in states if state is not None]
        rough = _judge(search, settings[k], changes, heights, trims, None)
        limit = min([search.present.total, *(one.total for one in known.values())])
        if rough.raises or rough.total > limit + RUNNER_UNITS:
            continue
        margins = _margins(search, rows[k * len(speeds)], heights, trims)
        known[tuple(sorted(changes.items()))] = _judge(search, settings[k], changes, heights, trims, margins)


RUNNER_UNITS = 3.0  # how much worse than the best a setting may be and still be kept as a runner-up


def _judge(
    search: _Search,
    settings: Mapping[str, float],
    changes: Mapping[str, float],
    heights: Sequence[float],
    trims: Sequence[float],
    margins: Sequence[Mapping[str, float | None]] | None,
) -> Judged:
    return judged(
        settings, changes, search.roles, search.goal, search.bands, heights, trims, margins, search.present.heights
    )


def _margins(
    search: _Search, row: Floats, heights: Sequence[float], trims: Sequence[float]
) -> list[Mapping[str, float | None]]:
    standing = search.standing
    case = case_of(row, standing.tables, standing.water, 1.0, standing.heel)
    items = scratch().items
    return [
        described(case._replace(speed=float(speed)), height, trim, True, items).margins
        for speed, height, trim in zip(search.speeds, heights, trims, strict=True)
    ]


# Order -----------------------------------------------------------------------------------------------------


def _in_order(search: _Search, one: Judged) -> tuple[Move, ...] | None:
    """The changes in the coach's order; in another where a step on the way would raise the boat above its band."""
    names = sorted(one.changes, key=lambda name: (place_in_order(search.roles[name]), name))
    for order in permutations(names):
        moves = _walked(search, one, order)
        if moves is not None:
            return moves
    return None


def _walked(search: _Search, one: Judged, order: Sequence[str]) -> tuple[Move, ...] | None:
    standing, speeds = search.standing, list(search.speeds)
    settings = dict(search.present.settings)
    before = list(zip(search.present.heights, search.present.trims, strict=True))
    moves = []
    for name in order:
        settings[name] = one.settings[name]
        row = turned(standing.row, standing.adjusters, settings)
        if settings == dict(one.settings):
            after: list[tuple[float, float] | None] = list(zip(one.heights, one.trims, strict=True))
        else:
            after = near(standing, [row] * len(speeds), 1.0, speeds, before, search.fast)
        states = [state for state in after if state is not None]
        if len(states) < len(speeds):
            return None
        heights = np.array([state[0] for state in states])
        if np.any(heights > np.maximum(search.bands.high, np.array(search.present.heights)) + 1e-6):
            return None
        moves.append(
            Move(
                name, search.roles[name], one.changes[name], settings[name],
                tuple(b[0] - a[0] for a, b in zip(before, states, strict=True)),
                tuple(b[1] - a[1] for a, b in zip(before, states, strict=True)),
            )
        )  # fmt: skip
        before = states
    return tuple(moves)


def _found_again(search: _Search, one: Judged) -> bool:
    """Whether the setting, solved from nothing, has the states that it was judged by."""
    full = judge_in_full(
        search.standing, search.goal, search.bands, search.speeds, search.present, one.settings, search.fast
    )
    return full is not None and bool(
        np.abs(np.array(full.heights) - np.array(one.heights)).max() < SAME
        and np.abs(np.array(full.trims) - np.array(one.trims)).max() < SAME
    )


def _others(best: Sequence[Judged], chosen: Judged) -> tuple[Judged, ...]:
    """The best settings that move other adjusters than the chosen one and than each other."""
    sets = [frozenset(chosen.changes)]
    found = []
    for one in best:
        if frozenset(one.changes) not in sets and len(found) < RUNNERS_UP:
            sets.append(frozenset(one.changes))
            found.append(one)
    return tuple(found)
