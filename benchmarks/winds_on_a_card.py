"""How many winds a second does a graphics card solve, with the same text, and does it find the same states?

    python benchmarks/winds_on_a_card.py [CASES]

Needs an NVIDIA card and numba-cuda; nothing else of the project does. Marram with its adjusters at random in
random winds, every steady state of each, in double precision: one thread a case. Checked against the same
cases compiled for threads of this machine. Prints figures; writes nothing. `--count N` solves N cases once,
for a profiler that counts arithmetic.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from math import radians
from pathlib import Path
from typing import Any

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "src"))

from numba import cuda

from foilwright.air.wind import INLAND_ROUGHNESS
from foilwright.compiled import for_card
from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ready
from foilwright.documents.examples import example
from foilwright.flight.boat import scratch_shapes
from foilwright.flight.many_in_wind import WAY_SIZE, all_in_wind, many_in_wind, scratch_in_wind
from foilwright.flight.wind_balance import left_over
from foilwright.flight.wind_curve import MOST_SPEED
from foilwright.flight.wind_settle import Work
from foilwright.flight.wind_states import FOUND_SIZE, MOST_FOUND, SEED_SPEEDS
from foilwright.measures import Floats, Ints
from foilwright.setup.adjusters import turned
from foilwright.water.properties import water_at

KNOT = 1852.0 / 3600.0
SETTINGS = 500
CHECKED = 2000
ALIKE = 32  # cases side by side with one setting and one wind
A_BLOCK = (32, 128)


class Cases:
    """Settings, winds and angles at random."""

    def __init__(self, count: int) -> None:
        rng = np.random.default_rng(1)
        self.boat = ready(read_boat(example("marram")))
        adjusters = self.boat.adjusters
        rows = np.array(
            [
                turned(
                    self.boat.row,
                    adjusters,
                    {a.name: float(rng.uniform(a.least, a.greatest)) for a in adjusters},
                )
                for _ in range(SETTINGS)
            ]
        )
        # Cases that lie beside each other on the card do the same things at the same time if they are alike:
        # so whole blocks of one setting and one wind, in the order of the angle.
        settings = np.repeat(rng.integers(0, SETTINGS, -(-count // ALIKE)), ALIKE)[:count]
        of_each = (rows - self.boat.row)[settings]
        self.numbers: Ints = np.flatnonzero(np.abs(of_each).max(axis=0) > 0.0)
        self.changes: Floats = np.ascontiguousarray(of_each[:, self.numbers])
        winds = np.repeat(rng.uniform(6.0, 20.0, -(-count // ALIKE)), ALIKE)[:count]
        angles = np.sort(rng.uniform(40.0, 150.0, (-(-count // ALIKE), ALIKE)), axis=1).ravel()[:count]
        self.winds: Floats = np.column_stack(
            [
                winds * KNOT,
                np.radians(angles),
                np.full(count, radians(-2.0)),
                np.full(count, radians(-12.0)),
            ]
        )


def on_card(value: Any) -> Any:
    """Arrays on the card; NamedTuples of arrays part by part."""
    if isinstance(value, np.ndarray):
        return cuda.to_device(np.ascontiguousarray(value))
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return type(value)(*(on_card(part) for part in value))
    return value


solve = for_card(many_in_wind, left_over)


@cuda.jit
def winds_kernel(
    base, tables, water, roughness, numbers, changes, winds, seeds, fastest, row, links, drawn,
    w0, w1, w2, w3, w4, w5, w6, w7, w8, w9, w10, w11, states, ways, counts, outcomes,
):  # type: ignore[no-untyped-def]  # fmt: skip
    i = cuda.grid(1)
    if i < winds.shape[0]:
        work = Work(w0[i], w1[i], w2[i], w3[i], w4[i], w5[i], w6[i], w7[i], w8[i], w9[i], w10[i], w11[i])
        solve(
            base, tables, water, roughness, numbers, changes, winds, seeds, fastest, i, i + 1,
            row[i], links[i], drawn[i], work, states, ways, counts, outcomes,
        )  # fmt: skip


def main(arguments: list[str]) -> None:
    once = "--count" in arguments
    count = int(([one for one in arguments if one.isdecimal()] or ["65536"])[0])
    cases = Cases(count)
    boat = cases.boat
    water = water_at(15.0, 0.0, 15.0)
    if "--threads" in arguments:
        expected, expected_counts = by_threads(cases, water, min(CHECKED, count))
        np.savez(arguments[-1], states=expected, counts=expected_counts)
        return
    links, drawn = scratch_shapes(len(boat.row))

    def empty(*shape: int) -> Any:
        return cuda.to_device(np.zeros(shape))

    work = [empty(count, *part.shape) for part in scratch_in_wind()]
    states, ways = empty(count, MOST_FOUND, FOUND_SIZE), empty(count, WAY_SIZE)
    counts, outcomes = (cuda.to_device(np.zeros(count, dtype=np.int64)) for _ in range(2))
    given = (
        on_card(boat.row), on_card(boat.tables), water, INLAND_ROUGHNESS, on_card(cases.numbers),
        on_card(cases.changes), on_card(cases.winds), on_card(np.array(SEED_SPEEDS)), MOST_SPEED,
        empty(count, len(boat.row)), empty(count, *links), empty(count, *drawn), *work,
        states, ways, counts, outcomes,
    )  # fmt: skip
    other = None
    file = Path(tempfile.gettempdir()) / f"by-threads-{os.getpid()}.npz"
    if not once:
        # In a process of its own, since two compilers in one wait for each other.
        words = [sys.executable, __file__, str(count), "--threads", str(file)]
        other = subprocess.Popen(words, stdout=subprocess.PIPE, text=True)
    device = cuda.get_current_device()
    print(f"card: {device.name.decode() if isinstance(device.name, bytes) else device.name}; {count} cases")
    began = time.perf_counter()
    winds_kernel[1, 32](*given)
    cuda.synchronize()
    print(f"compiled, and first 32 cases, in {time.perf_counter() - began:.0f} s", flush=True)
    if once:
        winds_kernel[-(-count // 64), 64](*given)
        cuda.synchronize()
        return
    for block in A_BLOCK:
        began = time.perf_counter()
        winds_kernel[-(-count // block), block](*given)
        cuda.synchronize()
        took = time.perf_counter() - began
        print(f"{block} threads a block: {took:.2f} s, {count / took:,.0f} winds a second", flush=True)
    if other is not None:
        print(other.communicate()[0], end="")
        kept = np.load(file)
        check(states.copy_to_host(), counts.copy_to_host(), kept["states"], kept["counts"])
        Path(file).unlink()


def by_threads(cases: Cases, water: Any, few: int) -> tuple[Floats, Ints]:
    """The first cases compiled for the threads of this machine."""
    boat = cases.boat
    given = (boat.row, boat.tables, water, INLAND_ROUGHNESS, cases.numbers)
    all_in_wind(*given, cases.changes[:8], cases.winds[:8])
    began = time.perf_counter()
    found = all_in_wind(*given, cases.changes[:few], cases.winds[:few])
    took = time.perf_counter() - began
    print(f"{os.cpu_count()} threads of this machine: {few / took:,.0f} winds a second", flush=True)
    return found.states, found.counts


def check(states: Floats, counts: Ints, expected: Floats, expected_counts: Ints) -> None:
    """Whether both found the same states."""
    few = len(expected_counts)
    same = expected_counts == counts[:few]
    there = np.arange(MOST_FOUND)[None, :] < counts[:few, None]
    off = np.abs(expected[:, :, :6] - states[:few, :, :6]).max(axis=2)[there & same[:, None]]
    print(
        f"same count of states in {same.sum()} of {few}; largest difference of a state {off.max():.1e}, "
        f"99 of 100 below {np.quantile(off, 0.99):.1e} (m/s, m, rad)"
    )


if __name__ == "__main__":
    main(sys.argv[1:])
