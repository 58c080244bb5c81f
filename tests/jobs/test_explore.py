"""What the page asks agrees with what the command line answers."""

from itertools import pairwise
from math import hypot, isfinite, radians
from typing import Any

import pytest

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.chain_behaviour import chain_at
from foilwright.jobs import desk, explore, turn_adjusters
from foilwright.mistakes import Mistake


@pytest.fixture(scope="module")
def it(marram: ReadyBoat) -> explore.Asked:
    return explore.asked(marram, "75", ["main-rod=1"])


def numbers(value: Any) -> list[float]:
    if isinstance(value, dict):
        return [one for part in value.values() for one in numbers(part)]
    if isinstance(value, list | tuple):
        return [one for part in value for one in numbers(part)]
    return [value] if isinstance(value, float) else []


def test_the_chain_is_the_chain(it: explore.Asked):
    """Every row of the drawing is what the chain does at that wand angle, settings and all."""
    drawn = explore.drawing(it)["chain"]
    points = chain_at(it.row, it.boat.tables, [radians(angle) for angle in drawn["wand_deg"]])
    for foil, locked, point in zip(drawn["foil_deg"], drawn["foil_deg"], points, strict=True):
        assert (locked is None) == point.locked
        if foil is not None:
            assert radians(foil) == pytest.approx(point.foil, abs=1e-4)


def test_rods_keep_their_length_in_the_drawing(it: explore.Asked):
    """From the joints as the page turns them: what is drawn is what could be built."""
    from math import cos, sin

    drawn = explore.drawing(it)["chain"]
    cranks = drawn["cranks"]

    def tip(crank: Any, arm: str, turn: float) -> tuple[float, float]:
        length, at = crank[arm]
        x, z = crank["pivot"]
        return x + length * cos(at + radians(turn)), z + length * sin(at + radians(turn))

    for near, far in pairwise(cranks):
        lengths = [
            hypot(a[0] - b[0], a[1] - b[1])
            for i, turn in enumerate(near["turn_deg"])
            if drawn["foil_deg"][i] is not None
            for a, b in [(tip(near, "out_arm", turn), tip(far, "in_arm", far["turn_deg"][i]))]
        ]
        assert max(lengths) - min(lengths) < 1e-3, (near["name"], far["name"])


def test_the_sweep_is_what_fly_answers(it: explore.Asked):
    answer = explore.sweep(it, "8:16:2")
    told = desk.fly(it.boat, 75, "8:16:2", ["main-rod=1"])
    assert len(answer["rows"]) == len(told["rows"])
    for row, wanted in zip(answer["rows"], told["rows"], strict=True):
        for key, value in wanted.items():
            if isinstance(value, float):
                assert row[key] == pytest.approx(value, rel=1e-6, abs=1e-6), key  # type: ignore[literal-required]
            elif not isinstance(value, dict):
                assert row[key] == value, key  # type: ignore[literal-required]
    # Both come as near as 0.002 m/s, on different ways.
    assert answer["take_off_speed_kn"] == pytest.approx(told["take_off_speed_kn"], abs=0.008)
    assert all(isfinite(one) for one in numbers(answer["rows"]))


def test_the_state_that_counts_is_stable_and_listed_once_a_speed(it: explore.Asked):
    answer = explore.sweep(it, "6:20:1", with_take_off=False)
    assert answer["take_off_speed_kn"] is None
    assert len(answer["counts"]) == 15
    for place in answer["counts"]:
        assert place is not None and answer["rows"][place]["stable"]
    speeds = [answer["rows"][place]["boat_speed_kn"] for place in answer["counts"] if place is not None]
    assert speeds == pytest.approx(list(range(6, 21)))


def test_the_arrows_add_up(it: explore.Asked):
    """Every load is drawn: up, they carry each other; the pull is as long as all drag together."""
    answer = explore.sweep(it, "12", with_take_off=False)
    place = answer["counts"][0]
    assert place is not None
    row = answer["rows"][place]
    weight = sum(-one["up_n"] for one in row["arrows"] if "weight" in one["name"])
    assert weight > 900.0
    # Loads under 1 N are left out of the drawing, and arrows are given to 0.1 N.
    assert abs(sum(one["up_n"] for one in row["arrows"])) < 0.02 * weight
    assert abs(sum(one["forward_n"] for one in row["arrows"])) < 3.0
    [drag] = [one for one in row["arrows"] if one["name"] == "drag"]
    assert hypot(drag["forward_n"], drag["up_n"]) == pytest.approx(row["drag_n"], abs=0.2)


def test_effects_are_those_of_the_command(it: explore.Asked):
    rows = explore.effects_at(it, "12")["rows"]
    told = turn_adjusters.effects_of(it.boat, "75", "12", ["main-rod=1"])["rows"]
    assert [one["adjuster"] for one in rows] == [one["adjuster"] for one in told]
    for row, wanted in zip(rows, told, strict=True):
        assert row["ride_height_change_mm"] == pytest.approx(wanted["ride_height_change_mm"], abs=1e-6)
        assert row["trim_change_deg"] == pytest.approx(wanted["trim_change_deg"], abs=1e-6)
    with pytest.raises(Mistake, match="a range"):
        explore.effects_at(it, "10:14:1")


def test_guesses_stand_dearest_first(it: explore.Asked):
    costs = [abs(one["ride_height_change_mm"] or 0.0) for one in explore.guesses(it)["assumed"]]
    assert costs == sorted(costs, reverse=True) and costs[0] > 1.0


def test_compiled_and_plain_physics_answer_the_same(
    it: explore.Asked, compiled_physics: None, monkeypatch: pytest.MonkeyPatch
):
    answers = []
    for at_hand in (True, False):
        monkeypatch.setattr(explore, "compiled_at_hand", lambda at_hand=at_hand: at_hand)
        answers.append(explore.sweep(it, "7:17:2", with_take_off=False))
    assert answers[0]["counts"] == answers[1]["counts"]
    assert numbers(answers[0]["rows"]) == pytest.approx(numbers(answers[1]["rows"]), rel=1e-4, abs=0.02)


def test_without_a_sailor_the_usual_one_sails(marram: ReadyBoat):
    assert explore.asked(marram, "").sailor.mass_kg == pytest.approx(explore.usual_mass(marram))
