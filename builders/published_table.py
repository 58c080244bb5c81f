"""Runs tests/literature and writes what they compared: docs/theory/published-values.md.

    python builders/published_table.py

The rows themselves are kept beside the tests in data/published_rows.json, against which every test of
tests/literature checks its own when it runs; tests/house/test_published.py holds the page against them.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from tests.literature.published import KEPT, RECORD, Row, keep  # noqa: E402

PAGE = ROOT / "docs" / "theory" / "published-values.md"

HEAD = """\
# Published values, and ours

What the physics is held against, row by row. The tests under `tests/literature` state each value once, with
its source and its tolerance; this page is written from them by `builders/published_table.py` and is not
edited by hand.

- **ours** is what this package computes. Where *(referee)* stands behind it, the number comes from a
  yardstick beside the tests (a vortex lattice, a thin plate, a closed form): the yardstick is right.
- **difference** is ours less the published value, in the row's own unit.
- **published** is empty where ours is already a difference, from a curve or a table kept beside the tests.
- **missed** values are further off than the tolerance. They are asserted too: the miss may not grow beyond
  the size written here, and a miss that is mended has to leave the list.
- A value from memory stands beside a computed one or a closed form, but for these, where nothing firmer could
  be opened: the angle at which a strut ventilates, spray and junction drag (their formulas are from memory),
  the force on a paddle, the drag area of a person.

"""


def recorded() -> list[Row]:
    """Run the tests of published values and gather their rows."""
    with tempfile.TemporaryDirectory() as folder:
        record = Path(folder) / "rows"
        env = {**os.environ, RECORD: str(record)}
        command = [sys.executable, "-m", "pytest", "tests/literature", "-q", "-p", "no:cacheprovider"]
        subprocess.run(command, cwd=ROOT, env=env, check=True)
        lines = record.read_text(encoding="utf-8").splitlines()
    rows = [Row(*json.loads(line)) for line in lines]
    names = [(row.topic, row.row) for row in rows]
    twice = {name for name in names if names.count(name) > 1}
    if twice:
        raise SystemExit(f"rows of one name under one heading: {sorted(twice)}")
    return rows


def page(rows: list[Row]) -> str:
    """The whole page."""
    topics = sorted({row.topic for row in rows})
    text = [HEAD, overview(rows, topics), missed_values(rows, topics)]
    text += [topic_rows(topic, [row for row in rows if row.topic == topic]) for topic in topics]
    return "\n".join(text)


def overview(rows: list[Row], topics: list[str]) -> str:
    lines = ["| about | rows | of them yardsticks | missed |", "|---|---:|---:|---:|"]
    for topic in topics:
        mine = [row for row in rows if row.topic == topic]
        lines.append(f"| [{topic}](#{anchor(topic)}) | {counts(mine)} |")
    lines.append(f"| all | {counts(rows)} |")
    return "\n".join(lines) + "\n"


def counts(rows: list[Row]) -> str:
    yardsticks = sum(row.ours.endswith("(referee)") for row in rows)
    return f"{len(rows)} | {yardsticks} | {sum(bool(row.missed_by) for row in rows)}"


def missed_values(rows: list[Row], topics: list[str]) -> str:
    lines = [
        "## What is missed",
        "",
        "| value | published | ours | difference | tolerance | held within | reason |",
        "|---|---:|---:|---:|---|---|---|",
    ]
    for topic in topics:
        for row in rows:
            if row.topic == topic and row.missed_by:
                lines.append(
                    f"| {topic}: {row.row} | {row.published} | {with_unit(row)} | {row.difference} "
                    f"| {row.tolerance} | {row.missed_by} | {row.reason} |"
                )
    return "\n".join(lines) + "\n"


def topic_rows(topic: str, rows: list[Row]) -> str:
    sources = list(dict.fromkeys((row.source, row.provenance) for row in rows))
    lines = [f"## {topic}", ""]
    for number, (source, provenance) in enumerate(sources, 1):
        lines.append(f"{number}. {source}: *{provenance}*")
    lines += [
        "",
        "| value | published | ours | difference | tolerance | source |",
        "|---|---:|---:|---:|---|---:|",
    ]
    for row in rows:
        number = sources.index((row.source, row.provenance)) + 1
        tolerance = f"**missed**: {row.tolerance}" if row.missed_by else row.tolerance
        lines.append(
            f"| {row.row} | {row.published} | {with_unit(row)} | {row.difference} | {tolerance} | {number} |"
        )
    return "\n".join(lines) + "\n"


def with_unit(row: Row) -> str:
    value, mark, _ = row.ours.partition(" (referee)")
    return f"{value} {row.unit}".strip() + (" *(referee)*" if mark else "")


def anchor(topic: str) -> str:
    """The heading's address, as the common renderers of Markdown make it."""
    kept = "".join(c for c in topic.lower() if c.isalnum() or c in " -")
    return kept.replace(" ", "-")


def main() -> None:
    rows = recorded()
    KEPT.write_text(keep(rows), encoding="utf-8")
    PAGE.write_text(page(rows), encoding="utf-8")
    print(f"{len(rows)} rows, {sum(bool(row.missed_by) for row in rows)} missed")


if __name__ == "__main__":
    main()
