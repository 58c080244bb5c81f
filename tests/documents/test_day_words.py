"""A day in words: both figures of the wind, unknown as loud as exceeded, and not today without a body."""

from __future__ import annotations

import re

import pytest

from foilwright.documents import coach_texts, day_texts
from foilwright.documents.day_changes import lines_as_kept, lines_before, marked
from foilwright.documents.day_checks import entered
from foilwright.documents.day_limits import Facts
from foilwright.documents.day_record import DaySheet
from foilwright.documents.day_sheet import day_from_text, read_day
from foilwright.documents.day_weather import facts_of, wind_today
from foilwright.documents.day_words import not_today_words, warned_lines, water_line, wind_lines
from foilwright.documents.examples import examples_folder
from foilwright.documents.fleet_sheet import FleetLine
from foilwright.paper import fleet_texts
from foilwright.setup.pairing import NotToday
from foilwright.units import from_si, to_si

DAYS = examples_folder() / "days"
EVENING = (DAYS / "the-evening-before.toml").read_text(encoding="utf-8")
BODY = re.compile(
    r"\b(weigh\w*|heav\w*|light(?!est)\w*|mass\w*|kg|age|old|small|tall|short|fat|body|child\w*)\b", re.I
)
LEAVE = re.compile(
    r"\b(go ahead|safe to|good to go|ok to|okay|cleared|fit to sail|you may sail|permitted)\b|✓|✔", re.I
)


def evening() -> DaySheet:
    return read_day(DAYS / "the-evening-before.toml")


def morning() -> DaySheet:
    return read_day(DAYS / "the-morning.toml")


def test_a_measured_wind_takes_the_place_of_the_forecast_and_both_figures_are_shown() -> None:
    wind = wind_today(morning())
    assert from_si(wind.at_ten.likely, "kn") == pytest.approx(11.5 / 0.838, rel=0.01)
    assert from_si(wind.by_hand.likely, "kn") == pytest.approx(11.5, rel=1e-6)
    told, measured, ten = wind_lines(morning(), wind)
    assert told.startswith("Forecast at 10 m: 9 to 15 kn")
    assert measured.startswith("Measured (hand gauge, 2 m): 9.5 to 14 kn, now 11.5 kn")
    assert "At 10 m that is" in ten
    assert "14 kn" in ten


def test_a_forecast_is_shown_on_the_hand_gauge_too() -> None:
    told, hand = wind_lines(evening(), wind_today(evening()))
    assert "most likely 12 kn, gusts 18 kn, from 240°" in told
    assert hand == "On a hand gauge at 2 m that is 8 to 13 kn, most likely 10 kn, gusts 15 kn."


def test_the_doubt_of_a_hand_gauge_widens_the_spread() -> None:
    by_hand, by_mast = (
        wind_today(
            day_from_text(
                EVENING.replace("[water]", f'[measured]\nwind_kn = 10.0\nhow = "{how}"\n\n[water]', 1), "d"
            )
        )
        for how in ("hand gauge", "mast")
    )
    widths = [(one.at_ten.high - one.at_ten.low) / one.at_ten.likely for one in (by_hand, by_mast)]
    assert widths[0] > widths[1] > 0.3
    assert not by_hand.spread


def test_exceeded_and_unknown_stand_in_one_list_and_look_the_same() -> None:
    day = evening()
    limits = [entered(limit, "here") for limit in day.limits]
    lines = warned_lines(day, limits, facts_of(day, wind_today(day), 3), 3)
    starts = [line.split(":")[0] for line in lines]
    assert set(starts) == {"EXCEEDED", "UNKNOWN"}
    assert any("depth at the slip, at least 1.8 m" in line and "today 1.6 m" in line for line in lines)
    assert any("water temperature" in line and "left blank" in line for line in lines)
    assert any("kill cord" in line and "nobody has looked" in line for line in lines)
    assert any("no limit for" in line and "air temperature" in line for line in lines)
    assert not any("radio check" in line for line in lines)


def test_a_day_that_is_silent_is_unknown_for_every_limit() -> None:
    day = evening()
    limits = [entered(limit, "here") for limit in day.limits]
    lines = warned_lines(day, limits, Facts({}), 3)
    assert sum("is not in the day sheet" in line for line in lines) == len(limits) - 1
    assert "UNKNOWN" in water_line(DaySheet.model_validate({**day.model_dump(), "water": {}}))


def test_boats_afloat_without_a_safety_boat_are_named() -> None:
    day = day_from_text(EVENING.replace("safety_boats = 1", "safety_boats = 0"), "day.toml")
    limits = [entered(limit, "here") for limit in day.limits]
    lines = warned_lines(day, limits, facts_of(day, wind_today(day), 3), 3)
    assert day_texts.NO_SAFETY_BOAT in lines
    assert any("today no manned safety boat" in line for line in lines)


@pytest.mark.parametrize(
    ("one", "words"),
    [
        (
            NotToday("Ash", "more wind", "Marram", to_si(2.1, "kn")),
            "Will not fly in this wind: 2 kn more in Marram, or Pipkin.",
        ),
        (
            NotToday("Ash", "less wind", "Marram", to_si(3.0, "kn")),
            "Too much wind to fly with its margins: 3 kn less in Marram, or Pipkin.",
        ),
        (NotToday("Ash", "boat taken", "Marram"), day_texts.BOAT_TAKEN.format(boat="Marram")),
        (NotToday("Ash", "other boat", "Marram"), day_texts.OTHER_BOAT.format(most="27 kn")),
    ],
)
def test_not_today_is_said_by_wind_and_boat(one: NotToday, words: str) -> None:
    assert not_today_words(one, "Pipkin", to_si(27.0, "kn")) == words


def sentences(module: object) -> list[str]:
    found: list[str] = []
    for name, value in vars(module).items():
        if name.isupper():
            found += [value] if isinstance(value, str) else [str(one) for one in value]
    return found


def test_no_sentence_gives_leave_or_names_a_body_where_others_see_it() -> None:
    for module in (day_texts, fleet_texts, coach_texts):
        for sentence in sentences(module):
            assert not LEAVE.search(sentence), sentence
    for sentence in sentences(fleet_texts):
        assert not BODY.search(sentence), sentence
    for name in ("MORE_WIND", "LESS_WIND", "OR_BOAT", "BOAT_TAKEN", "OTHER_BOAT", "NO_BOAT", "BAR_LIMIT"):
        assert not BODY.search(getattr(day_texts, name))


def line(boat: str, people: str, settings: str = "main rod at the mark") -> FleetLine:
    return FleetLine(tuple(people.split()), boat, "6.9", "foils A", (settings,), "first", "", ())


def test_only_what_changed_is_marked() -> None:
    before = lines_as_kept([line("Marram", "Ash"), line("Sedge", "Rowan Hazel")])
    now = [
        line("Marram", "Ash", "main rod 1 turn more"),
        line("Sedge", "Rowan Tansy"),
        line("Pipkin", "Fern"),
    ]
    marks = [one.changed for one in marked(now, before)]
    assert marks == [("settings",), ("crew",), ("new",)]
    assert [one.changed for one in marked(now, None)] == [(), (), ()]
    assert all(not one.changed for one in marked(now, lines_as_kept(now)))


def test_the_marks_stay_when_the_same_day_sheet_is_run_again() -> None:
    first = lines_as_kept([line("Marram", "Ash")])
    second = lines_as_kept([line("Marram", "Rowan")])
    assert lines_before(None, "a") is None
    assert lines_before({"sheet": "a", "lines": first, "before": None}, "b") == first
    assert lines_before({"sheet": "b", "lines": second, "before": first}, "b") == first
