"""The boat as the solvers see it: a row of numbers with names, and the tables that go with it.

A boat is one row of float64: first the scalars of the parts in the order of `SCALARS`, then nine
numbers a link of the chain (`linkage/chain.py`). Adjusters, uncertain boats and random boats are rows
with some numbers changed, never a second code path. All in SI and radians, body axes of `axes.py`.
"""

from math import pi
from typing import NamedTuple

from foilwright.linkage.chain import DRAWN_SIZE, LINK_NUMBERS, LINK_SIZE, draw_chain
from foilwright.linkage.curve import CurveTable
from foilwright.measures import Floats
from foilwright.water.hull_shape import HullShape
from foilwright.water.planform import Planform
from foilwright.water.section import SectionTables
from foilwright.water.waves import WaveTable


class Mass(NamedTuple):
    """The rigged boat without crew."""

    mass: float  # [kg]
    x: float  # centre [m]
    z: float


class Crew(NamedTuple):
    """Everyone aboard together, in wet kit."""

    mass: float  # [kg]
    x: float  # centre, forward of the transom [m]
    out: float  # centre, to windward of the centreline [m]
    z: float


class Air(NamedTuple):
    """Drag areas in air and where their forces act."""

    hull_drag_area: float  # [m2]
    hull_z: float  # [m]
    mast_drag_area: float
    mast_x: float
    mast_z: float
    crew_drag_area: float


class Rig(NamedTuple):
    """Where the sail pulls, and how large and slender it is."""

    effort_x: float  # centre of effort [m]
    effort_z: float
    sail_area: float  # [m2]
    aspect_ratio: float  # of the sail with its image in the water, (1.1 mast height)^2 / area [-]


class Hull(NamedTuple):
    """Factors on the resistance of the hull; its shape is a table."""

    form_factor: float  # on friction [-]
    wave_share: float  # share of thin-ship wave resistance kept [-]
    planing_share: float  # share of flat-plate planing lift [-]


class Foil(NamedTuple):
    """One T-foil: the horizontal and the strut that carries it. Station of strut and quarter chord."""

    x: float  # [m]
    z: float  # foil plane, negative below the keel line [m]
    span: float  # [m]
    area: float  # [m2]
    incidence: float  # chord line to keel line, leading edge up, foil angle nothing [rad]
    flap_per_turn: float  # flap angle per radian of foil angle: 1 where a flap is controlled
    incidence_per_turn: float  # incidence per radian of foil angle: 1 where the whole foil is
    flap_chord_share: float  # flap chord / chord [-]
    flap_span_share: float  # flapped share of the span [-]
    pivot_share: float  # hinge of a whole foil, share of moment chord from the leading edge [-]
    tau: float  # lifting line: excess of the mean induced angle over elliptic loading [-]
    delta: float  # the same of induced drag [-]
    lift_factor: float  # lifting surface over lifting line [-]
    sweep_cosine: float
    stall_share: float  # greatest CL of the foil over that of its most loaded section [-]
    centre_share: float  # aerodynamic centre, share of moment chord from the leading edge [-]
    moment_chord_ratio: float  # mean aerodynamic chord / mean chord [-]
    flap_share: float  # share of a full-span flap's effect [-]
    kink_cross: float  # induced drag of a flap over part of the span, see water/planform.py [-]
    kink_square: float
    strut_chord: float  # [m]
    strut_thickness: float  # thickness / chord [-]
    strut_top: float  # z where the strut leaves the hull [m]


class Wand(NamedTuple):
    """The surface feeler."""

    pivot_x: float  # [m]
    pivot_z: float
    length: float  # pivot to tip [m]
    forward_stop: float  # wand angle aft of body-vertical [rad]
    aft_stop: float
    paddle_length: float  # at the tip [m]
    paddle_width: float
    stick_width: float
    mass: float  # [kg]
    tension: float  # moment of the wand elastic at the pivot, towards forward [N m]
    friction: float  # moment of friction at the pivot, either way; a band of the tension [N m]
    bend: float  # how far the pivot's end turns against the line to the tip, per N m [rad/(N m)]


class Chain(NamedTuple):
    """What the chain of rods starts from and ends at."""

    wand_at_drawing: float  # [rad]
    foil_at_drawing: float  # [rad]
    foil_least: float  # foil stops [rad]
    foil_greatest: float
    crank_arm: float  # wand crank out-arm [m]
    crank_direction: float  # in the drawing, from forward towards up [rad]
    play: float  # lost motion at the foil beside that of the rods' joints [rad]
    give: float  # foil turn per N m beside that of the rods' stretch [rad/(N m)]
    from_curve: float  # 1 where a measured curve takes the place of the rods
    curve_position: float  # adjuster position on the measured curve [steps]


