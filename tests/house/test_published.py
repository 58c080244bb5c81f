"""The table of published values in the docs is in step with the tests that state them.

Each test of tests/literature checks its own rows against the kept ones as it runs (see
tests/literature/conftest.py); here the page is held against the kept rows, and the kept rows against the
tests there are.
"""

import importlib.util
import subprocess
import sys
from pathlib import Path
from types import ModuleType

from tests.literature.published import BEHIND, PRACTICE, Row, _same_but_for_the_last_figure, keep, kept

ROOT = Path(__file__).resolve().parents[2]


def builder() -> ModuleType:
    spec = importlib.util.spec_from_file_location("published_table", ROOT / "builders" / "published_table.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_page_is_made_of_the_kept_rows():
    table = builder()
    assert table.PAGE.read_text(encoding="utf-8") == table.page(kept()), BEHIND


def test_the_kept_rows_are_of_tests_that_are_there():
    """A test that has gone, or has been renamed, leaves no row behind."""
    command = [sys.executable, "-m", "pytest", "--collect-only", "-q", "-p", "no:cacheprovider"]
    listed = subprocess.run(
        [*command, "tests/literature"], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout
    there = {line.removeprefix("tests/literature/") for line in listed.splitlines() if "::" in line}
    assert {row.test for row in kept()} <= there, BEHIND


def test_every_source_says_where_it_comes_from():
    for row in kept():
        assert row.source and row.provenance, row.row
        assert row.published or row.difference == "", row.row


def test_nothing_from_memory_is_the_only_guard_of_a_topic():
    for topic in {row.topic for row in kept()}:
        ways = {row.provenance for row in kept() if row.topic == topic}
        firm = {way for way in ways if not way.startswith("from memory") and way != PRACTICE}
        assert firm, topic


def test_what_is_missed_says_how_far_and_why():
    for row in kept():
        assert bool(row.missed_by) == bool(row.reason), row.row


def test_keeping_and_the_last_figure():
    rows = [Row("t", "a", "b", "c", "row", "m", "1", "1.001", "+0.001", "0.1 m", "", "")]
    assert '"rows": [\n[0, "t", "row"' in keep(rows)
    assert _same_but_for_the_last_figure("1.001", "1.002")
    assert not _same_but_for_the_last_figure("1.001", "1.003")
    assert _same_but_for_the_last_figure("1.18e-06", "1.17e-06 (referee)")
    assert not _same_but_for_the_last_figure("12.5", "12.7")
