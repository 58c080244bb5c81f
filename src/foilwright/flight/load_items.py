"""The load of each part: one phenomenon a function, each written as one item of the loads.

An item is a force [N] and its moment [N m] about the centre of gravity, six components in body axes.
"""

from math import atan2, cos, sin, sqrt
from typing import NamedTuple

from foilwright.air.sails import sail_force
from foilwright.air.wind import share_at_height
from foilwright.air.windage import air_drag
from foilwright.axes import Attitude, cross, to_body
from foilwright.flight.boat import Boat, Foil, Rig, Tables
from foilwright.flight.foil_flow import FoilFlow
from foilwright.flight.state import Around, State
from foilwright.measures import Floats
from foilwright.smooth import smooth_min, smooth_step
from foilwright.water.hull import InWater, friction_drag, hull_in_water, planing_lift, transom_drag
from foilwright.water.planform import Planform
from foilwright.water.properties import Water
from foilwright.water.strut import strut_drag, strut_side_force
from foilwright.water.waves import wave_resistance

STRUT_SLOPE = 6.0  # section lift slope of a strut [1/rad], a little under thin-aerofoil theory
STRUT_MOST_LIFT = 0.9  # greatest section lift coefficient of a 12 % symmetric strut, cautious
STRUT_TOP_ROUNDING = 0.01  # of the wetted length at the hull [m]
LEAST_SPEED = 0.1  # flow speeds below this are taken as this where they divide [m/s]


class Flow(NamedTuple):
    """Water past a point of the boat."""

    along: float  # speed of the point through the water, body axes [m/s]
    across: float
    up: float
    speed: float  # in the foil's plane of symmetry [m/s]
    pressure: float  # dynamic [Pa]
    angle: float  # angle of attack of the keel line [rad]


def put(
    items: Floats,
    item: int,
    x: float,
    y: float,
    z: float,
    force_x: float,
    force_y: float,
    force_z: float,
) -> None:
    """Writes a force [N] in body axes at x, y, z [m] from the centre of gravity."""
    moment_x, moment_y, moment_z = cross(x, y, z, force_x, force_y, force_z)
    items[item, 0] = force_x
    items[item, 1] = force_y
    items[item, 2] = force_z
    items[item, 3] = moment_x
    items[item, 4] = moment_y
    items[item, 5] = moment_z


def put_earth(
    items: Floats,
    item: int,
    a: Attitude,
    x: float,
    y: float,
    z: float,
    force_x: float,
    force_y: float,
    force_z: float,
) -> None:
    """The same for a force in earth axes."""
    body_x, body_y, body_z = to_body(a, force_x, force_y, force_z)
    put(items, item, x, y, z, body_x, body_y, body_z)


def flow_past(
    a: Attitude,
    state: State,
    density: float,
    x: float,
    y: float,
    z: float,
    water_x: float,
    water_y: float,
    water_z: float,
) -> Flow:
    """Water past the point x, y, z [m] from the centre of gravity; the water's own velocity in earth axes."""
    along, across, up = to_body(a, state.speed - water_x, -water_y, state.climb - water_z)
    spin_x, spin_y, spin_z = cross(state.roll_rate, state.pitch_rate, state.yaw_rate, x, y, z)
    along = along + spin_x
    across = across + spin_y
    up = up + spin_z
    squared = along * along + up * up
    speed = sqrt(squared + LEAST_SPEED * LEAST_SPEED)
    return Flow(along, across, up, speed, 0.5 * density * squared, atan2(-up, along))


def put_foil(
    items: Floats,
    item: int,
    planform: Planform,
    flow: FoilFlow,
    water: Flow,
    junction: float,
    x: float,
    y: float,
    z: float,
) -> None:
    """Lift square to the flow, drag and junction drag [N] along it, and the section's own moment."""
    lift = water.pressure * planform.area * flow.lift
    drag = water.pressure * planform.area * flow.drag + junction
    cosine = water.along / water.speed
    sine = -water.up / water.speed
    put(items, item, x, y, z, lift * sine - drag * cosine, 0.0, lift * cosine + drag * sine)
    # Nose up is a negative right-hand moment about body y.
    items[item, 4] = items[item, 4] - water.pressure * planform.area * planform.moment_chord * flow.moment


