"""The search for settings over a day's samples: whole steps, from the present setting outwards.

Every adjuster is first swept alone; then the best few settings for each goal are surrounded, one and two
adjusters moved a step or two, until no neighbour is better; never more than three adjusters from where they
stand. `enumerated` tries every setting there is: the
referee of the search where there are few.
"""

from collections.abc import Callable, Iterable, Sequence
from itertools import combinations, product

from foilwright.setup.adjusters import Adjuster
from foilwright.setup.over_samples import Setting
from foilwright.setup.score import whole_steps

KEPT = 4  # settings a goal whose surroundings are tried
MOST_TRIED = 2400
MOST_CHANGES = 3  # adjusters moved from where they stand
NEAR = (-2.0, -1.0, 1.0, 2.0)
NEXT = (-1.0, 1.0)

Judge = Callable[[Sequence[Setting]], Sequence[tuple[float, ...]]]
"""Settings -> one value a goal for each, the greater the better."""


def ranges_of(adjusters: Sequence[Adjuster], present: Setting, movable: Iterable[str]) -> list[list[float]]:
    """Where each adjuster may stand: every whole step of its range, or only where it is."""
    free = set(movable)
    return [
        sorted({*whole_steps(adjuster), at}) if adjuster.name in free else [at]
        for adjuster, at in zip(adjusters, present, strict=True)
    ]


def searched(
    ranges: Sequence[Sequence[float]], present: Setting, judge: Judge
) -> dict[Setting, tuple[float, ...]]:
    """Every setting tried, with its values; the best for each goal among them."""
    known: dict[Setting, tuple[float, ...]] = {}
    _try(known, [present, *_swept(ranges, present)], judge)
    goals = range(len(known[present]))
    done: set[Setting] = set()
    while len(known) < MOST_TRIED:
        centres = [one for goal in goals for one in _best(known, goal) if one not in done]
        if not centres:
            break
        fresh: list[Setting] = []
        for one in dict.fromkeys(centres):
            done.add(one)
            fresh += [near for near in _around(ranges, one) if changed(near, present) <= MOST_CHANGES]
        _try(known, fresh, judge)
    return known


def enumerated(
    ranges: Sequence[Sequence[float]], present: Setting, judge: Judge
) -> dict[Setting, tuple[float, ...]]:
    """Every setting there is, with its values."""
    known: dict[Setting, tuple[float, ...]] = {}
    _try(known, [one for one in product(*ranges) if changed(one, present) <= MOST_CHANGES], judge)
    return known


def changed(setting: Setting, present: Setting) -> int:
    """How many adjusters a setting moves."""
    return sum(1 for to, at in zip(setting, present, strict=True) if to != at)


def _try(known: dict[Setting, tuple[float, ...]], settings: Iterable[Setting], judge: Judge) -> None:
    fresh = [one for one in dict.fromkeys(settings) if one not in known]
    for one, values in zip(fresh, judge(fresh), strict=True):
        known[one] = values


def _best(known: dict[Setting, tuple[float, ...]], goal: int) -> list[Setting]:
    return sorted(known, key=lambda one: (-known[one][goal], one))[:KEPT]


def _swept(ranges: Sequence[Sequence[float]], at: Setting) -> list[Setting]:
    return [(*at[:k], to, *at[k + 1 :]) for k, steps in enumerate(ranges) for to in steps]


def _around(ranges: Sequence[Sequence[float]], at: Setting) -> list[Setting]:
    """One adjuster a step or two either way; two adjusters a step each; inside the ranges."""
    found = []
    for k in range(len(at)):
        found += [_moved(at, {k: by}) for by in NEAR]
    for one, other in combinations(range(len(at)), 2):
        found += [_moved(at, {one: a, other: b}) for a in NEXT for b in NEXT]
    return [one for one in found if all(s in steps for s, steps in zip(one, ranges, strict=True))]


def _moved(at: Setting, by: dict[int, float]) -> Setting:
    return tuple(s + by.get(k, 0.0) for k, s in enumerate(at))
