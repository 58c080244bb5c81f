"""Every load on the boat, computed here and nowhere else.

Each item is a force and a moment about the centre of gravity of boat and crew, six components in body
axes (`axes.py`), so that steady flight, sailing, small motions and motion in waves all sum the same
items. Local water velocity, local surface and the body's rates are arguments; steady flight passes
nothing for them.
"""

from math import cos, log, sin
from typing import NamedTuple

from foilwright.axes import attitude, height_of, to_earth
from foilwright.flight.boat import Boat, Tables
from foilwright.flight.control import Control, settled_control
from foilwright.flight.foil_flow import FoilFlow, foil_flow
from foilwright.flight.load_items import (
    Flow,
    flow_past,
    put,
    put_air,
    put_earth,
    put_foil,
    put_hull,
    put_sail,
    put_strut,
)
from foilwright.flight.state import Around, State
from foilwright.measures import Floats
from foilwright.water.foil import downwash_angle
from foilwright.water.hull import InWater
from foilwright.water.properties import Water
from foilwright.water.strut import junction_drag

ITEMS = (
    "boat weight",
    "crew weight",
    "main foil",
    "main strut",
    "rudder foil",
    "rudder strut",
    "buoyancy",
    "hull friction",
    "hull waves",
    "transom",
    "planing",
    "wand",
    "hull air",
    "mast air",
    "crew air",
    "sail",
    "pull",
)
N_ITEMS = len(ITEMS)
SAIL = ITEMS.index("sail")
PULL = ITEMS.index("pull")


class Flight(NamedTuple):
    """What was found on the way to the loads, for margins and for people."""

    control: Control
    main: FoilFlow
    rudder: FoilFlow
    hull: InWater
    main_depth: float  # of the foil's middle [m]
    rudder_depth: float
    main_speed: float  # of the water past the foil [m/s]
    rudder_speed: float
    main_strut_angle: float  # angle of attack of the strut [rad]
    rudder_strut_angle: float
    main_strut_wetted: float  # [m]
    rudder_strut_wetted: float
    downwash: float  # on the rudder foil [rad]
    weight: float  # [N]
    drag: float  # all resistance along the course [N]


