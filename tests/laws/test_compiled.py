"""One text, run several ways: plain and compiled agree, threads and order do not matter, and what is kept on
disk is private, never stale, and safe to compile twice at once.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import numpy as np
import pytest

import foilwright
from foilwright import compiled as compiling
from foilwright.compiled import cache_folder, compiled, over_threads, plain, sweep
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.at_speed import case_of, scratch
from foilwright.flight.every_state import steady_states
from foilwright.flight.many import AS_NEIGHBOUR, all_states, many_flights, near_states
from foilwright.flight.trim_at_speed import balance, polished
from foilwright.linkage.curve import read_curve
from foilwright.measures import Floats
from foilwright.outcomes import GAVE_UP, NO_BALANCE, SOLVED
from foilwright.water.hull import hull_in_water
from foilwright.water.section import section_line, section_polar
from foilwright.water.waves import wave_resistance
from tests.demo_boats import BOATS, KN, NO_CHANGE, demo_boat
from tests.many_balances import all_balances
from tests.random_boats import at_speeds, random_boats

SPEEDS = np.linspace(4.0, 22.0, 10) * KN
NO_AMOUNT = np.zeros((0, 0))


def states_of_every_kind(count: int, seed: int) -> tuple[Floats, Floats, Floats]:
    """Speeds, heights and trims: afloat, awash, flying, out of the water, bow down and bow up."""
    rng = np.random.default_rng(seed)
    return (
        rng.uniform(0.5, 12.0, count),
        rng.uniform(-0.5, 1.5, count),
        np.radians(rng.uniform(-8.0, 12.0, count)),
    )


@pytest.mark.parametrize("name", BOATS)
@pytest.mark.usefixtures("compiled_physics")
def test_balance_plain_and_compiled(fresh, name):
    """Within 1e-12 of the weight in 160 random states, upright and heeled."""
    boat = demo_boat(name)
    for heel in (0.0, -0.2):
        speeds, heights, trims = states_of_every_kind(80, 3)
        fast = all_balances(boat.row, boat.tables, fresh, speeds, heights, trims, heel)
        assert np.isfinite(fast).all()
        items = plain(scratch().items)
        for i in range(len(speeds)):
            case = case_of(boat.row, boat.tables, fresh, float(speeds[i]), heel)
            slow = balance(case, float(heights[i]), float(trims[i]), items)
            assert slow == pytest.approx(tuple(fast[i]), rel=0.0, abs=1e-12)


@pytest.mark.parametrize("name", BOATS)
@pytest.mark.usefixtures("compiled_physics")
def test_solved_states_plain_and_compiled(fresh, name):
    """Same count, same outcome, heights within 1e-9 m and trims within 1e-9 rad, on random boats."""
    boats = random_boats(demo_boat(name), 3, 11)
    changes, speeds = at_speeds(boats, SPEEDS)
    found, counts, outcomes = all_states(
        boats.base.row, boats.base.tables, fresh, boats.numbers, changes, speeds
    )
    work = scratch()
    for i in range(len(speeds)):
        case = case_of(boats.row(i // len(SPEEDS)), boats.base.tables, fresh, float(speeds[i]), 0.0)
        count, lost = steady_states(case, plain(work))
        assert count == counts[i]
        assert outcomes[i] == (GAVE_UP if lost else SOLVED if count else NO_BALANCE)
        assert work.found[:count, :3] == pytest.approx(found[i, :count, :3], rel=0.0, abs=1e-9)


@pytest.mark.parametrize("name", BOATS)
@pytest.mark.usefixtures("compiled_physics")
def test_polishing_from_a_neighbour_gives_the_same_states(fresh, name):
    """From 1 % of speed away to the state that the full search finds, within 1e-8 m and rad, where there is
    one state and it is stable. Plain and compiled polish alike.

    At a fold the state of the slower speed is gone, or two states are about to part: one case in 200 at
    most, and it then says that it gave up, or is balanced all the same.
    """
    boats = random_boats(demo_boat(name), 40, 5)
    changes, speeds = at_speeds(boats, SPEEDS)
    given = (boats.base.row, boats.base.tables, fresh, boats.numbers, changes)
    found, counts, _ = all_states(*given, speeds)
    nearby, near_counts, _ = all_states(*given, 0.99 * speeds)
    states, outcomes = near_states(*given, speeds, np.ascontiguousarray(nearby[:, 0, :2]))
    one = (counts == 1) & (near_counts == 1) & (found[:, 0, 2] > 0.5) & (nearby[:, 0, 2] > 0.5)
    with_slopes, ends = near_states(*given, speeds, nearby[:, 0, AS_NEIGHBOUR])
    alike = np.abs(with_slopes[:, :2] - found[:, 0, :2]).max(axis=1) < 1e-8
    assert (one & ~(alike & (ends == SOLVED))).sum() <= 0.005 * one.sum(), "from the neighbour's own slopes"
    assert one.sum() > 0.9 * len(one)
    same = np.abs(states[:, :2] - found[:, 0, :2]).max(axis=1) < 1e-8
    assert (outcomes[one & same] == SOLVED).all()
    assert (one & ~same).sum() <= 0.005 * one.sum()
    for i in np.flatnonzero(one & ~same):
        assert outcomes[i] == GAVE_UP or states[i, 2] < 1e-10
    for i in np.flatnonzero(one & same)[:40]:
        case = case_of(boats.row(i // len(SPEEDS)), boats.base.tables, fresh, float(speeds[i]), 0.0)
        near = nearby[i, 0]
        height, trim, _, _ = polished(case, float(near[0]), float(near[1]), plain(scratch().items))
        assert (height, trim) == pytest.approx(tuple(states[i, :2]), rel=0.0, abs=1e-9)


@pytest.mark.usefixtures("compiled_physics")
def test_threads_batches_and_order_do_not_matter(marram, fresh):
    """Bit for bit: one thread and two, all at once and one by one, forwards and backwards."""
    boats = random_boats(marram, 12, 9)
    changes, speeds = at_speeds(boats, SPEEDS)
    given = (marram.row, marram.tables, fresh, boats.numbers)
    states, counts, outcomes = all_states(*given, changes, speeds, threads=1)
    two, counts_of_two, outcomes_of_two = all_states(*given, changes, speeds, threads=2)
    assert np.array_equal(states, two)
    assert np.array_equal(counts, counts_of_two)
    assert np.array_equal(outcomes, outcomes_of_two)
    backwards, counts_backwards, _ = all_states(*given, changes[::-1].copy(), speeds[::-1].copy())
    assert np.array_equal(states, backwards[::-1])
    assert np.array_equal(counts, counts_backwards[::-1])
    for i in range(0, len(speeds), 17):
        alone, count, _ = all_states(*given, changes[i : i + 1], speeds[i : i + 1])
        assert np.array_equal(alone[0], states[i])
        assert count[0] == counts[i]
    near = np.ascontiguousarray(states[:, 0, :2]) + 0.01
    forth, _ = near_states(*given, changes, speeds, near, threads=1)
    turned = (changes[::-1].copy(), speeds[::-1].copy(), near[::-1].copy())
    back, _ = near_states(*given, *turned, threads=2)
    assert np.array_equal(forth, back[::-1])


@pytest.mark.usefixtures("compiled_physics")
def test_changes_are_added_to_the_base_row(marram, fresh):
    """A case with changes is the boat whose row has them."""
    boats = random_boats(marram, 2, 1)
    speeds = np.array([6.0, 7.0])
    states, _, _ = all_states(marram.row, marram.tables, fresh, boats.numbers, boats.changes, speeds)
    for i in range(2):
        whole, _, _ = all_states(
            boats.row(i), marram.tables, fresh, NO_CHANGE, np.zeros((1, 0)), speeds[i : i + 1]
        )
        assert whole[0] == pytest.approx(states[i], abs=1e-12)


@pytest.mark.usefixtures("compiled_physics")
def test_no_cases_at_all(marram, fresh):
    states, counts, outcomes = all_states(marram.row, marram.tables, fresh, NO_CHANGE, NO_AMOUNT, np.zeros(0))
    assert len(states) == len(counts) == len(outcomes) == 0


@pytest.mark.usefixtures("compiled_physics")
def test_all_boats_share_one_compiled_form(boats, fresh):
    """Whatever its file says, a boat reaches the compiled code with arrays of one kind: it is compiled
    once.
    """
    for boat in boats.values():
        all_states(boat.row, boat.tables, fresh, NO_CHANGE, np.zeros((1, 0)), np.array([6.0]))
        near_states(
            boat.row, boat.tables, fresh, NO_CHANGE, np.zeros((1, 0)), np.array([6.0]), np.zeros((1, 2))
        )
    assert len(compiled(many_flights, balance).signatures) == 1  # type: ignore[attr-defined]


def test_slices_cover_every_case_once():
    for cases in (0, 1, 63, 64, 65, 1000):
        seen = np.zeros(cases, dtype=int)

        def run(start: int, stop: int, seen: Any = seen) -> None:
            seen[start:stop] += 1

        over_threads(run, cases, 2)
        assert (seen == 1).all()


# indices


class Strict:
    """An array that refuses every index outside itself, negative ones too: compiled code would read
    rubbish.
    """

    def __init__(self, array: Floats) -> None:
        self.shape = array.shape
        self.array = memoryview(array)  # type: ignore[arg-type]

    def __getitem__(self, place: Any) -> float:
        several = place if isinstance(place, tuple) else (place,)
        for at, size in zip(several, self.shape, strict=True):
            if not 0 <= at < size:
                raise IndexError(f"{place} in {self.shape}")
        return float(self.array[place])


def strict(value: Any) -> Any:
    """Tables whose arrays are strict."""
    if isinstance(value, np.ndarray):
        return Strict(value)
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return type(value)(*(strict(part) for part in value))
    return value


@pytest.mark.parametrize("name", ["marram", "marram-curve", "pipkin"])
def test_no_index_leaves_its_table(fresh, name):
    """In states far beyond any that a boat can be in."""
    boat = demo_boat(name)
    rng = np.random.default_rng(8)
    items = plain(scratch().items)
    for _ in range(60):
        speed, height = float(rng.uniform(0.0, 30.0)), float(rng.uniform(-3.0, 3.0))
        trim, heel = float(rng.uniform(-0.6, 0.6)), float(rng.choice([0.0, rng.uniform(-0.8, 0.8)]))
        case = case_of(boat.row, boat.tables, fresh, speed, heel)
        found = balance(case._replace(tables=strict(boat.tables)), height, trim, items)
        assert np.isfinite(found).all()


def read_tables(
    tables: Any, hull: Any, waves: Any, curve: Any, at: Floats, section: int, out: Floats
) -> None:
    """Everything that finds its place in a table by a number, at the places `at` [n, 6]."""
    for i in range(at.shape[0]):
        zero, slope, _, _ = section_line(tables, section, at[i, 0], at[i, 1])
        cd, _, _, _ = section_polar(tables, section, at[i, 0], at[i, 1], at[i, 2])
        foil, _ = read_curve(curve, at[i, 2], at[i, 3])
        wet = hull_in_water(hull, at[i, 4], at[i, 0], 1.0, 0.0, 1.0, 1.9)
        drag = wave_resistance(waves, at[i, 5], wet.volume, 1000.0, 9.8)
        out[i] = zero + slope + cd + foil + drag


@pytest.mark.slow
def test_bounds_checked_compile(boats):
    """Compiled with every index checked: tables are read inside themselves, and a wrong index does raise."""
    boat = boats["marram-curve"]
    rng = np.random.default_rng(4)
    low = np.array([-1.0, 5.0, -1.0, -20.0, -1.5, 0.0])
    high = np.array([1.0, 20.0, 2.0, 20.0, 1.5, 30.0])
    at = rng.uniform(low, high, (2000, 6))
    out = np.zeros(len(at))
    parts = (boat.tables.sections, boat.tables.hull, boat.tables.waves, boat.tables.curve)
    kernel = compiled(read_tables, None, True)
    kernel(*parts, at, 1, out)
    assert np.isfinite(out).all()
    for i in range(0, len(at), 20):
        one = np.zeros(1)
        sections, hull, waves, curve = map(plain, parts)
        read_tables(sections, hull, waves, curve, at[i : i + 1], 1, one)
        assert one[0] == pytest.approx(out[i], rel=1e-12)
    with pytest.raises(IndexError):
        kernel(*parts, at, 2, out)  # there is no third section


# what is kept on disk

SCRIPT = """
import json, sys
from foilwright.compiled import cache_folder, compiled
from foilwright.water.strut import junction_drag
kernel = compiled(junction_drag)
answer = kernel(1000.0, 0.012, 0.12)
folder = cache_folder()
print(json.dumps([answer, str(folder) if folder else None, kernel.stats.cache_hits.total()
    if hasattr(kernel.stats.cache_hits, "total") else sum(kernel.stats.cache_hits.values())]))
