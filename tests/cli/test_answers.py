"""Each command's answer against its declared shape, its words against the glossary, its text for people."""

from types import UnionType
from typing import Any, get_args, get_origin, get_type_hints, is_typeddict

import pytest

from foilwright.documents import answers
from foilwright.documents.day_answer import DemoAnswer
from foilwright.documents.examples import example
from foilwright.words import unknown_keys

MARGIN_KEYS = [
    "stall_deg", "tip_depth_mm", "ventilation_deg", "touchdown_mm", "cavitation_kn", "wand_stop_deg",
    "foil_stop_deg", "hiking_percent", "rudder_reversal_n", "wand_contact_mm",
]  # fmt: skip


def misfits(value: Any, shape: Any, where: str = "answer") -> list[str]:
    """Where a value is not of a declared shape: every key there, none beside it, all the way down."""
    if is_typeddict(shape):
        hints = get_type_hints(shape)
        if not isinstance(value, dict) or list(value) != list(hints):
            return [f"{where}: keys {list(value or ())} in place of {list(hints)}"]
        return [one for key, kind in hints.items() for one in misfits(value[key], kind, f"{where}.{key}")]
    kinds = get_args(shape)
    if get_origin(shape) is list:
        return [one for i, item in enumerate(value) for one in misfits(item, kinds[0], f"{where}[{i}]")]
    if get_origin(shape) is dict:
        return [one for key, item in value.items() for one in misfits(item, kinds[1], f"{where}.{key}")]
    if get_origin(shape) is UnionType:
        return [] if any(not misfits(value, kind, where) for kind in kinds) else [f"{where}: {value!r}"]
    allowed = {float: (int, float), Any: (object,)}.get(shape, (shape,))
    ok = isinstance(value, allowed) and not (shape is float and isinstance(value, bool))
    return [] if ok else [f"{where}: {value!r} is no {shape}"]


def fits(answer: dict, shape: Any) -> None:
    assert misfits(answer, shape) == []
    assert answer["version"] == 1
    assert unknown_keys(answer) == []


def test_fly(foilwright):
    said = foilwright("fly", "marram", "--sailor", "75", "--speed", "8:16:2", "--json")
    assert said.code == 0 and said.err == ""
    answer = said.answer
    fits(answer, answers.FlyAnswer)
    assert answer["format"] == "foilwright/fly"
    assert [row["boat_speed_kn"] for row in answer["rows"]] == [8, 10, 12, 14, 16]
    for row in answer["rows"]:
        assert list(row["margins"]) == MARGIN_KEYS
        assert row["nearest_limit"] in MARGIN_KEYS
        assert row["margins"]["hiking_percent"] is None
    assert {one["name"] for one in answer["assumed"]} >= {"main_foil.zero_lift_shift_deg"}
    for one in answer["assumed"]:
        assert one["low"] <= one["value"] <= one["high"]
        assert one["boat_speed_kn"] == 12 and one["ride_height_change_mm"] is not None


def test_fly_where_there_is_no_state(foilwright):
    """A two-person crew's weight on a junior's foils: at 5 kn no balance, so every number is null."""
    said = foilwright("fly", "pipkin", "--sailor", "250", "--speed", "3:5", "--json")
    fits(said.answer, answers.FlyAnswer)
    for row in said.answer["rows"]:
        if row["outcome"] == "no balance in range":
            assert row["ride_height_m"] is None and row["state"] is None and row["sentence"]
    solved = any(row["outcome"] == "solved" for row in said.answer["rows"])
    assert said.code == (0 if solved else 3)


def test_chain(foilwright):
    said = foilwright("chain", "marram", "--wand", "5:85:20", "--json")
    assert said.code == 0
    answer = said.answer
    fits(answer, answers.ChainAnswer)
    assert [row["wand_deg"] for row in answer["rows"]] == pytest.approx([5, 25, 45, 65, 85])
    assert [row["foil_deg"] for row in answer["rows"][1:4]] == pytest.approx([-3.52, 2.50, 8.47], abs=0.01)
    assert answer["rows"][0]["stop"] == "foil least"
    assert answer["swing_check"] == {
        "back_mm": pytest.approx(8.9, abs=0.1),
        "forward_mm": pytest.approx(-4.5, abs=0.1),
        "middle_mm": pytest.approx(1.87, abs=0.02),  # 2.50 deg of flap on 0.3 x 0.143 m
        "wand_deg": pytest.approx(45.0),
    }


