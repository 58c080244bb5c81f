#!/usr/bin/env python3
"""Everything a developer does here, with nothing but Python and its pip: `python3 dev.py demo`.

The first call makes `.venv` in this folder from the hashed pins of requirements.lock; later calls reuse it
until the pins or pyproject.toml change. Standard library only, and written so that Pythons from 3.7 on can
read it and say that they are too old.
"""

from __future__ import annotations

import hashlib
import importlib.util
import os
import shutil
import stat
import subprocess
import sys
import tempfile
import time
import urllib.request
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
LOCK = ROOT / "requirements.lock"
RUNTIME_LOCK = ROOT / "requirements-runtime.lock"
OLDEST_PYTHON = (3, 11)
DEMO_OUT = "demo-out"
PAGE_SAMPLES = (
    "flight",
    "bench",
    "static/flight.js",
    "static/style.css",
    "fonts/AtkinsonHyperlegibleNext-latin-Regular.woff2",
    "ask/drawing?boat=Marram",
    "ask/sweep?boat=Marram&speed=12",
    "boats",
)
PAGE_TESTS = "tests/whole_way/page"
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
FUZZ_EXAMPLES = "500"  # of each route and kind; FOILWRIGHT_FUZZ names another number
CARD_ENDINGS = (".pdf", ".html", ".txt", ".png", ".svg")

VERBS = {
    "demo": "an invented day, prepared: sheets, cards and a summary land in demo-out",
    "test": "the whole test suite on two cores, about five minutes; what follows goes to pytest",
    "test-postgres": "the tests of the store on PostgreSQL: a throwaway server, or FOILWRIGHT_POSTGRES",
    "test-page": "the tests of the page in a real browser, about three minutes (needs Chromium on the PATH)",
    "fuzz": "every route of the page with thousands of drawn inputs, other ones each time",
    "serve": "the page on this machine, until Ctrl-C",
    "check": "lint, format, types and the arrows between the rooms",
    "tidy": "mend what lint and format can mend by themselves",
    "bench": "the benchmarks, or those named",
    "study": "the studies behind modelling choices, or those named",
    "wheel-check": "build a wheel, install it elsewhere, run its demo and page where nothing may be written",
    "lock": "choose the pins anew (needs uv)",
    "setup": "make or refresh .venv; every verb above does so by itself",
}


class CannotGoOn(Exception):
    """One sentence for the person at the terminal: what is wrong and what to do."""


