"""What the page draws: the parts of the boat as points, the chain over wand angles, the loads as arrows.

Numbers and points only. Body axes in metres unless a key says otherwise; the page turns them, and reads
between the rows, and works out nothing.
"""

from collections.abc import Mapping, Sequence
from math import degrees
from typing import TypedDict

import numpy as np

from foilwright.axes import attitude, to_body, to_earth
from foilwright.compiled import plain
from foilwright.documents.answers import in_unit
from foilwright.documents.boat_chain import AdjusterRecord
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.flight_view import (
    STRIPE_EVERY,
    FlightView,
    Point,
    StrutView,
    edge_travel,
    flight_view,
)
from foilwright.flight.at_speed import Steady
from foilwright.flight.boat import N_SCALARS, scratch_shapes
from foilwright.flight.chain_behaviour import ChainPoint
from foilwright.flight.loads import ITEMS
from foilwright.linkage.chain import LINK_SIZE, draw_chain, turn_chain
from foilwright.measures import Floats

NO_DRAG = ("pull", "sail", "boat weight", "crew weight", "buoyancy")
RIG = ("pull", "sail")
LEAST_ARROW = 1.0  # loads below this are not drawn [N]
AT_THE_FOIL = 0.2  # a foil's arrow is drawn no further than this from its quarter chord [m]
MILLIMETRE = 3  # decimals of a metre; joints get a tenth of that


class StrutDrawn(TypedDict):
    """A strut and its foil."""

    top: list[float]
    foot: list[float]
    chord_m: float
    foil_chord_m: float
    incidence_deg: float
    flap_share: float
    span_m: float
    stripes: list[list[float]]


class CrankDrawn(TypedDict):
    """One turning part: its arms in the drawing position, length [m] and direction, and its turn by row."""

    name: str
    pivot: list[float]
    in_arm: list[float] | None
    out_arm: list[float] | None
    turn_deg: list[float]


class AdjusterDrawn(TypedDict):
    """One adjuster: where it acts, and what a person needs to move it.

    `acts_on` says which part: "rod 1" (from crank 1 to crank 2, counted from 0), "crank 1 out", "wand",
    "elastic", "rudder", "crew", "rig", "main_foil", or "box" where only a measured curve is known.
    """

    name: str
    acts_on: str
    choice: bool
    one_step: str
    how: str | None
    who: str | None
    when: str | None
    mark: str | None
    mark_mm: float | None
    least: int
    greatest: int
    steps: float
    anchor: list[float]


class ChainDrawn(TypedDict):
    """The chain over wand angles, one entry of every list a row; null where the chain is locked."""

    hidden: bool
    wand_deg: list[float]
    foil_deg: list[float | None]
    gearing: list[float | None]
    slop_deg: list[float | None]
    stop: list[str]
    edge_mm: list[float | None]
    cranks: list[CrankDrawn]
    rods: list[str]
    rod_lengths_m: list[float]
    locks_at_deg: list[float]
    forward_stop_deg: float
    aft_stop_deg: float
    foil_least_deg: float
    foil_greatest_deg: float


class BoatDrawn(TypedDict):
    """The boat without its state."""

    main_x_m: float
    whole_foil: bool
    hull_bottom: list[list[float]]
    hull_deck: list[list[float]]
    hull_section: list[list[float]]
    main: StrutDrawn
    rudder: StrutDrawn
    wand_pivot: list[float]
    wand_length_m: float
    paddle_length_m: float
    mast_foot: list[float]
    mast_top: list[float]
    clew: list[float]
    crew: list[float]
    crew_out_m: float
    crew_heads: int
    adjusters: list[AdjusterDrawn]


class Arrow(TypedDict):
    """One load: where it acts, and its parts in body axes."""

    name: str
    at: list[float]
    forward_n: float
    up_n: float


