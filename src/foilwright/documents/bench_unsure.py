"""What a bench sheet may teach: the unsure numbers of a boat file, each with how sure the file is of it.

A number of the file with a standard error has that as its prior; one that was assumed, half its band; the
rest the sizes below. A few unsure things act on several numbers at once: the lost motion is one number for
all joints, a measured curve may stand too high as a whole.
"""

from collections.abc import Mapping
from typing import Any, NamedTuple

import numpy as np

from foilwright.documents.bench_record import TAPE_PATHS, BenchSheet
from foilwright.documents.boat_chain import AdjusterRecord, Curve
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.boat_table import given_errors, given_numbers, is_curve
from foilwright.units import ending_of

ARM_SE_M = 0.0005  # a crank arm by ruler, between middles of pins
DIRECTION_SE_DEG = 2.0  # of an arm, by eye against the drawing
FOIL_ZERO_SE_DEG = 1.0  # foil angle at the drawing position, or the whole curve: a turn of the rod
CURVE_SE_DEG = 0.3  # each point of a curve beside its common error: a batten of 300 mm
PITCH_SE_SHARE = 0.1  # of a step of an adjuster
PLAY_SE_MM = 0.1  # in every joint alike
SLOP_SE_DEG = 0.4
GIVE_SE_DEG_PER_N_M = 0.1
STOP_SE_DEG = 1.0
CHORD_SE_DEG = 0.5
LENGTH_SE_M = 0.005
MASS_SE_KG = 3.0
CENTRE_SE_M = 0.1
TENSION_SE_N_M = 1.0
FRICTION_SE_N_M = 0.3
SIZES: dict[str, float] = {
    "chain.foil_deg": FOIL_ZERO_SE_DEG,
    "main_foil.incidence_deg": CHORD_SE_DEG,
    "rudder.incidence_deg": CHORD_SE_DEG,
    "chain.slop_deg": SLOP_SE_DEG,
    "chain.give_deg_per_n_m": GIVE_SE_DEG_PER_N_M,
    "chain.foil_least_deg": STOP_SE_DEG,
    "chain.foil_greatest_deg": STOP_SE_DEG,
    "wand.forward_stop_deg": STOP_SE_DEG,
    "wand.aft_stop_deg": STOP_SE_DEG,
    "mass.mass_kg": MASS_SE_KG,
    "mass.x_m": CENTRE_SE_M,
    "wand.tension_n_m": TENSION_SE_N_M,
    "wand.friction_n_m": FRICTION_SE_N_M,
}

Values = np.ndarray[Any, np.dtype[np.float64]]


class Unsure(NamedTuple):
    """One thing that may be otherwise than the file says.

    name     of the number, by its path, or in words where it is more than one
    before   its value in the file;  error  the file's standard error of it;  unit  of both
    changes  path in the file -> what one `error` more changes there (a list's entries one by one)
    shown    where it is one point of a curve: the curve's path and the point's place on it
    sheet    a thing of this one measurement, such as how the boat stood: tilt, level, batten, rake
    """

    name: str
    before: float
    error: float
    unit: str
    changes: Mapping[str, Values]
    sheet: str = ""
    shown: tuple[str, int] | None = None


def unsure_of(boat: ReadyBoat, sheet: BenchSheet) -> list[Unsure]:
    """Everything that this sheet says something about."""
    whats = {line.what for line in sheet.lines}
    places = {(line.what, line.at) for line in sheet.lines}
    whole = boat.file.main_foil.control == "whole"
    found: list[Unsure] = []
    if foil_was_read(boat, sheet):
        found += of_curve(boat) if is_curve(boat.file) else of_cranks(boat)
        found += [one(boat, "chain.foil_least_deg"), one(boat, "chain.foil_greatest_deg")]
        if any(line.load for line in sheet.lines):
            found.append(one(boat, "chain.give_deg_per_n_m"))
    elif "foil-stop" in whats:
        found += [one(boat, "chain.foil_least_deg"), one(boat, "chain.foil_greatest_deg")]
    if not whole and ({("level", "main-foil"), ("level", "flap")} & places):
        found.append(one(boat, "main_foil.incidence_deg"))
    if ("level", "rudder-foil") in places:
        found.append(one(boat, "rudder.incidence_deg"))
    if ("wand-stop", "forward") in places:
        found.append(one(boat, "wand.forward_stop_deg"))
    if ("wand-stop", "back") in places:
        found.append(one(boat, "wand.aft_stop_deg"))
    if "weigh" in whats:
        found += [one(boat, "mass.mass_kg"), one(boat, "mass.x_m")]
    if "pull" in whats:
        found += [one(boat, "wand.tension_n_m"), one(boat, "wand.friction_n_m")]
    found += [one(boat, tape_path(boat, at)) for at in TAPE_PATHS if ("tape", at) in places]
    found += of_adjusters(boat, sheet)
    return found + of_sheet(boat, sheet)


