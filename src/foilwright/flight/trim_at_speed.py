"""Steady flight at a given boat speed: the ride height and trim at which heave and pitch balance.

One stable state in most cases, three near take-off. Newton's rule from one start misses states there,
because the two rows are nearly dependent far from the water or with a deep hull. So, nothing assumed:
for each trim on a grid the height from the lift (which falls as the boat rises), then the sign changes
of the pitching moment along the grid, then Newton from each.
"""

from math import fabs, pi
from typing import NamedTuple

from foilwright.axes import attitude, bow_up_moment, to_earth
from foilwright.flight.boat import Boat, Tables
from foilwright.flight.loads import Flight, loads, sums
from foilwright.flight.state import Around, steady
from foilwright.measures import Floats
from foilwright.smooth import clip
from foilwright.water.properties import Water

LEAST_TRIM = -8.0 * pi / 180.0  # the grid [rad]
TRIM_STEP = 1.5 * pi / 180.0
N_TRIMS = 14
LOWEST = -1.2  # ride heights looked at [m]
HIGHEST = 2.0
FIRST_SLOPE = -3.0  # of lift over weight, per metre of height, to begin with
SCAN_TOLERANCE = 1e-3  # of weight, on the grid
BISECTED_TOLERANCE = 1e-8  # of weight, where the slow sure way is gone
SOLVED_TOLERANCE = 1e-10  # of weight, and of weight times a metre
CLOSER_LOOKS = 5  # halvings of the grid where it may hide states
MOST_ROWS = 40  # of the scan, those of the closer looks included
MOST_STATES = 8  # five are the most that were seen
FOUND_SIZE = 4  # height, trim, stable, largest miss
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
    scan: Floats  # [MOST_ROWS, 4]: height, pitching moment, 1 where the height was found, trim
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
    force_x, force_y, force_z, moment_x, moment_y, moment_z = sums(items)
    a = attitude(trim, case.heel, 0.0)
    _, _, up = to_earth(a, force_x, force_y, force_z)
    _, level, _ = to_earth(a, moment_x, moment_y, moment_z)
    return up / flight.weight, bow_up_moment(level) / flight.weight


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


def polished(case: Case, height: float, trim: float, items: Floats) -> tuple[float, float, float, Slopes]:
    """Newton with Broyden's updates from a near state: height, trim, largest miss, slopes at the start.

    A miss above SOLVED_TOLERANCE says that it did not settle.
    """
    lift, pitch = balance(case, height, trim, items)
    first = slopes_at(case, height, trim, lift, pitch, items)
    a = first.lift_by_height
    b = first.lift_by_trim
    c = first.pitch_by_height
    d = first.pitch_by_trim
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
    miss = fabs(lift)
    if fabs(pitch) > miss:
        miss = fabs(pitch)
    return height, trim, miss, first


def keep_state(case: Case, low: int, count: int, work: Work) -> tuple[int, int]:
    """Polishes the state between a row of the scan and the next and keeps it if new.

    How many states are kept now, and 1 where the search gave up.
    """
    scan = work.scan
    high = low + 1
    span = scan[low, 1] - scan[high, 1]
    share = 0.5
    if span != 0.0:
        share = clip(scan[low, 1] / span, 0.0, 1.0)
    left = scan[low, 3]
    right = scan[high, 3]
    slip = 0.03 * (right - left)
    height, trim, miss, _ = polished(
        case,
        scan[low, 0] + share * (scan[high, 0] - scan[low, 0]),
        left + share * (right - left),
        work.items,
    )
    if miss > SOLVED_TOLERANCE or trim < left - slip or trim > right + slip:
        sharpen(case, low, work)
        sharpen(case, high, work)
        if scan[low, 1] * scan[high, 1] > 0.0:
            # The two signs were the tolerance of the scan, or the state lies just below the lower row.
            if low == 0 or scan[low - 1, 2] == 0.0 or scan[low - 1, 1] * scan[low, 1] > 0.0:
                return count, 0
            low = low - 1
        height, trim, miss = bisected(case, low, low + 1, work)
    if miss > SOLVED_TOLERANCE:
        return count, 1
    for i in range(count):
        if fabs(work.found[i, 1] - trim) < 1e-7 and fabs(work.found[i, 0] - height) < 1e-7:
            return count, 0
    if count == MOST_STATES:
        return count, 0
    lift, pitch = balance(case, height, trim, work.items)
    slopes = slopes_at(case, height, trim, lift, pitch, work.items)
    work.found[count, 0] = height
    work.found[count, 1] = trim
    work.found[count, 2] = is_stable(slopes)
    work.found[count, 3] = miss
    return count + 1, 0


def sharpen(case: Case, row: int, work: Work) -> None:
    """Height and moment of one row of the scan, to BISECTED_TOLERANCE."""
    scan = work.scan
    height, pitch, _, _ = balanced_height(
        case, scan[row, 3], scan[row, 0], FIRST_SLOPE, BISECTED_TOLERANCE, work.items
    )
    scan[row, 0] = height
    scan[row, 1] = pitch


