"""Sailors, each one row behind a number that says nothing. Everywhere else only the number is known."""

import json
import secrets
from collections.abc import Mapping
from typing import Any

from sqlalchemy import Connection, select, update

from foilwright.mistakes import Mistake
from foilwright.store.opening import Store
from foilwright.store.tables import people, trail
from foilwright.store.versions import now

MOST_BEFORE = 20  # earlier details kept for undo


def add_person(store: Store, details: Mapping[str, Any], by: str) -> int:
    """Keeps a new person and answers with the number that stands for them."""
    with store.writing() as connection:
        number = _new_number(connection)
        connection.execute(
            people.insert().values(number=number, details=json.dumps(dict(details)), before="[]")
        )
        connection.execute(trail.insert().values(at=now(), by=by, verb="name", person_number=number))
    return number


def _new_number(connection: Connection) -> int:
    while True:
        number = 1_000_000 + secrets.randbelow(9_000_000)
        if connection.execute(select(people.c.number).where(people.c.number == number)).first() is None:
            return number


def change_person(store: Store, number: int, details: Mapping[str, Any], by: str) -> int:
    """Keeps new details; the earlier ones stay in the person's own row, for undo. The entry in the trail."""
    with store.writing() as connection:
        row = _row(connection, number)
        before = [*json.loads(row[1]), json.loads(row[0])][-MOST_BEFORE:]
        connection.execute(
            update(people)
            .where(people.c.number == number)
            .values(details=json.dumps(dict(details)), before=json.dumps(before))
        )
        entry = connection.execute(
            trail.insert().values(at=now(), by=by, verb="name", person_number=number)
        ).inserted_primary_key
        assert entry is not None
        return int(entry[0])


def person(store: Store, number: int) -> dict[str, Any]:
    """What is known of a person. Raises Mistake for a number of nobody, or of one who was erased."""
    with store.reading() as connection:
        return dict(json.loads(_row(connection, number)[0]))


def people_known(store: Store) -> dict[int, dict[str, Any]]:
    """Everybody who was not erased, by number."""
    with store.reading() as connection:
        rows = connection.execute(
            select(people.c.number, people.c.details)
            .where(people.c.details.is_not(None))
            .order_by(people.c.number)
        ).all()
    return {row.number: dict(json.loads(row.details)) for row in rows}


def put_back(connection: Connection, number: int) -> None:
    """Undo of the last change of a person's details."""
    details, before = _row(connection, number)
    earlier = json.loads(before)
    if not earlier:
        raise Mistake(
            f"person {number}",
            "there is nothing before this",
            "a change of details",
            "Erase the person instead.",
        )
    # What is undone becomes the newest "before", so that undoing again brings it back.
    kept = [*earlier[:-1], json.loads(details)]
    connection.execute(
        update(people)
        .where(people.c.number == number)
        .values(details=json.dumps(earlier[-1]), before=json.dumps(kept))
    )


def erase_person(store: Store, number: int, by: str) -> None:
    """Empties the row of a person: name, mass, everything. It cannot be undone; the number stays."""
    with store.writing() as connection:
        _row(connection, number)
        moment = now()
        connection.execute(
            update(people)
            .where(people.c.number == number)
            .values(details=None, before=None, erased_at=moment)
        )
        connection.execute(trail.insert().values(at=moment, by=by, verb="erase", person_number=number))


def _row(connection: Connection, number: int) -> tuple[str, str]:
    row = connection.execute(
        select(people.c.details, people.c.before).where(people.c.number == number)
    ).one_or_none()
    if row is None or row.details is None:
        raise Mistake(
            f"person {number}",
            "there is no such person" if row is None else "this person was erased",
            "the number of a person in the store",
            "Look at the list of people.",
        )
    return row.details, row.before
