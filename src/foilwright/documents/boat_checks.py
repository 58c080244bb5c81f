"""What can be wrong with a boat file beyond single fields: numbers that do not go together."""

from collections.abc import Iterator
from dataclasses import replace
from math import degrees

import numpy as np

from foilwright.documents.boat_adjusters import adjuster_of
from foilwright.documents.boat_chain import AdjusterRecord
from foilwright.documents.boat_record import BoatFile
from foilwright.documents.boat_row import curve_of, row_of
from foilwright.documents.boat_table import all_numbers, given_numbers, is_curve
from foilwright.documents.chain_checks import closing, make_up
from foilwright.mistakes import Mistake
from foilwright.units import plain
from foilwright.water.section_data import parse
from foilwright.water.section_outline import outline_faults


def faults_in(boat: BoatFile, file: str) -> list[Mistake]:
    """Everything found; what needs a whole chain is looked at only where there is one."""
    found = [*_either_or(boat, file), *_whole_foil(boat, file), *make_up(boat, file)]
    for i, record in enumerate(boat.adjusters):
        found += _record_faults(boat, record, i, file)
    if found:
        return found
    found = [*_proportions(boat, file), *_stops(boat, file), *_sections(boat, file)]
    if found:
        return found
    numbers, _ = all_numbers(boat, given_numbers(boat))
    curve = curve_of(boat, numbers)
    row = row_of(boat, numbers, curve)
    if not is_curve(boat):
        found += closing(boat, row, file)
    for record in boat.adjusters if not found else ():
        try:
            adjuster_of(record, boat, numbers, row, curve, file)
        except Mistake as mistake:
            found.append(mistake)
    return found


def _either_or(boat: BoatFile, file: str) -> Iterator[Mistake]:
    """Numbers that may be given in one of two ways."""
    ways = (
        ("main_foil", "below_keel_m", "strut_m", True),
        ("main_foil", "area_m2", "mean_chord_m", True),
        ("wand", "pivot_z_m", "above_reference_m", True),
        ("wand", "pivot_x_m", "ahead_of_main_strut_m", True),
        ("rudder", "x_m", "behind_main_strut_m", False),
        ("main_foil", "section", "section_outline", False),
        ("rudder", "section", "section_outline", False),
    )
    for part, one, other, needed in ways:
        table = getattr(boat, part)
        given = [name for name in (one, other) if getattr(table, name) is not None]
        if len(given) == 2:
            yield Mistake(
                f"{file}: {part}.{other}", f"given beside {one}", f"{one} or {other}", "Take one of them out."
            )
        if needed and not given:
            yield Mistake(f"{file}: {part}.{one}", "missing", f"{one} or {other}", "Measure one of them.")


def _whole_foil(boat: BoatFile, file: str) -> Iterator[Mistake]:
    foil, chain = boat.main_foil, boat.chain
    if (
        foil.control == "whole"
        and chain.foil_deg is not None
        and abs(chain.foil_deg - foil.incidence_deg) > 1e-6
    ):
        yield Mistake(
            f"{file}: chain.foil_deg",
            plain(chain.foil_deg),
            f"{plain(foil.incidence_deg)}, as main_foil.incidence_deg: of a whole foil they are one angle",
            "Read the chord once, with the wand at wand_deg, and write it in one place.",
        )
    unused = ("flap_chord_share", "flap_span_share") if foil.control == "whole" else ("pivot_share",)
    for name in unused:
        if getattr(foil, name) is not None:
            yield Mistake(
                f"{file}: main_foil.{name}",
                plain(getattr(foil, name)),
                f'nothing where control = "{foil.control}"',
                "Take it out, or mend `control`.",
            )


def _record_faults(boat: BoatFile, record: AdjusterRecord, i: int, file: str) -> Iterator[Mistake]:
    where = f"{file}: adjusters.{record.name}"
    if any(other.name == record.name for other in boat.adjusters[:i]):
        yield Mistake(
            where, f"`{record.name}` twice", "a name of its own for each adjuster", "Rename one of them."
        )
    if not record.least <= 0 <= record.greatest or record.least == record.greatest:
        swapped = record.least > record.greatest
        yield Mistake(
            where,
            f"least = {record.least}, greatest = {record.greatest}",
            "a range with the mark, 0, inside it: least at most 0, greatest at least 0",
            "Swap them." if swapped else "Count from the mark, not from the end of the thread.",
        )
    elif not record.least <= record.present <= record.greatest:
        yield Mistake(
            f"{where}.present",
            plain(record.present),
            f"{record.least} to {record.greatest}, its range",
            "Count again from the mark, or mend the range.",
        )
    if bool(record.changes) == bool(record.positions):
        yield Mistake(
            where,
            "both changes and positions" if record.changes else "neither changes nor positions",
            "changes (so much a step) or positions (holes)",
            "Say in one way what a step changes.",
        )
    if _turns_curve(record) and len(boat.chain.curve) < 2:
        yield Mistake(
            where,
            "it turns the curve, which was measured at one position",
            "a curve at two positions or more",
            "Measure it again some turns away, or give foil_change_deg there.",
        )
    steps = [position.step for position in record.positions]
    for step in sorted({step for step in steps if steps.count(step) > 1}):
        yield Mistake(f"{where}.positions", f"hole {step} twice", "each hole once", "Count the holes again.")


