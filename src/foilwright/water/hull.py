"""The hull in the water: volume and its centre, wetted area, friction, the wet transom, planing lift.

Kernels: plain scalar functions. The undisturbed surface is flat; waves the hull makes itself are left out of
the hydrostatics. Signs: heights up, trim bow up positive, heel to leeward (+y down) positive.

A body point (x, y, z) stands at  height + (x - reference_x) sin_trim + cos_trim (z cos_heel - y sin_heel)
above the surface, where height belongs to the point (reference_x, 0, 0).
"""

from math import fabs, sqrt
from typing import NamedTuple

from foilwright.smooth import positive_part, smooth_step
from foilwright.water.friction import friction_coefficient
from foilwright.water.hull_shape import HullShape
from foilwright.water.waterline import BLEND, wet_depth, wet_depth_integral, wet_segment, wet_step

SIXTH = 1.0 / 6.0


class InWater(NamedTuple):
    """What of a hull is in the water. Places in body axes [m]."""

    volume: float
    """[m3]"""
    x: float
    """centre of the volume"""
    y: float
    z: float
    wetted_area: float
    """both sides, without the transom [m2]"""
    wetted_length: float
    """length of keel under water [m]"""
    wetted_middle: float
    """x of the middle of that length [m]"""
    waterplane: float
    """area cut by the surface [m2]: minus the change of volume with height"""
    transom_area: float
    """of the transom under water [m2]"""
    transom_depth: float
    """of the lowest point of the transom on the centreline [m]"""


def hull_in_water(
    shape: HullShape,
    height: float,
    sin_trim: float,
    cos_trim: float,
    sin_heel: float,
    cos_heel: float,
    reference_x: float,
) -> InWater:
    """Volume, centre, wetted area and the rest of a hull at any height, trim and heel.

    Each station is a closed polygon (bottom, sides, straight deck). By Green's theorem the part of it below
    the surface is the contour sum of depth times horizontal step, exact at any heel and trim, and never more
    than the whole section. With heel exactly 0 one side is summed and doubled. Height may be anything; trim
    and heel within 60 degrees. Valid while the deck edge is dry: water on deck is not modelled.
    """
    x = shape.x
    first = (x[0] - reference_x) * sin_trim
    last = (x[x.shape[0] - 1] - reference_x) * sin_trim
    end = first if first < last else last
    if height + end + cos_trim * (shape.lowest * cos_heel - shape.widest * fabs(sin_heel)) > BLEND:
        return InWater(0.0, 0.5 * shape.length, 0.0, 0.0, 0.0, 0.0, 0.5 * shape.length, 0.0, 0.0, 0.0)
    if sin_heel == 0.0:
        return _upright(shape, height, sin_trim, cos_trim, reference_x)
    return _heeled(shape, height, sin_trim, cos_trim, sin_heel, cos_heel, reference_x)


def _upright(
    shape: HullShape, height: float, sin_trim: float, cos_trim: float, reference_x: float
) -> InWater:
    """hull_in_water at heel 0."""
    x = shape.x
    y = shape.y
    z = shape.z
    panel = shape.area
    nodes = y.shape[1]
    constant = 0.1 * BLEND * BLEND
    volume = 0.0
    volume_x = 0.0
    volume_z = 0.0
    wetted = 0.0
    length = 0.0
    length_x = 0.0
    waterplane = 0.0
    transom_area = 0.0
    transom_depth = 0.0
    for i in range(x.shape[0]):
        xi = x[i]
        base = height + (xi - reference_x) * sin_trim
        if base + cos_trim * shape.low[i] >= BLEND:
            continue
        width = shape.width[i]
        area = 0.0
        moment = 0.0
        plane = 0.0
        y0 = y[i, 0]
        d0 = -base - cos_trim * z[i, 0]
        keel = wet_step(d0)
        length += width * keel
        length_x += width * keel * xi
        if i == 0:
            transom_depth = wet_depth(d0)
        for j in range(1, nodes):
            y1 = y[i, j]
            d1 = -base - cos_trim * z[i, j]
            if d0 >= BLEND and d1 >= BLEND:
                dy = y1 - y0
                area += dy * 0.5 * (d0 + d1)
                moment += dy * ((d0 * d0 + d0 * d1 + d1 * d1) * SIXTH - constant)
                plane += dy
                wetted += panel[i, j - 1]
            elif d0 > -BLEND or d1 > -BLEND:
                dy = y1 - y0
                share, depth, _, square = wet_segment(d0, d1)
                area += dy * depth
                moment += dy * square
                plane += dy * share
                wetted += panel[i, j - 1] * share
            y0 = y1
            d0 = d1
        if d0 > -BLEND:
            depth = wet_depth(d0)
            area -= y0 * depth
            moment -= y0 * (d0 * depth - wet_depth_integral(d0))
            plane -= y0 * wet_step(d0)
        volume += width * area
        volume_x += width * area * xi
        volume_z -= width * (moment + base * area)
        waterplane += width * plane
        if i == 0:
            transom_area = area
    scale = 2.0 / cos_trim
    middle = 0.5 * shape.length
    return InWater(
        volume * scale,
        volume_x / volume if volume > 1e-12 else middle,
        0.0,
        volume_z / (cos_trim * volume) if volume > 1e-12 else 0.0,
        2.0 * wetted,
        length,
        length_x / length if length > 1e-9 else middle,
        waterplane * scale,
        transom_area * scale,
        transom_depth,
    )


