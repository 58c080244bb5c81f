"""The tables. Nothing here is changed once written, but for two columns that say "taken back" and "erased".

A *thing* (a boat, a day, a bench sheet, a card) has versions; a version knows the one it was made from, so
that two people who change the same version leave two, side by side. A boat's version is also the list of
its parts' versions, since parts are swapped between boats. Everything about a person stands in one row of
`people`, behind a number that says nothing; every other table, the trail among them, knows the number only.
"""

from sqlalchemy import (
    CheckConstraint,
    Column,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
)

tables = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "pk": "pk_%(table_name)s",
    }
)

THINGS = ("boat", "day", "bench-sheet", "card")
VERBS = ("save", "undo", "erase", "name")

people = Table(
    "people",
    tables,
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("details", Text),  # JSON: all that is known of the person; nothing once erased
    Column("before", Text),  # JSON list: earlier details, for undo; nothing once erased
    Column("erased_at", String(27)),
)

trail = Table(
    "trail",
    tables,
    Column("id", Integer, primary_key=True),
    Column("at", String(27), nullable=False),  # UTC
    Column("by", String(60), nullable=False),  # who did it, as they call themselves at this machine
    Column("verb", String(12), nullable=False),
    Column("thing_id", Integer, ForeignKey("things.id")),
    Column("version_id", Integer),
    Column("person_number", Integer, ForeignKey("people.number")),
    Column("undoes", Integer, ForeignKey("trail.id")),
    CheckConstraint("verb IN ('save', 'undo', 'erase', 'name')", name="verb"),
)

things = Table(
    "things",
    tables,
    Column("id", Integer, primary_key=True),
    Column("kind", String(12), nullable=False),
    Column("name", String(80), nullable=False),
    CheckConstraint("kind IN ('boat', 'day', 'bench-sheet', 'card')", name="kind"),
    UniqueConstraint("kind", "name"),
)

versions = Table(
    "versions",
    tables,
    Column("id", Integer, primary_key=True),
    Column("thing_id", Integer, ForeignKey("things.id"), nullable=False, index=True),
    Column("parent_id", Integer, ForeignKey("versions.id")),  # what it was made from
    Column("content_hash", String(16), nullable=False),
    Column("text", Text, nullable=False),  # the document as written, comments and all
    Column("made_at", String(27), nullable=False),
    Column("made_by", String(60), nullable=False),
    Column("boat_version_id", Integer, ForeignKey("versions.id")),  # of a card or bench sheet
    Column("person_number", Integer, ForeignKey("people.number")),  # whom a card is for
    Column("taken_back", Integer, ForeignKey("trail.id")),  # by which undo
)

parts = Table(
    "parts",
    tables,
    Column("id", Integer, primary_key=True),
    Column("kind", String(12), nullable=False),
    Column("name", String(80), nullable=False),
    UniqueConstraint("kind", "name"),
)

part_versions = Table(
    "part_versions",
    tables,
    Column("id", Integer, primary_key=True),
    Column("part_id", Integer, ForeignKey("parts.id"), nullable=False),
    Column("content_hash", String(16), nullable=False),
    Column("content", Text, nullable=False),  # JSON of that table of the boat file
    UniqueConstraint("part_id", "content_hash"),
)

boat_parts = Table(
    "boat_parts",
    tables,
    Column("version_id", Integer, ForeignKey("versions.id"), primary_key=True),
    Column("part_version_id", Integer, ForeignKey("part_versions.id"), primary_key=True),
    Index("ix_boat_parts_part_version_id", "part_version_id"),
)
