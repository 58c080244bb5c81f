"""Two people, one boat; parts that wander; undo; and what is left of an erased person."""

from pathlib import Path

import pytest

from foilwright.documents.boat_file import boat_from_text
from foilwright.documents.examples import example
from foilwright.mistakes import Mistake
from foilwright.store.backup import back_up, restore
from foilwright.store.boats import save_boat, uses_of_part
from foilwright.store.opening import FILE, Store, open_store
from foilwright.store.people import add_person, change_person, erase_person, people_known, person
from foilwright.store.trails import entries, undo
from foilwright.store.versions import heads, history, names, save, version

MARRAM = example("marram").read_text(encoding="utf-8")


def saved_boat(store: Store, text: str, by: str = "shed", parent: int | None = None):
    return save_boat(store, boat_from_text(text, "marram.toml"), text, by, parent)


def test_a_boat_comes_back_as_written(store):
    saved = saved_boat(store, MARRAM)
    assert saved.beside == ()
    assert version(store, saved.version.id).text == MARRAM
    assert names(store, "boat") == ("Marram",)


def test_two_people_saving_the_same_boat_keep_both(store):
    first = saved_boat(store, MARRAM).version
    hers = saved_boat(store, MARRAM.replace("mass_kg = 40.0", "mass_kg = 41.0"), "her", first.id)
    his = saved_boat(store, MARRAM.replace("mass_kg = 40.0", "mass_kg = 42.0"), "him", first.id)
    assert hers.beside == ()
    assert [other.made_by for other in his.beside] == ["her"]
    assert [head.made_by for head in heads(store, "boat", "Marram")] == ["her", "him"]
    third = saved_boat(store, MARRAM.replace("mass_kg = 40.0", "mass_kg = 41.5"), "her", hers.version.id)
    assert {head.id for head in heads(store, "boat", "Marram")} == {his.version.id, third.version.id}


def test_a_swapped_part_is_found_wherever_it_sails(store):
    saved_boat(store, MARRAM)
    other = MARRAM.replace('name = "Marram"', 'name = "Samphire"').replace("marram-hull-1", "samphire-hull-1")
    saved_boat(store, other)
    assert [use.boat for use in uses_of_part(store, "main_foil", "marram-main-1")] == ["Marram", "Samphire"]
    assert [use.boat for use in uses_of_part(store, "hull", "samphire-hull-1")] == ["Samphire"]


def test_undo_hides_and_brings_back(store):
    first = saved_boat(store, MARRAM).version
    second = saved_boat(store, MARRAM + "\n# again\n", parent=first.id)
    undone = undo(store, second.trail_id, "shed")
    assert [head.id for head in heads(store, "boat", "Marram")] == [first.id]
    assert len(history(store, "boat", "Marram")) == 2, "nothing is lost"
    redone = undo(store, undone, "shed")
    assert [head.id for head in heads(store, "boat", "Marram")] == [second.version.id]
    undo(store, redone, "shed")
    assert [head.id for head in heads(store, "boat", "Marram")] == [first.id]
    with pytest.raises(Mistake, match="undone already"):
        undo(store, second.trail_id, "shed")


def test_a_persons_details_can_be_undone_and_erased(store, tmp_path):
    number = add_person(store, {"name": "Bramblequick", "mass_kg": 43}, "shed")
    change = change_person(store, number, {"name": "Bramblequick", "mass_kg": 48}, "shed")
    undone = undo(store, change, "shed")
    assert person(store, number)["mass_kg"] == 43
    undo(store, undone, "shed")
    assert person(store, number)["mass_kg"] == 48
    save(store, "card", "Marram, today", "{}", "shed", person_number=number)
    back_up(store, tmp_path / "before.jsonl")
    erase_person(store, number, "shed")
    back_up(store, tmp_path / "after.jsonl")
    assert people_known(store) == {}
    with pytest.raises(Mistake, match="erased"):
        person(store, number)
    for entry in entries(store):
        if entry.verb in ("erase",):
            with pytest.raises(Mistake, match="nothing is left"):
                undo(store, entry.id, "shed")
    for file in (tmp_path / "before.jsonl", tmp_path / "after.jsonl"):
        assert b"Bramblequick" not in file.read_bytes()
        assert str(number).encode() in file.read_bytes()