def loads(
    boat: Boat,
    tables: Tables,
    water: Water,
    around: Around,
    state: State,
    pull_share: float,
    items: Floats,
) -> Flight:
    """Fills `items` [17, 6] with the loads in one state and returns what was found on the way.

    pull_share: a pull along the course as a share of all resistance, acting at the centre of effort: 1 for
    the bench, where thrust equals drag whatever makes it; 0 in a wind, where the sail of `state.power` pulls.
    The crew sits out by `state.out_share` of its fully hiked reach. `drag` is of everything but the sail.
    """
    a = attitude(state.trim, state.heel, state.leeway)
    mass = boat.mass.mass + boat.crew.mass
    out = boat.crew.out * state.out_share
    weight = mass * water.gravity
    centre_x = (boat.mass.mass * boat.mass.x + boat.crew.mass * boat.crew.x) / mass
    centre_y = -boat.crew.mass * out / mass
    centre_z = (boat.mass.mass * boat.mass.z + boat.crew.mass * boat.crew.z) / mass
    put_earth(
        items,
        0,
        a,
        boat.mass.x - centre_x,
        -centre_y,
        boat.mass.z - centre_z,
        0.0,
        0.0,
        -boat.mass.mass * water.gravity,
    )
    put_earth(
        items,
        1,
        a,
        boat.crew.x - centre_x,
        -out - centre_y,
        boat.crew.z - centre_z,
        0.0,
        0.0,
        -boat.crew.mass * water.gravity,
    )

    # The reference for ride height is the keel line at the main strut.
    main_x = boat.main.x - centre_x
    rudder_x = boat.rudder.x - centre_x
    main_height = state.height + height_of(a, 0.0, 0.0, boat.main.z)
    rudder_height = state.height + height_of(a, boat.rudder.x - boat.main.x, 0.0, boat.rudder.z)
    main_depth = around.surface_at_main - main_height
    rudder_depth = around.surface_at_rudder - rudder_height
    pivot_height = (
        state.height
        + height_of(a, boat.wand.pivot_x - boat.main.x, 0.0, boat.wand.pivot_z)
        - around.surface_at_wand
    )

    main_water = flow_past(
        a,
        state,
        water.density,
        main_x,
        -centre_y,
        boat.main.z - centre_z,
        around.main_x,
        around.main_y,
        around.main_z,
    )
    sin_heel = -a.yz
    control = settled_control(
        boat,
        tables,
        water.gravity,
        pivot_height,
        cos(state.trim),
        a.xz,
        cos(state.heel),
        sin_heel,
        0.5 * water.density * state.speed * state.speed,
        main_water.angle,
        main_water.pressure,
        main_depth,
        log(main_water.speed * boat.main_planform.chord / water.viscosity),
    )
    main = control.flow
    downwash = downwash_angle(
        main.lift,
        boat.main_planform.aspect_ratio,
        boat.main.span,
        boat.rudder.span,
        rudder_height - main_height,
        main_depth,
        rudder_depth,
        boat.main.x - boat.rudder.x,
    )
    rudder_water = flow_past(
        a,
        state,
        water.density,
        rudder_x,
        -centre_y,
        boat.rudder.z - centre_z,
        around.rudder_x,
        around.rudder_y,
        around.rudder_z,
    )
    # The downwash turns the flow down: less angle of attack, and the lift leans aft with it.
    washed = Flow(
        rudder_water.along,
        rudder_water.across,
        rudder_water.up + downwash * rudder_water.speed,
        rudder_water.speed,
        rudder_water.pressure,
        rudder_water.angle - downwash,
    )
    rudder = foil_flow(
        boat.rudder,
        boat.rudder_planform,
        tables,
        1,
        washed.angle,
        washed.pressure,
        rudder_depth,
        sin_heel,
        log(rudder_water.speed * boat.rudder_planform.chord / water.viscosity),
        0.0,
    )
    main_thickness = boat.main.strut_chord * boat.main.strut_thickness
    rudder_thickness = boat.rudder.strut_chord * boat.rudder.strut_thickness
    put_foil(
        items,
        2,
        boat.main_planform,
        main,
        main_water,
        main.wetted * junction_drag(main_water.pressure, main_thickness, boat.main.strut_thickness),
        main_x,
        -centre_y,
        boat.main.z - centre_z,
    )
    put_foil(
        items,
        4,
        boat.rudder_planform,
        rudder,
        washed,
        rudder.wetted * junction_drag(washed.pressure, rudder_thickness, boat.rudder.strut_thickness),
        rudder_x,
        -centre_y,
        boat.rudder.z - centre_z,
    )
    wet = put_hull(items, a, boat, tables, state, water, centre_x, centre_y, centre_z)
    main_angle, main_wetted = put_strut(
        items,
        3,
        a,
        boat.main,
        0.0,
        main_water,
        main_depth,
        -state.height,
        water,
        centre_x,
        centre_y,
        centre_z,
    )
    rudder_angle, rudder_wetted = put_strut(
        items,
        5,
        a,
        boat.rudder,
        state.rudder,
        rudder_water,
        rudder_depth,
        wet.transom_depth,
        water,
        centre_x,
        centre_y,
        centre_z,
    )
    sine = sin(control.wand)
    cosine = cos(control.wand)
    reach = boat.wand.length - 0.5 * control.immersed
    put(
        items,
        11,
        boat.wand.pivot_x - reach * sine - centre_x,
        -centre_y,
        boat.wand.pivot_z - reach * cosine - centre_z,
        -control.push * cosine,
        0.0,
        control.push * sine,
    )
    hull_x = 0.5 * tables.hull.length - centre_x
    put_air(
        items,
        12,
        a,
        boat.air.hull_drag_area,
        water,
        around,
        state,
        hull_x,
        -centre_y,
        boat.air.hull_z - centre_z,
        state.height + height_of(a, 0.5 * tables.hull.length - boat.main.x, 0.0, boat.air.hull_z),
    )
    put_air(
        items,
        13,
        a,
        boat.air.mast_drag_area,
        water,
        around,
        state,
        boat.air.mast_x - centre_x,
        -centre_y,
        boat.air.mast_z - centre_z,
        state.height + height_of(a, boat.air.mast_x - boat.main.x, 0.0, boat.air.mast_z),
    )
    put_air(
        items,
        14,
        a,
        boat.air.crew_drag_area,
        water,
        around,
        state,
        boat.crew.x - centre_x,
        -out - centre_y,
        boat.crew.z - centre_z,
        state.height + height_of(a, boat.crew.x - boat.main.x, -out, boat.crew.z),
    )
    drag = 0.0
    for item in range(SAIL):
        along, _, _ = to_earth(a, items[item, 0], items[item, 1], items[item, 2])
        drag = drag - along
    put_sail(
        items,
        SAIL,
        a,
        boat.rig,
        water,
        around,
        state,
        boat.rig.effort_x - centre_x,
        -centre_y,
        boat.rig.effort_z - centre_z,
        state.height + height_of(a, boat.rig.effort_x - boat.main.x, 0.0, boat.rig.effort_z),
    )
    put_earth(
        items,
        PULL,
        a,
        boat.rig.effort_x - centre_x,
        -centre_y,
        boat.rig.effort_z - centre_z,
        pull_share * drag,
        0.0,
        0.0,
    )
    return Flight(
        control,
        main,
        rudder,
        wet,
        main_depth,
        rudder_depth,
        main_water.speed,
        rudder_water.speed,
        main_angle,
        rudder_angle,
        main_wetted,
        rudder_wetted,
        downwash,
        weight,
        drag,
    )


def sums(items: Floats) -> tuple[float, float, float, float, float, float]:
    """All items together: force [N] and moment about the centre of gravity [N m] in body axes."""
    force_x = 0.0
    force_y = 0.0
    force_z = 0.0
    moment_x = 0.0
    moment_y = 0.0
    moment_z = 0.0
    for item in range(items.shape[0]):
        force_x = force_x + items[item, 0]
        force_y = force_y + items[item, 1]
        force_z = force_z + items[item, 2]
        moment_x = moment_x + items[item, 3]
        moment_y = moment_y + items[item, 4]
        moment_z = moment_z + items[item, 5]
    return force_x, force_y, force_z, moment_x, moment_y, moment_z
