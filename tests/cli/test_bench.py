"""`foilwright bench`: answer, exit codes, the fitted boat, the empty sheet."""

import shutil
from pathlib import Path

from foilwright.documents.bench_answer import BenchAnswer, FormAnswer
from foilwright.documents.examples import examples_folder
from tests.cli.test_answers import fits

SHEET = str(examples_folder() / "bench" / "marram-bench.csv")


def test_bench_in_json_and_in_words(foilwright, tmp_path):
    target = tmp_path / "measured.toml"
    said = foilwright("bench", "marram", SHEET, "--save", str(target), "--json")
    assert said.code == 0 and said.err == ""
    fits(said.answer, BenchAnswer)
    assert said.answer["format"] == "foilwright/bench"
    assert said.answer["file"] == str(target) and target.exists()
    assert foilwright("check", str(target), SHEET).code == 0

    words = foilwright("bench", "marram", SHEET)
    assert words.code == 0
    assert "rudder.incidence_deg" in words.out and "do the swing check" in words.out


def test_a_slip_is_told_with_its_line(foilwright, tmp_path):
    sheet = tmp_path / "slip.csv"
    text = Path(SHEET).read_text(encoding="utf-8")
    sheet.write_text(
        text.replace("batten,,,55,forward,,,104,", "batten,,,55,forward,,,14,"), encoding="utf-8"
    )
    said = foilwright("bench", "marram", str(sheet))
    assert said.code == 0
    assert "slip.csv, line 43: batten 14, where the other lines ask for 10" in said.out


def test_wrong_input(foilwright, tmp_path):
    said = foilwright("bench", "pipkin", SHEET, "--json")
    assert said.code == 2 and said.answer["error"]["came"] == "a sheet for Marram"
    assert foilwright("bench", "marram").code == 2
    assert foilwright("bench", "marram", SHEET, "--form", str(tmp_path / "f.pdf")).code == 2
    assert foilwright("bench", "marram", "--form", str(tmp_path / "f.doc")).code == 2
    shutil.copy(SHEET, tmp_path / "sheet.txt")
    assert foilwright("bench", "marram", str(tmp_path / "sheet.txt")).code == 2


def test_the_empty_sheet_to_print_and_to_type_in(foilwright, tmp_path):
    said = foilwright("bench", "marram", "--form", str(tmp_path / "form.pdf"), "--json")
    assert said.code == 0
    fits(said.answer, FormAnswer)
    assert (tmp_path / "form.pdf").read_bytes().startswith(b"%PDF")
    table = tmp_path / "sheet.csv"
    assert foilwright("bench", "marram", "--form", str(table)).code == 0
    assert "\nbatten_length_mm,600\n" in table.read_text(encoding="utf-8")
    empty = foilwright("bench", "marram", str(table))
    assert empty.code == 2 and "no readings" in empty.err
    # Two lines filled in are enough for the fit to say what they are worth.
    lines = table.read_text(encoding="utf-8").splitlines()
    filled = [line[:-1] + "1122," if line == "tape,wand-length,,,,,,," else line for line in lines]
    table.write_text("\n".join(filled), encoding="utf-8")
    one = foilwright("bench", "marram", str(table), "--json")
    assert one.code == 0 and [row["name"] for row in one.answer["fitted"]] == ["wand.length_m"]
