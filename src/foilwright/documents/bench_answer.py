"""What a fitted bench sheet says: the answer of `bench`, and values for a new version of the boat file."""

from collections.abc import Mapping
from math import degrees
from typing import Any, TypedDict

import numpy as np

from foilwright.documents.bench_boat import Bench, values_with
from foilwright.documents.bench_record import KINDS
from foilwright.documents.bench_unsure import Unsure
from foilwright.documents.boat_table import given_errors
from foilwright.documents.limits import limits_of
from foilwright.documents.measured import twin_of
from foilwright.evidence.bench_fit import BenchFit
from foilwright.evidence.bench_model import ANGLE, SINE
from foilwright.units import from_si, plain

TOGETHER = 0.9  # correlation above which two numbers are told to hang together


class FittedNumber(TypedDict):
    """One number of the boat before and after, with its standard error."""

    name: str
    before: float
    after: float
    standard_error: float
    unit: str


class Outlier(TypedDict):
    """A line that does not fit; it was not used."""

    line: int
    what: str
    reading: float
    expected: float
    unit: str
    sentence: str


class Together(TypedDict):
    """Two numbers of which the sheet knows a sum or a ratio better than each."""

    names: list[str]
    correlation: float


class BenchAnswer(TypedDict):
    """Answer of `bench`."""

    format: str
    version: int
    boat: str
    boat_version: str
    sheet: str
    readings: int
    fitted: list[FittedNumber]
    sheet_found: list[FittedNumber]
    outliers: list[Outlier]
    not_learned: list[str]
    together: list[Together]
    slop_deg: float
    rms_deg: float | None
    warnings: list[str]
    settled: bool
    file: str | None
    new_version: str | None


class FormAnswer(TypedDict):
    """Answer of `bench --form`."""

    format: str
    version: int
    boat: str
    boat_version: str
    readings: int
    file: str


def fitted_numbers(bench: Bench, found: BenchFit, of_sheet: bool) -> list[FittedNumber]:
    """Every number of the boat (or of how the sheet was made), before and after."""
    rows: list[FittedNumber] = []
    values = values_with(bench.boat.file, bench.unsure, found.parameters)
    errors = _errors(bench, found)
    for thing, amount, share in zip(bench.unsure, found.parameters, found.standard_errors, strict=True):
        if bool(thing.sheet) != of_sheet:
            continue
        after, error = _allowed(thing, thing.before + float(amount) * thing.error), float(share) * thing.error
        if thing.shown is not None:
            path, point = thing.shown
            after, error = values[path][point], float(errors[path][0][point])
        rows.append(
            {
                "name": thing.name,
                "before": _rounded(thing.before, thing),
                "after": _rounded(after, thing),
                "standard_error": _rounded(error, thing),
                "unit": thing.unit,
            }
        )
    return rows


def _rounded(value: float, thing: Unsure) -> float:
    return round(value, 6 if thing.unit in ("m", "mm/N") else 4) + 0.0


def _allowed(thing: Unsure, value: float) -> float:
    """Kept inside the credible range of the number: no lost motion or friction is less than nothing."""
    for path in thing.changes:
        if _is_number(path):
            low, high = limits_of(path)
            return min(max(value, low), high)
    return value


def _is_number(path: str) -> bool:
    return not path.startswith(("adjusters.", "chain.curve."))


def outliers(bench: Bench, found: BenchFit) -> list[Outlier]:
    """The lines that do not fit, each with a sentence: what was read, what was expected, what to do."""
    told: list[Outlier] = []
    for i in found.outliers:
        line = bench.sheet.lines[int(i)]
        unit = KINDS[line.what].unit
        read, should = (from_si(float(v), unit) for v in (line.reading, found.values[int(i)]))
        mend = "Read it again, or put # before the line."
        if unit == "mm" and abs(read) > 0.4 and abs(10.0 * read - should) < 0.15 * abs(should) + 2.0:
            mend = "That looks like centimetres. " + mend
        elif abs(read + should) < 0.15 * abs(should) + 0.5:
            mend = "The sign looks wrong. " + mend
        elif not np.isnan(found.held_instead[int(i)]):
            held = plain(degrees(float(found.held_instead[int(i)])), 4)
            mend = (
                f"With the wand at {held}, as its partner has it, it fits: wand_deg is likelier wrong. "
                + mend
            )
        elif line.wand is not None and line.travel:
            mend = "Its wand angle fits no better: the reading is likelier wrong. " + mend
        told.append(
            {
                "line": line.number,
                "what": line.what,
                "reading": round(read, 3),
                "expected": round(should, 3),
                "unit": unit,
                "sentence": f"{bench.sheet.file}, line {line.number}: {line.what} {line.as_read}, "
                f"where the other lines ask for {plain(round(should, 1))} {unit}; not used. {mend}",
            }
        )
    return told