"""
JUNCTION = 1000.0 * 0.012**2 * 0.5 * (17 * 0.12**2 - 0.05 + np.hypot(17 * 0.12**2 - 0.05, 0.004))


def started(environment: dict[str, str], package: Path | None = None) -> subprocess.Popen[str]:
    """A process that compiles one small kernel, with a package from elsewhere if need be."""
    source = package or Path(foilwright.__file__).parent
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("FOILWRIGHT", "XDG", "HOME", "NUMBA"))}
    return subprocess.Popen(
        [sys.executable, "-c", SCRIPT],
        env={**kept, "PYTHONPATH": str(source.parent), "PYTHONDONTWRITEBYTECODE": "1", **environment},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def answer(process: subprocess.Popen[str]) -> tuple[float, str | None, int]:
    out, err = process.communicate(timeout=120)
    assert process.returncode == 0, err
    value, folder, hits = json.loads(out)
    return value, folder, hits


def test_no_stale_compile_survives_an_edit(tmp_path):
    """A number edited in a function called from another file: the next run must know. And back again."""
    package = tmp_path / "src" / "foilwright"
    shutil.copytree(
        Path(foilwright.__file__).parent,
        package,
        ignore=shutil.ignore_patterns("__pycache__", "*.npz", "*.ttf"),
    )
    here = {"FOILWRIGHT_CACHE": str(tmp_path / "cache")}
    first = answer(started(here, package))
    assert first[0] == pytest.approx(JUNCTION)
    assert answer(started(here, package)) == (first[0], first[1], 1), "kept on disk"
    smooth = package / "smooth.py"
    text = smooth.read_text(encoding="utf-8")
    line = "return 0.5 * (x + sqrt(x * x + width * width))"
    edited = text.replace(line, line.replace("0.5", "0.25"))
    assert edited != text
    smooth.write_text(edited, encoding="utf-8")
    second = answer(started(here, package))
    assert second[0] == pytest.approx(0.5 * JUNCTION)
    assert second[1] != first[1]
    smooth.write_text(text, encoding="utf-8")
    assert answer(started(here, package)) == (first[0], first[1], 1)


def test_a_copy_installed_elsewhere_finds_what_is_kept(tmp_path):
    """The same sources at another place: nothing is compiled again."""
    copy = tmp_path / "elsewhere" / "foilwright"
    here = {"FOILWRIGHT_CACHE": str(tmp_path / "cache")}
    first = answer(started(here))
    shutil.copytree(Path(foilwright.__file__).parent, copy, ignore=shutil.ignore_patterns("__pycache__"))
    assert answer(started(here, copy)) == (first[0], first[1], 1)


def test_two_processes_compiling_at_once_do_no_harm(tmp_path):
    here = {"FOILWRIGHT_CACHE": str(tmp_path / "cache")}
    both = [started(here) for _ in range(3)]
    answers = [answer(process) for process in both]
    assert [value for value, _, _ in answers] == pytest.approx([JUNCTION] * 3)
    assert len({folder for _, folder, _ in answers}) == 1
    assert answer(started(here)) == (answers[0][0], answers[0][1], 1)


def test_threads_that_ask_at_once_get_one_twin():
    """The page's first question and its warming up ask together: two twins, and one would never be warm."""

    def of_nothing(x: float) -> float:
        return x

    with ThreadPoolExecutor(8) as threads:
        twins = list(threads.map(lambda _: compiling.compiled(of_nothing, None, True), range(8)))
    assert len({id(twin) for twin in twins}) == 1


