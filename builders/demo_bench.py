"""Writes the bench sheets of the demo boats: what two people might have read ashore. Invented.

    python builders/demo_bench.py

The boats behind the readings differ from their files a little, as the files' own uncertainties allow, and
every reading has its gauge's error; seeds are fixed. `tests/recovery/test_bench_fit.py` uses the same sheets
with other errors, hundreds of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np

from foilwright.documents.bench_blank import BATTEN_MM, Blank, blank_sheet, csv_text
from foilwright.documents.bench_boat import Bench, bench_of, rows_at, values_with
from foilwright.documents.bench_record import KINDS, BenchSheet
from foilwright.documents.bench_sheet import sheet_from_text
from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ReadyBoat, ready
from foilwright.documents.boat_record import BoatFile
from foilwright.documents.changed import changed
from foilwright.evidence.bench_model import BenchModel, expected
from foilwright.measures import Floats
from foilwright.units import BY_SYMBOL

EXAMPLES = Path(__file__).parent.parent / "examples"


def head_of(boat: BoatFile) -> list[tuple[str, str]]:
    """What stands above the readings."""
    length = boat.hull.length_m or 3.5
    return [
        ("format", "foilwright/bench"),
        ("version", "1"),
        ("boat", boat.name),
        ("hull", boat.hull.id or ""),
        ("date", "2025-05-10"),
        ("notes", "Invented: nobody measured a boat. Made by builders/demo_bench.py."),
        ("level_error_deg", "0.3"),
        ("wand_error_deg", "0.3"),
        ("batten_error_mm", "1.0"),
        ("tape_error_mm", "3.0"),
        ("batten_length_mm", f"{BATTEN_MM:g}"),
        ("pull_mark_mm", "300"),
        ("rake_arm_mm", "950"),
        ("bow_lift_x_m", f"{length - 0.35:.2f}"),
        ("stern_lift_x_m", "0.15"),
    ]


def commented(comment: str, text: str) -> str:
    """A sheet with a few words above it."""
    return "".join(f"# {line}\n" for line in comment.splitlines()) + text


def toml_text(boat: BoatFile, blanks: Sequence[Blank], readings: Sequence[str], comment: str) -> str:
    """The sheet as TOML."""
    lines = [f"# {line}" for line in comment.splitlines()] + [""]
    for name, value in head_of(boat):
        number = value.replace(".", "", 1).isdecimal() and name not in ("date", "boat", "hull")
        written = value if not number or name == "version" or "." in value else f"{value}.0"
        lines.append(f"{name} = {written}" if number else f'{name} = "{value}"')
    lines += ["", "readings = ["]
    for blank, reading in zip(blanks, readings, strict=True):
        given = {**blank._asdict(), "reading": float(reading)}
        note = given.pop("note")
        cells = [
            f'{name} = "{value}"' if isinstance(value, str) else f"{name} = {float(value):g}"
            for name, value in given.items()
            if value not in ("", None)
        ]
        cells += [f'note = "{note}"'] if note else []
        lines.append(f"    {{ {', '.join(cells)} }},")
    return "\n".join([*lines, "]"]) + "\n"


def template(boat: ReadyBoat) -> Bench:
    """Boat and sheet with nothing read yet: every reading stands at a credible place."""
    blanks = blank_sheet(boat.file)
    stands = {"weigh": "20", "tape": "1000"}
    text = csv_text(head_of(boat.file), blanks, [stands.get(blank.what, "0") for blank in blanks])
    return bench_of(boat, sheet_from_text(text, "made.csv"))


def drawn_truth(bench: Bench, random: np.random.Generator, spread: float = 1.0) -> Floats:
    """A boat as the file's uncertainties allow it [prior standard errors], one that could be built."""
    while True:
        truth = spread * random.standard_normal(len(bench.unsure))
        values = values_with(bench.boat.file, bench.unsure, truth)
        small = [
            value
            for path, value in values.items()
            if path.endswith(("play_mm", "slop_deg", "give_deg_per_n_m", "friction_n_m", "tension_n_m"))
        ]
        if all(value >= 0.0 for value in small):
            return truth


def true_model(bench: Bench, truth: Floats) -> BenchModel:
    """The true boat as it stands, with no parameters left to find."""
    other = changed(bench.boat.file, values_with(bench.boat.file, bench.unsure, truth))
    rows, curve = rows_at(other, bench.settings, bench.boat.name)
    nothing = np.zeros((len(bench.settings), len(truth), rows.shape[1]))
    return bench.model._replace(
        rows=rows,
        row_changes=nothing,
        curve=bench.model.curve._replace(foil=curve),
        curve_changes=np.zeros_like(bench.model.curve_changes),
    )


def read_by_people(
    bench: Bench, truth: Floats, model: BenchModel, random: np.random.Generator, fast: bool = False
) -> Floats:
    """The readings of one sheet in SI: the true boat, wand angles and gauges with their errors."""
    readings = bench.readings
    held = readings.wand + readings.wand_error * random.standard_normal(len(readings.wand))
    exact, _ = expected(model, readings._replace(wand=held), truth[None, :], fast)
    return np.asarray(exact[0] + readings.error * random.standard_normal(len(held)))


def as_written(sheet: BenchSheet, values: Floats) -> list[str]:
    """Readings as a person writes them: whole millimetres, tenths of a degree and of a kilogram."""
    written = []
    for line, value in zip(sheet.lines, values, strict=True):
        unit = KINDS[line.what].unit
        shown = value / BY_SYMBOL[unit].in_si
        written.append(f"{shown:.0f}" if unit == "mm" else f"{shown:.1f}")
    return [text.removeprefix("-") if float(text) == 0.0 else text for text in written]


CASES = (("marram", 11), ("pipkin", 12), ("sedge", 13))


def texts() -> dict[str, str]:
    """Name of each file made -> its text."""
    made = {}
    for name, seed in CASES:
        boat = ready(read_boat(EXAMPLES / "boats" / f"{name}.toml"))
        bench = template(boat)
        random = np.random.default_rng(seed)
        truth = drawn_truth(bench, random, 0.8)
        readings = as_written(bench.sheet, read_by_people(bench, truth, true_model(bench, truth), random))
        comment = (
            f"Bench sheet of the invented boat {boat.name}: two people, twenty minutes. "
            "Every reading is invented.\n"
            "Written as read; what the boat then is, `foilwright bench` says."
        )
        sheet = csv_text(head_of(boat.file), blank_sheet(boat.file), readings)
        made[f"{name}-bench.csv"] = commented(comment, sheet)
        if name == "marram":
            made[f"{name}-bench.toml"] = toml_text(boat.file, blank_sheet(boat.file), readings, comment)
    return made


def main() -> None:
    folder = EXAMPLES / "bench"
    folder.mkdir(exist_ok=True)
    for name, text in texts().items():
        (folder / name).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
