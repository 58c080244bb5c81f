"""Changes in the boat's own words, the grid's words, the reasons of a choice: nothing is left out."""

from __future__ import annotations

import pytest

from foilwright.documents.boat_chain import AdjusterRecord
from foilwright.documents.sailor import Sailor
from foilwright.documents.turn_words import turn_words
from foilwright.jobs.choose_setting import Chosen, choose_setting
from tests.demo_boats import KN, demo_boat

pytestmark = pytest.mark.usefixtures("compiled_physics")
SPEEDS = [speed * KN for speed in (11.0, 14.0, 17.0)]


def record(name: str, adjuster: str) -> AdjusterRecord:
    return next(one for one in demo_boat(name).file.adjusters if one.name == adjuster)


def chosen(name: str, kg: float, stage: str, water) -> Chosen:
    boat = demo_boat(name)
    return choose_setting(boat, Sailor(mass_band_kg=[kg, kg]), boat.present, stage, SPEEDS, water)


@pytest.mark.parametrize(
    ("adjuster", "steps", "words"),
    [
        ("main-rod", 1.0, "main rod 1 turn more"),
        ("main-rod", -2.5, "main rod 2.5 turns less"),
        ("wand-length", 2.0, "wand length 2 holes more"),
        ("sailor-aft", 2.0, "sailor 200 mm aft"),
        ("sailor-aft", -1.0, "sailor 100 mm forward"),
        ("rudder-rake", 1.0, "rudder rake 1 step more"),
        ("wand-tension", -1.0, "wand tension 1 knot less"),
    ],
)
def test_a_change_in_words(adjuster, steps, words):
    assert turn_words(record("marram", adjuster), steps) == words


def test_how_to_move_it_and_how_to_move_it_back():
    rod = record("marram", "main-rod")
    assert turn_words(rod, 1.0, True) == f"main rod 1 turn more ({rod.how})"
    assert turn_words(rod, -1.0, True) == f"main rod 1 turn less (the other way round from: {rod.how})"


def test_a_choice_tells_what_is_wrong_each_change_and_what_is_left(fresh):
    made = chosen("marram", 75.0, "improving", fresh)
    assert made.choice.moves and len(made.moves) == len(made.choice.moves)
    text = " ".join(made.reasons)
    assert "above the band" in made.reasons[0] and "First: " in text and "After that" in text
    for move in made.moves:
        assert move in text
    assert [one["adjuster"] for one in made.settings] == list(demo_boat("marram").present)
    for one in made.settings:
        assert one["steps"] - one["change"] == demo_boat("marram").present[one["adjuster"]]
    assert all(other["sentence"] and other["miss"] >= 0.0 for other in made.runners_up)


def test_nothing_to_change_is_one_sentence(fresh):
    made = chosen("sedge", 145.0, "settled", fresh)
    assert made.moves == [] and len(made.reasons) == 1 and made.reasons[0].startswith("Change nothing")
    assert all(one["change"] == 0.0 for one in made.settings)


@pytest.mark.parametrize(("name", "kg"), [("marram", 75.0), ("pipkin", 48.0), ("sedge", 145.0)])
def test_the_grid_has_words_in_every_place_and_no_word_about_the_person(name, kg, fresh):
    made = chosen(name, kg, "settled", fresh)
    assert list(made.grid) == ["low", "right", "high"]
    for row in made.grid.values():
        assert list(row) == ["bow_down", "level", "bow_up"]
        assert all(row.values())
    assert made.grid["right"]["level"] == "change nothing"
    assert str(made.grid["right"]["bow_up"]).startswith("sailor ")
    everything = " ".join(
        [*made.reasons, *made.moves, *(str(w) for row in made.grid.values() for w in row.values())]
    )
    for word in ("kg", "weigh", "heavy", "light", "safe", "allowed", "may sail", "ready", "fit to"):
        assert word not in everything.lower()
