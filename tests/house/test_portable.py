"""What is committed reads the same anywhere: no machine's folders, no servers, no carriage returns."""

import os
import re
import subprocess
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
BINARY = {".npz", ".png", ".jpg", ".pdf", ".ttf", ".otf", ".woff2", ".fit", ".pyc"}
# Written in two halves, so that this file does not find itself.
MACHINE_FOLDERS = ["work", "tmp", "root", "opt", "home", "Users"]
FORBIDDEN = {
    "a folder of one machine": r"(?<![\w.~<>/$}*-])/(?:" + "|".join(MACHINE_FOLDERS) + r")/",
    "a file outside this repository": "|".join(
        re.escape(first + rest)
        for first, rest in [
            ("shared", "/"),
            (".lib", "rary/"),
            ("hand", "book.md"),
            ("che", "cks.md"),
            ("style-", "anchors"),
            ("one-", "text.md"),
        ]
    ),
    "a server that packages come from": "|".join(
        re.escape(first + rest)
        for first, rest in [
            ("pypi", ".org"),
            ("python", "hosted"),
            ("registry.", "npmjs"),
            ("deb.", "debian"),
        ]
    ),
    "an issue by its number": r"\bissues? ?#\d|\bissues/\d",
}


@cache
def tracked_files() -> tuple[Path, ...]:
    """Files that are, or would be, committed; without git, all files outside hidden and made folders."""
    try:
        listed = subprocess.run(
            ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
            cwd=ROOT,
            capture_output=True,
            check=True,
            text=True,
        ).stdout.split("\0")
        found = [ROOT / name for name in listed if name]
    except (OSError, subprocess.CalledProcessError):
        found = []
        for here, folders, names in os.walk(ROOT):
            folders[:] = [
                name for name in folders if name == ".ci" or not name.startswith((".", "__", "demo-out"))
            ]
            found += [Path(here) / name for name in names]
    return tuple(path for path in found if path.is_file())


def text_files() -> list[Path]:
    return [path for path in tracked_files() if path.suffix not in BINARY]


@pytest.mark.parametrize("what", FORBIDDEN)
def test_no_file_names(what: str):
    pattern = re.compile(FORBIDDEN[what])
    hits = [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()}"
        for path in text_files()
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if pattern.search(line)
    ]
    assert not hits, "\n".join(hits)


def test_lines_end_in_one_way():
    crooked = [str(path.relative_to(ROOT)) for path in text_files() if b"\r" in path.read_bytes()]
    assert not crooked


def test_no_file_is_large():
    """Each table and picture travels with every install and every clone, for good."""
    large = [str(path.relative_to(ROOT)) for path in tracked_files() if path.stat().st_size > 3_000_000]
    assert not large


def test_names_differ_by_more_than_case():
    """Some systems do not tell `Boat.toml` from `boat.toml`."""
    names = [str(path.relative_to(ROOT)).casefold() for path in tracked_files()]
    assert len(names) == len(set(names))
