"""The boat to scale in side view, from its own file, as it flies: bow to the right.

One pure function, `boat_drawing`: a flight view and the settings' words in, SVG out. Drawn upright; what was not
measured, such as the sailor's outline and the rig, is faint.
"""

from collections.abc import Callable, Sequence
from math import cos, sin
from typing import NamedTuple

from foilwright.documents.flight_view import FlightView, Point, StrutView
from foilwright.paper.svg_marks import FAINT, INK, WASH, box, circle, drawing, line, shape, text, text_width

SCALES = (10, 12, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 100, 120, 150, 200)
HEAD_ROOM = 0.60  # sky over the centre of the crew that is drawn [m]
STRIPE = 0.018  # height of a stripe of tape as drawn [m]
BODY = "#cccccc"  # the sailor's outline


class Label(NamedTuple):
    """What stands at a part: the adjuster and its setting."""

    adjuster: str
    name: str
    setting: str


class Frame(NamedTuple):
    """From the body axes [m] to the page [mm]."""

    scale: int  # 1 : scale
    place: Callable[[Point], Point]
    millimetres: Callable[[float], float]
    top: float
    water: float


class Placed(NamedTuple):
    """A label with the page position of its upper left corner and its size."""

    label: Label
    x: float
    y: float
    width: float


class BoatDrawing(NamedTuple):
    """The drawing as SVG, its scale (1 : scale), and whether its labels are the short, numbered ones."""

    svg: str
    scale: int
    numbered: bool


def boat_drawing(
    view: FlightView,
    labels: Sequence[Label],
    numbered: Sequence[Label],
    title: str,
    width: float,
    tallest: float,
    size: float,
    unit: str = "mm",
) -> BoatDrawing:
    """The drawing `width` wide and at most `tallest` high, with words of `size`.

    The full labels stand at the parts where one row of them has room; otherwise the numbered ones do. Without full
    labels the numbered ones are taken at once.
    """
    frame, height = _frame(view, width, tallest, 0.0)
    short = not labels or len(_placed_above(_high(labels, view), view, frame, width, size)[1]) > 1
    labels = numbered if short else labels
    placed, rows = _placed_above(_high(labels, view), view, frame, width, size)
    if len(rows) > 1:
        frame, height = _frame(view, width, tallest, (len(rows) - 1) * _label_height(size))
        placed, _ = _placed_above(_high(labels, view), view, frame, width, size)
    low, foot = _placed_below([one for one in labels if one not in _high(labels, view)], view, frame, width, size)
    height = max(height, foot + 0.5)
    marks = [*_water(view, frame, width, height), *_rig(view, frame)]
    for strut in (view.main, view.rudder):
        marks += _strut(strut, frame)
    marks += [*_stock(view, frame), *_hull(view, frame), *_crew(view, frame), *_chain(view, frame), *_wand(view, frame)]
    if view.flying:
        marks += _height_mark(view, frame, size)
    marks += _leaders(placed, view, frame, size, True) + _leaders(low, view, frame, size, False)
    for one in placed:
        marks += _words(one, size, "#ffffff")
    for one in low:
        marks += _words(one, size, WASH if view.flying else "#ffffff")
    return BoatDrawing(drawing(width, height, marks, title, unit), frame.scale, short)


def _high(labels: Sequence[Label], view: FlightView) -> list[Label]:
    """The labels that belong into the sky rather than into the water."""
    return [label for label in labels if view.anchors[label.adjuster][1] >= -0.1]


# The frame -----------------------------------------------------------------------------------------------


def _in_earth(view: FlightView, point: Point) -> Point:
    """A body point as it flies: level distance from the main strut, height above the water [m]."""
    s, c = sin(view.trim), cos(view.trim)
    x = point[0] - view.main.top[0]
    return x * c - point[1] * s, view.height + x * s + point[1] * c


def _frame(view: FlightView, width: float, tallest: float, sky: float) -> tuple[Frame, float]:
    ends = [*view.hull_deck, *view.hull_bottom, view.wand_tip, view.clew]
    ends += [_foil_end(view.main, -0.3), _foil_end(view.rudder, 0.8), _foil_end(view.rudder, -0.3)]
    earth = [_in_earth(view, point) for point in ends]
    head = _in_earth(view, (view.crew[0], view.crew[1] + HEAD_ROOM))
    left, right = min(x for x, _ in earth) - 0.06, max(x for x, _ in earth) + 0.10
    top = head[1]
    bottom = min(_in_earth(view, view.main.foot)[1], _in_earth(view, view.rudder.foot)[1], -0.3) - 0.10
    high, wide = 1000.0 * (top - bottom), 1000.0 * (right - left)
    scale = next((s for s in SCALES if wide / s <= width and sky + high / s <= tallest), SCALES[-1])
    per_metre = 1000.0 / scale
    shift = 0.5 * (width - (right - left) * per_metre)

    def place(point: Point) -> Point:
        x, z = _in_earth(view, point)
        return shift + (x - left) * per_metre, sky + (top - z) * per_metre

    frame = Frame(scale, place, lambda metres: metres * per_metre, sky, sky + top * per_metre)
    return frame, sky + (top - bottom) * per_metre


