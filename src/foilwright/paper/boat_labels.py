"""Where the words of the boat's drawing stand: each adjuster at its part, none over another."""

from collections.abc import Sequence
from typing import NamedTuple

from foilwright.documents.flight_view import FlightView
from foilwright.paper.side_view import Frame
from foilwright.paper.svg_marks import INK, box, circle, line, text, text_width


class Label(NamedTuple):
    """What stands at a part: the adjuster and its setting."""

    adjuster: str
    name: str
    setting: str


class Placed(NamedTuple):
    """A label with the page position of its upper left corner and its size."""

    label: Label
    x: float
    y: float
    width: float


def high_labels(labels: Sequence[Label], view: FlightView) -> list[Label]:
    """The labels that belong into the sky rather than into the water."""
    return [label for label in labels if view.anchors[label.adjuster][1] >= -0.1]


def label_height(size: float) -> float:
    """Height of a label of two lines."""
    return 2.35 * size


def _label_width(label: Label, size: float) -> float:
    return max(text_width(label.name, size, True), text_width(label.setting, size)) + 0.4 * size


def placed_above(
    labels: Sequence[Label], view: FlightView, frame: Frame, width: float, size: float
) -> tuple[list[Placed], set[int]]:
    """Labels in the sky in the order of what they point at, as near to it as the others let them; rows used.

    The crew's heads stay free: labels of what lies aft of them stand aft, the others forward. Rows fill
    from below.
    """
    spread = 0.25 if view.crew_heads > 1 else 0.0
    aft = frame.place((view.crew[0] - spread - 0.28, view.crew[1] + 0.4))[0]
    fore = frame.place((view.crew[0] + spread + 0.16, view.crew[1] + 0.4))[0]
    ordered = sorted(labels, key=lambda label: frame.place(view.anchors[label.adjuster])[0])
    sides = (
        (0.0, aft, [one for one in ordered if frame.place(view.anchors[one.adjuster])[0] <= fore]),
        (fore, width, [one for one in ordered if frame.place(view.anchors[one.adjuster])[0] > fore]),
    )
    split = [(left, right, _in_rows(mine, right - left, size)) for left, right, mine in sides]
    rows = max(len(grouped) for _, _, grouped in split)
    placed = []
    for left, right, grouped in split:
        for row, mine in enumerate(grouped):
            widths = [_label_width(one, size) for one in mine]
            wanted = [frame.place(view.anchors[one.adjuster])[0] - left for one in mine]
            y = (rows - len(grouped) + row) * label_height(size)
            for label, x, wide in zip(mine, _spread(wanted, widths, right - left), widths, strict=True):
                placed.append(Placed(label, left + x, y, wide))
    return placed, set(range(rows))


def _in_rows(labels: Sequence[Label], room: float, size: float) -> list[list[Label]]:
    """Labels in as few rows as the room is wide enough for, taken in turn so that neighbours stand apart."""
    for rows in range(1, len(labels) + 1):
        grouped = [list(labels[i::rows]) for i in range(rows)]
        if all(sum(_label_width(one, size) for one in row) <= room for row in grouped):
            return grouped
    return [[one] for one in labels]


def _spread(wanted: Sequence[float], widths: Sequence[float], width: float) -> list[float]:
    """Left edges of boxes in a row, centred on the wanted places as nearly as they fit, none overlapping."""
    lefts = [middle - 0.5 * wide for middle, wide in zip(wanted, widths, strict=True)]
    for i in range(len(lefts)):
        lefts[i] = max(lefts[i], lefts[i - 1] + widths[i - 1] if i else 0.0)
    limit = width
    for i in reversed(range(len(lefts))):
        lefts[i] = max(min(lefts[i], limit - widths[i]), 0.0)
        limit = lefts[i]
    return lefts


def placed_below(
    labels: Sequence[Label], view: FlightView, frame: Frame, width: float, size: float
) -> tuple[list[Placed], float]:
    """Labels in the water, stacked in the nearest room beside the struts that is wide enough; lowest edge."""
    rudder = frame.place(view.rudder.foot)[0]
    main = frame.place(view.main.foot)[0]
    thick = 0.8 * frame.millimetres(view.main.chord) + 0.3 * size
    rooms = [(0.0, rudder - thick), (rudder + thick, main - thick), (main + thick, width)]
    y0 = (frame.water if view.flying else frame.place((0.0, -0.3))[1]) + 0.5 * size
    used = [0, 0, 0]
    placed = []
    foot = 0.0
    for label in labels:
        x = frame.place(view.anchors[label.adjuster])[0]
        wide = _label_width(label, size)

        def away(i: int, x: float = x, wide: float = wide) -> float:
            left, right = rooms[i]
            return (1e6 if right - left < wide else 0.0) + max(left - x, x - right, 0.0)

        i = min(range(3), key=away)
        left, right = rooms[i]
        start = min(max(x - 0.5 * wide, left), max(right - wide, left))
        y = y0 + used[i] * label_height(size)
        used[i] += 1
        placed.append(Placed(label, start, y, wide))
        foot = max(foot, y + label_height(size))
    return placed, foot


def leaders(placed: Sequence[Placed], view: FlightView, frame: Frame, size: float, above: bool) -> list[str]:
    """A thin line from each label to the part that it names."""
    marks = []
    for one in placed:
        end = frame.place(view.anchors[one.label.adjuster])
        x = min(max(end[0], one.x + 0.3 * size), one.x + one.width - 0.3 * size)
        y = one.y + label_height(size) - 0.1 * size if above else one.y + 0.1 * size
        if not above and end[1] > one.y + label_height(size):
            y = one.y + label_height(size) - 0.1 * size
        marks.append(line([(x, y), end], 0.2))
        marks.append(circle(end, 0.55, INK))
    return marks


def label_words(placed: Placed, size: float, fill: str) -> list[str]:
    """The two lines of a label, on a ground that hides what lies behind."""
    x = placed.x + 0.2 * size
    return [
        box(placed.x, placed.y + 0.1 * size, placed.width, 2.15 * size, fill),
        text((x, placed.y + 0.95 * size), placed.label.name, size, "start", True),
        text((x, placed.y + 2.0 * size), placed.label.setting, size),
    ]
