"""What changed on the fleet sheet since the run before, so that only that is marked.

The lines of a run are kept beside the sheet with the meaning of its day sheet. Running the same day sheet
again compares with the same run before it, so that the marks stay.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from foilwright.documents import day_texts as texts
from foilwright.documents.fleet_sheet import FleetLine

Kept = dict[str, Any]
"""{"sheet": meaning of the day sheet, "lines": by boat, "before": the lines compared with, or none}"""

COMPARED = (
    (texts.CHANGED_CREW, ("people",)),
    (texts.CHANGED_SETTINGS, ("settings",)),
    (texts.CHANGED_FIRST, ("first",)),
    (texts.CHANGED_RIG, ("sail", "foil_set")),
    (texts.CHANGED_NOTE, ("note",)),
)


def lines_as_kept(lines: Sequence[FleetLine]) -> dict[str, Any]:
    """The lines by boat, as they are kept."""
    return {
        line.boat: {
            "people": list(line.people),
            "settings": list(line.settings),
            "first": line.first,
            "sail": line.sail,
            "foil_set": line.foil_set,
            "note": line.note,
        }
        for line in lines
    }


def lines_before(kept: Kept | None, sheet: str) -> dict[str, Any] | None:
    """The lines to compare with: those of the last run with another day sheet; none where there was none."""
    if kept is None:
        return None
    found = kept.get("before") if kept.get("sheet") == sheet else kept.get("lines")
    return found if isinstance(found, dict) else None


def marked(lines: Sequence[FleetLine], before: Mapping[str, Any] | None) -> tuple[FleetLine, ...]:
    """The lines with what changed in each; nothing is marked where there was no sheet before."""
    if before is None:
        return tuple(lines)
    now = lines_as_kept(lines)
    return tuple(line._replace(changed=_changes(now[line.boat], before.get(line.boat))) for line in lines)


def _changes(now: Mapping[str, Any], then: Mapping[str, Any] | None) -> tuple[str, ...]:
    if not isinstance(then, Mapping):
        return (texts.NEW_LINE,)
    return tuple(word for word, names in COMPARED if any(now[name] != then.get(name) for name in names))
