"""Stores written by every earlier revision of the tables open, and keep all that is in them."""

import sqlite3
from pathlib import Path

import pytest
from alembic.config import Config
from alembic.script import ScriptDirectory

import foilwright.store.migrating
from foilwright.mistakes import Mistake
from foilwright.store.boats import uses_of_part
from foilwright.store.opening import FILE, open_store
from foilwright.store.people import people_known
from foilwright.store.trails import entries, undo
from foilwright.store.versions import heads, history, names
from tests.store.stored import DATA, fill

REVISIONS = sorted(DATA.glob("revision_*.sql"))


def put_back(dump: Path, folder: Path) -> None:
    """A store as that revision left it."""
    folder.mkdir()
    connection = sqlite3.connect(folder / FILE)
    connection.executescript(dump.read_text(encoding="utf-8"))
    connection.close()


def test_every_revision_is_written_down():
    config = Config()
    folder = Path(foilwright.store.migrating.__file__).parent / "migrations"
    config.set_main_option("script_location", str(folder))
    known = {one.revision for one in ScriptDirectory.from_config(config).walk_revisions()}
    assert {dump.stem.removeprefix("revision_") for dump in REVISIONS} == known, (
        "run python -m tests.store.stored"
    )


@pytest.mark.parametrize("dump", REVISIONS, ids=lambda dump: dump.stem)
def test_an_older_store_keeps_all(tmp_path: Path, dump: Path):
    put_back(dump, tmp_path / "store")
    store = open_store(tmp_path / "store")
    assert [one.made_by for one in heads(store, "boat", "Pipkin")] == ["her", "him"]
    versions = history(store, "boat", "Pipkin")
    assert [one.taken_back for one in versions] == [False, False, False, True]
    assert [one.text.splitlines()[0] for one in versions[1:]] == [
        "# as her has it",
        "# as him has it",
        "a slip",
    ]
    assert {one.parent_id for one in versions[1:]} == {versions[0].id}
    assert names(store, "bench-sheet") == ("Pipkin, sheet.csv",)
    assert names(store, "card") == ("Pipkin, a day",) and names(store, "day") == ("a day",)
    assert history(store, "bench-sheet", "Pipkin, sheet.csv")[0].text == "reading,1,5\n"
    [(number, details)] = people_known(store).items()
    assert details == {"name": "Teasel", "mass_kg": 43}
    part = versions[0].text.split('id = "')[1].split('"')[0]
    assert any(len(uses_of_part(store, kind, part)) == 3 for kind in ("hull", "main_foil", "rudder_foil"))
    told = entries(store)
    assert [one.verb for one in told].count("save") == 7
    [erased] = [one for one in told if one.verb == "erase"]
    with pytest.raises(Mistake, match="nothing is left"):
        undo(store, erased.id, "shed")
    [undone] = [one for one in told if one.verb == "undo"]
    undo(store, undone.id, "shed")
    assert [one.text for one in heads(store, "boat", "Pipkin")][-1] == "a slip"
    assert number in {one.person_number for one in told}
    store.close()


def test_what_is_written_down_is_what_is_written_now(tmp_path: Path):
    """The newest file has the tables and the number of rows that this code makes."""
    put_back(REVISIONS[-1], tmp_path / "old")
    store = open_store(tmp_path / "new")
    fill(store)
    store.close()
    counts = []
    for folder in ("old", "new"):
        connection = sqlite3.connect(tmp_path / folder / FILE)
        tables = [row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        counts.append(
            {table: connection.execute(f"SELECT count(*) FROM {table}").fetchone() for table in tables}
        )
        connection.close()
    assert counts[0] == counts[1]
