"""Reading a bench sheet: a table as CSV, or TOML. Stored as read; nothing of ours ever writes into it.

As CSV the head comes first, one `name,value` a line; then the names of the columns, then one reading a line.
Lines that begin with #, empty lines and lines without a reading are passed over. As TOML the head is at the
top and the readings are `[[readings]]`, or `readings = [...]` with one a line.
"""

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from foilwright.documents.bench_lines import COLUMNS, line_of
from foilwright.documents.bench_record import FORMAT, VERSION, BenchHead, BenchSheet
from foilwright.documents.faults import mistakes_in
from foilwright.documents.toml_file import parsed_toml, read_text
from foilwright.mistakes import Mistake, Mistakes

__all__ = ["read_sheet", "sheet_from_text"]

ENDINGS = (".csv", ".toml")
MOST_LINES = 5000
MOST_ALIKE = 3  # lines with the same fault that are told one by one


def read_sheet(path: str | Path) -> BenchSheet:
    """Reads and checks a bench sheet. Raises Mistake, or Mistakes with everything that is wrong with it."""
    path = Path(path)
    if path.suffix.lower() not in ENDINGS:
        raise Mistake(
            path.name,
            f"a file ending in `{path.suffix}`",
            "a bench sheet as .csv or .toml",
            "Save the table as CSV (text, commas).",
        )
    return sheet_from_text(read_text(path), path.name)


def sheet_from_text(text: str, file: str) -> BenchSheet:
    """A bench sheet from its text; the ending of `file` says which kind it is."""
    if not text.strip():
        raise Mistake(
            file, "an empty file", "a bench sheet", "Begin from `foilwright bench BOAT --form sheet.csv`."
        )
    head, rows = _toml(text, file) if file.lower().endswith(".toml") else _csv(text, file)
    if head.get("format") != FORMAT or head.get("version") != VERSION:
        raise Mistake(
            f"{file}: format",
            f'format = "{head.get("format")}", version = {head.get("version")}',
            f"format {FORMAT}, version {VERSION}",
            "Write both at the top, if this is a bench sheet.",
        )
    try:
        record = BenchHead.model_validate(head)
    except ValidationError as error:
        raise Mistakes(tuple(mistakes_in(error, BenchHead, head, file))) from None
    if not rows:
        raise Mistake(
            f"{file}: readings",
            "no readings",
            "one line a reading, such as `batten, , , 45, back, , , 14`",
            "Write down what was read, and read the sheet again.",
        )
    lines, found = [], []
    for number, row in rows:
        try:
            lines.append(line_of(number, row, file))
        except Mistake as mistake:
            found.append(mistake)
    if found:
        raise Mistakes(tuple(_together(found)))
    return BenchSheet(record, tuple(lines), file)


def _together(found: Sequence[Mistake]) -> list[Mistake]:
    """One fault in a whole column is told once, by its first line."""
    kinds: dict[tuple[str, str], list[Mistake]] = {}
    for mistake in found:
        kinds.setdefault((mistake.allowed, mistake.mend), []).append(mistake)
    told = []
    for first, *more in kinds.values():
        came = f"{first.came}, and {len(more)} more lines such" if len(more) > MOST_ALIKE else first.came
        told.append(Mistake(first.where, came, first.allowed, first.mend))
        told += more if len(more) <= MOST_ALIKE else []
    return told


