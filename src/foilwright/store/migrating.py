"""Brings the tables of a store up to date, in one transaction: a step is whole or it has not happened."""

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory

from foilwright.mistakes import Mistake
from foilwright.store.opening import Store


def bring_up_to_date(store: Store) -> None:
    """Runs the migrations that this store has not seen. Refuses one that is newer than we are."""
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    script = ScriptDirectory.from_config(config)
    newest = script.get_current_head()
    with store.reading() as connection:
        if MigrationContext.configure(connection).get_current_revision() == newest:
            return
    with store.writing() as connection:
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
