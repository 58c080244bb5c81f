"""The boat as it flies, as points to draw: every drawing is a pure function of this and nothing else.

Body axes in metres (x forward from the transom, z up from the keel line) unless said otherwise.
"""

from math import cos, radians, sin
from typing import NamedTuple

import numpy as np

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.boat import N_SCALARS, scratch_shapes
from foilwright.linkage.chain import LINK_SIZE, draw_chain, turn_chain
from foilwright.linkage.curve import read_curve
from foilwright.measures import Floats

Point = tuple[float, float]
Arm = tuple[float, float]  # length [m] and direction in the drawing [rad]


class StrutView(NamedTuple):
    """A strut with its foil in side view."""

    top: Point  # where the strut leaves the hull
    foot: Point  # quarter chord of the foil
    chord: float
    foil_chord: float  # at the root
    incidence: float  # chord line to keel line, leading edge up, foil angle included [rad]
    flap_share: float  # flap chord over chord; nothing where there is no flap
    flap: float  # trailing edge down positive [rad]
    stripes: tuple[Point, ...]  # the middle of each stripe of tape


class CrankView(NamedTuple):
    """One turning part of the chain: the tip that is pushed, the tip that pushes."""

    name: str
    pivot: Point
    in_tip: Point | None
    out_tip: Point | None


class FlightView(NamedTuple):
    """All that the drawings need.

    height, trim, wand, foil are those of the state drawn [m, rad]; `flying` says whether there is one.
    `curve` holds wand and foil angle [deg] where only a measured curve is known; then there are no cranks.
    """

    flying: bool
    height: float
    trim: float
    wand: float
    foil: float
    whole_foil: bool
    hull_bottom: tuple[Point, ...]
    hull_deck: tuple[Point, ...]
    main: StrutView
    rudder: StrutView
    wand_pivot: Point
    wand_tip: Point
    paddle_length: float
    mast_foot: Point
    mast_top: Point
    clew: Point
    crew: Point
    crew_heads: int
    cranks: tuple[CrankView, ...]
    rods: tuple[str, ...]  # rod i joins crank i and crank i + 1
    rod_lengths: tuple[float, ...]
    curve: tuple[Point, ...]
    anchors: dict[str, Point]  # adjuster -> the point of the part that it moves


STRIPE_EVERY = 0.1
"""Tape on the struts: a stripe every 100 mm down from the hull [m]."""


def flight_view(
    boat: ReadyBoat, row: Floats, flying: bool, height: float, trim: float, wand: float, foil: float
) -> FlightView:
    """The boat with its adjusters as in `row`, at a ride height [m], trim, wand and foil angle [rad]."""
    number = dict(zip(boat.names, map(float, row), strict=True))
    hull = boat.tables.hull
    pivot = (number["wand.pivot_x"], number["wand.pivot_z"])
    length = number["wand.length"]
    mast_x = boat.numbers["rig.mast_x_m"]
    deck = boat.numbers["hull.depth_m"]
    mast_top = deck + boat.numbers["rig.mast_height_m"]
    cranks, rod_lengths = _cranks(boat, row, number, wand)
    curved = number["chain.from_curve"] > 0.5
    view = FlightView(
        flying=flying,
        height=height,
        trim=trim,
        wand=wand,
        foil=foil,
        whole_foil=number["main.incidence_per_turn"] > 0.5,
        hull_bottom=tuple((float(x), float(z)) for x, z in zip(hull.x, hull.low, strict=True)),
        hull_deck=tuple((float(x), float(z)) for x, z in zip(hull.x, hull.z.max(axis=1), strict=True)),
        main=_strut(boat, number, "main", "main_foil", foil),
        rudder=_strut(boat, number, "rudder", "rudder", 0.0),
        wand_pivot=pivot,
        wand_tip=(pivot[0] - length * sin(wand), pivot[1] - length * cos(wand)),
        paddle_length=number["wand.paddle_length"],
        mast_foot=(mast_x, deck),
        mast_top=(mast_x, mast_top),
        # A triangle on the mast has its centre a third of the way to the clew.
        clew=(mast_x - 3.0 * max(mast_x - number["rig.effort_x"], 0.2), deck + 0.5),
        crew=(number["crew.x"], number["crew.z"]),
        crew_heads=2 if boat.form == "two-person" else 1,
        cranks=cranks,
        rods=tuple(rod.name for rod in boat.file.chain.rods),
        rod_lengths=rod_lengths,
        curve=_curve(boat, number) if curved else (),
        anchors={},
    )
    return view._replace(anchors=anchors(boat, view))


def _strut(boat: ReadyBoat, number: dict[str, float], part: str, path: str, foil_angle: float) -> StrutView:
    x, foot, top = number[f"{part}.x"], number[f"{part}.z"], number[f"{part}.strut_top"]
    mean = number[f"{part}.area"] / number[f"{part}.span"]
    flap_per_turn = number[f"{part}.flap_per_turn"]
    stripes = int((top - foot) / STRIPE_EVERY + 1e-9)
    return StrutView(
        top=(x, top),
        foot=(x, foot),
        chord=number[f"{part}.strut_chord"],
        foil_chord=2.0 * mean / (1.0 + boat.numbers[f"{path}.taper"]),
        incidence=number[f"{part}.incidence"] + number[f"{part}.incidence_per_turn"] * foil_angle,
        flap_share=number[f"{part}.flap_chord_share"] if flap_per_turn > 0.5 else 0.0,
        flap=flap_per_turn * foil_angle,
        stripes=tuple((x, top - STRIPE_EVERY * (i + 1)) for i in range(stripes)),
    )