def _csv(text: str, file: str) -> tuple[dict[str, Any], list[tuple[int, dict[str, str]]]]:
    """Head and rows of a table; a semicolon or a tab between the columns does as well."""
    lines = text.splitlines()
    if len(lines) > MOST_LINES:
        raise Mistake(file, f"{len(lines)} lines", f"at most {MOST_LINES}", "This is not a bench sheet.")
    sample = next((line for line in lines if line.strip() and not line.lstrip().startswith("#")), "")
    between = max((",", ";", "\t"), key=sample.count)
    head: dict[str, Any] = {}
    names: list[str] = []
    rows: list[tuple[int, dict[str, str]]] = []
    for number, line in enumerate(lines, 1):
        cells = [cell.strip() for cell in next(csv.reader([line], delimiter=between), [])]
        if not any(cells) or cells[0].startswith("#"):
            continue
        if names:
            row = _row(cells, names, number, file)
            if row.get("reading"):  # what was not read may stand there empty
                rows.append((number, row))
        elif cells[0].lower() == "what":
            names = _columns(cells, number, file)
        else:
            head |= _head(cells, number, file)
    if not names and head:
        raise Mistake(
            f"{file}: readings",
            "no line with the names of the columns",
            ",".join(COLUMNS),
            "Write that line above the readings.",
        )
    return head, rows


def _row(cells: Sequence[str], names: Sequence[str], number: int, file: str) -> dict[str, str]:
    if any(cells[len(names) :]):
        raise Mistake(
            f"{file}, line {number}",
            f"{len(cells)} columns",
            f"{len(names)}: {', '.join(names)}",
            "A comma too many, or a comma for the decimal point; settings are joined with spaces.",
        )
    return dict(zip(names, cells, strict=False))


def _columns(cells: Sequence[str], number: int, file: str) -> list[str]:
    names = [cell.lower() for cell in cells if cell]
    for name in names:
        if name not in COLUMNS:
            near = get_close_matches(name, COLUMNS, n=1, cutoff=0.5)
            raise Mistake(
                f"{file}, line {number}",
                f"a column `{name}`",
                ", ".join(COLUMNS),
                f"Did you mean {near[0]}?" if near else "Take it out, or put it into `note`.",
            )
    missing = [name for name in ("what", "reading") if name not in names]
    twice = [name for name in names if names.count(name) > 1]
    if missing or twice:
        raise Mistake(
            f"{file}, line {number}",
            f"no column `{missing[0]}`" if missing else f"the column `{twice[0]}` twice",
            ", ".join(COLUMNS),
            "Each column once, in any order.",
        )
    return names


def _head(cells: Sequence[str], number: int, file: str) -> dict[str, Any]:
    name, value = cells[0], cells[1] if len(cells) > 1 else ""
    if name in COLUMNS and name != "what":
        raise Mistake(
            f"{file}, line {number}",
            f"the column `{name}` first",
            "`what` as the first column",
            "Put the column `what` first.",
        )
    field = BenchHead.model_fields.get(name)
    if field is None:
        near = get_close_matches(name, list(BenchHead.model_fields), n=1, cutoff=0.5)
        raise Mistake(
            f"{file}, line {number}",
            f"`{name}` above the readings",
            ", ".join(BenchHead.model_fields),
            f"Did you mean {near[0]}?" if near else "Look up the names in the reference.",
        )
    if not value:
        return {}
    if name == "version" or str(field.annotation).find("float") >= 0 or field.annotation is float:
        try:
            return {name: int(value) if name == "version" else float(value)}
        except ValueError:
            raise Mistake(
                f"{file}, line {number}: {name}",
                f"`{value}`",
                "a number",
                "Write the number alone, without its unit.",
            ) from None
    return {name: value}


def _toml(text: str, file: str) -> tuple[dict[str, Any], list[tuple[int, Mapping[str, Any]]]]:
    data = parsed_toml(text, file)
    rows = data.pop("readings", [])
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        raise Mistake(
            f"{file}: readings", "no list of tables", "[[readings]]", "Write [[readings]] above each."
        )
    numbers = list(_lines_of(text))
    if len(numbers) != len(rows):
        numbers = list(range(1, len(rows) + 1))
    return data, list(zip(numbers, rows, strict=True))


def _lines_of(text: str) -> Iterator[int]:
    """The line on which each reading of a TOML sheet begins."""
    for number, line in enumerate(text.splitlines(), 1):
        yield from (number for _ in re.findall(r"\bwhat\s*=", line.split("#", 1)[0]))
