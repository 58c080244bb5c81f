"""The search for a setting: solves the best scored ones until none that is left could do better."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

import numpy as np

from foilwright.compiled import plain
from foilwright.flight.at_speed import Steady, case_of, described, scratch
from foilwright.flight.chain_behaviour import unpacked
from foilwright.flight.trim_at_speed import Case
from foilwright.measures import Floats, Ints
from foilwright.setup.adjusters import turned
from foilwright.setup.goals import Goal
from foilwright.setup.judge import Bands, Judged, change_cost, judged, miss_by_speed
from foilwright.setup.reach import Bend
from foilwright.setup.score import Alone, Scored, alone_of, score
from foilwright.setup.settle import Closing
from foilwright.setup.standing import Standing, flown, near

MOST_SOLVED = 40  # settings solved at the most
ROUND = 6
CLOSE = 1e-8  # of weight: near enough for a total
STILL_OFF = 0.3  # a search is off by no more than this share of the step that it would take next, ...
OFF_TOGETHER = 0.1  # ... and by this share of the other unknown's [m/rad, rad/m]

Changes = tuple[tuple[str, float], ...]


class Search(NamedTuple):
    """What a search stands on: the boat, the goal at each speed, and how the present setting does.

    by_state  slopes of the balance at the present states, by height and trim [2, 2 at each speed]
    case      the present boat, ready for the plain run at any speed
    reach     what each adjuster alone does at each speed; nothing where nobody asked yet
    """

    standing: Standing
    goal: Goal
    speeds: tuple[float, ...]
    bands: Bands
    roles: Mapping[str, str]
    present: Judged
    flew: tuple[bool, ...]
    fast: bool
    by_state: tuple[Floats, ...] = ()
    case: Case | None = None
    reach: Mapping[str, Sequence[Bend]] = {}


class Asked(NamedTuple):
    """A setting to solve: changes from the present, where its states are expected, how wrong that may be."""

    changes: Mapping[str, float]
    heights: Floats
    trims: Floats
    wrong_heights: Floats
    wrong_trims: Floats


class Known(NamedTuple):
    """Settings judged, with their margins, and all that were looked at."""

    judged: dict[Changes, Judged]
    looked: set[Changes]

    def limit(self, search: Search) -> float:
        """The least total of all that are judged, the present setting among them."""
        return min([search.present.total, *(one.total for one in self.judged.values())])


def searched(search: Search, names: Sequence[str], runners: int) -> tuple[list[Judged], int, int, bool]:
    """Judged settings, the best first; how many were solved and scored, and whether the search is proved."""
    alone = [_alone(search, name) for name in names]
    scored = score(search.bands, search.present, search.roles, names, alone)
    order = np.argsort(scored.totals, kind="stable")
    left_at_best = np.minimum.accumulate(scored.at_best[order][::-1])[::-1] if len(order) else np.zeros(0)
    known = Known({}, set())
    limit = search.present.total
    tried = position = 0
    while position < len(order) and tried < MOST_SOLVED and left_at_best[position] < limit:
        batch = [int(i) for i in order[position : position + ROUND] if scored.at_best[i] < limit]
        position += ROUND
        tried += len(batch)
        _solve(search, [_asked(scored, i) for i in batch], known)
        limit = known.limit(search)
    proved = position >= len(order) or bool(left_at_best[position] >= limit)
    tried += _neighbours(search, known)
    if known.judged:
        tried += _runners(search, known, scored, order, runners)
    return sorted(known.judged.values(), key=_rank), tried, len(order), proved


def _asked(scored: Scored, i: int) -> Asked:
    return Asked(
        scored.changes(i), scored.heights[i], scored.trims[i], scored.wrong_heights[i], scored.wrong_trims[i]
    )


def _runners(search: Search, known: Known, scored: Scored, order: Ints, runners: int) -> int:
    """Solves the best scored setting of the next best sets of adjusters: how many were solved."""
    sets = {frozenset(min(known.judged.values(), key=_rank).changes)}
    tried = 0
    for i in order:
        if tried == runners or scored.totals[i] >= search.present.total:
            break
        one = _asked(scored, int(i))
        if frozenset(one.changes) in sets:
            continue
        sets.add(frozenset(one.changes))
        tried += 1
        if _key(one.changes) not in known.judged:
            _solve(search, [one], known, search.present.total)
    return tried


def _alone(search: Search, name: str) -> Alone:
    """One adjuster alone, from what it does at the speeds of the search."""
    [adjuster] = [a for a in search.standing.adjusters if a.name == name]
    return alone_of(adjuster, search.standing.settings.get(name, 0.0), search.reach[name])


def _rank(one: Judged) -> tuple[float, int]:
    return one.total, len(one.changes)


def _neighbours(search: Search, known: Known) -> int:
    """Tries one step either way around the best setting until none is better: how many were solved."""
    tried = 0
    limits = {a.name: (a.least, a.greatest) for a in search.standing.adjusters}
    anywhere = np.full(len(search.speeds), np.inf)
    while known.judged:
        best = min(known.judged.values(), key=_rank)
        if best.total >= search.present.total:
            break
        fresh = []
        for changes in _around(best.changes):
            at = {name: search.present.settings[name] + steps for name, steps in changes.items()}
            inside = all(limits[name][0] <= steps <= limits[name][1] for name, steps in at.items())
            if inside and changes and _key(changes) not in known.looked:
                near_best = np.array(best.heights), np.array(best.trims)
                fresh.append(Asked(changes, *near_best, anywhere, anywhere))
        tried += len(fresh)
        _solve(search, fresh, known)
        if not fresh or min(known.judged.values(), key=_rank) is best:
            break
    return tried


def _around(changes: Mapping[str, float]) -> Iterator[dict[str, float]]:
    for name, steps in changes.items():
        yield {other: s for other, s in changes.items() if other != name}
        for by in (-1.0, 1.0):
            if steps + by != 0.0:
                yield {**changes, name: steps + by}


def _key(changes: Mapping[str, float]) -> Changes:
    return tuple(sorted(changes.items()))


def _solve(search: Search, asked: Sequence[Asked], known: Known, most: float | None = None) -> None:
    """Solves and judges settings near their predicted states; those that raise it too far are dropped.

    Dropped too is what is no better than the best so far, or than `most` where that is given.
    """
    standing, speeds = search.standing, search.speeds
    settings = [{n: s + one.changes.get(n, 0.0) for n, s in search.present.settings.items()} for one in asked]
    rows = [turned(standing.row, standing.adjusters, at) for at in settings]
    flat: list[tuple[float, float] | None] = []
    if search.fast:
        starts = [(float(h), float(t)) for one in asked for h, t in zip(one.heights, one.trims, strict=True)]
        every = [row for row in rows for _ in speeds]
        flat = near(standing, every, 1.0, list(speeds) * len(asked), starts, True)
    for k, one in enumerate(asked):
        known.looked.add(_key(one.changes))
        limit = known.limit(search) if most is None else most
        at = slice(k * len(speeds), (k + 1) * len(speeds))
        states = flat[at] if search.fast else _pursued(search, rows[k], one, limit)
        solved = [state for state in states if state is not None]
        if len(solved) < len(speeds):
            continue
        heights, trims = zip(*solved, strict=True)
        rough = _judge(search, settings[k], one.changes, heights, trims, None)
        if not rough.raises and rough.total < limit:
            known.judged[_key(one.changes)] = _in_full(search, rough)


def _pursued(search: Search, row: Floats, one: Asked, most: float) -> list[tuple[float, float] | None]:
    """The states of one setting, looked at where most is hidden; left off once it is surely above `most`."""
    bands = search.bands
    items = plain(scratch().items)
    base = _case(search)._replace(boat=plain(unpacked(row)))
    cost = sum(change_cost(search.roles[name], steps) for name, steps in one.changes.items())
    searches = [
        Closing(base._replace(speed=speed), float(h), float(t), by_state, items)
        for speed, h, t, by_state in zip(search.speeds, one.heights, one.trims, search.by_state, strict=True)
    ]
    heights, trims = one.heights.copy(), one.trims.copy()
    off_h, off_t = one.wrong_heights.copy(), one.wrong_trims.copy()
    left = np.ones(len(searches), dtype=bool)
    nothing = np.zeros(len(searches))
    while True:
        sure = miss_by_speed(bands, heights, trims, off_h, off_t)
        if cost + float(sure.mean()) >= most:
            break
        if not left.any():
            return [(closing.height, closing.trim) for closing in searches]
        # The speed where a look may bring most to light.
        hidden = miss_by_speed(bands, heights, trims, nothing, nothing) - sure
        i = int(np.argmax(np.where(left, hidden, -1.0)))
        closing = searches[i]
        closing.look()
        found = closing.found(CLOSE)
        if found is False:
            break
        if found:
            heights[i], trims[i], off_h[i], off_t[i] = closing.height, closing.trim, 0.0, 0.0
            left[i] = False
            continue
        step_h, step_t = abs(closing.step_height), abs(closing.step_trim)
        heights[i], trims[i] = closing.height + closing.step_height, closing.trim + closing.step_trim
        off_h[i] = STILL_OFF * step_h + OFF_TOGETHER * step_t
        off_t[i] = STILL_OFF * step_t + OFF_TOGETHER * step_h
    return [None] * len(searches)


def _judge(
    search: Search,
    settings: Mapping[str, float],
    changes: Mapping[str, float],
    heights: Sequence[float],
    trims: Sequence[float],
    margins: Sequence[Mapping[str, float | None]] | None,
) -> Judged:
    before = search.present.heights
    roles, bands, flew = search.roles, search.bands, search.flew
    return judged(settings, changes, roles, search.goal, bands, heights, trims, margins, before, flew)


def _in_full(search: Search, rough: Judged) -> Judged:
    """A setting judged with its margins too."""
    standing = search.standing
    row = turned(standing.row, standing.adjusters, rough.settings)
    case = _case(search)._replace(boat=plain(unpacked(row)))
    items = scratch().items
    margins = [
        described(case._replace(speed=float(speed)), height, trim, True, items).margins
        for speed, height, trim in zip(search.speeds, rough.heights, rough.trims, strict=True)
    ]
    return _judge(search, rough.settings, rough.changes, rough.heights, rough.trims, margins)


def _case(search: Search) -> Case:
    if search.case is not None:
        return search.case
    standing = search.standing
    return case_of(standing.row, standing.tables, standing.water, 1.0, standing.heel)


def judge_in_full(search: Search, settings: Mapping[str, float]) -> Judged | None:
    """One setting solved from nothing at every speed and judged; None where a speed has no state."""
    states = flown(search.standing._replace(settings=settings), search.speeds, search.fast)
    return judge_states(search, settings, states)


def judge_states(
    search: Search, settings: Mapping[str, float], states: Sequence[Steady | None]
) -> Judged | None:
    """One setting judged from its solved states; None where a speed has none."""
    kept = [state for state in states if state is not None]
    if len(kept) < len(states):
        return None
    present = search.present.settings
    changes = {name: steps - present[name] for name, steps in settings.items() if steps != present[name]}
    heights, trims = [state.height for state in kept], [state.trim for state in kept]
    return _judge(search, settings, changes, heights, trims, [state.margins for state in kept])
