"""What the page asks over the wind: the states of `sail` at one true wind angle, and the wind it takes.

As with `explore.py` the compiled physics is used as soon as it is in this process, and the plain physics
until then, with the same answers. The plain one takes a second a wind: it answers one wind a question and
says which are still to come, so that whoever asks sees the curves grow and nothing waits behind them.
"""

import multiprocessing
import os
import signal
import sys
import threading
from collections.abc import Sequence
from math import radians
from typing import TypedDict

from foilwright.air.wind import INLAND_ROUGHNESS, at_height
from foilwright.compiled import cache_folder, compiled
from foilwright.documents.answers import shown_number
from foilwright.documents.wind_told import HEIGHTS_M, told_wind
from foilwright.documents.wind_view import WindRow, wind_row
from foilwright.flight.helm_policy import usual_helm
from foilwright.flight.many_in_wind import at_hand, many_in_wind
from foilwright.flight.sailing_in_wind import Sailed, WindCase, sail_all
from foilwright.flight.take_off_wind import Runner, winds_needed
from foilwright.flight.wind_balance import left_over
from foilwright.jobs.aboard import row_with_crew
from foilwright.jobs.conditions import range_from
from foilwright.jobs.desk import open_boat
from foilwright.jobs.explore import Asked
from foilwright.jobs.sail_boat import WIND, WIND_LIMITS, angles_from, policy_from, told_speed
from foilwright.mistakes import Mistake
from foilwright.units import to_si
from foilwright.water.properties import water_at

ANGLE = "90"
MEASURED = "forecast"
WIND_STEP = 1.0  # [kn]
MOST_WINDS = 60
KINDLY = 4  # how far behind everything else the compiling in the background stands


class ReadyAnswer(TypedDict):
    """Whether whole sweeps can be asked for."""

    format: str
    version: int
    compiled: bool


class WindSweepAnswer(TypedDict):
    """Steady states over winds at one true wind angle.

    `winds_kn` are those of this answer, as they were told; `counts` holds the place of the state that counts
    in each. `later_kn` are those that were asked for and are left to further questions while the physics is
    not `compiled`; until then the winds needed are not known either. These are at 10 m, and as told.
    """

    format: str
    version: int
    wind_angle_deg: float
    measured: str
    winds_kn: list[float]
    rows: list[WindRow]
    counts: list[int | None]
    later_kn: list[float]
    compiled: bool
    take_off_wind_kn: float | None
    keeps_flying_wind_kn: float | None
    take_off_told_kn: float | None
    keeps_flying_told_kn: float | None


def sweep_wind(
    it: Asked,
    wind: str = WIND,
    angle: str = ANGLE,
    measured: str = MEASURED,
    heel: str | None = None,
    with_needed: bool = True,
) -> WindSweepAnswer:
    """Every steady state in each wind, with the loads as arrows. heel: the helm's usual one if left out."""
    winds = winds_from(wind)
    at = angle_from(angle)
    helm = policy_from(heel)
    told = [told_wind(one, measured) for one in winds]
    row = row_with_crew(it.boat, it.settings, [it.sailor])
    tables, water = it.boat.tables, it.around.water
    fast = wind_at_hand()
    now = told if fast else told[:1]
    cases = [WindCase(one.at_ten, at, helm(one.at_ten, at)) for one in now]
    by_wind = sail_all(row, tables, water, INLAND_ROUGHNESS, cases, fast)
    rows: list[WindRow] = []
    counts: list[int | None] = []
    told_kn = [shown_number("wind", one) for one in winds]
    for kn, one, states in zip(told_kn, now, by_wind, strict=False):
        hand = shown_number("wind", one.at_hand)
        best = fastest(states)
        counts.append(None if best is None else len(rows) + states.index(best))
        rows += [wind_row(state, kn, hand, row, it.boat, water, INLAND_ROUGHNESS) for state in states]
    off = kept = None
    if fast and with_needed:
        runner = Runner(row, tables, water, INLAND_ROUGHNESS, helm, True)
        [needed] = winds_needed(runner, [at])
        off, kept = needed.take_off_wind, needed.keeps_flying_wind
    return {
        "format": "foilwright/wind-sweep",
        "version": 1,
        "wind_angle_deg": shown_number("wind_angle", at),
        "measured": measured,
        "winds_kn": told_kn[: len(now)],
        "rows": rows,
        "counts": counts,
        "later_kn": told_kn[len(now) :],
        "compiled": fast,
        "take_off_wind_kn": None if off is None else shown_number("take_off_wind", off),
        "keeps_flying_wind_kn": None if kept is None else shown_number("keeps_flying_wind", kept),
        "take_off_told_kn": None if off is None else shown_number("wind", as_told(off, measured)),
        "keeps_flying_told_kn": None if kept is None else shown_number("wind", as_told(kept, measured)),
    }


