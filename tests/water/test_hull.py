"""Hydrostatics, friction, wet transom and planing lift of the hull.

Referees: closed forms for the Wigley hull and for a box, and clipping of every section polygon by the
surface (Sutherland & Hodgman 1974), which knows nothing of the contour sums that the kernel uses.
"""

from math import cos, isclose, radians, sin, sqrt, tan

import numpy as np
import pytest

from foilwright.compiled import compiled, plain
from foilwright.water import hull, hull_shape, waterline
from foilwright.water.hull import InWater, hull_in_water, lowest_point
from foilwright.water.hull_shape import HullNumbers, HullShape, hull_from_offsets, parametric_hull
from foilwright.water.waterline import BLEND

NARROW = HullNumbers(3.35, 0.36, 0.36, 0.42, 1.5, 0.0, 0.55, 0.05, 0.045, 3.0)
WIDE = HullNumbers(3.05, 1.15, 0.36, 0.5, 1.0, 0.45, 0.8, 0.22, 0.05, 2.2)
LONG = HullNumbers(4.4, 0.62, 0.45, 0.42, 1.5, 0.0, 0.6, 0.06, 0.06, 2.8)
HULLS = [NARROW, WIDE, LONG]


def at(shape: HullShape, height: float, trim: float = 0.0, heel: float = 0.0, x: float = 1.5) -> InWater:
    """The hull at a height [m], trim and heel [rad]."""
    return hull_in_water(plain(shape), height, sin(trim), cos(trim), sin(heel), cos(heel), x)


def box(length: float, beam: float, depth: float) -> HullShape:
    x = np.linspace(0.0, length, 9)
    y = np.tile([0.0, 0.5 * beam, 0.5 * beam], (9, 1))
    z = np.tile([0.0, 0.0, depth], (9, 1))
    return hull_from_offsets(x, y, z)


def wigley(length: float, beam: float, draft: float, stations: int, nodes: int) -> HullShape:
    """y = B/2 (1 - (2x/L)^2) (1 - (z/T)^2) below the waterline, wall-sided above it."""
    x = np.linspace(0.0, length, stations)
    down = np.linspace(1.0, 0.0, nodes)
    plan = 0.5 * beam * (1.0 - (2.0 * x / length - 1.0) ** 2)
    y = np.outer(plan, np.append(1.0 - down**2, 1.0))
    z = np.tile(np.append(draft * (1.0 - down), 2.0 * draft), (stations, 1))
    return hull_from_offsets(x, y, z)


# closed forms


def test_wigley_hydrostatics():
    """Volume 4/9 LBT, waterplane 2/3 LB, wetted surface 0.6613 L (2T + B) for L/B 10, L/T 16.

    0.661 is the published figure of the cooperative Wigley programme of the towing tanks (from memory).
    """
    length, beam, draft = 3.4, 0.34, 3.4 / 16.0
    shape = wigley(length, beam, draft, 81, 41)
    wet = at(shape, -draft)
    assert wet.volume == pytest.approx(4.0 / 9.0 * length * beam * draft, rel=1e-3)
    assert wet.waterplane == pytest.approx(2.0 / 3.0 * length * beam, rel=1e-3)
    assert wet.wetted_area == pytest.approx(0.6613 * length * (2.0 * draft + beam), rel=3e-3)
    assert wet.x == pytest.approx(0.5 * length, abs=1e-9)
    assert wet.z == pytest.approx(draft * 0.625, rel=2e-3)  # 3/8 T under the surface
    assert wet.wetted_length == pytest.approx(length, rel=1e-9)


def test_wigley_on_a_coarse_grid():
    """21 stations and 8 nodes, the size of a demo boat, cost 1 % of volume with nodes on the curve."""
    length, beam, draft = 3.4, 0.34, 3.4 / 16.0
    wet = at(wigley(length, beam, draft, 21, 8), -draft)
    assert wet.volume == pytest.approx(4.0 / 9.0 * length * beam * draft, rel=0.012)
    assert wet.waterplane == pytest.approx(2.0 / 3.0 * length * beam, rel=0.002)


