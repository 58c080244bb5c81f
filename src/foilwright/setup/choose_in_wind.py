"""Three clearly different settings for a day: easiest take-off, steadiest, fastest; and how sure that is.

Every setting is judged over the same samples of the day's wind, the sailor's hand and the boat's doubt. A
unit of a goal is one percent of the day spent safely at the height wanted; what a goal is named after adds to
that, and every change costs a little, so that a setting must be worth its turning.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from foilwright.setup.choose import roles_of
from foilwright.setup.judge import change_cost
from foilwright.setup.over_samples import Ground, Seen, Setting, seen
from foilwright.setup.search_in_wind import enumerated, ranges_of, searched

EASIEST, STEADIEST, FASTEST = "easiest take-off", "steadiest", "fastest"
GOALS = (EASIEST, STEADIEST, FASTEST)

EASY_SHARE, FAST_SHARE = 0.35, 0.25  # of a percent of the day, where the goal is another
EASY_UNITS = 40.0  # for taking off one m/s of boat speed earlier
FAST_UNITS = 2000.0  # for less drag, as a share of the weight
TOO_HIGH_UNITS = 400.0  # for each metre above the band, where a learner would be taken higher than now
APART_HEIGHT, APART_TAKE_OFF, APART_DRAG, APART_SHARE = 0.02, 0.06, 0.003, 0.04  # [m, m/s, -, -]
MOST_GIVEN_UP = 0.05  # of the day: nothing is suggested that is less often safe than the present by more
WORTH_IT = 0.03  # of the day: a smaller gain is no reason to turn anything
SURE, LIKELY, PERHAPS = 0.9, 0.75, 0.6
NOT_KNOWN_SPREAD = 0.25  # of the share of the day from one credible boat to the next

CHANGE_NOTHING, CHANGE, MEASURE_FIRST, NO_FLIGHT = "change nothing", "change", "measure first", "no flight"


class Suggestion(NamedTuple):
    """One suggestion: what it is for, the setting, how it does, and what it gives up to the others.

    changes   adjusters that move, steps from where they stand
    later     how much later than the easiest it takes off [m/s]
    less      share of the day that it is less often safely at its height than the steadiest
    slower    how much more drag than the fastest, as a share of that
    """

    name: str
    seen: Seen
    changes: Mapping[str, float]
    later: float
    less: float
    slower: float


class ChoiceInWind(NamedTuple):
    """What was chosen for the day and why.

    advice      change nothing, change, measure first, no flight
    present     how the present setting does
    suggested   the three, or fewer where no others are clearly different
    better      share of the credible boats for which the steadiest is no worse than the present, 0 to 1
    gains       share of them for which it is better; the others do as well, or as badly, either way
    spread      of the share of the day over the credible boats, one standard deviation
    tried, possible  settings judged, and settings there are
    """

    advice: str
    present: Seen
    suggested: tuple[Suggestion, ...]
    better: float
    gains: float
    spread: float
    tried: int
    possible: int


def choose_in_wind(
    ground: Ground,
    learner: bool,
    movable: Sequence[str],
    all_of_them: bool = False,
) -> ChoiceInWind:
    """The three suggestions for the day.

    learner  nothing may take the boat above its band further than it goes now
    movable  the adjusters that may be touched;  all_of_them  enumerate in place of searching
    """
    ranges = ranges_of(ground.standing.adjusters, ground.present, movable)
    found: dict[Setting, Seen] = {}
    roles = roles_of(ground.standing)

    def judge(settings: Sequence[Setting]) -> list[tuple[float, ...]]:
        values = []
        for one in seen(ground, settings):
            found[one.setting] = one
            now = found[ground.present]
            values.append(_values(ground, one, now, roles, learner))
        return values

    judge([ground.present])
    known = (
        enumerated(ranges, ground.present, judge) if all_of_them else searched(ranges, ground.present, judge)
    )
    suggested = _different(ground, known, found)
    present = found[ground.present]
    steady = next(one for one in suggested if one.name == STEADIEST)
    better, gains, spread = confidence(steady.seen, present)
    possible = int(np.prod([len(steps) for steps in ranges]))
    advice = _advice(steady, present, better, gains, spread)
    return ChoiceInWind(advice, present, suggested, better, gains, spread, len(known), possible)


def confidence(one: Seen, present: Seen) -> tuple[float, float, float]:
    """Shares of the credible boats for which a setting is no worse, and is better; the day's spread there."""
    better = float(np.mean(one.by_boat >= present.by_boat - 1e-9))
    gains = float(np.mean(one.by_boat > present.by_boat + 1e-9))
    return better, gains, float(one.by_boat.std())


