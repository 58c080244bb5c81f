"""One boat and crew over a fixed table of winds and courses: gets up or not, and how it flies once up.

The table does not know the day's wind, so that it serves again when the wind is corrected; `shares` lays the
day's wind over it.
"""

from collections.abc import Sequence
from math import radians
from typing import NamedTuple

import numpy as np

from foilwright.flight.boat import Tables
from foilwright.flight.helm_policy import usual_helm
from foilwright.flight.many_in_wind import Found, all_in_wind
from foilwright.flight.take_off import NOTHING_ABOVE
from foilwright.flight.wind_margins import FLYING, HEEL_HELD, MARGIN_NAMES, MARGINS, NEAREST, STANDING
from foilwright.flight.wind_states import STABLE
from foilwright.measures import Bools, Floats
from foilwright.outcomes import GAVE_UP
from foilwright.setup.day_wind import DayWind, share_below
from foilwright.setup.samples import Occasion
from foilwright.water.properties import Water

WINDS = (*(3.0 + 0.5 * i for i in range(11)), 8.75, 9.75, 11.0, 12.5, 14.0)  # at 10 m [m/s]: 6 to 27 kn
COURSES = (radians(60.0), radians(90.0), radians(115.0))
COURSE_SHARES = (0.3, 0.45, 0.25)  # of the time on each; common practice, no source
LONGEST_RUN = 20.0  # a run to take-off that takes longer is none [s]
KEPT_MARGINS = ("stall", "ventilation", "foil_stop", "cavitation")

BOLDNESS = {"first-hops": 0.15, "improving": 0.45, "settled": 0.7, "expert": 1.0}
"""Share of a practised sailor's heel that is held in flight, by stage. Common practice, no source."""


class FlownInWind(NamedTuple):
    """The table. Arrays [winds, courses].

    gets_up    whether it gets flying from rest within LONGEST_RUN;  seconds  how long that takes
    flies      whether it has a stable flying state
    speed, height, heel  of that state [m/s, m, rad], nan without one
    tip, touchdown       its margins [m];  kept  whether those of KEPT_MARGINS are positive
    nearest              place of its nearest limit among MARGIN_NAMES, -1 without one
    lost       cases of which the search gave up
    """

    gets_up: Floats
    seconds: Floats
    flies: Floats
    speed: Floats
    height: Floats
    heel: Floats
    tip: Floats
    touchdown: Floats
    kept: Floats
    nearest: Floats
    lost: int


class Shares(NamedTuple):
    """The table under a day's wind: shares of the day, and the winds at its ends.

    take_off   lightest wind of the table at which it gets up [m/s], none where it never does
    most_wind  strongest wind of the table at which it flies with its margins [m/s]
    seconds    run to take-off in the likely wind, none where there is none
    speed      mean boat speed where it flies [m/s], 0 where it never does
    close      share of the day in which it flies on the closest course
    """

    flies: float
    in_band: float
    safe: float
    take_off: float | None
    most_wind: float | None
    seconds: float | None
    speed: float
    close: float
    nearest: str
    nearest_wind: float | None


def flown_in_wind(
    row: Floats,
    tables: Tables,
    water: Water,
    roughness: float,
    boldness: float,
    winds: Sequence[float] = WINDS,
) -> FlownInWind:
    """The table of one row of numbers, crew aboard; `boldness` is that of its stage."""
    cases = np.array(
        [(wind, angle, *usual_helm(wind, angle, boldness)) for wind in winds for angle in COURSES]
    )
    found = all_in_wind(
        row, tables, water, roughness, np.zeros(0, dtype=np.int64), np.zeros((len(cases), 0)), cases
    )
    shape = (len(winds), len(COURSES))
    nan = np.full(len(cases), np.nan)
    up, seconds = runs_of(found)
    speed, height, held, tip, touch = (nan.copy() for _ in range(5))
    flies, kept, nearest = np.zeros(len(cases)), np.zeros(len(cases)), np.full(len(cases), -1.0)
    margins = [MARGINS + MARGIN_NAMES.index(name) for name in KEPT_MARGINS]
    for i in range(len(cases)):
        states = found.states[i, : found.counts[i]]
        flying = [one for one in states if one[STABLE] > 0.0 and one[STANDING] == FLYING]
        if not flying:
            continue
        best = max(flying, key=lambda one: float(one[0]))
        flies[i], speed[i], height[i], held[i] = 1.0, best[0], best[1], best[HEEL_HELD]
        tip[i] = best[MARGINS + MARGIN_NAMES.index("tip_depth")]
        touch[i] = best[MARGINS + MARGIN_NAMES.index("touchdown")]
        kept[i] = float(all(best[k] > 0.0 for k in margins))
        nearest[i] = best[NEAREST]
    lost = int(np.count_nonzero(found.outcomes == GAVE_UP))
    return FlownInWind(
        gets_up=up.astype(float).reshape(shape),
        seconds=seconds.reshape(shape),
        flies=flies.reshape(shape),
        speed=speed.reshape(shape),
        height=height.reshape(shape),
        heel=held.reshape(shape),
        tip=tip.reshape(shape),
        touchdown=touch.reshape(shape),
        kept=kept.reshape(shape),
        nearest=nearest.reshape(shape),
        lost=lost,
    )


