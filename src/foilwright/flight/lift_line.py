"""The line along which lift carries the weight, followed through ride height and trim.

At one trim there may be several heights that carry the weight (a foil at the surface, a wand that leaves it),
and at one height several trims. Followed by its length the line is one line, folds and all: each step goes
on from the last point in the direction of the last piece, then square to that until lift is right. Lengths
are counted in units of HEIGHT_UNIT and TRIM_UNIT together.
"""

from math import cos, fabs, pi, sin, sqrt

from foilwright.flight.trim_at_speed import (
    GREATEST_TRIM,
    HIGHEST,
    LEAST_TRIM,
    LOWEST,
    MOST_ROWS,
    Case,
    Work,
    balance,
)
from foilwright.measures import Floats
from foilwright.smooth import clip, sign_of

HEIGHT_UNIT = 0.15  # [m]
TRIM_UNIT = 1.5 * pi / 180.0  # [rad]
FIRST_LENGTH = 0.7  # of a step [units]
LONGEST = 3.0
USUAL = 0.8  # longest step where the moment is near nothing
SHORTEST = 0.01
SHARE_OF_WAY = 0.6  # of the way to where the moment would be nothing, for longer steps than the usual
STRAIGHT = 0.1  # angle off the expected one below which the next step may be longer [rad]
BENT = 0.3  # the same, above which it is to be shorter
FAR_ENOUGH = 0.5  # share of the moment, as a length, that steps need not be shorter than
CORNER = 0.5  # turn of a step which may have cut off a piece of the line [rad]
CORNER_LENGTH = 0.06  # no matter for shorter steps
SURPRISE = 0.8  # change of moment, as a share of it, that a long step must not show
FASTER = 1.5  # times the change of moment per unit on the step before, the same
STEEPEST = 0.6  # change of moment per unit that is reckoned with in what was cut off
WIDE = 0.8  # greatest change of angle while the line is on one side [rad]
WIDEST = 2.8  # angle up to which the line is looked for
LINE_TOLERANCE = 0.002  # [units]; what is left is taken out to first order
FAR_OFF = 40.0  # times looser where the moment is weight times a metre or more
UNTRIED = 8.0  # times tighter as long as the changes square to the line are those of another place
FIRST_ACROSS = 0.6  # direction to begin with, where trim rises
FIRST_OVER = 0.8
OUTSIDE = 4.0 * pi / 180.0  # how far beyond the trims the line is followed, for it may come back [rad]
LOW_START = -0.3  # first height tried [m]
FARTHEST_ASIDE = 1.2  # of a point between two others, off their chord as seen from one of them [rad]
EXACT = 1e-7  # tolerance where nothing is to be left [units]
ARRIVED, LEFT, LOST, NOT_FOUND = 0, 1, 2, 3  # how following the line ends


def put_point(
    scan: Floats,
    row: int,
    height: float,
    trim: float,
    pitch: float,
    along: float,
    by_side: float,
    turn: float,
) -> None:
    """Writes one point of the line."""
    scan[row, 0] = height
    scan[row, 1] = trim
    scan[row, 2] = pitch
    scan[row, 3] = along
    scan[row, 4] = by_side
    scan[row, 5] = turn


def on_circle(
    case: Case,
    height: float,
    trim: float,
    across: float,
    over: float,
    radius: float,
    by_side: float,
    turn: float,
    tolerance: float,
    items: Floats,
) -> tuple[float, float, float, float, float]:
    """Where the line leaves a circle around a point of it: angle from the direction (across, over) [rad].

    by_side, turn  change of lift and of moment per unit to the left of that direction, to begin with. The
    sign of by_side says on which side of the line lift is: a crossing with the other sign is where the line
    came from, or another piece of it on its way back.

    tolerance      distance that may be left to first order [units], more where the moment is far from nothing

    Angle, moment there, the two changes as found, and 1 where lift was reached. Secant rule, kept between
    the nearest angles of either sign; what is left at last is taken out to first order.
    """
    side = sign_of(by_side)
    low = -WIDEST
    high = WIDEST
    low_lift = 0.0
    high_lift = 0.0
    angle = 0.0
    lift, pitch = balance(
        case, height + radius * across * HEIGHT_UNIT, trim + radius * over * TRIM_UNIT, items
    )
    looser = 1.0 / UNTRIED  # by_side and turn are those of another place
    for _ in range(16):
        lift_there = lift * side
        if lift_there > 0.0:
            high = angle
            high_lift = lift_there
        else:
            low = angle
            low_lift = lift_there
        step = -lift / (by_side * radius)
        off = fabs(step) * radius
        if off < looser * tolerance * (1.0 + clip(fabs(pitch), 0.0, 1.0) * FAR_OFF) and off < 0.2 * radius:
            return angle + step, pitch + turn * radius * step, by_side, turn, 1.0
        if low_lift < 0.0 and high_lift > 0.0:
            if high - low < 1e-9:
                return angle, pitch, by_side, turn, 1.0
            if angle + step <= low or angle + step >= high:
                share = clip(low_lift / (low_lift - high_lift), 0.1, 0.9)
                step = low + (high - low) * share - angle
        else:
            step = clip(step, -WIDE, WIDE)
            if angle + step <= low or angle + step >= high:
                return angle, pitch, by_side, turn, 0.0
        angle = angle + step
        cosine = cos(angle)
        sine = sin(angle)
        new_lift, new_pitch = balance(
            case,
            height + radius * (cosine * across - sine * over) * HEIGHT_UNIT,
            trim + radius * (cosine * over + sine * across) * TRIM_UNIT,
            items,
        )
        new_by_side = (new_lift - lift) / (radius * step)
        if new_by_side * side > 1e-3:
            by_side = new_by_side
            turn = (new_pitch - pitch) / (radius * step)
            looser = 1.0
        lift = new_lift
        pitch = new_pitch
    return angle, pitch, by_side, turn, 0.0


