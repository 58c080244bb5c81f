"""What can be wrong with a whole bench sheet: another boat's, swapped columns, centimetres, beyond stops.

The boat as its file has it says roughly what should have been read; these faults are far larger than any
doubt about the boat. The sheet itself is never changed.
"""

from math import asin, degrees, radians

import numpy as np

from foilwright.documents.bench_boat import Bench
from foilwright.documents.bench_record import BenchSheet
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.evidence.bench_model import expected
from foilwright.measures import Floats
from foilwright.mistakes import Mistake, Mistakes
from foilwright.units import plain, to_si

WAND_BEYOND_DEG = 8.0  # a stop may be that far from what the file says, and the boat tilted
FOIL_BEYOND_DEG = 12.0  # less than that is told as a line that does not fit
LEAST_LINES = 4  # of the batten, to say something about all of them


def check_boat(boat: ReadyBoat, sheet: BenchSheet) -> None:
    """Raises a Mistake where the sheet names another boat: neither its name nor its hull is this one's."""
    head, hull = sheet.head, boat.file.hull.id
    same_hull = head.hull is not None and hull is not None and head.hull == hull
    if head.boat.strip().lower() == boat.name.strip().lower() or same_hull:
        return
    raise Mistake(
        f"{sheet.file}: boat",
        f"a sheet for {head.boat}",
        f"{boat.name}" + (f", or hull = {hull}" if hull else ""),
        "Take the sheet of this boat, or mend the name at its top.",
    )


def check_readings(bench: Bench) -> None:
    """Raises Mistakes for whole columns that cannot be as written, and for readings beyond the stops."""
    values, _ = expected(bench.model, bench.readings, np.zeros((1, len(bench.unsure))))
    whole = _wrong_way(bench, values[0]) or _swapped(bench, values[0]) or _centimetres(bench, values[0])
    if whole:
        raise whole
    found = _ends_swapped(bench) or _beyond_stops(bench)
    if found:
        raise Mistakes(tuple(found))


def _battens(bench: Bench) -> list[int]:
    return [i for i, line in enumerate(bench.sheet.lines) if line.what == "batten" and not line.load]


def _scatter(miss: Floats) -> float:
    """How far readings lie from what was expected, a common shift and a few wild ones aside [m]."""
    return float(np.median(np.abs(miss - np.median(miss))))


def _wrong_way(bench: Bench, values: Floats) -> Mistake | None:
    """All batten readings run the other way: counted up, not down."""
    lines = _battens(bench)
    if len(lines) < LEAST_LINES:
        return None
    should, read = values[lines], bench.readings.value[lines]
    if _scatter(read + should) > 0.4 * _scatter(read - should) or _scatter(read - should) < to_si(5.0, "mm"):
        return None
    line = bench.sheet.lines[lines[0]]
    return Mistake(
        f"{bench.sheet.file}, line {line.number}: reading",
        f"{line.as_read}, where about {1000.0 * values[lines[0]]:.0f} mm should stand, "
        f"and {len(lines) - 1} more such",
        "millimetres at the batten's end, down positive",
        "All signs look wrong: count from the zero downwards.",
    )


def _ends_swapped(bench: Bench) -> list[Mistake]:
    """Readings at one stop that belong to the other."""
    found = []
    for what, low, high in (("foil-stop", "least", "greatest"), ("wand-stop", "forward", "back")):
        lines = {
            at: [line for line in bench.sheet.lines if line.what == what and line.at == at]
            for at in (low, high)
        }
        if all(lines.values()):
            below, above = (np.median([line.reading for line in lines[at]]) for at in (low, high))
            if below > above:
                first = lines[low][0]
                found.append(
                    Mistake(
                        f"{bench.sheet.file}, line {first.number}",
                        f"{what} {low} {first.as_read}, more than {what} {high} {lines[high][0].as_read}",
                        f"less at `{low}` than at `{high}`",
                        "The two have changed places: swap their names in the column `at`.",
                    )
                )
    return found


