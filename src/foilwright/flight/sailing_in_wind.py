"""Sailing in a wind, for one boat in plain Python: every steady state, and the surplus behind them."""

from collections.abc import Sequence
from math import cos
from typing import NamedTuple

import numpy as np

from foilwright import outcomes
from foilwright.axes import attitude, to_earth
from foilwright.compiled import plain
from foilwright.flight.at_speed import validity
from foilwright.flight.boat import Tables
from foilwright.flight.chain_behaviour import unpacked
from foilwright.flight.helm_policy import usual_helm
from foilwright.flight.loads import ITEMS, SAIL
from foilwright.flight.many_in_wind import all_in_wind, scratch_in_wind, wind_around
from foilwright.flight.take_off import WayUp, way_up
from foilwright.flight.trim_at_speed import Case
from foilwright.flight.wind_balance import (
    Helm,
    Sailing,
    heel_at,
    loads_in_wind,
    out_share,
    power_at,
)
from foilwright.flight.wind_curve import CLEAR, HOLDS, MOST_SPEED, NUMBER, SURPLUS_AT
from foilwright.flight.wind_margins import HEEL_HELD, MARGIN_NAMES, MARGINS, NEAREST, NOT_HERE, STANDING
from foilwright.flight.wind_settle import Work
from foilwright.flight.wind_states import SEED_SPEEDS, STABLE, find_curves, states_on_curves
from foilwright.measures import Floats
from foilwright.water.properties import Water

STANDINGS = ("floating", "lifting", "flying")
NO_SIDE_FORCE = "side force: below some speed the struts cannot carry the sail's"
NO_THRUST = "thrust: the sail pulls less than the drag at every boat speed"
LEAST_MADE_GOOD = 0.05  # [m/s]: less is neither to windward nor to leeward
TOO_FAST = "boat speed beyond the range of the models"


class Sailed(NamedTuple):
    """One steady state in a wind, or the outcome in place of it. SI and radians."""

    wind: float  # at 10 m
    angle: float
    outcome: int
    limit: str  # what the outcome is about, where it is not "solved"
    speed: float
    state: str  # floating, lifting or flying; empty where there is none
    stable: bool
    height: float
    trim: float
    heel: float
    leeway: float
    rudder: float
    out_share: float  # how far out the crew sits, share of fully hiked
    power: float
    wand: float
    foil: float
    wand_touching: bool
    made_good: float  # to windward positive [m/s]
    thrust: float  # of the sail along the course [N]
    drag: float  # of everything else [N]
    drag_by_part: dict[str, float]
    margins: dict[str, float | None]
    nearest: str


class CurvePoint(NamedTuple):
    """One point of the surplus curve: everything balanced but the thrust. SI and radians."""

    speed: float
    surplus: float  # of thrust over drag [N]
    state: str
    holds: bool  # height, trim and leeway push back
    height: float
    trim: float
    heel: float
    leeway: float
    rudder: float
    out_share: float
    power: float
    thrust: float  # of the sail [N]
    drag_by_part: dict[str, float]


class InOneWind(NamedTuple):
    """What one boat does in one wind: its states, its curves of surplus, its way from rest."""

    states: list[Sailed]  # slowest first; one row with the reason where there is none
    curves: list[list[CurvePoint]]  # each in order along its length; empty unless asked for
    way: WayUp


def sailing_case(
    row: Floats,
    tables: Tables,
    water: Water,
    wind: float,
    angle: float,
    helm: Helm,
    roughness: float,
    fastest: float = MOST_SPEED,
) -> Sailing:
    """One boat in one wind, ready for the plain run. wind [m/s] at 10 m, angle [rad], roughness [m]."""
    return Sailing(
        plain(unpacked(row)), plain(tables), plain(water), wind_around(wind, angle, roughness), helm, fastest
    )


def sail_in(
    row: Floats,
    tables: Tables,
    water: Water,
    wind: float,
    angle: float,
    roughness: float,
    helm: Helm | None = None,
    curves: bool = False,
) -> InOneWind:
    """Every steady state in a wind [m/s] at a true wind angle [rad], slowest first.

    helm: the heel held, the usual policy if left out; curves: hand back the curves of surplus too.
    """
    case = sailing_case(row, tables, water, wind, angle, helm or usual_helm(wind, angle), roughness)
    work = scratch_in_wind()
    scratch = plain(work)
    points = find_curves(case, plain(np.array(SEED_SPEEDS)), scratch)
    way = way_up(case, scratch, points)
    answer = states_on_curves(case, scratch, points)
    curve = work.curve[:points].copy()
    rows = [sailed(case, state, scratch) for state in work.found[: answer.states]]
    rows.sort(key=lambda one: one.speed)
    if answer.lost:
        rows.append(no_state(case, outcomes.GAVE_UP, "a place where thrust and drag cross"))
    elif not rows:
        rows.append(no_state(case, *why_none(curve)))
    told = [told_curve(case, branch, scratch) for branch in branches(curve)] if curves else []
    return InOneWind(rows, told, way)


def branches(curve: Floats) -> list[Floats]:
    """The points of each curve by themselves."""
    return [curve[curve[:, NUMBER] == number] for number in np.unique(curve[:, NUMBER])]


def why_none(curve: Floats) -> tuple[int, str]:
    """Outcome and what it is about, where no steady state was found."""
    holding = curve[curve[:, HOLDS] > 0.0]
    if len(holding) == 0:
        return outcomes.NO_BALANCE, NO_SIDE_FORCE
    if holding[np.argmax(holding[:, 0]), SURPLUS_AT] > 0.0:
        if holding[:, 0].max() > MOST_SPEED - 1.5:
            return outcomes.OUTSIDE_VALIDITY, TOO_FAST
        return outcomes.NO_BALANCE, NO_SIDE_FORCE
    return outcomes.NO_BALANCE, NO_THRUST


