"""Opening the store: a folder with one SQLite file, or the address of a PostgreSQL database.

SQLite keeps a rollback journal and waits for the disk: its write-ahead log has a fault that can lose data
in versions up to 3.51.2, which are the usual ones. One process may write at a time; others wait.
"""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, text
from sqlalchemy.exc import DatabaseError, OperationalError

from foilwright.mistakes import Mistake

FILE = "foilwright.sqlite"
WAIT_SECONDS = 20.0
POSTGRES = "postgresql"


class Store:
    """An open store: `reading()` and `writing()` give connections, each one transaction."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A transaction that only looks."""
        with self.engine.connect() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A transaction that is kept whole or not at all; on SQLite nobody else writes meanwhile."""
        with self.engine.connect().execution_options(writes=True) as connection, connection.begin():
            yield connection

    def close(self) -> None:
        """Lets go of the file."""
        self.engine.dispose()


def open_store(where: str | Path) -> Store:
    """The store in a folder (made if need be) or at a postgresql:// address, brought up to date.

    Raises Mistake where there is something else, or a store of a newer foilwright.
    """
    engine = _engine(where)
    store = Store(engine)
    from foilwright.store.migrating import bring_up_to_date

    try:
        bring_up_to_date(store)
    except (OperationalError, DatabaseError) as error:
        store.close()
        raise Mistake(
            engine.url.render_as_string(hide_password=True) if _is_address(where) else str(where),
            f"cannot be opened as a store ({error.orig})",
            "a folder of ours, an empty or new folder, or a postgresql:// address",
            "Choose another folder, or move what lies there away.",
        ) from None
    except Mistake:
        store.close()
        raise
    return store


def _is_address(where: str | Path) -> bool:
    return str(where).startswith(f"{POSTGRES}://")


def _engine(where: str | Path) -> Engine:
    address = str(where)
    if _is_address(where):
        return create_engine(
            address.replace(POSTGRES + "://", POSTGRES + "+psycopg://", 1), pool_pre_ping=True
        )
    folder = Path(where)
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        file = folder / FILE
        if not file.exists():
            os.close(os.open(file, os.O_CREAT | os.O_RDWR, 0o600))
    except OSError as error:
        raise Mistake(
            address,
            f"cannot be written ({error.strerror})",
            "a folder you may write to",
            "Choose another folder.",
        ) from None
    engine = create_engine(f"sqlite:///{file}", connect_args={"timeout": WAIT_SECONDS})
    event.listen(engine, "connect", _prepared)
    event.listen(engine, "begin", _begun)
    return engine


def _prepared(connection: Any, _: Any) -> None:
    """Each new SQLite connection: whole transactions by our own words, links checked, erased bytes gone."""
    connection.isolation_level = None
    for pragma in ("journal_mode = DELETE", "synchronous = FULL", "foreign_keys = ON", "secure_delete = ON"):
        connection.execute(f"PRAGMA {pragma}")


def _begun(connection: Connection) -> None:
    """A writer takes its turn at once; otherwise two that have read would wait for each other."""
    writes = connection.get_execution_options().get("writes", False)
    connection.execute(text("BEGIN IMMEDIATE" if writes else "BEGIN"))
