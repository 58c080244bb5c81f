"""A copy of everything that is kept, without people: of them only the numbers are in it.

So a person who is erased is erased from the backups too, since they never were in one. What a backup cannot
give back is therefore who the numbers stood for.
"""

import json
import os
import tempfile
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Select, Table, select

from foilwright.mistakes import Mistake
from foilwright.store.opening import Store, open_store
from foilwright.store.tables import people, tables

FORMAT = "foilwright/backup"
VERSION = 1


def back_up(store: Store, file: Path) -> int:
    """Writes all rows as lines of JSON, all at once; how many rows."""
    rows = 0
    handle, temporary = tempfile.mkstemp(prefix=f".{file.name}.", dir=file.parent)
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as out, store.reading() as connection:
            out.write(json.dumps({"format": FORMAT, "version": VERSION}) + "\n")
            for table in tables.sorted_tables:
                for row in connection.execute(_in_order(table)).mappings():
                    kept = dict(row)
                    if table is people:
                        kept = {**kept, "details": None, "before": None}
                    out.write(json.dumps({"table": table.name, "row": kept}) + "\n")
                    rows += 1
            out.flush()
            os.fsync(out.fileno())
        os.replace(temporary, file)
    finally:
        if os.path.exists(temporary):
            os.unlink(temporary)
    return rows


def _in_order(table: Table) -> Select[Any]:
    return select(table).order_by(*table.primary_key.columns)


def restore(file: Path, where: str | Path) -> Store:
    """A new store from a backup. Refuses a store that already holds something."""
    store = open_store(where)
    try:
        with store.writing() as connection, file.open(encoding="utf-8") as lines:
            if _line(file, lines.readline()) != {"format": FORMAT, "version": VERSION}:
                raise Mistake(
                    file.name, "not a backup of ours", f'"{FORMAT}", version {VERSION}', "Check the name."
                )
            if any(connection.execute(select(table).limit(1)).first() for table in tables.sorted_tables):
                raise Mistake(
                    str(where), "this store holds something", "a new, empty folder", "Name another folder."
                )
            _put_rows(connection, [_line(file, line) for line in lines])
    except Mistake:
        store.close()
        raise
    return store


def _line(file: Path, line: str) -> dict[str, Any]:
    try:
        found = json.loads(line)
    except json.JSONDecodeError:
        found = None
    if not isinstance(found, dict):
        raise Mistake(file.name, "not a backup of ours", "lines of JSON", "Check the name.")
    return found


def _put_rows(connection: Connection, lines: list[dict[str, Any]]) -> None:
    """Puts the rows in; each gets a new number and what points at it follows.

    Trail and versions point at each other, so those two links are drawn when all rows are there.
    """
    new: dict[tuple[str, int], int] = {}
    late = {("trail", "version_id"): "versions", ("versions", "taken_back"): "trail"}
    waiting: list[tuple[Table, str, int, str, int]] = []
    for line in lines:
        table, row = tables.tables[line["table"]], dict(line["row"])
        old = row.pop("id", None)
        own_waiting = []
        for column in table.columns:
            value = row.get(column.name)
            if value is None:
                continue
            if (table.name, column.name) in late:
                own_waiting.append((column.name, late[table.name, column.name], value))
                row[column.name] = None
            elif column.foreign_keys:
                target = next(iter(column.foreign_keys)).column.table.name
                if target != "people":
                    row[column.name] = new[target, value]
        made = connection.execute(table.insert().values(row)).inserted_primary_key
        if old is not None and made is not None:
            new[table.name, old] = made[0]
            waiting += [(table, link, made[0], target, value) for link, target, value in own_waiting]
    for table, link, number, target, value in waiting:
        connection.execute(table.update().where(table.c.id == number).values({link: new[target, value]}))
