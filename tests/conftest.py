"""What every test stands on: the demo boats, fresh water, and compiled physics that is compiled only once."""

from __future__ import annotations

import os
import time
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import settings

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.many import all_states
from foilwright.flight.many_in_wind import all_in_wind
from foilwright.water.properties import Water, water_at
from tests.demo_boats import BOATS, NO_CHANGE, demo_boat

# Drawn examples are the same on every machine and have no deadline.
settings.register_profile("house", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("house")

LONGEST_COMPILE = 600.0  # [s] after which a worker believes that the one which compiles has died
FLIGHTS, IN_WIND = "compiled_physics", "compiled_wind"


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Of two workers each begins by compiling one kernel, so that none is compiled twice and nobody waits.

    Each gets a half of the list. The first begins with a test that sails in a wind, whose kernel takes
    longest; the second with one that needs the other kernel, and it has tests that need none besides.
    """
    if "PYTEST_XDIST_WORKER" not in os.environ:
        return
    sailing, flying, others = list[pytest.Item](), list[pytest.Item](), list[pytest.Item]()
    for item in items:
        asked = getattr(item, "fixturenames", ())
        (sailing if IN_WIND in asked else flying if FLIGHTS in asked else others).append(item)
    beside = max(0, len(items) // 2 - len(sailing))
    items[:] = [*sailing, *others[:beside], *flying, *others[beside:]]


@pytest.fixture(scope="session")
def fresh() -> Water:
    """Fresh water at 15 degrees, air at 15 degrees, standard gravity."""
    return water_at()


@pytest.fixture(scope="session")
def boats() -> dict[str, ReadyBoat]:
    """Every demo boat, ready to fly, by the name of its file."""
    return {name: demo_boat(name) for name in BOATS}


@pytest.fixture(scope="session")
def marram() -> ReadyBoat:
    return demo_boat("marram")


@pytest.fixture(scope="session")
def sedge() -> ReadyBoat:
    return demo_boat("sedge")


@pytest.fixture(scope="session")
def pipkin() -> ReadyBoat:
    return demo_boat("pipkin")


@pytest.fixture(scope="session")
def compiled_physics(tmp_path_factory: pytest.TempPathFactory, marram: ReadyBoat, fresh: Water) -> None:
    """The compiled entry points, on disk. Ask for this before calling any of them.

    Compiling takes a minute, so under several workers each entry point is compiled by whichever
    worker takes its lock file first, and the others wait for it; then they all load it from disk.
    """
    given = (marram.row, marram.tables, fresh, NO_CHANGE, np.zeros((1, 0)), np.array([6.0]))
    compile_once(tmp_path_factory, {"flights": lambda: all_states(*given, threads=1)})


@pytest.fixture(scope="session")
def compiled_wind(tmp_path_factory: pytest.TempPathFactory, marram: ReadyBoat, fresh: Water) -> None:
    """The same for the kernel of sailing in a wind, which only those who sail need. They need both at times,
    so ask for `compiled_physics` as well where a day is prepared."""
    wind = np.array([[6.0, 1.5, 0.0, -0.1]])
    given = (marram.row, marram.tables, fresh, 5e-4, NO_CHANGE, np.zeros((1, 0)), wind)
    compile_once(tmp_path_factory, {"in-wind": lambda: all_in_wind(*given, threads=1)})


def compile_once(tmp_path_factory: pytest.TempPathFactory, entries: dict[str, Callable[[], object]]) -> None:
    """Compiles each entry point in one worker while the others wait, then loads them all."""
    if "PYTEST_XDIST_WORKER" in os.environ:
        folder = tmp_path_factory.getbasetemp().parent  # of this run, shared by its workers
        for name, compile_it in entries.items():
            try:
                os.close(os.open(folder / f"compiling-{name}", os.O_CREAT | os.O_EXCL))
            except FileExistsError:
                continue
            compile_it()
            (folder / f"compiled-{name}").touch()
        waited_since = time.monotonic()
        while not all((folder / f"compiled-{name}").exists() for name in entries):
            if time.monotonic() - waited_since > LONGEST_COMPILE:
                break
            time.sleep(0.1)
    for load_it in entries.values():
        load_it()
