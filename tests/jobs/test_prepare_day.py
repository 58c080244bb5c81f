"""A day from sheet to sheets: pairings, who not today, what is kept, changes marked, stopped and gone on."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path

import pypdf
import pytest

from foilwright.documents.day_answer import DayAnswer
from foilwright.documents.examples import examples_folder
from foilwright.jobs.kept_results import kept_or_made, read_kept
from foilwright.jobs.prepare_day import Progress, prepare_day
from foilwright.mistakes import Mistake
from foilwright.words import unknown_keys

pytestmark = pytest.mark.usefixtures("compiled_wind", "compiled_physics")
HERE = examples_folder()
SMALL = f"""
format = "foilwright/day"
version = 1
date = "2026-06-06"
place = "Alder Mere"
time_zone = "UTC+01:00"
first_launch = "10:00"
last_ashore = "11:00"
safety_boats = 1
notes = "Invented."
[forecast]
low_kn = 10.0
likely_kn = 12.0
high_kn = 14.0
[water]
wave_height_cm = 10.0
[[sailors]]
name = "Rowan"
file = "{(HERE / "sailors" / "rowan.toml").as_posix()}"
boats = ["Marram"]
[[sailors]]
name = "Tansy"
file = "{(HERE / "sailors" / "tansy.toml").as_posix()}"
aim = "longer-flights"
boats = ["Pipkin"]
[[sailors]]
name = "Fern"
mass_band_kg = [38.0, 42.0]
stage = "first-hops"
aim = "taking-off"
boats = ["Pipkin"]
[[boats]]
name = "Marram"
file = "{(HERE / "boats" / "marram.toml").as_posix()}"
[[boats]]
name = "Pipkin"
file = "{(HERE / "boats" / "pipkin.toml").as_posix()}"
[[limits]]
what = "gust-most"
value = "22 kn"
by = "Sorrel"
date = "2026-03-01"
"""


class Prepared:
    """A folder and what its last run told and answered."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.steps = folder, list[Progress]()

    def run(self, text: str) -> DayAnswer:
        sheet = self.folder / "day.toml"
        sheet.write_text(text, encoding="utf-8")
        self.steps.clear()
        return prepare_day(sheet, self.folder / "out", self.steps.append)

    def words(self, name: str) -> str:
        reader = pypdf.PdfReader(io.BytesIO((self.folder / "out" / name).read_bytes()))
        return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in reader.pages))


@pytest.fixture(scope="module")
def prepared(
    tmp_path_factory: pytest.TempPathFactory, compiled_wind: None, compiled_physics: None
) -> tuple[Prepared, DayAnswer]:
    made = Prepared(tmp_path_factory.mktemp("day"))
    return made, made.run(SMALL)


def test_a_day_gives_cards_sheets_and_who_not_today(prepared: tuple[Prepared, DayAnswer]) -> None:
    _, answer = prepared
    assert [card["boat"] for card in answer["cards"]] == ["Marram", "Pipkin"]
    assert answer["cards"][0]["sailors"] == ["Rowan"]
    assert [one["sailor"] for one in answer["not_today"]] in (["Fern"], ["Tansy"])
    assert answer["not_today"][0]["sentence"].startswith("Pipkin would fly, and is taken")
    for name in ("fleet_sheet", "pencil_slate", "coach"):
        assert Path(answer[name]).is_file()
    for card in answer["cards"]:
        assert Path(str(card["file"])).is_file()
        assert len(card["columns"]) == 3
        assert [column["wind_kn"] for column in card["columns"]] == [10.0, 12.0, 14.0]
        assert all(column["wind_by_hand_kn"] < column["wind_kn"] for column in card["columns"])
        assert 1 <= len(card["suggested"]) <= 3
        assert len(card["settings_words"]) == 2
    assert answer["tried"]["prospects"] == 3
    assert not unknown_keys(answer)
    json.dumps(answer, allow_nan=False)


