"""The bench job on the examples: answer, outliers by line, warnings, and the new version of the boat file."""

from __future__ import annotations

import json
from math import degrees, radians
from pathlib import Path

import pytest

from foilwright.cli.show_bench import bench as shown
from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ReadyBoat, ready
from foilwright.documents.examples import example, examples_folder
from foilwright.flight.chain_behaviour import chain_at
from foilwright.jobs.measure_bench import measure_bench
from foilwright.mistakes import Mistake
from foilwright.setup.adjusters import turned

BENCH = examples_folder() / "bench"
CASES = (
    ("marram", "marram-bench.csv"),
    ("marram-curve", "marram-bench.toml"),
    ("pipkin", "pipkin-bench.csv"),
    ("sedge", "sedge-bench.csv"),
)


def changed_sheet(tmp_path: Path, *swaps: tuple[str, str]) -> Path:
    text = (BENCH / "marram-bench.csv").read_text(encoding="utf-8")
    for old, new in swaps:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    path = tmp_path / "sheet.csv"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(("boat", "sheet"), CASES)
def test_the_example_sheets(boat: str, sheet: str, tmp_path: Path) -> None:
    source = example(boat)
    before = source.read_bytes()
    target = tmp_path / "fitted.toml"
    answer = measure_bench(source, BENCH / sheet, target)
    assert (answer["format"], answer["version"]) == ("foilwright/bench", 1)
    json.dumps(answer, allow_nan=False)
    assert answer["outliers"] == []
    assert 0.07 < (answer["rms_deg"] or 0.0) < 0.25  # a millimetre at 600 mm and 0.3 deg of wand
    assert source.read_bytes() == before
    fitted = {one["name"]: one for one in answer["fitted"]}
    assert fitted["rudder.incidence_deg"]["standard_error"] < 0.2
    assert fitted["mass.mass_kg"]["standard_error"] < 0.5
    assert "rudder.incidence_deg" not in answer["not_learned"]

    after = ready(read_boat(target))
    assert after.version == answer["new_version"] != answer["boat_version"]
    assert after.numbers["rudder.incidence_deg"] == pytest.approx(
        fitted["rudder.incidence_deg"]["after"], abs=1e-4
    )
    assert after.file.rudder.standard_errors["incidence_deg"] == pytest.approx(
        fitted["rudder.incidence_deg"]["standard_error"], abs=1e-4
    )
    kept = [line for line in source.read_text(encoding="utf-8").splitlines() if line.startswith("#")]
    assert set(kept) <= set(target.read_text(encoding="utf-8").splitlines())
    assert degrees(chain_at(after.row, after.tables, [radians(45.0)])[0].slop) == pytest.approx(
        answer["slop_deg"], abs=1e-3
    )
    text = shown(answer)
    assert answer["boat"] in text and "swing check" in text and str(target) in text


def foil_deg(boat: ReadyBoat, wand_deg: float, turns: float) -> float:
    row = turned(boat.row, boat.adjusters, {"main-rod": turns})
    return degrees(chain_at(row, boat.tables, [radians(wand_deg)])[0].foil)


def test_cranks_and_curve_fitted_to_one_sheet_turn_the_foil_alike(tmp_path: Path) -> None:
    """The same readings, two descriptions of the chain: they agree within what either says it knows."""
    boats = []
    for name in ("marram", "marram-curve"):
        target = tmp_path / f"{name}.toml"
        measure_bench(example(name), BENCH / "marram-bench.csv", target)
        boats.append(ready(read_boat(target)))
    for wand in (25.0, 40.0, 55.0, 70.0):
        for turns in (-2.0, 0.0, 1.0):
            assert foil_deg(boats[0], wand, turns) == pytest.approx(foil_deg(boats[1], wand, turns), abs=0.3)


def test_a_second_fit_starts_from_what_the_first_one_knew(tmp_path: Path) -> None:
    target = tmp_path / "marram.toml"
    first = measure_bench(example("marram"), BENCH / "marram-bench.csv", target)
    second = measure_bench(target, BENCH / "marram-bench.csv")
    of = {one["name"]: one for one in second["fitted"]}
    for one in first["fitted"]:
        assert of[one["name"]]["before"] == pytest.approx(one["after"], abs=2e-4)
        assert of[one["name"]]["standard_error"] <= one["standard_error"] * 1.05


def test_a_slip_is_named_by_its_line(tmp_path: Path) -> None:
    sheet = changed_sheet(tmp_path, ("batten,,,55,forward,,,104,", "batten,,,55,forward,,,10.4,"))
    lines = sheet.read_text(encoding="utf-8").splitlines()
    answer = measure_bench(example("marram"), sheet)
    [slip] = answer["outliers"]
    assert lines[slip["line"] - 1] == "batten,,,55,forward,,,10.4,"
    assert slip["expected"] == pytest.approx(104.0, abs=4.0)
    assert "looks like centimetres" in slip["sentence"]
    sign = changed_sheet(tmp_path, ("batten,,,70,back,,,148,", "batten,,,70,back,,,-148,"))
    [slip] = measure_bench(example("marram"), sign)["outliers"]
    assert "sign looks wrong" in slip["sentence"]


def test_a_slip_in_the_wand_column_is_told_from_one_in_the_reading(tmp_path: Path) -> None:
    sheet = changed_sheet(tmp_path, ("batten,,,55,back,,,", "batten,,,45,back,,,"))
    answer = measure_bench(example("marram"), sheet)
    [slip] = answer["outliers"]
    assert (
        "With the wand at 55, as its partner has it, it fits: wand_deg is likelier wrong" in slip["sentence"]
    )
    assert not any("all others are in pairs" in words for words in answer["warnings"])


def test_what_a_person_should_know_is_said(tmp_path: Path) -> None:
    text = (BENCH / "marram-bench.csv").read_text(encoding="utf-8")
    one_way = tmp_path / "one-way.csv"
    one_way.write_text(
        "\n".join(
            line
            for line in text.splitlines()
            if not line.startswith(("batten,,,", "level,ref")) or ",back," in line
        ),
        encoding="utf-8",
    )
    warnings = measure_bench(example("marram"), one_way)["warnings"]
    assert any("going back only" in words for words in warnings)
    assert any("standing level" in words for words in warnings)
    crude = changed_sheet(tmp_path, ("level_error_deg,0.3", "level_error_deg,0.5"))
    needs = [words for words in measure_bench(example("marram"), crude)["warnings"] if "this needs" in words]
    assert any(
        words.startswith("rudder.incidence_deg: this needs 0.1") and "your level has 0.5" in words
        for words in needs
    )


def test_another_boats_sheet_is_refused() -> None:
    with pytest.raises(Mistake, match="a sheet for Pipkin"):
        measure_bench(example("marram"), BENCH / "pipkin-bench.csv")
