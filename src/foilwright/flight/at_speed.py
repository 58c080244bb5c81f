"""Flight at a given boat speed, for one boat in plain Python: no compiling, an answer in milliseconds."""

from collections.abc import Sequence
from math import cos, sin, sqrt
from typing import NamedTuple

import numpy as np

from foilwright import outcomes
from foilwright.axes import attitude, to_earth
from foilwright.compiled import plain
from foilwright.flight.boat import Tables
from foilwright.flight.chain_behaviour import unpacked
from foilwright.flight.every_state import steady_states
from foilwright.flight.loads import ITEMS, N_ITEMS, Flight
from foilwright.flight.margins import SPANS, margins
from foilwright.flight.state import steady, still
from foilwright.flight.trim_at_speed import (
    FOUND_SIZE,
    LINE_SIZE,
    MOST_ROWS,
    MOST_STATES,
    SOLVED_TOLERANCE,
    Case,
    Work,
    is_stable,
    loads_at,
    polished,
)
from foilwright.measures import Floats
from foilwright.water.foil import lift_doubt_at_low_froude
from foilwright.water.hull import lowest_point
from foilwright.water.hull_shape import HullShape
from foilwright.water.properties import Water
from foilwright.water.section import inside_tables

FLOATING_SHARE = 0.95  # of the weight on the hull
TOUCHING_SHARE = 0.5
SLOWEST, FASTEST, SPEED_STEP = 1.5, 14.0, 0.5  # where a take-off is looked for [m/s]
DOWN_STEP = 0.4  # by which a flying state is followed down [m/s]
TAKE_OFF_TOLERANCE = 0.003  # [m/s]


class Steady(NamedTuple):
    """One steady state at a given boat speed, or the outcome in place of it. SI and radians."""

    speed: float
    outcome: int
    state: str  # floating, lifting or flying
    stable: bool
    height: float
    trim: float
    heel: float
    wand: float
    foil: float
    wand_touching: bool
    main_lift: float
    rudder_lift: float
    buoyancy: float
    drag: float
    drag_by_part: dict[str, float]
    loads: dict[str, tuple[float, ...]]
    margins: dict[str, float | None]
    nearest: str
    limit: str  # what the outcome is about, where it is not "solved"


def case_of(
    row: Floats, tables: Tables, water: Water, speed: float, heel: float, pull_share: float = 1.0
) -> Case:
    """One boat at one speed [m/s], ready for the plain run."""
    return Case(plain(unpacked(row)), plain(tables), plain(water), still(), speed, heel, pull_share)


def scratch() -> Work:
    """Scratch for one plain solve."""
    return Work(np.zeros((N_ITEMS, 6)), np.zeros((MOST_ROWS, LINE_SIZE)), np.zeros((MOST_STATES, FOUND_SIZE)))


def fly_at(row: Floats, tables: Tables, water: Water, speed: float, heel: float = 0.0) -> list[Steady]:
    """Every steady state at a boat speed [m/s], bow lowest first, or one row with the reason for none."""
    case = case_of(row, tables, water, speed, heel)
    work = scratch()
    count, lost = steady_states(case, plain(work))
    rows = [
        described(case, float(height), float(trim), bool(stable), work.items)
        for height, trim, stable, *_ in work.found[:count]
    ]
    if lost:
        rows.append(nothing(case, outcomes.GAVE_UP, "the search between two bow angles"))
    elif not rows:
        rows.append(nothing(case, outcomes.NO_BALANCE, "heave and pitch"))
    return rows


def nothing(case: Case, outcome: int, limit: str) -> Steady:
    """A row that says why there is no state."""
    return Steady(
        case.speed, outcome, "", False, 0.0, 0.0, case.heel, 0.0, 0.0, False, 0.0, 0.0, 0.0, 0.0,
        {}, {}, dict.fromkeys(SPANS), "", limit,
    )  # fmt: skip


def described(case: Case, height: float, trim: float, stable: bool, items: Floats) -> Steady:
    """A solved state in full: loads by part, margins, and whether the models hold there."""
    flight = loads_at(case, height, trim, plain(items))
    a = attitude(trim, case.heel, 0.0)
    state = steady(case.speed, height, trim, case.heel)
    drag_by_part: dict[str, float] = {}
    for name, load in zip(ITEMS[:-1], items, strict=False):
        along = -to_earth(a, *(float(part) for part in load[:3]))[0]
        if along != 0.0 and not name.endswith("weight"):
            drag_by_part[name] = along
    found = margins(case.boat, case.tables, case.water, state, flight)
    by_name: dict[str, float | None] = {name: getattr(found, name, None) for name in SPANS}
    lowest = found.touchdown
    buoyancy = case.water.density * case.water.gravity * flight.hull.volume
    standing = state_name(buoyancy / flight.weight, lowest)
    if standing != "flying":
        by_name["touchdown"] = None
    if flight.control.touch < TOUCHING_SHARE:
        by_name["wand_contact"] = None
        by_name["wand_stop"] = None
    nearest = min((k for k in SPANS if by_name[k] is not None), key=lambda k: (by_name[k] or 0.0) / SPANS[k])
    outcome, limit = validity(case, flight, height, trim)
    return Steady(
        speed=case.speed,
        outcome=outcome,
        state=standing,
        stable=stable,
        height=height,
        trim=trim,
        heel=case.heel,
        wand=held_wand(flight),
        foil=flight.control.foil,
        wand_touching=flight.control.touch >= TOUCHING_SHARE,
        main_lift=lift_of(items, 2, a),
        rudder_lift=lift_of(items, 4, a),
        buoyancy=buoyancy,
        drag=flight.drag,
        drag_by_part=drag_by_part,
        loads={name: tuple(float(part) for part in load) for name, load in zip(ITEMS, items, strict=True)},
        margins=by_name,
        nearest=nearest,
        limit=limit,
    )