def bisected(case: Case, low: int, high: int, work: Work) -> tuple[float, float, float]:
    """The slow sure way between two rows of the scan: halve the trim, then polish: height, trim, miss."""
    scan = work.scan
    left = scan[low, 3]
    right = scan[high, 3]
    height = scan[low, 0]
    left_pitch = scan[low, 1]
    slope = FIRST_SLOPE
    for _ in range(30):
        middle = 0.5 * (left + right)
        height, pitch, ok, slope = balanced_height(
            case, middle, height, slope, BISECTED_TOLERANCE, work.items
        )
        if ok == 0.0:
            return height, middle, 1.0
        if pitch * left_pitch > 0.0:
            left = middle
        else:
            right = middle
    height, trim, miss, _ = polished(case, height, 0.5 * (left + right), work.items)
    if fabs(trim - left) > 1e-3:
        return height, trim, 1.0
    return height, trim, miss


def scan_trims(case: Case, work: Work) -> None:
    """Fills the scan: at each trim of the grid balanced height, pitching moment, whether found, trim."""
    scan = work.scan
    guess = 0.0
    slope = FIRST_SLOPE
    for i in range(N_TRIMS):
        trim = LEAST_TRIM + TRIM_STEP * i
        if i > 1 and scan[i - 1, 2] > 0.0 and scan[i - 2, 2] > 0.0:
            guess = scan[i - 1, 0] + clip(scan[i - 1, 0] - scan[i - 2, 0], -0.1, 0.1)
        height, pitch, ok, slope = balanced_height(case, trim, guess, slope, SCAN_TOLERANCE, work.items)
        scan[i, 0] = height
        scan[i, 1] = pitch
        scan[i, 2] = ok
        scan[i, 3] = trim
        if ok > 0.0:
            guess = height


def may_hide(scan: Floats, rows: int, i: int) -> bool:
    """Whether the moment may cross nothing between rows i and i + 1 more often than the two rows show.

    From the lines through each of them and the row beyond it. Two rows of one sign may hide a pair of states
    where either line reaches the other sign inside; two rows of opposite sign where a line runs against the
    chord, or where the lines cross nothing more than 0.3 of the interval apart.
    """
    here: float = scan[i, 1]
    there: float = scan[i + 1, 1]
    step: float = scan[i + 1, 3] - scan[i, 3]
    left = there - here  # change over the interval, by the line from the left
    right = left
    if i > 0 and scan[i - 1, 2] > 0.0:
        left = (here - scan[i - 1, 1]) * step / (scan[i, 3] - scan[i - 1, 3])
    if i + 2 < rows and scan[i + 2, 2] > 0.0:
        right = (scan[i + 2, 1] - there) * step / (scan[i + 2, 3] - scan[i + 1, 3])
    if here * there > 0.0:
        pair: bool = here * (here + left) < 0.0 or here * (there - right) < 0.0
        return pair
    if left * (there - here) <= 0.0 or right * (there - here) <= 0.0:
        return True
    return fabs(1.0 - there / right + here / left) > 0.3


def put_between(case: Case, work: Work, rows: int, i: int) -> None:
    """A new row of the scan halfway between rows i and i + 1."""
    scan = work.scan
    for k in range(rows, i + 1, -1):
        for j in range(4):
            scan[k, j] = scan[k - 1, j]
    trim = 0.5 * (scan[i, 3] + scan[i + 2, 3])
    guess = 0.5 * (scan[i, 0] + scan[i + 2, 0])
    height, pitch, ok, _ = balanced_height(case, trim, guess, FIRST_SLOPE, SCAN_TOLERANCE, work.items)
    scan[i + 1, 0] = height
    scan[i + 1, 1] = pitch
    scan[i + 1, 2] = ok
    scan[i + 1, 3] = trim


def look_closer(case: Case, work: Work) -> int:
    """Halves the intervals of the scan that may hide states, then their halves: how many rows there are."""
    scan = work.scan
    rows = N_TRIMS
    widest = 1.1 * TRIM_STEP
    for _ in range(CLOSER_LOOKS):
        i = 0
        while i < rows - 1 and rows < MOST_ROWS:
            known = scan[i, 2] > 0.0 and scan[i + 1, 2] > 0.0
            if known and scan[i + 1, 3] - scan[i, 3] < widest and may_hide(scan, rows, i):
                put_between(case, work, rows, i)
                rows = rows + 1
                i = i + 1
            i = i + 1
        widest = 0.5 * widest
    return rows


def steady_states(case: Case, work: Work) -> tuple[int, int]:
    """Every steady state, into `work.found`, bow lowest first: how many, and how many searches gave up."""
    scan_trims(case, work)
    rows = look_closer(case, work)
    scan = work.scan
    count = 0
    lost = 0
    for i in range(rows - 1):
        if scan[i, 2] > 0.0 and scan[i + 1, 2] > 0.0 and scan[i, 1] * scan[i + 1, 1] <= 0.0:
            count, gave_up = keep_state(case, i, count, work)
            lost = lost + gave_up
    return count, lost
