"""Wrong input: one sentence with the place and the mend, exit code 2, no traceback, nothing half-written."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from foilwright.documents.examples import example

FLY = ("fly", "marram", "--sailor", "75")
WRONG_LINES = [
    ((*FLY, "--speed", "24:4"), "backwards"),
    ((*FLY, "--speed", "4:24:0"), "step"),
    ((*FLY, "--speed", "0:4"), "0.5 to 60 kn"),
    ((*FLY, "--speed", "4:24:0.001"), "rows"),
    ((*FLY, "--speed", "12kg"), "mass, not speed"),
    ((*FLY, "--speed", "12,5"), "12.5, with a point"),
    ((*FLY, "--speed", "nan"), "12kn"),
    ((*FLY, "--speed", "1:2:3:4"), "FROM:TO:STEP"),
    (("fly", "marram", "--sailor", "0"), "25 to 250 kg"),
    (("fly", "marram", "--sailor", "400kg"), "25 to 250 kg"),
    (("fly", "marram", "--sailor", "heavy"), "--sailor"),
    (("fly", "marram", "--sailor", "nobody.toml"), "no such file"),
    (("fly", "marram"), "--sailor"),
    ((*FLY, "--set", "mian-rod=2"), "Did you mean main-rod?"),
    ((*FLY, "--set", "main-rod=9"), "-8 to +8"),
    ((*FLY, "--set", "main-rod"), "NAME=STEPS"),
    ((*FLY, "--set", "main-rod=2mm"), "length, not count"),
    ((*FLY, "--set", "main-rod=1", "--set", "main-rod=2"), "twice"),
    ((*FLY, "--heel", "80"), "-45 to 45 deg"),
    ((*FLY, "--water", "salt"), "fresh, sea"),
    ((*FLY, "--temperature", "90"), "-2 to 40"),
    ((*FLY, "--lang", "xx"), "en"),
    ((*FLY, "--spede", "4"), "--speed"),
    ((*FLY, "--json=yes"), "--json"),
    (("fly",), "BOAT"),
    (("flie", "marram"), "fly"),
    (("chain", "marram", "--wand", "90:0"), "backwards"),
    (("chain", "marram", "--wand", "0:400"), "-60 to 150 deg"),
    (("card", "marram", "--sailor", "75"), "--out"),
    (("card", "marram", "--sailor", "75", "--form", "phone", "--out", "x.html"), "not made yet"),
    (("card", "marram", "--sailor", "75", "--form", "poster", "--out", "x.pdf"), "paper, html or text"),
    (("card", "marram", "--sailor", "75", "--stage", "ace", "--out", "x.pdf"), "improving"),
    (("card", "marram", "--sailor", "75", "--speed", "12", "--out", "no-such-folder/x.pdf"), "folder"),
    (("check",), "FILE"),
    (("check", "no-such-file.toml", "--json"), "no such file"),
]


@pytest.mark.parametrize(
    ("arguments", "hint"), WRONG_LINES, ids=lambda x: " ".join(x) if isinstance(x, tuple) else ""
)
def test_a_sentence_and_exit_code_2(foilwright, monkeypatch, tmp_path, arguments, hint):
    monkeypatch.chdir(tmp_path)
    said = foilwright(*arguments)
    words = said.out if "--json" in arguments else said.err
    assert said.code == 2
    assert hint in words
    assert "Traceback" not in said.err and "Error" not in said.err
    if "--json" not in arguments and arguments[0] != "check":
        assert said.out == ""
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "arguments",
    [line for line, _ in WRONG_LINES if "--json" not in " ".join(line) and line[0] != "check"],
    ids=" ".join,
)
def test_the_one_error_object(foilwright, monkeypatch, tmp_path, arguments):
    monkeypatch.chdir(tmp_path)
    said = foilwright(*arguments, "--json")
    assert said.code == 2 and said.err == ""
    error = said.answer["error"]
    assert set(error) == {"where", "came", "allowed", "mend"}
    assert all(isinstance(words, str) and words for words in error.values())


CHANGES = {
    "misspelt": ("length_m = 1.12", "lenght_m = 1.12", "length_m"),
    "missing": ("below_keel_m = 1.02\n", "", "below_keel_m"),
    "millimetres as metres": ("length_m = 1.12", "length_m = 1120.0", "millimetres"),
    "a negative area": ("area_m2 = 0.105", "area_m2 = -0.105", "area_m2"),
    "a wand too short": ("length_m = 1.12", "length_m = 0.31", "wand"),
    "not TOML": ("[wand]", "[wand", "line"),
    "text for a number": ("mass_kg = 40.0", 'mass_kg = "40"', "mass_kg"),
}


@pytest.mark.parametrize("name", CHANGES)
def test_a_boat_file_that_is_wrong(foilwright, tmp_path, name):
    before, after, hint = CHANGES[name]
    text = example("marram").read_text(encoding="utf-8")
    assert before in text
    boat = tmp_path / "boat.toml"
    boat.write_text(text.replace(before, after, 1), encoding="utf-8")
    out = tmp_path / "card.pdf"
    for arguments in (
        ("check", boat),
        ("fly", boat, "--sailor", "75"),
        ("card", boat, "--sailor", "75", "--out", out),
    ):
        said = foilwright(*arguments)
        assert said.code == 2
        assert hint in said.out + said.err
        assert "Traceback" not in said.err
    assert not out.exists()


@pytest.mark.parametrize("rubbish", [b"\x00\x01\x02" * 400, b"\xff\xfe\xfa", b"", b"x" * 2_000_000])
def test_rubbish(foilwright, tmp_path, rubbish):
    boat = tmp_path / "boat.toml"
    boat.write_bytes(rubbish)
    said = foilwright("fly", boat, "--sailor", "75", "--json")
    assert said.code == 2 and said.answer["error"]["where"]


def test_a_card_in_the_way_stays_whole_when_the_new_one_cannot_be_made(foilwright, tmp_path):
    out = tmp_path / "card.pdf"
    out.write_text("the card before")
    assert foilwright("card", "marram", "--sailor", "999", "--out", out).code == 2
    assert out.read_text() == "the card before"
    assert list(tmp_path.iterdir()) == [out]


def test_a_failed_write_leaves_nothing_behind(foilwright, tmp_path, monkeypatch):
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    said = foilwright("card", "marram", "--sailor", "75", "--speed", "12", "--out", tmp_path / "card.pdf")
    assert said.code == 2 and "No space left" in said.err
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_cannot_be_made(foilwright, tmp_path):
    (tmp_path / "file").touch()
    said = foilwright("demo", "--out", tmp_path / "file")
    assert said.code == 2 and "--out" in said.err


def test_stopped_by_the_person(foilwright, monkeypatch):
    from foilwright.jobs import desk

    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(desk, "fly", interrupted)
    said = foilwright("fly", "marram", "--sailor", "75")
    assert said.code == 4 and said.out == "" and "stopped" in said.err


def process(*arguments: str, **more) -> subprocess.CompletedProcess:
    words = [sys.executable, "-c", "from foilwright.cli.main import main; main()", *arguments]
    return subprocess.run(words, capture_output=True, check=False, **more)


def test_a_whole_process_answers_and_refuses():
    answered = process("chain", "marram", "--wand", "45", "--json")
    assert answered.returncode == 0 and answered.stderr == b""
    assert json.loads(answered.stdout)["rows"][0]["foil_deg"] == pytest.approx(2.5, abs=1e-3)
    refused = process("chain", "marram", "--wand", "9:1")
    assert refused.returncode == 2 and refused.stdout == b""
    assert len(re.findall(rb"\n", refused.stderr)) == 1


def test_a_home_that_cannot_be_written_does_no_harm(tmp_path: Path):
    (tmp_path / "file").touch()
    nowhere = str(tmp_path / "file" / "home")
    surroundings = {**os.environ, "HOME": nowhere, "USERPROFILE": nowhere, "XDG_CACHE_HOME": nowhere}
    said = process(
        "card",
        "marram",
        "--sailor",
        "75",
        "--speed",
        "12",
        "--out",
        str(tmp_path / "c.pdf"),
        env=surroundings,
    )
    assert said.returncode == 0, said.stderr
    assert (tmp_path / "c.pdf").read_bytes().startswith(b"%PDF")


def test_a_terminal_without_our_signs_still_gets_the_rest():
    said = process(
        "chain", "marram", "--wand", "20", env={**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}
    )
    assert said.returncode == 0 and b"Swing check" in said.stdout
