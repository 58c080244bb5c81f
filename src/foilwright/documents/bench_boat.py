"""From boat file and bench sheet to what the fit works with: arrays in SI, nothing but numbers."""

from collections.abc import Mapping, Sequence
from math import cos, radians, sin
from typing import Any, NamedTuple

import numpy as np

from foilwright.documents.bench_record import KINDS, TAPES, BenchSheet, Line
from foilwright.documents.bench_unsure import Unsure, Values, tape_path, unsure_of
from foilwright.documents.boat_adjusters import adjuster_of
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.boat_record import BoatFile
from foilwright.documents.boat_row import curve_of, row_of
from foilwright.documents.boat_table import all_numbers, given_numbers
from foilwright.documents.changed import changed, holes_moved
from foilwright.evidence.bench_model import ANGLE, LIFTED, PULLED, SINE, STRAIGHT, BenchModel, Readings
from foilwright.measures import Floats
from foilwright.mistakes import Mistake
from foilwright.setup.adjusters import adjuster_named, check_setting, turned
from foilwright.units import ending_of, to_si

GRAVITY = 9.80665  # [m/s2]
WAYS = {"": 1.0, "one": 1.0, "other": -1.0}
OVER_ANOTHER_LINE = ("wand.above_reference_m", "main_foil.strut_m")
TRAVELS = {"": 0.0, "back": 1.0, "forward": -1.0}


class Bench(NamedTuple):
    """A boat and a sheet about it, ready for the fit."""

    boat: ReadyBoat
    sheet: BenchSheet
    unsure: tuple[Unsure, ...]
    model: BenchModel
    readings: Readings
    settings: tuple[dict[str, float], ...]


def bench_of(boat: ReadyBoat, sheet: BenchSheet, also: Sequence[Mapping[str, float]] = ()) -> Bench:
    """Boat and sheet as the fit sees them; `also` adds settings that were not measured.

    Raises a Mistake where a line names an adjuster or a setting that this boat does not have.
    """
    unsure = tuple(unsure_of(boat, sheet))
    settings: list[dict[str, float]] = [{}]
    for line in sheet.lines:
        at = {name: steps for name, steps in line.settings.items() if steps}
        for name, steps in at.items():
            where = f"{sheet.file}, line {line.number}: settings"
            check_setting(adjuster_named(boat.adjusters, name, where), steps, where)
        if at not in settings:
            settings.append(at)
    settings += [dict(at) for at in also if dict(at) not in settings]
    model = _model(boat, unsure, settings)
    return Bench(boat, sheet, unsure, model, _readings(boat, sheet, unsure, settings), tuple(settings))


def values_with(boat: BoatFile, unsure: Sequence[Unsure], parameters: Floats) -> dict[str, Any]:
    """Every changed value of the file by its path, at these parameters [prior standard errors]."""
    sums: dict[str, Values] = {}
    for thing, amount in zip(unsure, parameters, strict=True):
        for path, change in thing.changes.items():
            sums[path] = sums.get(path, np.zeros_like(change)) + amount * change
    numbers, _ = all_numbers(boat, given_numbers(boat))
    values: dict[str, Any] = {}
    for path, change in sums.items():
        before = numbers[path] if path in numbers else _in_file(boat, path)
        values[path] = (np.asarray(before) + change).tolist()
    return holes_moved(boat, values)


def _in_file(boat: BoatFile, path: str) -> Any:
    """A value of the file that is no number of its table: a curve, a step of an adjuster."""
    table: Any = boat
    for step in path.split("."):
        if isinstance(table, list):
            named = [entry for entry in table if getattr(entry, "name", None) == step]
            table = named[0] if named else table[int(step) - 1]
        else:
            table = getattr(table, step)
    return table


def rows_at(boat: BoatFile, settings: Sequence[Mapping[str, float]], file: str) -> tuple[Floats, Floats]:
    """The boat's rows at these settings [settings, numbers], and its measured curve [i, j]."""
    numbers, _ = all_numbers(boat, given_numbers(boat))
    curve = curve_of(boat, numbers)
    row = row_of(boat, numbers, curve)
    moved = {name for at in settings for name in at}
    adjusters = [
        adjuster_of(record, boat, numbers, row, curve, file)
        for record in boat.adjusters
        if record.name in moved
    ]
    return np.array([turned(row, adjusters, at) for at in settings]), curve.foil


def _model(boat: ReadyBoat, unsure: Sequence[Unsure], settings: Sequence[Mapping[str, float]]) -> BenchModel:
    rows, curve = rows_at(boat.file, settings, boat.name)
    row_changes = np.zeros((len(settings), len(unsure), rows.shape[1]))
    curve_changes = np.zeros((len(unsure), *curve.shape))
    for k, thing in enumerate(unsure):
        if thing.changes:
            one = np.zeros(len(unsure))
            one[k] = 1.0
            other = changed(boat.file, values_with(boat.file, unsure, one))
            other_rows, other_curve = rows_at(other, settings, boat.name)
            row_changes[:, k, :] = other_rows - rows
            curve_changes[k] = other_curve - curve
    tilt = [radians(thing.error) if thing.sheet in ("tilt", "level") else 0.0 for thing in unsure]
    return BenchModel(rows, row_changes, boat.tables.curve, curve_changes, np.array(tilt), GRAVITY)


