"""Boats that are kept: what is at hand, one version, a change saved as a new version, undo, the trail."""

from collections.abc import Mapping, Sequence
from functools import lru_cache
from pathlib import Path
from typing import Any, NamedTuple, TypedDict

from foilwright.documents.bench_sheet import sheet_from_text
from foilwright.documents.boat_file import boat_from_text
from foilwright.documents.boat_numbers import ready
from foilwright.documents.examples import examples_folder
from foilwright.documents.toml_file import edited
from foilwright.jobs.conditions import settings_from
from foilwright.mistakes import Mistake
from foilwright.store.boats import save_boat, save_measured_boat
from foilwright.store.opening import Store, open_store
from foilwright.store.trails import entries, undo
from foilwright.store.versions import Version, heads, history, names, version

NOBODY = "somebody at this machine"
EXAMPLES = "the examples"
LONGEST_NAME = 60


class Shelved(NamedTuple):
    """A boat at hand: its name, and the versions that stand side by side; none where only the example is."""

    name: str
    versions: tuple[Version, ...]
    example: str | None


class VersionAnswer(TypedDict):
    """One version in a list."""

    version_id: int
    content_hash: str
    made_at: str
    made_by: str
    made_from: int | None
    taken_back: bool


class SavedAnswer(TypedDict):
    """What came of saving."""

    format: str
    version: int
    boat: str
    version_id: int
    trail_id: int
    beside: list[VersionAnswer]


class TrailAnswer(TypedDict):
    """One entry of the trail."""

    trail_id: int
    at: str
    by: str
    verb: str
    kind: str | None
    name: str | None
    version_id: int | None
    undoes: int | None


def open_shelf(where: str | Path) -> Store:
    """The store in a folder or at a postgresql:// address."""
    return open_store(where)


def boats_at_hand(store: Store) -> list[Shelved]:
    """Every boat in the store and every example, by name."""
    kept = {name: heads(store, "boat", name) for name in names(store, "boat")}
    found = {name: Shelved(name, versions, None) for name, versions in kept.items()}
    for path in sorted((examples_folder() / "boats").glob("*.toml")):
        name = name_in(path.read_text(encoding="utf-8"), path.name)
        found[name] = Shelved(name, kept.get(name, ()), path.stem)
    return sorted(found.values(), key=lambda one: one.name)


@lru_cache(64)
def name_in(text: str, file: str) -> str:
    """The name of the boat in a file. Kept: reading a file takes too long to do it at every question."""
    return boat_from_text(text, file).name


def text_of(store: Store, name: str, version_id: int | None = None) -> tuple[str, int | None]:
    """The file of a boat and the version it is: the one asked for, else the newest, else the example.

    Version 0 is the example as it comes, which is no version in the store.
    """
    if version_id == 0:
        return example_text(name), None
    if version_id is not None:
        found = version(store, version_id)
        if (found.kind, found.name) != ("boat", name):
            raise Mistake(
                f"version {version_id}",
                f"a version of {found.name}",
                f"a version of {name}",
                "Open it again.",
            )
        return found.text, found.id
    present = heads(store, "boat", name)
    if present:
        return present[-1].text, present[-1].id
    return example_text(name), None


def example_text(name: str) -> str:
    """The file of an example boat, by the boat's name."""
    texts = {}
    for path in sorted((examples_folder() / "boats").glob("*.toml")):
        text = path.read_text(encoding="utf-8")
        texts[name_in(text, path.name)] = text
    if name not in texts:
        raise Mistake("boat", f"no boat named {name}", ", ".join(texts), "Choose one from the list.")
    return texts[name]


def save_changes(store: Store, name: str, made_from: int, changes: Mapping[str, Any], by: str) -> SavedAnswer:
    """Keeps a boat with values changed by their paths as a new version; comments stay.

    `made_from` is the version that was changed, or 0 for the example as it comes. It is told, not guessed:
    what somebody else saved meanwhile must not slip in below. What makes no good boat is not kept.
    """
    text, _ = text_of(store, name, made_from)
    return save_text(store, name, edited(text, changes, name), made_from, by)


