"""What does one steady flight cost, and what would it cost with a general root finder?

    make bench ARGS=one_steady_flight

Over 100,000 cases (four boats, each with every adjuster at random, 4 to 22 knots), compiled, on two threads:
every steady state with nothing assumed, and polishing from a state one per cent of speed away. Both must
give the same states. Then the same balance under a general root finder (Powell's hybrid method of MINPACK,
scipy.optimize.root), once calling the plain text and once the compiled one, from the same neighbouring
states; and the share of each part of the physics in one evaluation. Prints a table; writes nothing.
Compiling comes on top the first time.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
from scipy.optimize import root

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "src"))

from foilwright.compiled import compiled, plain
from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ReadyBoat, ready
from foilwright.documents.examples import example
from foilwright.flight import trim_at_speed
from foilwright.flight.at_speed import case_of, scratch
from foilwright.flight.boat import boat_from, scratch_shapes
from foilwright.flight.control import settled_control
from foilwright.flight.every_state import steady_states
from foilwright.flight.foil_flow import foil_flow
from foilwright.flight.loads import N_ITEMS
from foilwright.flight.many import AS_NEIGHBOUR, all_states, near_states
from foilwright.flight.state import Around, still
from foilwright.flight.trim_at_speed import Case, balance, polished
from foilwright.measures import Floats, Ints
from foilwright.outcomes import GAVE_UP, SOLVED
from foilwright.setup.adjusters import turned
from foilwright.water.hull import hull_in_water
from foilwright.water.properties import Water, water_at
from foilwright.water.section import section_line, section_polar
from foilwright.water.waves import wave_resistance

KNOT = 1852.0 / 3600.0
BOATS = ("marram", "marram-curve", "sedge", "pipkin")
CASES = 25_000  # of each boat
SETTINGS = 500  # different ones of each boat
THREADS = 2
FEW = 60  # cases for what is slow
TURNS = 20_000  # of the profile


class Cases:
    """One boat with its adjusters at random, at random speeds."""

    def __init__(self, name: str, rng: np.random.Generator) -> None:
        self.boat = ready(read_boat(example(name)))
        rows = [
            turned(self.boat.row, self.boat.adjusters, setting) - self.boat.row
            for setting in (
                {one.name: float(rng.uniform(one.least, one.greatest)) for one in self.boat.adjusters}
                for _ in range(SETTINGS)
            )
        ]
        of_each = np.array(rows)[rng.integers(0, SETTINGS, CASES)]
        self.numbers: Ints = np.flatnonzero(np.abs(of_each).max(axis=0) > 0.0)
        self.changes: Floats = np.ascontiguousarray(of_each[:, self.numbers])
        self.speeds: Floats = rng.uniform(4.0, 22.0, CASES) * KNOT

    def row(self, i: int) -> Floats:
        row = self.boat.row.copy()
        row[self.numbers] += self.changes[i]
        return row

    def case(self, i: int, water: Water) -> Case:
        return case_of(self.row(i), self.boat.tables, water, float(self.speeds[i]), 0.0)


def microseconds(run: Callable[[], Any], times: int) -> float:
    began = time.perf_counter()
    run()
    return (time.perf_counter() - began) / times * 1e6


def both_times(run: Callable[[], Any], times: int) -> Floats:
    """By the clock, and of all processors together: on a busy machine the second tells what the first
    cannot.
    """
    began = time.process_time()
    by_clock = microseconds(run, times)
    return np.array([by_clock, (time.process_time() - began) / times * 1e6])


# Entry points of this benchmark alone.


def one_balance(
    boat: Any, tables: Any, water: Any, around: Any, speed: float, height: float, trim: float, items: Floats
) -> tuple[float, float]:
    """The compiled residual as scipy calls it."""
    return balance(Case(boat, tables, water, around, speed, 0.0, 1.0), height, trim, items)


def balances(
    boat: Any, tables: Any, water: Any, around: Any, times: int, height: float, items: Floats
) -> float:
    total = 0.0
    for i in range(times):
        case = Case(boat, tables, water, around, 6.0, 0.0, 1.0)
        lift, pitch = balance(case, height + 1e-7 * i, 0.01, items)
        total += lift + pitch
    return total


def controls(boat: Any, tables: Any, times: int) -> float:
    total = 0.0
    for i in range(times):
        found = settled_control(
            boat, tables, 9.80665, 0.8 + 1e-7 * i, 1.0, 0.01, 1.0, 0.0, 18e3, 0.01, 18e3, 0.6, 13.2
        )
        total += found.foil
    return total


def foils(boat: Any, tables: Any, times: int) -> float:
    total = 0.0
    for i in range(times):
        found = foil_flow(
            boat.rudder, boat.rudder_planform, tables, 1, 0.01 + 1e-7 * i, 18e3, 0.6, 0.0, 13.0, 0.0
        )
        total += found.lift
    return total


def sections(tables: Any, times: int) -> float:
    total = 0.0
    for i in range(times):
        zero, slope, _, _ = section_line(tables.sections, 1, 0.02, 13.0 + 1e-7 * i)
        cd, _, _, _ = section_polar(tables.sections, 1, 0.02, 13.0, 0.01 + 1e-7 * i)
        total += zero + slope + cd
    return total


def hulls(tables: Any, height: float, times: int) -> float:
    total = 0.0
    for i in range(times):
        wet = hull_in_water(tables.hull, height + 1e-7 * i, 0.01, 1.0, 0.0, 1.0, 1.95)
        if wet.volume > 0.0:
            total += wave_resistance(tables.waves, 6.0, wet.volume, 999.1, 9.80665)
    return total


def solving(all_cases: list[Cases], water: Water) -> tuple[float, float]:
    """The two compiled ways over all cases: microseconds a case of each."""
    full, near, most = np.zeros(2), np.zeros(2), 0.0
    compared = gave_up = several = elsewhere = 0
    for one in all_cases:
        given = (one.boat.row, one.boat.tables, water, one.numbers, one.changes)
        all_states(*given[:4], one.changes[:1], one.speeds[:1])  # loads or compiles
        near_states(*given[:4], one.changes[:1], one.speeds[:1], np.zeros((1, 2)))
        found: list[Any] = []
        full += both_times(
            lambda: found.append(all_states(*given, one.speeds, threads=THREADS)),  # noqa: B023
            CASES,
        )
        states, counts, outcomes = found[0]
        neighbours, their_counts, _ = all_states(*given, 0.99 * one.speeds, threads=THREADS)
        start = neighbours[:, 0, AS_NEIGHBOUR]
        near += both_times(
            lambda: found.append(near_states(*given, one.speeds, start, threads=THREADS)),  # noqa: B023
            CASES,
        )
        polished_states, ends = found[1]
        gave_up += int((outcomes == GAVE_UP).sum())
        several += int((counts > 1).sum())
        alone = (counts == 1) & (their_counts == 1)
        away = np.abs(polished_states[:, :2] - states[:, 0, :2]).max(axis=1)
        same = alone & (ends == SOLVED) & (away < 1e-6)
        compared += int(alone.sum())
        elsewhere += int((alone & ~same).sum())
        most = max(most, float(away[same].max()))
    count = len(all_cases)
    print(f"{count * CASES} cases, {THREADS} threads")
    for what, (by_clock, of_processors) in (
        ("full answer, every steady state", full / count),
        ("polishing from a neighbour", near / count),
    ):
        print(f"  {what:34} {by_clock:8.1f} us a case, {of_processors:6.1f} us of processor time")
    print(f"  same states: {compared} with one state, largest difference {most:.1e} m or rad,")
    print(
        f"    {elsewhere} at a fold went elsewhere or gave up; "
        f"full answer: {several} with several, {gave_up} gave up"
    )
    return float(full[0]) / count, float(near[0]) / count


def evaluations(cases: list[Case]) -> tuple[float, float]:
    """Evaluations of the loads for a full answer and for polishing from a neighbour, on the average."""
    calls = [0, 0]
    search: Any = trim_at_speed
    original, way = search.loads, 0

    def counted(*given: Any) -> Any:
        calls[way] += 1
        return original(*given)

    search.loads = counted
    try:
        for case in cases:
            work, before = scratch(), scratch()
            way = 0
            steady_states(case, plain(work))
            kept = calls[0]
            steady_states(case._replace(speed=0.99 * case.speed), plain(before))
            calls[0] = kept
            way = 1
            polished(case, float(before.found[0, 0]), float(before.found[0, 1]), plain(work.items))
    finally:
        search.loads = original
    return calls[0] / len(cases), calls[1] / len(cases)


def root_finders(one: Cases, water: Water, near: float) -> None:
    """The same states by a general root finder, from the same neighbours."""
    cases = [one.case(i, water) for i in range(FEW)]
    # As compiled code takes them: arrays, not memoryviews.
    boats = []
    for i in range(FEW):
        links, drawn = scratch_shapes(len(one.boat.row))
        boats.append(boat_from(one.row(i), np.zeros(links), np.zeros(drawn)))
    few = (one.boat.row, one.boat.tables, water, one.numbers, one.changes[:FEW])
    neighbours, _, _ = all_states(*few, 0.99 * one.speeds[:FEW])
    starts = neighbours[:, 0, :2]
    items = np.zeros((N_ITEMS, 6))
    in_python = plain(items)
    kernel = compiled(one_balance, balance)
    speeds = [float(speed) for speed in one.speeds[:FEW]]
    kernel(boats[0], one.boat.tables, water, still(), speeds[0], 0.1, 0.0, items)

    def general(residual: Callable[[int, Any], Any]) -> tuple[float, int, int]:
        good = calls = 0
        began = time.perf_counter()
        for i in range(FEW):
            found = root(lambda x: residual(i, x), starts[i], method="hybr", tol=1e-10)  # noqa: B023
            good += bool(found.success)
            calls += found.nfev
        return (time.perf_counter() - began) / FEW * 1e6, good, calls

    on_plain, good_plain, calls = general(lambda i, x: balance(cases[i], float(x[0]), float(x[1]), in_python))
    on_compiled, good_compiled, _ = general(
        lambda i, x: kernel(
            boats[i], one.boat.tables, water, still(), speeds[i], float(x[0]), float(x[1]), items
        )
    )
    work = scratch()
    plain_full = microseconds(lambda: [steady_states(case, plain(work)) for case in cases], FEW)
    one_thread = microseconds(
        lambda: near_states(*few, one.speeds[:FEW], neighbours[:, 0, AS_NEIGHBOUR], threads=1),
        FEW,
    )
    print(f"one state from a neighbour, {one.boat.name}, {FEW} cases, one thread")
    print(f"  ours, compiled                     {one_thread:8.1f} us")
    for what, each, good in (
        ("general root finder, compiled", on_compiled, good_compiled),
        ("general root finder, plain", on_plain, good_plain),
    ):
        print(
            f"  {what:34} {each:8.1f} us, {each / one_thread:5.1f} times ours, "
            f"{each / near:5.1f} times ours on {THREADS} threads; {good} of {FEW} settled"
        )
    print(f"    its evaluations of all loads     {calls / FEW:8.1f}")
    print(f"  ours, plain, every steady state    {plain_full / 1000:8.1f} ms")
    whole, polishing = evaluations(cases)
    print(
        f"  evaluations of all loads           {whole:8.1f} a full answer, {polishing:.1f} a polishing "
        "with fresh slopes"
    )


def profile(boat: ReadyBoat, water: Water) -> None:
    """What one evaluation of all loads is spent on."""
    links, drawn = scratch_shapes(len(boat.row))
    unpacked = boat_from(boat.row, np.zeros(links), np.zeros(drawn))
    around: Around = still()
    items = np.zeros((N_ITEMS, 6))
    parts: dict[str, tuple[Callable[..., Any], tuple[Any, ...]]] = {
        "all loads, flying": (
            compiled(balances, balance),
            (unpacked, boat.tables, water, around, TURNS, 0.45, items),
        ),
        "all loads, hull in the water": (
            compiled(balances, balance),
            (unpacked, boat.tables, water, around, TURNS, -0.1, items),
        ),
        "wand, chain and main foil": (compiled(controls, settled_control), (unpacked, boat.tables, TURNS)),
        "rudder foil": (compiled(foils, foil_flow), (unpacked, boat.tables, TURNS)),
        "  of a foil: section tables": (compiled(sections), (boat.tables, TURNS)),
        "hull in the water and waves": (compiled(hulls), (boat.tables, -0.1, TURNS)),
        "hull, clear": (compiled(hulls), (boat.tables, 0.45, TURNS)),
    }
    print(f"one evaluation, {boat.name} at {6.0 / KNOT:.1f} kn, one thread")
    whole = 0.0
    for name, (kernel, given) in parts.items():
        kernel(*given)
        each = min(microseconds(lambda: kernel(*given), TURNS) for _ in range(3))  # noqa: B023
        whole = whole or each
        print(f"  {name:34} {each:8.2f} us  {each / whole:6.0%}")


def main() -> None:
    rng = np.random.default_rng(1)
    water = water_at()
    all_cases = [Cases(name, rng) for name in BOATS]
    _, near = solving(all_cases, water)
    root_finders(all_cases[0], water, near)
    profile(all_cases[0].boat, water)


if __name__ == "__main__":
    main()
