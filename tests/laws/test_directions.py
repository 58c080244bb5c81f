"""The trade's directions hold on every demo boat and on random boats around them.

Directions and sizes are common practice, no source. They are about a boat that flies on its wand. A random
boat that does not, at one of its three speeds, is not dropped in silence: it must say which stop holds it, a
wand off the water must then do nothing, and there may be few of them.
"""

from __future__ import annotations

from functools import cache
from math import degrees

import pytest

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.at_speed import Steady, nearby
from foilwright.setup.effects import Change, local_at, slope_of
from foilwright.setup.same_as import moved
from foilwright.setup.standing import PULL, Standing, flown, stepped_boat
from foilwright.setup.take_off_change import take_off, take_off_changes
from foilwright.water.properties import water_at
from tests.demo_boats import BOATS, KN, demo_boat
from tests.random_boats import random_boats

WATER = water_at()
RANDOM = 14  # of each
SEEDS = {"marram": 41, "sedge": 42, "pipkin": 43}
SLOWEST, FAST = (9.5, 10.0, 10.5, 11.0, 11.5, 12.0, 12.5, 13.0), 18.0  # [kn]
SHALLOW = 0.26  # main foil under the surface [m]: about a quarter of its span
MIDDLE = 12.0  # of the demo boats [kn]
ON_A_STOP = ("hull touching", "wand off the water", "foil least", "foil greatest", "wand forward", "wand aft")
RODS = {"marram": 1.0, "marram-curve": 1.0, "marram-reversed": -1.0, "sedge": 1.0}  # which way is more flap


def standing(boat: ReadyBoat) -> Standing:
    return Standing(boat.row, boat.tables, WATER, boat.adjusters, boat.present)


@cache
def boat(name: str) -> tuple[str, Standing]:
    """A demo boat by its name, or one drawn near it: "marram 7"."""
    base, _, number = name.partition(" ")
    demo = demo_boat(base)
    if not number:
        return base, standing(demo)
    row = random_boats(demo, RANDOM, SEEDS[base]).row(int(number))
    return base, standing(demo)._replace(row=row)


NAMES = [*BOATS, *(f"{base} {i}" for base in SEEDS for i in range(RANDOM))]


@cache
def state(name: str, speed_kn: float) -> Steady:
    [found] = flown(boat(name)[1], [speed_kn * KN], False)
    assert found is not None, f"{name} has no steady state at {speed_kn} kn"
    return found


@cache
def effect(name: str, adjuster: str, speed_kn: float) -> Change:
    """One step at the state that counts."""
    there, it = state(name, speed_kn), boat(name)[1]
    local = local_at(it, there.speed, there.height, there.trim)
    return slope_of(local, [stepped_boat(it, adjuster, sign * 0.01) for sign in (1.0, -1.0)])


@cache
def speeds(name: str) -> tuple[float, float, float]:
    """Three boat speeds [kn]: half a knot or more above the slowest flight, 1.5 kn more, and fast."""
    slowest = next((speed for speed in SLOWEST if state(name, speed).state == "flying"), SLOWEST[-1])
    return slowest + 0.5, slowest + 2.0, FAST


@cache
def stop(name: str, speed_kn: float) -> str:
    """The stop that acts on the state, if any."""
    there = state(name, speed_kn)
    return local_at(boat(name)[1], there.speed, there.height, there.trim).at.stop


def depth(name: str, speed_kn: float) -> float:
    """Main foil under the surface, without trim [m]."""
    base, it = boat(name)
    return -float(it.present_row[demo_boat(base).names.index("main.z")]) - state(name, speed_kn).height


def free(name: str) -> bool:
    """Whether the boat flies on its wand, away from every stop, at all three speeds."""
    return not any(stop(name, speed) for speed in speeds(name))


def test_few_boats_meet_a_stop_and_those_say_which():
    held = {name: [stop(name, speed) for speed in speeds(name)] for name in NAMES if not free(name)}
    print(held)
    assert not set(held) & set(BOATS)
    assert len(held) <= len(NAMES) // 8, held
    for name, stops in held.items():
        for speed, one in zip(speeds(name), stops, strict=True):
            assert one in ("", *ON_A_STOP), (name, one)
            if one == "wand off the water":
                assert abs(effect(name, "wand-length", speed).height) < 0.002, name


@pytest.mark.parametrize("name", NAMES)
def test_the_rod_acts_most_when_slow_and_the_wand_most_when_fast(name):
    slow, _, fast = speeds(name)
    if not free(name):
        return  # see the test of those that meet a stop
    assert 0.0 < effect(name, "wand-length", slow).height < effect(name, "wand-length", fast).height
    base = boat(name)[0]
    if base in RODS:
        at_slow, at_fast = (RODS[base] * effect(name, "main-rod", speed).height for speed in (slow, fast))
        assert at_slow > at_fast > 0.0