def _readings(
    boat: ReadyBoat, sheet: BenchSheet, unsure: Sequence[Unsure], settings: Sequence[Mapping[str, float]]
) -> Readings:
    n, names = len(sheet.lines), boat.names
    readings = Readings(
        line=np.array([line.number for line in sheet.lines], dtype=np.int64),
        kind=np.zeros(n, dtype=np.int64),
        setting=np.array([settings.index(_moved(line)) for line in sheet.lines], dtype=np.int64),
        wand=np.array([line.wand or 0.0 for line in sheet.lines]),
        travel=np.array([TRAVELS[line.travel] for line in sheet.lines]),
        moment=np.zeros(n),
        arm=np.ones(n),
        origin=np.zeros(n),
        aside=np.zeros(n),
        constant=np.zeros(n),
        value=np.array([line.reading for line in sheet.lines]),
        error=np.array([_error(sheet, line) for line in sheet.lines]),
        wand_error=np.full(n, radians(sheet.head.wand_error_deg)),
        numbers=np.zeros((n, len(names))),
        marks=np.zeros((n, len(names))),
        shifts=np.zeros((n, len(unsure))),
    )
    for i, line in enumerate(sheet.lines):
        _fill(readings, i, line, boat, sheet, unsure)
    return readings


def _moved(line: Line) -> dict[str, float]:
    return {name: steps for name, steps in line.settings.items() if steps}


def _error(sheet: BenchSheet, line: Line) -> float:
    name = KINDS[line.what].error
    unit = ending_of(name)
    assert unit is not None
    return float(getattr(sheet.head, name) * unit.in_si)


def _fill(
    readings: Readings, i: int, line: Line, boat: ReadyBoat, sheet: BenchSheet, unsure: Sequence[Unsure]
) -> None:
    """How one line hangs on the boat and on how the sheet was made."""
    head = sheet.head
    tilt_line = radians(boat.numbers["reference.keel_line_deg"])
    whole = boat.file.main_foil.control == "whole"

    def hangs_on(number: str, weight: float = 1.0) -> None:
        readings.numbers[i, boat.names.index(number)] += weight

    def shifted_by(sheet_thing: str, weight: float, unit: str) -> None:
        for k, thing in enumerate(unsure):
            if thing.sheet == sheet_thing:
                readings.shifts[i, k] += weight * to_si(thing.error, unit)

    batten = to_si(head.batten_length_mm, "mm")
    if line.what in ("batten", "edge"):
        readings.kind[i] = SINE
        readings.arm[i] = batten if line.what == "batten" else edge_arm(boat)
        readings.moment[i] = line.load * batten
    if line.what == "batten" and whole:
        readings.aside[i] = tilt_line  # the batten's mark is where the chord lies along the reference
    if line.what in ("batten", "batten-zero", "foil-stop"):
        shifted_by("batten", 1.0, "mm")
    if line.what == "foil-stop":
        name = f"chain.foil_{line.at}"
        stop = float(boat.row[boat.names.index(name)])
        seen = stop - (tilt_line if whole else 0.0)
        hangs_on(name, batten * cos(seen))
        readings.constant[i] = batten * (sin(seen) - stop * cos(seen))
    if line.what == "level":
        shifted_by("tilt", 1.0, "deg")
        shifted_by("level", WAYS[line.way], "deg")
        if line.at == "reference":
            readings.constant[i] = tilt_line
        if line.at == "rudder-foil":
            hangs_on("rudder.incidence")
        if line.at == "flap" or (line.at == "main-foil" and whole):
            if line.wand is None or not line.travel:
                raise Mistake(
                    f"{sheet.file}, line {line.number}",
                    "no wand_deg or no travel",
                    "both: this part moves with the wand",
                    "Write the wand's angle and which way it came to its place.",
                )
            readings.kind[i] = ANGLE
        if line.at in ("main-foil", "flap"):
            hangs_on("main.incidence")  # of a whole foil nothing: its angle is the foil angle
    if line.what == "wand-stop":
        hangs_on("wand.forward_stop" if line.at == "forward" else "wand.aft_stop")
        shifted_by("tilt", -1.0, "deg")
        shifted_by("level", -1.0, "deg")
    if line.what == "tape":
        for number, weight in TAPES[line.at]:
            hangs_on(number, weight)
        path = tape_path(boat, line.at)
        if path in OVER_ANOTHER_LINE:  # the tape began there as well
            readings.constant[i] = boat.numbers[path] - float(readings.numbers[i] @ boat.row)
    if line.what == "rake":
        arm = to_si(head.rake_arm_mm, "mm")
        hangs_on("rudder.incidence", arm)
        readings.marks[i, boat.names.index("rudder.incidence")] = -arm
        shifted_by("rake", 1.0, "mm")
    if line.what == "weigh":
        if head.bow_lift_x_m is None or head.stern_lift_x_m is None:
            raise Mistake(
                f"{sheet.file}, line {line.number}",
                "a weight, and no bow_lift_x_m and stern_lift_x_m above the readings",
                "both lift points, in metres forward of the transom",
                "Measure where the boat was lifted and where it rested.",
            )
        here, other = head.bow_lift_x_m, head.stern_lift_x_m
        if line.at == "stern":
            here, other = other, here
        readings.kind[i], readings.arm[i], readings.origin[i] = LIFTED, here - other, other
    if line.what == "pull":
        readings.kind[i], readings.arm[i] = PULLED, to_si(head.pull_mark_mm, "mm")
    assert readings.kind[i] in (STRAIGHT, ANGLE, SINE, LIFTED, PULLED)


def edge_arm(boat: ReadyBoat) -> float:
    """Hinge to trailing edge at the root [m]."""
    n = boat.numbers
    root = 2.0 * n["main_foil.area_m2"] / (n["main_foil.span_m"] * (1.0 + n["main_foil.taper"]))
    if boat.file.main_foil.control == "whole":
        return root * (1.0 - n["main_foil.pivot_share"])
    return root * n["main_foil.flap_chord_share"]
