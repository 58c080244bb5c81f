"""The lock files pin all that pyproject.toml asks for, by hash, and hold no address."""

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

ROOT = Path(__file__).resolve().parents[2]
ALL = "requirements.lock"
RUNTIME = "requirements-runtime.lock"
CONFIGURATION = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
PROJECT = CONFIGURATION["project"]
BACKEND = CONFIGURATION["build-system"]["requires"]
WANTED = {
    ALL: PROJECT["dependencies"] + PROJECT["optional-dependencies"]["dev"],
    RUNTIME: PROJECT["dependencies"],
}


def pins(file: str) -> dict[str, tuple[Version, list[str]]]:
    """Name of each pinned package to its version and hashes."""
    text = (ROOT / file).read_text(encoding="utf-8").replace("\\\n", " ")
    found: dict[str, tuple[Version, list[str]]] = {}
    for line in text.splitlines():
        if line and not line.startswith("#"):
            words, *hashes = re.split(r"\s+--hash=", line.strip())
            requirement = Requirement(words)
            [exact] = requirement.specifier
            assert exact.operator == "==", line
            name = str(canonicalize_name(requirement.name))
            assert name not in found, f"{name} is pinned twice: answers would depend on the Python"
            found[name] = (Version(exact.version), hashes)
    return found


@pytest.mark.parametrize("file", [ALL, RUNTIME])
def test_every_pin_has_hashes(file: str):
    for name, (_, hashes) in pins(file).items():
        assert hashes, name
        assert all(re.fullmatch(r"sha256:[0-9a-f]{64}", one) for one in hashes), name


@pytest.mark.parametrize("file", [ALL, RUNTIME])
def test_no_addresses(file: str):
    text = (ROOT / file).read_text(encoding="utf-8")
    assert not re.search(r"://|^\s*-|\bindex\b|@ |find-links", text.replace("    --hash=", ""), re.MULTILINE)


@pytest.mark.parametrize("file", [ALL, RUNTIME])
def test_all_that_is_asked_for_is_pinned(file: str):
    pinned = pins(file)
    for asked in map(Requirement, WANTED[file]):
        version, _ = pinned[canonicalize_name(asked.name)]
        assert version in asked.specifier, f"{asked} but {version} is pinned: run make lock"


def test_users_get_what_developers_test():
    everything = pins(ALL)
    for name, pin in pins(RUNTIME).items():
        assert everything[name] == pin


def test_the_build_backend_is_pinned():
    pinned = pins(ALL)
    for asked in map(Requirement, BACKEND):
        assert pinned[canonicalize_name(asked.name)][0] in asked.specifier