@pytest.mark.parametrize("heel_deg", [0.0, 5.0, -12.0])
@pytest.mark.parametrize("trim_deg", [0.0, 1.5, -2.0])
def test_box_is_exact(trim_deg, heel_deg):
    """Wall-sided box with the surface crossing both sides: every integral has a closed form."""
    length, beam, depth, height, middle = 3.0, 0.5, 0.4, -0.2, 1.3
    trim, heel = radians(trim_deg), radians(heel_deg)
    wet = at(box(length, beam, depth), height, trim, heel, middle)
    slope = -tan(trim) / cos(heel)
    at_middle = -height / cos(trim) / cos(heel)  # height of the surface above the keel line, in the boat
    mean = at_middle + slope * (0.5 * length - middle)
    square = mean**2 + slope**2 * length**2 / 12.0  # mean over the length of the same, squared
    volume = beam * length * mean
    assert wet.volume == pytest.approx(volume, rel=1e-6)
    assert wet.x * volume == pytest.approx(volume * 0.5 * length + beam * slope * length**3 / 12.0, abs=1e-6)
    assert wet.y * volume == pytest.approx(tan(heel) * beam**3 / 12.0 * length, abs=2e-6)
    assert wet.z * volume == pytest.approx(
        0.5 * length * (square * beam + tan(heel) ** 2 * beam**3 / 12.0), abs=4e-6
    )
    assert wet.waterplane == pytest.approx(beam * length / cos(heel) / cos(trim), rel=1e-6)
    assert wet.wetted_area == pytest.approx(length * (beam + 2.0 * mean), rel=1e-5)
    assert wet.transom_area == pytest.approx(beam * (at_middle - slope * middle), rel=1e-6)


def test_box_under_water_holds_no_more_than_itself():
    wet = at(box(3.0, 0.5, 0.4), -2.0, 0.03, 0.2)
    assert wet.volume == pytest.approx(3.0 * 0.5 * 0.4, rel=1e-9)
    assert (wet.x, wet.y, wet.z) == pytest.approx((1.5, 0.0, 0.2), abs=1e-9)
    assert wet.waterplane == pytest.approx(0.0, abs=1e-12)


# clipping as referee


def clipped(polygon: list[tuple[float, float]], depth_of) -> tuple[float, float, float]:
    """Area and first moments of the part of a polygon where depth_of(point) > 0."""
    inside = []
    for (y0, z0), (y1, z1) in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        d0, d1 = depth_of(y0, z0), depth_of(y1, z1)
        if d0 >= 0.0:
            inside.append((y0, z0))
        if (d0 > 0.0) != (d1 > 0.0) and d0 != d1:
            t = d0 / (d0 - d1)
            inside.append((y0 + t * (y1 - y0), z0 + t * (z1 - z0)))
    area = moment_y = moment_z = 0.0
    for (y0, z0), (y1, z1) in zip(inside, inside[1:] + inside[:1], strict=True):
        cross = y0 * z1 - y1 * z0
        area += 0.5 * cross
        moment_y += cross * (y0 + y1) / 6.0
        moment_z += cross * (z0 + z1) / 6.0
    return area, moment_y, moment_z


def referee(shape: HullShape, height: float, trim: float, heel: float, reference_x: float) -> np.ndarray:
    """Volume and its first moments by clipping."""
    total = np.zeros(4)
    for i, x in enumerate(shape.x):
        port = list(zip(shape.y[i], shape.z[i], strict=True))
        polygon = [(-y, z) for y, z in reversed(port)] + port
        polygon.reverse()

        def depth(y, z, x=x):
            return -(height + (x - reference_x) * sin(trim) + cos(trim) * (z * cos(heel) - y * sin(heel)))

        area, moment_y, moment_z = clipped(polygon, depth)
        total += shape.width[i] * abs(area) * np.array([1.0, x, 0.0, 0.0])
        total += shape.width[i] * np.sign(area) * np.array([0.0, 0.0, moment_y, moment_z])
    return total


@pytest.mark.parametrize("numbers", HULLS)
@pytest.mark.parametrize(
    ("height", "trim_deg", "heel_deg"),
    [(-0.15, 0.0, 0.0), (-0.1, 3.0, 0.0), (-0.02, -3.0, 0.0), (-0.1, 2.0, 10.0), (-0.2, -1.0, -25.0),
     (0.05, 4.0, -20.0), (-0.5, 1.0, 5.0)],
)  # fmt: skip
def test_agrees_with_clipping(numbers, height, trim_deg, heel_deg):
    """Within a tenth of a litre, the size of the rounded waterline, and that much at the hull's end."""
    shape = parametric_hull(numbers)
    trim, heel = radians(trim_deg), radians(heel_deg)
    wet = at(shape, height, trim, heel)
    volume, *moments = referee(shape, height, trim, heel, 1.5)
    assert wet.volume == pytest.approx(volume, abs=1e-4)
    assert np.array([wet.x, wet.y, wet.z]) * wet.volume == pytest.approx(moments, abs=1e-4 * shape.length)


