"""The numbers of a boat file in one table: path in the file -> value in the file's unit, missing ones filled.

"wand.length_m" -> 1.12; entries of lists by their names: "chain.rods.main-rod.length_m". Adjusters,
uncertainties and assumptions all change numbers of this table; what such a change means for the row that
flies follows from building the row again (`boat_row.py`).
"""

from collections.abc import Mapping
from dataclasses import replace
from math import cos, degrees, hypot, radians, sin, tan
from typing import Any

import numpy as np

from foilwright.documents.boat_record import BoatFile
from foilwright.documents.defaults import (
    Assumed,
    Band,
    Default,
    Taken,
    assumption,
    defaults_for,
    filled,
)
from foilwright.water.hull_shape import HullNumbers, parametric_lines
from foilwright.water.section_data import TYPICAL_ZERO_LIFT_BAND

PARTS = ("reference", "mass", "crew", "hull", "main_foil", "rudder", "rig", "wand", "chain")


def is_curve(boat: BoatFile) -> bool:
    """Whether the chain is given by a measured curve."""
    return bool(boat.chain.curve)


def given_numbers(boat: BoatFile) -> dict[str, float]:
    """Every number that the file gives, by its path, in the file's units."""
    numbers: dict[str, float] = {}
    for part in PARTS:
        numbers |= _numbers_in(getattr(boat, part), part)
    for crank in boat.chain.cranks:
        numbers |= _numbers_in(crank, f"chain.cranks.{crank.name}")
    for rod in boat.chain.rods:
        numbers |= _numbers_in(rod, f"chain.rods.{rod.name}")
    if boat.main_foil.control == "whole":
        numbers.pop("chain.foil_deg", None)  # one and the same angle as the incidence
    return numbers


def given_errors(boat: BoatFile) -> dict[str, float]:
    """Standard error of every number that has one, by the number's path, in the file's units."""
    tables = {part: getattr(boat, part) for part in PARTS}
    tables |= {f"chain.cranks.{crank.name}": crank for crank in boat.chain.cranks}
    tables |= {f"chain.rods.{rod.name}": rod for rod in boat.chain.rods}
    return {
        f"{path}.{name}": se for path, part in tables.items() for name, se in part.standard_errors.items()
    }


def _numbers_in(part: Any, path: str) -> dict[str, float]:
    fields = ((name, getattr(part, name)) for name in type(part).model_fields)
    return {f"{path}.{name}": value for name, value in fields if isinstance(value, float)}


def all_numbers(boat: BoatFile, given: Mapping[str, float]) -> tuple[dict[str, float], list[Assumed]]:
    """The given numbers completed: defaults by form of boat, and what follows from other numbers."""
    numbers, taken = _completed(boat, given)
    return numbers, [_of_typical_section(boat, assumption(one)) for one in taken]


def numbers_alone(boat: BoatFile, given: Mapping[str, float]) -> dict[str, float]:
    """`all_numbers` without the words for what was assumed."""
    numbers, _ = _completed(boat, given)
    return numbers


def _depth_of_foil(boat: BoatFile, given: Mapping[str, float]) -> float:
    """Foil plane below the keel line [m] of a strut measured from the hull, whose bottom may rise there."""
    table = [d for d in _defaults(boat) if d.path.startswith("hull.") or d.path == "main_foil.x_m"]
    numbers, _ = filled(boat.form, given, table, frozenset())
    if "main_foil.strut_top_m" in numbers:
        return numbers["main_foil.strut_m"] - numbers["main_foil.strut_top_m"]
    return numbers["main_foil.strut_m"] - _bottom_at(numbers, "main_foil")


def _defaults(boat: BoatFile) -> tuple[Default, ...]:
    return defaults_for(boat.main_foil.control, is_curve(boat), tuple(rod.name for rod in boat.chain.rods))


def _completed(boat: BoatFile, given: Mapping[str, float]) -> tuple[dict[str, float], list[Taken]]:
    if "main_foil.strut_m" in given:
        given = {**given, "main_foil.below_keel_m": _depth_of_foil(boat, given)}
    unused = (
        {"main_foil.pivot_share"}
        if boat.main_foil.control == "flap"
        else {"main_foil.flap_chord_share", "main_foil.flap_span_share"}
    )
    if "main_foil.area_m2" in given:
        unused.add("main_foil.mean_chord_m")
    if "rudder.behind_main_strut_m" in given:
        unused.add("rudder.x_m")
    if is_curve(boat):
        unused.add("chain.wand_deg")
    numbers, taken = filled(boat.form, given, _defaults(boat), frozenset(unused))
    if "main_foil.area_m2" not in given and "main_foil.mean_chord_m" in given:
        numbers["main_foil.area_m2"] = numbers["main_foil.span_m"] * numbers["main_foil.mean_chord_m"]
    if "rudder.behind_main_strut_m" in given:
        numbers["rudder.x_m"] = numbers["main_foil.x_m"] - given["rudder.behind_main_strut_m"]
    if "wand.ahead_of_main_strut_m" in given:
        numbers["wand.pivot_x_m"] = numbers["main_foil.x_m"] + given["wand.ahead_of_main_strut_m"]
    if "wand.above_reference_m" in given:
        line = radians(numbers["reference.keel_line_deg"])
        ahead = numbers["wand.pivot_x_m"] - numbers["main_foil.x_m"]
        below = numbers["reference.above_keel_m"] + ahead * tan(line)
        numbers["wand.pivot_z_m"] = below + given["wand.above_reference_m"] / cos(line)
    _places(numbers, taken)
    numbers.setdefault("chain.slop_deg", 0.0)
    numbers.setdefault("chain.give_deg_per_n_m", 0.0)
    numbers["chain.curve_position"] = given.get("chain.curve_position", 0.0)
    for i, rod in enumerate(boat.chain.rods):
        numbers.setdefault(f"chain.rods.{rod.name}.length_m", drawn_length(boat, numbers, i))
    return numbers, taken