def test_limits_that_were_never_entered_and_gusts_that_nobody_gave_are_named(
    prepared: tuple[Prepared, DayAnswer],
) -> None:
    made, answer = prepared
    words = made.words("fleet-sheet.pdf")
    assert "gusts UNKNOWN" in words
    for line in answer["summary"]["warned"]:
        assert line.split(":")[0] in ("EXCEEDED", "UNKNOWN")
        assert line.split(":")[1].split(",")[0].strip()[:25] in words
    assert any("the gusts is not in the day sheet" in line for line in answer["summary"]["warned"])


def test_reasons_and_masses_are_in_the_coachs_view_alone(prepared: tuple[Prepared, DayAnswer]) -> None:
    made, answer = prepared
    coach = Path(answer["coach"]).read_text(encoding="utf-8")
    assert "Rowan 64 kg" in coach
    assert "takes off from" in coach
    assert "For the coach alone" in coach
    for name in ("fleet-sheet.pdf", "pencil-slate.pdf", "marram-card.pdf"):
        assert not re.search(r"\bkg\b|takes off from .* wind", made.words(name))
    assert " kg" not in json.dumps(answer)


def test_an_absence_is_answered_from_what_is_kept_and_only_changes_are_marked(
    prepared: tuple[Prepared, DayAnswer],
) -> None:
    made, before = prepared
    who = before["cards"][1]["sailors"][0]
    answer = made.run(SMALL.replace("safety_boats", f'absent = ["{who}"]\nsafety_boats'))
    assert answer["summary"]["absent"] == [who]
    assert [one.split(":")[0] for one in answer["summary"]["changed"]] == ["Pipkin"]
    assert "crew" in answer["summary"]["changed"][0]
    assert not answer["not_today"]
    made_new = [step for step in made.steps if step.what.startswith("settings")]
    assert len(made_new) == 2
    words = made.words("fleet-sheet.pdf")
    assert "CHANGED: crew" in words
    again = made.run(SMALL.replace("safety_boats", f'absent = ["{who}"]\nsafety_boats'))
    assert again == answer
    back = made.run(SMALL)
    assert [card["sailors"] for card in back["cards"]] == [card["sailors"] for card in before["cards"]]


def test_same_input_same_answer(prepared: tuple[Prepared, DayAnswer], tmp_path: Path) -> None:
    made, _ = prepared
    answer = made.run(SMALL)
    sheets = [(made.folder / "out" / name).read_bytes() for name in ("fleet-sheet.pdf", "pencil-slate.pdf")]
    assert made.run(SMALL) == answer
    assert sheets == [
        (made.folder / "out" / name).read_bytes() for name in ("fleet-sheet.pdf", "pencil-slate.pdf")
    ]


def test_stopped_it_keeps_what_is_done(prepared: tuple[Prepared, DayAnswer], tmp_path: Path) -> None:
    sheet = tmp_path / "day.toml"
    sheet.write_text(SMALL, encoding="utf-8")

    def stop(progress: Progress) -> None:
        if progress.done == 2:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        prepare_day(sheet, tmp_path / "out", stop)
    kept = sorted((tmp_path / "out" / "kept").glob("*.json"))
    assert len(kept) == 2
    assert not list((tmp_path / "out" / "kept").glob(".*"))


def test_out_of_service_gets_no_card(prepared: tuple[Prepared, DayAnswer]) -> None:
    made, _ = prepared
    out = '[[boats]]\nname = "Pipkin"\nstate = "out of service"\nnote = "crack at the strut"\nby = "Teasel"'
    answer = made.run(SMALL.replace('[[boats]]\nname = "Pipkin"', out))
    assert [card["boat"] for card in answer["cards"]] == ["Marram"]
    assert answer["summary"]["out_of_service"] == [
        "Pipkin: out of service (Teasel): crack at the strut. No card; Teasel releases it."
    ]
    assert {one["sailor"] for one in answer["not_today"]} == {"Tansy", "Fern"}
    made.run(SMALL)