# laws


def test_volume_follows_the_waterplane():
    """dV/dheight = -waterplane, at any attitude."""
    for numbers in HULLS:
        shape = parametric_hull(numbers)
        for height, *turn in [(-0.15, 0.0, 0.0), (-0.03, 0.05, 0.0), (-0.1, -0.03, 0.2), (0.004, 0.0, 0.0)]:
            step = 1e-6
            change = at(shape, height + step, *turn).volume - at(shape, height - step, *turn).volume
            assert change / (2.0 * step) == pytest.approx(-at(shape, height, *turn).waterplane, abs=1e-6)


def test_buoyancy_creates_no_energy():
    """Force and trim moment derive from one potential: dV/dtrim = d(V arm)/dheight."""
    shape = parametric_hull(NARROW)

    def arm_moment(height, trim, heel):
        w = at(shape, height, trim, heel)
        lifted = w.z * cos(heel) - w.y * sin(heel)
        return w.volume * ((w.x - 1.5) * cos(trim) - lifted * sin(trim))

    step = 1e-5
    attitudes = [(-0.12, 0.02, 0.0), (-0.05, -0.04, 0.0), (-0.15, 0.03, 0.2), (-0.02, 0.05, -0.3)]
    for height, trim, heel in attitudes:
        by_trim = at(shape, height, trim + step, heel).volume - at(shape, height, trim - step, heel).volume
        by_height = arm_moment(height + step, trim, heel) - arm_moment(height - step, trim, heel)
        assert by_trim == pytest.approx(by_height, rel=1e-5, abs=1e-9)


@pytest.mark.parametrize("numbers", HULLS)
def test_smooth_through_the_waterline(numbers):
    """Lowered from clear to afloat nothing jumps, and no slope jumps: then a step four times as fine makes
    second differences 16 times smaller, where a corner would make them 4 times smaller."""
    shape = parametric_hull(numbers)
    for trim, heel in [(0.0, 0.0), (0.05, 0.0), (0.02, 0.15)]:
        touching = 1.5 * trim + 0.5 * numbers.beam * heel
        bends = []
        for step in (1e-4, 2.5e-5):
            heights = np.arange(0.02, -0.03, -step) + touching
            rows = np.array([list(at(shape, height, trim, heel)) for height in heights])
            assert (rows[0][[0, 4, 5, 7, 8, 9]] == 0.0).all()
            bends.append(np.abs(np.diff(rows, 2, axis=0)).max(axis=0))
        for name in ("volume", "wetted_area", "wetted_length", "waterplane", "transom_area", "transom_depth"):
            place = InWater._fields.index(name)
            assert bends[1][place] < bends[0][place] / 10.0 + 1e-15, name


def test_clear_hull_feels_nothing():
    for numbers in HULLS:
        shape = parametric_hull(numbers)
        for trim, heel in [(0.0, 0.0), (0.06, 0.3), (-0.05, -0.2)]:
            low = lowest_point(plain(shape), 0.0, sin(trim), cos(trim), sin(heel), cos(heel), 1.5)
            clear = at(shape, -low + 1.001 * BLEND, trim, heel)
            assert clear.volume == clear.wetted_area == clear.wetted_length == clear.transom_depth == 0.0
            assert at(shape, -low - 0.5 * BLEND, trim, heel).volume > 0.0


def test_sides_are_mirrored_and_upright_is_the_limit():
    shape = parametric_hull(WIDE)
    port, starboard = at(shape, -0.08, 0.02, 0.2), at(shape, -0.08, 0.02, -0.2)
    assert port.volume == pytest.approx(starboard.volume, rel=1e-12)
    assert port.y == pytest.approx(-starboard.y, rel=1e-12)
    assert port.y > 0.0  # heel to leeward puts the leeward, +y side under
    assert tuple(at(shape, -0.08, 0.02, 0.0)) == pytest.approx(tuple(at(shape, -0.08, 0.02, 1e-10)), abs=1e-9)


def test_lowest_point_is_the_lowest_node():
    for numbers in HULLS:
        shape = parametric_hull(numbers)
        for trim, heel in [(0.0, 0.0), (0.07, 0.0), (-0.05, 0.3), (0.02, -0.5)]:
            body = [(x, side * y, z) for i, x in enumerate(shape.x) for side in (1.0, -1.0)
                    for y, z in zip(shape.y[i], shape.z[i], strict=True)]  # fmt: skip
            heights = [
                0.3 + (x - 1.7) * sin(trim) + cos(trim) * (z * cos(heel) - y * sin(heel)) for x, y, z in body
            ]
            found = lowest_point(plain(shape), 0.3, sin(trim), cos(trim), sin(heel), cos(heel), 1.7)
            assert found == pytest.approx(min(heights), abs=1e-12)