def not_learned(bench: Bench, found: BenchFit) -> list[str]:
    """Numbers of the boat about which the sheet says next to nothing."""
    return [
        thing.name
        for thing, learned in zip(bench.unsure, found.learned, strict=True)
        if not learned and not thing.sheet
    ]


def together(bench: Bench, found: BenchFit) -> list[Together]:
    """Pairs that hang together closely; not parts of one curve, of which the file holds the sum."""
    error = found.standard_errors
    correlation = found.covariance / np.outer(error, error)
    return [
        {
            "names": [bench.unsure[i].name, bench.unsure[k].name],
            "correlation": round(float(correlation[i, k]), 3),
        }
        for i in range(len(error))
        for k in range(i)
        if abs(correlation[i, k]) > TOGETHER
        and not set(bench.unsure[i].changes) & set(bench.unsure[k].changes)
    ]


def rms_deg(bench: Bench, found: BenchFit) -> float | None:
    """Root of the mean square of what is left over in the foil angles [deg]."""
    turns = found.used & np.isin(bench.readings.kind, (ANGLE, SINE))
    if not turns.any():
        return None
    left = (bench.readings.value - found.values)[turns]
    arm = np.where(bench.readings.kind == SINE, bench.readings.arm, 1.0)[turns]
    return round(degrees(float(np.sqrt(np.mean((left / arm) ** 2)))), 4)


def new_values(bench: Bench, found: BenchFit) -> Mapping[str, Any]:
    """Fitted values by their paths in the boat file, with standard errors beside what was learned.

    What was not learned keeps the standard error that it had: it moved a little with the rest, that is all.
    """
    values: dict[str, Any] = {}
    errors = _errors(bench, found)
    old = given_errors(bench.boat.file)
    for path, value in values_with(bench.boat.file, bench.unsure, found.parameters).items():
        if isinstance(value, dict):
            values[path] = {name: round(number, 6) for name, number in value.items()}
            continue
        if not isinstance(value, list) and _is_number(path):
            low, high = limits_of(path)
            value = min(max(value, low), high)
        values[path] = np.round(value, 6).tolist()
        if path not in errors:
            continue
        error, learned = errors[path]
        way, _, last = path.rpartition(".")
        if isinstance(value, list):
            values[f"{way}.foil_se_deg"] = np.round(error, 4).tolist()
        elif learned or path in old:
            values[f"{way}.{twin_of(last)}"] = float(np.round(error, 6))
    whole = bench.boat.file.main_foil.control == "whole"
    if whole and bench.boat.file.chain.foil_deg is not None and "main_foil.incidence_deg" in values:
        values["chain.foil_deg"] = values["main_foil.incidence_deg"]  # one and the same angle
    return values


def _errors(bench: Bench, found: BenchFit) -> dict[str, tuple[Any, bool]]:
    """Standard error at each path, from all parameters that act there, and whether one was learned."""
    paths = {path for thing in bench.unsure for path in thing.changes}
    errors = {}
    for path in paths:
        acting = [k for k, thing in enumerate(bench.unsure) if path in thing.changes]
        changes = np.array([bench.unsure[k].changes[path] for k in acting])
        part = found.covariance[np.ix_(acting, acting)]
        square = np.einsum("k...,kl,l...->...", changes, part, changes)
        errors[path] = (np.sqrt(square), bool(found.learned[acting].any()))
    return errors
