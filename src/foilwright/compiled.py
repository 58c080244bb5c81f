"""The one place that turns the plain physics into compiled physics, and maps it over threads.

Physics files hold ordinary functions. Here a function is copied together with every function of ours
that it names, and each copy is wrapped for its target: compiled for threads (`compiled`), for a graphics
card (`for_card`), or with the names of `math` swapped for others (`rebuilt`, for the derivative referee in
the tests). Of compiled functions only the outermost is kept on disk.

The kept code lives in a private folder of this user, named by the hash of every source file that may
hold what is compiled, since the compiler's own cache does not see an edit in a function called from
another file. Those files are named in `KERNEL_ROOMS`; a function from elsewhere is refused. Where the package
lies does not matter: a copy installed elsewhere with the same sources finds what this one kept.
Where no such folder can be written the code is compiled again in each process.
"""

import hashlib
import os
import shutil
import stat
import sys
import tempfile
import threading
import time
import types
from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from functools import cache
from pathlib import Path
from typing import Any, cast

import numpy as np

PACKAGE = Path(__file__).resolve().parent
KERNEL_ROOMS = (
    "axes",
    "compiled",
    "measures",
    "outcomes",
    "smooth",
    "linkage",
    "water",
    "air",
    "flight",
    "evidence",
)
"""Modules and rooms whose functions may be compiled, with all that they name; nothing else is in the hash."""

KEEP_OLD_DAYS = 14.0
SLICE_SECONDS = 0.2
ONE_AT_A_TIME = threading.RLock()


def is_ours(value: object) -> bool:
    """Whether a name stands for one of our own plain functions."""
    return isinstance(value, types.FunctionType) and value.__module__.startswith("foilwright.")


def rebuilt(
    function: types.FunctionType,
    wrap: Callable[[types.FunctionType], Any],
    swaps: Mapping[Any, Any],
    done: dict[types.FunctionType, Any],
) -> Any:
    """A copy of `function` and of all of ours that it calls, each wrapped; `swaps` replaces other values.

    `done` maps what was copied already, so that shared functions are copied once.
    """
    if function not in done:
        names = dict(function.__globals__)
        for name in function.__code__.co_names:
            value = names.get(name)
            if is_ours(value):
                names[name] = rebuilt(cast(types.FunctionType, value), wrap, swaps, done)
            elif isinstance(value, types.BuiltinFunctionType) and value in swaps:
                names[name] = swaps[value]
        copy = types.FunctionType(function.__code__, names, function.__name__, function.__defaults__)
        copy.__module__ = function.__module__
        copy.__qualname__ = function.__qualname__
        done[function] = wrap(copy)
    return done[function]


@cache
def source_hash() -> str:
    """Hash over every source file of the kernel rooms and the versions of what compiles it."""
    import numba

    digest = hashlib.sha256(f"{sys.version} {numba.__version__} {np.__version__}".encode())
    for path in sorted(PACKAGE.rglob("*.py")):
        inside = path.relative_to(PACKAGE)
        if inside.parts[0].removesuffix(".py") in KERNEL_ROOMS:
            digest.update(inside.as_posix().encode())
            digest.update(path.read_bytes())
    return digest.hexdigest()[:20]


def cache_home() -> Path:
    """Where this user's caches live, by the custom of the system."""
    if os.environ.get("FOILWRIGHT_CACHE"):
        return Path(os.environ["FOILWRIGHT_CACHE"])
    if os.environ.get("XDG_CACHE_HOME"):
        return Path(os.environ["XDG_CACHE_HOME"]) / "foilwright"
    if os.environ.get("LOCALAPPDATA"):
        return Path(os.environ["LOCALAPPDATA"]) / "foilwright"
    return Path.home() / ".cache" / "foilwright"


def is_private(folder: Path) -> bool:
    """Whether only this user can write here: kept code is loaded as it stands, so nobody else may."""
    if os.name == "nt":
        return True
    about = folder.stat()
    return about.st_uid == os.getuid() and not about.st_mode & (stat.S_IWGRP | stat.S_IWOTH)


def sweep(home: Path, keep: Path) -> None:
    """Removes folders of other versions that nobody used for a fortnight."""
    for other in home.glob("compiled-*"):
        try:
            if other != keep and time.time() - other.stat().st_mtime > KEEP_OLD_DAYS * 86400.0:
                shutil.rmtree(other, ignore_errors=True)
        except OSError:
            continue


@cache
def cache_folder() -> Path | None:
    """This user's private folder for this version of the sources, or None where none can be written."""
    try:
        home = cache_home()
        folder = home / f"compiled-{source_hash()}"
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not is_private(folder):
            return None
        with tempfile.TemporaryFile(dir=folder):
            pass
        os.utime(folder)
        sweep(home, folder)
    except (OSError, RuntimeError):  # Path.home() raises RuntimeError where there is no home
        return None
    return folder


def stand_in(folder: Path, module: str) -> Path:
    """An empty file that stands for a module of ours: the compiler keeps code by place and text of its
    file, and ours is told by the folder's name alone.
    """
    file = folder.joinpath(*module.split(".")[1:]).with_suffix(".py")
    if not file.exists():
        file.parent.mkdir(parents=True, exist_ok=True)
        file.touch()
    return file


