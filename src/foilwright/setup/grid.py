"""The three-by-three grid of first changes: low, right or high by bow down, level or bow up.

The coach's grid (common practice, no source): people first, then the bow, then the height. Each place of it
asks for a change of height and of bow; which adjuster gives it, which way and how far follow from this boat's
own effects, so that a rod that works the other way round, or a boat without a rod or without rake, comes out
right by itself.
"""

from collections.abc import Mapping, Sequence
from math import radians
from typing import NamedTuple

from foilwright.setup.adjusters import Adjuster
from foilwright.setup.effects import Change
from foilwright.setup.order import BOW, HEIGHT, PLACE, SPREAD

LOW, RIGHT, HIGH = "low", "right", "high"
BOW_DOWN, LEVEL, BOW_UP = "bow_down", "level", "bow_up"
HEIGHTS, BOWS = (LOW, RIGHT, HIGH), (BOW_DOWN, LEVEL, BOW_UP)

HEIGHT_ASKED = 0.05  # what one change of height is meant to do [m]: a hand's width
BOW_ASKED = radians(0.5)  # and one of the bow [rad]
LEAST_BOW = radians(0.1)  # a step that turns the bow less than this is no change of the bow
LEAST_HEIGHT = 0.005  # likewise of the height [m]
MOST_STEPS = {PLACE: 2.0, BOW: 3.0, HEIGHT: 3.0, SPREAD: 1.0}

POWER = "look for drag and power"
LOOK_AGAIN = "look again"
NOTHING = "change nothing"


class Turn(NamedTuple):
    """One change of the grid: an adjuster by whole steps, and what that is expected to do [m, rad]."""

    adjuster: str
    steps: float
    height: float
    trim: float


class Entry(NamedTuple):
    """One place of the grid: what to do first, what then, and words of advice beside them."""

    first: Turn | None
    then: Turn | None
    advice: tuple[str, ...]


Asked = tuple[
    str, float
]  # what for (PLACE, BOW or HEIGHT), and whether bow up / higher (+1) or the other way (-1)

RECIPES: dict[tuple[str, str], tuple[tuple[str, ...], tuple[Asked, ...]]] = {
    (LOW, BOW_DOWN): ((), ((PLACE, 1.0), (BOW, 1.0))),
    (LOW, LEVEL): ((), ((HEIGHT, 1.0),)),
    (LOW, BOW_UP): ((POWER,), ((HEIGHT, 1.0), (BOW, -1.0))),
    (RIGHT, BOW_DOWN): ((), ((BOW, 1.0), (HEIGHT, -1.0))),
    (RIGHT, LEVEL): ((NOTHING,), ()),
    (RIGHT, BOW_UP): ((), ((PLACE, -1.0), (HEIGHT, 1.0))),
    (HIGH, BOW_DOWN): ((LOOK_AGAIN,), ((HEIGHT, -1.0), (BOW, 1.0))),
    (HIGH, LEVEL): ((), ((HEIGHT, -1.0),)),
    (HIGH, BOW_UP): ((LOOK_AGAIN,), ((PLACE, -1.0), (BOW, -1.0))),
}
"""Advice, and the changes in their order. Without a place to move the rake takes over, and the other way."""


def grid(
    slopes: Mapping[str, Change],
    adjusters: Sequence[Adjuster],
    roles: Mapping[str, str],
    settings: Mapping[str, float],
) -> dict[tuple[str, str], Entry]:
    """The grid from the effect of one step at one speed; empty turns where no adjuster does what is asked."""
    found = {}
    for place, (advice, asked) in RECIPES.items():
        turns: list[Turn] = []
        for i, wanted in enumerate(asked):
            turn = _turn(wanted, slopes, adjusters, roles, settings, [one.adjuster for one in turns])
            if turn is not None:
                turns.append(turn)
            elif i == 0 and place[0] == RIGHT:
                break  # what comes after only puts right what the first change spoils
        if not turns and place[0] != RIGHT:
            turn = _turn((HEIGHT, 1.0 if place[0] == LOW else -1.0), slopes, adjusters, roles, settings, ())
            turns += [turn] if turn is not None else []
        first, then = (*turns, None, None)[:2]
        found[place] = Entry(first, then, advice)
    return found


def _turn(
    asked: Asked,
    slopes: Mapping[str, Change],
    adjusters: Sequence[Adjuster],
    roles: Mapping[str, str],
    settings: Mapping[str, float],
    taken: Sequence[str],
) -> Turn | None:
    """The adjuster of this boat that does best what is asked, with its steps."""
    what = asked[0]
    likely = {PLACE: ((PLACE,), (BOW,)), BOW: ((BOW,), (PLACE,)), HEIGHT: ((HEIGHT,), (SPREAD,))}[what]
    for wanted in likely:
        turns = []
        for adjuster in adjusters:
            slope = slopes.get(adjuster.name)
            if slope is None or roles[adjuster.name] not in wanted or adjuster.name in taken:
                continue
            turn = _steps(adjuster, settings.get(adjuster.name, 0.0), slope, asked, MOST_STEPS[wanted[0]])
            if turn is not None:
                turns.append(turn)
        if turns:
            # The one that comes nearest to what is meant, then the one with fewest steps.
            return min(turns, key=lambda turn: (_off(turn, what == HEIGHT), abs(turn.steps)))
    return None


def _steps(adjuster: Adjuster, at: float, slope: Change, asked: Asked, most: float) -> Turn | None:
    height = asked[0] == HEIGHT
    per_step = slope.height if height else slope.trim
    if abs(per_step) < (LEAST_HEIGHT if height else LEAST_BOW):
        return None
    meant = HEIGHT_ASKED if height else BOW_ASKED
    way = asked[1] if per_step > 0.0 else -asked[1]
    steps = way * round(min(max(meant / abs(per_step), 1.0), most))
    room = adjuster.greatest - at if steps > 0 else at - adjuster.least
    steps = min(abs(steps), float(int(room + 1e-9))) * (1.0 if steps > 0 else -1.0)
    if steps == 0.0:
        return None
    return Turn(adjuster.name, steps, steps * slope.height, steps * slope.trim)


def _off(turn: Turn, height: bool) -> float:
    share = turn.height / HEIGHT_ASKED if height else turn.trim / BOW_ASKED
    return round(abs(abs(share) - 1.0), 1)