def _of_typical_section(boat: BoatFile, one: Assumed) -> Assumed:
    """The angle of no lift of a section that nobody named is known less well than that of a named one."""
    part, _, last = one.name.partition(".")
    if last != "zero_lift_shift_deg":
        return one
    foil = getattr(boat, part)
    if foil.section_outline is not None or not (foil.section or "typical").startswith("typical"):
        return one
    band = degrees(TYPICAL_ZERO_LIFT_BAND)
    return replace(one, low=-band, high=band, source="the sections that the typical one stands for")


def _bottom_at(numbers: Mapping[str, float], foil: str) -> float:
    """The hull's bottom at a strut, over the keel line [m]."""
    hull = hull_numbers(numbers)
    _, keel = parametric_lines(hull, np.clip([numbers[f"{foil}.x_m"]], 0.0, hull.length))
    return float(keel[0])


def _places(numbers: dict[str, float], taken: list[Taken]) -> None:
    """Places that follow from the hull: where the struts leave it, the middle of the mast."""
    for foil in ("main_foil", "rudder"):
        path = f"{foil}.strut_top_m"
        if path not in numbers:
            top = _bottom_at(numbers, foil)
            numbers[path] = top
            taken.append(Taken(path, Band(top, top - 0.02, top + 0.02), "the hull's bottom at the strut"))
    if "rig.mast_z_m" not in numbers:
        middle = numbers["hull.depth_m"] + 0.5 * numbers["rig.mast_height_m"]
        numbers["rig.mast_z_m"] = middle
        taken.append(Taken("rig.mast_z_m", Band(middle, middle - 0.3, middle + 0.5), "half way up the mast"))


def hull_numbers(numbers: Mapping[str, float]) -> HullNumbers:
    """The ten numbers of the hull's shape."""
    return HullNumbers(
        length=numbers["hull.length_m"],
        beam=numbers["hull.beam_m"],
        depth=numbers["hull.depth_m"],
        widest_at=numbers["hull.greatest_beam_share"],
        bow_exponent=numbers["hull.bow_exponent"],
        bow_beam_share=numbers["hull.bow_beam_share"],
        transom_beam_share=numbers["hull.transom_beam_share"],
        bow_rise=numbers["hull.bow_rise_m"],
        stern_rise=numbers["hull.stern_rise_m"],
        section_exponent=numbers["hull.section_exponent"],
    )


def arm(numbers: Mapping[str, float], crank: str, side: str) -> tuple[float, float]:
    """An arm of a crank in the drawing, from its pivot to its tip [m]."""
    length = numbers[f"chain.cranks.{crank}.{side}_arm_m"]
    direction = radians(numbers[f"chain.cranks.{crank}.{side}_direction_deg"])
    return length * cos(direction), length * sin(direction)


def pivot(boat: BoatFile, numbers: Mapping[str, float], i: int) -> tuple[float, float]:
    """The pivot of crank i [m]; that of the wand crank is the wand's."""
    if i == 0:
        return numbers["wand.pivot_x_m"], numbers["wand.pivot_z_m"]
    crank = boat.chain.cranks[i].name
    return numbers[f"chain.cranks.{crank}.pivot_x_m"], numbers[f"chain.cranks.{crank}.pivot_z_m"]


def drawn_length(boat: BoatFile, numbers: Mapping[str, float], i: int) -> float:
    """Length of rod i as the drawing position has it [m]."""
    (ax, az), (bx, bz) = pivot(boat, numbers, i), pivot(boat, numbers, i + 1)
    out_x, out_z = arm(numbers, boat.chain.cranks[i].name, "out")
    in_x, in_z = arm(numbers, boat.chain.cranks[i + 1].name, "in")
    return hypot(bx + in_x - ax - out_x, bz + in_z - az - out_z)


def rods_remade(boat: BoatFile, before: Mapping[str, float], after: Mapping[str, float]) -> dict[str, float]:
    """`after` with every rod made longer or shorter by as much as the drawing asks for since `before`."""
    numbers = dict(after)
    for i, rod in enumerate(boat.chain.rods):
        path = f"chain.rods.{rod.name}.length_m"
        numbers[path] += drawn_length(boat, after, i) - drawn_length(boat, before, i)
    return numbers
