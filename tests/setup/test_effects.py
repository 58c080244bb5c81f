"""Effects: derivative and solved step agree away from stops, stops are named, take-off follows."""

from __future__ import annotations

from math import degrees

import numpy as np
import pytest

from foilwright.flight.at_speed import Steady, fly_at, take_off_speed
from foilwright.flight.trim_at_speed import balance
from foilwright.setup.effects import END, doubts_of, effects, local_at
from foilwright.setup.standing import (
    PULL,
    Standing,
    compiled_at_hand,
    counted,
    flown,
    names_of,
    reading,
    stepped_boat,
    with_boat,
)
from foilwright.setup.take_off_change import take_off, take_off_changes
from foilwright.setup.trial import Trial
from tests.demo_boats import KN, demo_boat


def standing(name: str, water, **settings: float) -> Standing:
    boat = demo_boat(name)
    at = {**boat.present, **{key.replace("_", "-"): steps for key, steps in settings.items()}}
    return Standing(boat.row, boat.tables, water, boat.adjusters, at)


def there(it: Standing, speed_kn: float) -> tuple[float, Steady]:
    [state] = flown(it, [speed_kn * KN], False)
    assert state is not None
    return speed_kn * KN, state


def test_the_reading_is_the_balance(fresh):
    it = standing("marram", fresh, main_rod=1.0)
    case = Trial(it, it.present_row).case._replace(speed=6.0)
    at = reading(case, 0.4, 0.01)
    from foilwright.compiled import plain
    from foilwright.flight.at_speed import scratch

    assert (at.lift, at.pitch) == balance(case, 0.4, 0.01, plain(scratch().items))


@pytest.mark.parametrize("name", ["marram", "sedge", "pipkin"])
def test_the_derivative_is_the_limit_of_solved_steps(name, fresh):
    """A fiftieth of a step solved again gives what the derivative says, to a thousandth."""
    it = standing(name, fresh)
    speed, state = there(it, 14.0)
    table = effects(it, [(speed, state)])
    assert [effect.adjuster for effect in table] == list(names_of(it))
    for effect in table:
        if effect.adjuster == PULL:
            continue
        ends = []
        for sign in (1.0, -1.0):
            settings = {**it.settings, effect.adjuster: sign * 0.02}
            ends.append(counted(fly_at(it._replace(settings=settings).present_row, it.tables, fresh, speed)))
        up, down = ends
        assert up is not None and down is not None and effect.slope is not None
        for quantity in ("height", "trim", "drag", "rudder_lift"):
            solved = (getattr(up, quantity) - getattr(down, quantity)) / 0.04
            assert getattr(effect.slope, quantity) == pytest.approx(solved, rel=2e-3, abs=2e-6), quantity


def test_a_solved_step_is_the_state_solved_from_nothing(fresh):
    it = standing("marram", fresh)
    speed, state = there(it, 12.0)
    for effect in effects(it, [(speed, state)]):
        for change, sign in ((effect.more, 1.0), (effect.less, -1.0)):
            assert change is not None
            if effect.adjuster == PULL:
                continue
            after = it._replace(settings={**it.settings, effect.adjuster: sign})
            found = counted(fly_at(after.present_row, it.tables, fresh, speed))
            assert found is not None
            assert change.height == pytest.approx(found.height - state.height, abs=1e-7)
            assert change.rudder_lift == pytest.approx(found.rudder_lift - state.rudder_lift, abs=1e-3)


def test_the_pull_is_solved_with_its_share(fresh):
    """One step is a tenth of the drag: the state after it balances with that much more pull."""
    it = standing("sedge", fresh)
    speed, state = there(it, 14.0)
    [pull] = [effect for effect in effects(it, [(speed, state)]) if effect.adjuster == PULL]
    assert pull.more is not None and pull.linear
    case = with_boat(Trial(it, it.present_row).case._replace(speed=speed), stepped_boat(it, PULL, 1.0))
    assert case.pull_share == pytest.approx(1.1)
    at = reading(case, state.height + pull.more.height, state.trim + pull.more.trim)
    assert abs(at.lift) < 1e-9 and abs(at.pitch) < 1e-9
    assert pull.more.trim < 0.0 and pull.more.rudder_lift < 0.0


def test_no_stop_in_mid_range_and_stops_named_where_they_act(fresh):
    it = standing("marram", fresh)
    rows = {e.adjuster: e for e in effects(it, [there(it, 16.0)])}
    assert all(e.linear and e.stop_met == "" for e in rows.values())
    low = standing("sedge", fresh)
    rows = {e.adjuster: e for e in effects(low, [there(low, 10.0)])}
    assert not rows["main-rod"].linear and rows["main-rod"].stop_met == "hull touching"
    floating = effects(it, [there(it, 6.0)])
    assert all(e.stop_met for e in floating)