def boat_drawn(boat: ReadyBoat, row: Floats, settings: dict[str, float]) -> BoatDrawn:
    """The parts of the boat with its adjusters as in `row`."""
    number = dict(zip(boat.names, map(float, row), strict=True))
    view = flight_view(
        boat, row, False, 0.0, 0.0, number["chain.wand_at_drawing"], number["chain.foil_at_drawing"]
    )
    return {
        "main_x_m": _m(number["main.x"]),
        "whole_foil": view.whole_foil,
        "hull_bottom": [_point(p) for p in view.hull_bottom],
        "hull_deck": [_point(p) for p in view.hull_deck],
        "hull_section": hull_section(boat),
        "main": _strut(view.main, number["main.incidence"], number["main.span"]),
        "rudder": _strut(view.rudder, number["rudder.incidence"], number["rudder.span"]),
        "wand_pivot": _point(view.wand_pivot),
        "wand_length_m": _m(number["wand.length"]),
        "paddle_length_m": _m(view.paddle_length),
        "mast_foot": _point(view.mast_foot),
        "mast_top": _point(view.mast_top),
        "clew": _point(view.clew),
        "crew": _point(view.crew),
        "crew_out_m": _m(number["crew.out"]),
        "crew_heads": view.crew_heads,
        "adjusters": adjusters_drawn(boat, view, settings),
    }


def hull_section(boat: ReadyBoat) -> list[list[float]]:
    """The section of greatest beam from astern: distance from the centreline and height, keel to deck."""
    hull = boat.tables.hull
    widest = int(np.argmax(hull.y.max(axis=1)))
    return [_point((float(y), float(z))) for y, z in zip(hull.y[widest], hull.z[widest], strict=True)]


def adjusters_drawn(boat: ReadyBoat, view: FlightView, settings: dict[str, float]) -> list[AdjusterDrawn]:
    """Every adjuster where it acts."""
    return [
        {
            "name": record.name,
            "acts_on": acts_on(record, view),
            "choice": record.choice,
            "one_step": record.one_step,
            "how": record.how,
            "who": record.who,
            "when": record.when,
            "mark": record.mark,
            "mark_mm": None
            if record.mark_mm is None
            else round(record.mark_mm + settings[record.name] * (record.mark_mm_per_step or 0.0), 1),
            "least": record.least,
            "greatest": record.greatest,
            "steps": float(settings[record.name]),
            "anchor": _point(view.anchors[record.name]),
        }
        for record in boat.file.adjusters
    ]


def acts_on(record: AdjusterRecord, view: FlightView) -> str:
    """The part that an adjuster moves most plainly: that of the first number it changes."""
    paths = [change.number for change in record.changes]
    paths += [path for position in record.positions for path in position.values]
    for path in paths:
        part, _, rest = path.partition(".")
        name = rest.split(".")[1] if rest.count(".") >= 1 else ""
        if path == "wand.length_m":
            return "wand"
        if part == "wand":
            return "elastic"
        if path.startswith("chain.rods.") and name in view.rods:
            return f"rod {view.rods.index(name)}"
        if path.startswith("chain.cranks."):
            i = next((i for i, crank in enumerate(view.cranks) if crank.name == name), None)
            if i is not None:
                return f"crank {i} {'in' if rest.endswith(('in_arm_m', 'in_direction_deg')) else 'out'}"
        if part in ("rudder", "crew", "rig", "main_foil"):
            return part
    return "box"


