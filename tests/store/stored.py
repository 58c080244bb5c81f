"""Writes down a small store as it is at the newest revision, so that later code can be held against it.

    python -m tests.store.stored          # makes tests/store/data/revision_NNNN.sql, once a revision

A file once made stays as it is: it stands for the stores that people have.
"""

import sqlite3
import sys
import tempfile
from pathlib import Path

from sqlalchemy import text

from foilwright.documents.boat_file import boat_from_text
from foilwright.documents.examples import example
from foilwright.store.boats import save_boat
from foilwright.store.opening import FILE, Store, open_store
from foilwright.store.people import add_person, change_person, erase_person
from foilwright.store.trails import undo
from foilwright.store.versions import save

DATA = Path(__file__).parent / "data"


def fill(store: Store) -> None:
    """Something in every table: two side by side, one taken back, a sheet, a card, people, one erased."""
    boat = example("pipkin").read_text(encoding="utf-8")
    first = save_boat(store, boat_from_text(boat, "pipkin.toml"), boat, "shed").version
    for by in ("her", "him"):
        changed = f"# as {by} has it\n{boat}"
        save_boat(store, boat_from_text(changed, "pipkin.toml"), changed, by, first.id)
    mistaken = save(store, "boat", "Pipkin", "a slip", "him", first.id)
    undo(store, mistaken.trail_id, "him")
    save(store, "bench-sheet", "Pipkin, sheet.csv", "reading,1,5\n", "bosun", boat_version_id=first.id)
    kept = add_person(store, {"name": "Teasel", "mass_kg": 41}, "shed")
    change_person(store, kept, {"name": "Teasel", "mass_kg": 43}, "shed")
    save(store, "card", "Pipkin, a day", "{}", "shed", boat_version_id=first.id, person_number=kept)
    save(store, "day", "a day", "wind = 12\n", "shed")
    erase_person(store, add_person(store, {"name": "Campion"}, "shed"), "shed")


def main() -> int:
    with tempfile.TemporaryDirectory() as folder:
        store = open_store(folder)
        fill(store)
        with store.reading() as connection:
            revision = connection.execute(text("SELECT version_num FROM alembic_version")).scalar_one()
        store.close()
        file = DATA / f"revision_{revision}.sql"
        if file.exists():
            print(f"{file.name} is there, and stays as it is.", file=sys.stderr)
            return 1
        plain = sqlite3.connect(Path(folder) / FILE)
        file.write_text("\n".join(plain.iterdump()) + "\n", encoding="utf-8", newline="\n")
        plain.close()
    print(file.name)
    return 0


if __name__ == "__main__":
    sys.exit(main())
