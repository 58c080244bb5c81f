"""Every steady state at a boat speed: the line along which lift carries the weight, and where on it the
pitching moment is nothing.

One stable state in most cases, three near take-off. Newton's rule from one start misses states there,
because the two balances are nearly dependent far from the water or with a deep hull. So, nothing assumed:
the line is followed through all heights and trims (`lift_line.py`), looked at more closely where it may hide
states, and every change of sign of the moment along it is polished.
"""

from math import cos, fabs, sin, sqrt

from foilwright.flight.lift_line import (
    ARRIVED,
    EXACT,
    FARTHEST_ASIDE,
    HEIGHT_UNIT,
    LINE_TOLERANCE,
    LOST,
    LOW_START,
    NOT_FOUND,
    TRIM_UNIT,
    follow,
    on_circle,
    put_point,
    sharpen,
)
from foilwright.flight.trim_at_speed import (
    FIRST_SLOPE,
    FOUND_SIZE,
    GREATEST_TRIM,
    LEAST_TRIM,
    LINE_SIZE,
    MOST_ROWS,
    MOST_STATES,
    SLOPES_AT,
    SOLVED_TOLERANCE,
    Case,
    Slopes,
    Work,
    balance,
    balanced_height,
    is_stable,
    larger_of,
    polished,
    settled,
    slopes_at,
)
from foilwright.measures import Floats
from foilwright.outcomes import GAVE_UP, NO_BALANCE, SOLVED
from foilwright.smooth import clip

START_TOLERANCE = 0.02  # of weight, far from where the moment is nothing
CLOSER_LOOKS = 5  # halvings of a piece of the line that may hide states
CROSSED = 0.2  # of the interval
LONGEST_CROSSING = 0.5  # of two points of opposite sign [units]
DIP_LOOKS = 6  # at the moment's extremum, where it all but reaches nothing
CLOSEST = 1e-3  # of those, apart [units]
REACH = 0.5  # from a known state, that polishing is trusted over [units]
CLOSE = 1e-5  # where halving ends [units]
HALVINGS = 40  # where polishing fails


def put_between(case: Case, work: Work, rows: int, i: int, share: float, tolerance: float) -> int:
    """A new point of the line between points i and i + 1: 1 where it was found."""
    scan = work.scan
    across = (scan[i + 1, 0] - scan[i, 0]) / HEIGHT_UNIT
    over = (scan[i + 1, 1] - scan[i, 1]) / TRIM_UNIT
    chord = sqrt(across * across + over * over) + 1e-300
    across = across / chord
    over = over / chord
    angle, pitch, by_side, turn, ok = on_circle(
        case, scan[i, 0], scan[i, 1], across, over, share * chord, scan[i + 1, 4], scan[i + 1, 5],
        tolerance, work.items,
    )  # fmt: skip
    if ok == 0.0 or fabs(angle) > FARTHEST_ASIDE:
        return 0
    for k in range(rows, i + 1, -1):
        for j in range(LINE_SIZE):
            scan[k, j] = scan[k - 1, j]
    along = scan[i, 3] + share * (scan[i + 2, 3] - scan[i, 3])
    length = share * chord
    cosine = cos(angle)
    sine = sin(angle)
    put_point(
        scan,
        i + 1,
        scan[i, 0] + length * (cosine * across - sine * over) * HEIGHT_UNIT,
        scan[i, 1] + length * (cosine * over + sine * across) * TRIM_UNIT,
        pitch,
        along,
        by_side,
        turn,
    )
    return 1


def may_hide(scan: Floats, rows: int, i: int) -> bool:
    """Whether the moment may cross nothing between points i and i + 1 more often than the two show.

    From the lines through each of them and the point beyond it. Two points of one sign may hide a pair of
    states where either line reaches the other sign inside; two of opposite sign where a line runs against the
    chord, where the lines cross nothing more than CROSSED of the interval apart, or where they are far apart.
    """
    here: float = scan[i, 2]
    there: float = scan[i + 1, 2]
    step: float = scan[i + 1, 3] - scan[i, 3]
    left = there - here  # change over the interval, by the line from the left
    right = left
    if i > 0:
        left = (here - scan[i - 1, 2]) * step / (scan[i, 3] - scan[i - 1, 3])
    if i + 2 < rows:
        right = (scan[i + 2, 2] - there) * step / (scan[i + 2, 3] - scan[i + 1, 3])
    if here * there > 0.0:
        pair: bool = here * (here + left) < 0.0 or here * (there - right) < 0.0
        return pair
    if step > LONGEST_CROSSING or left * (there - here) <= 0.0 or right * (there - here) <= 0.0:
        return True
    return fabs(1.0 - there / right + here / left) > CROSSED