def test_erased_bytes_are_gone_from_the_file(tmp_path):
    store = open_store(tmp_path)
    number = add_person(store, {"name": "Bramblequick" * 20}, "shed")
    change_person(store, number, {"name": "Bramblequick" * 30}, "shed")
    erase_person(store, number, "shed")
    store.close()
    for file in tmp_path.rglob("*"):
        assert b"Bramblequick" not in file.read_bytes()
    assert (tmp_path / FILE).stat().st_mode & 0o077 == 0


def test_a_backup_gives_everything_back_but_people(store, tmp_path):
    first = saved_boat(store, MARRAM)
    second = saved_boat(store, MARRAM + "\n# again\n", parent=first.version.id)
    undone = undo(store, second.trail_id, "shed")
    number = add_person(store, {"name": "Bramblequick"}, "shed")
    save(store, "card", "a card", "{}", "shed", boat_version_id=first.version.id, person_number=number)
    back_up(store, tmp_path / "backup.jsonl")
    again = restore(tmp_path / "backup.jsonl", tmp_path / "again")
    assert [head.text for head in heads(again, "boat", "Marram")] == [MARRAM]
    assert len(uses_of_part(again, "hull", "marram-hull-1")) == 1
    assert [(e.verb, e.name) for e in entries(again)] == [(e.verb, e.name) for e in entries(store)]
    assert entries(again)[-1].version_id == history(again, "boat", "Marram")[0].id
    [undo_again] = [e for e in entries(again) if e.verb == "undo"]
    undo(again, undo_again.id, "shed")
    assert heads(again, "boat", "Marram")[0].text.endswith("# again\n")
    assert undone
    again.close()
    with pytest.raises(Mistake, match="holds something"):
        restore(tmp_path / "backup.jsonl", tmp_path / "again")
    (tmp_path / "rubbish.jsonl").write_bytes(b"\x7fELF rubbish")
    with pytest.raises(Mistake, match="not a backup"):
        restore(tmp_path / "rubbish.jsonl", tmp_path / "other")


def test_a_version_of_another_boat_is_no_parent(store):
    first = saved_boat(store, MARRAM).version
    with pytest.raises(Mistake, match="a version of Marram"):
        save(store, "boat", "Sedge", "text", "shed", parent_id=first.id)
    assert names(store, "boat") == ("Marram",), "nothing half-done is kept"
    with pytest.raises(Mistake, match="no such version"):
        version(store, 9999)


def test_what_is_no_store_is_told(tmp_path):
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / FILE).write_bytes(b"something else entirely, long enough to be looked at" * 40)
    with pytest.raises(Mistake, match="cannot be opened as a store"):
        open_store(tmp_path / "full")
    (tmp_path / "file").touch()
    with pytest.raises(Mistake, match="cannot be written"):
        open_store(tmp_path / "file" / "below")


def test_a_newer_store_is_refused(tmp_path):
    from sqlalchemy import text

    store = open_store(tmp_path)
    with store.writing() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    store.close()
    with pytest.raises(Mistake, match="newer foilwright"):
        open_store(tmp_path)


def test_the_migrations_make_the_tables_of_today(store):
    from alembic.autogenerate import compare_metadata
    from alembic.runtime.migration import MigrationContext

    from foilwright.store.tables import tables

    with store.reading() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, tables) == []


def test_only_words_that_every_database_speaks():
    """No SQL in text but the pragmas and the two words that begin a transaction on SQLite."""
    import foilwright.store as room

    for file in Path(str(room.__file__)).parent.rglob("*.py"):
        if file.name != "opening.py":
            assert "text(" not in file.read_text(encoding="utf-8").replace("_text(", ""), file
