"""What the page asks: good questions have answers, bad ones a sentence that names the field."""

import json
from pathlib import Path
from typing import Any

import pytest

from foilwright.documents.examples import examples_folder
from foilwright.web import app as app_module
from tests.web.asking import Asking, fault_of

pytestmark = pytest.mark.usefixtures("compiled_physics")
MARRAM: dict[str, Any] = {"boat": "Marram"}
SHEET = (examples_folder() / "bench" / "marram-bench.csv").read_text(encoding="utf-8")
SAME = {"boat_a": "Marram", "adjuster_a": "main-rod", "boat_b": "Sedge", "adjuster_b": "main-rod"}

GOOD = [
    ("/ask/drawing", MARRAM),
    ("/ask/drawing", {"boat": "Marram by its curve", "set": "main-rod=1"}),
    ("/ask/drawing", {**MARRAM, "version": 0, "sailor": "72", "heel": "-10", "water": "sea"}),
    ("/ask/sweep", {**MARRAM, "speed": "10:14:2", "take_off": "false"}),
    ("/ask/sweep", {**MARRAM, "speed": "12"}),
    ("/ask/wind", {**MARRAM, "wind": "12", "needed": "false"}),
    ("/ask/wind-ready", {}),
    ("/ask/effects", {**MARRAM, "speed": "12"}),
    ("/ask/assumed", MARRAM),
    ("/ask/same-as", SAME),
]

# Question, and the field that its refusal must name.
BAD = [
    ("/ask/drawing", {}, "boat"),
    ("/ask/drawing", {"boat": ""}, "boat"),
    ("/ask/drawing", {"boat": "Nobody's"}, "boat"),
    ("/ask/drawing", {"boat": "x" * 81}, "boat"),
    ("/ask/drawing", {"boat": "Marram\0"}, "boat"),
    ("/ask/drawing", {"boat": "../../examples/boats/marram.toml"}, "boat"),
    ("/ask/drawing", {**MARRAM, "version": "first"}, "version"),
    ("/ask/drawing", {**MARRAM, "version": -1}, "version"),
    ("/ask/drawing", {**MARRAM, "version": 2**31}, "version"),
    ("/ask/drawing", {**MARRAM, "version": 77}, "version 77"),
    ("/ask/drawing", {**MARRAM, "sailor": "heavy"}, "sailor"),
    ("/ask/drawing", {**MARRAM, "sailor": "nan"}, "sailor"),
    ("/ask/drawing", {**MARRAM, "sailor": "5"}, "sailor"),
    ("/ask/drawing", {**MARRAM, "sailor": "pyproject.toml"}, "sailor"),
    ("/ask/drawing", {**MARRAM, "sailor": "ash.TOML "}, "sailor"),
    ("/ask/drawing", {**MARRAM, "set": "main-rod"}, "set"),
    ("/ask/drawing", {**MARRAM, "set": "main-rod=many"}, "set main-rod"),
    ("/ask/drawing", {**MARRAM, "set": "main-rod=900"}, "set"),
    ("/ask/drawing", {**MARRAM, "set": "no-such=1"}, "set"),
    ("/ask/drawing", {**MARRAM, "set": ["main-rod=1", "main-rod=2"]}, "set"),
    ("/ask/drawing", {**MARRAM, "set": ["main-rod=1"] * 31}, "set"),
    ("/ask/drawing", {**MARRAM, "heel": "90"}, "heel"),
    ("/ask/drawing", {**MARRAM, "heel": "inf"}, "heel"),
    ("/ask/drawing", {**MARRAM, "water": "milk"}, "water"),
    ("/ask/drawing", {**MARRAM, "temperature": "99"}, "temperature"),
    ("/ask/sweep", {**MARRAM, "speed": ""}, "speed"),
    ("/ask/sweep", {**MARRAM, "speed": "0:60:0.001"}, "speed"),
    ("/ask/sweep", {**MARRAM, "speed": "1:2:3:4"}, "speed"),
    ("/ask/sweep", {**MARRAM, "take_off": "perhaps"}, "take_off"),
    ("/ask/wind", {**MARRAM, "wind": ""}, "wind"),
    ("/ask/wind", {**MARRAM, "wind": "0"}, "wind"),
    ("/ask/wind", {**MARRAM, "wind": "99"}, "wind"),
    ("/ask/wind", {**MARRAM, "wind": "strong"}, "wind"),
    ("/ask/wind", {**MARRAM, "wind": "4:99:1"}, "wind"),
    ("/ask/wind", {**MARRAM, "wind": "4:24:0.1"}, "wind"),
    ("/ask/wind", {**MARRAM, "angle": ""}, "angle"),
    ("/ask/wind", {**MARRAM, "angle": "0"}, "angle"),
    ("/ask/wind", {**MARRAM, "angle": "180"}, "angle"),
    ("/ask/wind", {**MARRAM, "angle": "400"}, "angle"),
    ("/ask/wind", {**MARRAM, "angle": "abeam"}, "angle"),
    ("/ask/wind", {**MARRAM, "angle": "40:90:5"}, "angle"),
    ("/ask/wind", {**MARRAM, "measured": "by eye"}, "measured"),
    ("/ask/effects", {**MARRAM, "speed": "10:14:1"}, "speed"),
    ("/ask/effects", {**MARRAM, "speed": "fast"}, "speed"),
    ("/ask/same-as", {**SAME, "adjuster_b": "no-such"}, "Sedge"),
    ("/ask/same-as", {**SAME, "boat_b": "Nobody's"}, "boat"),
    ("/ask/same-as", {**SAME, "sailor_b": "x.toml"}, "sailor_b"),
    ("/ask/same-as", {}, "boat_a"),
]