def state_name(hull_share: float, lowest: float) -> str:
    """Floating, lifting or flying, from the share of weight on the hull and its lowest point [m]."""
    if hull_share >= FLOATING_SHARE:
        return "floating"
    return "flying" if lowest > 0.0 else "lifting"


def held_wand(flight: Flight) -> float:
    """The wand's angle [rad]; where the foil stands at its stop the wand cannot go on either."""
    control = flight.control
    beyond = control.free_foil - control.foil
    if abs(beyond) < 0.02 or abs(control.chain.gearing) < 1e-3:
        return control.wand
    return control.wand - beyond / control.chain.gearing


def lift_of(items: Floats, item: int, a: tuple[float, ...]) -> float:
    """Earth-vertical part of one load [N]."""
    return float(a[2] * items[item, 0] + a[5] * items[item, 1] + a[8] * items[item, 2])


def validity(case: Case, flight: Flight, height: float, trim: float) -> tuple[int, str]:
    """Outcome of a solved state: solved, chain locked, or which model is outside its range."""
    if flight.control.chain.slack < 0.0:
        return outcomes.CHAIN_LOCKED, "the chain"
    if abs(flight.control.miss) > 1e-8:
        return outcomes.GAVE_UP, "wand and foil settling together"
    water = case.water
    foils = (
        ("main foil", flight.main, flight.main_speed, case.boat.main_planform.chord),
        ("rudder foil", flight.rudder, flight.rudder_speed, case.boat.rudder_planform.chord),
    )
    for name, flow, speed, chord in foils:
        log_re = float(np.log(speed * chord / water.viscosity))
        if inside_tables(case.tables.sections, flow.flap, log_re, flow.section_alpha) < 0.5:
            return outcomes.OUTSIDE_VALIDITY, f"section data of the {name}"
    if deck_under(case.tables.hull, height, trim, case.heel, case.boat.main.x):
        return outcomes.OUTSIDE_VALIDITY, "water on deck"
    return outcomes.SOLVED, ""


def deck_under(hull: HullShape, height: float, trim: float, heel: float, reference_x: float) -> bool:
    """Whether any part of the deck edge is under water; that is not modelled."""
    last = hull.y.shape[1] - 1
    for i in range(hull.x.shape[0]):
        edge = hull.z[i, last] * cos(heel) - hull.y[i, last] * abs(sin(heel))
        if height + (hull.x[i] - reference_x) * sin(trim) + cos(trim) * edge < 0.0:
            return True
    return False


def nearby(
    row: Floats, tables: Tables, water: Water, speed: float, heel: float, height: float, trim: float
) -> tuple[float, float, bool] | None:
    """The state near a known one: height, trim, whether stable; None where the search does not settle."""
    case = case_of(row, tables, water, speed, heel)
    new_height, new_trim, miss, slopes = polished(case, height, trim, plain(scratch().items))
    if miss > SOLVED_TOLERANCE:
        return None
    return new_height, new_trim, is_stable(slopes) > 0.5


def is_flying(row: Floats, tables: Tables, heel: float, height: float, trim: float) -> bool:
    """Whether the hull is clear of the water."""
    boat = unpacked(row)
    return (
        lowest_point(plain(tables.hull), height, sin(trim), cos(trim), sin(heel), cos(heel), boat.main.x)
        > 0.0
    )


def take_off_speed(
    row: Floats, tables: Tables, water: Water, heel: float = 0.0, known: Sequence[Steady] = ()
) -> float | None:
    """Slowest boat speed [m/s] with a stable flying state, on the bench; None where there is none.

    Begins from the slowest flying state already `known`, else looks upward for the first speed that flies;
    then follows that state down until the hull touches or the state ends.
    """
    top = slowest_flying(known) or first_flying(row, tables, water, heel)
    if top is None:
        return None
    fast, height, trim = top.speed, top.height, top.trim
    slow = 0.0
    while fast - slow > TAKE_OFF_TOLERANCE:
        speed = max(fast - DOWN_STEP, 0.5 * (fast + slow))
        state = nearby(row, tables, water, speed, heel, height, trim)
        if state and state[2] and is_flying(row, tables, heel, state[0], state[1]):
            fast, height, trim = speed, state[0], state[1]
        else:
            slow = speed
    return fast


def slowest_flying(states: Sequence[Steady]) -> Steady | None:
    """The slowest stable flying state among some."""
    flying = [state for state in states if state.state == "flying" and state.stable]
    return min(flying, key=lambda state: state.speed, default=None)


def first_flying(row: Floats, tables: Tables, water: Water, heel: float) -> Steady | None:
    """The first stable flying state met on the way up in boat speed."""
    for speed in np.arange(SLOWEST, FASTEST, SPEED_STEP):
        found = slowest_flying(fly_at(row, tables, water, float(speed), heel))
        if found:
            return found
    return None


def take_off_later(speed: float, row: Floats, water: Water) -> float:
    """How much later than `speed` the boat may take off at most [m/s].

    The surface is taken as an image, which holds at high depth Froude number; at take-off speed the foils
    make waves and may lose some lift to them. Most of that loss is absent at finite span.
    """
    depth = -unpacked(row).main.z
    doubt = lift_doubt_at_low_froude(speed / sqrt(water.gravity * depth))
    return speed * (1.0 / sqrt(1.0 - doubt) - 1.0)
