"""Measuring a boat ashore: a bench sheet fitted to a boat file, and a new version of the file if asked for.

The sheet is read and never written; the boat file is written under the name that was asked for, all at once.
"""

from collections.abc import Mapping
from math import degrees
from pathlib import Path
from typing import Any

import numpy as np

from foilwright.documents.bench_answer import (
    BenchAnswer,
    FormAnswer,
    fitted_numbers,
    new_values,
    not_learned,
    outliers,
    rms_deg,
    together,
)
from foilwright.documents.bench_blank import BATTEN_MM, blank_sheet, csv_text
from foilwright.documents.bench_boat import Bench, bench_of
from foilwright.documents.bench_checks import check_boat, check_readings
from foilwright.documents.bench_record import FORMAT, VERSION, BenchSheet
from foilwright.documents.bench_sheet import read_sheet, sheet_from_text
from foilwright.documents.boat_file import read_boat, save_boat_as
from foilwright.documents.boat_numbers import ReadyBoat, ready
from foilwright.documents.changed import changed
from foilwright.documents.examples import example
from foilwright.evidence.bench_fit import BenchFit, fit, needed_error
from foilwright.evidence.bench_pairs import odd_pairs
from foilwright.flight.at_speed import fly_at
from foilwright.flight.chain_behaviour import chain_at
from foilwright.measures import Floats
from foilwright.mistakes import Mistake
from foilwright.outcomes import SOLVED
from foilwright.paper.bench_form import bench_form
from foilwright.paper.put_file import put_file
from foilwright.units import plain, to_si
from foilwright.water.properties import water_at

NEED_HEIGHT = 0.010  # a ride height known to this is known well enough [m]
NEED_SPEED = to_si(12.0, "kn")
LOOK_DEG = 0.5  # change of an angle from which its effect on the ride height is taken


def measure_bench(boat: str | Path, sheet: str | Path, save: str | Path | None = None) -> BenchAnswer:
    """Fits the boat to the sheet; `save` writes the fitted boat there, comments kept."""
    source = _boat_path(boat)
    answer, values = _fitted(ready(read_boat(source), file=source.name), read_sheet(sheet), source.name)
    if save is not None:
        answer["new_version"] = save_boat_as(source, save, values).version_of_content()
        answer["file"] = str(save)
    return answer


def fit_text(boat: ReadyBoat, sheet: str, file: str) -> tuple[BenchAnswer, Mapping[str, Any]]:
    """Fits a boat to the text of a sheet: the answer, and the new values of the boat file by their paths."""
    return _fitted(boat, sheet_from_text(sheet, file), boat.name)


def _fitted(boat: ReadyBoat, record: BenchSheet, file: str) -> tuple[BenchAnswer, Mapping[str, Any]]:
    check_boat(boat, record)
    bench = bench_of(boat, record)
    check_readings(bench)
    found = fit(bench.model, bench.readings)
    values = new_values(bench, found)
    after = ready(changed(boat.file, values), file=file)
    answer: BenchAnswer = {
        "format": "foilwright/bench",
        "version": 1,
        "boat": boat.name,
        "boat_version": boat.version,
        "sheet": record.file,
        "readings": len(record.lines),
        "fitted": fitted_numbers(bench, found, of_sheet=False),
        "sheet_found": fitted_numbers(bench, found, of_sheet=True),
        "outliers": outliers(bench, found),
        "not_learned": not_learned(bench, found),
        "together": together(bench, found),
        "slop_deg": round(slop_deg(after), 4),
        "rms_deg": rms_deg(bench, found),
        "warnings": warnings(bench, found, after),
        "settled": found.settled,
        "file": None,
        "new_version": None,
    }
    return answer, values


def write_form(boat: str | Path, out: str | Path, sheet: str | Path | None = None) -> FormAnswer:
    """An empty sheet for this boat, in the order of the measurement: .pdf to print, .csv to type in."""
    if sheet is not None:
        raise Mistake("--form", "a sheet as well", "a sheet, or --form", "Leave one of them out.")
    record, path = read_boat(_boat_path(boat)), Path(out)
    blanks = blank_sheet(record)
    if path.suffix.lower() == ".pdf":
        content = bench_form(record)
    elif path.suffix.lower() == ".csv":
        head = [("format", FORMAT), ("version", str(VERSION)), ("boat", record.name)]
        head += [("hull", record.hull.id)] if record.hull.id else []
        head.append(("batten_length_mm", plain(BATTEN_MM)))
        content = csv_text(head, blanks, [""] * len(blanks)).encode()
    else:
        raise Mistake("--form", path.name, "a name ending in .pdf or .csv", "Write for example form.pdf.")
    put_file(path, content)
    return {
        "format": "foilwright/bench-form",
        "version": 1,
        "boat": record.name,
        "boat_version": record.version_of_content(),
        "readings": len(blanks),
        "file": str(path),
    }


