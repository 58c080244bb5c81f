"""The boat to scale in side view, from its own file, as it flies: bow to the right.

One pure function, `boat_drawing`: a flight view and the settings' words in, SVG out. Drawn upright; what was
not measured, such as the sailor's outline and the rig, is faint.
"""

from collections.abc import Sequence
from math import cos, sin
from typing import NamedTuple

from foilwright.documents.flight_view import FlightView, Point, StrutView
from foilwright.paper.boat_labels import (
    Label,
    high_labels,
    label_height,
    label_words,
    leaders,
    placed_above,
    placed_below,
)
from foilwright.paper.side_view import Frame, frame_for
from foilwright.paper.svg_marks import FAINT, INK, WASH, box, circle, drawing, line, shape, text, text_width

STRIPE = 0.018  # height of a stripe of tape as drawn [m]
BODY = "#cccccc"  # the sailor's outline


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

    The full labels stand at the parts where one row of them has room; otherwise the numbered ones do.
    Without full labels the numbered ones are taken at once.
    """
    frame, height = frame_for(view, width, tallest, 0.0)
    short = not labels or len(placed_above(high_labels(labels, view), view, frame, width, size)[1]) > 1
    labels = numbered if short else labels
    placed, rows = placed_above(high_labels(labels, view), view, frame, width, size)
    if len(rows) > 1:
        frame, height = frame_for(view, width, tallest, (len(rows) - 1) * label_height(size))
        placed, _ = placed_above(high_labels(labels, view), view, frame, width, size)
    low, foot = placed_below(
        [one for one in labels if one not in high_labels(labels, view)], view, frame, width, size
    )
    height = max(height, foot + 0.5)
    marks = [*_water(view, frame, width, height), *_rig(view, frame)]
    for strut in (view.main, view.rudder):
        marks += _strut(strut, frame)
    marks += [
        *_stock(view, frame),
        *_hull(view, frame),
        *_crew(view, frame),
        *_chain(view, frame),
        *_wand(view, frame),
    ]
    if view.flying:
        marks += _height_mark(view, frame, size)
    marks += leaders(placed, view, frame, size, True) + leaders(low, view, frame, size, False)
    for one in placed:
        marks += label_words(one, size, "#ffffff")
    for one in low:
        marks += label_words(one, size, WASH if view.flying else "#ffffff")
    return BoatDrawing(drawing(width, height, marks, title, unit), frame.scale, short)


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
        hip, neck, knee, foot = (
            (x - 0.12, z - 0.20),
            (x - 0.10, z + 0.26),
            (x + 0.26, z - 0.12),
            (x + 0.20, z - 0.46),
        )
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
        ends = [
            (fore, z + 0.5 * STRIPE),
            (fore, z - 0.5 * STRIPE),
            (aft, z - 0.5 * STRIPE),
            (aft, z + 0.5 * STRIPE),
        ]
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
    marks = [
        line([frame.place((x, level)), frame.place((transom, level))], 0.6)
        for level in (z + 0.06, deck - 0.04)
    ]
    return [*marks, shape([frame.place(p) for p in stock], "#ffffff", 0.3)]


def _section(strut: StrutView) -> list[Point]:
    """A lens of the foil's chord, nose forward, its flap turned."""
    x, z = strut.foot
    hinge = 1.0 - strut.flap_share
    shares = (
        (0.0, 0.05, 0.2, 0.4, 0.6, hinge, 0.85, 1.0)
        if strut.flap_share
        else (0.0, 0.05, 0.2, 0.4, 0.6, 0.8, 1.0)
    )
    upper: list[Point] = []
    lower: list[Point] = []
    for share in shares:
        half = 0.06 * 4.0 * (share * (1.0 - share)) ** 0.5 * 0.5 * (1.5 - share)
        drop = (share - hinge) * sin(strut.flap) if strut.flap_share and share > hinge else 0.0
        for sign, side in ((1.0, upper), (-1.0, lower)):
            along, up = share - 0.25, sign * half - drop
            s, c = sin(strut.incidence), cos(strut.incidence)
            side.append(
                (x - strut.foil_chord * (along * c - up * s), z + strut.foil_chord * (up * c - along * s))
            )
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
    """Ride height as a measure between the keel and the water, beside the main strut."""
    words, half = f"{view.height:.2f} m", 0.25 * view.main.chord
    x, y = frame.place((view.main.foot[0] + half, 0.0))
    x += 0.6 * size
    water = frame.water
    if abs(water - y) < 0.4 * size:
        return []
    aft = x + 0.6 * size + text_width(words, size) > frame.place(view.wand_tip)[0]
    if aft:
        # Ahead of the strut the wand would strike it out.
        x = frame.place((view.main.foot[0] - 3.0 * half, 0.0))[0] - 0.6 * size
    tick = 0.25 * size
    marks = [line([(x, y), (x, water)], 0.2)]
    marks += [line([(x - tick, level), (x + tick, level)], 0.2) for level in (y, water)]
    if abs(water - y) > 1.1 * size:
        at, anchor = (x - 0.4 * size, "end") if aft else (x + 0.4 * size, "start")
        marks.append(text((at, 0.5 * (y + water) + 0.35 * size), words, size, anchor))
    return marks
