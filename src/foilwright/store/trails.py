"""The trail: who did what and when, with every entry of a person's doing open to undo."""

from typing import NamedTuple

from sqlalchemy import Connection, select

from foilwright.mistakes import Mistake
from foilwright.store.opening import Store
from foilwright.store.people import put_back
from foilwright.store.tables import things, trail
from foilwright.store.versions import now, take_back


class Entry(NamedTuple):
    """One entry of the trail. Of a person it knows the number only."""

    id: int
    at: str
    by: str
    verb: str
    kind: str | None
    name: str | None
    version_id: int | None
    person_number: int | None
    undoes: int | None


_COLUMNS = (
    trail.c.id,
    trail.c.at,
    trail.c.by,
    trail.c.verb,
    things.c.kind,
    things.c.name,
    trail.c.version_id,
    trail.c.person_number,
    trail.c.undoes,
)


def entries(store: Store, newest: int = 100) -> tuple[Entry, ...]:
    """The newest entries, newest first."""
    with store.reading() as connection:
        rows = connection.execute(
            select(*_COLUMNS)
            .outerjoin(things, things.c.id == trail.c.thing_id)
            .order_by(trail.c.id.desc())
            .limit(newest)
        ).all()
    return tuple(Entry(*row) for row in rows)


def undo(store: Store, entry_id: int, by: str) -> int:
    """Takes an entry back, or an undo: what was saved is hidden, or there again. The new entry's number.

    An erased person cannot come back: there is nothing left to come back from.
    """
    with store.writing() as connection:
        row = connection.execute(select(trail).where(trail.c.id == entry_id)).one_or_none()
        if row is None:
            raise _cannot(entry_id, "there is no such entry")
        if row.verb == "erase":
            raise _cannot(entry_id, "a person was erased, and nothing is left to put back")
        if connection.execute(select(trail.c.id).where(trail.c.undoes == entry_id)).first():
            raise _cannot(entry_id, "it was undone already")
        entry = connection.execute(
            trail.insert().values(
                at=now(),
                by=by,
                verb="undo",
                thing_id=row.thing_id,
                version_id=row.version_id,
                person_number=row.person_number,
                undoes=entry_id,
            )
        ).inserted_primary_key
        assert entry is not None
        if row.version_id is not None:
            hidden = _hides(connection, entry_id)
            take_back(connection, row.version_id, entry[0] if hidden else None)
        elif row.person_number is not None:
            put_back(connection, row.person_number)
        return int(entry[0])


def _hides(connection: Connection, entry_id: int) -> bool:
    """Whether undoing this entry hides the version: a save does, the undo of a save does not, and so on."""
    hides = True
    undoes = entry_id
    while True:
        below = connection.execute(select(trail.c.undoes).where(trail.c.id == undoes)).scalar_one()
        if below is None:
            return hides
        undoes = below
        hides = not hides


def _cannot(entry_id: int, why: str) -> Mistake:
    return Mistake(
        f"entry {entry_id} of the trail", why, "an entry that can be undone", "Look at the trail again."
    )
