"""The tutorial as a newcomer goes through it: every command runs, and prints what the page says it prints."""

from __future__ import annotations

import importlib.util
import re
import sys
from pathlib import Path
from types import ModuleType

import pytest

pytestmark = pytest.mark.usefixtures("compiled_wind", "compiled_physics")
ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def tutorial() -> ModuleType:
    spec = importlib.util.spec_from_file_location("tutorial", ROOT / "builders" / "tutorial.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def page(tutorial, compiled_wind, compiled_physics) -> str:
    """The page as it comes out when every command is run now."""
    with tutorial.bench_of_work():
        return tutorial.page()


def test_the_page_quotes_what_the_commands_print(tutorial, page):
    kept = tutorial.PAGE.read_text(encoding="utf-8")
    for line, (ours, now) in enumerate(zip(kept.splitlines(), page.splitlines(), strict=False), 1):
        assert ours == now, f"docs/tutorial/README.md:{line}: run builders/tutorial.py"
    assert kept == page


def test_the_sheet_is_what_its_builder_makes(tutorial):
    assert tutorial.SHEET.read_text(encoding="utf-8") == tutorial.sheet_text(), "run builders/tutorial.py"


def test_every_command_on_the_page_was_run_and_every_file_it_names_is_there(tutorial, page):
    blocks = re.findall(r"```sh\n(.*?)```", page, re.DOTALL)
    commands = [line for block in blocks for line in block.splitlines() if line.startswith("foilwright ")]
    text = tutorial.TEXT.read_text(encoding="utf-8")
    for command in commands:
        assert f"<<{command}" in text
    assert {command.split()[1] for command in commands} == {
        "check",
        "chain",
        "fly",
        "bench",
        "card",
        "effects",
        "day",
    }
    for name in re.findall(r"\]\(([^)#:]+?)(?:#[^)]*)?\)", page):
        assert (tutorial.TUTORIAL / name).exists(), name
    for name in re.findall(r"docs/tutorial/\S+?(?=[\s`])", page):
        assert (ROOT / name).exists(), name


def test_it_shows_what_it_is_for(page):
    """A slip named with the column, what was not measured, and what the sheet taught."""
    assert "wand_deg is likelier wrong" in page
    assert "Assumed, because the boat file does not say" in page
    assert page.count("Worked out, not sailed") >= 2
    assert "gives nobody leave to sail" in page and "do the swing check" in page
