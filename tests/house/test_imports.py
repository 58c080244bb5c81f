"""The arrows between the rooms point down, every module has a floor, and names say what is inside."""

import ast
import tomllib
from pathlib import Path

import pytest
from importlinter.cli import lint_imports

from foilwright.compiled import KERNEL_ROOMS

ROOT = Path(__file__).resolve().parents[2]
HOUSE = ROOT / "src" / "foilwright"
CONFIGURATION = ROOT / "pyproject.toml"
JUNK_DRAWERS = {"utils", "util", "helpers", "helper", "common", "misc", "tools", "lib", "base", "stuff"}


def floors() -> list[str]:
    """The layers of the first contract, top floor first."""
    contracts = tomllib.loads(CONFIGURATION.read_text(encoding="utf-8"))["tool"]["importlinter"]["contracts"]
    [layers] = [contract["layers"] for contract in contracts if contract["type"] == "layers"]
    return [str(layer) for layer in layers]


def rooms_with_a_floor() -> set[str]:
    words = " ".join(floors()).replace("|", " ").replace(":", " ").replace("(", " ").replace(")", " ")
    return set(words.split())


def modules() -> list[Path]:
    return sorted(HOUSE.rglob("*.py"))


def test_contracts_are_kept(monkeypatch, capsys):
    monkeypatch.chdir(ROOT)
    assert lint_imports(config_filename=str(CONFIGURATION), no_cache=True, no_logo=True) == 0, (
        capsys.readouterr().out
    )


def test_every_module_belongs_to_a_floor():
    found = {path.relative_to(HOUSE).parts[0].removesuffix(".py") for path in modules()} - {"__init__"}
    homeless = sorted(found - rooms_with_a_floor())
    assert not homeless, f"no floor in pyproject.toml's first contract for {homeless}"


def test_every_room_is_a_package():
    """Without `__init__.py` a folder escapes the contracts."""
    bare = {
        str(path.parent.relative_to(ROOT)) for path in modules() if not (path.parent / "__init__.py").exists()
    }
    assert not bare


def test_no_junk_drawers():
    drawers = [
        str(path.relative_to(ROOT)) for path in modules() if JUNK_DRAWERS & {path.stem, path.parent.name}
    ]
    assert not drawers


@pytest.mark.parametrize("room", ["flight", "linkage", "water", "air"])
def test_every_room_below_the_documents_stays_there(room: str):
    """Someone who reorders the floors to silence an import must also change this line."""
    order = {
        name: number for number, layer in enumerate(floors()) for name in layer.replace("|", " ").split()
    }
    assert order[room] > order["documents"] > order["jobs"] > order["cli"]


def test_what_may_be_compiled_knows_only_what_is_hashed():
    """The kept code is found by the hash of the kernel rooms, so nothing they name may come from elsewhere.

    `mistakes` holds no number that a kernel could freeze in.
    """
    allowed = {*KERNEL_ROOMS, "mistakes"}
    for path in modules():
        room = path.relative_to(HOUSE).parts[0].removesuffix(".py")
        if room in KERNEL_ROOMS and room != "compiled":
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("foilwright."):
                    assert (node.module or "").split(".")[1] in allowed, (path, node.module)