def main(arguments: list[str]) -> int:
    """Run one verb; every failure that we foresee is one sentence on stderr."""
    verb, *rest = arguments or ["help"]
    if verb in ("help", "-h", "--help"):
        print("python3 dev.py VERB, or make VERB:\n")
        print("\n".join(f"  {name:12} {what}" for name, what in VERBS.items()))
        return 0
    try:
        if verb not in VERBS:
            raise CannotGoOn(f"there is no verb {verb}; there are {', '.join(VERBS)}.")
        refuse_old_python()
        if verb == "lock":
            return lock()
        set_up()
        if verb == "demo":
            return demo()
        if verb == "test":
            # The tests in a browser are `test-page`: this verb needs nothing but Python.
            words = ["-n", "2", "--dist", "worksteal", f"--ignore={PAGE_TESTS}", *rest]
            return run([python_of(VENV), "-m", "pytest", *words])
        if verb == "test-page":
            return test_page(rest)
        if verb == "fuzz":
            os.environ.setdefault("FOILWRIGHT_FUZZ", FUZZ_EXAMPLES)
            words = ["-n", "2", "--dist", "worksteal", "tests/web/test_fuzz.py", *rest]
            return run([python_of(VENV), "-m", "pytest", *words])
        if verb == "serve":
            return run([tool("foilwright"), "serve", *rest])
        if verb == "test-postgres":
            return run([python_of(VENV), "-m", "tests.store.on_postgres", "-q", *rest])
        if verb == "check":
            return check()
        if verb == "tidy":
            return run([tool("ruff"), "check", "--fix", "."]) or run([tool("ruff"), "format", "."])
        if verb == "bench":
            return run_scripts("benchmarks", rest)
        if verb == "study":
            return run_scripts("studies", rest)
        if verb == "wheel-check":
            return wheel_check()
        return 0
    except CannotGoOn as reason:
        print(f"dev.py: {reason}", file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        print("dev.py: stopped.", file=sys.stderr)
        return 4


# The environment -----------------------------------------------------------------------------------------


def refuse_old_python() -> None:
    """Stop early, in words, when this Python cannot run the package."""
    if sys.version_info < OLDEST_PYTHON:
        wanted = ".".join(map(str, OLDEST_PYTHON))
        raise CannotGoOn(
            f"foilwright needs Python {wanted} or newer and this is {sys.version.split()[0]}; "
            f"run it as python{wanted} dev.py, or as make PYTHON=python{wanted}."
        )


def set_up() -> None:
    """Make `.venv` from the pins, or leave it as it is when nothing that it was made from has changed."""
    pins_stamp = VENV / "made-from-pins"
    package_stamp = VENV / "made-from-package"
    # The folder's own path is part of the stamp: a virtual environment does not survive being moved.
    pins = digest(LOCK.read_bytes(), sys.version.encode(), str(ROOT).encode())
    package = digest(pins.encode(), (ROOT / "pyproject.toml").read_bytes())
    if read_or_empty(pins_stamp) != pins:
        print("dev.py: making .venv from requirements.lock (a minute or two, once)", flush=True)
        make_environment(VENV, LOCK, "--no-compile")
        # On every core, which pip does not do. Without it the first command, or every one where no bytecode
        # may be written, takes seconds. Some packages hold files that are no Python of this version.
        packages = next(VENV.glob("[Ll]ib*/**/site-packages"))
        run([python_of(VENV), "-m", "compileall", "-qq", "-j", "0", str(packages), str(ROOT / "src")])
        pins_stamp.write_text(pins)
    if read_or_empty(package_stamp) != package:
        install(VENV, "--no-deps", "--no-build-isolation", "--editable", str(ROOT))
        package_stamp.write_text(package)


def make_environment(folder: Path, pins: Path, *more: str) -> None:
    """A fresh virtual environment holding exactly the pinned packages, each checked against its hash."""
    has_bundled_pip = importlib.util.find_spec("ensurepip") is not None
    if not has_bundled_pip and importlib.util.find_spec("pip") is None:
        raise CannotGoOn("this Python has no pip; install your system's package for pip and try again.")
    try:
        venv.create(folder, clear=True, with_pip=has_bundled_pip, symlinks=os.name != "nt")
    except (OSError, subprocess.CalledProcessError) as fault:
        raise CannotGoOn(f"could not make the virtual environment {folder}: {fault}.") from None
    install(folder, *more, "--require-hashes", "--requirement", str(pins))


def install(folder: Path, *arguments: str) -> None:
    """Install into a virtual environment."""
    if pip(folder, "install", *arguments) != 0:
        raise CannotGoOn(
            "pip could not install this; its words are above, and what they mean is in CONTRIBUTING.md."
        )


def pip(folder: Path, verb: str, *arguments: str) -> int:
    """Run pip on a virtual environment: its own pip, or this Python's where it was made without."""
    words = [python_of(folder), "-m", "pip"]
    if importlib.util.find_spec("ensurepip") is None:
        words = [sys.executable, "-m", "pip", "--python", python_of(folder)]
    return run([*words, verb, "--quiet", "--no-input", "--disable-pip-version-check", *arguments])


def lock() -> int:
    """Choose the pins anew for all systems and Pythons at once; neither file holds an address."""
    uv = shutil.which("uv")
    if uv is None:
        raise CannotGoOn("choosing pins needs uv; install it first, for example with pip install uv.")
    shape = "--universal --python-version 3.11 --fork-strategy fewest --generate-hashes --upgrade --quiet"
    plain = "--no-emit-index-url --no-emit-find-links --no-header --no-annotate"
    for target, extras in ((LOCK, ["--extra", "dev"]), (RUNTIME_LOCK, ["--constraint", str(LOCK)])):
        words = [uv, "pip", "compile", "pyproject.toml", *extras, *shape.split(), *plain.split()]
        code = run([*words, "--output-file", str(target)])
        if code != 0:
            return code
        pins = target.read_text(encoding="utf-8")
        target.write_text(f"# Written by: python3 dev.py lock\n{pins}", encoding="utf-8", newline="\n")
    return 0


# The verbs -----------------------------------------------------------------------------------------------


def demo() -> int:
    """Run the demo and end with full paths, so that the cards can be opened from the terminal."""
    out = ROOT / DEMO_OUT
    started = time.time()
    code = run([tool("foilwright"), "demo", "--out", str(out)])
    if code == 0:
        fresh = [card for card in cards_in(out) if card.stat().st_mtime >= started - 2.0]
        print(f"\nThe sheets, the cards and summary.md are in {out}:")
        for card in fresh:
            print(f"  {card.relative_to(out)}")
        print("\nmake serve (or python3 dev.py serve) opens the page with the same boats.")
    return code


def cards_in(out: Path) -> list[Path]:
    """What the demo left for people to look at, in the order of their names."""
    return sorted(file for file in out.rglob("*") if file.suffix in CARD_ENDINGS)


def test_page(rest: list[str]) -> int:
    """The tests of the page; without a browser that is a failure, not a pass."""
    if not any(shutil.which(name) for name in BROWSERS):
        raise CannotGoOn(
            f"no browser was found: put one of {', '.join(BROWSERS)} on the PATH. Nothing was tested."
        )
    return run([python_of(VENV), "-m", "pytest", "-n", "2", "--dist", "worksteal", PAGE_TESTS, *rest])


def check() -> int:
    """Every check, even after one has failed, and a last line that names the failed ones."""
    checks = {
        "lint": [tool("ruff"), "check", "--output-format", "concise", "."],
        "format": [tool("ruff"), "format", "--check", "."],
        "types": [tool("mypy")],
        "arrows": [tool("lint-imports"), "--no-logo", "--no-cache"],
    }
    failed = []
    for name, command in checks.items():
        print(f"-- {name}", flush=True)
        if run(command) != 0:
            failed.append(name)
    if failed:
        print(
            f"dev.py: failed: {', '.join(failed)}; CONTRIBUTING.md says how to repair each.", file=sys.stderr
        )
        return 1
    print("All checks passed.")
    return 0


def run_scripts(folder: str, named: list[str]) -> int:
    """Run the Python scripts of a folder, or those named, or those in the folders named."""
    scripts = {
        file.relative_to(ROOT / folder).with_suffix("").as_posix(): file
        for file in sorted((ROOT / folder).rglob("*.py"))
        if not file.name.startswith("_")
    }
    chosen = [name for name in scripts if not named or any(f"{name}/".startswith(f"{one}/") for one in named)]
    if not scripts:
        raise CannotGoOn(f"there is no script in {folder} yet.")
    if not chosen:
        raise CannotGoOn(f"{folder} has {', '.join(scripts)}; name some of these, or none to run all.")
    failed = 0
    # Some of them call a referee that lives in tests/.
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    for name in chosen:
        print(f"-- {name}", flush=True)
        failed += run([python_of(VENV), str(scripts[name])], environment) != 0
    return 1 if failed else 0


def wheel_check() -> int:
    """Is the package whole without this checkout? Its demo must run from an installed, untouched copy.

    The compiled physics is that of this checkout, being the same text: compiling it again takes minutes, and
    that it works where nothing can be kept is tested in tests/laws/test_compiled.py.
    """
    with tempfile.TemporaryDirectory(prefix="foilwright-wheel-") as name:
        place = Path(name).resolve()
        wheel = build_wheel(place / "wheel")
        print(f"dev.py: built {wheel.name}, {wheel.stat().st_size / 1024:.0f} KiB", flush=True)
        installed = place / "installed"
        make_environment(installed, RUNTIME_LOCK)
        install(installed, "--no-deps", str(wheel))
        try:
            write_protect(installed, True)
            before = listing(installed)
            out = place / "cards"
            code = run(
                [script_of(installed, "foilwright"), "demo", "--out", str(out)],
                bare_environment(place),
                place,
            )
            if code != 0:
                raise CannotGoOn(f"the demo of the installed wheel ended with exit code {code}.")
            changed = sorted(set(listing(installed).items()) ^ set(before.items()))
            if changed:
                raise CannotGoOn(f"the demo wrote into its own installation, first at {changed[0][0]}.")
            if not cards_in(out):
                raise CannotGoOn("the demo of the installed wheel made no card.")
            print(f"dev.py: the installed wheel made {len(cards_in(out))} cards and left itself untouched.")
            serve_from(installed, place)
            if listing(installed) != before:
                raise CannotGoOn("the page wrote into its own installation.")
        finally:
            write_protect(installed, False)
    return 0


def serve_from(installed: Path, place: Path) -> None:
    """Does the page of an installed copy answer? And where the home cannot be written, does it say so?"""
    words = [script_of(installed, "foilwright"), "serve", "--port", "0"]
    bare = bare_environment(place)
    refused = subprocess.run(words, cwd=place, env=bare, capture_output=True, text=True, timeout=120)
    if refused.returncode != 2 or "--data" not in refused.stderr:
        raise CannotGoOn(f"serve with a home that cannot be written ended in other words: {refused.stderr}")
    serving = subprocess.Popen(
        [*words, "--data", str(place / "data")], cwd=place, env=bare, stdout=subprocess.PIPE, text=True
    )
    try:
        assert serving.stdout is not None
        home = serving.stdout.readline().strip()
        if not home:
            raise CannotGoOn("serve of the installed wheel ended without saying an address.")
        for path in PAGE_SAMPLES:
            with urllib.request.urlopen(home + path, timeout=120) as answer:
                if answer.status != 200 or not answer.read():
                    raise CannotGoOn(f"the page of the installed wheel has no {path}.")
        print(f"dev.py: the page of the installed wheel answered {len(PAGE_SAMPLES)} questions.")
    except OSError as fault:
        raise CannotGoOn(f"the page of the installed wheel does not answer: {fault}.") from None
    finally:
        serving.terminate()
        serving.wait(timeout=60)


def build_wheel(folder: Path) -> Path:
    """Build the wheel with the pinned build backend."""
    words = ["--no-deps", "--no-build-isolation", "--wheel-dir", str(folder), str(ROOT)]
    if pip(VENV, "wheel", *words) != 0:
        raise CannotGoOn("the wheel could not be built (the build's own words are above).")
    return next(folder.glob("*.whl"))


def bare_environment(place: Path) -> dict[str, str]:
    """Almost no variables, and a home that not even an administrator can write to: below a file. Only the
    compiled physics lies where it can be written."""
    not_a_folder = place / "not-a-folder"
    not_a_folder.touch()
    home = str(not_a_folder / "home")
    homes = ("USERPROFILE", "LOCALAPPDATA", "APPDATA") if os.name == "nt" else ("HOME",)
    # Windows starts no process without the first; the others say where scratch files may go.
    kept = ("SYSTEMROOT", "TEMP", "TMP") if os.name == "nt" else ("TMPDIR",)
    bare = {name: os.environ[name] for name in kept if name in os.environ} | dict.fromkeys(homes, home)
    return {**bare, "FOILWRIGHT_CACHE": kept_physics()}


def kept_physics() -> str:
    """The folder in which this checkout keeps what it has compiled."""
    words = [python_of(VENV), "-I", "-c", "from foilwright.compiled import cache_home; print(cache_home())"]
    return subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True).stdout.strip()