def chain_drawn(boat: ReadyBoat, row: Floats, points: list[ChainPoint], locks: list[float]) -> ChainDrawn:
    """The chain at each of the points, with every crank's turn there."""
    number = dict(zip(boat.names, map(float, row), strict=True))
    view = flight_view(
        boat, row, False, 0.0, 0.0, number["chain.wand_at_drawing"], number["chain.foil_at_drawing"]
    )
    pivot_share = boat.numbers.get("main_foil.pivot_share", 0.0)

    def edge(point: ChainPoint) -> float:
        return edge_travel(view.main, view.whole_foil, pivot_share, point.foil)

    return {
        "hidden": not view.cranks,
        "wand_deg": [round(degrees(point.wand), 3) for point in points],
        "foil_deg": [_or_none(point, degrees(point.foil), 3) for point in points],
        "gearing": [_or_none(point, point.gearing, 4) for point in points],
        "slop_deg": [_or_none(point, degrees(point.slop), 3) for point in points],
        "stop": [point.stop for point in points],
        "edge_mm": [_or_none(point, 1000.0 * edge(point), 2) for point in points],
        "cranks": cranks_drawn(boat, row, number, [point.wand for point in points]) if view.cranks else [],
        "rods": list(view.rods),
        "rod_lengths_m": [round(length, 5) for length in view.rod_lengths],
        "locks_at_deg": [round(degrees(angle), 2) for angle in locks],
        "forward_stop_deg": round(degrees(number["wand.forward_stop"]), 3),
        "aft_stop_deg": round(degrees(number["wand.aft_stop"]), 3),
        "foil_least_deg": round(degrees(number["chain.foil_least"]), 3),
        "foil_greatest_deg": round(degrees(number["chain.foil_greatest"]), 3),
    }


def cranks_drawn(
    boat: ReadyBoat, row: Floats, number: dict[str, float], wands: list[float]
) -> list[CrankDrawn]:
    """Every crank with its turn at each wand angle. A crank's turn is that of the chain that ends at it."""
    shape, drawn_shape = scratch_shapes(len(row))
    links = np.array(row[N_SCALARS:]).reshape(shape[0], LINK_SIZE)
    drawn = np.zeros(drawn_shape)
    draw_chain(
        number["wand.pivot_x"], number["wand.pivot_z"], number["chain.crank_arm"],
        number["chain.crank_direction"], links, drawn,
    )  # fmt: skip
    turns_aft = [wand - number["chain.wand_at_drawing"] for wand in wands]
    found: list[CrankDrawn] = []
    in_arm: list[float] | None
    out_arm: list[float] | None
    for i, record in enumerate(boat.file.chain.cranks):
        if i == 0:
            pivot = (number["wand.pivot_x"], number["wand.pivot_z"])
            in_arm, out_arm = None, [number["chain.crank_arm"], number["chain.crank_direction"]]
            turns = [-turn for turn in turns_aft]
        else:
            link = [float(one) for one in links[i - 1]]
            pivot = (link[1], link[2])
            in_arm, out_arm = [link[3], link[4]], [link[5], link[6]] if i < len(links) else None
            head, ahead = plain(np.array(drawn[:i])), plain(np.array(links[:i]))
            turns = [turn_chain(head, ahead, turn).turn for turn in turns_aft]
        found.append(
            {
                "name": record.name,
                "pivot": _joint(pivot),
                "in_arm": _arm(in_arm),
                "out_arm": _arm(out_arm),
                "turn_deg": [round(degrees(turn), 3) for turn in turns],
            }
        )
    return found


