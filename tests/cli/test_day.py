"""`day` at the command line: one JSON object, words for a person, exit codes, a sentence for wrong input."""

from __future__ import annotations

from pathlib import Path

import pytest

from foilwright.documents.day_answer import DayAnswer
from foilwright.documents.examples import examples_folder
from foilwright.words import unknown_keys
from tests.cli.test_answers import fits

HERE = examples_folder()
SHEET = f"""
format = "foilwright/day"
version = 1
date = "2026-06-06"
place = "Alder Mere"
time_zone = "UTC+01:00"
first_launch = "10:00"
last_ashore = "11:00"
[measured]
wind_kn = 10.0
how = "hand gauge"
[[sailors]]
name = "Tansy"
file = "{(HERE / "sailors" / "tansy.toml").as_posix()}"
[[boats]]
name = "Pipkin"
file = "{(HERE / "boats" / "pipkin.toml").as_posix()}"
"""


@pytest.mark.usefixtures("compiled_wind", "compiled_physics")
def test_a_day_answers_in_json_and_in_words(foilwright, tmp_path: Path) -> None:
    sheet = tmp_path / "day.toml"
    sheet.write_text(SHEET, encoding="utf-8")
    said = foilwright("day", sheet, "--out", tmp_path / "out", "--json")
    assert said.code == 0
    fits(said.answer, DayAnswer)
    assert not unknown_keys(said.answer)
    assert "Tansy in Pipkin" in said.err
    words = foilwright("day", sheet, "--out", tmp_path / "out")
    assert words.code == 0
    for sentence in (
        "Pipkin: Tansy (improving)",
        "UNKNOWN",
        "Nothing here permits anything",
        "Tried: 1 crews",
    ):
        assert sentence in words.out


@pytest.mark.usefixtures("compiled_wind", "compiled_physics")
def test_nobody_in_a_boat_is_an_honest_cannot(foilwright, tmp_path: Path) -> None:
    sheet = tmp_path / "day.toml"
    sheet.write_text(SHEET.replace("wind_kn = 10.0", "wind_kn = 1.0"), encoding="utf-8")
    said = foilwright("day", sheet, "--out", tmp_path / "out", "--json")
    assert said.code == 3
    assert said.answer["cards"] == []
    assert "kn more in Pipkin" in said.answer["not_today"][0]["sentence"]


@pytest.mark.parametrize(
    ("before", "after", "where"),
    [
        ('how = "hand gauge"', 'how = "by eye"', "measured.how"),
        ('last_ashore = "11:00"', 'last_ashore = "09:00"', "last_ashore"),
        ('name = "Pipkin"', 'name = "Pipkin"\nfound_at = {wand-length = 40}', "found_at"),
        ('name = "Pipkin"', 'name = "Pipkin"\nfound_at = {wand-lenght = 1}', "found_at"),
    ],
)
def test_wrong_input_is_a_sentence(foilwright, tmp_path: Path, before: str, after: str, where: str) -> None:
    sheet = tmp_path / "day.toml"
    sheet.write_text(SHEET.replace(before, after), encoding="utf-8")
    said = foilwright("day", sheet, "--out", tmp_path / "out", "--json")
    assert said.code == 2
    assert where in said.answer["error"]["where"]
    assert not (tmp_path / "out").exists()


def test_check_knows_a_day_sheet(foilwright) -> None:
    said = foilwright("check", *sorted((HERE / "days").glob("*.toml")), "--json")
    assert said.code == 0
    assert [one["kind"] for one in said.answer["files"]] == ["day", "day"]


@pytest.mark.usefixtures("compiled_wind", "compiled_physics")
def test_stopped_it_ends_with_four_and_goes_on(foilwright, tmp_path: Path, monkeypatch) -> None:
    from foilwright.cli.show_day import Told

    sheet = tmp_path / "day.toml"
    sheet.write_text(SHEET, encoding="utf-8")

    def stop(self: Told, progress) -> None:
        if progress.what.startswith("settings"):
            raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        patched.setattr(Told, "__call__", stop)
        said = foilwright("day", sheet, "--out", tmp_path / "out")
    assert said.code == 4
    assert "stopped" in said.err
    assert len(list((tmp_path / "out" / "kept").glob("*.json"))) == 1, "the crew looked at is kept"
    assert foilwright("day", sheet, "--out", tmp_path / "out").code == 0
