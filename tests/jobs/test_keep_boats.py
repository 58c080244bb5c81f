"""Boats that are kept: which text is meant, what a change is made from, who did it."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from foilwright.documents.boat_file import boat_from_text
from foilwright.jobs import keep_boats as kept
from foilwright.mistakes import Mistake, Mistakes
from foilwright.store.opening import Store


@pytest.fixture
def shelf(tmp_path: Path) -> Iterator[Store]:
    store = kept.open_shelf(tmp_path)
    yield store
    store.close()


def steps(text: str, adjuster: str = "main-rod") -> float:
    return next(one.present for one in boat_from_text(text, "x").adjusters if one.name == adjuster)


def test_an_example_is_at_hand_before_anything_was_kept(shelf: Store):
    names = [one.name for one in kept.boats_at_hand(shelf)]
    assert names == sorted(names) and {"Marram", "Sedge", "Pipkin"} <= set(names)
    text, version = kept.text_of(shelf, "Marram")
    assert version is None and text == kept.example_text("Marram")
    with pytest.raises(Mistake, match="no boat named Nobody"):
        kept.text_of(shelf, "Nobody")


def test_the_newest_the_one_asked_for_or_the_example(shelf: Store):
    first = kept.save_settings(shelf, "Marram", 0, {"main-rod": 1.0}, "her")["version_id"]
    second = kept.save_settings(shelf, "Marram", first, {"main-rod": 2.0}, "her")["version_id"]
    assert [steps(kept.text_of(shelf, "Marram", one)[0]) for one in (None, first, second, 0)] == [2, 1, 2, 0]
    with pytest.raises(Mistake, match="a version of Marram"):
        kept.text_of(shelf, "Sedge", first)


def test_comments_stay_and_only_what_was_turned_changes(shelf: Store):
    saved = kept.save_settings(shelf, "Marram", 0, {"main-rod": 1.5}, "her")
    before = kept.example_text("Marram").splitlines()
    after = kept.text_of(shelf, "Marram", saved["version_id"])[0].splitlines()
    changed = [new for new in after if new not in before]
    assert len(changed) == 1 and "1.5" in changed[0]
    assert [line for line in before if line.startswith("#")] == [line for line in after if line[:1] == "#"]


def test_nothing_slips_in_below_a_change(shelf: Store):
    """He changes what he sees, though she kept something a moment ago."""
    hers = kept.save_settings(shelf, "Marram", 0, {"main-rod": 3.0}, "her")
    his = kept.save_settings(shelf, "Marram", 0, {"wand-length": 2.0}, "him")
    assert [one["made_by"] for one in his["beside"]] == ["her"]
    text, _ = kept.text_of(shelf, "Marram", his["version_id"])
    assert (steps(text), steps(text, "wand-length")) == (0, 2)
    roots = [one for one in kept.versions_of(shelf, "Marram") if one["made_from"] is None]
    assert [one["made_by"] for one in roots] == [kept.EXAMPLES]
    assert hers["version_id"] != his["version_id"]


def test_an_example_that_was_taken_back_is_kept_again(shelf: Store):
    kept.save_settings(shelf, "Marram", 0, {"main-rod": 1.0}, "her")
    example = kept.trail_of(shelf)[-1]
    assert example["by"] == kept.EXAMPLES
    kept.undo_entry(shelf, example["trail_id"], "her")
    saved = kept.save_settings(shelf, "Marram", 0, {"main-rod": 2.0}, "her")
    versions = {one["version_id"]: one for one in kept.versions_of(shelf, "Marram")}
    parent = versions[saved["version_id"]]["made_from"]
    assert parent is not None and not versions[parent]["taken_back"]


def test_what_makes_no_boat_is_not_kept(shelf: Store):
    nan = float("nan")
    for name, value in (("main-rod", 99.0), ("main-rod", nan), ("no-such", 1.0), ("main-rod.least", 1.0)):
        with pytest.raises((Mistake, Mistakes)):
            kept.save_settings(shelf, "Marram", 0, {name: value}, "her")
    with pytest.raises((Mistake, Mistakes)):
        kept.save_changes(shelf, "Marram", 0, {"wand.length_m": -1.0}, "her")
    with pytest.raises(Mistake, match="keeps its name"):
        kept.save_text(shelf, "Sedge", kept.example_text("Marram"), None, "her")
    assert kept.trail_of(shelf) == [] and kept.versions_of(shelf, "Marram") == []


@pytest.mark.parametrize(
    ("came", "who"),
    [
        ("Ash", "Ash"),
        ("  Ash \t Grey ", "Ash Grey"),
        ("", kept.NOBODY),
        (" ", kept.NOBODY),
        ("x" * 60, "x" * 60),
    ],
)
def test_who_did_it(came: str, who: str):
    assert kept.maker(came) == who


@pytest.mark.parametrize("came", ["x" * 61, "a\u202eb", "a\0b", "a\x1bb"])
def test_a_name_that_is_none(came: str):
    with pytest.raises(Mistake, match="by"):
        kept.maker(came)