def _boat_path(boat: str | Path) -> Path:
    """The path of a boat file; the bare name of an example boat is taken too."""
    path = Path(boat)
    return example(path.name) if path.suffix == "" and not path.exists() and path.parent == Path() else path


def slop_deg(boat: ReadyBoat) -> float:
    """Lost motion at the foil with the wand at 45 deg [deg]."""
    [point] = chain_at(boat.row, boat.tables, [to_si(45.0, "deg")])
    return degrees(point.slop)


def warnings(bench: Bench, found: BenchFit, after: ReadyBoat) -> list[str]:
    """What a person should know before believing the numbers."""
    told = []
    if not found.settled:
        told.append("The fit did not settle: a fault of ours. Do not use these numbers.")
    travels = {line.travel for line in bench.sheet.lines if line.what in ("batten", "edge")}
    if len(travels) == 1:
        told.append(
            f"The foil was read with the wand going {travels.pop()} only: lost motion and offset cannot "
            "be told apart. Read it the other way too."
        )
    if "reference" not in {line.at for line in bench.sheet.lines} and any(
        line.wand is not None for line in bench.sheet.lines
    ):
        told.append(
            "No level was laid on the reference: the boat is taken as standing level within half a degree."
        )
    if len(found.outliers) > 3:
        told.append(
            f"{len(found.outliers)} lines do not fit. That is more than slips: a part may have moved "
            "in between."
        )
    return told + alone(bench, found) + needs(bench, found, after)


def alone(bench: Bench, found: BenchFit) -> list[str]:
    """Wand angles without a partner where the fit cannot tell which of the two lines is wrong."""
    told = []
    for odd in odd_pairs(bench.readings):
        if all(found.used[i] for i in (*odd.back, *odd.forward)):
            back, forward = bench.sheet.lines[odd.back[0]], bench.sheet.lines[odd.forward[0]]
            lines = [str(bench.sheet.lines[i].number) for i in (*odd.back, *odd.forward)]
            told.append(
                f"Lines {' and '.join(lines)}: wand {plain(degrees(back.wand or 0.0), 4)} going "
                f"back and {plain(degrees(forward.wand or 0.0), 4)} going forward, where all others are in "
                "pairs. They fit as written; look whether one is mistyped."
            )
    return told


# Angle of the boat file -> its number in the row, the gauge that reads it, what that gauge is called.
ANGLES = (
    ("chain.foil_deg", "chain.foil_at_drawing", "batten_error_mm", "batten"),
    ("main_foil.incidence_deg", "main.incidence", "level_error_deg", "level"),
    ("rudder.incidence_deg", "rudder.incidence", "level_error_deg", "level"),
)


def needs(bench: Bench, found: BenchFit, after: ReadyBoat) -> list[str]:
    """Where the ride height asks for more than the gauge gives."""
    head = bench.sheet.head
    base = _height(after, after.row)
    told = []
    for path, number, gauge, word in ANGLES if base is not None else ():
        known = [k for k, thing in enumerate(bench.unsure) if path in thing.changes]
        if not known:
            continue
        if path == "main_foil.incidence_deg" and after.file.main_foil.control == "whole":
            number = "chain.foil_at_drawing"
        row = np.array(after.row)
        row[after.names.index(number)] += to_si(LOOK_DEG, "deg")
        height = _height(after, row)
        if height is None or base is None:
            continue
        need = degrees(needed_error((height - base) / to_si(LOOK_DEG, "deg"), NEED_HEIGHT))
        has = getattr(head, gauge)
        if word == "batten":
            has = degrees(has / head.batten_length_mm)
        reached = float(found.standard_errors[known[0]]) * bench.unsure[known[0]].error
        if has > need:
            told.append(
                f"{path}: this needs {need:.1g} deg and your {word} has {has:.2g}. "
                f"(10 mm of ride height at 12 kn; all readings together know it to {reached:.2g} deg.)"
            )
    return told


def _height(boat: ReadyBoat, row: Floats) -> float | None:
    """Ride height at 12 kn in fresh water [m]; nothing where the boat does not fly steadily there."""
    states = fly_at(row, boat.tables, water_at(15.0, 0.0, 15.0), NEED_SPEED)
    heights = [s.height for s in states if s.outcome == SOLVED and s.state == "flying" and s.stable]
    return heights[0] if heights else None