def _cranks(
    boat: ReadyBoat, row: Floats, number: dict[str, float], wand: float
) -> tuple[tuple[CrankView, ...], tuple[float, ...]]:
    """Every crank where it stands at a wand angle, and the length of every rod."""
    if number["chain.from_curve"] > 0.5 or not boat.file.chain.rods:
        return (), ()
    shape, drawn_shape = scratch_shapes(len(row))
    links = np.array(row[N_SCALARS:]).reshape(shape[0], LINK_SIZE)
    drawn = np.zeros(drawn_shape)
    draw_chain(
        number["wand.pivot_x"], number["wand.pivot_z"], number["chain.crank_arm"],
        number["chain.crank_direction"], links, drawn,
    )  # fmt: skip
    turn_aft = wand - number["chain.wand_at_drawing"]
    # A crank's turn is that of the chain which ends at it.
    turns = [-turn_aft] + [
        turn_chain(drawn[: i + 1], links[: i + 1], turn_aft).turn for i in range(len(links))
    ]
    arms: list[tuple[Arm | None, Arm | None]] = [
        (None, (number["chain.crank_arm"], number["chain.crank_direction"]))
    ]
    arms += [
        ((link[3], link[4]), (link[5], link[6]) if i < len(links) - 1 else None)
        for i, link in enumerate(links)
    ]
    pivots = [
        (number["wand.pivot_x"], number["wand.pivot_z"]),
        *((float(a), float(b)) for a, b in links[:, 1:3]),
    ]
    cranks = tuple(
        CrankView(
            record.name,
            pivots[i],
            _tip(pivots[i], arms[i][0], turns[i]),
            _tip(pivots[i], arms[i][1], turns[i]),
        )
        for i, record in enumerate(boat.file.chain.cranks)
    )
    return cranks, tuple(float(length) for length in drawn[:, 9])


def _tip(pivot: Point, arm: Arm | None, turn: float) -> Point | None:
    if arm is None:
        return None
    return pivot[0] + float(arm[0]) * cos(arm[1] + turn), pivot[1] + float(arm[0]) * sin(arm[1] + turn)


def _curve(boat: ReadyBoat, number: dict[str, float]) -> tuple[Point, ...]:
    """Foil angle over wand angle between the wand's stops, in degrees, held by the foil's stops."""
    first, last = np.degrees(number["wand.forward_stop"]), np.degrees(number["wand.aft_stop"])
    points = []
    for wand in np.linspace(first, last, 25):
        foil, _ = read_curve(boat.tables.curve, radians(float(wand)), number["chain.curve_position"])
        held = min(max(foil, number["chain.foil_least"]), number["chain.foil_greatest"])
        points.append((float(wand), float(np.degrees(held))))
    return tuple(points)


def anchors(boat: ReadyBoat, view: FlightView) -> dict[str, Point]:
    """Where on the boat each adjuster acts: the part whose number it changes most plainly."""
    found = {}
    for record in boat.file.adjusters:
        paths = [change.number for change in record.changes]
        paths += [path for position in record.positions for path in position.values]
        points = [point for path in paths if (point := _place(path, view)) is not None]
        found[record.name] = points[0] if points else view.main.top
    return found


def _place(path: str, view: FlightView) -> Point | None:
    """The point of a number of the boat file, by its path."""
    part, _, rest = path.partition(".")
    if path == "wand.length_m":
        return _between(view.wand_pivot, view.wand_tip, 0.7)
    if path.startswith("chain.rods."):
        i = view.rods.index(rest.split(".")[1])
        start, end = view.cranks[i].out_tip, view.cranks[i + 1].in_tip
        return _between(start, end, 0.5) if start and end else None
    if path.startswith("chain.cranks."):
        crank = next(crank for crank in view.cranks if crank.name == rest.split(".")[1])
        return crank.out_tip or crank.in_tip
    places = {
        "wand": view.wand_pivot,
        "rudder": view.rudder.foot,
        "main_foil": view.main.foot,
        "crew": (view.crew[0] - 0.2, view.crew[1] - 0.18),
        "rig": view.mast_foot,
        "chain": (0.5 * (view.wand_pivot[0] + view.main.top[0]), view.wand_pivot[1] - 0.08),  # the box
    }
    return places.get(part)


def _between(a: Point, b: Point, share: float) -> Point:
    return a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])


def edge_travel(view_main: StrutView, whole_foil: bool, pivot_share: float, foil_angle: float) -> float:
    """How far the trailing edge at the root stands below where it is at foil angle 0 [m], down positive.

    A flap turns on its hinge, a whole foil on its pivot: arm times the sine of the foil angle.
    """
    arm = view_main.foil_chord * ((1.0 - pivot_share) if whole_foil else view_main.flap_share)
    return arm * sin(foil_angle)


def exposed(view: FlightView, strut: StrutView) -> float:
    """Length of a strut between hull and water in the state drawn [m]; negative where the hull is wet."""
    ahead = strut.top[0] - view.main.top[0]
    return (view.height + ahead * sin(view.trim)) / cos(view.trim) + strut.top[1]