def foil_was_read(boat: ReadyBoat, sheet: BenchSheet) -> bool:
    """Whether any line says where the foil stood for a wand angle."""
    whole = boat.file.main_foil.control == "whole"
    return any(
        line.what in ("batten", "edge")
        or line.at == "flap"
        or (whole and line.at == "main-foil" and line.what == "level")
        for line in sheet.lines
    )


def prior(boat: ReadyBoat, path: str, size: float) -> float:
    """Standard error of a number of the file: its own, half the band of what was assumed, or `size`."""
    error = given_errors(boat.file).get(path)
    if error:
        return error
    for assumed in boat.assumed:
        if assumed.name == path:
            return 0.5 * (assumed.high - assumed.low)
    return size


def one(boat: ReadyBoat, path: str, size: float | None = None) -> Unsure:
    """A single number of the file."""
    unit = ending_of(path.rsplit(".", 1)[-1])
    error = prior(boat, path, SIZES.get(path, LENGTH_SE_M) if size is None else size)
    return Unsure(path, boat.numbers[path], error, unit.symbol if unit else "", {path: np.array(error)})


def tape_path(boat: ReadyBoat, at: str) -> str:
    """The number of the file that a tape's reading corrects."""
    given = given_numbers(boat.file)
    return next((path for path in TAPE_PATHS[at] if path in given), TAPE_PATHS[at][-1])


def of_cranks(boat: ReadyBoat) -> list[Unsure]:
    """Arms, their directions, the foil's zero, the play of all joints alike."""
    zero = "main_foil.incidence_deg" if boat.file.main_foil.control == "whole" else "chain.foil_deg"
    found = [one(boat, zero)]
    for crank in boat.file.chain.cranks:
        path = f"chain.cranks.{crank.name}"
        for side in ("in", "out"):
            if f"{path}.{side}_arm_m" in boat.numbers:
                found.append(one(boat, f"{path}.{side}_arm_m", ARM_SE_M))
                found.append(one(boat, f"{path}.{side}_direction_deg", DIRECTION_SE_DEG))
    plays = [f"chain.rods.{rod.name}.play_mm" for rod in boat.file.chain.rods]
    error = max(prior(boat, path, PLAY_SE_MM) for path in plays)
    before = float(np.mean([boat.numbers[path] for path in plays]))
    every = {path: np.array(error) for path in plays}
    return [*found, Unsure("chain.rods: play_mm of every joint", before, error, "mm", every)]


