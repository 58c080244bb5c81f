"""Laws of sailing in a wind, over random boats and winds: plain is compiled, nothing is lost."""

from __future__ import annotations

from math import radians, sqrt

import numpy as np
import pytest

from foilwright.compiled import plain
from foilwright.flight.many_in_wind import InWind, all_in_wind, scratch_in_wind
from foilwright.flight.sailing_in_wind import sailing_case
from foilwright.flight.take_off import way_up
from foilwright.flight.take_off_wind import usual_runner, winds_needed
from foilwright.flight.wind_balance import Helm
from foilwright.flight.wind_states import MISS, SEED_SPEEDS, STABLE, find_curves, states_on_curves
from foilwright.measures import Floats
from foilwright.outcomes import GAVE_UP
from tests.demo_boats import KN, NO_CHANGE, demo_boat
from tests.random_boats import random_boats

ROUGHNESS = 5e-4
EVERY_HALF_METRE = np.array([*SEED_SPEEDS, *np.arange(1.0, 14.0, 0.5)])


def number(found: float | None) -> float:
    """A number that has to be there."""
    assert found is not None
    return found


def random_winds(count: int, seed: int) -> Floats:
    """4 to 26 kn from 30 to 170 degrees, heels of all credible kinds."""
    rng = np.random.default_rng(seed)
    return np.column_stack(
        [
            rng.uniform(4.0, 26.0, count) * KN,
            np.radians(rng.uniform(30.0, 170.0, count)),
            np.radians(rng.uniform(-3.0, 3.0, count)),
            np.radians(rng.uniform(-18.0, 0.0, count)),
        ]
    )


@pytest.mark.parametrize("name", ["marram", "pipkin", "sedge"])
@pytest.mark.usefixtures("compiled_wind")
def test_hardly_any_search_gives_up_and_every_state_balances(fresh, name):
    """At most one of 1,000 random boats in random winds may be lost, so none of 200; nor does looking for
    curves at many more boat speeds find other states in more than one of 100.
    """
    boat = demo_boat(name)
    boats = random_boats(boat, 200, 17)
    winds = random_winds(200, 18)
    found = all_in_wind(boat.row, boat.tables, fresh, ROUGHNESS, boats.numbers, boats.changes, winds)
    assert np.isfinite(found.states).all()
    assert (found.outcomes != GAVE_UP).all()
    assert (found.counts > 0).mean() > 0.85
    for states, count in zip(found.states, found.counts, strict=True):
        assert (states[:count, MISS] < 1e-6).all()
    some = (boats.numbers, boats.changes[:100], winds[:100])
    more = all_in_wind(boat.row, boat.tables, fresh, ROUGHNESS, *some, EVERY_HALF_METRE)
    assert (more.counts != found.counts[:100]).sum() <= 1


@pytest.mark.parametrize("name", ["marram", "pipkin"])
@pytest.mark.usefixtures("compiled_wind")
def test_plain_and_compiled_sail_alike(fresh, name):
    """Same states, same way from rest, to 1e-6 of the scales, on random boats."""
    boat = demo_boat(name)
    boats = random_boats(boat, 3, 21)
    winds = random_winds(3, 22)
    found = all_in_wind(boat.row, boat.tables, fresh, ROUGHNESS, boats.numbers, boats.changes, winds)
    work = scratch_in_wind()
    for i in range(3):
        one = InWind(*(float(number) for number in winds[i]))
        case = sailing_case(
            boats.row(i), boat.tables, fresh, one.wind, one.angle,
            Helm(one.floating_heel, one.flying_heel), ROUGHNESS,
        )  # fmt: skip
        points = find_curves(case, plain(np.array(SEED_SPEEDS)), plain(work))
        way = way_up(case, plain(work), points)
        answer = states_on_curves(case, plain(work), points)
        assert answer.states == found.counts[i]
        assert work.found[: answer.states, :8] == pytest.approx(
            found.states[i, : answer.states, :8], abs=1e-6
        )
        assert tuple(way) == pytest.approx(tuple(found.ways[i]), rel=1e-5, abs=1e-6)


@pytest.mark.usefixtures("compiled_wind")
def test_threads_and_order_do_not_matter(fresh):
    """Bit for bit."""
    boat = demo_boat("sedge")
    winds = random_winds(40, 23)
    given = (boat.row, boat.tables, fresh, ROUGHNESS, NO_CHANGE, np.zeros((40, 0)))
    one = all_in_wind(*given, winds, threads=1)
    two = all_in_wind(*given, np.ascontiguousarray(winds[::-1]), threads=2)
    assert (one.states == two.states[::-1]).all()
    assert (one.ways == two.ways[::-1]).all()


@pytest.mark.parametrize(("name", "masses"), [("marram", (60.0, 90.0)), ("sedge", (130.0, 160.0))])
@pytest.mark.usefixtures("compiled_wind")
def test_take_off_speed_goes_with_the_root_of_total_mass(fresh, name, masses):
    """Within 5 %, and the heavier crew needs more wind. Trade practice, and lift goes with speed squared."""
    boat = demo_boat(name)
    found = []
    for mass in masses:
        row = boat.row.copy()
        row[boat.names.index("crew.mass")] = mass
        runner = usual_runner(row, boat.tables, fresh, ROUGHNESS, True)
        (needed,) = winds_needed(runner, [radians(90.0)])
        assert needed.take_off_speed is not None
        found.append(needed)
    whole = [mass + float(boat.row[boat.names.index("mass.mass")]) for mass in masses]
    ratio = number(found[1].take_off_speed) / number(found[0].take_off_speed)
    assert ratio == pytest.approx(sqrt(whole[1] / whole[0]), rel=0.05)
    assert number(found[1].take_off_wind) > number(found[0].take_off_wind)
    for one in found:
        assert number(one.keeps_flying_wind) < number(one.take_off_wind), "once up it keeps flying in less"


@pytest.mark.parametrize("name", ["marram", "sedge", "pipkin"])
@pytest.mark.usefixtures("compiled_wind")
def test_weight_holds_more_in_a_blow(fresh, name):
    """In 20 kn abeam the fully hiked heavier crew is faster."""
    boat = demo_boat(name)
    speeds = []
    for share in (0.9, 1.1):
        row = boat.row.copy()
        row[boat.names.index("crew.mass")] *= share
        winds = np.array([(20 * KN, radians(90.0), 0.0, radians(-10.0))])
        found = all_in_wind(row, boat.tables, fresh, ROUGHNESS, NO_CHANGE, np.zeros((1, 0)), winds)
        states = found.states[0, : found.counts[0]]
        speeds.append(states[states[:, STABLE] > 0.0, 0].max())
    assert speeds[1] > speeds[0] + 0.1