def sure_words(better: float) -> str:
    """Confidence in a word."""
    for least, word in ((SURE, "very likely"), (LIKELY, "likely"), (PERHAPS, "perhaps")):
        if better >= least:
            return word
    return "not known"


def _values(
    ground: Ground,
    one: Seen,
    present: Seen,
    roles: Mapping[str, str],
    learner: bool,
) -> tuple[float, ...]:
    """How good a setting is for each goal, in percent of the day."""
    cost = sum(
        change_cost(roles[name], to - at)
        for name, to, at in zip(ground.names, one.setting, ground.present, strict=True)
        if to != at
    )
    if learner:
        cost += TOO_HIGH_UNITS * max(one.too_high - max(present.too_high, 0.0), 0.0)
    safe = 100.0 * one.safe + 10.0 * one.flies - 20.0 * one.spread
    earlier = present.take_off - one.take_off
    easy = EASY_UNITS * float(np.clip(earlier if np.isfinite(earlier) else 0.0, -2.0, 2.0))
    easy = -100.0 if not np.isfinite(one.take_off) else easy
    fast = FAST_UNITS * (present.drag - one.drag) if np.isfinite(present.drag - one.drag) else 0.0
    return EASY_SHARE * safe + easy - cost, safe - cost, FAST_SHARE * safe + fast - cost


def _different(
    ground: Ground,
    known: Mapping[Setting, tuple[float, ...]],
    found: Mapping[Setting, Seen],
) -> tuple[Suggestion, ...]:
    """The best for each goal, the steadiest first, each clearly different from those before it."""
    taken: dict[str, Setting] = {}
    least_safe = found[ground.present].safe - MOST_GIVEN_UP
    takes_off = bool(np.isfinite(found[ground.present].take_off))
    # The present setting is always among them, so that there always is a steadiest.
    allowed = [
        one
        for one in known
        if found[one].safe >= least_safe and (np.isfinite(found[one].take_off) or not takes_off)
    ]
    for name in (STEADIEST, EASIEST, FASTEST):
        goal = GOALS.index(name)
        order = sorted(allowed, key=lambda one: (-known[one][goal], one))
        best = known[order[0]][goal]
        for one in order:
            if known[one][goal] < best - 15.0:
                break
            if all(_apart(found[one], found[other]) for other in taken.values()):
                taken[name] = one
                break
    earliest = min(found[one].take_off for one in taken.values())
    most = max(found[one].safe for one in taken.values())
    least = min(found[one].drag for one in taken.values())
    suggestions = []
    for name in GOALS:
        if name not in taken or not _keeps_its_name(name, found[taken[name]], earliest, least):
            continue
        best_one = found[taken[name]]
        changes = {
            adjuster: to - now
            for adjuster, to, now in zip(ground.names, best_one.setting, ground.present, strict=True)
            if to != now
        }
        suggestions.append(
            Suggestion(
                name, best_one, changes,
                best_one.take_off - earliest if np.isfinite(best_one.take_off) else 0.0,
                most - best_one.safe,
                best_one.drag / least - 1.0 if np.isfinite(best_one.drag) and least > 0.0 else 0.0,
            )
        )  # fmt: skip
    return tuple(suggestions)


def _keeps_its_name(name: str, one: Seen, earliest: float, least: float) -> bool:
    """Whether a suggestion is the best of the three at what it is named after; the steadiest always."""
    return {
        EASIEST: not np.isfinite(earliest) or one.take_off <= earliest + 1e-9,
        STEADIEST: True,
        FASTEST: not np.isfinite(least) or one.drag <= least + 1e-9,
    }[name]


def _apart(one: Seen, other: Seen) -> bool:
    """Whether somebody would feel or see the difference between two settings."""
    earlier = one.take_off - other.take_off
    drag = one.drag - other.drag
    return bool(
        abs(one.mean - other.mean) > APART_HEIGHT
        or (np.isfinite(earlier) and abs(earlier) > APART_TAKE_OFF)
        or abs(drag) > APART_DRAG
        or abs(one.safe - other.safe) > APART_SHARE
    )


def _advice(steady: Suggestion, present: Seen, better: float, gains: float, spread: float) -> str:
    # Gains, not `better`: the less is known, the more boats there are that neither setting keeps at height.
    gain = steady.seen.safe - present.safe
    if not steady.changes or gain < WORTH_IT:
        return CHANGE_NOTHING
    if gains < LIKELY and spread > NOT_KNOWN_SPREAD:
        return MEASURE_FIRST
    return CHANGE if better >= PERHAPS else CHANGE_NOTHING
