"""Two versions of one boat side by side: every number and word in which they differ."""

from collections.abc import Iterator
from typing import Any, TypedDict

from foilwright.documents.boat_file import boat_from_text
from foilwright.documents.boat_record import BoatFile
from foilwright.documents.faults import field_at
from foilwright.jobs.keep_boats import VersionAnswer, text_of, versions_of
from foilwright.mistakes import Mistake
from foilwright.store.opening import Store
from foilwright.units import ending_of

Value = str | float | bool | None
HEADINGS = ("chain", "cranks", "rods", "adjusters", "changes")


class Difference(TypedDict):
    """One place in which two versions differ; null where a version does not say it."""

    path: str
    meaning: str
    unit: str
    first: Value
    second: Value


class CompareAnswer(TypedDict):
    """What differs between two versions, the older change first."""

    format: str
    version: int
    boat: str
    first: VersionAnswer
    second: VersionAnswer
    differences: list[Difference]


def compare_versions(store: Store, name: str, first: int, second: int) -> CompareAnswer:
    """Both versions and all that differs between them: settings first, then as in the boat file.

    How sure the numbers are is left out: it would hide what was changed.
    """
    known = {one["version_id"]: one for one in versions_of(store, name)}
    for one in (first, second):
        if one not in known:
            raise Mistake(
                f"version {one}", "no version of this boat", "a version from its list", "Choose it there."
            )
    a, b = (
        dict(told(boat_from_text(text_of(store, name, one)[0], name).model_dump())) for one in (first, second)
    )
    return {
        "format": "foilwright/compared",
        "version": 1,
        "boat": name,
        "first": known[first],
        "second": known[second],
        "differences": [
            difference(path, a.get(path), b.get(path))
            for path in sorted(dict.fromkeys([*a, *b]), key=lambda path: path[-1] != "present")
            if a.get(path) != b.get(path) and "_se_" not in path[-1]
        ],
    }


def told(data: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Value]]:
    """Every value of a document by its place; the entries of a list go by their name, else counted from 1."""
    if isinstance(data, dict):
        for key, value in data.items():
            yield from told(value, (*path, str(key)))
    elif isinstance(data, list | tuple):
        for i, value in enumerate(data):
            named = value.get("name") if isinstance(value, dict) else None
            yield from told(value, (*path, f"{named or i + 1}"))
    elif data is None or isinstance(data, str | float | bool | int):
        yield path, data
    else:
        yield path, str(data)


def difference(path: tuple[str, ...], first: Value, second: Value) -> Difference:
    """One difference, with what the field means."""
    unit = ending_of(path[-1])
    return {
        "path": ".".join(path),
        "meaning": words_of(path),
        "unit": unit.symbol if unit is not None else "",
        "first": first,
        "second": second,
    }


def words_of(path: tuple[str, ...]) -> str:
    """A number of the boat file in words: its part, then what the field means."""
    if path[0] == "adjusters" and path[-1] == "present":
        return f"{spoken(path[1])} stands at (steps from the mark)"
    if "positions" in path and "values" in path:
        i = path.index("values")
        return f"{spoken(path[1])}, hole {path[i - 1]}: {words_of(path[i + 1 :])}"
    _, field = field_at(BoatFile, as_loc(path))
    steps = [step for step in path[:-1] if step not in HEADINGS and not step.isdigit()] or list(path[:1])
    part = ", ".join(map(spoken, steps))
    if field is None or not field.description:
        return f"{part}: {spoken(path[-1])}"
    return f"{part}: {field.description.split(';')[0].split(' (')[0]}"


def words_of_fitted(name: str) -> str:
    """What a fit calls a number, in words: a path of the boat file, or one number of many parts."""
    whole, of_all, which = name.partition(": ")
    return which.replace("play_mm", "lost motion") if of_all else words_of(tuple(whole.split(".")))


def spoken(name: str) -> str:
    """A name as it is said."""
    return name.replace("_", " ").replace("-", " ")


def as_loc(path: tuple[str, ...]) -> tuple[int | str, ...]:
    """A place as a check of the document would name it: steps that are no field are entries of a list."""
    found: list[int | str] = []
    for step in path:
        parent, field = field_at(BoatFile, (*found, step))
        found.append(0 if parent is None or field is None else step)
    return tuple(found)
