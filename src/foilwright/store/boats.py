"""Boats as they are kept: a file's text, and which version of which part it sails with."""

import json
from typing import NamedTuple

from sqlalchemy import Connection, select

from foilwright.documents.boat_record import BoatFile
from foilwright.store.opening import Store
from foilwright.store.tables import boat_parts, part_versions, parts, things, versions
from foilwright.store.versions import Saved, hash_of, save_in


class PartUse(NamedTuple):
    """A part as one version of a boat has it."""

    boat: str
    version_id: int
    kind: str
    part: str
    content_hash: str


def save_boat(store: Store, boat: BoatFile, text: str, by: str, parent_id: int | None = None) -> Saved:
    """Keeps a checked boat file with its parts; see `versions.save` for two people at once."""
    with store.writing() as connection:
        return _save_boat_in(connection, boat, text, by, parent_id)


def save_measured_boat(
    store: Store, boat: BoatFile, text: str, by: str, parent_id: int | None, sheet_name: str, sheet: str
) -> Saved:
    """Keeps a boat together with the bench sheet that it was fitted to: both, or neither."""
    with store.writing() as connection:
        saved = _save_boat_in(connection, boat, text, by, parent_id)
        save_in(connection, "bench-sheet", sheet_name, sheet, by, None, saved.version.id, None)
    return saved


def _save_boat_in(connection: Connection, boat: BoatFile, text: str, by: str, parent_id: int | None) -> Saved:
    saved = save_in(connection, "boat", boat.name, text, by, parent_id, None, None)
    for kind, name in boat.part_ids().items():
        content = json.dumps(getattr(boat, kind).model_dump(mode="json", exclude_none=True), sort_keys=True)
        part_version = _part_version(connection, kind, name, content)
        connection.execute(
            boat_parts.insert().values(version_id=saved.version.id, part_version_id=part_version)
        )
    return saved


def _part_version(connection: Connection, kind: str, name: str, content: str) -> int:
    part_id = connection.execute(
        select(parts.c.id).where(parts.c.kind == kind, parts.c.name == name)
    ).scalar_one_or_none()
    if part_id is None:
        part_id = connection.execute(parts.insert().values(kind=kind, name=name)).inserted_primary_key[0]  # type: ignore[index]
    content_hash = hash_of(content)
    found = connection.execute(
        select(part_versions.c.id).where(
            part_versions.c.part_id == part_id, part_versions.c.content_hash == content_hash
        )
    ).scalar_one_or_none()
    if found is None:
        found = connection.execute(
            part_versions.insert().values(part_id=part_id, content_hash=content_hash, content=content)
        ).inserted_primary_key[0]  # type: ignore[index]
    return int(found)


def uses_of_part(store: Store, kind: str, name: str) -> tuple[PartUse, ...]:
    """Every version of every boat that sails with a part, oldest first: who swapped what."""
    with store.reading() as connection:
        rows = connection.execute(
            select(things.c.name, versions.c.id, parts.c.kind, parts.c.name, part_versions.c.content_hash)
            .select_from(parts)
            .join(part_versions)
            .join(boat_parts)
            .join(versions, versions.c.id == boat_parts.c.version_id)
            .join(things, things.c.id == versions.c.thing_id)
            .where(parts.c.kind == kind, parts.c.name == name, versions.c.taken_back.is_(None))
            .order_by(versions.c.id)
        ).all()
    return tuple(PartUse(*row) for row in rows)