def save_settings(
    store: Store, name: str, made_from: int, settings: Mapping[str, float], by: str
) -> SavedAnswer:
    """Keeps where the adjusters were put; of those that are not named, where they were."""
    text, _ = text_of(store, name, made_from)
    stands = settings_from(ready(boat_from_text(text, name), file=name), settings, "settings")
    changes = {f"adjusters.{one.strip()}.present": stands[one.strip()] for one in settings}
    return save_changes(store, name, made_from, changes, by)


def save_measured(
    store: Store, name: str, made_from: int, changes: Mapping[str, Any], sheet: str, file: str, by: str
) -> SavedAnswer:
    """Keeps a boat as it was fitted, and the bench sheet as it was read: both, or neither."""
    text, _ = text_of(store, name, made_from)
    return save_text(store, name, edited(text, changes, name), made_from, by, (sheet, file))


def save_text(
    store: Store,
    name: str,
    text: str,
    made_from: int | None,
    by: str,
    sheet: tuple[str, str] | None = None,
) -> SavedAnswer:
    """Keeps a whole boat file as a new version of the boat `name`; made from nothing, where it is new.

    sheet: the bench sheet that it was fitted to, its text and its file's name, kept with it.
    """
    boat = boat_from_text(text, name)
    if boat.name != name:
        raise Mistake("name", f'"{boat.name}"', f'"{name}"', "A boat keeps its name from version to version.")
    who = maker(by)
    parent = example_kept(store, name) if made_from == 0 else made_from
    if sheet is None:
        saved = save_boat(store, boat, text, who, parent)
    else:
        sheet_text, file = sheet
        saved = save_measured_boat(store, boat, text, who, parent, sheet_name(sheet_text, file), sheet_text)
    return {
        "format": "foilwright/saved",
        "version": 1,
        "boat": name,
        "version_id": saved.version.id,
        "trail_id": saved.trail_id,
        "beside": [version_answer(one) for one in saved.beside],
    }


def example_kept(store: Store, name: str) -> int:
    """The version that is the example itself: all that was made from the example is made from this one."""
    text = example_text(name)
    for one in history(store, "boat", name):
        if (one.made_by, one.text, one.parent_id) == (EXAMPLES, text, None) and not one.taken_back:
            return one.id
    return save_boat(store, boat_from_text(text, name), text, EXAMPLES).version.id


def sheet_name(text: str, file: str) -> str:
    """What a bench sheet is kept as; a sheet that cannot be read is kept by nobody but its writer."""
    return f"{sheet_from_text(text, file).head.boat}, {file}"[:80]


def maker(by: str) -> str:
    """Who did it, as they call themselves."""
    who = " ".join(by.split()) or NOBODY
    if len(who) > LONGEST_NAME or not who.isprintable():
        raise Mistake(
            "by", f"{len(who)} signs", f"at most {LONGEST_NAME} plain signs", "Give a shorter name."
        )
    return who


def versions_of(store: Store, name: str) -> list[VersionAnswer]:
    """Every version of a boat, oldest first."""
    return [version_answer(one) for one in history(store, "boat", name)]


def version_answer(one: Version) -> VersionAnswer:
    """One version, without its text."""
    return {
        "version_id": one.id,
        "content_hash": one.content_hash,
        "made_at": one.made_at,
        "made_by": one.made_by,
        "made_from": one.parent_id,
        "taken_back": one.taken_back,
    }


def undo_entry(store: Store, entry_id: int, by: str) -> int:
    """Takes one entry of the trail back."""
    return undo(store, entry_id, maker(by))


def trail_of(store: Store, newest: int = 100) -> Sequence[TrailAnswer]:
    """The newest entries of the trail."""
    return [
        {
            "trail_id": entry.id,
            "at": entry.at,
            "by": entry.by,
            "verb": entry.verb,
            "kind": entry.kind,
            "name": entry.name,
            "version_id": entry.version_id,
            "undoes": entry.undoes,
        }
        for entry in entries(store, newest)
    ]