def runs_of(found: Found) -> tuple[Bools, Floats]:
    """Whether each case gets flying from rest soon enough, and how long that takes [s], nan without."""
    ways = found.ways
    up = (
        (ways[:, 4] > 0.0) & (ways[:, 5] >= 0.0) & (ways[:, 5] <= LONGEST_RUN) & (ways[:, 0] != NOTHING_ABOVE)
    )
    return up, np.where(up, ways[:, 5], np.nan)


def shares(flown: FlownInWind, wind: DayWind, low: float, high: float, least_tip: float) -> Shares:
    """The table under the day's wind; ride height wanted from low to high [m], and least depth of a tip.

    A boat counts as flying in a wind if it gets up on one of the courses; then it counts on every course on
    which it has a flying state.
    """
    winds = np.array(WINDS)
    weights = day_weights(wind)
    gets_up = flown.gets_up.max(axis=1) > 0.0
    flies = flown.flies * gets_up[:, None]
    with np.errstate(invalid="ignore"):
        in_band = flies * ((flown.height >= low) & (flown.height <= high))
        safe = flies * ((flown.tip >= least_tip) & (flown.kept > 0.0))
    courses = np.array(COURSE_SHARES)
    at = int(np.argmin(np.abs(winds - wind.likely)))
    ups, safes = np.flatnonzero(gets_up), np.flatnonzero(safe.max(axis=1) > 0.0)
    weight = weights[:, None] * courses[None, :] * flies
    total = float(weight.sum())
    speed = float(np.nansum(weight * np.nan_to_num(flown.speed)) / total) if total > 0.0 else 0.0
    runs = flown.seconds[at][np.isfinite(flown.seconds[at])]
    tightest = np.where(flies > 0.0, flown.tip, np.inf)
    tightest[weights == 0.0] = np.inf
    k = np.unravel_index(int(np.argmin(tightest)), tightest.shape)
    some = bool(np.isfinite(tightest[k]))
    return Shares(
        flies=float(weights @ gets_up),
        in_band=float(weights @ (in_band @ courses)),
        safe=float(weights @ (safe @ courses)),
        take_off=float(winds[ups[0]]) if ups.size else None,
        most_wind=float(winds[safes[-1]]) if safes.size else None,
        seconds=float(runs.min()) if runs.size else None,
        speed=speed,
        close=float(weights @ flies[:, 0]),
        nearest=MARGIN_NAMES[int(flown.nearest[k])] if some and flown.nearest[k] >= 0 else "",
        nearest_wind=float(winds[k[0]]) if some else None,
    )


def day_weights(wind: DayWind) -> Floats:
    """The share of the day that each wind of the table stands for; what is beyond its ends counts at them."""
    winds = np.array(WINDS)
    edges = 0.5 * (winds[1:] + winds[:-1])
    below = np.array([0.0, *(share_below(wind, float(edge)) for edge in edges), 1.0])
    return np.asarray(np.diff(below))


def occasions(flown: FlownInWind, wind: DayWind) -> list[Occasion]:
    """Flight as it comes on the day: every wind and course of the table in which it flies, by its share."""
    weights = day_weights(wind)
    found = []
    for i, j in zip(*np.nonzero(flown.flies), strict=True):
        weight = float(weights[i]) * COURSE_SHARES[j]
        if weight > 0.0:
            found.append(
                Occasion(WINDS[i], COURSES[j], float(flown.speed[i, j]), float(flown.heel[i, j]), weight)
            )
    return found
