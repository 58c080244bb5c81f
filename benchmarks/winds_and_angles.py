"""What do all states over 13 winds and 29 angles cost, and what would a general root finder cost?

    make bench ARGS=winds_and_angles

Marram, usual crew, compiled, on two threads: every steady state with the heel fixed, then with the heel that
pays best. Then states found so are looked for again from a little away by a general root finder (Powell's
hybrid method of MINPACK, scipy.optimize.root) on the same six balances, compiled, and by our own Newton.
Prints a table; writes nothing. Compiling comes on top the first time.
"""

from __future__ import annotations

import sys
import time
from math import radians
from pathlib import Path
from typing import Any

import numpy as np
from scipy.optimize import root

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "src"))

from foilwright.air.wind import INLAND_ROUGHNESS
from foilwright.compiled import compiled
from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ready
from foilwright.documents.examples import example
from foilwright.flight.boat import boat_from, scratch_shapes
from foilwright.flight.heel_in_wind import best_heels
from foilwright.flight.helm_policy import usual_helm
from foilwright.flight.loads import N_ITEMS
from foilwright.flight.many_in_wind import all_in_wind, scratch_in_wind, wind_around
from foilwright.flight.wind_balance import SCALES, Helm, Sailing, left_over
from foilwright.flight.wind_curve import MOST_SPEED
from foilwright.flight.wind_settle import FRESH, Work, settle
from foilwright.flight.wind_states import EVERYTHING, SOLVED_MISS, STABLE
from foilwright.measures import Floats
from foilwright.water.properties import water_at

KNOT = 1852.0 / 3600.0
WINDS = tuple(float(wind) for wind in range(6, 19))  # [kn]
ANGLES = tuple(float(angle) for angle in range(40, 153, 4))  # [deg]
THREADS = 2
TRIES = 300
AWAY = 0.3  # of each unknown's scale


def one_left_over(
    boat: Any, tables: Any, water: Any, around: Any, helm: Helm, x: Floats, r: Floats, items: Floats
) -> None:
    """The compiled residual as the root finder calls it."""
    left_over(Sailing(boat, tables, water, around, helm, MOST_SPEED), x, r, items)


def one_settled(boat: Any, tables: Any, water: Any, around: Any, helm: Helm, work: Work) -> float:
    """Our Newton from work.x."""
    case = Sailing(boat, tables, water, around, helm, MOST_SPEED)
    return settle(case, work, EVERYTHING, EVERYTHING, SOLVED_MISS, 40, FRESH)


def main() -> None:
    boat = ready(read_boat(example("marram")))
    water = water_at(15.0, 0.0, 15.0)
    pairs = [(wind * KNOT, radians(angle)) for wind in WINDS for angle in ANGLES]
    winds = np.array([(*pair, *usual_helm(*pair)) for pair in pairs])
    none, nothing = np.zeros(0, dtype=np.int64), np.zeros((len(pairs), 0))
    given = (boat.row, boat.tables, water, INLAND_ROUGHNESS)
    all_in_wind(*given, none, nothing[:2], winds[:2])
    print(f"{len(WINDS)} winds, {len(ANGLES)} angles, {THREADS} threads")

    def timed(what: str, run: Any) -> Any:
        by_clock, of_processors = time.perf_counter(), time.process_time()
        answer = run()
        by_clock, of_processors = time.perf_counter() - by_clock, time.process_time() - of_processors
        print(f"  {what:28} {by_clock:6.2f} s, {of_processors:6.2f} s of processor time")
        return answer

    found = timed(
        "every state, heel fixed", lambda: all_in_wind(*given, none, nothing, winds, threads=THREADS)
    )
    timed("the heel that pays best", lambda: best_heels(*given, pairs, threads=THREADS))
    against_root_finder(boat, water, winds, found)


def against_root_finder(boat: Any, water: Any, winds: Floats, found: Any) -> None:
    """The stable states again from a little away, by both."""
    links, drawn = scratch_shapes(len(boat.row))
    parts = boat_from(boat.row, np.zeros(links), np.zeros(drawn))
    residual, newton = compiled(one_left_over, left_over), compiled(one_settled, left_over)
    work, r, items = scratch_in_wind(), np.zeros(6), np.zeros((N_ITEMS, 6))
    rng = np.random.default_rng(3)
    places = [
        (i, k)
        for i, count in enumerate(found.counts)
        for k in range(count)
        if found.states[i, k, STABLE] > 0.0
    ]
    chosen = [places[i] for i in rng.integers(0, len(places), TRIES)]
    cases = []
    for i, k in chosen:
        around = wind_around(winds[i, 0], winds[i, 1], INLAND_ROUGHNESS)
        state = found.states[i, k, :6]
        cases.append(
            (
                around,
                Helm(winds[i, 2], winds[i, 3]),
                state,
                state + AWAY * np.array(SCALES) * rng.uniform(-1, 1, 6),
            )
        )
    residual(parts, boat.tables, water, cases[0][0], cases[0][1], cases[0][3].copy(), r, items)
    work.x[:] = cases[0][3]
    newton(parts, boat.tables, water, cases[0][0], cases[0][1], work)
    costs = []
    for name in ("a general root finder", "ours"):
        good = calls = 0
        began = time.perf_counter()
        for around, helm, state, start in cases:
            if name == "ours":
                work.x[:] = start
                miss = newton(parts, boat.tables, water, around, helm, work)
                good += bool(miss <= SOLVED_MISS and np.abs(work.x - state).max() < 1e-6)
            else:

                def scaled(y: Floats) -> Floats:
                    residual(parts, boat.tables, water, around, helm, y * SCALES, r, items)  # noqa: B023
                    return r.copy()

                answer = root(scaled, start / SCALES, method="hybr", tol=1e-10)
                calls += answer.nfev
                good += bool(answer.success and np.abs(answer.x * SCALES - state).max() < 1e-6)
        costs.append((time.perf_counter() - began) / TRIES * 1e6)
        told = f", {calls / TRIES:.0f} evaluations" if calls else ""
        print(f"  {name:28} {costs[-1]:8.0f} us a state, back at the same in {good} of {TRIES}{told}")
    print(f"  ratio {costs[0] / costs[1]:.0f}")


if __name__ == "__main__":
    main()
