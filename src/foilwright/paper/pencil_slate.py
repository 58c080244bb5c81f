"""The pencil slate: one A5, both sides, for the safety boat. PDF, the same bytes every time.

Everything that is asked for is a stroke, a time or a count; nothing is asked for that needs a sentence. The
front is written on with cold fingers; the back says what is known, and what room it has left are more lines.
"""

from collections.abc import Sequence

from foilwright.documents.fleet_sheet import FleetSheet
from foilwright.mistakes import Mistake
from foilwright.paper import fleet_texts as texts
from foilwright.paper.fleet_sheet import depth_row
from foilwright.paper.sheet_pdf import sheet_pdf

EVERY = 10  # minutes between head counts
MOST_COUNTS = 24
WIND_READINGS = 7
FEW_LINES = 3  # to write on: no side has fewer, save a back that has none
FEW_BOATS = 4  # with more of them their first changes are left to the fleet sheet


def pencil_slate(sheet: FleetSheet, first: int, last: int) -> bytes:
    """The slate as PDF; first launch and last ashore in minutes after midnight."""
    pdf = sheet_pdf("pencil_slate.typ", slate_content(sheet, head_count_times(first, last)))
    if pdf is None:
        raise Mistake(
            "pencil slate",
            f"{len(sheet.lines)} boats, more than one A5 holds",
            "what fits on both sides of one A5",
            "Split the day sheet into two groups, one a safety boat.",
        )
    return pdf


def head_count_times(first: int, last: int) -> list[str]:
    """Every ten minutes from the first launch to the last ashore, as HH:MM; what does not fit is left out."""
    times = range(first, last + 1, EVERY)
    return [f"{at // 60:02d}:{at % 60:02d}" for at in times][:MOST_COUNTS]


def slate_content(sheet: FleetSheet, times: Sequence[str]) -> dict[str, object]:
    """What the template is filled with."""
    people = sum(len(line.people) for line in sheet.lines)
    few = len(sheet.lines) <= FEW_BOATS
    return {
        "title": sheet.place,
        "kind": f"{texts.SLATE}, {sheet.date}",
        "sides": list(texts.SLATE_SIDES),
        "mark": texts.INVENTED if sheet.invented else "",
        "filled": list(texts.FILLED),
        "first": texts.SLATE_FIRST,
        "caution": texts.SLATE_CAUTION,
        "boats-title": texts.SLATE_BOATS,
        "boats": [
            [
                " + ".join(line.people),
                line.boat,
                texts.EXPECT.format(
                    settings=", ".join(line.settings), first=line.first if few else ""
                ).strip(),
            ]
            for line in sheet.lines
        ],
        "nobody": "" if sheet.lines else texts.NOBODY,
        "lead": texts.SLATE_LEAD,
        "head": list(texts.SLATE_HEAD),
        "few-lines": FEW_LINES,
        "wind-title": texts.WIND_TITLE,
        "wind-head": list(texts.WIND_HEAD),
        "winds": WIND_READINGS,
        "wind": " ".join(sheet.wind),
        "counts-title": texts.HEADS_TITLE.format(count=people, boats=len(sheet.lines)),
        "counts": list(times),
        "warned-title": texts.WARNED_TITLE,
        "warned": list(sheet.warned) or [texts.WARNED_NONE],
        "depth-title": texts.DEPTH_TITLE,
        "depth-head": list(texts.DEPTH_HEAD),
        "depths": [depth_row(one) for one in sheet.depths],
        "decides": texts.DECIDES,
    }