def put_strut(
    items: Floats,
    item: int,
    a: Attitude,
    foil: Foil,
    blade_angle: float,
    flow: Flow,
    depth: float,
    hull_depth: float,
    water: Water,
    centre_x: float,
    centre_y: float,
    centre_z: float,
) -> tuple[float, float]:
    """Drag and side force of the strut above a foil; returns its angle of attack [rad] and wetted length [m].

    The strut is wet from the foil up to the surface or to the hull, whichever comes first; while its top
    is covered by the hull it throws no spray and the hull stands for a wall as far as it is immersed.
    """
    whole = foil.strut_top - foil.z
    wetted = smooth_min(depth / a.zz, whole, STRUT_TOP_ROUNDING)
    piercing = smooth_step(whole - depth / a.zz, 0.0, 0.04)
    profile, spray = strut_drag(
        flow.speed, foil.strut_chord, foil.strut_thickness, wetted, piercing, water.density, water.viscosity
    )
    angle = atan2(flow.across, flow.along) + blade_angle
    wall = 0.5 * (1.0 - piercing) * smooth_step(hull_depth, 0.0, 0.1)
    side, induced = strut_side_force(
        flow.pressure, angle, foil.strut_chord, wetted, STRUT_SLOPE, STRUT_MOST_LIFT, wall
    )
    drag = profile + spray + induced
    # The side force stands square to the flow, not to the chord: a thin strut's nose is sucked forward.
    speed = sqrt(flow.along * flow.along + flow.across * flow.across + 1e-24)
    cosine = flow.along / speed
    sine = flow.across / speed
    put(
        items,
        item,
        foil.x - centre_x,
        -centre_y,
        foil.z + 0.5 * wetted - centre_z,
        side * sine - drag * cosine,
        -side * cosine - drag * sine,
        0.0,
    )
    return angle, wetted


def put_hull(
    items: Floats,
    a: Attitude,
    boat: Boat,
    tables: Tables,
    state: State,
    water: Water,
    centre_x: float,
    centre_y: float,
    centre_z: float,
) -> InWater:
    """Buoyancy, friction, waves, wet transom and planing allowance of the hull."""
    wet = hull_in_water(
        tables.hull, state.height, a.xz, cos(state.trim), sin(state.heel), cos(state.heel), boat.main.x
    )
    x = wet.x - centre_x
    y = wet.y - centre_y
    z = wet.z - centre_z
    put_earth(items, 6, a, x, y, z, 0.0, 0.0, water.density * water.gravity * wet.volume)
    if wet.volume <= 0.0:
        for item in range(7, 11):
            for j in range(6):
                items[item, j] = 0.0
        return wet
    friction = friction_drag(
        state.speed,
        wet.wetted_area,
        wet.wetted_length + 0.01,
        water.density,
        water.viscosity,
        boat.hull.form_factor,
    )
    waves = boat.hull.wave_share * wave_resistance(
        tables.waves, state.speed, wet.volume, water.density, water.gravity
    )
    base = transom_drag(state.speed, wet.transom_area, tables.hull.length, water.density, water.gravity)
    put_earth(items, 7, a, x, y, z, -friction, 0.0, 0.0)
    put_earth(items, 8, a, x, y, z, -waves, 0.0, 0.0)
    put_earth(items, 9, a, tables.hull.x[0] - centre_x, y, z, -base, 0.0, 0.0)
    lift, drag, at_x = planing_lift(
        boat.hull.planing_share,
        state.speed,
        state.trim,
        wet.wetted_length,
        wet.waterplane,
        wet.wetted_middle,
        water.density,
    )
    put_earth(items, 10, a, at_x - centre_x, y, z, -drag, 0.0, lift)
    return wet


def air_past(around: Around, state: State, height: float) -> tuple[float, float]:
    """The boat's velocity through the air at a height over the water, earth axes [m/s]."""
    if around.wind_x == 0.0 and around.wind_y == 0.0:
        return state.speed, 0.0
    share = share_at_height(height, around.roughness)
    return state.speed - share * around.wind_x, -share * around.wind_y


def put_air(
    items: Floats,
    item: int,
    a: Attitude,
    drag_area: float,
    water: Water,
    around: Around,
    state: State,
    x: float,
    y: float,
    z: float,
    height: float,
) -> None:
    """Air drag of one part, against the wind at its height over the water [m]."""
    air_x, air_y = air_past(around, state, height)
    speed = sqrt(air_x * air_x + air_y * air_y)
    strength = air_drag(drag_area, water.air_density, speed) / (speed + 1e-12)
    put_earth(items, item, a, x, y, z, -strength * air_x, -strength * air_y, 0.0)


def put_sail(
    items: Floats,
    item: int,
    a: Attitude,
    rig: Rig,
    water: Water,
    around: Around,
    state: State,
    x: float,
    y: float,
    z: float,
    height: float,
) -> None:
    """Force of the sail at its centre of effort, in the plane square to the mast; nothing at power 0.

    The apparent wind is the one at the height of the centre of effort, with heel and leeway; only its part
    square to the mast works (Kerwin 1978), and the force lies in that plane. The mast stands along body z. As
    the sail is eased its head opens and the centre of effort comes down.
    """
    if state.power == 0.0:
        put(items, item, x, y, z, 0.0, 0.0, 0.0)
        return
    air_x, air_y = air_past(around, state, height)
    along, across, _ = to_body(a, air_x, air_y, 0.0)
    spin_x, spin_y, _ = cross(state.roll_rate, state.pitch_rate, state.yaw_rate, x, y, z)
    force = sail_force(
        rig.sail_area, rig.aspect_ratio, water.air_density, along + spin_x, across + spin_y, state.power
    )
    put(items, item, x, y, z - force.drop, force.drive, force.side, 0.0)