def arrows(
    loads: Mapping[str, Sequence[float]], row: Floats, names: Sequence[str], trim: float
) -> list[Arrow]:
    """The loads of a state, three forces and three moments each, as arrows on their own lines of action.

    Of each the part along the course is drag or pull and the part straight up is lift or weight, as the rows
    tell them; in body axes, as everything that is drawn, they lean by the trim [rad].
    """
    if not loads:
        return []
    upright = attitude(trim, 0.0, 0.0)

    def arrow(name: str, at: tuple[float, float], along: float, up: float) -> Arrow:
        forward, _, high = to_body(upright, along, 0.0, up)
        return {"name": name, "at": _point(at), "forward_n": round(forward, 1), "up_n": round(high, 1)}

    number = dict(zip(names, map(float, row), strict=True))
    boat_mass, crew_mass = number["mass.mass"], number["crew.mass"]
    total = boat_mass + crew_mass
    centre_x = (boat_mass * number["mass.x"] + crew_mass * number["crew.x"]) / total
    centre_z = (boat_mass * number["mass.z"] + crew_mass * number["crew.z"]) / total
    at_height = {
        "boat weight": number["mass.z"],
        "crew weight": number["crew.z"],
        "main foil": number["main.z"],
        "rudder foil": number["rudder.z"],
        "buoyancy": 0.1,
        "planing": 0.0,
        "pull": number["rig.effort_z"],
        "sail": number["rig.effort_z"],
    }
    foils = {"main foil": number["main.x"], "rudder foil": number["rudder.x"]}
    found: list[Arrow] = []
    drag = drag_moment = 0.0
    for name in ITEMS:
        force_x, _, force_z, _, moment_y, _ = loads[name]
        along, _, up = to_earth(upright, force_x, 0.0, force_z)
        if name in at_height and abs(force_z) + abs(force_x) >= LEAST_ARROW:
            z = at_height[name]
            x = (
                number["rig.effort_x"]
                if name in RIG
                else _line_of_action(force_x, force_z, moment_y, z - centre_z) + centre_x
            )
            if name in foils:
                # A foil that carries next to nothing still has its moment: its arrow stays at the foil.
                x = min(max(x, foils[name] - AT_THE_FOIL), foils[name] + AT_THE_FOIL)
            found.append(arrow(name, (x, z), along if name in RIG else 0.0, up if name != "pull" else 0.0))
        if name not in NO_DRAG and along < 0.0:
            # Of a foil the moment is mostly its lift's: its drag acts in its plane.
            height = at_height[name] - centre_z if name in at_height else moment_y / along
            drag += along
            drag_moment += height * along
    if drag < -LEAST_ARROW:
        # What all drags do together: at the height where their sum has their moment.
        z = centre_z + drag_moment / drag
        z = min(max(z, number["main.z"]), number["rig.effort_z"])
        found.append(arrow("drag", (number["main.x"] - 0.6, z), drag, 0.0))
    return found


def _line_of_action(force_x: float, force_z: float, moment_y: float, z: float) -> float:
    """Where a force in the centreplane crosses a height, ahead of the centre of gravity [m].

    moment_y = z force_x - x force_z, in right-handed body axes with y to port.
    """
    return (z * force_x - moment_y) / force_z if abs(force_z) > 1e-9 else 0.0


def state_drawn(steady: Steady) -> dict[str, float]:
    """The numbers that a drawing of a state is turned by."""
    return {
        "ride_height_m": in_unit(steady.height, "m"),
        "trim_deg": in_unit(steady.trim, "deg"),
        "wand_deg": in_unit(steady.wand, "deg"),
        "foil_deg": in_unit(steady.foil, "deg"),
    }


def _strut(view: StrutView, incidence: float, span: float) -> StrutDrawn:
    return {
        "top": _point(view.top),
        "foot": _point(view.foot),
        "chord_m": _m(view.chord),
        "foil_chord_m": _m(view.foil_chord),
        "incidence_deg": round(degrees(incidence), 3),
        "flap_share": round(view.flap_share, 4),
        "span_m": _m(span),
        "stripes": [
            _point((view.top[0], view.top[1] - STRIPE_EVERY * (i + 1))) for i in range(len(view.stripes))
        ],
    }


def _or_none(point: ChainPoint, value: float, decimals: int) -> float | None:
    return None if point.locked else round(value, decimals)


def _m(value: float) -> float:
    return round(float(value), MILLIMETRE)


def _arm(arm: list[float] | None) -> list[float] | None:
    return None if arm is None else [round(part, 5) for part in arm]


def _point(point: Point) -> list[float]:
    return [_m(point[0]), _m(point[1])]


def _joint(point: Point) -> list[float]:
    return [round(point[0], MILLIMETRE + 1), round(point[1], MILLIMETRE + 1)]