def of_curve(boat: ReadyBoat) -> list[Unsure]:
    """The curve's points, all of it together, and how far it moves for a step of its adjuster."""
    curves = boat.file.chain.curve
    own = [(i, curve) for i, curve in enumerate(curves) if curve.wand_deg]
    mark, at_mark = min(own, key=lambda entry: abs(entry[1].position))
    wand = at_mark.wand_deg[len(at_mark.wand_deg) // 2]

    def paths(change: Any) -> dict[str, Values]:
        return {curve_path(i): change(curve) for i, curve in own}

    errors = at_mark.foil_se_deg or [CURVE_SE_DEG] * len(at_mark.wand_deg)
    shift = float(np.median(errors)) if at_mark.foil_se_deg else FOIL_ZERO_SE_DEG
    shifted = paths(lambda curve: np.full(len(curve.wand_deg), shift))
    if boat.file.main_foil.control == "whole":
        shifted["main_foil.incidence_deg"] = np.array(shift)
    found = [Unsure("chain.curve: shift of all foil_deg", 0.0, shift, "deg", shifted)]
    for k, angle in enumerate(at_mark.wand_deg):
        # The other positions follow: a bump of the chain shows at each of them.
        nodes = np.zeros(len(at_mark.wand_deg))
        nodes[k] = max(errors[k], 0.01)

        def bump(curve: Curve, nodes: Values = nodes) -> Values:
            return np.interp(curve.wand_deg, at_mark.wand_deg, nodes)

        name = f"chain.curve: foil_deg at wand {angle:g}"
        shown = (curve_path(mark), k)
        found.append(Unsure(name, at_mark.foil_deg[k], float(nodes[k]), "deg", paths(bump), shown=shown))
    found += _curve_pitch(boat, at_mark, wand)
    return [*found, one(boat, "chain.slop_deg")]


def curve_path(i: int) -> str:
    """Path of the foil angles of the i-th curve."""
    return f"chain.curve.{i + 1}.foil_deg"


def _curve_pitch(boat: ReadyBoat, at_mark: Curve, wand: float) -> list[Unsure]:
    """How much more a step of its adjuster moves the curve than the file says: a share, for all positions."""
    changes: dict[str, Values] = {}
    per_step = []
    for i, curve in enumerate(boat.file.chain.curve):
        steps = curve.position - at_mark.position
        if curve.foil_change_deg is not None:
            changes[f"chain.curve.{i + 1}.foil_change_deg"] = np.array(PITCH_SE_SHARE * curve.foil_change_deg)
            per_step.append(curve.foil_change_deg / steps)
        elif curve is not at_mark:
            moved = np.array(curve.foil_deg) - np.interp(curve.wand_deg, at_mark.wand_deg, at_mark.foil_deg)
            changes[curve_path(i)] = PITCH_SE_SHARE * moved
            per_step.append(float(np.interp(wand, curve.wand_deg, moved)) / steps)
    if not per_step:
        return []
    before = float(np.mean(per_step))
    return [
        Unsure("chain.curve: foil_deg for one step", before, PITCH_SE_SHARE * abs(before), "deg", changes)
    ]


def of_adjusters(boat: ReadyBoat, sheet: BenchSheet) -> list[Unsure]:
    """Steps of the adjusters that the sheet moved; that of a measured curve is on the curve itself."""
    moved = {name for line in sheet.lines for name, steps in line.settings.items() if steps}
    found = []
    for record in boat.file.adjusters:
        if record.name in moved and not record.choice and not turns_curve(record):
            for i, change in enumerate(record.changes):
                error = change.standard_errors.get("per_step") or PITCH_SE_SHARE * abs(change.per_step)
                unit = ending_of(change.number.rsplit(".", 1)[-1])
                path = f"adjusters.{record.name}.changes.{i + 1}.per_step"
                found.append(
                    Unsure(path, change.per_step, error, unit.symbol if unit else "", {path: np.array(error)})
                )
    return found


def turns_curve(record: AdjusterRecord) -> bool:
    """Whether it is the adjuster of a measured curve."""
    return any(change.number == "chain.curve_position" for change in record.changes)


TILT_SE_DEG, LEVEL_TILT_SE_DEG = 0.5, 5.0
LEVEL_ZERO_SE_DEG = 0.5
BATTEN_ZERO_SE_MM, BATTEN_FREE_SE_MM = 1.0, 20.0
RAKE_ZERO_SE_MM = 50.0


def of_sheet(boat: ReadyBoat, sheet: BenchSheet) -> list[Unsure]:
    """Things of this measurement alone: how the boat stood, the level's own zero, where the rulers began."""
    whats = {line.what for line in sheet.lines}
    places = {(line.what, line.at) for line in sheet.lines}
    found = []
    if whats & {"level", "wand-stop"} or any(line.wand is not None for line in sheet.lines):
        tilt = LEVEL_TILT_SE_DEG if ("level", "reference") in places else TILT_SE_DEG
        found.append(Unsure("how the boat stood, bow up", 0.0, tilt, "deg", {}, "tilt"))
        found.append(Unsure("the level's own zero", 0.0, LEVEL_ZERO_SE_DEG, "deg", {}, "level"))
    if whats & {"batten", "batten-zero", "foil-stop"}:
        whole = boat.file.main_foil.control == "whole"
        free = whole or "batten-zero" in whats
        error = BATTEN_FREE_SE_MM if free else BATTEN_ZERO_SE_MM
        found.append(Unsure("where the batten's ruler began", 0.0, error, "mm", {}, "batten"))
    if "rake" in whats:
        found.append(Unsure("where the rake's ruler began", 0.0, RAKE_ZERO_SE_MM, "mm", {}, "rake"))
    return found
