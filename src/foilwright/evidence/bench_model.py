"""A bench sheet as the fit sees it: what may be wrong with the boat, and what each line should have read.

Every parameter is counted in its prior standard errors from what the boat file says, so all of them start at
nothing and should end within about two. The boat's numbers are straight lines in the parameters (so is a
measured curve); the chain itself is exact.
"""

from typing import Any, NamedTuple

import numpy as np

from foilwright.compiled import compiled, plain
from foilwright.evidence.bench_angles import held_foils, only_curve
from foilwright.flight.boat import SCALARS, scratch_shapes
from foilwright.linkage.curve import CurveTable
from foilwright.measures import Floats, Ints

# How a reading hangs on the boat, beside the part that is straight in its numbers.
STRAIGHT, ANGLE, SINE, LIFTED, PULLED = range(5)

MASS, MASS_X = SCALARS.index("mass.mass"), SCALARS.index("mass.x")
WAND_MASS, WAND_LENGTH = SCALARS.index("wand.mass"), SCALARS.index("wand.length")
TENSION, FRICTION = SCALARS.index("wand.tension"), SCALARS.index("wand.friction")


class Readings(NamedTuple):
    """The lines of a sheet, one entry each; SI and radians.

    line     its number in the file
    kind     how it hangs on the boat: STRAIGHT only, or also the foil's ANGLE, or `arm` times its SINE, the
             weight LIFTED at a point, the wand PULLED at `arm` from its pivot
    setting  which of the model's settings it was taken at
    wand     as read from plumb, aft positive (nothing where the wand plays no part)
    travel   +1 wand going back, -1 going forward, 0 neither
    moment   on the foil [N m]
    arm      of the ruler [m], or for LIFTED the distance between both lift points
    origin   for LIFTED the other lift point [m]
    aside    foil angle at which the ruler of SINE stands at its mark [rad]
    constant added to the reading
    value    as read;  error  of the gauge (1 standard error);  wand_error  of the wand angle
    numbers  weights of the boat's numbers in the reading [lines, numbers]
    marks    the same, of the boat with every adjuster at its mark
    shifts   what one prior standard error of each parameter adds [lines, parameters]
    """

    line: Ints
    kind: Ints
    setting: Ints
    wand: Floats
    travel: Floats
    moment: Floats
    arm: Floats
    origin: Floats
    aside: Floats
    constant: Floats
    value: Floats
    error: Floats
    wand_error: Floats
    numbers: Floats
    marks: Floats
    shifts: Floats


class BenchModel(NamedTuple):
    """What a sheet can teach about a boat.

    rows          the boat as the file has it, at each setting of the sheet; the first is at the marks
    row_changes   what one prior standard error of each parameter changes [settings, parameters, numbers]
    curve         its measured curve (the empty one where there are rods)
    curve_changes likewise [parameters, i, j]
    wand_changes  likewise, of every wand angle to the keel line [parameters], rad
    gravity       [m/s2]
    """

    rows: Floats
    row_changes: Floats
    curve: CurveTable
    curve_changes: Floats
    wand_changes: Floats
    gravity: float


class Straight(NamedTuple):
    """The part of the readings that is straight in the parameters: `at_file` [lines], `slopes` with them."""

    at_file: Floats
    slopes: Floats


def straight_part(model: BenchModel, readings: Readings) -> Straight:
    """Worked out once for many candidates."""
    at_file, slopes = readings.constant.copy(), readings.shifts.copy()
    for weights, setting in ((readings.numbers, readings.setting), (readings.marks, 0 * readings.setting)):
        lines = np.flatnonzero(weights.any(axis=1))
        at, weight = setting[lines], weights[lines]
        at_file[lines] += np.einsum("nj,nj->n", model.rows[at], weight)
        slopes[lines] += np.einsum("nkj,nj->nk", model.row_changes[at], weight)
    return Straight(at_file, slopes)


