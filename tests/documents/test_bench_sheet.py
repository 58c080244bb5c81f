"""Bench sheets: the examples, CSV and TOML alike, and everything that can be wrong with one."""

from __future__ import annotations

import importlib.util
import sys
from math import radians
from pathlib import Path

import pytest

from foilwright.documents.bench_boat import bench_of
from foilwright.documents.bench_checks import check_boat, check_readings
from foilwright.documents.bench_record import KINDS, TAPE_PATHS, TAPES, BenchSheet
from foilwright.documents.bench_sheet import read_sheet, sheet_from_text
from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ready
from foilwright.documents.examples import example, examples_folder
from foilwright.flight.boat import SCALARS
from foilwright.mistakes import Mistake, Mistakes
from foilwright.words import QUANTITIES

ROOT = Path(__file__).resolve().parents[2]
HEAD = "format,foilwright/bench\nversion,1\nboat,Marram\n"
COLUMNS = "what,at,way,wand_deg,travel,settings,load_n,reading,note\n"
SHEETS = ("marram-bench.csv", "marram-bench.toml", "pipkin-bench.csv", "sedge-bench.csv")


def text_of(name: str) -> str:
    return (examples_folder() / "bench" / name).read_text(encoding="utf-8")


def whole_check(sheet: BenchSheet, boat: str = "marram") -> None:
    flying = ready(read_boat(example(boat)))
    check_boat(flying, sheet)
    check_readings(bench_of(flying, sheet))


def told(text: str, boat: str = "marram") -> str:
    """What is said about a sheet with something wrong."""
    with pytest.raises((Mistake, Mistakes)) as caught:
        whole_check(sheet_from_text(text, "sheet.csv"), boat)
    return str(caught.value)


def test_the_examples_are_what_their_builder_makes() -> None:
    spec = importlib.util.spec_from_file_location("demo_bench", ROOT / "builders" / "demo_bench.py")
    assert spec is not None and spec.loader is not None
    builder = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = builder
    spec.loader.exec_module(builder)
    texts = builder.texts()
    assert set(texts) == set(SHEETS)
    for name, text in texts.items():
        assert text_of(name) == text, f"run {builder.__file__}"
        assert "invented" in text


@pytest.mark.parametrize("name", SHEETS)
def test_the_examples_are_sound(name: str) -> None:
    sheet = read_sheet(examples_folder() / "bench" / name)
    whole_check(sheet, name.split("-")[0])
    lines = text_of(name).splitlines()
    for line in sheet.lines:
        assert line.what in lines[line.number - 1]
        assert line.as_read in lines[line.number - 1]


def test_csv_and_toml_say_the_same() -> None:
    by_csv, by_toml = (
        read_sheet(examples_folder() / "bench" / f"marram-bench.{end}") for end in ("csv", "toml")
    )
    assert by_csv.head == by_toml.head
    for a, b in zip(by_csv.lines, by_toml.lines, strict=True):
        assert a._replace(number=0, as_read="") == b._replace(number=0, as_read="")


def test_readings_are_kept_as_written_and_units_may_be_written() -> None:
    text = (
        HEAD
        + COLUMNS
        + "batten,,,45,back,main-rod=3 wand-length=-1,,4.6cm,\nbatten,,,45,forward,,10,46,bottle\n"
    )
    first, second = sheet_from_text(text, "s.csv").lines
    assert first.as_read == "4.6cm"
    assert first.reading == pytest.approx(0.046)
    assert first.settings == {"main-rod": 3.0, "wand-length": -1.0}
    assert (first.travel, first.number) == ("back", 5)
    assert first.wand == pytest.approx(radians(45.0))
    assert (second.reading, second.load) == pytest.approx((0.046, 10.0))
    for between in (";", "\t"):
        other = text.replace(",", between)
        assert [line.reading for line in sheet_from_text(other, "s.csv").lines] == pytest.approx(
            [0.046, 0.046]
        )


def test_toml_by_tables_keeps_its_line_numbers() -> None:
    text = (
        'format = "foilwright/bench"\nversion = 1\nboat = "Marram"\n\n[[readings]]\nwhat = "batten-zero"\n'
        'reading = 3\n\n[[readings]]\n# again\nwhat = "batten"\nwand_deg = 45\ntravel = "back"\n'
        'settings = { main-rod = 3 }\nreading = "44 mm"\n'
    )
    lines = sheet_from_text(text, "s.toml").lines
    assert [line.number for line in lines] == [6, 11]
    assert lines[1].settings == {"main-rod": 3.0}


