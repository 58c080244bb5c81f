"""Reading and writing TOML documents: limits, encoding, comments kept, nothing half-written."""

import os
import tempfile
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from foilwright.mistakes import Mistake

MOST_BYTES = 1_000_000


def read_toml(path: Path) -> dict[str, Any]:
    """The tables of a TOML file, or a Mistake in words."""
    return parsed_toml(read_text(path), path.name)


def read_text(path: Path) -> str:
    """The text of a document file: at most 1 MB, UTF-8."""
    where = path.name
    try:
        with path.open("rb") as file:
            raw = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise Mistake(
            str(path), "there is no such file", "the path of a document", "Check the name."
        ) from None
    except IsADirectoryError:
        raise Mistake(str(path), "this is a folder", "the path of a document", "Name a file in it.") from None
    except OSError as e:
        raise Mistake(
            str(path), f"cannot be read ({e.strerror})", "a readable file", "Check its rights."
        ) from None
    if len(raw) > MOST_BYTES:
        raise Mistake(
            where, "larger than 1 MB", "a document of at most 1 MB", "This is not a document of ours."
        )
    text_allowed = "a text file in UTF-8"
    if b"\0" in raw:
        raise Mistake(where, "binary data", text_allowed, "This is not a document of ours; check the name.")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as e:
        line = raw[: e.start].count(b"\n") + 1
        raise Mistake(
            f"{where}, line {line}", "text that is not UTF-8", text_allowed, "Save it again as UTF-8."
        ) from None


def parsed_toml(text: str, where: str) -> dict[str, Any]:
    """The tables of a TOML text, or a Mistake that names the line."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as e:
        raise Mistake(
            where,
            f"not readable as TOML: {e}",
            'lines such as `length_m = 1.12` and `name = "Marram"` under headings such as `[wand]`',
            "Look at that line: a missing quotation mark, bracket or equals sign, or a name given twice.",
        ) from None
    except RecursionError:
        raise Mistake(
            where, "lists nested too deep", "plain tables", "This is not a document of ours."
        ) from None


def edited(text: str, changes: Mapping[str, Any], where: str) -> str:
    """The text with the values at these paths replaced or added; comments and order stay.

    A path joins names by points; an entry of a list is named by its `name` (`adjusters.main-rod.present`), or
    counted from 1 where its entries have none (`chain.curve.2.foil_deg`).
    """
    import tomlkit

    document = tomlkit.parse(text)
    for path, value in changes.items():
        *way, last = path.split(".")
        table: Any = document
        for name in way:
            if isinstance(table, list):
                entry = next((item for item in table if item.get("name") == name), None)
                if entry is None and name.isdecimal() and 0 < int(name) <= len(table):
                    entry = table[int(name) - 1]
                if entry is None:
                    raise Mistake(
                        f"{where}: {path}", f"no entry named {name}", "a path in the file", "Check it."
                    )
                table = entry
            else:
                if name not in table:
                    table[name] = tomlkit.table()
                table = table[name]
        _put(table, last, value)
    return tomlkit.dumps(document)


def _put(table: Any, name: str, value: Any) -> None:
    """Puts a value into a table; a new standard error goes right below its number."""
    before = next((key for key in table if _is_twin(str(key), name)), None)
    below = getattr(getattr(table, "value", None), "_insert_after", None)
    if name in table or before is None or below is None:
        table[name] = value
        return
    import tomlkit

    below(before, tomlkit.key(name), tomlkit.item(value))


def _is_twin(name: str, twin: str) -> bool:
    """Whether `twin` is the standard error of `name`: length_m, length_se_m; taper, taper_se."""
    start, found, end = twin.rpartition("_se")
    return bool(found) and name == start + end


def replace_file(path: Path, text: str) -> None:
    """Writes a file all at once: a temporary file beside it takes its place, rights kept."""
    target = path.resolve()
    try:
        mode = target.stat().st_mode & 0o7777 if target.exists() else None
        handle, temporary = tempfile.mkstemp(prefix=f".{target.name}.", suffix=".new", dir=target.parent)
    except OSError as e:
        raise cannot_write(path, e) from None
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(temporary, mode if mode is not None else 0o666 & ~_umask())
        os.replace(temporary, target)
    except OSError as e:
        raise cannot_write(path, e) from None
    finally:
        if os.path.exists(temporary):
            os.unlink(temporary)


def cannot_write(path: Path, e: OSError) -> Mistake:
    """The Mistake for a file that cannot be written."""
    return Mistake(
        str(path), f"cannot be written ({e.strerror})", "a place you may write to", "Choose another folder."
    )


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
