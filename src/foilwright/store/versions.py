"""Saving and reading versions of things. Nothing saved is ever edited."""

import hashlib
from datetime import UTC, datetime
from typing import Any, NamedTuple

from sqlalchemy import Connection, select, update
from sqlalchemy.exc import IntegrityError

from foilwright.mistakes import Mistake
from foilwright.store.opening import Store
from foilwright.store.tables import things, trail, versions


class Version(NamedTuple):
    """One saved version of a thing. `others` are the versions made from the same one, side by side."""

    id: int
    kind: str
    name: str
    text: str
    content_hash: str
    made_at: str
    made_by: str
    parent_id: int | None
    taken_back: bool


class Saved(NamedTuple):
    """What came of saving: the version, its entry in the trail, and what somebody else saved meanwhile."""

    version: Version
    trail_id: int
    beside: tuple[Version, ...]


def now() -> str:
    """This moment, UTC, to the microsecond."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


def save(
    store: Store,
    kind: str,
    name: str,
    text: str,
    by: str,
    parent_id: int | None = None,
    boat_version_id: int | None = None,
    person_number: int | None = None,
) -> Saved:
    """Keeps a text as a new version of a thing, made from `parent_id`.

    Where another version was made from the same one meanwhile, both are kept and the others are handed back.
    """
    with store.writing() as connection:
        return save_in(connection, kind, name, text, by, parent_id, boat_version_id, person_number)


def save_in(
    connection: Connection,
    kind: str,
    name: str,
    text: str,
    by: str,
    parent_id: int | None,
    boat_version_id: int | None,
    person_number: int | None,
) -> Saved:
    """`save` inside a transaction that is already open."""
    thing_id = _thing(connection, kind, name)
    if parent_id is not None:
        parent = one(connection, parent_id)
        if (parent.kind, parent.name) != (kind, name):
            raise Mistake(
                f"version {parent_id}",
                f"a version of {parent.name}",
                f"a version of {name}",
                "Open the boat again and make the change there.",
            )
    moment = now()
    version_id = connection.execute(
        versions.insert().values(
            thing_id=thing_id,
            parent_id=parent_id,
            content_hash=hash_of(text),
            text=text,
            made_at=moment,
            made_by=by,
            boat_version_id=boat_version_id,
            person_number=person_number,
        )
    ).inserted_primary_key
    assert version_id is not None
    entry = connection.execute(
        trail.insert().values(
            at=moment,
            by=by,
            verb="save",
            thing_id=thing_id,
            version_id=version_id[0],
            person_number=person_number,
        )
    ).inserted_primary_key
    assert entry is not None
    version = one(connection, version_id[0])
    beside = tuple(other for other in heads_in(connection, kind, name) if other.id != version.id)
    return Saved(version, entry[0], beside)


def _thing(connection: Connection, kind: str, name: str) -> int:
    found = connection.execute(
        select(things.c.id).where(things.c.kind == kind, things.c.name == name)
    ).scalar_one_or_none()
    if found is not None:
        return int(found)
    try:
        with connection.begin_nested():
            made = connection.execute(things.insert().values(kind=kind, name=name)).inserted_primary_key
            assert made is not None
            return int(made[0])
    except IntegrityError:  # another writer made it between the two lines; only where writers do not queue
        return int(
            connection.execute(
                select(things.c.id).where(things.c.kind == kind, things.c.name == name)
            ).scalar_one()
        )


_COLUMNS = (
    versions.c.id,
    things.c.kind,
    things.c.name,
    versions.c.text,
    versions.c.content_hash,
    versions.c.made_at,
    versions.c.made_by,
    versions.c.parent_id,
    versions.c.taken_back,
)


def _version(row: Any) -> Version:
    return Version(
        row.id,
        row.kind,
        row.name,
        row.text,
        row.content_hash,
        row.made_at,
        row.made_by,
        row.parent_id,
        row.taken_back is not None,
    )


def one(connection: Connection, version_id: int) -> Version:
    """One version. Raises Mistake where there is none of that number."""
    row = connection.execute(select(*_COLUMNS).join(things).where(versions.c.id == version_id)).one_or_none()
    if row is None:
        raise Mistake(
            f"version {version_id}",
            "there is no such version",
            "a version in the store",
            "Open the thing again.",
        )
    return _version(row)


def heads_in(connection: Connection, kind: str, name: str) -> tuple[Version, ...]:
    """The versions that nothing was made from since, newest last: one, or several side by side."""
    rows = connection.execute(
        select(*_COLUMNS)
        .join(things)
        .where(things.c.kind == kind, things.c.name == name)
        .order_by(versions.c.id)
    ).all()
    present = [_version(row) for row in rows if row.taken_back is None]
    made_from = {version.parent_id for version in present}
    return tuple(version for version in present if version.id not in made_from)


def heads(store: Store, kind: str, name: str) -> tuple[Version, ...]:
    """`heads_in` in a transaction of its own."""
    with store.reading() as connection:
        return heads_in(connection, kind, name)


def history(store: Store, kind: str, name: str) -> tuple[Version, ...]:
    """Every version of a thing, oldest first, those taken back among them."""
    with store.reading() as connection:
        rows = connection.execute(
            select(*_COLUMNS)
            .join(things)
            .where(things.c.kind == kind, things.c.name == name)
            .order_by(versions.c.id)
        ).all()
    return tuple(_version(row) for row in rows)


def version(store: Store, version_id: int) -> Version:
    """One version by its number."""
    with store.reading() as connection:
        return one(connection, version_id)


def names(store: Store, kind: str) -> tuple[str, ...]:
    """The names of all things of a kind that have a version, in order."""
    with store.reading() as connection:
        rows = connection.execute(
            select(things.c.name)
            .join(versions)
            .where(things.c.kind == kind, versions.c.taken_back.is_(None))
            .distinct()
            .order_by(things.c.name)
        ).all()
    return tuple(row.name for row in rows)


def take_back(connection: Connection, version_id: int, undo_id: int | None) -> None:
    """Marks a version as taken back by an undo, or as there again."""
    connection.execute(update(versions).where(versions.c.id == version_id).values(taken_back=undo_id))


def hash_of(text: str) -> str:
    """Sixteen signs that change with the text."""
    return hashlib.sha256(text.encode()).hexdigest()[:16]
