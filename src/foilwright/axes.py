"""Body and earth axes, and the one place where the signs of trim and heel are written.

Body: x forward from the transom, y to port, z up from the keel line; right-handed.
Earth: x along the course over the water, y to port of it, z up from the undisturbed surface.
Everything is computed on starboard tack, so leeward is port, +y.

Order of rotations from earth to body: heading, trim, heel. Bow-up trim and heel to leeward are both
negative right-hand rotations (about +y and about +x), and a boat that points to windward of its
course by the leeway has its heading turned by minus leeway about +z.

The columns of `body_in_earth` are the body axes seen from the earth, so
earth vector = matrix times body vector, and body vector = transposed matrix times earth vector.
"""

from math import cos, sin
from typing import NamedTuple


class Attitude(NamedTuple):
    """The nine direction cosines of the body axes in earth axes; `xz` is the z-part of the body x-axis."""

    xx: float
    xy: float
    xz: float
    yx: float
    yy: float
    yz: float
    zx: float
    zy: float
    zz: float


def attitude(trim: float, heel: float, leeway: float) -> Attitude:
    """Body axes in earth axes for trim (bow up positive), heel (to leeward positive), leeway [rad]."""
    st = sin(trim)
    ct = cos(trim)
    sh = sin(heel)
    ch = cos(heel)
    sl = sin(leeway)
    cl = cos(leeway)
    # Before the heading is turned: x = (ct, 0, st), y = (st sh, ch, -ct sh), z = (-st ch, sh, ct ch).
    # Heading turned by minus leeway: (a, b) -> (a cl + b sl, b cl - a sl).
    return Attitude(
        ct * cl,
        -ct * sl,
        st,
        st * sh * cl + ch * sl,
        ch * cl - st * sh * sl,
        -ct * sh,
        -st * ch * cl + sh * sl,
        sh * cl + st * ch * sl,
        ct * ch,
    )


def to_earth(a: Attitude, x: float, y: float, z: float) -> tuple[float, float, float]:
    """A body vector seen in earth axes."""
    return (
        a.xx * x + a.yx * y + a.zx * z,
        a.xy * x + a.yy * y + a.zy * z,
        a.xz * x + a.yz * y + a.zz * z,
    )


def to_body(a: Attitude, x: float, y: float, z: float) -> tuple[float, float, float]:
    """An earth vector seen in body axes."""
    return (
        a.xx * x + a.xy * y + a.xz * z,
        a.yx * x + a.yy * y + a.yz * z,
        a.zx * x + a.zy * y + a.zz * z,
    )


def height_of(a: Attitude, x: float, y: float, z: float) -> float:
    """Height of a body point above a body origin at zero height: the earth z-part only."""
    return a.xz * x + a.yz * y + a.zz * z


def cross(ax: float, ay: float, az: float, bx: float, by: float, bz: float) -> tuple[float, float, float]:
    """Vector product, for the moment of a force about a point (arm x force) and for rates (rate x arm)."""
    return (ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx)


def bow_up_moment(moment_y: float) -> float:
    """Pitch moment, bow up positive, from the right-hand moment about body y (to port)."""
    return -moment_y


def heeling_moment(moment_x: float) -> float:
    """Roll moment, heel to leeward positive, from the right-hand moment about body x (forward)."""
    return -moment_x
