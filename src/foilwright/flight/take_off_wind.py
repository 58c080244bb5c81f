"""How much wind a boat needs, by true wind angle: to get flying from rest, and to keep flying once up.

Winds are tried from the lightest upwards, since more wind is not always better; between the last that does
not do and the first that does the answer is pinned down by halving.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

import numpy as np

from foilwright.compiled import plain
from foilwright.flight.boat import Tables
from foilwright.flight.helm_policy import usual_helm
from foilwright.flight.many_in_wind import all_in_wind, scratch_in_wind
from foilwright.flight.sailing_in_wind import sailing_case
from foilwright.flight.take_off import WayUp, way_up
from foilwright.flight.wind_balance import Helm
from foilwright.flight.wind_states import find_curves
from foilwright.measures import Floats
from foilwright.water.properties import Water

LIGHTEST, STRONGEST, WIND_STEP = 2.0, 12.0, 0.5  # winds tried [m/s]
CLOSE_ENOUGH = 0.03  # to which an answer is pinned down [m/s]
ROUNDS = 8
A_KNOT = 1852.0 / 3600.0  # [m/s]
FASTEST = 8.0  # boat speed up to which is looked; a boat that takes off has done so below [m/s]
SEEDS = (3.5, 5.0)  # boat speeds at which curves are looked for [m/s]

HelmPolicy = Callable[[float, float], Helm]
"""The heel held in a wind [m/s] at a true wind angle [rad]."""


class WindNeeded(NamedTuple):
    """At one true wind angle [rad]; SI; None where no wind that was tried does."""

    angle: float
    take_off_wind: float | None
    keeps_flying_wind: float | None
    take_off_speed: float | None  # boat speed where the hull comes clear, in the take-off wind
    seconds: float | None  # from rest until then, in a wind a knot stronger


class Runner(NamedTuple):
    """A boat ready to be tried in winds; `fast` uses the compiled kernel."""

    row: Floats
    tables: Tables
    water: Water
    roughness: float
    helm: HelmPolicy
    fast: bool


def ways_in(runner: Runner, tries: Sequence[tuple[float, float]]) -> list[WayUp]:
    """The way up from rest in each (wind [m/s], angle [rad])."""
    helms = [runner.helm(wind, angle) for wind, angle in tries]
    if runner.fast:
        winds = np.array(
            [
                (wind, angle, helm.floating, helm.flying)
                for (wind, angle), helm in zip(tries, helms, strict=True)
            ]
        ).reshape(-1, 4)
        found = all_in_wind(
            runner.row, runner.tables, runner.water, runner.roughness, np.zeros(0, dtype=np.int64),
            np.zeros((len(tries), 0)), winds, np.array(SEEDS), None, FASTEST,
        )  # fmt: skip
        return [WayUp(int(way[0]), *(float(number) for number in way[1:])) for way in found.ways]
    work = plain(scratch_in_wind())
    ways = []
    for (wind, angle), helm in zip(tries, helms, strict=True):
        case = sailing_case(
            runner.row, runner.tables, runner.water, wind, angle, helm, runner.roughness, FASTEST
        )
        ways.append(way_up(case, work, find_curves(case, plain(np.array(SEEDS)), work)))
    return ways


def takes_off(way: WayUp) -> bool:
    """Whether the boat gets from rest into flight and goes on flying."""
    return way.take_off > 0.0 and way.flying > 0.0


def keeps_flying(way: WayUp) -> bool:
    """Whether there is a state in flight that holds itself with thrust to spare, and so a steady one."""
    return way.flying_surplus >= 0.0


def winds_needed(runner: Runner, angles: Sequence[float]) -> list[WindNeeded]:
    """Take-off wind and lightest wind that keeps the boat flying, at each true wind angle [rad].

    What takes off can fly, so a take-off is looked for from the lightest wind that keeps the boat flying.
    """
    keep = least_winds(runner, angles, dict.fromkeys(angles, LIGHTEST), keeps_flying, spare_aloft)
    starts = {angle: wind for angle, wind in zip(angles, keep, strict=True) if wind is not None}
    up = least_winds(runner, angles, starts, takes_off, None)
    known = [(wind, angle) for wind, angle in zip(up, angles, strict=True) if wind is not None]
    at_once = iter(ways_in(runner, known))
    a_knot_more = iter(ways_in(runner, [(wind + A_KNOT, angle) for wind, angle in known]))
    needed = []
    for angle, wind, kept in zip(angles, up, keep, strict=True):
        speed = seconds = None
        if wind is not None:
            speed = next(at_once).take_off
            later = next(a_knot_more)
            seconds = later.seconds if takes_off(later) else None
        needed.append(WindNeeded(angle, wind, kept, speed, seconds))
    return needed


def least_winds(
    runner: Runner,
    angles: Sequence[float],
    starts: Mapping[float, float],
    does: Callable[[WayUp], bool],
    measure: Callable[[WayUp], float] | None,
) -> list[float | None]:
    """The least wind [m/s] at each angle in which the way up does, all angles side by side.

    Looked for upwards from `starts`, angles without a start left out; then pinned down by halving, or by the
    straight line through a `measure` that is negative below and positive above.
    """
    high: dict[float, tuple[float, float]] = {}
    low: dict[float, tuple[float, float]] = {}
    waiting = {angle: starts[angle] for angle in angles if angle in starts}
    while waiting:
        tries = [(wind, angle) for angle, wind in waiting.items()]
        for (wind, angle), way in zip(tries, ways_in(runner, tries), strict=True):
            here = (wind, measure(way) if measure else 0.0)
            if does(way):
                high[angle] = here
                low.setdefault(angle, here)
                del waiting[angle]
            else:
                low[angle] = here
                waiting[angle] = wind + WIND_STEP
                if waiting[angle] > STRONGEST:
                    del waiting[angle]
    for k in range(ROUNDS):
        tries = [(between(low[angle], high[angle], k), angle) for angle in high if apart(low, high, angle)]
        for (wind, angle), way in zip(tries, ways_in(runner, tries), strict=True):
            side = high if does(way) else low
            side[angle] = (wind, measure(way) if measure else 0.0)
    return [high[angle][0] if angle in high else None for angle in angles]


def apart(
    low: Mapping[float, tuple[float, float]], high: Mapping[float, tuple[float, float]], angle: float
) -> bool:
    """Whether the answer at an angle is not pinned down yet."""
    return high[angle][0] - low[angle][0] > CLOSE_ENOUGH


def between(low: tuple[float, float], high: tuple[float, float], k: int) -> float:
    """The next wind to try: where the measure would be nothing, or halfway where it says nothing."""
    share = 0.5
    if -0.2 < low[1] < 0.0 < high[1] and k % 3 != 2:
        share = min(max(-low[1] / (high[1] - low[1]), 0.02), 0.98)
    return low[0] + share * (high[0] - low[0])


def spare_aloft(way: WayUp) -> float:
    """Greatest surplus in flight, share of the weight."""
    return way.flying_surplus


def usual_runner(row: Floats, tables: Tables, water: Water, roughness: float, fast: bool) -> Runner:
    """A boat with the usual policy for its heel."""
    return Runner(row, tables, water, roughness, usual_helm, fast)
