"""The pages that follow from the code say what the code says; the theory's links and figures are there."""

import importlib.util
import re
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parent.parent.parent
NUMBER = re.compile(r"[-+]?\d+\.?\d*(?:e[-+]?\d+)?")
THEORY = sorted((ROOT / "docs" / "theory").glob("*.md"))


def builder(name: str) -> ModuleType:
    spec = importlib.util.spec_from_file_location(name, ROOT / "builders" / f"{name}.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("name", ["boat_row", "worked_example"])
def test_made_pages_are_what_the_code_says(name: str) -> None:
    made = builder(name)
    page, wanted = made.PAGE.read_text(encoding="utf-8"), made.page()
    assert NUMBER.sub("", page) == NUMBER.sub("", wanted), f"run builders/{name}.py"
    for line, (here, there) in enumerate(zip(page.splitlines(), wanted.splitlines(), strict=True), 1):
        numbers = [float(n) for n in NUMBER.findall(there)]
        # Six of seven digits: machines differ in the last. What is nothing but rounding is below 1e-7.
        assert [float(n) for n in NUMBER.findall(here)] == pytest.approx(numbers, rel=2e-6, abs=2e-7), (
            f"{made.PAGE.name}:{line}: run builders/{name}.py"
        )


@pytest.mark.parametrize("page", THEORY, ids=[p.stem for p in THEORY])
def test_links_lead_somewhere(page: Path) -> None:
    for target in re.findall(r"\]\(([^)#]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8")):
        if "://" not in target:
            assert (page.parent / target).exists(), f"{page.name}: {target}"


def test_every_theory_page_is_in_the_index() -> None:
    index = (ROOT / "docs" / "theory" / "README.md").read_text(encoding="utf-8")
    missing = [page.name for page in THEORY if page.name != "README.md" and page.name not in index]
    assert not missing
