"""The day sheet: what it may say, what contradicts itself, and what is left unknown."""

from __future__ import annotations

from pathlib import Path

import pytest

from foilwright.documents.day_checks import entered
from foilwright.documents.day_limits import (
    EXCEEDED,
    KINDS,
    NOT_EXCEEDED,
    UNKNOWN,
    WHATS,
    Entered,
    Facts,
    not_entered,
    standing_of,
)
from foilwright.documents.day_record import DaySheet
from foilwright.documents.day_sheet import day_from_text, read_day
from foilwright.documents.examples import examples_folder
from foilwright.mistakes import Mistake, Mistakes

DAYS = examples_folder() / "days"
EVENING = (DAYS / "the-evening-before.toml").read_text(encoding="utf-8")
MORNING = (DAYS / "the-morning.toml").read_text(encoding="utf-8")


def wrong(text: str) -> list[Mistake]:
    try:
        day_from_text(text, "day.toml")
    except Mistake as one:
        return [one]
    except Mistakes as several:
        return list(several.found)
    return []


@pytest.mark.parametrize("path", sorted(DAYS.glob("*.toml")), ids=lambda path: path.stem)
def test_the_examples_are_read(path: Path) -> None:
    day = read_day(path)
    assert len(day.sailors) == 6
    assert len(day.boats) == 3
    assert day == DaySheet.model_validate(day.model_dump())


CONTRADICTIONS = {
    "last ashore before the first": (
        'last_ashore = "12:30"',
        'last_ashore = "09:30"',
        "not after the first launch",
    ),
    "no such time": ('first_launch = "10:00"', 'first_launch = "25:00"', "09:40"),
    "no such day": ('date = "2026-06-06"', 'date = "2026-02-30"', "must exist"),
    "no such zone": ('time_zone = "UTC+01:00"', 'time_zone = "beach time"', "UTC+02:00"),
    "wind low above high": ("low_kn = 9.0", "low_kn = 19.0", "rising order"),
    "gusts weaker than the mean": ("gust_kn = 18.0", "gust_kn = 8.0", "at least as strong"),
    "wind that cannot be": ("high_kn = 15.0", "high_kn = 150.0", "0 to 60 kn"),
    "a sailor twice": ('name = "Rowan"', 'name = "Teasel"', "Teasel twice"),
    "a boat twice": ('name = "Pipkin"', 'name = "Marram"', "Marram twice"),
    "neither file nor mass": ('file = "../sailors/teasel.toml"\n', "", "neither a file nor a mass band"),
    "file and mass": (
        'file = "../sailors/teasel.toml"',
        'file = "../sailors/teasel.toml"\nmass_band_kg = [70.0, 75.0]',
        "both",
    ),
    "a boat that is not there": ('boats = ["Pipkin", "Sedge"]', 'boats = ["Pipkn"]', "Did you mean Pipkin?"),
    "absent stranger": ("seed = 1", 'seed = 1\nabsent = ["Rowna"]', "Did you mean Rowan?"),
    "one rig on two boats": ('rig = "rig 2"', 'rig = "rig 1"', "which Marram has already"),
    "a rig that is not there": ('rig = "rig 2"', 'rig = "rig 9"', "not in the sheet"),
    "out of service for no reason": (
        'state = "in use with a note"',
        'state = "out of service"',
        "nobody's name",
    ),
    "a note that says nothing": ('note = "trampoline lacing to be looked at after sailing"\n', "", "no note"),
    "a limit in another unit": ('value = "18 kn"', 'value = "18 m"', "which is length"),
    "a limit that is no number": ('value = "3"', 'value = "some"', "a number"),
    "a limit twice": ('stage = "first-hops"\nby', "by", "the same limit twice"),
    "a limit for an unknown boat": ('boat = "Marram"\nby', 'boat = "Marra"\nby', "Did you mean Marram?"),
    "a birth date": ('name = "Rowan"', 'name = "Rowan"\nbirth_date = "2001-01-01"', "does not need"),
    "a misspelt field": ("likely_kn", "likly_kn", "likely_kn"),
    "another document": ('format = "foilwright/day"', 'format = "foilwright/boat"', "if this is a day sheet"),
}


@pytest.mark.parametrize("name", CONTRADICTIONS)
def test_a_contradiction_is_a_sentence(name: str) -> None:
    before, after, expected = CONTRADICTIONS[name]
    assert before in EVENING
    found = wrong(EVENING.replace(before, after, 1))
    assert any(expected in str(mistake) for mistake in found), found
    assert all(mistake.where.startswith("day.toml") and mistake.mend for mistake in found)


HAND = '\n[[hand_pairings]]\nsailors = ["{who}"]\nboat = "{boat}"\nwhy = "because"\nby = "Sorrel"\n'


@pytest.mark.parametrize(
    ("who", "boat", "expected"),
    [
        ("Rowan", "Sedge", "each sailor in one boat"),
        ("Teasel", "Marram", "each boat once"),
        ("Fern", "Sedge", "who is absent"),
        ("Teasel", "Sdge", "Did you mean Sedge?"),
        ("Taesel", "Sedge", "Did you mean Teasel?"),
    ],
)
def test_a_second_pairing_by_hand_must_not_contradict_the_first(who: str, boat: str, expected: str) -> None:
    found = wrong(MORNING + HAND.format(who=who, boat=boat))
    assert any(expected in str(mistake) for mistake in found), found


def test_nobody_is_paired_with_a_boat_out_of_service() -> None:
    out = 'foil_set = "foils A"\nstate = "out of service"\nnote = "crack at the strut"\nby = "Teasel"'
    found = wrong(MORNING.replace('foil_set = "foils A"', out, 1))
    assert any("only Teasel releases the boat" in str(mistake) for mistake in found)


def test_a_day_without_any_wind_is_refused() -> None:
    before, _, rest = EVENING.partition("[forecast]")
    found = wrong(before + "[water]" + rest.partition("[water]")[2])
    assert any("neither a forecast nor a measured wind" in str(mistake) for mistake in found)


def test_a_blank_limit_and_a_blank_day_are_unknown_alike() -> None:
    day = read_day(DAYS / "the-evening-before.toml")
    limits = tuple(entered(limit, "here") for limit in day.limits)
    blank = next(limit for limit in limits if limit.what == "water-temperature-least")
    facts = Facts({"water-temperature-least": 14.0})
    assert standing_of(blank, facts)[1:] == (UNKNOWN, 14.0, "the limit")
    depth = next(limit for limit in limits if limit.what == "depth-at-slip-least")
    assert standing_of(depth, Facts({}))[1:] == (UNKNOWN, None, "the depth at the slip")
    assert standing_of(depth, Facts({"depth-at-slip-least": 1.6})).how == EXCEEDED
    assert "air-temperature-least" in not_entered(limits)
    assert set(KINDS) == set(WHATS)


@pytest.mark.parametrize(("today", "how"), [(21.9, NOT_EXCEEDED), (22.0, NOT_EXCEEDED), (22.1, EXCEEDED)])
def test_a_most_is_exceeded_above_itself(today: float, how: str) -> None:
    limit = Entered("gust-most", 22.0, None, None, "Sorrel", "2026-03-01")
    assert standing_of(limit, Facts({"gust-most": today})).how == how
