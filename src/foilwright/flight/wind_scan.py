"""Balanced states at one boat speed, nothing assumed about neighbours: where a curve may start. Kernels.

Height, leeway, rudder and reach are balanced at each trim of a grid, beginning in its middle; where
the pitching moment changes sign between two of them lies a state with everything balanced but the surplus.
"""

from math import pi

from foilwright.flight.wind_balance import HEAVE, PITCH, N, Sailing, inside, left_over
from foilwright.flight.wind_settle import FRESH, Work, settle
from foilwright.measures import Floats
from foilwright.smooth import clip

FIRST_TRIM = -7.0 * pi / 180.0  # the grid [rad]
TRIM_STEP = 1.5 * pi / 180.0
N_TRIMS = 13
FIRST_ROW = 5  # where a scan begins: half a degree bow up
SCAN_SIZE = 8  # six unknowns, pitching moment, 1 where balanced
ROUGH = 1e-4  # of the weight, on the grid
TIGHT = 1e-9
FIRST_HEIGHT, LAST_HEIGHT = -0.7, 1.1  # between which a height is looked for by halving [m]
SIDEWAYS = (3, 4, 5)  # leeway, rudder, reach ...
OF_SIDEWAYS = (1, 3, 5)  # ... by side, roll, yaw
BUT_TRIM = (1, 3, 4, 5)
BUT_PITCH = (1, 2, 3, 5)
BUT_SPEED = (1, 2, 3, 4, 5)
BUT_SURPLUS = (1, 2, 3, 4, 5)


def begin_sideways(x: Floats) -> None:
    """A middling leeway, rudder and reach to begin from."""
    x[3] = 0.04
    x[4] = 0.0
    x[5] = 0.6


def by_halving(case: Sailing, work: Work) -> float:
    """Height at the trim and speed of work.x by halving, sideways balance at each; then all: the miss."""
    x = work.x
    low = FIRST_HEIGHT
    high = LAST_HEIGHT
    begin_sideways(x)
    for _ in range(7):
        x[1] = 0.5 * (low + high)
        if settle(case, work, SIDEWAYS, OF_SIDEWAYS, 1e-3, 8, FRESH) > 1e-3:
            begin_sideways(x)
            left_over(case, x, work.r, work.items)
        if work.r[HEAVE] > 0.0:
            low = x[1]
        else:
            high = x[1]
    x[1] = 0.5 * (low + high)
    return settle(case, work, BUT_TRIM, BUT_PITCH, ROUGH, 12, FRESH)


def put_row(work: Work, i: int, ok: float) -> None:
    """Writes work.x as row i of the scan."""
    for j in range(N):
        work.scan[i, j] = work.x[j]
    work.scan[i, 2] = FIRST_TRIM + TRIM_STEP * i
    work.scan[i, 6] = work.r[PITCH]
    work.scan[i, 7] = ok


def march(case: Sailing, work: Work, start: int, sense: int) -> None:
    """Fills the scan from row `start` on, trim by trim, each from those before; stops where it is lost."""
    x = work.x
    scan = work.scan
    age = FRESH
    i = start + sense
    while 0 <= i < N_TRIMS:
        before = i - sense
        for j in range(N):
            x[j] = scan[before, j]
            if before != start:
                x[j] = 2.0 * scan[before, j] - scan[before - sense, j]
        x[2] = FIRST_TRIM + TRIM_STEP * i
        miss = settle(case, work, BUT_TRIM, BUT_PITCH, ROUGH, 12, age)
        if not miss < ROUGH or inside(x) == 0.0:
            return
        age = 0
        put_row(work, i, 1.0)
        i = i + sense


def scan_trims(case: Sailing, speed: float, known: float, work: Work) -> None:
    """Fills work.scan at a boat speed [m/s]; known: 1 where work.x is a state there to begin from."""
    x = work.x
    for i in range(N_TRIMS):
        work.scan[i, 7] = 0.0
    for k in range(3):
        start = FIRST_ROW + 3 * k
        if k == 2:
            start = FIRST_ROW - 2
        miss = 1.0
        if known > 0.0 and k == 0:
            start = int(clip((x[2] - FIRST_TRIM) / TRIM_STEP + 0.5, 0.0, N_TRIMS - 1.0))
            x[2] = FIRST_TRIM + TRIM_STEP * start
            miss = settle(case, work, BUT_TRIM, BUT_PITCH, ROUGH, 12, FRESH)
        if not miss < ROUGH or inside(x) == 0.0:
            x[0] = speed
            x[2] = FIRST_TRIM + TRIM_STEP * start
            miss = by_halving(case, work)
        if miss < ROUGH and inside(x) > 0.0:
            put_row(work, start, 1.0)
            march(case, work, start, 1)
            march(case, work, start, -1)
            return


def between_rows(case: Sailing, low: int, work: Work) -> float:
    """Puts the state between a row of the scan and the next into work.x, but for the surplus; the miss."""
    scan = work.scan
    x = work.x
    share = scan[low, 6] / (scan[low, 6] - scan[low + 1, 6] + 1e-300)
    for j in range(N):
        x[j] = scan[low, j] + share * (scan[low + 1, j] - scan[low, j])
    miss = settle(case, work, BUT_SPEED, BUT_SURPLUS, TIGHT, 14, FRESH)
    if miss < TIGHT:
        return miss
    left = scan[low, 2]
    right = scan[low + 1, 2]
    for j in range(N):
        x[j] = scan[low, j]
    for _ in range(8):
        x[2] = 0.5 * (left + right)
        if settle(case, work, BUT_TRIM, BUT_PITCH, ROUGH, 12, FRESH) > ROUGH:
            return 1.0
        if work.r[PITCH] * scan[low, 6] > 0.0:
            left = x[2]
        else:
            right = x[2]
    return settle(case, work, BUT_SPEED, BUT_SURPLUS, TIGHT, 14, FRESH)
