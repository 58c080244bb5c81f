"""The chain enlarged: each crank to one stated scale, the rods cut short; or the hidden box and its curve.

One pure function, `chain_drawing`: a flight view in, SVG out. Body axes, bow to the right, as the chain
stands in the state that is drawn.
"""

from collections.abc import Callable, Sequence
from math import ceil, cos, hypot, sin

from foilwright.documents.flight_view import CrankView, FlightView, Point
from foilwright.paper.svg_marks import FAINT, WASH, box, circle, drawing, line, shape, text

SCALES = (0.5, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 15, 20, 30, 40, 50)
CUT = 1.1  # half the height of the mark where a rod is cut [mm]


def chain_drawing(
    view: FlightView,
    title: str,
    width: float,
    size: float,
    columns: int,
    window_height: float,
    unit: str = "mm",
) -> tuple[str, float]:
    """The enlarged chain as SVG, and its scale (1 : scale); scale 0 for the hidden box, which has none."""
    if not view.cranks:
        return _hidden_box(view, title, width, size, window_height, unit), 0.0
    columns = min(columns, len(view.cranks))
    wide = width / columns
    tall = window_height - 1.3 * size
    scale = _scale(view, wide - 7.0, tall - 6.0)
    marks = []
    # The horn stands aft, so it is drawn on the left; the wand crank on the right.
    order = list(reversed(range(len(view.cranks))))
    for place, i in enumerate(order):
        left, top = (place % columns) * wide, (place // columns) * window_height
        marks += _window(view, i, left, top, wide, tall, scale, size)
    return drawing(width, ceil(len(order) / columns) * window_height, marks, title, unit), scale


def _extent(crank: CrankView) -> tuple[float, float, float, float]:
    """Least and greatest x and z of a crank [m]."""
    marks = [crank.pivot, *(tip for tip in (crank.in_tip, crank.out_tip) if tip)]
    xs, zs = [x for x, _ in marks], [z for _, z in marks]
    return min(xs), max(xs), min(zs), max(zs)


def _scale(view: FlightView, wide: float, tall: float) -> float:
    extents = [_extent(crank) for crank in view.cranks]
    across = 1000.0 * max(e[1] - e[0] for e in extents)
    up = 1000.0 * max(e[3] - e[2] for e in extents)
    return next((s for s in SCALES if across / s <= wide and up / s <= tall), SCALES[-1])


def _window(
    view: FlightView, i: int, left: float, top: float, wide: float, tall: float, scale: float, size: float
) -> list[str]:
    crank = view.cranks[i]
    least_x, greatest_x, least_z, greatest_z = _extent(crank)
    middle = (0.5 * (least_x + greatest_x), 0.5 * (least_z + greatest_z))
    per_metre = 1000.0 / scale

    def place(point: Point) -> Point:
        return (
            left + 0.5 * wide + (point[0] - middle[0]) * per_metre,
            top + 0.5 * tall - (point[1] - middle[1]) * per_metre,
        )

    frame = (left + 1.0, top + 1.0, left + wide - 1.0, top + tall - 1.0)
    marks = []
    for tip, rod, far in (
        (crank.in_tip, i - 1, view.cranks[i - 1].out_tip if i else None),
        (crank.out_tip, i, view.cranks[i + 1].in_tip if i + 1 < len(view.cranks) else None),
    ):
        if tip and far:
            marks += _cut_rod(place(tip), place(far), frame, rod + 1, size)
    for tip in (crank.in_tip, crank.out_tip):
        if tip:
            marks.append(line([place(crank.pivot), place(tip)], 1.1))
    if i == 0:
        marks.append(line(_toward(place(crank.pivot), place(view.wand_tip), frame), 0.6))
    if i == len(view.cranks) - 1:
        marks += _foil_stub(view, place, frame)
    marks += [circle(place(tip), 0.75, "#ffffff", 0.35) for tip in (crank.in_tip, crank.out_tip) if tip]
    marks += [circle(place(crank.pivot), 1.1, "#ffffff", 0.45), circle(place(crank.pivot), 0.35, "#000000")]
    marks.append(
        text((left + 0.5 * wide, top + tall + 0.95 * size), _spoken(crank.name), size, "middle", True)
    )
    return marks


def _spoken(name: str) -> str:
    return name.replace("-", " ")


def _toward(start: Point, end: Point, frame: tuple[float, float, float, float]) -> list[Point]:
    """The part of a line that lies inside the frame."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    share = 1.0
    for position, way, low, high in ((start[0], dx, frame[0], frame[2]), (start[1], dy, frame[1], frame[3])):
        if way > 1e-9:
            share = min(share, (high - position) / way)
        elif way < -1e-9:
            share = min(share, (low - position) / way)
    share = max(share, 0.0)
    return [start, (start[0] + share * dx, start[1] + share * dy)]


def _cut_rod(
    start: Point, far: Point, frame: tuple[float, float, float, float], number: int, size: float
) -> list[str]:
    """A rod from a tip towards its other end, cut at the frame, with its number beside the cut."""
    path = _toward(start, far, frame)
    end = path[1]
    length = hypot(far[0] - start[0], far[1] - start[1])
    if length < 1e-9:
        return []
    ux, uy = (far[0] - start[0]) / length, (far[1] - start[1]) / length
    cut = [(end[0] - uy * CUT - ux * 0.6, end[1] + ux * CUT - uy * 0.6),
           (end[0] + uy * CUT + ux * 0.6, end[1] - ux * CUT + uy * 0.6)]  # fmt: skip
    back = 2.2 + 0.35 * size
    beside = (end[0] - ux * back - uy * 0.75 * size, end[1] - uy * back + ux * 0.75 * size)
    return [
        line(path, 0.45),
        line(cut, 0.35),
        text((beside[0], beside[1] + 0.35 * size), str(number), size, "middle"),
    ]


def _foil_stub(
    view: FlightView, place: Callable[[Point], Point], frame: tuple[float, float, float, float]
) -> list[str]:
    """What the horn turns, at the root: the flap behind its hinge, or the whole foil; cut at the frame."""
    pivot = view.cranks[-1].pivot
    chord, thick = view.main.foil_chord, 0.06 * view.main.foil_chord
    aft = chord * (view.main.flap_share or 0.7)
    c, s = cos(view.foil), sin(view.foil)

    def at(back: float, up: float) -> Point:
        return place((pivot[0] - back * c + up * s, pivot[1] - back * s + up * c))

    tip = at(aft, 0.0)
    inside = _toward(place(pivot), tip, frame)[1]
    left = hypot(tip[0] - inside[0], tip[1] - inside[1]) / max(
        hypot(tip[0] - at(0, 0)[0], tip[1] - at(0, 0)[1]), 1e-9
    )
    cut = aft * (1.0 - left)
    half = 0.5 * thick
    outline = [at(0.0, half), at(cut, half * left), at(cut, -half * left), at(0.0, -half)]
    return [shape(outline, WASH, 0.25, FAINT)]


def _hidden_box(view: FlightView, title: str, width: float, size: float, height: float, unit: str) -> str:
    """What is inside is not known: a box, and what came out of it when the wand was moved."""
    wide = 0.42 * width
    deep = 1.7 * size
    y = 0.5 * height - 0.5 * deep
    words = "hidden, not measured"
    marks = [
        line([(2.0, y + 0.5 * deep), (8.0, y + 0.5 * deep)], 0.45),
        box(8.0, y, wide - 16.0, deep, WASH, 0.3),
        line([(wide - 8.0, y + 0.5 * deep), (wide - 2.0, y + 0.5 * deep)], 0.45),
        text((8.0 + 0.5 * (wide - 16.0), y + 1.15 * size), words, size, "middle"),
        text((2.0, y - 0.6 * size), "foil", size, "start", True),
        text((wide - 2.0, y - 0.6 * size), "wand", size, "end", True),
    ]
    return drawing(width, height, marks + _curve(view, wide + 4.0, width - 2.0, height, size), title, unit)


def _curve(view: FlightView, left: float, right: float, height: float, size: float) -> list[str]:
    """Foil angle over wand angle, as measured: axes with their ends written out."""
    xs, ys = [x for x, _ in view.curve], [y for _, y in view.curve]
    x0, x1, y0, y1 = min(xs), max(xs), min(0.0, *ys), max(ys)
    margin = 4.5 * size
    a, b, c, d = left + margin, right - 1.0, 0.6 * size, height - 2.6 * size

    def place(point: Point) -> Point:
        return a + (point[0] - x0) / (x1 - x0) * (b - a), d - (point[1] - y0) / (y1 - y0) * (d - c)

    marks = [line([(a, c), (a, d), (b, d)], 0.25), line([place(p) for p in view.curve], 0.6)]
    marks.append(line([place((x0, 0.0)), place((x1, 0.0))], 0.15, FAINT))
    for wand in _ticks(x0, x1, 20.0):
        x, _ = place((wand, y0))
        marks += [
            line([(x, d), (x, d + 0.8)], 0.25),
            text((x, d + 1.1 * size), f"{wand:.0f}°", size, "middle"),
        ]
    for foil in (y0, 0.0, y1):
        _, y = place((x0, foil))
        marks += [
            line([(a - 0.8, y), (a, y)], 0.25),
            text((a - 1.2, y + 0.35 * size), _signed(foil), size, "end"),
        ]
    marks.append(text((0.5 * (a + b), d + 2.2 * size), "foil angle by wand angle", size, "middle"))
    return marks


def _ticks(low: float, high: float, step: float) -> Sequence[float]:
    first = ceil(low / step) * step
    return [first + i * step for i in range(int((high - first) / step) + 1)]


def _signed(angle: float) -> str:
    return "0°" if abs(angle) < 0.05 else f"{angle:+.0f}°".replace("-", "−")
