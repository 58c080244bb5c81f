"""How a published value is stated once: name, value, ours, tolerance, unit and source in one call.

`compare`, `between` and `missed` assert, and note the row. After each test the rows it noted are held against
data/published_rows.json, from which builders/published_table.py makes docs/theory/published-values.md; with
the environment variable RECORD naming a file they are written there instead.

A tolerance is a number in the row's own unit, or `percent(...)` of the published value. Where ours comes
from a referee in this folder and not from the package, say `referee=True`: such a row shows that the
yardstick itself is right.
"""

from __future__ import annotations

import json
import os
from math import ceil, floor, log10
from pathlib import Path
from typing import Any, NamedTuple

RECORD = "FOILWRIGHT_PUBLISHED_ROWS"
KEPT = Path(__file__).resolve().parent / "data" / "published_rows.json"
BEHIND = "the table of published values is behind: run builders/published_table.py"

COMPUTED = "computed by a general-purpose library or code"
CLOSED_FORM = "closed form, evaluated"
READ = "read in a public page"
MEMORY_SURE = "from memory, sure"
MEMORY = "from memory, fairly sure"
MEMORY_DIM = "from memory, not sure"
PRACTICE = "common practice, no source"
REFEREE = "computed in the test by a referee of our own"


class Source(NamedTuple):
    """Where values come from; `topic` is the heading they stand under."""

    topic: str
    text: str
    provenance: str


class Share(NamedTuple):
    """A tolerance in per cent of the published value, and never less than the last printed figure."""

    per_cent: float
    last_figure: float


class Row(NamedTuple):
    """One row as it is kept: what is compared, the published value and ours, as printed."""

    test: str
    topic: str
    source: str
    provenance: str
    row: str
    unit: str
    published: str
    ours: str
    difference: str
    tolerance: str
    missed_by: str
    reason: str


ROWS: list[Row] = []


def percent(per_cent: float, last_figure: float = 0.0) -> Share:
    return Share(per_cent, last_figure)


def allowed(tolerance: float | Share, published: float) -> float:
    """The tolerance in the row's unit."""
    if isinstance(tolerance, Share):
        return max(abs(published) * tolerance.per_cent / 100.0, tolerance.last_figure)
    return tolerance


def compare(
    row: str,
    published: float | None,
    ours: float,
    tolerance: float | Share,
    unit: str,
    source: Source,
    referee: bool = False,
) -> None:
    """Ours is the published value within the tolerance.

    published: None where ours is itself a difference, from a curve or table kept beside the tests.
    """
    value, ours = published or 0.0, float(ours)
    limit = allowed(tolerance, value)
    _note(row, published, ours, limit, tolerance, unit, source, referee)
    assert abs(ours - value) <= limit, f"{row}: published {value:g}, ours {ours:g} {unit}; allowed {limit:g}"


def between(
    row: str, low: float, high: float, ours: float, unit: str, source: Source, referee: bool = False
) -> None:
    """Ours lies in the published range."""
    ours = float(ours)
    _note(row, (low, high), ours, high - low, 0.0, unit, source, referee)
    assert low <= ours <= high, f"{row}: published {low:g} to {high:g}, ours {ours:g} {unit}"


def missed(
    row: str,
    published: float | None,
    ours: float,
    tolerance: float | Share,
    size: float | Share,
    reason: str,
    unit: str,
    source: Source,
    referee: bool = False,
) -> None:
    """Ours is not the published value: further off than the tolerance, no further than the size written here.

    Both ends are asserted, so a miss can neither grow unseen nor stay on the list once it is mended.
    """
    value, ours = published or 0.0, float(ours)
    miss, limit, worst = abs(ours - value), allowed(tolerance, value), allowed(size, value)
    _note(row, published, ours, limit, tolerance, unit, source, referee, _told(size, unit), reason)
    assert miss > limit, f"{row} is met now ({ours:g} {unit}): state it with compare"
    assert miss <= worst, f"{row}: published {value:g}, ours {ours:g} {unit}; it was missed by {worst:g}"


