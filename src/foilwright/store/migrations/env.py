"""Runs the migrations inside the transaction that `migrating.py` holds."""

from alembic import context

from foilwright.store.tables import tables

context.configure(
    connection=context.config.attributes["connection"], target_metadata=tables, transactional_ddl=False
)
context.run_migrations()