def _swapped(bench: Bench, values: Floats) -> Mistake | None:
    """wand_deg and reading have changed places: so they fit far better than as written or in centimetres."""
    lines = _battens(bench)
    if len(lines) < LEAST_LINES:
        return None
    readings = bench.readings
    read_mm = readings.value[lines] / to_si(1.0, "mm")
    wand, value = readings.wand.copy(), readings.value.copy()
    wand[lines] = np.radians(read_mm)
    value[lines] = np.degrees(readings.wand[lines]) * to_si(1.0, "mm")
    other, _ = expected(bench.model, readings._replace(wand=wand), np.zeros((1, len(bench.unsure))))
    as_written = _scatter(readings.value[lines] - values[lines])
    turned_round = _scatter(value[lines] - other[0, lines])
    in_centimetres = _scatter(10.0 * readings.value[lines] - values[lines])
    if as_written < to_si(5.0, "mm") or turned_round > 0.4 * min(as_written, in_centimetres):
        return None
    line = bench.sheet.lines[lines[0]]
    return Mistake(
        f"{bench.sheet.file}, line {line.number}",
        f"wand_deg {plain(degrees(line.wand or 0.0), 4)} and reading {line.as_read}, "
        f"and {len(lines) - 1} more such",
        "the wand's angle in wand_deg, what the batten read in reading",
        "These two columns have changed places: swap their names at the top of the table.",
    )


def _centimetres(bench: Bench, values: Floats) -> Mistake | None:
    """All batten readings are a tenth of what they should be."""
    lines = _battens(bench)
    if len(lines) < LEAST_LINES:
        return None
    should, read = values[lines], bench.readings.value[lines]
    spread = should - should.mean()
    if np.ptp(should) < to_si(15.0, "mm"):
        return None
    slope = float(spread @ (read - read.mean()) / (spread @ spread))
    if not 0.05 < slope < 0.2 or np.abs(read).max() > 0.3 * np.abs(should).max():
        return None
    line = bench.sheet.lines[lines[0]]
    return Mistake(
        f"{bench.sheet.file}, line {line.number}: reading",
        f"{line.as_read}, where about {1000.0 * values[lines[0]]:.0f} mm should stand, "
        f"and {len(lines) - 1} more such",
        f"millimetres at the batten's end, {radians(bench.sheet.head.batten_length_mm):.0f} for each degree",
        "That looks like centimetres: write millimetres, or the unit with the number (`-2.4cm`).",
    )


def _beyond_stops(bench: Bench) -> list[Mistake]:
    boat = bench.boat
    names, row = boat.names, boat.row
    low, high = (degrees(row[names.index(f"wand.{end}_stop")]) for end in ("forward", "aft"))
    least, greatest = (degrees(row[names.index(f"chain.foil_{end}")]) for end in ("least", "greatest"))
    found = []
    for i, line in enumerate(bench.sheet.lines):
        where = f"{bench.sheet.file}, line {line.number}"
        if line.wand is not None and line.what != "pull":
            wand = degrees(line.wand)
            if not low - WAND_BEYOND_DEG <= wand <= high + WAND_BEYOND_DEG:
                found.append(
                    Mistake(
                        f"{where}: wand_deg",
                        f"{plain(wand, 4)} deg, beyond the wand's stop",
                        f"{low:.0f} to {high:.0f} deg, as the boat file has its stops",
                        "Read the wand again, or mend the stop in the boat file.",
                    )
                )
        if line.what in ("batten", "edge"):
            share = bench.readings.value[i] / bench.readings.arm[i]
            foil = degrees(asin(min(max(share, -1.0), 1.0)) + bench.readings.aside[i])
            if not least - FOIL_BEYOND_DEG <= foil <= greatest + FOIL_BEYOND_DEG:
                found.append(
                    Mistake(
                        f"{where}: reading",
                        f"{line.as_read}, a foil angle of {foil:.0f} deg, far beyond its stop",
                        f"{least:.0f} to {greatest:.0f} deg, as the boat file has its stops",
                        "Read it again; a sign, a digit, or the batten slipped.",
                    )
                )
    return found
