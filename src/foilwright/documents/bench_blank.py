"""An empty bench sheet for a boat: what to read, in the order of the twenty minutes.

Which adjusters are moved follows from what they change in the boat file, not from their names; at which wand
angles the foil is read, from where the file has it free of its stops.

What is worth most is read most: the foil near both ends of its free travel, the batten's zero in between, the
stops of the foil three times. The batten is long, because a ruler is good to a millimetre whatever the batten
(docs/theory/bench-fit.md).
"""

from collections.abc import Sequence
from typing import NamedTuple

from foilwright.documents.bench_lines import COLUMNS
from foilwright.documents.bench_places import wand_places
from foilwright.documents.boat_chain import AdjusterRecord
from foilwright.documents.boat_record import BoatFile

PLACES, PLACES_AGAIN = 6, 5  # wand angles with the adjuster at its mark, and away from it
TURNS = 3
BATTEN_MM = 600.0  # hinge to its end
BOTTLE_N = 5.0  # half a litre of water: 3 N m about the hinge
BOTTLE = "half a litre of water on the batten"


class Blank(NamedTuple):
    """One line of a sheet before anything was read; the fields are those of its columns."""

    what: str
    at: str = ""
    way: str = ""
    wand_deg: float | None = None
    travel: str = ""
    settings: str = ""
    load_n: float | None = None
    note: str = ""


def blank_sheet(boat: BoatFile) -> list[Blank]:
    """Every line to be read."""
    whole = boat.main_foil.control == "whole"
    rod, wand_slide, rake = (
        _turning(boat, starts) for starts in (("chain.",), ("wand.length",), ("rudder.inc",))
    )
    lines = [Blank("tape", "wand-length"), Blank("tape", "pivot-height")]
    if rod is None and wand_slide is not None:
        lines += [Blank("tape", "wand-length", settings=at) for at in _ends(wand_slide, 2)]
    lines += [Blank("level", "reference", way) for way in ("one", "one", "other")]
    lines += [Blank("wand-stop", at) for at in ("forward", "back")]
    lines += [
        Blank("batten-zero", note="chord along the reference" if whole else "flap in line with the foil")
    ]
    lines += 3 * [Blank("foil-stop", at) for at in ("least", "greatest")]
    lines += _both_ways(wand_places(boat, {}, PLACES), "")
    for name, steps in _around(rod, TURNS) if rod is not None else ():
        lines += _both_ways(wand_places(boat, {name: steps}, PLACES_AGAIN), f"{name}={steps:g}")
    lines += 2 * [Blank("level", "reference", "one")]
    lines += [
        Blank("batten", wand_deg=45.0, travel=travel, load_n=BOTTLE_N, note=BOTTLE)
        for travel in ("back", "forward")
    ]
    lines += [Blank("batten-zero")]
    if whole:
        lines += [
            Blank("level", "main-foil", way, wand_deg=wand, travel=travel)
            for wand in (30.0, 45.0, 60.0)
            for travel in ("back", "forward")
            for way in ("one", "other")
        ]
    else:
        lines += [Blank("level", "main-foil", way) for way in ("one", "other")]
    lines += [Blank("level", "rudder-foil", way) for way in ("one", "other")]
    lines += [Blank("level", "reference", way) for way in ("one", "one", "other")]
    if rake is not None:
        lines += [
            Blank("rake", settings=at)
            for at in (f"{rake.name}={rake.least}", "", f"{rake.name}={rake.greatest}")
        ]
    lines += [Blank("weigh", at) for at in ("bow", "stern")]
    lines += [
        Blank("pull", wand_deg=wand, travel=travel) for wand in (30.0, 60.0) for travel in ("back", "forward")
    ]
    return lines


def _both_ways(wands: Sequence[float], settings: str) -> list[Blank]:
    """Back through all wand angles, the zero, forward through them, the zero."""
    back = [Blank("batten", wand_deg=wand, travel="back", settings=settings) for wand in wands]
    forward = [
        Blank("batten", wand_deg=wand, travel="forward", settings=settings) for wand in reversed(wands)
    ]
    return [*back, Blank("batten-zero"), *forward, Blank("batten-zero")]


def _turning(boat: BoatFile, starts: tuple[str, ...]) -> AdjusterRecord | None:
    """The first adjuster that changes a number whose path begins so, by so much a step; no holes."""
    for record in boat.adjusters:
        if not record.choice and any(change.number.startswith(starts) for change in record.changes):
            return record
    return None


def _around(record: AdjusterRecord, steps: int) -> list[tuple[str, float]]:
    """Settings so many steps either side of the mark, as far as the range goes."""
    places = (min(steps, record.greatest), max(-steps, record.least))
    return [(record.name, place) for place in places if place]


def _ends(record: AdjusterRecord, count: int) -> list[str]:
    """Settings from one end of the range to the other, `count` on each side of the mark."""
    low = [round(record.least * (count - i) / count) for i in range(count)]
    high = [round(record.greatest * (i + 1) / count) for i in range(count)]
    return [f"{record.name}={place}" for place in (*low, *high) if place]


def csv_text(head: Sequence[tuple[str, str]], blanks: Sequence[Blank], readings: Sequence[str]) -> str:
    """A sheet as CSV, without comments."""
    lines = [f'{name},"{value}"' if "," in value else f"{name},{value}" for name, value in head]
    rows = [row_text(blank, reading) for blank, reading in zip(blanks, readings, strict=True)]
    return "\n".join([*lines, "", ",".join(COLUMNS), *rows]) + "\n"


def row_text(blank: Blank, reading: str) -> str:
    """One line of the table."""
    cells = [
        blank.what,
        blank.at,
        blank.way,
        "" if blank.wand_deg is None else f"{blank.wand_deg:g}",
        blank.travel,
        blank.settings,
        "" if blank.load_n is None else f"{blank.load_n:g}",
        reading,
        blank.note,
    ]
    return ",".join(cells)
