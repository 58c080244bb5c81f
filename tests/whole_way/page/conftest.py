"""A real server on a store of its own and a real browser; what no page may do is looked at in every test.

The system's Chromium is asked for, so that nothing has to be downloaded. Where there is none `make test-page`
fails; pytest by itself skips these tests, and says so.
"""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from foilwright.documents.examples import example
from foilwright.jobs import keep_boats
from tests.whole_way.page.visit import Visit

BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
QUIET = [
    "--no-sandbox",  # a test runner is often root, and Chromium as root refuses its sandbox
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
]
SIZES = {"laptop": (1280, 800), "tablet": (820, 1180), "phone": (390, 844)}
LONG = "The boat with the very longest name that anybody would paint"
LONG_ADJUSTER = "main-rod-with-a-name-that-goes-on-for-all-of-sixty-signs-yes"
LONG_CRANK = "bell-crank-with-a-name-that-goes-on-for-all-of-sixty-signs-y"
UGLY = "<script>alert(1)</script>&\"'"
ROOT = Path(__file__).resolve().parents[3]


def start(folder: Path, *words: str) -> tuple["subprocess.Popen[str]", str]:
    """`foilwright serve` in a process of its own, and the address that it said."""
    serving = subprocess.Popen(
        [sys.executable, "-m", "foilwright.cli.main", "serve", "--port", "0", "--data", str(folder), *words],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": os.environ.get("PYTHONPATH", str(ROOT / "src"))},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert serving.stdout is not None
    return serving, serving.stdout.readline().strip().rstrip("/")


def stop(serving: "subprocess.Popen[str]") -> str:
    """Ends the server and hands back what it complained about."""
    serving.terminate()
    _, complaints = serving.communicate(timeout=20)
    return complaints


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the server's data lie: a boat with the longest names, and one with a name that is a script."""
    made = tmp_path_factory.mktemp("data")
    store = keep_boats.open_shelf(made)
    marram = example("marram").read_text(encoding="utf-8")
    long = marram.replace("main-rod", LONG_ADJUSTER).replace("bell-crank", LONG_CRANK)
    for name, text in ((LONG, long), (UGLY, marram)):
        quoted = name.replace('"', '\\"')
        keep_boats.save_text(
            store, name, text.replace('name = "Marram"', f'name = "{quoted}"', 1), None, LONG
        )
    store.close()
    return made


@pytest.fixture(scope="session")
def home(folder: Path) -> Iterator[str]:
    """The address of a server that answers; at the end it must have had nothing to complain of."""
    serving, address = start(folder)
    assert address, serving.stderr.read() if serving.stderr else ""
    yield address
    complaints = stop(serving)
    assert "Traceback" not in complaints, complaints


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    program = next((found for name in BROWSERS if (found := shutil.which(name))), None)
    if program is None:
        pytest.skip("NO BROWSER: no Chromium on the PATH, so nothing of the page was tested in one")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        made = play.chromium.launch(executable_path=program, args=QUIET)
        yield made
        made.close()


@pytest.fixture
def visit(browser: Any, home: str) -> Iterator[Callable[..., Visit]]:
    """Opens a page: visit("/flight?boat=Marram", "phone", touch=True). At the end of the test nothing may
    have been written to the console, and nobody but our own server may have been asked.
    """
    opened: list[Visit] = []

    def open_it(address: str, size: str = "laptop", *, full: bool | None = True, **options: Any) -> Visit:
        wide, high = SIZES[size]
        one = Visit(browser, home, (wide, high), options)
        opened.append(one)
        one.go(address, full)
        return one

    yield open_it
    for one in opened:
        one.context.close()
    for one in opened:
        assert one.complaints == []
        assert one.strangers == []
