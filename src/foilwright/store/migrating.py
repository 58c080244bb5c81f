"""Brings the tables of a store up to date, in one transaction: a step is whole or it has not happened."""

import threading
from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, func, select

from foilwright.mistakes import Mistake
from foilwright.store.opening import Store

POSTGRES_LOCK = 8640_0001
_IN_THIS_PROCESS = threading.Lock()  # alembic keeps what it works on in one place a process


def bring_up_to_date(store: Store) -> None:
    """Runs the migrations that this store has not seen. Refuses one that is newer than we are."""
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    script = ScriptDirectory.from_config(config)
    newest = script.get_current_head()
    with store.reading() as connection:
        if MigrationContext.configure(connection).get_current_revision() == newest:
            return
    with _IN_THIS_PROCESS, store.writing() as connection:
        _alone(connection)
        present = MigrationContext.configure(connection).get_current_revision()
        known = {revision.revision for revision in script.walk_revisions()}
        if present is not None and present not in known:
            raise Mistake(
                "the store",
                f"it has tables of version {present}",
                f"versions up to {newest}",
                "It was written by a newer foilwright; update this one.",
            )
        config.attributes["connection"] = connection
        command.upgrade(config, "head")


def _alone(connection: Connection) -> None:
    """Waits until no other program changes the tables. On SQLite whoever writes is alone already."""
    if connection.dialect.name == "postgresql":
        connection.execute(select(func.pg_advisory_xact_lock(POSTGRES_LOCK)))
