"""A fresh store for each test: SQLite in a folder, or the PostgreSQL that FOILWRIGHT_POSTGRES names."""

import os

import pytest

from foilwright.store.opening import open_store


@pytest.fixture
def where(tmp_path):
    address = os.environ.get("FOILWRIGHT_POSTGRES")
    if not address:
        yield tmp_path / "store"
        return
    from sqlalchemy import create_engine, text

    engine = create_engine(address.replace("postgresql://", "postgresql+psycopg://", 1))
    with engine.begin() as connection:
        connection.execute(text("DROP SCHEMA public CASCADE"))
        connection.execute(text("CREATE SCHEMA public"))
    engine.dispose()
    yield address


@pytest.fixture
def store(where):
    opened = open_store(where)
    yield opened
    opened.close()
