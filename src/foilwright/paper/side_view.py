"""From the boat's own axes to the page: the boat in side view as it flies, bow right, to a round scale."""

from collections.abc import Callable
from math import cos, sin
from typing import NamedTuple

from foilwright.documents.flight_view import FlightView, Point, StrutView

SCALES = (10, 12, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 100, 120, 150, 200)
HEAD_ROOM = 0.60  # sky over the centre of the crew that is drawn [m]


class Frame(NamedTuple):
    """From the body axes [m] to the page [mm]."""

    scale: int  # 1 : scale
    place: Callable[[Point], Point]
    millimetres: Callable[[float], float]
    top: float
    water: float


def _in_earth(view: FlightView, point: Point) -> Point:
    """A body point as it flies: level distance from the main strut, height above the water [m]."""
    s, c = sin(view.trim), cos(view.trim)
    x = point[0] - view.main.top[0]
    return x * c - point[1] * s, view.height + x * s + point[1] * c


def frame_for(view: FlightView, width: float, tallest: float, sky: float) -> tuple[Frame, float]:
    """The largest round scale at which the boat fits, and the height of the drawing [mm]."""
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