def _proportions(boat: BoatFile, file: str) -> Iterator[Mistake]:
    """Numbers that are credible alone and not together."""
    numbers, _ = all_numbers(boat, given_numbers(boat))
    length, height = numbers["wand.length_m"], numbers["wand.pivot_z_m"]
    if length <= height:
        yield Mistake(
            f"{file}: wand.length_m",
            f"{plain(length)} m, with its pivot {plain(height)} m above the keel line",
            "longer than the pivot is high: it would never reach the water in flight",
            "Measure the wand from pivot to tip, and the pivot's height from the keel line.",
        )
    for part in ("main_foil", "rudder"):
        ratio = numbers[f"{part}.span_m"] ** 2 / numbers[f"{part}.area_m2"]
        if not 3.0 <= ratio <= 20.0:
            yield Mistake(
                f"{file}: {part}.area_m2",
                f"{plain(numbers[f'{part}.area_m2'])} m2 with a span of "
                f"{plain(numbers[f'{part}.span_m'])} m: span squared over area is {plain(ratio, 3)}",
                "3 to 20",
                "Measure span and chord again: area is span times mean chord.",
            )
    if numbers["rudder.x_m"] > numbers["main_foil.x_m"] - 0.5:
        yield Mistake(
            f"{file}: rudder.x_m",
            plain(numbers["rudder.x_m"]),
            f"0.5 m or more aft of the main foil at {plain(numbers['main_foil.x_m'])}",
            "x counts from the transom forward; a rudder behind it is negative.",
        )
    if numbers["wand.pivot_x_m"] < numbers["main_foil.x_m"] + 0.2:
        yield Mistake(
            f"{file}: wand.pivot_x_m",
            plain(numbers["wand.pivot_x_m"]),
            f"ahead of the main foil at {plain(numbers['main_foil.x_m'])}",
            "x counts from the transom forward; the wand is at the bow.",
        )
    least, usual, most = (numbers[f"crew.{which}_mass_kg"] for which in ("least", "usual", "greatest"))
    if boat.crew.usual_mass_kg is not None and boat.crew.least_mass_kg is not None and least > usual:
        yield Mistake(
            f"{file}: crew.least_mass_kg", plain(least), f"at most the usual {plain(usual)} kg", "Mend one."
        )
    if boat.crew.usual_mass_kg is not None and boat.crew.greatest_mass_kg is not None and most < usual:
        yield Mistake(
            f"{file}: crew.greatest_mass_kg",
            plain(most),
            f"at least the usual {plain(usual)} kg",
            "Mend one.",
        )


def _sections(boat: BoatFile, file: str) -> Iterator[Mistake]:
    for part in ("main_foil", "rudder"):
        name, outline = getattr(boat, part).section, getattr(boat, part).section_outline
        if outline is not None:
            yield from outline_faults(np.array(outline), f"{file}: {part}.section_outline")
        if name is not None:
            try:
                parse(name)
            except Mistake as mistake:
                yield replace(mistake, where=f"{file}: {part}.section")


def _stops(boat: BoatFile, file: str) -> Iterator[Mistake]:
    numbers, _ = all_numbers(boat, given_numbers(boat))
    pairs = (
        ("wand.forward_stop_deg", "wand.aft_stop_deg", 20.0, "the wand's stops"),
        ("chain.foil_least_deg", "chain.foil_greatest_deg", 2.0, "the foil's stops"),
    )
    for low, high, apart, words in pairs:
        a, b = numbers[low], numbers[high]
        if b - a < apart:
            if b < a:
                mend = "They are the wrong way round: swap them."
            elif b - a > 0 and degrees(b - a) > apart:
                meant = f"{plain(degrees(a), 3)} and {plain(degrees(b), 3)} deg"
                mend = f"That looks like radians; did you mean {meant}?"
            else:
                mend = "Hold the chain at each stop and read again."
            yield Mistake(
                f"{file}: {high}",
                f"{plain(a)} and {plain(b)} as {words}",
                f"degrees, at least {plain(apart)} apart, {low.split('.')[1]} the smaller",
                mend,
            )
    if not is_curve(boat):
        wand = numbers["chain.wand_deg"]
        if 0.3 < wand < 1.4 or not numbers["wand.forward_stop_deg"] <= wand <= numbers["wand.aft_stop_deg"]:
            if 0.3 < wand < 1.4:
                mend = f"That looks like radians; did you mean {plain(degrees(wand), 3)} deg?"
            else:
                mend = "Draw the chain with the wand between its stops."
            yield Mistake(
                f"{file}: chain.wand_deg",
                plain(wand),
                f"degrees, between the wand's stops at {plain(numbers['wand.forward_stop_deg'])} and "
                f"{plain(numbers['wand.aft_stop_deg'])}",
                mend,
            )


def _turns_curve(record: AdjusterRecord) -> bool:
    paths = [change.number for change in record.changes]
    paths += [path for position in record.positions for path in position.values]
    return "chain.curve_position" in paths