def _heeled(
    shape: HullShape,
    height: float,
    sin_trim: float,
    cos_trim: float,
    sin_heel: float,
    cos_heel: float,
    reference_x: float,
) -> InWater:
    """hull_in_water at any heel, both sides one after the other."""
    x = shape.x
    y = shape.y
    z = shape.z
    panel = shape.area
    nodes = y.shape[1]
    constant = 0.1 * BLEND * BLEND
    volume = 0.0
    volume_x = 0.0
    volume_eta = 0.0
    volume_zeta = 0.0
    wetted = 0.0
    length = 0.0
    length_x = 0.0
    waterplane = 0.0
    transom_area = 0.0
    transom_depth = 0.0
    for i in range(x.shape[0]):
        xi = x[i]
        base = height + (xi - reference_x) * sin_trim
        if base + cos_trim * (shape.low[i] * cos_heel - shape.beam[i] * fabs(sin_heel)) >= BLEND:
            continue
        width = shape.width[i]
        area = 0.0
        area_eta = 0.0
        moment = 0.0
        plane = 0.0
        d_keel = -base - cos_trim * cos_heel * z[i, 0]
        keel = wet_step(d_keel)
        length += width * keel
        length_x += width * keel * xi
        if i == 0:
            transom_depth = wet_depth(d_keel)
        side = 1.0
        for _ in range(2):
            # eta is the level coordinate across the section; its steps run the same way round on both sides
            eta0 = side * y[i, 0] * cos_heel + z[i, 0] * sin_heel
            d0 = -base - cos_trim * (z[i, 0] * cos_heel - side * y[i, 0] * sin_heel)
            for j in range(1, nodes):
                yj = side * y[i, j]
                zj = z[i, j]
                eta1 = yj * cos_heel + zj * sin_heel
                d1 = -base - cos_trim * (zj * cos_heel - yj * sin_heel)
                if d0 >= BLEND and d1 >= BLEND:
                    step = side * (eta1 - eta0)
                    mean = 0.5 * (d0 + d1)
                    area += step * mean
                    area_eta += step * (eta0 * mean + (eta1 - eta0) * (d0 + 2.0 * d1) * SIXTH)
                    moment += step * ((d0 * d0 + d0 * d1 + d1 * d1) * SIXTH - constant)
                    plane += step
                    wetted += panel[i, j - 1]
                elif d0 > -BLEND or d1 > -BLEND:
                    step = side * (eta1 - eta0)
                    share, mean, first, square = wet_segment(d0, d1)
                    area += step * mean
                    area_eta += step * (eta0 * mean + (eta1 - eta0) * first)
                    moment += step * square
                    plane += step * share
                    wetted += panel[i, j - 1] * share
                eta0 = eta1
                d0 = d1
            if side > 0.0:
                eta_port = eta0
                d_port = d0
            side = -1.0
        if d0 > -BLEND or d_port > -BLEND:
            step = eta0 - eta_port
            share, mean, first, square = wet_segment(d_port, d0)
            area += step * mean
            area_eta += step * (eta_port * mean + step * first)
            moment += step * square
            plane += step * share
        volume += width * area
        volume_x += width * area * xi
        volume_eta += width * area_eta
        volume_zeta -= width * (moment + base * area)
        waterplane += width * plane
        if i == 0:
            transom_area = area
    middle = 0.5 * shape.length
    if volume > 1e-12:
        eta = volume_eta / volume
        zeta = volume_zeta / (cos_trim * volume)
        centre_x = volume_x / volume
    else:
        eta = 0.0
        zeta = 0.0
        centre_x = middle
    return InWater(
        volume / cos_trim,
        centre_x,
        eta * cos_heel - zeta * sin_heel,
        eta * sin_heel + zeta * cos_heel,
        wetted,
        length,
        length_x / length if length > 1e-9 else middle,
        waterplane / cos_trim,
        transom_area / cos_trim,
        transom_depth,
    )


