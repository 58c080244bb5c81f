"""Wind over water: how it grows with height, how it was measured, and what sailors call it.

`share_at_height` is a kernel; the rest is set-up and asked once a day. Heights above the undisturbed
surface, speeds of the mean wind, all in SI.
"""

from math import atan2, cos, log, sin, sqrt
from typing import NamedTuple

REFERENCE_HEIGHT = 10.0  # of a forecast [m]
HAND_HEIGHT = 2.0  # of a gauge held up in a boat [m]
INLAND_ROUGHNESS = 5.0e-4  # of inland water, assumed [m]: a hand gauge at 2 m then reads 0.838 of a forecast
OPEN_ROUGHNESS = 2.0e-4  # of open water, the value of the wind atlases [m]
LEAST_ROUGHNESS = 1.0e-6  # guards of the profile [m]
MOST_ROUGHNESS = 0.2
NEAR_WATER = 0.5  # below this height the logarithm gives way [m]
VON_KARMAN = 0.4
CHARNOCK = 0.0144
AIR_VISCOSITY = 1.5e-5  # [m2/s]


def share_at_height(height: float, roughness: float) -> float:
    """Mean wind at a height over that at 10 m [-]: ln(z/z0) / ln(10/z0).

    height z above the water [m]; roughness length z0 [m], 5e-5 (smooth sea in 5 m/s) to 1e-3 (short steep
    chop). The logarithmic wall law for a neutral surface layer (e.g. Stull, An Introduction to Boundary Layer
    Meteorology, 1988); no thermal layering, no hills or trees upwind, no sheltering by waves.
    Below 0.5 m the logarithm is continued by a parabola of its value and slope that comes to rest at the
    water (C1; exact from 0.5 m up); at and under the water its value there: a guard, of little meaning. The
    roughness is held within 1e-6 and 0.2 m.
    """
    z0 = roughness
    if z0 < LEAST_ROUGHNESS:
        z0 = LEAST_ROUGHNESS
    elif z0 > MOST_ROUGHNESS:
        z0 = MOST_ROUGHNESS
    if height >= NEAR_WATER:
        return 1.0 + log(height / REFERENCE_HEIGHT) / log(REFERENCE_HEIGHT / z0)
    t = height / NEAR_WATER
    if t < 0.0:
        t = 0.0
    fallen = log(NEAR_WATER / REFERENCE_HEIGHT) - 0.5 * (1.0 - t * t)
    return 1.0 + fallen / log(REFERENCE_HEIGHT / z0)


class SeaSurface(NamedTuple):
    """The water as the wind feels it."""

    friction_velocity: float  # u* [m/s]
    roughness: float  # z0 [m]
    drag_coefficient: float  # (u*/U10)^2 [-]


def charnock(wind: float, parameter: float) -> SeaSurface:
    """Roughness of a sea grown in equilibrium with the wind at 10 m [m/s].

    z0 = a u*^2 / g + 0.11 nu / u*, u* = 0.4 U10 / ln(10 / z0) (Charnock 1955, Quarterly Journal of the Royal
    Meteorological Society 81:639; smooth term as in Smith 1988, Journal of Geophysical Research 93:15467).
    Parameter a [-]: 0.011 to 0.018 on the sea. Fixed point from u* = U10/28: each of the forty rounds leaves
    less than a third of the error. Wind below 0.5 m/s is taken as that.
    """
    wind = max(wind, 0.5)
    friction = wind / 28.0
    for _ in range(40):
        roughness = parameter * friction * friction / 9.80665 + 0.11 * AIR_VISCOSITY / friction
        friction = VON_KARMAN * wind / log(REFERENCE_HEIGHT / roughness)
    return SeaSurface(friction, roughness, (friction / wind) ** 2)


def at_ten(speed: float, height: float, roughness: float) -> float:
    """Wind at 10 m [m/s] from one measured at a height [m]."""
    return speed / share_at_height(height, roughness)


def at_height(wind: float, height: float, roughness: float) -> float:
    """Wind at a height [m], from that at 10 m [m/s]."""
    return wind * share_at_height(height, roughness)


class Apparent(NamedTuple):
    """The wind as the boat feels it."""

    along: float  # air's velocity past the boat along the course, from ahead positive [m/s]
    across: float  # from windward positive [m/s]
    speed: float  # [m/s]
    angle: float  # off the course [rad]


def apparent_wind(wind: float, angle: float, boat_speed: float, heel: float) -> Apparent:
    """Apparent wind in the plane square to the mast.

    True wind [m/s] at the height in question, its angle off the course [rad], boat speed [m/s], heel [rad]:
    V_x = V_T cos(angle) + V_B, V_y = V_T sin(angle) cos(heel) (Kerwin 1978, Massachusetts Institute of
    Technology report 78-11). Trim and leeway are left out: for the angle to the centreline subtract the
    leeway. For reports and tests; a flight takes the whole vector.
    """
    along = wind * cos(angle) + boat_speed
    across = wind * sin(angle) * cos(heel)
    return Apparent(along, across, sqrt(along * along + across * across), atan2(across, along))


BEAUFORT_FROM = (0.0, 0.3, 1.6, 3.4, 5.5, 8.0, 10.8, 13.9, 17.2, 20.8)
"""Least mean wind at 10 m of each force [m/s], 0 to 9, as the World Meteorological Organization prints it."""


def beaufort(wind: float) -> int:
    """Beaufort force of a mean wind at 10 m [m/s]; 9 stands for everything above a gale."""
    return sum(1 for least in BEAUFORT_FROM if wind >= least - 1e-9) - 1 if wind > 0.0 else 0


def beaufort_wind(force: float) -> float:
    """Wind at 10 m [m/s] of a Beaufort force: 0.836 B^1.5."""
    return 0.836 * force * sqrt(force)