def test_chain_of_a_curve_has_no_transmission(foilwright):
    rows = foilwright("chain", "marram-curve", "--wand", "45", "--json").answer["rows"]
    assert rows[0]["transmission_deg"] is None and rows[0]["outcome"] == "solved"


def test_check(foilwright, tmp_path):
    bad = tmp_path / "bad.toml"
    bad.write_text('format = "foilwright/boat"\nversion = 1\n')
    said = foilwright("check", example("marram"), bad, "--json")
    assert said.code == 2
    fits(said.answer, answers.CheckAnswer)
    first, second = said.answer["files"]
    assert first["ok"] and first["kind"] == "boat" and first["faults"] == []
    assert not second["ok"] and second["faults"]
    assert foilwright("check", example("marram")).code == 0


def test_card(foilwright, tmp_path):
    out = tmp_path / "card.pdf"
    said = foilwright(
        "card", "marram", "--sailor", "75", "--speed", "12:14", "--stage", "improving", "--out", out, "--json"
    )
    assert said.code == 0
    answer = said.answer
    fits(answer, answers.CardAnswer)
    assert answer["file"] == str(out) and out.read_bytes().startswith(b"%PDF")
    assert answer["reasons"] and answer["stripes_seen"] is None
    assert {height: list(row) for height, row in answer["grid"].items()} == {
        height: ["bow_down", "level", "bow_up"] for height in ("low", "right", "high")
    }
    assert [one["adjuster"] for one in answer["settings"]][:2] == ["main-rod", "wand-length"]
    assert any(one["change"] != 0 for one in answer["settings"])
    for other in answer["runners_up"]:
        assert list(other) == ["settings", "sentence", "miss"] and other["sentence"]
    assert answer["grid"]["right"]["level"] == "change nothing"


def test_card_without_a_stage_chooses_nothing(foilwright):
    said = foilwright("card", "marram", "--sailor", "75", "--speed", "12:14", "--form", "text", "--json")
    answer = said.answer
    fits(answer, answers.CardAnswer)
    assert answer["reasons"] == [] and answer["runners_up"] == [] and answer["stage"] is None
    assert all(one["change"] == 0 for one in answer["settings"])
    assert answer["grid"]["high"]["level"]  # first changes are worked out all the same


def test_stripes_seen_are_a_measurement(foilwright):
    said = foilwright(
        "card", "marram", "--sailor", "75", "--stage", "improving", "--form", "text",
        "--stripes", "6½,7@14kn", "--json",
    )  # fmt: skip
    fits(said.answer, answers.CardAnswer)
    seen = said.answer["stripes_seen"]
    assert (seen["main_stripes"], seen["rudder_stripes"]) == (6.5, 7.0)
    assert seen["ride_height_error_mm"] == pytest.approx(100.0 / 12.0**0.5, rel=0.01)
    assert seen["place"][0] == "high" and seen["first_change"]
    assert seen["ride_height_change_mm"] > 100.0


@pytest.mark.parametrize("stripes", ["4,5", "4;5@14", "x,5@14", "4,99@14", "4,5@300"])
def test_stripes_that_are_none_are_told(foilwright, stripes):
    said = foilwright("card", "marram", "--sailor", "75", "--form", "text", "--stripes", stripes)
    assert said.code == 2 and "--stripes" in said.err


def test_a_sheet_of_paper(foilwright, tmp_path):
    said = foilwright("card", "marram", "--sailor", "75", "--sheet", "a3", "--out", tmp_path / "a.pdf")
    assert said.code == 2 and "--sheet" in said.err
    said = foilwright(
        "card", "marram", "--sailor", "75", "--sheet", "a4", "--form", "html", "--out", tmp_path / "a"
    )
    assert said.code == 2