def look_closer(case: Case, work: Work, rows: int) -> int:
    """Halves the pieces of the line that may hide states, and their halves: how many points there are."""
    scan = work.scan
    for k in range(MOST_ROWS):
        scan[k, 6] = 0.0
    i = 0
    while i < rows - 1 and rows < MOST_ROWS:
        if scan[i, 6] < CLOSER_LOOKS and may_hide(scan, rows, i):
            looks = scan[i, 6] + 1.0
            if put_between(case, work, rows, i, 0.5, LINE_TOLERANCE) == 1:
                rows = rows + 1
                scan[i, 6] = looks
                scan[i + 1, 6] = looks
                continue
        i = i + 1
    return rows


def dip(scan: Floats, i: int) -> tuple[float, float]:
    """Place along the line and value of the extremum of the parabola through points i - 1, i, i + 1."""
    before = scan[i, 3] - scan[i - 1, 3]
    after = scan[i + 1, 3] - scan[i, 3]
    from_before = (scan[i, 2] - scan[i - 1, 2]) / before
    to_after = (scan[i + 1, 2] - scan[i, 2]) / after
    bend = (to_after - from_before) / (before + after)
    slope = (from_before * after + to_after * before) / (before + after)
    if bend * bend < 1e-24:
        return scan[i, 3], scan[i, 2]
    place = clip(-0.5 * slope / bend, -0.9 * before, 0.9 * after)
    return scan[i, 3] + place, scan[i, 2] + slope * place + bend * place * place


def look_into_dips(case: Case, work: Work, rows: int) -> int:
    """Looks at the moment's extrema that may reach the other sign: how many points there are."""
    scan = work.scan
    i = 1
    looks = 0
    while i < rows - 1 and rows < MOST_ROWS:
        here = scan[i, 2]
        before = scan[i - 1, 2]
        after = scan[i + 1, 2]
        lowest = here * before > 0.0 and here * after > 0.0
        lowest = lowest and fabs(here) <= fabs(before) and fabs(here) <= fabs(after)
        if lowest and looks < DIP_LOOKS:
            place, least = dip(scan, i)
            near = fabs(place - scan[i, 3])
            if least * here < 0.5 * here * here and near > CLOSEST:
                at = i
                if place < scan[i, 3]:
                    at = i - 1
                share = (place - scan[at, 3]) / (scan[at + 1, 3] - scan[at, 3])
                if put_between(case, work, rows, at, share, 0.1 * LINE_TOLERANCE) == 1:
                    rows = rows + 1
                    looks = looks + 1
                    # The lowest of the new point and the old one is looked at again.
                    new_is_lower = fabs(scan[at + 1, 2]) < fabs(here)
                    if new_is_lower == (at == i):
                        i = i + 1
                    continue
        looks = 0
        i = i + 1
    return rows


def is_between(scan: Floats, low: int, height: float, trim: float) -> bool:
    """Whether a state belongs to the piece of the line between point `low` and the next."""
    across = (scan[low + 1, 0] - scan[low, 0]) / HEIGHT_UNIT
    over = (scan[low + 1, 1] - scan[low, 1]) / TRIM_UNIT
    x = (height - scan[low, 0]) / HEIGHT_UNIT
    y = (trim - scan[low, 1]) / TRIM_UNIT
    square = across * across + over * over
    share = (x * across + y * over) / (square + 1e-300)
    aside = fabs(y * across - x * over)
    inside: bool = -0.03 < share < 1.03 and aside < 0.7 * square + 1e-6
    return inside