BAD = {
    "nothing at all": ("", "an empty file"),
    "the same in every line": (
        HEAD + COLUMNS + 5 * "batten,,,45,,,,14,\n",
        "line 5: no direction of travel, and 4 more lines such",
    ),
    "stops of the wand swapped": (
        HEAD + COLUMNS + "wand-stop,forward,,,,,,82,\nwand-stop,back,,,,,,1,\n",
        "wand-stop forward 82, more than wand-stop back 1",
    ),
    "stops of the foil swapped": (
        HEAD + COLUMNS + "foil-stop,least,,,,,,60,\nfoil-stop,greatest,,,,,,-30,\n",
        "The two have changed places",
    ),
    "empty": (HEAD, "no line with the names of the columns"),
    "no readings": (HEAD + COLUMNS, "no readings"),
    "no format": ("boat,Marram\n" + COLUMNS + "batten-zero,,,,,,,1,\n", "Write both at the top"),
    "no direction": (HEAD + COLUMNS + "batten,,,45,,,,14,\n", "line 5: no direction of travel"),
    "no wand angle": (HEAD + COLUMNS + "batten,,,,back,,,14,\n", "without wand_deg"),
    "travel and wand swapped": (HEAD + COLUMNS + "batten,,,back,45,,,14,\n", "columns have changed places"),
    "metres for millimetres": (HEAD + COLUMNS + "tape,wand-length,,,,,,1.12,\n", "did you mean 1120 mm"),
    "centimetres for millimetres": (HEAD + COLUMNS + "tape,wand-length,,,,,,112,\n", "did you mean 1120 mm"),
    "unknown reading": (HEAD + COLUMNS + "baten,,,45,back,,,14,\n", "Did you mean batten"),
    "unknown column": (HEAD + "what,wand,reading\n", "Did you mean wand_deg"),
    "unknown head": (HEAD + "level_eror_deg,0.3\n" + COLUMNS, "Did you mean level_error_deg"),
    "decimal comma": (HEAD + COLUMNS + "level,reference,one,,,,,1,2,,\n", "comma for the decimal point"),
    "no number": (HEAD + COLUMNS + "level,reference,one,,,,,level,\n", "`level`"),
    "a word for a number": (HEAD + "level_error_deg,little\n" + COLUMNS, "Write the number alone"),
    "no place": (HEAD + COLUMNS + "level,,one,,,,,1,\n", "`level` without `at`"),
    "unknown adjuster": (HEAD + COLUMNS + "batten,,,45,back,main-rd=3,,14,\n", "Did you mean main-rod"),
    "setting beyond its range": (HEAD + COLUMNS + "batten,,,45,back,main-rod=30,,14,\n", "outside its range"),
    "setting without number": (HEAD + COLUMNS + "batten,,,45,back,main-rod,,14,\n", "NAME=STEPS"),
    "weights without lift points": (HEAD + COLUMNS + "weigh,bow,,,,,,20,\n", "bow_lift_x_m"),
    "wand beyond its stop": (
        HEAD + COLUMNS + "batten,,,100,back,,,14,\n",
        "line 5: wand_deg: 100 deg, beyond",
    ),
    "foil beyond its stop": (HEAD + COLUMNS + "batten,,,45,back,,,140,\n", "far beyond its stop"),
    "wand upside down": (HEAD + COLUMNS + "batten,,,-70,back,,,14,\n", "were two columns swapped"),
}


@pytest.mark.parametrize("case", BAD)
def test_what_is_wrong_is_said_with_its_mend(case: str) -> None:
    text, words = BAD[case]
    assert words in told(text)


def test_a_sheet_of_another_boat_is_refused_unless_the_hull_is_the_same() -> None:
    assert "a sheet for Marram" in told(text_of("marram-bench.csv"), "pipkin")
    whole_check(sheet_from_text(text_of("marram-bench.csv"), "s.csv"), "marram-curve")


@pytest.mark.parametrize("name", ["marram-bench.csv", "pipkin-bench.csv", "sedge-bench.csv"])
def test_swapped_columns_and_centimetres_are_seen_over_the_whole_sheet(name: str) -> None:
    rows = [line.split(",") for line in text_of(name).splitlines()]
    swapped, small, turned_over = [], [], []
    for row in rows:
        if row[0] == "batten":
            swapped.append(",".join([*row[:3], row[7], *row[4:7], row[3], row[8]]))
            small.append(",".join([*row[:7], f"{float(row[7]) / 10:.1f}", row[8]]))
            turned_over.append(",".join([*row[:7], f"{-float(row[7]):.1f}", row[8]]))
        elif row[0] in ("batten-zero", "foil-stop"):
            swapped.append(",".join(row))
            small.append(",".join([*row[:7], f"{float(row[7]) / 10:.1f}", row[8]]))
            turned_over.append(",".join([*row[:7], f"{-float(row[7]):.1f}", row[8]]))
        else:
            swapped.append(",".join(row))
            turned_over.append(",".join(row))
            small.append(",".join(row))
    boat = name.split("-")[0]
    said = told("\n".join(swapped), boat)
    assert "swap" in said and "line " in said
    assert "looks like centimetres" in told("\n".join(small), boat)
    assert "All signs look wrong" in told("\n".join(turned_over), boat)


def test_every_kind_and_tape_hangs_on_something_real() -> None:
    assert set(TAPES) == set(TAPE_PATHS)
    assert {number for parts in TAPES.values() for number, _ in parts} <= set(SCALARS)
    assert all(kind.meaning and kind.error for kind in KINDS.values())
    assert {"slop", "foil"} <= {quantity.name for quantity in QUANTITIES}


def test_the_sheet_is_never_written(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.csv"
    sheet.write_text(text_of("marram-bench.csv"), encoding="utf-8")
    sheet.chmod(0o444)
    before = sheet.stat().st_mtime_ns
    whole_check(read_sheet(sheet))
    assert sheet.stat().st_mtime_ns == before


def test_only_csv_and_toml(tmp_path: Path) -> None:
    with pytest.raises(Mistake, match="as CSV"):
        read_sheet(tmp_path / "sheet.xlsx")