def test_bow_up_lowers_the_transom():
    """With 4 degrees of bow-up trim the transom hangs some 0.13 m below the keel line at the strut, less the
    rise of the bottom aft."""
    shape = plain(parametric_hull(NARROW))
    trim = radians(4.0)
    assert lowest_point(shape, 0.0, sin(trim), cos(trim), 0.0, 1.0, 1.95) == pytest.approx(
        -1.95 * sin(trim) + 0.045 * cos(trim), abs=0.01
    )


def test_compiled_equals_plain():
    shape = parametric_hull(NARROW)
    quick, quick_lowest = compiled(hull_in_water), compiled(lowest_point)
    for height, trim, heel in [(-0.15, 0.03, 0.0), (-0.1, -0.02, 0.25), (0.3, 0.02, 0.1)]:
        turned = (height, sin(trim), cos(trim), sin(heel), cos(heel), 1.9)
        slow = hull_in_water(plain(shape), *turned)
        assert tuple(quick(shape, *turned)) == pytest.approx(tuple(slow), rel=1e-13)
        assert quick_lowest(shape, *turned) == lowest_point(plain(shape), *turned)


# the smooth corner


def test_corner_functions_are_integrals_of_each_other():
    step = 1e-7
    for upper, lower in [
        (waterline.wet_depth_second_integral, waterline.wet_depth_integral),
        (waterline.wet_depth_integral, waterline.wet_depth),
        (waterline.wet_depth, waterline.wet_step),
    ]:
        for d in np.linspace(-2.0 * BLEND, 2.0 * BLEND, 41) + 1e-5:
            assert (upper(d + step) - upper(d - step)) / (2.0 * step) == pytest.approx(lower(d), abs=1e-5)
    assert waterline.wet_depth(0.0) == pytest.approx(0.1875 * BLEND)


@pytest.mark.parametrize(
    ("d0", "d1"), [(-0.02, 0.03), (0.001, -0.004), (0.002, 0.00205), (-0.003, -0.0029), (0.1, -0.1)]
)
def test_segment_means(d0, d1):
    s = (np.arange(20000) + 0.5) / 20000
    d = d0 + (d1 - d0) * s
    depth = np.array([waterline.wet_depth(v) for v in d])
    step = np.array([waterline.wet_step(v) for v in d])
    square = d * depth - np.array([waterline.wet_depth_integral(v) for v in d])
    expected = (step.mean(), depth.mean(), (s * depth).mean(), square.mean())
    assert waterline.wet_segment(d0, d1) == pytest.approx(expected, rel=1e-6, abs=1e-10)


# shapes


def test_parametric_lines():
    half, keel = hull_shape.parametric_lines(NARROW, np.array([0.0, 0.42 * 3.35, 3.35]))
    assert half == pytest.approx([0.18 * 0.55, 0.18, 0.0])
    assert keel == pytest.approx([0.045, 0.0, 0.05])
    half, keel = hull_shape.parametric_lines(WIDE, np.array([0.0, 1.525, 3.05]))
    assert half == pytest.approx([0.575 * 0.8, 0.575, 0.575 * 0.45])
    assert keel == pytest.approx([0.05, 0.0, 0.22])


@pytest.mark.parametrize(
    ("numbers", "mass", "share"), [(NARROW, 115.0, 0.001), (WIDE, 86.0, 0.004), (LONG, 237.0, 0.001)]
)
def test_seven_nodes_and_21_stations_suffice(numbers, mass, share):
    """Afloat, the coarse hull displaces what 401 x 201 nodes do, within a stated share."""
    fine, coarse = parametric_hull(numbers, 401, 201), parametric_hull(numbers)
    low, high = -0.35, 0.0
    for _ in range(40):
        height = 0.5 * (low + high)
        low, high = (height, high) if at(fine, height).volume > mass / 999.1 else (low, height)
    one, other = at(coarse, height), at(fine, height)
    assert one.volume == pytest.approx(other.volume, rel=share)
    assert one.wetted_area == pytest.approx(other.wetted_area, rel=0.005)
    assert one.x == pytest.approx(other.x, abs=0.002)


def test_offsets_are_closed_on_the_centreline():
    shape = hull_from_offsets(np.arange(4.0), np.full((4, 2), 0.3), np.tile([0.0, 0.2], (4, 1)))
    assert shape.y.shape == (4, 3)
    assert at(shape, -0.1).volume == pytest.approx(0.6 * 0.1 * 3.0, rel=1e-6)


