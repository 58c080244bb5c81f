"""A boat file with other values at some paths, as data: it can be flown before anything is written."""

from collections.abc import Mapping
from typing import Any

from foilwright.documents.boat_record import BoatFile
from foilwright.documents.boat_table import all_numbers, given_numbers


def changed(boat: BoatFile, values: Mapping[str, Any]) -> BoatFile:
    """The boat with these values at these paths; entries of lists by their name, or counted from 1."""
    data = boat.model_dump(exclude_none=True)
    for path, value in values.items():
        *way, last = path.split(".")
        table: Any = data
        for step in way:
            table = entry_of(table, step) if isinstance(table, list) else table.setdefault(step, {})
        table[last] = value
    return BoatFile.model_validate(data)


def entry_of(entries: list[Any], step: str) -> Any:
    """The entry of a list by its name; by its count from 1 where its entries have no names."""
    for entry in entries:
        if entry.get("name") == step:
            return entry
    return entries[int(step) - 1]


def holes_moved(boat: BoatFile, values: Mapping[str, Any]) -> dict[str, Any]:
    """The values with the holes of every adjuster moved along: hole 0 is the mark, and follows its number."""
    more: dict[str, Any] = {}
    given = _numbers(boat)
    for record in boat.adjusters:
        for i, position in enumerate(record.positions):
            moved = {
                path: value + float(values[path]) - given[path] if path in values and path in given else value
                for path, value in position.values.items()
            }
            if moved != position.values:
                more[f"adjusters.{record.name}.positions.{i + 1}.values"] = moved
    return {**values, **more}


def _numbers(boat: BoatFile) -> dict[str, float]:
    numbers, _ = all_numbers(boat, given_numbers(boat))
    return numbers