def test_the_foil_at_its_stop_is_named(fresh):
    """With the rod all the way the flap stands on its stop below take-off: another turn does nothing."""
    it = standing("marram", fresh, main_rod=7.0)
    rows = {e.adjuster: e for e in effects(it, [there(it, 6.0)])}
    assert rows["main-rod"].stop_met == "foil greatest"
    assert rows["main-rod"].slope is not None and abs(rows["main-rod"].slope.height) < 0.002


def test_the_end_of_the_range_is_named_and_the_slope_is_still_there(fresh):
    it = standing("marram", fresh, main_rod=8.0, wand_length=-4.0)
    rows = {e.adjuster: e for e in effects(it, [there(it, 14.0)])}
    assert rows["main-rod"].more is None and rows["main-rod"].less is not None
    assert rows["wand-length"].less is None and rows["wand-length"].more is not None
    assert rows["main-rod"].stop_met == rows["wand-length"].stop_met == END
    assert rows["main-rod"].slope is not None and rows["main-rod"].slope.height > 0.0


def test_where_there_is_no_state_there_is_a_row_that_says_so(fresh):
    it = standing("marram", fresh)
    table = effects(it, [(6.0, None)])
    assert len(table) == len(names_of(it))
    assert all(e.outcome == 1 and e.slope is None and e.linear is None for e in table)


@pytest.mark.parametrize("name", ["marram", "sedge", "pipkin"])
def test_take_off_and_its_changes(name, fresh):
    """Marram and Sedge leave the water, Pipkin jumps clear from a fold; by derivative and solved again."""
    it = standing(name, fresh)
    off = take_off(it)
    assert off is not None and off.clear == (name != "pipkin")
    searched = take_off_speed(it.present_row, it.tables, fresh)
    assert searched is not None and abs(off.speed - searched) < 0.005
    changes = take_off_changes(it, off)
    assert list(changes) == list(names_of(it))
    for one in changes.values():
        assert one.slope is not None and one.more is not None and one.less is not None
        assert abs(one.slope - 0.5 * (one.more - one.less)) < 0.05 * abs(one.slope) + 0.002
    assert changes["sailor-aft"].slope is not None and changes["sailor-aft"].slope < 0.0
    aft = it._replace(settings={**it.settings, "sailor-aft": 1.0})
    again = take_off_speed(aft.present_row, it.tables, fresh)
    assert again is not None and again - searched == pytest.approx(changes["sailor-aft"].more, abs=0.008)


def test_a_boat_that_never_flies_has_no_take_off(fresh):
    it = standing("marram", fresh)
    heavy = it.row.copy()
    heavy[3] = 1500.0
    it = it._replace(row=heavy)
    assert take_off(it) is None
    assert set(take_off_changes(it, None).values()) == {(None, None, None)}


def test_doubt_is_the_root_of_the_sum_of_squares(fresh):
    it = standing("marram", fresh)
    speed, state = there(it, 12.0)
    local = local_at(it, speed, state.height, state.trim)
    bands = {"wand.length": 0.03, "rudder.incidence": np.radians(0.5)}
    rows = {e.adjuster: e for e in effects(it, [(speed, state)])}
    [(height, trim)] = doubts_of(it, [local], bands)
    one, two = rows["wand-length"].slope, rows["rudder-rake"].slope
    assert one is not None and two is not None
    assert height == pytest.approx(np.hypot(one.height, two.height), rel=0.02)
    assert degrees(trim) == pytest.approx(degrees(np.hypot(one.trim, two.trim)), rel=0.02)
    assert doubts_of(it, [local], {}) == [(0.0, 0.0)]


def test_compiled_and_plain_give_the_same_table(compiled_physics, fresh):
    assert compiled_at_hand()
    it = standing("sedge", fresh)
    speeds = [9.0 * KN, 12.0 * KN, 18.0 * KN]
    tables = []
    for fast in (False, True):
        tables.append(effects(it, list(zip(speeds, flown(it, speeds, fast), strict=True)), fast))
    for one, other in zip(*tables, strict=True):
        assert (
            one.adjuster == other.adjuster and one.linear == other.linear and one.stop_met == other.stop_met
        )
        for a, b in zip(one[3:6], other[3:6], strict=True):
            assert a == pytest.approx(b, rel=1e-5, abs=1e-6)
