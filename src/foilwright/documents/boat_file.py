"""The boat file: a boat as measured, in TOML. Read with everything that is wrong, written with comments kept.

Twelve numbers are enough; whatever else is missing is filled with a default by form of boat, and named as
such (`defaults.py`). `boat_numbers.py` turns a boat file into the row of numbers that flies.
"""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from foilwright.documents.boat_checks import faults_in
from foilwright.documents.boat_record import FORMAT, VERSION, BoatFile
from foilwright.documents.faults import mistakes_in
from foilwright.documents.toml_file import edited, parsed_toml, read_text, replace_file
from foilwright.mistakes import Mistake, Mistakes

__all__ = ["FORMAT", "VERSION", "BoatFile", "boat_from_text", "read_boat", "save_boat", "save_boat_as"]


def read_boat(path: str | Path) -> BoatFile:
    """Reads and checks a boat file. Raises Mistake, or Mistakes with everything that is wrong with it."""
    path = Path(path)
    return boat_from_text(read_text(path), path.name)


def boat_from_text(text: str, file: str) -> BoatFile:
    """A boat file from its text; `file` names it in messages."""
    data = parsed_toml(text, file)
    _check_format(data, file)
    try:
        boat = BoatFile.model_validate(data)
    except ValidationError as error:
        raise Mistakes(tuple(mistakes_in(error, BoatFile, data, file))) from None
    found = faults_in(boat, file)
    if found:
        raise Mistakes(tuple(found))
    return boat


def save_boat(path: str | Path, changes: Mapping[str, Any]) -> BoatFile:
    """Changes values of a boat file by their paths, comments kept; what makes no good boat is not written."""
    return save_boat_as(path, path, changes)


def save_boat_as(source: str | Path, target: str | Path, changes: Mapping[str, Any]) -> BoatFile:
    """Writes another version of a boat file, comments kept; what makes no good boat is not written."""
    source, target = Path(source), Path(target)
    text = edited(read_text(source), changes, source.name)
    boat = boat_from_text(text, target.name)
    replace_file(target, text)
    return boat


def _check_format(data: dict[str, Any], file: str) -> None:
    came = data.get("format")
    if came != FORMAT:
        raise Mistake(
            f"{file}: format",
            "missing" if came is None else f'"{came}"',
            f'"{FORMAT}"',
            f'Write format = "{FORMAT}" and version = {VERSION} at the top, if this is a boat file.',
        )
    version = data.get("version")
    if version != VERSION or isinstance(version, bool):
        newer = isinstance(version, int) and version > VERSION
        raise Mistake(
            f"{file}: version",
            "missing" if version is None else str(version),
            str(VERSION),
            "It was written by a newer foilwright; update this one."
            if newer
            else f"Write version = {VERSION}.",
        )