def _foil_end(strut: StrutView, share: float) -> Point:
    return strut.foot[0] - share * strut.foil_chord, strut.foot[1]


# The parts -----------------------------------------------------------------------------------------------


def _water(view: FlightView, frame: Frame, width: float, height: float) -> list[str]:
    if not view.flying:
        return []
    y = frame.water
    return [box(0.0, y, width, height - y, WASH), line([(0.0, y), (width, y)], 0.35)]


def _hull(view: FlightView, frame: Frame) -> list[str]:
    outline = [*view.hull_bottom, *reversed(view.hull_deck)]
    return [shape([frame.place(p) for p in outline], "#ffffff", 0.45)]


def _rig(view: FlightView, frame: Frame) -> list[str]:
    """Mast and sail, cut off where the sky ends."""
    foot, top, clew = view.mast_foot, view.mast_top, view.clew
    tack = (foot[0], clew[1])
    marks = [line(_cut(foot, top, frame), 0.35, FAINT), line(_cut(tack, clew, frame), 0.25, FAINT)]
    return [*marks, line(_cut(clew, top, frame), 0.25, FAINT)]


def _cut(start: Point, end: Point, frame: Frame) -> list[Point]:
    """A line on the page that ends where the sky ends."""
    a, b = frame.place(start), frame.place(end)
    if b[1] >= frame.top:
        return [a, b]
    share = (a[1] - frame.top) / (a[1] - b[1])
    return [a, (a[0] + share * (b[0] - a[0]), frame.top)]


def _crew(view: FlightView, frame: Frame) -> list[str]:
    """A plain figure about the centre of the crew: head, back, thigh, shin."""
    marks = []
    spread = 0.5 if view.crew_heads > 1 else 0.0
    for i in range(view.crew_heads):
        x = view.crew[0] + spread * (i - 0.5 * (view.crew_heads - 1))
        z = view.crew[1]
        hip, neck, knee, foot = (x - 0.12, z - 0.20), (x - 0.10, z + 0.26), (x + 0.26, z - 0.12), (x + 0.20, z - 0.46)
        hand, head = (x + 0.28, z + 0.12), frame.place((x - 0.07, z + 0.45))
        marks.append(line([frame.place(p) for p in (neck, hip, knee, foot)], frame.millimetres(0.13), BODY))
        marks.append(line([frame.place(p) for p in (neck, hand)], frame.millimetres(0.07), BODY))
        marks.append(circle(head, frame.millimetres(0.11), BODY))
    return marks


def _strut(strut: StrutView, frame: Frame) -> list[str]:
    """Strut with its stripes of tape, and the foil's section at the root, flap turned."""
    fore, aft = strut.foot[0] + 0.25 * strut.chord, strut.foot[0] - 0.75 * strut.chord
    path = [(fore, strut.top[1]), (fore, strut.foot[1]), (aft, strut.foot[1]), (aft, strut.top[1])]
    marks = [shape([frame.place(p) for p in path], "#ffffff", 0.3)]
    for _, z in strut.stripes:
        if z < strut.foot[1] + 0.05:
            continue  # it would hide the foil
        ends = [(fore, z + 0.5 * STRIPE), (fore, z - 0.5 * STRIPE), (aft, z - 0.5 * STRIPE), (aft, z + 0.5 * STRIPE)]
        marks.append(shape([frame.place(p) for p in ends], INK))
    marks.append(shape([frame.place(p) for p in _section(strut)], INK, 0.3))
    return marks


def _stock(view: FlightView, frame: Frame) -> list[str]:
    """What holds a rudder behind the transom: its stock up to the deck and two hinges."""
    x, z = view.rudder.top
    transom = view.hull_bottom[0][0]
    if x > transom - 0.05:
        return []
    deck = view.hull_deck[0][1]
    stock = [(x - 0.04, z), (x - 0.04, deck + 0.04), (x + 0.05, deck + 0.04), (x + 0.05, z)]
    marks = [line([frame.place((x, level)), frame.place((transom, level))], 0.6) for level in (z + 0.06, deck - 0.04)]
    return [*marks, shape([frame.place(p) for p in stock], "#ffffff", 0.3)]


def _section(strut: StrutView) -> list[Point]:
    """A lens of the foil's chord, nose forward, its flap turned."""
    x, z = strut.foot
    hinge = 1.0 - strut.flap_share
    shares = (0.0, 0.05, 0.2, 0.4, 0.6, hinge, 0.85, 1.0) if strut.flap_share else (0.0, 0.05, 0.2, 0.4, 0.6, 0.8, 1.0)
    upper, lower = [], []
    for share in shares:
        half = 0.06 * 4.0 * (share * (1.0 - share)) ** 0.5 * 0.5 * (1.5 - share)
        drop = (share - hinge) * sin(strut.flap) if strut.flap_share and share > hinge else 0.0
        for sign, side in ((1.0, upper), (-1.0, lower)):
            along, up = share - 0.25, sign * half - drop
            s, c = sin(strut.incidence), cos(strut.incidence)
            side.append((x - strut.foil_chord * (along * c - up * s), z + strut.foil_chord * (up * c - along * s)))
    return [*upper, *reversed(lower)]