@pytest.mark.skipif(os.name == "nt", reason="rights of files are POSIX's")
def test_an_unwritable_home_still_answers(tmp_path):
    """A home below a file: not even an administrator can write there."""
    (tmp_path / "file").touch()
    value, folder, _ = answer(started({"HOME": str(tmp_path / "file" / "home")}))
    assert value == pytest.approx(JUNCTION)
    assert folder is None


def folder_at(monkeypatch: pytest.MonkeyPatch, home: Path) -> Path | None:
    """The cache folder as a fresh process with this home would have it."""
    monkeypatch.setenv("FOILWRIGHT_CACHE", str(home))
    found = cache_folder.__wrapped__()
    assert found is None or isinstance(found, Path)
    return found


@pytest.mark.skipif(os.name == "nt", reason="rights of files are POSIX's")
def test_the_folder_is_private(monkeypatch, tmp_path):
    folder = folder_at(monkeypatch, tmp_path / "home")
    assert folder is not None
    assert folder.stat().st_mode & 0o777 == 0o700
    assert folder.name == f"compiled-{compiling.source_hash()}"


@pytest.mark.skipif(os.name == "nt", reason="rights of files are POSIX's")
@pytest.mark.parametrize("mode", [0o770, 0o707, 0o777])
def test_a_folder_that_others_can_write_is_not_used(monkeypatch, tmp_path, mode):
    """Kept code is loaded as it stands: whoever can write there could have it run."""
    (tmp_path / f"compiled-{compiling.source_hash()}").mkdir()
    (tmp_path / f"compiled-{compiling.source_hash()}").chmod(mode)
    assert folder_at(monkeypatch, tmp_path) is None


def test_old_folders_are_swept(tmp_path):
    now = time.time()
    names = ("compiled-kept", "compiled-old", "compiled-recent", "other")
    for name, age_days in zip(names, (30.0, 30.0, 3.0, 30.0), strict=True):
        (tmp_path / name).mkdir()
        (tmp_path / name / "code").touch()
        os.utime(tmp_path / name, (now - age_days * 86400.0,) * 2)
    sweep(tmp_path, tmp_path / "compiled-kept")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["compiled-kept", "compiled-recent", "other"]


def test_numbers_for_the_plain_run(marram: ReadyBoat):
    """Memoryviews give Python floats, and NamedTuples keep their names."""
    tables = plain(marram.tables)
    assert type(tables) is type(marram.tables)
    assert type(tables.hull.x[0]) is float
    assert type(plain(np.float64(1.0))) is float
    assert plain("words") == "words"
