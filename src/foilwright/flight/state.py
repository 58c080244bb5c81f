"""How the boat stands and moves, and what surrounds it."""

from typing import NamedTuple


class State(NamedTuple):
    """Position, attitude and motion of the boat. Course along earth x; signs as in `axes.py`.

    Ride height is that of the keel line at the main strut over the undisturbed surface. The rates are
    right-hand ones about the body axes, so a bow going up has a negative `pitch_rate`.
    """

    speed: float  # over the water, along the course [m/s]
    height: float  # ride height [m]
    trim: float  # bow up positive [rad]
    heel: float  # to leeward positive [rad]
    leeway: float  # [rad]
    rudder: float  # blade angle, positive turns to leeward [rad]
    climb: float  # vertical speed of the centre of gravity, up positive [m/s]
    roll_rate: float  # [rad/s]
    pitch_rate: float
    yaw_rate: float
    out_share: float  # how far out the crew sits, share of the fully hiked reach; 1 on the bench
    power: float  # share of full sail force; exactly 0: no sail at all, as on the bench


class Around(NamedTuple):
    """What the water and the air do about the boat, beyond their properties: nothing in still water.

    Earth axes. Wind is the air's velocity over the water at 10 m height; lower down it is less, by the
    profile over water of this roughness (`air/wind.py`). Water velocities are those of orbital motion at the
    foils; surface heights are local ones over the undisturbed surface.
    """

    wind_x: float  # at 10 m [m/s]
    wind_y: float
    roughness: float  # length of the wind's profile [m]; without wind it does not matter
    main_x: float  # water velocity at the main foil [m/s]
    main_y: float
    main_z: float
    rudder_x: float  # water velocity at the rudder foil [m/s]
    rudder_y: float
    rudder_z: float
    surface_at_wand: float  # [m]
    surface_at_main: float
    surface_at_rudder: float


def still() -> Around:
    """Still water and no wind: the bench."""
    return Around(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


def steady(speed: float, height: float, trim: float, heel: float) -> State:
    """Straight and level-running at one speed: no leeway, no rudder, no rates, no sail, fully hiked."""
    return State(speed, height, trim, heel, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0)