def write_protect(folder: Path, protect: bool) -> None:
    """Take the right to write from a folder and all in it, or give it back so that it can be removed."""
    for here, _, files in os.walk(folder):
        for path in [Path(here), *(Path(here) / file for file in files)]:
            if not path.is_symlink():
                mode = path.stat().st_mode
                path.chmod(mode & ~0o222 if protect else mode | stat.S_IWUSR)


def listing(folder: Path) -> dict[str, tuple[int, int]]:
    """Size and time of every file: an administrator can write to protected files, so we also look."""
    files = (path for path in folder.rglob("*") if path.is_file())
    return {str(path): (path.stat().st_size, path.stat().st_mtime_ns) for path in files}


# Small things --------------------------------------------------------------------------------------------


def run(command: list[str], environment: dict[str, str] | None = None, folder: Path = ROOT) -> int:
    """Run a command in a folder and return its exit code; a foreign PYTHONPATH must not reach it."""
    if environment is None:
        environment = {k: v for k, v in os.environ.items() if k not in ("PYTHONPATH", "PYTHONHOME")}
    try:
        return subprocess.run(command, cwd=folder, env=environment, check=False).returncode
    except FileNotFoundError:
        raise CannotGoOn(f"{command[0]} is missing; delete the folder .venv and try again.") from None


def tool(name: str) -> str:
    """A program installed in `.venv`."""
    return script_of(VENV, name)


def python_of(folder: Path) -> str:
    """The Python of a virtual environment."""
    return script_of(folder, "python")


def script_of(folder: Path, name: str) -> str:
    """A program of a virtual environment, where each system keeps it."""
    return str(folder / "Scripts" / f"{name}.exe" if os.name == "nt" else folder / "bin" / name)


def digest(*parts: bytes) -> str:
    """One short name for all that a thing was made from."""
    whole = hashlib.sha256()
    for part in parts:
        whole.update(hashlib.sha256(part).digest())
    return whole.hexdigest()


def read_or_empty(file: Path) -> str:
    """A small file's text, or nothing when it is not there."""
    return file.read_text() if file.is_file() else ""


if __name__ == "__main__":
    started = time.monotonic()
    exit_code = main(sys.argv[1:])
    if "CI" in os.environ:
        print(f"dev.py: {' '.join(sys.argv[1:])}: {time.monotonic() - started:.0f} s", flush=True)
    sys.exit(exit_code)
