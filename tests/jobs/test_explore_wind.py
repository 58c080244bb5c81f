"""What the page asks over the wind agrees with what the command line answers.

By the plain physics, which takes a second a wind: so few winds are looked at. The kernel that takes two
minutes to compile is asked for only where the command is, and shared with the other tests that use it.
"""

from math import isfinite
from typing import Any

import pytest

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.jobs import explore, explore_wind, sail_boat
from foilwright.jobs.explore_wind import WindSweepAnswer
from foilwright.mistakes import Mistake


@pytest.fixture(scope="module")
def it(marram: ReadyBoat) -> explore.Asked:
    return explore.asked(marram, "75", ["main-rod=1"])


@pytest.fixture(scope="module")
def in_eight(it: explore.Asked) -> WindSweepAnswer:
    """8 kn of wind as a hand gauge at 2 m reads it."""
    return explore_wind.sweep_wind(it, "8", "95", "hand gauge", None, False)


def numbers(value: Any) -> list[float]:
    if isinstance(value, dict):
        return [one for part in value.values() for one in numbers(part)]
    if isinstance(value, list | tuple):
        return [one for part in value for one in numbers(part)]
    return [value] if isinstance(value, float) else []


def test_the_states_are_those_of_sail(in_eight: WindSweepAnswer, marram: ReadyBoat, compiled_wind: None):
    told = sail_boat.sail(marram, 75, "8", "95", None, ["main-rod=1"], "hand gauge")
    assert len(in_eight["rows"]) == len(told["rows"])
    for row, wanted in zip(in_eight["rows"], told["rows"], strict=True):
        for key, value in wanted.items():
            if isinstance(value, float):
                assert row[key] == pytest.approx(value, rel=1e-4, abs=2e-3), key  # type: ignore[literal-required]
            elif not isinstance(value, dict):
                assert row[key] == value, key  # type: ignore[literal-required]
        assert row["told_kn"] == 8.0 and row["hand_gauge_kn"] == pytest.approx(8.0)
        assert row["wind_kn"] == pytest.approx(told["wind_kn"]) and row["wind_kn"] > 9.0
    assert all(isfinite(one) for one in numbers(in_eight["rows"]))


def test_what_carries_the_weight_adds_up(in_eight: WindSweepAnswer):
    """Foils, hull, sail and struts together carry boat and crew; the sail pulls as much as all drag."""
    for row in in_eight["rows"]:
        if row["state"] is None:
            continue
        weight = sum(-one["up_n"] for one in row["arrows"] if "weight" in one["name"])
        assert weight > 900.0
        parts = ("main_lift_n", "rudder_lift_n", "buoyancy_n", "strut_lift_n", "sail_lift_n")
        told: dict[str, Any] = {**row}
        carried = sum(float(told[name]) for name in parts)
        assert carried == pytest.approx(weight, rel=0.02), "all but planing and what the air does upwards"
        forward = sum(one["forward_n"] for one in row["arrows"])
        assert abs(forward) < 0.1 * (row["drag_n"] or 0.0) + 3.0
        [drag] = [one for one in row["arrows"] if one["name"] == "drag"]
        assert (drag["forward_n"] ** 2 + drag["up_n"] ** 2) ** 0.5 == pytest.approx(row["drag_n"], abs=0.2)


def test_of_several_states_the_fastest_that_holds_itself_counts(it: explore.Asked):
    answer = explore_wind.sweep_wind(it, "8", "90", "forecast", None, False)
    [place] = answer["counts"]
    assert place is not None
    steady = [row for row in answer["rows"] if row["stable"]]
    assert len(steady) > 1, "in this wind it lifts or flies"
    assert answer["rows"][place] == max(steady, key=lambda row: row["boat_speed_kn"] or 0.0)


def test_the_plain_physics_answers_one_wind_a_question(it: explore.Asked, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(explore_wind, "wind_at_hand", lambda: False)
    answer = explore_wind.sweep_wind(it, "6:9:1")
    assert answer["winds_kn"] == [6.0] and answer["later_kn"] == [7.0, 8.0, 9.0]
    assert answer["compiled"] is False and answer["take_off_wind_kn"] is None
    assert {row["told_kn"] for row in answer["rows"]} == {6.0}
    assert explore_wind.wind_ready()["compiled"] is False


def test_the_compiled_physics_answers_all_and_the_wind_it_takes(
    it: explore.Asked, in_eight: WindSweepAnswer, compiled_wind: None
):
    assert explore_wind.wind_ready()["compiled"] is True
    answer = explore_wind.sweep_wind(it, "8:9:1", "95", "hand gauge")
    assert answer["winds_kn"] == [8.0, 9.0] and answer["later_kn"] == []
    same = [row for row in answer["rows"] if row["told_kn"] == 8.0]
    assert numbers(same) == pytest.approx(numbers(in_eight["rows"]), rel=1e-3, abs=0.05)
    off, told = answer["take_off_wind_kn"], answer["take_off_told_kn"]
    assert off is not None and told is not None and told < off, "a hand gauge reads less than at 10 m"
    assert answer["keeps_flying_wind_kn"] is not None and answer["keeps_flying_wind_kn"] <= off
    command = sail_boat.sail(it.boat, 75, "8", "95", None, ["main-rod=1"])
    assert off == pytest.approx(command["take_off_wind_kn"]["by_wind_angle_deg"]["95"], abs=0.06)


@pytest.mark.parametrize("wrong", ["0", "180", "400", "abeam", "40:90:5", ""])
def test_a_wrong_angle_has_a_sentence(it: explore.Asked, wrong: str):
    with pytest.raises(Mistake) as told:
        explore_wind.sweep_wind(it, "8", wrong)
    assert told.value.where == "--angle"