@pytest.mark.parametrize("name", NAMES)
def test_neither_rod_nor_wand_moves_the_bow_much(name):
    """Less than 0.15 degrees for 50 mm of height, where a step of the rake or the sailor turns it more.

    With the main foil less than SHALLOW under the surface up to 0.25: the wake that the rudder foil works in
    changes with depth there.
    """
    for adjuster in ("wand-length", *(["main-rod"] if boat(name)[0] in RODS else [])):
        for speed in speeds(name):
            if not stop(name, speed):
                one = effect(name, adjuster, speed)
                most = 0.25 if depth(name, speed) < SHALLOW else 0.15
                assert abs(degrees(one.trim)) < most * abs(one.height) / 0.05, (adjuster, speed)


@pytest.mark.parametrize("name", NAMES)
def test_a_heavier_sailor_sits_lower_and_bow_up(name):
    """15 kg, in the same place, at the middle speed."""
    if stop(name, speeds(name)[1]):
        return
    it, there = boat(name)[1], state(name, speeds(name)[1])
    row = it.present_row
    row[demo_boat(boat(name)[0]).names.index("crew.mass")] += 15.0
    found = nearby(row, it.tables, WATER, there.speed, 0.0, there.height, there.trim)
    assert found is not None
    assert found[0] < there.height and found[1] > there.trim


@pytest.mark.parametrize("name", NAMES)
def test_half_as_much_pull_again_drops_bow_and_height(name):
    """Five steps of the pull, at the middle speed; four where five would put the hull in the water."""
    if stop(name, speeds(name)[1]):
        return
    it, there = boat(name)[1], state(name, speeds(name)[1])
    local = local_at(it, there.speed, there.height, there.trim)
    change = moved(it, local, PULL, 5.0)
    if change is None:
        change, clear = moved(it, local, PULL, 4.0), there.margins["touchdown"]
        assert change is not None and clear is not None and clear < 1.3 * abs(change.height)
    assert change.height < -0.01 and degrees(change.trim) < -0.1


@pytest.mark.parametrize("name", NAMES)
def test_less_rake_and_a_sailor_further_aft_raise_boat_and_bow(name):
    for speed in speeds(name):
        if stop(name, speed):
            continue
        aft = effect(name, "sailor-aft", speed)
        assert aft.height > 0.0 and aft.trim > 0.0 and aft.rudder_lift > 0.0
        if boat(name)[0] != "pipkin":
            rake = effect(name, "rudder-rake", speed)
            assert rake.height < 0.0 and rake.trim < 0.0


# The ranges that the demo boats are meant to keep [mm, deg, kn], at 12 kn and for one step.
HEIGHTS = {
    ("marram", "main-rod"): (25.0, 55.0),
    ("sedge", "main-rod"): (25.0, 60.0),
    ("marram", "wand-length"): (17.0, 32.0),
    ("pipkin", "wand-length"): (20.0, 36.0),
    ("sedge", "wand-length"): (15.0, 32.0),
    ("marram", "rudder-rake"): (-45.0, -15.0),
    ("sedge", "rudder-rake"): (-45.0, -15.0),
}
TRIMS = {
    ("marram", "rudder-rake"): (-0.8, -0.4),
    ("sedge", "rudder-rake"): (-0.7, -0.35),
    ("marram", "sailor-aft"): (0.15, 0.35),
    ("pipkin", "sailor-aft"): (0.12, 0.30),
    ("sedge", "sailor-aft"): (0.15, 0.40),
}
TAKE_OFFS = {"marram": (-0.6, -0.2), "pipkin": (-0.6, -0.2), "sedge": (-0.5, -0.15)}


@pytest.mark.parametrize(("name", "adjuster"), HEIGHTS)
def test_height_of_one_step(name, adjuster):
    low, high = HEIGHTS[(name, adjuster)]
    assert low < 1000.0 * effect(name, adjuster, MIDDLE).height < high


@pytest.mark.parametrize(("name", "adjuster"), TRIMS)
def test_bow_angle_of_one_step(name, adjuster):
    low, high = TRIMS[(name, adjuster)]
    assert low < degrees(effect(name, adjuster, MIDDLE).trim) < high


@pytest.mark.parametrize("name", TAKE_OFFS)
def test_take_off_speed_of_a_sailor_100_mm_aft(name):
    it = boat(name)[1]
    slope = take_off_changes(it, take_off(it))["sailor-aft"].slope
    low, high = TAKE_OFFS[name]
    assert slope is not None and low < slope / KN < high


@pytest.mark.parametrize("name", ["marram", "sedge"])
def test_one_degree_of_rake(name):
    """Two steps: bow down by about a degree, the boat 45 to 125 mm lower, more when slow than when fast.

    From 10.5 to 16 kn. The trade's 1.0-1.2 degrees is one figure for all speeds and boats; here it is 0.8 to
    1.6, because downwash and the section's slope at the rudder foil change over the speeds.
    """
    by_speed = [effect(name, "rudder-rake", speed) for speed in (10.5, 16.0)]
    for one in by_speed:
        assert 0.75 < -2.0 * degrees(one.trim) < 1.6
        assert 45.0 < -2000.0 * one.height < 125.0