def slopes_between(scan: Floats, low: int) -> Slopes:
    """The balance's slopes as the line knows them: along the piece after point `low`, and square to it."""
    across = (scan[low + 1, 0] - scan[low, 0]) / HEIGHT_UNIT
    over = (scan[low + 1, 1] - scan[low, 1]) / TRIM_UNIT
    chord = sqrt(across * across + over * over) + 1e-300
    across = across / chord
    over = over / chord
    along = (scan[low + 1, 2] - scan[low, 2]) / chord
    by_side = scan[low + 1, 4]
    turn = scan[low + 1, 5]
    return Slopes(
        -by_side * over / HEIGHT_UNIT,
        by_side * across / TRIM_UNIT,
        (along * across - turn * over) / HEIGHT_UNIT,
        (along * over + turn * across) / TRIM_UNIT,
    )


def keep_state(case: Case, low: int, count: int, work: Work) -> tuple[int, int]:
    """Polishes the state between a point of the line and the next and keeps it if new.

    How many states are kept now, and 1 where the search gave up.
    """
    scan = work.scan
    span = scan[low, 2] - scan[low + 1, 2]
    share = 0.5
    if span != 0.0:
        share = clip(scan[low, 2] / span, 0.0, 1.0)
    height = scan[low, 0] + share * (scan[low + 1, 0] - scan[low, 0])
    trim = scan[low, 1] + share * (scan[low + 1, 1] - scan[low, 1])
    lift, pitch = balance(case, height, trim, work.items)
    height, trim, lift, pitch = settled(
        case, height, trim, lift, pitch, slopes_between(scan, low), work.items
    )
    if larger_of(lift, pitch) > SOLVED_TOLERANCE or not is_between(scan, low, height, trim):
        sharpen(case, low, low + 1, work)
        sharpen(case, low + 1, low, work)
        if scan[low, 2] * scan[low + 1, 2] > 0.0:
            # The two signs were the tolerance of the line, or the state lies just before the first point.
            if low == 0 or scan[low - 1, 2] * scan[low, 2] > 0.0:
                return count, 0
            low = low - 1
        height, trim, lift, pitch = halved(case, low, work)
    if larger_of(lift, pitch) > SOLVED_TOLERANCE:
        return count, 1
    for i in range(count):
        if fabs(work.found[i, 1] - trim) < 1e-7 and fabs(work.found[i, 0] - height) < 1e-7:
            return count, 0
    if count == MOST_STATES:
        return count, 0
    slopes = slopes_at(case, height, trim, lift, pitch, work.items)
    at = count
    while at > 0 and work.found[at - 1, 1] > trim:
        for j in range(FOUND_SIZE):
            work.found[at, j] = work.found[at - 1, j]
        at = at - 1
    work.found[at, 0] = height
    work.found[at, 1] = trim
    work.found[at, 2] = is_stable(slopes)
    work.found[at, 3] = larger_of(lift, pitch)
    work.found[at, SLOPES_AT] = slopes.lift_by_height
    work.found[at, SLOPES_AT + 1] = slopes.lift_by_trim
    work.found[at, SLOPES_AT + 2] = slopes.pitch_by_height
    work.found[at, SLOPES_AT + 3] = slopes.pitch_by_trim
    return count + 1, 0


def halved(case: Case, low: int, work: Work) -> tuple[float, float, float, float]:
    """The slow sure way between two points of the line: halve the piece, then polish.

    Height, trim, and what is left of lift and pitch.
    """
    scan = work.scan
    left_x = scan[low, 0]
    left_y = scan[low, 1]
    left_pitch = scan[low, 2]
    right_x = scan[low + 1, 0]
    right_y = scan[low + 1, 1]
    by_side = scan[low + 1, 4]
    turn = scan[low + 1, 5]
    for _ in range(HALVINGS):
        across = (right_x - left_x) / HEIGHT_UNIT
        over = (right_y - left_y) / TRIM_UNIT
        chord = sqrt(across * across + over * over)
        if chord < CLOSE:
            break
        across = across / chord
        over = over / chord
        half = 0.5 * chord
        angle, pitch, by_side, turn, ok = on_circle(
            case, left_x, left_y, across, over, half, by_side, turn, EXACT, work.items
        )
        cosine = cos(angle)
        sine = sin(angle)
        height = left_x + half * (cosine * across - sine * over) * HEIGHT_UNIT
        trim = left_y + half * (cosine * over + sine * across) * TRIM_UNIT
        if ok == 0.0:
            return height, trim, 1.0, 1.0
        if pitch * left_pitch > 0.0:
            left_x = height
            left_y = trim
        else:
            right_x = height
            right_y = trim
    height = 0.5 * (left_x + right_x)
    trim = 0.5 * (left_y + right_y)
    lift, pitch = balance(case, height, trim, work.items)
    slopes = slopes_at(case, height, trim, lift, pitch, work.items)
    height, trim, lift, pitch = settled(case, height, trim, lift, pitch, slopes, work.items)
    if fabs(trim - left_y) > 1e-3 or fabs(height - left_x) > 0.01:
        return height, trim, 1.0, 1.0
    return height, trim, lift, pitch


