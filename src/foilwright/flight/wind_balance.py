"""All six balances of one boat in one wind, and how they change. Kernels.

Unknowns, in this order: boat speed, ride height, trim, leeway, rudder angle, and one roll unknown, the reach.
What is left over, in this order: surplus of thrust, side, heave, roll, pitch, yaw; forces over the weight,
moments about the centre of gravity over weight times a metre, all in level axes along the course.
"""

from math import cos, pi, sin
from typing import NamedTuple

from foilwright.axes import attitude, bow_up_moment, heeling_moment, to_earth
from foilwright.flight.boat import Boat, Tables
from foilwright.flight.elimination import eliminate
from foilwright.flight.loads import Flight, loads, sums
from foilwright.flight.state import Around, State
from foilwright.measures import Floats
from foilwright.smooth import positive_part, smooth_step
from foilwright.water.hull import lowest_point
from foilwright.water.properties import Water

UNKNOWNS = ("boat speed", "ride height", "trim", "leeway", "rudder", "reach")
SPEED, HEIGHT, TRIM, LEEWAY, RUDDER, REACH = 0, 1, 2, 3, 4, 5
LEFT_OVER = ("surplus", "side", "heave", "roll", "pitch", "yaw")
SURPLUS, SIDE, HEAVE, ROLL, PITCH, YAW = 0, 1, 2, 3, 4, 5
N = 6
SCALES = (0.5, 0.08, 0.02, 0.03, 0.03, 0.2)  # of the unknowns: what counts as one step [m/s, m, rad, -]
STEP = 1e-5  # for differences, share of the scale
HIKED_ROUNDING = 0.04  # from full hike to flattening, in reach
LEAST_REACH, GREATEST_REACH = -0.45, 1.98
HEEL_FROM, HEEL_TO = -0.05, 0.25  # ride heights between which the helm goes from one heel to the other [m]
MOST_LEEWAY = 20.0 * pi / 180.0
MOST_RUDDER = 35.0 * pi / 180.0
LEAST_TRIM, MOST_TRIM = -10.0 * pi / 180.0, 14.0 * pi / 180.0
LOWEST, HIGHEST = -1.0, 1.6  # ride heights looked at [m]


class Helm(NamedTuple):
    """The heel that the helm holds: one while the hull floats, one in flight, smoothly between them."""

    floating: float  # to leeward positive [rad]
    flying: float


class Sailing(NamedTuple):
    """One boat in one wind; everything but the six unknowns."""

    boat: Boat
    tables: Tables
    water: Water
    around: Around
    helm: Helm
    fastest: float  # boat speed up to which is looked [m/s]


def heel_at(helm: Helm, height: float) -> float:
    """The helm's heel at a ride height [m]: goes over as the hull leaves the water."""
    return helm.floating + (helm.flying - helm.floating) * smooth_step(height, HEEL_FROM, HEEL_TO)


def out_share(reach: float) -> float:
    """How far out the crew sits, share of fully hiked: the reach up to 1, then 1, rounded over 0.04."""
    return reach - positive_part(reach - 1.0, HIKED_ROUNDING)


def power_at(reach: float) -> float:
    """Power of the sail: 1 up to a reach of 1, 2 - reach beyond, never quite nothing; rounded over 0.04."""
    return positive_part(2.0 - reach, HIKED_ROUNDING) - positive_part(1.0 - reach, HIKED_ROUNDING)


def state_of(helm: Helm, x: Floats) -> State:
    """The boat as it stands and moves at some values of the unknowns."""
    return State(
        x[0], x[1], x[2], heel_at(helm, x[1]), x[3], x[4], 0.0, 0.0, 0.0, 0.0, out_share(x[5]), power_at(x[5])
    )  # fmt: skip


def loads_in_wind(case: Sailing, x: Floats, items: Floats) -> Flight:
    """The loads of a case at some values of the unknowns."""
    return loads(case.boat, case.tables, case.water, case.around, state_of(case.helm, x), 0.0, items)