def _chain(view: FlightView, frame: Frame) -> list[str]:
    """Rods and cranks where they are; where only a curve is known, a plain hidden box."""
    if not view.cranks:
        a, b = view.wand_pivot, view.main.top
        corners = [(a[0] - 0.12, a[1] - 0.02), (b[0] - 0.02, a[1] - 0.02), (b[0] - 0.02, a[1] - 0.14),
                   (a[0] - 0.12, a[1] - 0.14)]  # fmt: skip
        return [shape([frame.place(p) for p in corners], WASH, 0.25)]
    marks = []
    for i in range(len(view.rods)):
        start, end = view.cranks[i].out_tip, view.cranks[i + 1].in_tip
        if start and end:
            marks.append(line([frame.place(start), frame.place(end)], 0.25))
    for crank in view.cranks:
        tips = [tip for tip in (crank.in_tip, crank.out_tip) if tip]
        marks += [line([frame.place(crank.pivot), frame.place(tip)], 0.5) for tip in tips]
        marks.append(circle(frame.place(crank.pivot), 0.5, "#ffffff", 0.25))
    return marks


def _wand(view: FlightView, frame: Frame) -> list[str]:
    pivot, tip = view.wand_pivot, view.wand_tip
    length = ((pivot[0] - tip[0]) ** 2 + (pivot[1] - tip[1]) ** 2) ** 0.5
    share = 1.0 - min(view.paddle_length / length, 1.0)
    paddle = (pivot[0] + share * (tip[0] - pivot[0]), pivot[1] + share * (tip[1] - pivot[1]))
    return [
        line([frame.place(pivot), frame.place(tip)], 0.45),
        line([frame.place(paddle), frame.place(tip)], 1.0),
        circle(frame.place(pivot), 0.6, "#ffffff", 0.3),
    ]


def _height_mark(view: FlightView, frame: Frame, size: float) -> list[str]:
    """Ride height as a measure between the keel and the water, just ahead of the main strut."""
    x, y = frame.place((view.main.foot[0] + 0.25 * view.main.chord, 0.0))
    x += 0.6 * size
    water = frame.water
    if abs(water - y) < 0.4 * size:
        return []
    tick = 0.25 * size
    marks = [line([(x, y), (x, water)], 0.2)]
    marks += [line([(x - tick, level), (x + tick, level)], 0.2) for level in (y, water)]
    if abs(water - y) > 1.1 * size:
        marks.append(text((x + 0.4 * size, 0.5 * (y + water) + 0.35 * size), f"{view.height:.2f} m", size))
    return marks


# The labels ----------------------------------------------------------------------------------------------


def _label_height(size: float) -> float:
    return 2.35 * size


def _label_width(label: Label, size: float) -> float:
    return max(text_width(label.name, size, True), text_width(label.setting, size)) + 0.4 * size


def _placed_above(
    labels: Sequence[Label], view: FlightView, frame: Frame, width: float, size: float
) -> tuple[list[Placed], set[int]]:
    """Labels in the sky, in the order of what they point at, each as near to it as the others let it; rows used.

    The crew's heads stay free: labels of what lies aft of them stand aft, the others forward. Rows fill from below.
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
            y = (rows - len(grouped) + row) * _label_height(size)
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


def _placed_below(
    labels: Sequence[Label], view: FlightView, frame: Frame, width: float, size: float
) -> tuple[list[Placed], float]:
    """Labels in the water, stacked in the nearest room beside the struts that is wide enough; lowest edge used."""
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
        y = y0 + used[i] * _label_height(size)
        used[i] += 1
        placed.append(Placed(label, start, y, wide))
        foot = max(foot, y + _label_height(size))
    return placed, foot


def _leaders(
    placed: Sequence[Placed], view: FlightView, frame: Frame, size: float, above: bool
) -> list[str]:
    marks = []
    for one in placed:
        end = frame.place(view.anchors[one.label.adjuster])
        x = min(max(end[0], one.x + 0.3 * size), one.x + one.width - 0.3 * size)
        y = one.y + _label_height(size) - 0.1 * size if above else one.y + 0.1 * size
        if not above and end[1] > one.y + _label_height(size):
            y = one.y + _label_height(size) - 0.1 * size
        marks.append(line([(x, y), end], 0.2))
        marks.append(circle(end, 0.55, INK))
    return marks


def _words(placed: Placed, size: float, fill: str) -> list[str]:
    x = placed.x + 0.2 * size
    return [
        box(placed.x, placed.y + 0.1 * size, placed.width, 2.15 * size, fill),
        text((x, placed.y + 0.95 * size), placed.label.name, size, "start", True),
        text((x, placed.y + 2.0 * size), placed.label.setting, size),
    ]
