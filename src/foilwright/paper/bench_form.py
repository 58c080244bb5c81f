"""The bench form: an A4 sheet to fill in with a pencil, in the order of the twenty-minute measurement.

Every box is one line of the bench sheet, with that line's number, so that it can be typed in afterwards
without thinking. PDF, always the same bytes for the same boat.
"""

import json
from collections.abc import Sequence
from importlib.resources import files
from itertools import groupby
from typing import NamedTuple

from foilwright.documents.bench_blank import BATTEN_MM, Blank, blank_sheet
from foilwright.documents.bench_record import KINDS
from foilwright.documents.bench_time import minutes
from foilwright.documents.boat_record import BoatFile
from foilwright.paper import bench_texts as texts
from foilwright.paper.svg_marks import FONT

MADE = 0  # seconds: the date is written by hand
MOST_BOXES, HALF_BOXES = 6, 3  # side by side over the whole width, over half; a seventh fits


class Row(NamedTuple):
    """A row of boxes: what is read, how, and a caption for each box."""

    title: str
    how: str
    boxes: tuple[str, ...]


def form_rows(boat: BoatFile) -> list[Row]:
    """The rows in order, the boxes numbered as the lines of the sheet."""
    rows: list[Row] = []
    number = 0
    said: set[str] = set()
    for blanks in _together(blank_sheet(boat)):
        most = MOST_BOXES + 1 if len(blanks) == MOST_BOXES + 1 else MOST_BOXES
        for start in range(0, len(blanks), most):
            part = blanks[start : start + most]
            boxes = tuple(f"{number + i + 1}  {_caption(blank)}" for i, blank in enumerate(part))
            number += len(part)
            title, how = _words(part[0], boat)
            rows.append(Row(title, "" if how in said else how, boxes))
            said.add(how)
    return rows


def _together(blanks: Sequence[Blank]) -> list[list[Blank]]:
    """Blanks of one row; the batten's zero after a row of the batten stands at its end."""
    groups: list[list[Blank]] = []
    for _, group in groupby(blanks, key=_kin):
        one = list(group)
        if one[0].what == "batten-zero" and groups and groups[-1][0].what == "batten":
            groups[-1] += one
        else:
            groups.append(one)
    return groups


def _paired(rows: Sequence[Row]) -> list[list[Row]]:
    """Two short rows side by side, a long one alone."""
    lines: list[list[Row]] = []
    for row in rows:
        short = len(row.boxes) <= HALF_BOXES
        if short and lines and len(lines[-1]) == 1 and len(lines[-1][0].boxes) <= HALF_BOXES:
            lines[-1].append(row)
        else:
            lines.append([row])
    return lines


def _kin(blank: Blank) -> tuple[str, ...]:
    """Blanks that stand in one row."""
    place = blank.at if blank.what == "level" else ""
    settings = blank.settings if blank.what == "batten" else ""
    travel = blank.travel if blank.what == "batten" and not blank.load_n else ""
    return (blank.what, place, settings, travel, "load" if blank.load_n else "")


def _words(blank: Blank, boat: BoatFile) -> tuple[str, str]:
    whole = boat.main_foil.control == "whole"
    title = texts.TITLES.get(f"{blank.what} {blank.at}", texts.TITLES[blank.what])
    if blank.what == "batten":
        at = texts.AT.format(settings=_spoken(blank.settings)) if blank.settings else texts.AT_MARKS
        title = texts.LOADED if blank.load_n else texts.BATTEN.format(travel=blank.travel, at=at)
    unit = KINDS[blank.what].unit
    how = texts.HOW.get(f"{blank.what} {blank.at}", texts.HOW.get(blank.what, ""))
    if blank.load_n:
        how = texts.LOADED_HOW
    if blank.what == "batten-zero":
        how = (texts.WHOLE_ZERO if whole else how).format(length=BATTEN_MM)
    return f"{title}, {unit}", how


def _caption(blank: Blank) -> str:
    parts = []
    if blank.what == "batten-zero":
        parts.append(texts.ZERO)
    if blank.what == "tape":
        parts.append(blank.at.replace("-", " "))
    elif blank.at and blank.what != "level":
        parts.append(blank.at)
    if blank.wand_deg is not None:
        parts.append(f"wand {blank.wand_deg:g}°")
    if blank.travel and (blank.what != "batten" or blank.load_n):
        parts.append(blank.travel)
    if blank.way:
        parts.append(texts.WAYS[blank.way])
    if blank.settings and blank.what != "batten":
        parts.append(_spoken(blank.settings))
    if blank.what == "rake" and not blank.settings:
        parts.append(texts.MARK)
    return ", ".join(parts)


def _spoken(settings: str) -> str:
    name, _, steps = settings.partition("=")
    return f"{name.replace('-', ' ')} {float(steps):+g}".replace("-", "−")


def bench_form(boat: BoatFile) -> bytes:
    """The form as PDF."""
    import typst

    here = files("foilwright.paper")
    pdf, warnings = typst.compile_with_warnings(
        str(here.joinpath("bench_form.typ")),
        font_paths=[str(here.joinpath("fonts"))],
        ignore_system_fonts=True,
        sys_inputs={"form": json.dumps(_content(boat, form_rows(boat)))},
        format="pdf",
        timestamp=MADE,
    )
    if warnings:
        raise RuntimeError(f"the form's template warns: {warnings[0].message}")
    assert isinstance(pdf, bytes)
    return pdf


def _content(boat: BoatFile, rows: Sequence[Row]) -> dict[str, object]:
    return {
        "font": FONT,
        "title": boat.name,
        "kind": texts.FORM.format(minutes=minutes(blank_sheet(boat))),
        "head": texts.HEAD,
        "lead": texts.LEAD,
        "rows": [[row._asdict() for row in line] for line in _paired(rows)],
        "foot": texts.FOOT,
    }