def no_state(case: Sailing, outcome: int, limit: str) -> Sailed:
    """A row that says why there is no state."""
    wind, angle = wind_of(case)
    return Sailed(
        wind, angle, outcome, limit, 0.0, "", False, 0.0, 0.0, case.helm.floating, 0.0, 0.0, 0.0, 0.0, 0.0,
        0.0, False, 0.0, 0.0, 0.0, {}, dict.fromkeys(MARGIN_NAMES), "",
    )  # fmt: skip


def wind_of(case: Sailing) -> tuple[float, float]:
    """Wind [m/s] and true wind angle [rad] of a case."""
    across, ahead = case.around.wind_y, -case.around.wind_x
    return float(np.hypot(across, ahead)), float(np.arctan2(across, ahead))


def sailed(case: Sailing, found: Floats, work: Work) -> Sailed:
    """A row of what was found, told in full: loads by part, margins, and whether the models hold there."""
    for j in range(6):
        work.x[j] = float(found[j])
    flight = loads_in_wind(case, work.x, work.items)
    height, trim, heel = float(found[1]), float(found[2]), float(found[HEEL_HELD])
    thrust, drag_by_part = along_course(case, work)
    wind, angle = wind_of(case)
    bench = Case(case.boat, case.tables, case.water, case.around, float(found[0]), heel, 0.0)
    outcome, limit = validity(bench, flight, height, trim)
    margins: dict[str, float | None] = {}
    for k, name in enumerate(MARGIN_NAMES):
        value = float(found[MARGINS + k])
        margins[name] = None if value >= NOT_HERE else value
    return Sailed(
        wind=wind,
        angle=angle,
        outcome=outcome,
        limit=limit,
        speed=float(found[0]),
        state=STANDINGS[int(found[STANDING])],
        stable=bool(found[STABLE] > 0.0),
        height=height,
        trim=trim,
        heel=heel,
        leeway=float(found[3]),
        rudder=float(found[4]),
        out_share=out_share(float(found[5])),
        power=power_at(float(found[5])),
        wand=flight.control.wand,
        foil=flight.control.foil,
        wand_touching=flight.control.touch >= 0.5,
        made_good=float(found[0]) * cos(angle),
        thrust=thrust,
        drag=flight.drag,
        drag_by_part=drag_by_part,
        margins=margins,
        nearest=MARGIN_NAMES[int(found[NEAREST])],
    )


def along_course(case: Sailing, work: Work) -> tuple[float, dict[str, float]]:
    """Thrust of the sail and drag of every part along the course [N], from the items at work.x."""
    a = attitude(work.x[2], heel_at(case.helm, work.x[1]), work.x[3])
    along = [to_earth(a, work.items[i, 0], work.items[i, 1], work.items[i, 2])[0] for i in range(len(ITEMS))]
    drags = {
        name: -along[i]
        for i, name in enumerate(ITEMS[:SAIL])
        if along[i] != 0.0 and not name.endswith("weight")
    }
    return along[SAIL], drags


def told_curve(case: Sailing, points: Floats, work: Work) -> list[CurvePoint]:
    """A curve of surplus, point by point, with its parts."""
    told = []
    for point in points:
        for j in range(6):
            work.x[j] = float(point[j])
        flight = loads_in_wind(case, work.x, work.items)
        thrust, drag_by_part = along_course(case, work)
        floating = case.water.density * case.water.gravity * flight.hull.volume >= 0.95 * flight.weight
        state = "floating" if floating else "flying" if point[CLEAR] > 0.0 else "lifting"
        told.append(
            CurvePoint(
                float(point[0]),
                float(point[SURPLUS_AT]) * flight.weight,
                state,
                bool(point[HOLDS] > 0.0),
                float(point[1]),
                float(point[2]),
                heel_at(case.helm, float(point[1])),
                float(point[3]),
                float(point[4]),
                out_share(float(point[5])),
                power_at(float(point[5])),
                thrust,
                drag_by_part,
            )
        )
    return told


def best_made_good(rows: Sequence[Sailed], upwind: bool) -> Sailed | None:
    """The stable state that makes most good to windward, or to leeward; None where none does."""
    sign = 1.0 if upwind else -1.0
    good = [one for one in rows if one.state and one.stable and sign * one.made_good > LEAST_MADE_GOOD]
    return max(good, key=lambda one: sign * one.made_good, default=None)


class WindCase(NamedTuple):
    """One wind to be sailed in. SI and radians."""

    wind: float
    angle: float
    helm: Helm


def sail_all(
    row: Floats, tables: Tables, water: Water, roughness: float, cases: Sequence[WindCase], fast: bool
) -> list[list[Sailed]]:
    """Every steady state in each wind, as `sail_in` has them; `fast` uses the compiled kernel."""
    if not fast:
        return [sail_in(row, tables, water, one.wind, one.angle, roughness, one.helm).states for one in cases]
    winds = np.array([(one.wind, one.angle, one.helm.floating, one.helm.flying) for one in cases])
    found = all_in_wind(
        row, tables, water, roughness, np.zeros(0, dtype=np.int64), np.zeros((len(cases), 0)), winds
    )
    work = plain(scratch_in_wind())
    answers = []
    for one, states, count, outcome in zip(cases, found.states, found.counts, found.outcomes, strict=True):
        if count == 0 or outcome != outcomes.SOLVED:
            answers.append(sail_in(row, tables, water, one.wind, one.angle, roughness, one.helm).states)
            continue
        case = sailing_case(row, tables, water, one.wind, one.angle, one.helm, roughness)
        rows = [sailed(case, state, work) for state in states[:count]]
        answers.append(sorted(rows, key=lambda state: state.speed))
    return answers