PARTS: tuple[tuple[str, type], ...] = (
    ("mass", Mass),
    ("crew", Crew),
    ("air", Air),
    ("rig", Rig),
    ("hull", Hull),
    ("main", Foil),
    ("rudder", Foil),
    ("wand", Wand),
    ("chain", Chain),
)
SCALARS: tuple[str, ...] = tuple(f"{part}.{name}" for part, kind in PARTS for name in kind._fields)  # type: ignore[attr-defined]
N_SCALARS = len(SCALARS)


class Boat(NamedTuple):
    """One boat, unpacked from its row."""

    mass: Mass
    crew: Crew
    air: Air
    rig: Rig
    hull: Hull
    main: Foil
    rudder: Foil
    wand: Wand
    chain: Chain
    main_planform: Planform
    rudder_planform: Planform
    links: Floats  # [links, 9]
    drawn: Floats  # [links, 12], from draw_chain


class Tables(NamedTuple):
    """What belongs to a boat and is not a number: shapes and data, never changed by an adjuster."""

    sections: SectionTables  # row 0 main foil, row 1 rudder foil
    hull: HullShape
    waves: WaveTable
    curve: CurveTable


def row_names(links: int) -> tuple[str, ...]:
    """The name of every number in the row of a boat with this many links, in order."""
    return SCALARS + tuple(f"links.{i}.{name}" for i in range(links) for name in LINK_NUMBERS)


def foil_from(row: Floats, i: int) -> Foil:
    """The foil whose numbers start at `i`."""
    return Foil(
        row[i], row[i + 1], row[i + 2], row[i + 3], row[i + 4], row[i + 5], row[i + 6], row[i + 7],
        row[i + 8], row[i + 9], row[i + 10], row[i + 11], row[i + 12], row[i + 13], row[i + 14], row[i + 15],
        row[i + 16], row[i + 17], row[i + 18], row[i + 19], row[i + 20], row[i + 21], row[i + 22],
    )  # fmt: skip


def planform_of(foil: Foil) -> Planform:
    """The planform as the foil's kernels take it, from its present span and area."""
    chord = foil.area / foil.span
    aspect_ratio = foil.span / chord
    round_by = 1.0 / (pi * aspect_ratio)
    return Planform(
        foil.span,
        foil.area,
        chord,
        chord * foil.moment_chord_ratio,
        aspect_ratio,
        (1.0 + foil.tau) * round_by,
        (1.0 + foil.delta) * round_by,
        foil.lift_factor,
        foil.sweep_cosine,
        foil.stall_share,
        foil.centre_share,
        foil.flap_share,
        foil.kink_cross,
        foil.kink_square,
    )


def boat_from(row: Floats, links: Floats, drawn: Floats) -> Boat:
    """Unpacks a row. `links` [links, 9] and `drawn` [links, 12] are scratch, filled here.

    The order is that of PARTS; `tests/laws/test_rows.py` holds every name against every index.
    """
    for i in range(links.shape[0]):
        for j in range(LINK_SIZE):
            links[i, j] = row[N_SCALARS + i * LINK_SIZE + j]
    main = foil_from(row, 20)
    rudder = foil_from(row, 43)
    boat = Boat(
        Mass(row[0], row[1], row[2]),
        Crew(row[3], row[4], row[5], row[6]),
        Air(row[7], row[8], row[9], row[10], row[11], row[12]),
        Rig(row[13], row[14], row[15], row[16]),
        Hull(row[17], row[18], row[19]),
        main,
        rudder,
        Wand(
            row[66],
            row[67],
            row[68],
            row[69],
            row[70],
            row[71],
            row[72],
            row[73],
            row[74],
            row[75],
            row[76],
            row[77],
        ),
        Chain(row[78], row[79], row[80], row[81], row[82], row[83], row[84], row[85], row[86], row[87]),
        planform_of(main),
        planform_of(rudder),
        links,
        drawn,
    )
    draw_chain(
        boat.wand.pivot_x, boat.wand.pivot_z, boat.chain.crank_arm, boat.chain.crank_direction, links, drawn
    )
    return boat


def scratch_shapes(row_length: int) -> tuple[tuple[int, int], tuple[int, int]]:
    """Shapes of the `links` and `drawn` scratch arrays for rows of this length."""
    links = (row_length - N_SCALARS) // LINK_SIZE
    return (links, LINK_SIZE), (links, DRAWN_SIZE)