def expected(
    model: BenchModel,
    readings: Readings,
    candidates: Floats,
    fast: bool = False,
    straight: Straight | None = None,
) -> tuple[Floats, Floats]:
    """What each line should read for each candidate [candidates, parameters], and the slope with its wand.

    Both [candidates, lines], SI. `fast` uses compiled code: for hundreds of sheets.
    """
    straight = straight or straight_part(model, readings)
    value = straight.at_file + candidates @ straight.slopes.T
    slope = np.zeros_like(value)
    wand = readings.wand + (candidates @ model.wand_changes)[:, None]

    turns = np.flatnonzero((readings.kind == ANGLE) | (readings.kind == SINE))
    if len(turns):
        foil, gearing = foils_at(
            model,
            candidates,
            readings.setting[turns],
            wand[:, turns],
            readings.travel[turns],
            readings.moment[turns],
            fast,
        )
        sine = readings.kind[turns] == SINE
        arm = readings.arm[turns]
        foil_seen = foil - readings.aside[turns]
        value[:, turns] += np.where(sine, arm * np.sin(foil_seen), foil)
        slope[:, turns] = gearing * np.where(sine, arm * np.cos(foil_seen), 1.0)

    def number(lines: Ints, column: int) -> Floats:
        """A number of the boat at the settings of these lines [candidates, lines]."""
        at = readings.setting[lines]
        return np.asarray(model.rows[at, column] + candidates @ model.row_changes[at, :, column].T)

    lifts = np.flatnonzero(readings.kind == LIFTED)
    if len(lifts):
        share = (number(lifts, MASS_X) - readings.origin[lifts]) / readings.arm[lifts]
        value[:, lifts] += number(lifts, MASS) * share

    pulls = np.flatnonzero(readings.kind == PULLED)
    if len(pulls):
        half = 0.5 * number(pulls, WAND_MASS) * model.gravity * number(pulls, WAND_LENGTH)
        moment = number(pulls, TENSION) + half * np.sin(readings.wand[pulls])
        friction = readings.travel[pulls] * number(pulls, FRICTION)
        value[:, pulls] += (moment + friction) / readings.arm[pulls]
    return value, slope


def foils_at(
    model: BenchModel,
    candidates: Floats,
    setting: Ints,
    wand: Floats,
    travel: Floats,
    moment: Floats,
    fast: bool = False,
) -> tuple[Floats, Floats]:
    """Foil angle and gearing [candidates, places] with the wand held at `wand` to the keel line [rad].

    `wand` is [candidates, places]; `setting`, `travel` and `moment` are [places].
    """
    rows = _changed(model.rows, model.row_changes.swapaxes(0, 1), candidates)
    curves = _changed(model.curve.foil, model.curve_changes, candidates)
    order = np.argsort(setting, kind="stable")  # the chain is drawn anew for each setting
    links, drawn = scratch_shapes(rows.shape[2])
    foils, gearings = np.empty(wand.shape), np.empty(wand.shape)
    given: tuple[Any, ...] = (
        rows,
        curves,
        only_curve(model.curve._replace(foil=model.curve.foil.copy())),
        setting[order],
        np.ascontiguousarray(wand[:, order]),
        travel[order],
        moment[order],
        np.empty(rows.shape[2]),
        np.empty(links),
        np.empty(drawn),
        foils,
        gearings,
    )
    if fast:
        compiled(held_foils)(*given)
    else:
        held_foils(*(plain_tables(value) for value in given))
    back = np.argsort(order)
    return foils[:, back], gearings[:, back]


def _changed(base: Floats, changes: Floats, candidates: Floats) -> Floats:
    """`base` and each candidate's sum of `changes` [parameters, ...]; they differ in few parameters."""
    first = base + np.einsum("k,k...->...", candidates[0], changes)
    every = np.repeat(first[None], len(candidates), axis=0)
    apart = candidates - candidates[0]
    for p, k in np.argwhere(apart != 0.0):
        every[p] += apart[p, k] * changes[k]
    return every


def plain_tables(value: Any) -> Any:
    """The same for the plain run; only the curve of the tables is looked at."""
    return value._replace(curve=plain(value.curve)) if hasattr(value, "curve") else plain(value)