def lowest_point(
    shape: HullShape,
    height: float,
    sin_trim: float,
    cos_trim: float,
    sin_heel: float,
    cos_heel: float,
    reference_x: float,
) -> float:
    """Height of the lowest point of the hull above the undisturbed surface [m]; negative when it is in the
    water.

    Exact over the nodes, on the side that the heel lowers. It has a corner where another node takes over.
    """
    x = shape.x
    lowest = 1e9
    if sin_heel == 0.0:
        for i in range(x.shape[0]):
            here = (x[i] - reference_x) * sin_trim + cos_trim * shape.low[i]
            if here < lowest:
                lowest = here
        return height + lowest
    y = shape.y
    z = shape.z
    sink = fabs(sin_heel)
    for i in range(x.shape[0]):
        along = (x[i] - reference_x) * sin_trim
        if along + cos_trim * (shape.low[i] * cos_heel - shape.beam[i] * sink) < lowest:
            for j in range(y.shape[1]):
                here = along + cos_trim * (z[i, j] * cos_heel - y[i, j] * sink)
                if here < lowest:
                    lowest = here
    return height + lowest


def friction_drag(
    speed: float,
    wetted_area: float,
    wetted_length: float,
    density: float,
    viscosity: float,
    form_factor: float,
) -> float:
    """Friction drag of the wetted hull [N]: 1/2 rho U^2 S C_F(U L / nu) times the form factor (1.1-1.2).

    speed [m/s], forward; wetted_area [m2]; wetted_length [m]; density [kg/m3]; viscosity, kinematic [m2/s].
    The form factor holds form drag and spray together. Vanishes with the wetted area.
    """
    if wetted_area <= 0.0:
        return 0.0
    reynolds = fabs(speed) * wetted_length / viscosity
    return 0.5 * density * speed * fabs(speed) * wetted_area * friction_coefficient(reynolds) * form_factor


def transom_drag(speed: float, transom_area: float, length: float, density: float, gravity: float) -> float:
    """Base drag of a transom that is still wet [N]: 0.2 of the dynamic pressure on its immersed area.

    0.2 is the value at low speed of Holtrop & Mennen 1982 (International Shipbuilding Progress 29:166). The
    flow leaves the transom edge and the drag fades between Froude numbers 0.4 and 0.5 on the length of the
    hull (common practice, no source).
    """
    froude = fabs(speed) / sqrt(gravity * length)
    wet = 1.0 - smooth_step(froude, 0.4, 0.5)
    return 0.1 * density * speed * fabs(speed) * transom_area * wet


def planing_lift(
    share: float,
    speed: float,
    attack: float,
    wetted_length: float,
    waterplane: float,
    wetted_middle: float,
    density: float,
) -> tuple[float, float, float]:
    """Dynamic lift of the bottom of a wide hull: lift [N], the drag with it [N], the x it acts at [m].

    The dynamic term of Savitsky 1964 (Marine Technology 1:71-95) for a flat plate,
        lift = 1/2 rho U^2 b^2 0.0120 sqrt(l / b) tau^1.1,  tau in degrees,
    at three quarters of the wetted length l from its after end; b is the mean beam of the waterplane,
    waterplane / wetted length. The boat's share of it (0 for a narrow hull) is an allowance, good to half of
    itself either way, for real bottoms are neither flat nor straight. Drag = lift x tan tau: the pressure
    stands square on the plate. attack [rad] is the angle of the keel line to the flow; below zero there is no
    lift (rounded over 0.2 degrees). Published range: tau 2-15 degrees, l / b up to 4, U / sqrt(g b) 0.6-13.
    """
    if share == 0.0 or wetted_length < 1e-6 or waterplane < 1e-9:
        return 0.0, 0.0, wetted_middle
    angle = positive_part(attack, 0.0035)
    beam = waterplane / wetted_length
    power = (angle * 57.29577951308232) ** 1.1
    lift = share * 0.006 * density * speed * speed * beam * sqrt(waterplane) * power
    return lift, lift * angle * (1.0 + angle * angle / 3.0), wetted_middle + 0.25 * wetted_length