def fastest(states: Sequence[Sailed]) -> Sailed | None:
    """Of the states in one wind the one that counts: that holds itself and is fastest.

    As `sail` has it for its best angles: at one angle the fastest makes most good, either way.
    """
    steady = [one for one in states if one.state and one.stable]
    return max(steady, key=lambda one: one.speed, default=None)


def winds_from(words: str) -> list[float]:
    """Winds as they were measured [m/s], from FROM:TO:STEP in knots or one number."""
    if ":" not in words:
        return [told_speed(words)]
    low, high = WIND_LIMITS
    found = range_from(words, "kn", to_si(WIND_STEP, "kn"), (to_si(low, "kn"), to_si(high, "kn")), "--wind")
    if len(found) > MOST_WINDS:
        raise Mistake(
            "--wind",
            f"`{words}`, which is {len(found)} winds",
            f"at most {MOST_WINDS}",
            "Take a larger step.",
        )
    return found


def angle_from(words: str) -> float:
    """One true wind angle [rad], from degrees."""
    value, *more = angles_from(words)
    if more:
        raise Mistake(
            "--angle", f"`{words}`, a range", "one true wind angle in degrees", "Write for example 90."
        )
    return value


def as_told(wind: float, measured: str) -> float:
    """A wind at 10 m [m/s] as it is read where it is measured [m/s]."""
    return at_height(wind, HEIGHTS_M[measured], INLAND_ROUGHNESS)


def wind_ready() -> ReadyAnswer:
    """Whether the compiled physics answers by now."""
    return {"format": "foilwright/wind-ready", "version": 1, "compiled": wind_at_hand()}


def wind_at_hand() -> bool:
    """Whether the compiled kernel is in this process already, so that using it costs no compiling."""
    if "numba" not in sys.modules:
        return False
    return bool(compiled(many_in_wind, left_over).signatures)  # type: ignore[attr-defined]


def warm_up_wind() -> None:
    """Gets the compiled kernel into this process; takes two minutes the first time on a machine.

    Where it is not kept on disk yet another process compiles it and keeps it: two kernels cannot be compiled
    in one process at once, and answers that need the other would have to wait.
    """
    if cache_folder() is not None and not at_hand():
        helper = multiprocessing.get_context("spawn").Process(target=_compile_aside, daemon=True)
        helper.start()
        helper.join()
    use_compiled()


def use_compiled() -> None:
    """One wind by the compiled kernel."""
    boat = open_boat("marram")
    case = WindCase(6.0, radians(90.0), usual_helm(6.0, radians(90.0)))
    sail_all(boat.row, boat.tables, water_at(), INLAND_ROUGHNESS, [case], True)


def _compile_aside() -> None:
    """Compiles and keeps the kernel, behind everything else that runs.

    Ctrl-C is meant for the server; whatever way the server ends, this ends with it.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_the_server, daemon=True).start()
    if hasattr(os, "nice"):
        os.nice(KINDLY)
    use_compiled()


def _end_with_the_server() -> None:
    server = multiprocessing.parent_process()
    if server is not None:
        server.join()
        os._exit(1)
