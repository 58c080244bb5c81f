"""From the adjuster records of a boat file to adjusters that act on its row."""

from collections.abc import Mapping
from difflib import get_close_matches

import numpy as np

from foilwright.documents.boat_chain import AdjusterRecord
from foilwright.documents.boat_record import BoatFile
from foilwright.documents.boat_row import row_of
from foilwright.documents.boat_table import rods_remade
from foilwright.documents.limits import limits_of
from foilwright.linkage.curve import CurveTable
from foilwright.measures import Floats
from foilwright.mistakes import Mistake
from foilwright.setup.adjusters import Adjuster
from foilwright.units import plain


def adjusters_of(
    boat: BoatFile, numbers: Mapping[str, float], row: Floats, curve: CurveTable, file: str
) -> tuple[Adjuster, ...]:
    """Every adjuster of the boat, in the file's order. Raises the first Mistake found."""
    return tuple(adjuster_of(record, boat, numbers, row, curve, file) for record in boat.adjusters)


def adjuster_of(
    record: AdjusterRecord,
    boat: BoatFile,
    numbers: Mapping[str, float],
    row: Floats,
    curve: CurveTable,
    file: str,
) -> Adjuster:
    """One adjuster: the row built again at each of its steps, and what differs from the row at the mark."""
    where = f"{file}: adjusters.{record.name}"
    values = _values(record, numbers, where)
    steps = sorted(values)
    if len(steps) < 2:
        raise Mistake(
            where, "a range of no steps", "at least one step either way", "Write how far it can be moved."
        )
    if steps[0] != record.least or steps[-1] != record.greatest:
        raise Mistake(
            f"{where}.positions",
            f"holes from {steps[0]:+d} to {steps[-1]:+d}",
            f"holes over the whole range, {record.least:+d} to {record.greatest:+d}",
            "Add the missing holes, or mend `least` and `greatest`.",
        )
    changes = []
    for step in steps:
        _check_range(values[step], numbers, record, step, where)
        after = {**numbers, **values[step]}
        if record.rods == "re-made":
            after = rods_remade(boat, numbers, after)
        changes.append(row_of(boat, after, curve) - row)
    amounts = np.array(changes)
    touched = np.flatnonzero(np.abs(amounts).max(axis=0) > 1e-15)
    if len(touched) == 0:
        paths = ", ".join(sorted({path for at in values.values() for path in at}))
        raise Mistake(
            where,
            f"changes nothing: {paths} does not count, or its steps are nothing",
            "a number that the flight depends on",
            "Look at the number's name and at its amount per step.",
        )
    return Adjuster(
        record.name, tuple(int(i) for i in touched), np.array(steps, dtype=float), amounts[:, touched]
    )


def _values(record: AdjusterRecord, numbers: Mapping[str, float], where: str) -> dict[int, dict[str, float]]:
    """The values of the record's numbers at each of its steps; the mark is always one of them."""
    if record.positions:
        at = {position.step: dict(position.values) for position in record.positions}
        for position in record.positions:
            for path in position.values:
                _check_path(path, numbers, f"{where}.positions")
        for path, value in at.get(0, {}).items():
            if abs(value - numbers[path]) > 1e-6 * max(abs(value), 1e-3):
                raise Mistake(
                    f"{where}.positions",
                    f"hole 0 has {path} = {plain(value)}",
                    f"{plain(numbers[path])}, as the file has it",
                    "Hole 0 is the mark: make both numbers the same.",
                )
        at.setdefault(0, {})
        return at
    for change in record.changes:
        _check_path(change.number, numbers, f"{where}.changes")
    return {
        step: {change.number: numbers[change.number] + step * change.per_step for change in record.changes}
        for step in range(record.least, record.greatest + 1)
    }


def _check_path(path: str, numbers: Mapping[str, float], where: str) -> None:
    if path not in numbers:
        near = get_close_matches(path, list(numbers), n=1, cutoff=0.6)
        raise Mistake(
            where,
            f"number `{path}`, which this boat does not have",
            "the path of a number of this file, such as wand.length_m or chain.rods.main-rod.length_m",
            f"Did you mean {near[0]}?" if near else "Look up the path in the file.",
        )


def _check_range(
    values: Mapping[str, float], numbers: Mapping[str, float], record: AdjusterRecord, step: int, where: str
) -> None:
    for path, value in values.items():
        low, high = limits_of(path)
        if not low <= value <= high:
            per_step = (value - numbers[path]) / step if step else value
            slip = ""
            if path.endswith("_m") and low <= numbers[path] + 0.001 * per_step * step <= high:
                slip = f" If that is millimetres, write {plain(0.001 * per_step)} a step."
            raise Mistake(
                where,
                f"at step {step:+d} it makes {path} = {plain(value)}",
                f"{plain(low)} to {plain(high)}",
                f"Look at the amount per step and at the range.{slip}",
            )
