"""Right height, bow 2 degrees up: the answer is the sailor forward, or the rake; never the rod or the wand.

And how large what a step does is, on boats near the demo boats, against what coaches say. Common practice, no
source.
"""

from __future__ import annotations

from math import degrees, radians

import numpy as np
import pytest

from foilwright.flight.at_speed import nearby
from foilwright.setup.choose import CHANGED, choose, roles_of
from foilwright.setup.effects import local_at
from foilwright.setup.goals import Goal
from foilwright.setup.grid import BOW_UP, RIGHT, grid
from foilwright.setup.same_as import moved
from foilwright.setup.standing import PULL, names_of
from tests.demo_boats import BOATS, demo_boat
from tests.laws.test_directions import NAMES, RODS, SEEDS, WATER, boat, effect, free, speeds, state, stop

CHOSEN = [*BOATS, *(f"{base} {i}" for base in SEEDS for i in (0, 5, 9))]


@pytest.mark.parametrize("name", NAMES)
def test_the_grid_answers_with_the_sailor_or_the_rake(name):
    """At the middle speed; the change after it gives the height back and comes from the rod or the wand."""
    speed = speeds(name)[1]
    if stop(name, speed):
        return
    it = boat(name)[1]
    slopes = {one: effect(name, one, speed) for one in names_of(it)}
    roles = roles_of(it)
    entry = grid(slopes, it.adjusters, roles, it.settings)[RIGHT, BOW_UP]
    assert entry.first is not None and roles[entry.first.adjuster] in ("place", "bow")
    assert degrees(entry.first.trim) < -0.1
    if entry.first.adjuster == "sailor-aft":
        assert entry.first.steps < 0.0
    assert entry.then is None or roles[entry.then.adjuster] in ("height", "spread")


@pytest.mark.parametrize("name", CHOSEN)
def test_the_choice_answers_with_the_sailor_or_the_rake(name):
    """Asked for the same height with the bow 2 degrees lower; and never with rod and wand alone."""
    it, there = boat(name)[1], state(name, speeds(name)[1])
    goal = Goal(
        "settled", there.height - 0.05, there.height + 0.05,
        there.trim - radians(2.3), there.trim - radians(1.7), {}, True,
    )  # fmt: skip
    choice = choose(it, goal, [there.speed], None, states=[there])
    if choice.why == CHANGED:
        assert choice.moves[0].role in ("place", "bow"), choice.moves
    heights = [one for one, role in roles_of(it).items() if role in ("height", "spread")]
    only = choose(it, goal, [there.speed], None, states=[there], movable=heights)
    assert only.why != CHANGED, "neither rod nor wand can lower the bow by two degrees"
    if name in BOATS:
        assert choice.why == CHANGED


def test_sizes_on_boats_near_the_demo_boats():
    """Four of five random boats lie in the coach's ranges, and none far outside: docs/theory/effects.md."""
    wand, rod, heavy, bow, pull = ([] for _ in range(5))
    for name in NAMES:
        base, it = boat(name)
        if " " not in name or not free(name):
            continue
        middle = speeds(name)[1]
        there = state(name, middle)
        wand.append(1000.0 * effect(name, "wand-length", middle).height)
        if base in RODS:
            rod.append(1000.0 * RODS[base] * effect(name, "main-rod", middle).height)
        row = it.present_row
        row[demo_boat(base).names.index("crew.mass")] += 15.0
        found = nearby(row, it.tables, WATER, there.speed, 0.0, there.height, there.trim)
        assert found is not None
        heavy.append(1000.0 * (found[0] - there.height))
        bow.append(degrees(found[1] - there.trim))
        change = moved(it, local_at(it, there.speed, there.height, there.trim), PULL, 5.0)
        assert change is not None
        pull.append(1000.0 * change.height)
    assert len(wand) > 35 and len(rod) > 20
    for sizes, low, high in (
        (wand, 15.0, 45.0), (rod, 25.0, 60.0), (heavy, -60.0, -15.0), (bow, 0.1, 0.7), (pull, -110.0, -25.0),
    ):  # fmt: skip
        inside = np.mean([low < size < high for size in sizes])
        assert inside >= 0.8, (low, high, inside)
        assert 0.5 * min(abs(low), abs(high)) < np.abs(sizes).min()
        assert np.abs(sizes).max() < 2.0 * max(abs(low), abs(high))