def named_below(function: types.FunctionType, found: set[types.FunctionType]) -> set[types.FunctionType]:
    """All functions of ours that `function` names, directly or through others."""
    for name in function.__code__.co_names:
        value = function.__globals__.get(name)
        if is_ours(value) and value not in found:
            below = cast(types.FunctionType, value)
            found.add(below)
            named_below(below, found)
    return found


def compiled(
    function: Callable[..., Any], seam: Callable[..., Any] | None = None, check_bounds: bool = False
) -> Callable[..., Any]:
    """The compiled twin of an outermost kernel; released from the interpreter lock while it runs.

    Everything below `seam` is drawn into one body of code, since a boat is some two hundred numbers and
    handing them from function to function costs three times the physics; the seam itself is kept as one
    function, since a copy of it at each of its callers costs minutes of compiling. Division by zero
    gives infinity, as in numpy, and not an error; the text guards its domains and the callers look for
    what is not finite. With `check_bounds` every index is checked (for tests; slow, not kept on disk).
    However many threads ask at once, there is one twin.
    """
    with ONE_AT_A_TIME:
        return _compiled(function, seam, check_bounds)


@cache
def _compiled(
    function: Callable[..., Any], seam: Callable[..., Any] | None, check_bounds: bool
) -> Callable[..., Any]:
    import numba

    folder = None if check_bounds else cache_folder()
    if folder is not None:
        numba.config.CACHE_DIR = str(folder)
    options: dict[str, Any] = {"nogil": True, "error_model": "numpy", "boundscheck": check_bounds}
    top = cast(types.FunctionType, function)
    for named in named_below(top, set()) - {top}:
        room = named.__module__.split(".")[1]
        if room not in KERNEL_ROOMS:
            raise ValueError(
                f"{named.__qualname__} of {room} cannot be compiled: its room is not in KERNEL_ROOMS"
            )
    drawn_in = named_below(cast(types.FunctionType, seam), set()) if seam and not check_bounds else set()
    codes = {drawn.__code__ for drawn in drawn_in}

    def wrap(copy: types.FunctionType) -> Any:
        if copy.__code__ is top.__code__:
            if folder is not None and is_ours(top):
                copy.__code__ = top.__code__.replace(co_filename=str(stand_in(folder, top.__module__)))
            return numba.njit(**options, cache=folder is not None)(copy)
        return numba.njit(**options, forceinline=copy.__code__ in codes)(copy)

    return cast(Callable[..., Any], rebuilt(top, wrap, {}, {}))


def for_card(function: Callable[..., Any], seam: Callable[..., Any]) -> Callable[..., Any]:
    """The same text as a device function for a graphics card (numba-cuda), to be called from a kernel there.

    Left alone, everything is drawn into every place that names it, and compiling takes longer than anybody
    waits (7 minutes did not do). So the seam stays one function there too, called and not drawn in.
    """
    from numba import cuda

    sign = f"{len(seam.__name__)}{seam.__name__}"  # as it stands in the mangled name
    for module in [
        one for one in list(sys.modules.values()) if "llvm_replace" in getattr(one, "__dict__", ())
    ]:
        replace = module.llvm_replace
        if getattr(replace, "keeps", None) != sign:

            def keeping(text: str, replace: Callable[[str], str] = replace) -> str:
                lines = []
                for line in text.split("\n"):
                    if line.startswith("define") and sign in line:
                        end = line.rindex(")") + 1
                        line = f"{line[:end]} noinline{line[end:]}"
                    lines.append(line)
                return replace("\n".join(lines))

            keeping.keeps = sign  # type: ignore[attr-defined]
            module.llvm_replace = keeping  # type: ignore[attr-defined]

    def wrap(copy: types.FunctionType) -> Any:
        return cuda.jit(device=True)(copy)

    return cast(Callable[..., Any], rebuilt(cast(types.FunctionType, function), wrap, {}, {}))


def plain(value: Any) -> Any:
    """The same numbers for the plain run: arrays become memoryviews, whose elements are Python floats.

    NamedTuples are walked; everything else is handed back as it is.
    """
    if isinstance(value, np.ndarray):
        return memoryview(cast(Any, value))
    if isinstance(value, np.floating):
        return float(value)
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return type(value)(*(plain(part) for part in value))
    return value


def over_threads(run: Callable[[int, int], Any], cases: int, threads: int | None = None) -> None:
    """Calls run(start, stop) over all cases, in slices, on several threads.

    Compiled loops cannot be interrupted, so a slice is made to last SLICE_SECONDS at most: between two of
    them a person can stop the work. All slices are alike and as many for each thread, so that none waits.
    """
    workers = threads or os.cpu_count() or 1
    if cases == 0:
        return
    first = min(cases, 64)
    began = time.perf_counter()
    run(0, first)
    each = (time.perf_counter() - began) / first
    longest = max(1, int(SLICE_SECONDS / max(each, 1e-7)))
    rounds = -(-(cases - first) // (longest * workers)) or 1
    size = -(-(cases - first) // (rounds * workers)) or 1
    starts = range(first, cases, size)
    with ThreadPoolExecutor(workers) as pool:
        for done in [pool.submit(run, start, min(start + size, cases)) for start in starts]:
            done.result()
