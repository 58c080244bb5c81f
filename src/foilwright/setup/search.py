"""The search for a setting: solves the best scored ones until none that is left could do better."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

import numpy as np

from foilwright.flight.at_speed import case_of, described, scratch
from foilwright.measures import Floats
from foilwright.setup.adjusters import turned
from foilwright.setup.effects import Effect
from foilwright.setup.goals import Goal
from foilwright.setup.judge import Bands, Judged, judged
from foilwright.setup.score import Alone, alone_of, score
from foilwright.setup.standing import Standing, flown, near

MOST_SOLVED = 96  # settings solved at the most
ROUND = 12
RUNNER_UNITS = 3.0  # how much worse than the best a setting may be and still be kept as a runner-up

Changes = tuple[tuple[str, float], ...]


class Search(NamedTuple):
    """What a search stands on: the boat, the goal at each speed, and how the present setting does."""

    standing: Standing
    goal: Goal
    speeds: tuple[float, ...]
    bands: Bands
    roles: Mapping[str, str]
    present: Judged
    flew: tuple[bool, ...]
    fast: bool


def searched(
    search: Search, table: Sequence[Effect], names: Sequence[str]
) -> tuple[list[Judged], int, int, bool]:
    """Judged settings, the best first; how many were solved and scored, and whether the search is proved."""
    alone = [_alone(search, table, name) for name in names]
    scored = score(search.bands, search.present, search.roles, names, alone)
    order = np.argsort(scored.totals, kind="stable")
    left_at_best = np.minimum.accumulate(scored.at_best[order][::-1])[::-1] if len(order) else np.zeros(0)
    known: dict[Changes, Judged] = {}
    limit = search.present.total
    tried = position = 0
    while position < len(order) and tried < MOST_SOLVED and left_at_best[position] < limit:
        batch = [int(i) for i in order[position : position + ROUND] if scored.at_best[i] < limit]
        position += ROUND
        tried += len(batch)
        _solve(search, [(scored.changes(i), scored.heights[i], scored.trims[i]) for i in batch], known)
        limit = min([limit, *(one.total for one in known.values())])
    proved = position >= len(order) or bool(left_at_best[position] >= limit)
    tried += _neighbours(search, known)
    return sorted(known.values(), key=lambda one: (one.total, len(one.changes))), tried, len(order), proved


def _alone(search: Search, table: Sequence[Effect], name: str) -> Alone:
    """One adjuster alone, from its effects at the speeds of the search."""
    [adjuster] = [a for a in search.standing.adjusters if a.name == name]
    mine = {effect.speed: effect for effect in table if effect.adjuster == name}
    at = search.standing.settings.get(name, 0.0)
    return alone_of(adjuster, at, [mine[speed] for speed in search.speeds])


def _neighbours(search: Search, known: dict[Changes, Judged]) -> int:
    """Tries one step either way around the best setting until none is better: how many were solved."""
    tried = 0
    limits = {a.name: (a.least, a.greatest) for a in search.standing.adjusters}
    while known:
        best = min(known.values(), key=lambda one: one.total)
        if best.total >= search.present.total:
            break
        fresh = []
        for changes in _around(best.changes):
            at = {name: search.present.settings[name] + steps for name, steps in changes.items()}
            inside = all(limits[name][0] <= steps <= limits[name][1] for name, steps in at.items())
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
    search: Search,
    asked: Sequence[tuple[Mapping[str, float], Floats, Floats]],
    known: dict[Changes, Judged],
) -> None:
    """Solves and judges settings near their predicted states; those that raise it too far are dropped."""
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
        solved_h = [state[0] for state in states if state is not None]
        solved_t = [state[1] for state in states if state is not None]
        rough = _judge(search, settings[k], changes, solved_h, solved_t, None)
        limit = min([search.present.total, *(one.total for one in known.values())])
        if rough.raises or rough.total > limit + RUNNER_UNITS:
            continue
        margins = _margins(search, rows[k * len(speeds)], solved_h, solved_t)
        known[tuple(sorted(changes.items()))] = _judge(
            search, settings[k], changes, solved_h, solved_t, margins
        )


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


def _margins(
    search: Search, row: Floats, heights: Sequence[float], trims: Sequence[float]
) -> list[Mapping[str, float | None]]:
    standing = search.standing
    case = case_of(row, standing.tables, standing.water, 1.0, standing.heel)
    items = scratch().items
    return [
        described(case._replace(speed=float(speed)), height, trim, True, items).margins
        for speed, height, trim in zip(search.speeds, heights, trims, strict=True)
    ]


def judge_in_full(search: Search, settings: Mapping[str, float]) -> Judged | None:
    """One setting solved from nothing at every speed and judged; None where a speed has no state."""
    states = flown(search.standing._replace(settings=settings), search.speeds, search.fast)
    kept = [state for state in states if state is not None]
    if len(kept) < len(states):
        return None
    present = search.present.settings
    changes = {name: steps - present[name] for name, steps in settings.items() if steps != present[name]}
    heights, trims = [state.height for state in kept], [state.trim for state in kept]
    return _judge(search, settings, changes, heights, trims, [state.margins for state in kept])