def along_line(case: Case, side: float, count: int, work: Work) -> tuple[int, int, int, float]:
    """The states along the line, followed from the bow lowest (side 1) or highest (side -1).

    How many states are kept now, how many searches between two points gave up, how the line ended, and the
    moment there.
    """
    trim = LEAST_TRIM
    guess = LOW_START
    if side < 0.0:
        trim = GREATEST_TRIM
        guess = 0.0
    height, pitch, ok, slope = balanced_height(case, trim, guess, FIRST_SLOPE, START_TOLERANCE, work.items)
    if ok == 0.0:
        return count, 0, NOT_FOUND, 0.0
    scan = work.scan
    put_point(scan, 0, height, trim, pitch, 0.0, -side * slope * HEIGHT_UNIT, 0.0)
    rows, ending = follow(case, side, work)
    last_pitch: float = scan[rows - 1, 2]
    rows = look_closer(case, work, rows)
    rows = look_into_dips(case, work, rows)
    lost = 0
    for i in range(rows - 1):
        if scan[i, 2] * scan[i + 1, 2] <= 0.0:
            count, gave_up = keep_state(case, i, count, work)
            lost = lost + gave_up
    return count, lost, ending, last_pitch


def steady_states(case: Case, work: Work) -> tuple[int, int]:
    """Every steady state, into `work.found`, bow lowest first: how many, and how many searches gave up.

    A line that does not arrive at the bow highest is followed from there too. Where both ways are lost the
    search gives up if the moment changes its sign in the gap between them.
    """
    count, lost, ending, pitch = along_line(case, 1.0, 0, work)
    if ending != ARRIVED:
        count, more, other_ending, other_pitch = along_line(case, -1.0, count, work)
        lost = lost + more
        one_lost = ending == LOST or other_ending == LOST
        if one_lost and ending >= LOST and other_ending >= LOST and pitch * other_pitch <= 0.0:
            lost = lost + 1
    return count, lost


def near_state(
    case: Case, height: float, trim: float, slopes: Slopes, work: Work
) -> tuple[float, float, float, int]:
    """The state near a known one: height, trim, largest miss, outcome.

    `slopes` are those of the balance at the known state, which save two looks; with all of them nothing they
    are taken afresh. Where polishing does not settle within REACH, the known state may be gone: then every
    state is looked for and the nearest is taken.
    """
    if slopes.lift_by_height == 0.0 and slopes.pitch_by_trim == 0.0:
        new_height, new_trim, miss, _ = polished(case, height, trim, work.items)
    else:
        lift, pitch = balance(case, height, trim, work.items)
        new_height, new_trim, lift, pitch = settled(case, height, trim, lift, pitch, slopes, work.items)
        miss = larger_of(lift, pitch)
    if miss < SOLVED_TOLERANCE and apart(new_height - height, new_trim - trim) < REACH:
        return new_height, new_trim, miss, SOLVED
    count, lost = steady_states(case, work)
    if count == 0:
        if lost > 0:
            return height, trim, 1.0, GAVE_UP
        return height, trim, 1.0, NO_BALANCE
    found = work.found
    nearest = 0
    for i in range(1, count):
        if apart(found[i, 0] - height, found[i, 1] - trim) < apart(
            found[nearest, 0] - height, found[nearest, 1] - trim
        ):
            nearest = i
    return found[nearest, 0], found[nearest, 1], found[nearest, 3], SOLVED


def apart(height: float, trim: float) -> float:
    """Distance [units] of a difference of height [m] and trim [rad]."""
    x = height / HEIGHT_UNIT
    y = trim / TRIM_UNIT
    return sqrt(x * x + y * y)