def settle(test: str) -> None:
    """After a test has passed: its rows are those kept, with ours the same but for the last figure."""
    name = test.removeprefix("tests/literature/")
    rows = [row._replace(test=name) for row in ROWS]
    record = os.environ.get(RECORD)
    if record:
        with Path(record).open("a", encoding="utf-8") as file:
            file.writelines(json.dumps(row) + "\n" for row in rows)
        return
    before = _kept_by_test().get(name, [])
    now = [_stated(row) for row in rows]
    assert now == [_stated(row) for row in before], f"{name}: {BEHIND}"
    for row, old in zip(rows, before, strict=True):
        assert _same_but_for_the_last_figure(row.ours, old.ours), f"{row.row}: {row.ours} now, {BEHIND}"


def kept() -> list[Row]:
    """The rows as committed."""
    book = json.loads(KEPT.read_text(encoding="utf-8"))
    return [Row(test, *book["sources"][source], *fields) for source, test, *fields in book["rows"]]


def keep(rows: list[Row]) -> str:
    """The text of the kept file: each source once, each row a line."""
    sources = list(dict.fromkeys(row[1:4] for row in rows))
    lines = [[sources.index(row[1:4]), row.test, *row[4:]] for row in rows]

    def block(items: list[Any]) -> str:
        return ",\n".join(json.dumps(item, ensure_ascii=False) for item in items)

    return f'{{"sources": [\n{block(sources)}\n],\n"rows": [\n{block(lines)}\n]}}\n'


_CACHE: dict[str, list[Row]] = {}


def _kept_by_test() -> dict[str, list[Row]]:
    if not _CACHE:
        for row in kept():
            _CACHE.setdefault(row.test, []).append(row)
    return _CACHE


def _stated(row: Row) -> tuple[Any, ...]:
    """What the test's text says of a row, that is all but what is computed."""
    return row._replace(test="", ours="", difference="")


def _same_but_for_the_last_figure(a: str, b: str) -> bool:
    a, b = (text.removesuffix(" (referee)") for text in (a, b))
    figures = a.partition("e")[0].partition(".")[2]
    unit = 10.0 ** (-len(figures) + int(a.partition("e")[2] or 0))
    return abs(float(a) - float(b)) <= 1.01 * unit


def _told(tolerance: float | Share, unit: str) -> str:
    if isinstance(tolerance, Share):
        floor_told = f" or {tolerance.last_figure:g}" if tolerance.last_figure else ""
        return f"{tolerance.per_cent:g} %{floor_told}"
    return f"{tolerance:g} {unit}".strip()


def _shown(value: float, limit: float) -> str:
    """A number to a hundredth of the tolerance or so, at most nine figures."""
    if abs(value) < 1e-3 * limit:
        return "0"
    size = floor(log10(abs(value)))
    figures = 3
    if limit > 0.0:
        figures = min(max(size + 2 + ceil(-log10(limit)), 2), 9)
    if -4 <= size < 7:
        return f"{value:.{max(figures - 1 - size, 0)}f}"
    return f"{value:.{figures - 1}e}"


def _note(
    row: str,
    published: float | tuple[float, float] | None,
    ours: float,
    limit: float,
    tolerance: float | Share,
    unit: str,
    source: Source,
    referee: bool,
    missed_by: str = "",
    reason: str = "",
) -> None:
    told, difference, tolerance_told = "", "", _told(tolerance, unit)
    if isinstance(published, tuple):
        told, tolerance_told = f"{published[0]:.9g} to {published[1]:.9g}", "the range"
    elif published is not None:
        told = f"{published:.9g}"
        off = ours - published
        difference = "0" if abs(off) < 1e-3 * limit else f"{off:+.2g}"
    ours_told = _shown(ours, limit) + (" (referee)" if referee else "")
    ROWS.append(Row("", *source, row, unit, told, ours_told, difference, tolerance_told, missed_by, reason))
