"""The balance of heave and pitch at a given boat speed, its slopes, and Newton's rule from a start.

How every state is found, nothing assumed about where: `every_state`.
"""

from math import fabs, pi
from typing import NamedTuple

from foilwright.axes import Attitude, attitude, bow_up_moment, to_earth
from foilwright.flight.boat import Boat, Tables
from foilwright.flight.loads import Flight, loads, sums
from foilwright.flight.state import Around, steady
from foilwright.measures import Floats
from foilwright.smooth import clip
from foilwright.water.properties import Water

LEAST_TRIM = -8.0 * pi / 180.0  # trims looked at [rad]
GREATEST_TRIM = 11.5 * pi / 180.0
LOWEST = -1.2  # ride heights looked at [m]
HIGHEST = 2.0
FIRST_SLOPE = -3.0  # of lift over weight, per metre of height, to begin with
BISECTED_TOLERANCE = 1e-8  # of weight, where the slow sure way is gone
SOLVED_TOLERANCE = 1e-10  # of weight, and of weight times a metre
MOST_ROWS = 96  # points of the line that is searched, those of the closer looks included
LINE_SIZE = 7  # numbers a point
MOST_STATES = 8  # five are the most that were seen
FOUND_SIZE = 8  # height, trim, stable, largest miss, and from SLOPES_AT the slopes of the balance there
SLOPES_AT = 4
STEP = 1e-6  # for differences [m, rad]


class Case(NamedTuple):
    """One boat in one condition; everything but the two unknowns."""

    boat: Boat
    tables: Tables
    water: Water
    around: Around
    speed: float  # [m/s]
    heel: float  # [rad]
    pull_share: float  # of resistance


class Work(NamedTuple):
    """Scratch of one thread."""

    items: Floats  # [16, 6]
    scan: Floats  # [MOST_ROWS, LINE_SIZE]: height, trim, moment, length along the line, ...
    found: Floats  # [MOST_STATES, FOUND_SIZE]


class Slopes(NamedTuple):
    """Derivatives of the balance: per metre of height and per radian of trim."""

    lift_by_height: float
    lift_by_trim: float
    pitch_by_height: float
    pitch_by_trim: float


def loads_at(case: Case, height: float, trim: float, items: Floats) -> Flight:
    """The loads of a case at a ride height [m] and trim [rad]."""
    return loads(
        case.boat,
        case.tables,
        case.water,
        case.around,
        steady(case.speed, height, trim, case.heel),
        case.pull_share,
        items,
    )


def balance(case: Case, height: float, trim: float, items: Floats) -> tuple[float, float]:
    """What is left of heave (up, over weight) and pitch (bow up, over weight times a metre).

    The pitching moment is about the level axis across the course through the centre of gravity.
    """
    flight = loads_at(case, height, trim, items)
    return heave_and_pitch(attitude(trim, case.heel, 0.0), flight.weight, items)


def heave_and_pitch(a: Attitude, weight: float, items: Floats) -> tuple[float, float]:
    """The balance of loads that lie in `items` already, boat axes at the attitude `a`."""
    force_x, force_y, force_z, moment_x, moment_y, moment_z = sums(items)
    _, _, up = to_earth(a, force_x, force_y, force_z)
    _, level, _ = to_earth(a, moment_x, moment_y, moment_z)
    return up / weight, bow_up_moment(level) / weight


def slopes_at(case: Case, height: float, trim: float, lift: float, pitch: float, items: Floats) -> Slopes:
    """Derivatives of the balance by forward differences, from its values at the point."""
    lift_h, pitch_h = balance(case, height + STEP, trim, items)
    lift_t, pitch_t = balance(case, height, trim + STEP, items)
    return Slopes(
        (lift_h - lift) / STEP, (lift_t - lift) / STEP, (pitch_h - pitch) / STEP, (pitch_t - pitch) / STEP
    )


def is_stable(slopes: Slopes) -> float:
    """1 where heave and pitch push back: lift falls with height and the stiffness determinant is positive.

    Static only; what the motions do with it is another question.
    """
    determinant = slopes.lift_by_height * slopes.pitch_by_trim - slopes.lift_by_trim * slopes.pitch_by_height
    if slopes.lift_by_height < 0.0 and determinant > 0.0:
        return 1.0
    return 0.0


