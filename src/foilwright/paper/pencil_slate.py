"""The pencil slate: one A4 for the safety boat, filled in with cold fingers. PDF, the same bytes every time.

Everything that is asked for is a stroke, a time or a count; nothing is asked for that needs a sentence.
"""

from collections.abc import Sequence

from foilwright.documents.fleet_sheet import FleetSheet
from foilwright.mistakes import Mistake
from foilwright.paper import fleet_texts as texts
from foilwright.paper.fleet_sheet import depth_row
from foilwright.paper.sheet_pdf import sheet_pdf

EVERY = 10  # minutes between head counts
MOST_COUNTS = 24
WIND_READINGS, FEWER_READINGS = 6, 4
LEAST_LINES, MOST_LINES = 6, 14  # lines to write on
FEW_BOATS = 4  # with more of them their first changes are left to the fleet sheet


def pencil_slate(sheet: FleetSheet, first: int, last: int) -> bytes:
    """The slate as PDF; first launch and last ashore in minutes after midnight."""
    for lines in range(MOST_LINES, LEAST_LINES - 1, -1):
        pdf = sheet_pdf("pencil_slate.typ", slate_content(sheet, head_count_times(first, last), lines))
        if pdf is not None:
            return pdf
    raise Mistake(
        "pencil slate",
        f"{len(sheet.lines)} boats, more than one A4 holds",
        "what fits on one A4",
        "Split the day sheet into two groups, one a safety boat.",
    )


def head_count_times(first: int, last: int) -> list[str]:
    """Every ten minutes from the first launch to the last ashore, as HH:MM; what does not fit is left out."""
    times = range(first, last + 1, EVERY)
    return [f"{at // 60:02d}:{at % 60:02d}" for at in times][:MOST_COUNTS]


def slate_content(sheet: FleetSheet, times: Sequence[str], lines: int) -> dict[str, object]:
    """What the template is filled with."""
    people = sum(len(line.people) for line in sheet.lines)
    return {
        "title": sheet.place,
        "kind": f"{texts.SLATE}, {sheet.date}",
        "mark": texts.INVENTED if sheet.invented else "",
        "filled": list(texts.FILLED),
        "caution": texts.SLATE_CAUTION,
        "boats": [
            [
                " + ".join(line.people),
                line.boat,
                texts.EXPECT.format(
                    settings=", ".join(line.settings),
                    first=line.first if len(sheet.lines) <= FEW_BOATS else "",
                ).strip(),
            ]
            for line in sheet.lines
        ],
        "nobody": "" if sheet.lines else texts.NOBODY,
        "lead": texts.SLATE_LEAD,
        "head": list(texts.SLATE_HEAD),
        "lines": lines,
        "wind-title": texts.WIND_TITLE,
        "wind-head": list(texts.WIND_HEAD),
        "winds": WIND_READINGS if lines > LEAST_LINES + 1 else FEWER_READINGS,
        "wind": sheet.wind[-1] if sheet.wind else "",
        "counts-title": texts.HEADS_TITLE.format(count=people, boats=len(sheet.lines)),
        "counts": list(times),
        "warned-title": texts.WARNED_TITLE,
        "warned": list(sheet.warned) or [texts.WARNED_NONE],
        "depth-title": texts.DEPTH_TITLE,
        "depth-head": list(texts.DEPTH_HEAD),
        "depths": [depth_row(one) for one in sheet.depths],
        "decides": texts.DECIDES,
    }