def sharpen(case: Case, row: int, to: int, work: Work) -> None:
    """Puts point `row` of the line exactly onto it, as seen from its neighbour `to`."""
    scan = work.scan
    across = (scan[row, 0] - scan[to, 0]) / HEIGHT_UNIT
    over = (scan[row, 1] - scan[to, 1]) / TRIM_UNIT
    chord = sqrt(across * across + over * over) + 1e-300
    across = across / chord
    over = over / chord
    side = 1.0  # looking back, left is right
    if row < to:
        side = -1.0
    angle, pitch, by_side, turn, ok = on_circle(
        case, scan[to, 0], scan[to, 1], across, over, chord, side * scan[row, 4], side * scan[row, 5],
        EXACT, work.items,
    )  # fmt: skip
    if ok == 0.0 or fabs(angle) > FARTHEST_ASIDE:
        return
    cosine = cos(angle)
    sine = sin(angle)
    scan[row, 0] = scan[to, 0] + chord * (cosine * across - sine * over) * HEIGHT_UNIT
    scan[row, 1] = scan[to, 1] + chord * (cosine * over + sine * across) * TRIM_UNIT
    scan[row, 2] = pitch
    scan[row, 4] = side * by_side
    scan[row, 5] = side * turn


def next_length(scan: Floats, row: int, length: float, turned: float) -> float:
    """Length of the next step, from how much the line turned and how far off the moment is nothing."""
    if turned < STRAIGHT:
        length = 1.7 * length
    elif turned > BENT:
        length = 0.6 * length
    last = scan[row, 3] - scan[row - 1, 3]
    change = fabs(scan[row, 2] - scan[row - 1, 2]) / last
    way = SHARE_OF_WAY * fabs(scan[row, 2]) / (change + 1e-9)
    least = clip(FAR_ENOUGH * fabs(scan[row, 2]), SHORTEST, USUAL)
    return clip(length, least, clip(way, USUAL, LONGEST))


def may_skip(before: float, after: float, length: float, turned: float, usual: float) -> bool:
    """Whether a step may have cut off a piece with a state, by how it turned and the moments at its ends.

    A long step was allowed because the moment was far from nothing; if it changed by most of that, the step
    may have gone across from one piece of the line to another. So may any step over nothing on which the
    moment changes much faster than before (`usual`, per unit): the line doubles back where a foil breaches.
    """
    if length > USUAL and fabs(after - before) > SURPRISE * fabs(before):
        return True
    faster = fabs(after - before) > FASTER * usual * length
    if faster and before * after <= 0.0 and length > 2.0 * SHORTEST:
        return True
    least = fabs(before)
    if fabs(after) < least:
        least = fabs(after)
    if before * after <= 0.0:
        least = 0.0
    return turned > CORNER and length > CORNER_LENGTH and least < STEEPEST * length * turned


def follow(case: Case, side: float, work: Work) -> tuple[int, int]:
    """Follows the line from its first point, towards the bow highest (side 1) or lowest (side -1).

    How many points there are, and how it ended: arrived at the other end, left what is looked at elsewhere,
    or lost.
    """
    scan = work.scan
    row = 0
    usual = 10.0  # change of moment per unit on the last piece
    across = side * FIRST_ACROSS  # of the last piece
    over = side * FIRST_OVER
    turned = 0.0  # from the piece before to the last one [rad]
    last = 0.0  # length of the last piece
    before = FIRST_LENGTH  # of the piece before
    length = FIRST_LENGTH
    while row < MOST_ROWS - 1:
        # Three points on a parabola: the turn goes on in proportion to the lengths. Not so a corner.
        ahead = 0.0
        if fabs(turned) < CORNER:
            ahead = clip(turned * (last + length) / (last + before), -CORNER, CORNER)
        cosine = cos(ahead)
        sine = sin(ahead)
        there = cosine * across - sine * over
        aloft = cosine * over + sine * across
        angle, pitch, by_side, turn, ok = on_circle(
            case, scan[row, 0], scan[row, 1], there, aloft, length, scan[row, 4], scan[row, 5],
            LINE_TOLERANCE, work.items,
        )  # fmt: skip
        if ok == 0.0 or may_skip(scan[row, 2], pitch, length, fabs(angle + ahead), usual):
            if length <= SHORTEST:
                return row + 1, LOST
            if ok == 0.0 and row > 0:
                sharpen(case, row, row - 1, work)
            length = clip(0.4 * length, SHORTEST, LONGEST)
            continue
        cosine = cos(angle)
        sine = sin(angle)
        across = cosine * there - sine * aloft
        over = cosine * aloft + sine * there
        turned = angle + ahead
        before = last
        last = length
        row = row + 1
        put_point(
            scan,
            row,
            scan[row - 1, 0] + length * across * HEIGHT_UNIT,
            scan[row - 1, 1] + length * over * TRIM_UNIT,
            pitch,
            scan[row - 1, 3] + length,
            by_side,
            turn,
        )
        usual = fabs(pitch - scan[row - 1, 2]) / length
        height = scan[row, 0]
        trim = scan[row, 1]
        if (side > 0.0 and trim > GREATEST_TRIM) or (side < 0.0 and trim < LEAST_TRIM):
            return row + 1, ARRIVED
        if (
            height < LOWEST
            or height > HIGHEST
            or trim < LEAST_TRIM - OUTSIDE
            or trim > GREATEST_TRIM + OUTSIDE
        ):
            return row + 1, LEFT
        length = next_length(scan, row, length, fabs(angle))
    return row + 1, LOST