def balanced_height(
    case: Case, trim: float, guess: float, slope: float, tolerance: float, items: Floats
) -> tuple[float, float, float, float]:
    """Ride height [m] at which lift carries the weight at a trim; pitching moment, 1 if found, slope.

    Secant from a guess of height and of the slope of lift [1/m] until the root lies between two heights,
    then the Illinois form of regula falsi.
    """
    low = LOWEST
    high = HIGHEST
    low_lift = 0.0
    high_lift = 0.0
    have_low = 0.0
    have_high = 0.0
    height = guess
    lift, pitch = balance(case, height, trim, items)
    last_side = 0.0
    longest = 0.12
    for _ in range(60):
        if fabs(lift) < tolerance:
            return height, pitch, 1.0, slope
        if lift > 0.0:
            low = height
            low_lift = lift
            have_low = 1.0
            if last_side > 0.0 and have_high > 0.0:
                high_lift = 0.5 * high_lift
            last_side = 1.0
        else:
            high = height
            high_lift = lift
            have_high = 1.0
            if last_side < 0.0 and have_low > 0.0:
                low_lift = 0.5 * low_lift
            last_side = -1.0
        if (height <= LOWEST and last_side < 0.0) or (height >= HIGHEST and last_side > 0.0):
            return height, pitch, 0.0, slope
        step = clip(-lift / slope, -longest, longest)
        if have_low > 0.0 and have_high > 0.0:
            if high - low < 1e-13:
                return height, pitch, 1.0, slope
            if height + step <= low or height + step >= high:
                step = low + (high - low) * low_lift / (low_lift - high_lift) - height
        else:
            longest = 1.6 * longest
        new_height = clip(height + step, LOWEST, HIGHEST)
        new_lift, pitch = balance(case, new_height, trim, items)
        if (new_lift - lift) * (new_height - height) < 0.0:
            slope = (new_lift - lift) / (new_height - height)
        height = new_height
        lift = new_lift
    return height, pitch, 0.0, slope


def settled(
    case: Case, height: float, trim: float, lift: float, pitch: float, slopes: Slopes, items: Floats
) -> tuple[float, float, float, float]:
    """Newton with Broyden's updates from a near state, where the balance is lift and pitch and its slopes are
    about these: height, trim, and what is left of lift and pitch.
    """
    a = slopes.lift_by_height
    b = slopes.lift_by_trim
    c = slopes.pitch_by_height
    d = slopes.pitch_by_trim
    for i in range(24):
        if fabs(lift) < SOLVED_TOLERANCE and fabs(pitch) < SOLVED_TOLERANCE:
            break
        determinant = a * d - b * c
        if determinant * determinant < 1e-20:
            break
        step_h = clip(-(d * lift - b * pitch) / determinant, -0.1, 0.1)
        step_t = clip(-(a * pitch - c * lift) / determinant, -0.03, 0.03)
        height = height + step_h
        trim = trim + step_t
        new_lift, new_pitch = balance(case, height, trim, items)
        if i % 6 == 5:
            fresh = slopes_at(case, height, trim, new_lift, new_pitch, items)
            a = fresh.lift_by_height
            b = fresh.lift_by_trim
            c = fresh.pitch_by_height
            d = fresh.pitch_by_trim
        else:
            size = step_h * step_h + step_t * step_t + 1e-300
            lift_off = (new_lift - lift - a * step_h - b * step_t) / size
            pitch_off = (new_pitch - pitch - c * step_h - d * step_t) / size
            a = a + lift_off * step_h
            b = b + lift_off * step_t
            c = c + pitch_off * step_h
            d = d + pitch_off * step_t
        lift = new_lift
        pitch = new_pitch
    return height, trim, lift, pitch


def larger_of(lift: float, pitch: float) -> float:
    """The larger of two misses."""
    if fabs(pitch) > fabs(lift):
        return fabs(pitch)
    return fabs(lift)


def polished(case: Case, height: float, trim: float, items: Floats) -> tuple[float, float, float, Slopes]:
    """The state near a height and a trim: height, trim, largest miss, slopes at the start.

    A miss above SOLVED_TOLERANCE says that it did not settle.
    """
    lift, pitch = balance(case, height, trim, items)
    first = slopes_at(case, height, trim, lift, pitch, items)
    height, trim, lift, pitch = settled(case, height, trim, lift, pitch, first, items)
    return height, trim, larger_of(lift, pitch), first