@pytest.mark.parametrize(("path", "query"), GOOD)
def test_good_questions_have_answers(looking: Asking, path: str, query: dict[str, Any]):
    answer = looking.get(path, query)
    assert answer.status_code == 200, answer.text
    told = answer.json()
    assert told["format"].startswith("foilwright/") and told["version"] == 1
    assert "NaN" not in answer.text and "Infinity" not in answer.text


@pytest.mark.parametrize(("path", "query", "where"), BAD)
def test_bad_questions_have_a_sentence(looking: Asking, path: str, query: dict[str, Any], where: str):
    answer = looking.get(path, query)
    assert answer.status_code == 422, answer.text
    assert fault_of(answer)["where"] == where


def test_a_decimal_comma_is_as_good_as_a_point(looking: Asking):
    with_comma = {**MARRAM, "sailor": "72,5", "set": "main-rod=+0,5", "heel": "1,5", "temperature": "12,5"}
    with_point = {name: value.replace(",", ".") for name, value in with_comma.items()}
    for path, speed in (("/ask/drawing", {}), ("/ask/sweep", {"speed": "12,5"})):
        told = looking.get(path, {**with_comma, **speed})
        assert told.status_code == 200, told.text
        same = looking.get(path, {**with_point, **({"speed": "12.5"} if speed else {})})
        assert told.json() == same.json()


def test_a_decimal_comma_in_a_wind(looking: Asking):
    with_comma = {**MARRAM, "wind": "7,5", "angle": "92,5", "needed": "false"}
    with_point = {**with_comma, "wind": "7.5", "angle": "92.5"}
    told = looking.get("/ask/wind", with_comma)
    assert told.status_code == 200, told.text
    assert told.json() == looking.get("/ask/wind", with_point).json()
    assert told.json()["wind_angle_deg"] == 92.5 and told.json()["winds_kn"] == [7.5]


def test_the_physics_of_sailing_is_got_ready_once_and_only_where_it_is_asked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    begun: list[str] = []
    monkeypatch.setattr(app_module, "warm_up_wind", lambda: begun.append("wind"))
    made = app_module.application(tmp_path / "store", warm=True)  # its own warming up waits for a server
    ask = Asking(made)
    ask.get("/ask/drawing", MARRAM)
    assert begun == []
    for _ in range(3):
        ask.get("/ask/wind", {**MARRAM, "angle": "400"})
    made.state.store.close()
    assert begun == ["wind"]


