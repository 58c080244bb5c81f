"""Writes the tutorial: its bench sheet, and its page with every command run and its true output quoted.

    python builders/tutorial.py              the page and the sheet
    python builders/tutorial.py --pictures   the pictures of the two cards as well (needs pdftoppm)

The words stand in `tutorial_text.md` beside this file. A line `<<COMMAND>>` becomes the command and what it
printed; `<<COMMAND >> FROM >> TO>>` quotes only the lines from the first that contains FROM to the last
before one that contains TO. `tests/whole_way/test_tutorial.py` holds the page in step.
"""

from __future__ import annotations

import contextlib
import io
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from builders.demo_bench import (  # noqa: E402
    as_written,
    commented,
    drawn_truth,
    head_of,
    read_by_people,
    template,
    true_model,
)
from foilwright.cli.main import run  # noqa: E402
from foilwright.documents.bench_blank import blank_sheet, csv_text  # noqa: E402
from foilwright.documents.boat_file import read_boat  # noqa: E402
from foilwright.documents.boat_numbers import ready  # noqa: E402

TUTORIAL = ROOT / "docs" / "tutorial"
TEXT = Path(__file__).with_name("tutorial_text.md")
PAGE, BOAT, SHEET = TUTORIAL / "README.md", TUTORIAL / "teasel.toml", TUTORIAL / "teasel-bench.csv"
DAY = TUTORIAL / "first-day.toml"
PICTURES = (
    ("teasel.pdf", "first-card"),
    ("teasel-measured.pdf", "measured-card"),
    ("first-day/teasel-card.pdf", "first-day-card"),
)
SEED = 6
SLIP = ("batten,,,60,forward,,,", "batten,,,50,forward,,,")  # the wand was held at 60, somebody wrote 50
WIDTH = "100"
QUOTE = re.compile(r"^<<(.+?)(?: >> (.+?))?(?: >> (.+?))?>>$", re.MULTILINE)


def sheet_text() -> str:
    """What two people might have read on Teasel; the boat differs from its twelve numbers as boats do."""
    boat = ready(read_boat(BOAT))
    bench = template(boat)
    random = np.random.default_rng(SEED)
    truth = drawn_truth(bench, random, 0.7)
    readings = as_written(bench.sheet, read_by_people(bench, truth, true_model(bench, truth), random))
    text = csv_text(head_of(boat.file), blank_sheet(boat.file), readings)
    text = text.replace("builders/demo_bench.py", "builders/tutorial.py")
    assert text.count(SLIP[0]) == 1
    return commented(
        "Bench sheet of the invented boat Teasel. Every reading is invented.", text.replace(*SLIP)
    )


@contextlib.contextmanager
def bench_of_work() -> Iterator[Path]:
    """An empty folder with the tutorial's files, as the reader has it."""
    here, width = Path.cwd(), os.environ.get("COLUMNS")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for source in (BOAT, SHEET, DAY):
            shutil.copy(source, folder)
        os.chdir(folder)
        os.environ["COLUMNS"] = WIDTH
        try:
            yield folder
        finally:
            os.chdir(here)
            os.environ.pop("COLUMNS")
            if width is not None:
                os.environ["COLUMNS"] = width


def said(command: str) -> str:
    """What a command prints; a tutorial's command must end well."""
    program, *words = shlex.split(command)
    assert program == "foilwright", command
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = run(words)
    if code:
        raise SystemExit(f"{command}: exit code {code}\n{err.getvalue()}")
    return "\n".join(line.rstrip() for line in out.getvalue().strip("\n").splitlines())


def quoted(output: str, start: str | None, end: str | None) -> str:
    """The lines asked for, with an ellipsis where lines were left out."""
    lines = output.splitlines()
    first = next(i for i, line in enumerate(lines) if start in line) if start else 0
    last = next((i for i, line in enumerate(lines) if i > first and end in line), None) if end else len(lines)
    if last is None:
        raise SystemExit(f"no line with {end!r} after {start!r}")
    kept = lines[first:last]
    while kept and not kept[-1]:
        kept.pop()
    return "\n".join([*(["..."] if first else []), *kept, *(["..."] if last < len(lines) else [])])


def page() -> str:
    """docs/tutorial/README.md; its commands are run in the folder that is current."""
    outputs: dict[str, str] = {}

    def shown(found: re.Match[str]) -> str:
        command, start, end = found.groups()
        fresh = command not in outputs
        if fresh:
            outputs[command] = said(command)
        quote = quoted(outputs[command], start, end)
        asked = f"```sh\n{command}\n```\n\n" if fresh else ""
        return f"{asked}```text\n{quote}\n```" if quote else asked.rstrip()

    text = TEXT.read_text(encoding="utf-8").replace("<<BOAT>>", BOAT.read_text(encoding="utf-8").rstrip())
    text = text.replace("<<DAY>>", DAY.read_text(encoding="utf-8").rstrip())
    return QUOTE.sub(shown, text)


def main() -> None:
    SHEET.write_text(sheet_text(), encoding="utf-8")
    with bench_of_work() as folder:
        PAGE.write_text(page(), encoding="utf-8")
        if "--pictures" in sys.argv:
            for made, name in PICTURES:
                command = ["pdftoppm", "-png", "-gray", "-r", "80", "-singlefile", str(folder / made)]
                subprocess.run([*command, str(TUTORIAL / name)], check=True)


if __name__ == "__main__":
    main()