def test_a_pairing_by_hand_stands_and_its_reason_is_kept(prepared: tuple[Prepared, DayAnswer]) -> None:
    made, before = prepared
    other = before["not_today"][0]["sailor"]
    hand = f'[[hand_pairings]]\nsailors = ["{other}"]\nboat = "Pipkin"\nwhy = "their turn"\nby = "Sorrel"\n'
    answer = made.run(SMALL + hand)
    card = answer["cards"][1]
    assert card["sailors"] == [other]
    assert card["by_hand"]
    assert "Set by hand by Sorrel: their turn." in Path(answer["coach"]).read_text(encoding="utf-8")
    with pytest.raises(Mistake, match="2 aboard Pipkin"):
        made.run(SMALL + hand.replace(f'["{other}"]', '["Tansy", "Fern"]'))
    made.run(SMALL)


def test_a_stage_kept_ashore_by_a_limit_is_told_by_wind(prepared: tuple[Prepared, DayAnswer]) -> None:
    made, _ = prepared
    limit = (
        '[[limits]]\nwhat = "mean-wind-most"\nvalue = "11 kn"\nstage = "improving"\n'
        'by = "Sorrel"\ndate = "2026-03-01"\n'
    )
    answer = made.run(SMALL.replace('stage = "first-hops"', 'stage = "improving"') + limit)
    assert {one["sailor"] for one in answer["not_today"]} == {"Tansy", "Fern"}
    assert "mean wind at 10 m at most 11 kn; today 14 kn" in answer["not_today"][0]["sentence"]
    assert any(line.startswith("EXCEEDED: mean wind") for line in answer["summary"]["warned"])
    made.run(SMALL)


def test_hardly_any_wind_is_a_sentence_for_everybody(prepared: tuple[Prepared, DayAnswer]) -> None:
    made, _ = prepared
    calm = SMALL.replace("low_kn = 10.0", "low_kn = 0.0").replace("likely_kn = 12.0", "likely_kn = 2.0")
    answer = made.run(calm.replace("high_kn = 14.0", "high_kn = 4.0"))
    assert answer["cards"] == []
    assert len(answer["not_today"]) == 3
    for one in answer["not_today"]:
        assert re.search(r"Will not fly in this wind: [\d.]+ kn more in (Marram|Pipkin)", one["sentence"])
        assert one["wind_change_kn"] is not None
        assert one["wind_change_kn"] > 0.0
    made.run(SMALL)


def test_a_kept_file_that_cannot_be_read_is_made_again(tmp_path: Path) -> None:
    (tmp_path / "kept").mkdir()
    (tmp_path / "kept" / "k.json").write_text("{half", encoding="utf-8")
    assert kept_or_made(tmp_path, "k", lambda: {"a": 1}) == ({"a": 1}, False)
    assert kept_or_made(tmp_path, "k", lambda: {"a": 2}) == ({"a": 1}, True)
    assert read_kept(tmp_path / "nothing.json") is None


def test_a_missing_boat_file_is_a_sentence(tmp_path: Path) -> None:
    sheet = tmp_path / "day.toml"
    sheet.write_text(SMALL.replace("pipkin.toml", "pipkn.toml"), encoding="utf-8")
    with pytest.raises(Mistake, match="no such file"):
        prepare_day(sheet, tmp_path / "out")


def test_the_paper_card_has_three_winds_and_is_whole(prepared: tuple[Prepared, DayAnswer]) -> None:
    made, answer = prepared
    made.run(SMALL)
    words = " ".join(made.words("pipkin-card.pdf").split())
    for part in (
        "low likely high",
        "hand gauge at 2 m",
        "run to take-off",
        "Swing check",
        "found left",
        "Change if",
        "Take care",
        "For this day and wind only: 2026-06-06, Alder Mere",
        "to windward",
    ):
        assert part in words, part
    for card in answer["cards"]:
        for column in card["columns"]:
            assert column["wind_by_hand_kn"] < column["wind_kn"]
    assert len(pypdf.PdfReader(made.folder / "out" / "cards-two-to-a4.pdf").pages) == 1
