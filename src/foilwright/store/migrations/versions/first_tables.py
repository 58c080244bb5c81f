"""The first tables, as they were then: a migration never looks at the tables of today."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """People, trail, things with versions, parts."""
    op.create_table(
        "people",
        sa.Column("number", sa.Integer, autoincrement=False),
        sa.Column("details", sa.Text),
        sa.Column("before", sa.Text),
        sa.Column("erased_at", sa.String(27)),
        sa.PrimaryKeyConstraint("number", name="pk_people"),
    )
    op.create_table(
        "things",
        sa.Column("id", sa.Integer),
        sa.Column("kind", sa.String(12), nullable=False),
        sa.Column("name", sa.String(80), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_things"),
        sa.CheckConstraint("kind IN ('boat', 'day', 'bench-sheet', 'card')", name="ck_things_kind"),
        sa.UniqueConstraint("kind", "name", name="uq_things_kind"),
    )
    op.create_table(
        "trail",
        sa.Column("id", sa.Integer),
        sa.Column("at", sa.String(27), nullable=False),
        sa.Column("by", sa.String(60), nullable=False),
        sa.Column("verb", sa.String(12), nullable=False),
        sa.Column("thing_id", sa.Integer),
        sa.Column("version_id", sa.Integer),
        sa.Column("person_number", sa.Integer),
        sa.Column("undoes", sa.Integer),
        sa.PrimaryKeyConstraint("id", name="pk_trail"),
        sa.ForeignKeyConstraint(["thing_id"], ["things.id"], name="fk_trail_thing_id"),
        sa.ForeignKeyConstraint(["person_number"], ["people.number"], name="fk_trail_person_number"),
        sa.ForeignKeyConstraint(["undoes"], ["trail.id"], name="fk_trail_undoes"),
        sa.CheckConstraint("verb IN ('save', 'undo', 'erase', 'name')", name="ck_trail_verb"),
    )
    op.create_table(
        "versions",
        sa.Column("id", sa.Integer),
        sa.Column("thing_id", sa.Integer, nullable=False),
        sa.Column("parent_id", sa.Integer),
        sa.Column("content_hash", sa.String(16), nullable=False),
        sa.Column("text", sa.Text, nullable=False),
        sa.Column("made_at", sa.String(27), nullable=False),
        sa.Column("made_by", sa.String(60), nullable=False),
        sa.Column("boat_version_id", sa.Integer),
        sa.Column("person_number", sa.Integer),
        sa.Column("taken_back", sa.Integer),
        sa.PrimaryKeyConstraint("id", name="pk_versions"),
        sa.ForeignKeyConstraint(["thing_id"], ["things.id"], name="fk_versions_thing_id"),
        sa.ForeignKeyConstraint(["parent_id"], ["versions.id"], name="fk_versions_parent_id"),
        sa.ForeignKeyConstraint(["boat_version_id"], ["versions.id"], name="fk_versions_boat_version_id"),
        sa.ForeignKeyConstraint(["person_number"], ["people.number"], name="fk_versions_person_number"),
        sa.ForeignKeyConstraint(["taken_back"], ["trail.id"], name="fk_versions_taken_back"),
    )
    op.create_index("ix_versions_thing_id", "versions", ["thing_id"])
    op.create_table(
        "parts",
        sa.Column("id", sa.Integer),
        sa.Column("kind", sa.String(12), nullable=False),
        sa.Column("name", sa.String(80), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_parts"),
        sa.UniqueConstraint("kind", "name", name="uq_parts_kind"),
    )
    op.create_table(
        "part_versions",
        sa.Column("id", sa.Integer),
        sa.Column("part_id", sa.Integer, nullable=False),
        sa.Column("content_hash", sa.String(16), nullable=False),
        sa.Column("content", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_part_versions"),
        sa.ForeignKeyConstraint(["part_id"], ["parts.id"], name="fk_part_versions_part_id"),
        sa.UniqueConstraint("part_id", "content_hash", name="uq_part_versions_part_id"),
    )
    op.create_table(
        "boat_parts",
        sa.Column("version_id", sa.Integer, autoincrement=False),
        sa.Column("part_version_id", sa.Integer, autoincrement=False),
        sa.PrimaryKeyConstraint("version_id", "part_version_id", name="pk_boat_parts"),
        sa.ForeignKeyConstraint(["version_id"], ["versions.id"], name="fk_boat_parts_version_id"),
        sa.ForeignKeyConstraint(
            ["part_version_id"], ["part_versions.id"], name="fk_boat_parts_part_version_id"
        ),
    )
    op.create_index("ix_boat_parts_part_version_id", "boat_parts", ["part_version_id"])
