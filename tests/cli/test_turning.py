"""`effects` and `same-as` at the command line: shapes, words, nulls with an outcome, exit codes."""

from __future__ import annotations

import pytest

from foilwright.documents import effect_answers
from tests.cli.test_answers import fits


@pytest.mark.usefixtures("compiled_physics")
def test_effects(foilwright):
    said = foilwright("effects", "marram", "--sailor", "75", "--speed", "12:16:4", "--json")
    assert said.code == 0 and said.err == ""
    fits(said.answer, effect_answers.EffectsAnswer)
    assert said.answer["format"] == "foilwright/effects"
    assert [row["adjuster"] for row in said.answer["rows"][:7]] == [
        "main-rod", "wand-length", "gearing", "rudder-rake", "wand-tension", "sailor-aft", "sail-pull",
    ]  # fmt: skip
    assert [row["boat_speed_kn"] for row in said.answer["rows"][::7]] == [12, 16]
    for row in said.answer["rows"]:
        assert row["outcome"] == "solved" and row["ride_height_change_mm"] is not None
        assert row["one_more"]["take_off_speed_change_kn"] is not None


@pytest.mark.usefixtures("compiled_physics")
def test_effects_past_the_end_of_a_range(foilwright):
    said = foilwright("effects", "marram", "--sailor", "75", "--speed", "12", "--set", "main-rod=8", "--json")
    fits(said.answer, effect_answers.EffectsAnswer)
    [rod] = [row for row in said.answer["rows"] if row["adjuster"] == "main-rod"]
    assert rod["stop_met"] == "end of range" and set(rod["one_more"].values()) == {None}
    assert rod["one_less"]["ride_height_change_mm"] < 0.0 < rod["ride_height_change_mm"]


def test_same_as_between_two_boats(foilwright):
    words = ("same-as", "marram", "main-rod", "pipkin", "wand-length", "--sailor", "75", "--sailor-b", "48")
    said = foilwright(*words, "--json")
    assert said.code == 0
    fits(said.answer, effect_answers.SameAsAnswer)
    assert 1.0 < said.answer["steps"] < 4.0 and said.answer["within_range"]
    assert said.answer["first"]["boat"] == "Marram" and said.answer["second"]["adjuster"] == "wand-length"


def test_same_as_where_nothing_does_the_same(foilwright):
    words = ("same-as", "marram", "main-rod", "marram", "wand-tension", "--sailor", "75")
    said = foilwright(*words, "--json")
    assert said.code == 3
    fits(said.answer, effect_answers.SameAsAnswer)
    assert said.answer["steps"] is None and said.answer["sentence"]
    assert set(said.answer["left_over"].values()) == {None}
    assert "No steps of wand-tension" in foilwright(*words).out


@pytest.mark.parametrize(
    ("words", "hint"),
    [
        (("same-as", "marram", "main-rods", "marram", "wand-length", "--sailor", "75"), "main-rod"),
        (("same-as", "marram", "main-rod", "pipkin", "main-rod", "--sailor", "75"), "wand-length"),
        (
            ("same-as", "marram", "main-rod", "pipkin", "wand-length", "--sailor", "75", "--speed", "9:12"),
            "12",
        ),
        (("effects", "marram", "--sailor", "75", "--speed", "18:9"), "9:18"),
    ],
)
def test_wrong_input(foilwright, words, hint):
    said = foilwright(*words)
    assert said.code == 2 and said.out == "" and hint in said.err


@pytest.mark.usefixtures("compiled_physics")
def test_effects_in_words(foilwright):
    said = foilwright("effects", "pipkin", "--sailor", "48", "--speed", "12")
    assert said.code == 0
    assert "sailor-aft" in said.out and "sail-pull" in said.out and "main-rod" not in said.out