def test_card_counts_its_change_from_where_the_adjuster_stands(foilwright, tmp_path):
    boat = tmp_path / "marram.toml"
    text = example("marram").read_text(encoding="utf-8")
    boat.write_text(text.replace('name = "main-rod"\none_step', 'name = "main-rod"\npresent = 1.0\none_step'))
    said = foilwright(
        "card", boat, "--sailor", "75", "--speed", "12:16", "--form", "text", "--set", "main-rod=3",
        "--stage", "improving", "--json",
    )  # fmt: skip
    first = said.answer["settings"][0]
    assert first["adjuster"] == "main-rod" and first["change"] == first["steps"] - 3 != 0
    assert said.answer["file"] is None


@pytest.mark.usefixtures("compiled_wind", "compiled_physics")
def test_demo(foilwright, tmp_path):
    out = tmp_path / "made" / "here"
    said = foilwright("demo", "--out", out, "--json")
    assert said.code == 0
    fits(said.answer, DemoAnswer)
    names = {path.name for path in out.iterdir() if path.is_file()}
    boats = ("marram", "pipkin", "sedge")
    assert names == {f"{boat}-card.{end}" for boat in boats for end in ("pdf", "html")} | {
        "summary.md", "summary.txt", "summary.json", "cards-two-to-a4.pdf", "fleet-sheet.pdf",
        "pencil-slate.pdf", "coach.txt",
    }  # fmt: skip
    summary = (out / "summary.md").read_text(encoding="utf-8")
    for words in (
        "## Marram: Rowan",
        "(marram-card.pdf)",
        "| Today's wind | low | likely | high |",
        "UNKNOWN",
    ):
        assert words in summary
    assert "will not take off" in (out / "summary.txt").read_text(encoding="utf-8")
    assert "give nobody leave to sail" in summary
    for told in (summary, (out / "marram-card.html").read_text(encoding="utf-8")):
        assert "64 kg" not in told and "Rowan" in told


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (
            ("fly", "marram", "--sailor", "75", "--speed", "10:14:4"),
            ("flying", "bow", "Takes off from", "Assumed"),
        ),
        (("chain", "marram", "--wand", "0:80:40"), ("gearing", "Swing check", "foil least")),
        (("check", "marram"), ("boat file, no faults found",)),
        (
            ("card", "marram", "--sailor", "75", "--speed", "12", "--form", "text"),
            ("Swing check", "Take care"),
        ),
    ],
)
def test_the_text_is_for_people(foilwright, arguments, words):
    if arguments[0] == "check":
        arguments = ("check", example("marram"))
    said = foilwright(*arguments)
    assert said.code == 0 and said.err == ""
    for one in words:
        assert one in said.out
    assert max(map(len, said.out.splitlines())) <= 110


def test_units_may_be_written(foilwright):
    plain = foilwright("fly", "marram", "--sailor", "75", "--speed", "12", "--json").answer
    written = foilwright("fly", "marram", "--sailor", "75 kg", "--speed", "6.173333m/s", "--json").answer
    assert written["rows"][0]["ride_height_m"] == pytest.approx(plain["rows"][0]["ride_height_m"], abs=1e-5)


def test_a_setting_counts_from_the_mark_and_moves_the_boat(foilwright):
    heights = [
        foilwright("fly", "marram", "--sailor", "75", "--speed", "12", *more, "--json").answer["rows"][0][
            "ride_height_m"
        ]
        for more in ((), ("--set", "main-rod=1"), ("--set", "main-rod=+1", "--set", "rudder-rake=1"))
    ]
    assert 0.025 <= heights[1] - heights[0] <= 0.055
    assert heights[2] < heights[1]


def test_same_input_same_bytes(foilwright):
    first, second = (
        foilwright("fly", "marram", "--sailor", "75", "--speed", "12", "--json").out for _ in range(2)
    )
    assert first == second


def test_heel_and_water_count(foilwright):
    said = foilwright(
        "fly",
        "marram",
        "--sailor",
        "75",
        "--speed",
        "12",
        "--heel",
        "-10",
        "--water",
        "sea",
        "--temperature",
        "20",
        "--json",
    )
    assert said.answer["rows"][0]["heel_deg"] == -10


def test_version(foilwright):
    assert foilwright("--version").out.startswith("foilwright")