def test_offsets_that_are_no_hull():
    x, y, z = np.arange(4.0), np.ones((4, 3)), np.zeros((4, 3))
    for bad in [(x[::-1], y, z), (x, -y, z), (x, y[:3], z), (x[:2], y[:2], z[:2]), (x, y * np.nan, z)]:
        with pytest.raises(ValueError, match=r"station|half-breadth|number"):
            hull_from_offsets(*bad)


def test_a_coarse_table_is_faired():
    """Nine stations measured, 21 made: volume within 1 % of the hull they were taken from."""
    measured = parametric_hull(LONG, stations=9)
    made = hull_shape.resampled(measured.x, measured.y, measured.z)
    assert made.x.size == 21
    true = at(parametric_hull(LONG), -0.2)
    assert at(made, -0.2).volume == pytest.approx(true.volume, rel=0.01)
    assert (made.y >= 0.0).all()
    assert made.y.max() <= measured.y.max() + 1e-12


def test_station_widths_sum_polynomials():
    x = np.linspace(0.0, 2.0, 11)
    width = hull_shape.station_widths(x)
    for power in range(3):
        assert width @ x**power == pytest.approx(2.0 ** (power + 1) / (power + 1), rel=1e-12)
    uneven = np.array([0.0, 0.3, 1.0, 2.0])
    assert hull_shape.station_widths(uneven) @ uneven == pytest.approx(2.0)


# drag and lift


def test_friction_drag():
    """1 m2 at 3 m/s over 2 m in fresh water at 15 degrees: Re 5.27e6, C_F 3.367e-3, 15.14 N."""
    reynolds = 3.0 * 2.0 / 1.1386e-6
    expected = 0.5 * 999.1 * 9.0 * 0.075 / (np.log10(reynolds) - 2.0) ** 2
    assert hull.friction_drag(3.0, 1.0, 2.0, 999.1, 1.1386e-6, 1.0) == pytest.approx(expected)
    assert hull.friction_drag(3.0, 1.0, 2.0, 999.1, 1.1386e-6, 1.12) == pytest.approx(1.12 * expected)
    assert hull.friction_drag(3.0, 0.0, 0.0, 999.1, 1.1386e-6, 1.0) == 0.0
    assert hull.friction_drag(0.0, 1.0, 2.0, 999.1, 1.1386e-6, 1.0) == 0.0


def test_transom_base_drag_fades():
    slow = hull.transom_drag(0.3 * sqrt(9.80665 * 3.35), 0.01, 3.35, 999.1, 9.80665)
    assert slow == pytest.approx(0.2 * 0.5 * 999.1 * 0.09 * 9.80665 * 3.35 * 0.01)
    assert hull.transom_drag(0.51 * sqrt(9.80665 * 3.35), 0.01, 3.35, 999.1, 9.80665) == 0.0


def test_planing_lift_by_hand():
    """b = 1 m, wetted length 2 m, 4 degrees, 10 m/s, 1000 kg/m3: 0.0120 sqrt(2) 4^1.1 = 0.07798; 3899 N."""
    lift, drag, place = hull.planing_lift(1.0, 10.0, radians(4.0), 2.0, 2.0, 1.5, 1000.0)
    assert lift == pytest.approx(3899.0, rel=2e-3)
    assert isclose(drag, lift * tan(radians(4.0)), rel_tol=2e-3)
    assert place == pytest.approx(2.0)
    assert hull.planing_lift(0.5, 10.0, radians(4.0), 2.0, 2.0, 1.5, 1000.0)[0] == pytest.approx(0.5 * lift)


def test_planing_lift_ends_smoothly():
    assert hull.planing_lift(0.0, 10.0, 0.1, 2.0, 2.0, 1.5, 1000.0) == (0.0, 0.0, 1.5)
    assert hull.planing_lift(1.0, 10.0, 0.1, 0.0, 0.0, 1.5, 1000.0)[0] == 0.0
    bow_down = hull.planing_lift(1.0, 5.0, radians(-2.0), 2.0, 2.0, 1.5, 1000.0)[0]
    level = hull.planing_lift(1.0, 5.0, radians(2.0), 2.0, 2.0, 1.5, 1000.0)[0]
    assert 0.0 <= bow_down < 0.002 * level
    shrunk = hull.planing_lift(1.0, 5.0, radians(2.0), 0.02, 2e-4, 1.5, 1000.0)[0]
    assert shrunk == pytest.approx(1e-4 * level)
