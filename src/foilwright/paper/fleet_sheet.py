"""The fleet sheet: one A4 for the whole fleet, PDF, black on white, always the same bytes for the same day.

It shows who sails which boat, how it is set and what is changed first. Limits that are exceeded and limits
that are unknown stand in one list and look the same.
"""

from foilwright.documents.fleet_sheet import Depths, FleetLine, FleetSheet
from foilwright.mistakes import Mistake
from foilwright.paper import fleet_texts as texts
from foilwright.paper.sheet_pdf import sheet_pdf
from foilwright.units import plain

SIZES = ((12.0, 2.6), (11.0, 2.0), (10.0, 1.4), (9.5, 1.0), (9.0, 0.6))
"""Of the letters [pt] and of the gaps between rows [mm], largest first: to be read from two metres."""


def fleet_sheet(sheet: FleetSheet) -> bytes:
    """The fleet sheet as PDF, set as large as one A4 holds and never below 9 pt."""
    content = fleet_content(sheet)
    for size, gap in SIZES:
        pdf = sheet_pdf("fleet_sheet.typ", {**content, "size": size, "gap": gap})
        if pdf is not None:
            return pdf
    raise Mistake(
        "fleet sheet",
        f"{len(sheet.lines)} boats and {len(sheet.warned)} limits to name, more than one A4 holds",
        "what fits on one A4 in 9 pt",
        "Split the day sheet into two groups.",
    )


def fleet_content(sheet: FleetSheet) -> dict[str, object]:
    """What the template is filled with."""
    changed = [line for line in sheet.lines if line.changed]
    return {
        "title": sheet.place,
        "kind": f"{texts.FLEET}, {sheet.date}",
        "mark": texts.INVENTED if sheet.invented else "",
        "times": sheet.times,
        "wind": list(sheet.wind),
        "water": sheet.water,
        "head": list(texts.HEAD),
        "rows": [_row(line) for line in sheet.lines],
        "nobody": "" if sheet.lines else texts.NOBODY,
        "changed": _changed_line(sheet, changed),
        "names": [
            *(
                [texts.NOT_IN_A_BOAT.format(names=", ".join(sheet.not_in_a_boat))]
                if sheet.not_in_a_boat
                else []
            ),
            *([texts.ABSENT.format(names=", ".join(sheet.absent))] if sheet.absent else []),
        ],
        "out-title": texts.OUT_TITLE,
        "out": list(sheet.out),
        "warned-title": texts.WARNED_TITLE,
        "warned": list(sheet.warned) or [texts.WARNED_NONE],
        "depth-title": texts.DEPTH_TITLE,
        "depth-head": list(texts.DEPTH_HEAD),
        "depths": [depth_row(one) for one in sheet.depths],
        "cautions-title": texts.CAUTIONS_TITLE,
        "cautions": list(texts.CAUTIONS),
        "decides": texts.DECIDES,
    }


def depth_row(one: Depths) -> list[str]:
    """A boat's row of the depths: what it needs, and what the day has or does not have."""
    return [
        one.boat,
        f"{one.foils:.1f} m",
        f"{one.mast:.1f} m",
        _depth(one.slip, one.foils, one.mast),
        _depth(one.area, one.foils, one.mast),
    ]


def _depth(depth: float | None, foils: float, mast: float) -> str:
    if depth is None:
        return texts.UNKNOWN
    words = f"{depth:.1f} m"
    short = (depth < foils, depth < mast)
    what = {(True, True): texts.BOTH, (True, False): texts.THE_FOILS, (False, True): texts.THE_MAST}.get(
        short
    )
    return words if what is None else texts.LESS.format(depth=words, what=what)


def _row(line: FleetLine) -> dict[str, object]:
    return {
        "cells": [
            " + ".join(line.people),
            line.boat,
            line.sail,
            line.foil_set,
            "\n".join(line.settings),
            line.first,
        ],
        "note": texts.NOTE.format(note=line.note) if line.note else "",
        "changed": texts.CHANGED.format(what=", ".join(line.changed)) if line.changed else "",
    }


def _changed_line(sheet: FleetSheet, changed: list[FleetLine]) -> str:
    if not sheet.before:
        return ""
    if not changed:
        return texts.NOTHING_CHANGED
    return f"{texts.CHANGED_HEAD}: {plain(len(changed))}"