def test_the_drawing_says_which_version_it_is(ask: Asking):
    assert ask.get("/ask/drawing", MARRAM).json()["version_id"] == 0
    saved = ask.post("/boats/Marram/settings", {"settings": {"main-rod": 1}, "made_from": 0}).json()
    assert ask.get("/ask/drawing", MARRAM).json()["version_id"] == saved["version_id"]
    assert ask.get("/ask/drawing", {**MARRAM, "version": 0}).json()["version_id"] == 0


def test_a_sheet_is_fitted_and_nothing_is_kept(looking: Asking):
    answer = looking.post("/ask/bench-fit", {"boat": "Marram", "sheet": SHEET})
    assert answer.status_code == 200, answer.text
    assert answer.json()["readings"] > 10
    assert looking.get("/boats/trail").json()["entries"] == []


def test_the_fitted_chain_is_that_of_the_boat_as_it_is_kept(ask: Asking):
    fitted = ask.post("/ask/bench-fit", {"boat": "Marram", "sheet": SHEET, "set": ["main-rod=1,5"]}).json()
    saved = ask.post("/boats/Marram/measured", {"sheet": SHEET, "made_from": 0}).json()
    kept = ask.get("/ask/drawing", {**MARRAM, "version": saved["version_id"], "set": "main-rod=1.5"}).json()
    for name in ("foil_deg", "gearing", "slop_deg", "edge_mm"):
        assert fitted["chain"][name] == pytest.approx(kept["chain"][name], abs=0.01), name
    drawn = ask.get("/ask/drawing", {**MARRAM, "version": 0, "set": "main-rod=1.5"}).json()
    assert fitted["chain"]["foil_deg"] != drawn["chain"]["foil_deg"]


@pytest.mark.parametrize(
    ("body", "where"),
    [
        ({}, "boat"),
        ([], "boat"),
        ({"boat": "Marram"}, "sheet"),
        ({"boat": "Marram", "sheet": ""}, "sheet"),
        ({"boat": "Marram", "sheet": " \n "}, "sheet"),
        ({"boat": "Marram", "sheet": "rubbish"}, "sheet.csv, line 1"),
        ({"boat": "Marram", "sheet": 'a,"b\n'}, "sheet.csv, line 1"),
        ({"boat": "Marram", "sheet": 7}, "sheet"),
        ({"boat": "Marram", "sheet": "x" * 200_001}, "sheet"),
        ({"boat": "Marram", "sheet": "a\0b"}, "sheet"),
        ({"boat": 7, "sheet": SHEET}, "boat"),
        ({"boat": "\ud800", "sheet": SHEET}, "boat"),
        ({"boat": "Nobody's", "sheet": SHEET}, "boat"),
        ({"boat": "Marram", "sheet": SHEET, "version": 1.5}, "version"),
        ({"boat": "Marram", "sheet": SHEET, "version": 9}, "version 9"),
        ({"boat": "Marram", "sheet": SHEET, "set": ["main-rod=far"]}, "set main-rod"),
        ({"boat": "Marram", "sheet": SHEET, "set": "main-rod=1"}, "set"),
    ],
)
def test_a_bad_sheet_has_a_sentence(looking: Asking, body: Any, where: str):
    answer = looking.post("/ask/bench-fit", body)
    assert answer.status_code == 422, answer.text
    assert fault_of(answer)["where"] == where


def test_a_sheet_for_another_boat_is_told(looking: Asking):
    fault = fault_of(looking.post("/ask/bench-fit", {"boat": "Sedge", "sheet": SHEET}))
    assert "Marram" in json.dumps(fault)


@pytest.mark.parametrize(
    "raw",
    [b"", b"{", b"\xff\xfe{}", b"[" * 100_000, b'{"trail_id": ' + b"1" * 5000 + b"}", b"null", b'"words"'],
)
def test_a_message_that_cannot_be_read_is_told(looking: Asking, raw: bytes):
    answer = looking("POST", "/boats/undo", raw=raw)
    assert answer.status_code in (400, 422)
    fault_of(answer)


def test_another_kind_of_message_is_told(looking: Asking):
    answer = looking("POST", "/boats/undo", raw=b"trail_id=1", headers={"Content-Type": "text/plain"})
    assert answer.status_code == 422
    fault_of(answer)