def left_over(case: Sailing, x: Floats, r: Floats, items: Floats) -> None:
    """Fills r [6]: along the course, to leeward, up, heeling to leeward, bow up, bearing away."""
    flight = loads_in_wind(case, x, items)
    a = attitude(x[2], heel_at(case.helm, x[1]), x[3])
    force_x, force_y, force_z, moment_x, moment_y, moment_z = sums(items)
    along, leeward, up = to_earth(a, force_x, force_y, force_z)
    about_course, about_level, about_vertical = to_earth(a, moment_x, moment_y, moment_z)
    share = 1.0 / flight.weight
    r[0] = along * share
    r[1] = leeward * share
    r[2] = up * share
    r[3] = heeling_moment(about_course) * share
    r[4] = bow_up_moment(about_level) * share
    r[5] = about_vertical * share


def slopes_in_wind(
    case: Sailing, x: Floats, r: Floats, slopes: Floats, there: Floats, first: int, items: Floats
) -> None:
    """Fills slopes [6, 6]: change of what is left over per scaled step of each unknown from `first` on.

    Forward differences from r, which is that at x; `there` [6] is scratch.
    """
    for j in range(first, N):
        step = STEP * SCALES[j]
        kept = x[j]
        x[j] = kept + step
        left_over(case, x, there, items)
        x[j] = kept
        for i in range(N):
            slopes[i, j] = (there[i] - r[i]) / STEP


def holds_itself(slopes: Floats, a: Floats) -> float:
    """1 where side, heave and pitch push back while rudder and crew follow, else 0; a [3, 5] is scratch.

    Crew and helm keep roll and yaw in balance all the time. With them doing so, more leeway must mean more
    force to windward (no longer so when the struts stall); and with side, roll and yaw in balance lift must
    fall with height and the determinant of heave and pitch be positive. At a fold of the curve of balanced
    states one of the two goes through nothing.
    """
    for i in range(3):
        row = SIDE + 2 * i  # side, roll, yaw
        for j in range(3):
            a[i, j] = slopes[row, LEEWAY + j]
        a[i, 3] = -slopes[row, HEIGHT]
        a[i, 4] = -slopes[row, TRIM]
    followed = a[1, 1] * a[2, 2] - a[1, 2] * a[2, 1]
    if not eliminate(a, 3, 2) * followed < 0.0:
        return 0.0
    lift_h = slopes[HEAVE, HEIGHT]
    lift_t = slopes[HEAVE, TRIM]
    pitch_h = slopes[PITCH, HEIGHT]
    pitch_t = slopes[PITCH, TRIM]
    for j in range(3):
        lift_h = lift_h + slopes[HEAVE, LEEWAY + j] * a[j, 3]
        lift_t = lift_t + slopes[HEAVE, LEEWAY + j] * a[j, 4]
        pitch_h = pitch_h + slopes[PITCH, LEEWAY + j] * a[j, 3]
        pitch_t = pitch_t + slopes[PITCH, LEEWAY + j] * a[j, 4]
    if lift_h < 0.0 and lift_h * pitch_t - lift_t * pitch_h > 0.0:
        return 1.0
    return 0.0


def clear_by(case: Sailing, x: Floats) -> float:
    """Height of the hull's lowest point over the water [m]; negative where it is wet."""
    heel = heel_at(case.helm, x[1])
    return lowest_point(case.tables.hull, x[1], sin(x[2]), cos(x[2]), sin(heel), cos(heel), case.boat.main.x)


def inside(x: Floats) -> float:
    """1 where the unknowns are in the range that is looked at."""
    if x[1] < LOWEST or x[1] > HIGHEST or x[2] < LEAST_TRIM or x[2] > MOST_TRIM:
        return 0.0
    if x[3] < -MOST_LEEWAY or x[3] > MOST_LEEWAY or x[4] < -MOST_RUDDER or x[4] > MOST_RUDDER:
        return 0.0
    if x[5] < LEAST_REACH or x[5] > GREATEST_REACH:
        return 0.0
    return 1.0
