"""How the boat answers its tiller, drawn over boat speed: turn, side push and roll of one degree of tiller.

One pure function, `steer_chart`: an answer of `steer` in, SVG out. Black on white: the hull in the water is
thin and open, flying is thick and filled. Unstable states are left out.
"""

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import ceil, floor, log10
from typing import NamedTuple

from foilwright.documents.steer_answer import SteerAnswer, SteerRow
from foilwright.paper.svg_marks import FAINT, Point, circle, drawing, line, shape, text

WIDTH, LEFT, RIGHT = 120.0, 16.0, 4.0  # [mm]
TOP, PANEL, GAP, FOOT = 14.0, 42.0, 12.0, 12.0
SIZE = 3.2
TICKS = 4
TITLE = "How {boat} answers one degree of tiller"
AFLOAT, FLYING = "hull in the water", "flying"
NOTHING = "no steady state at these speeds"


class Panel(NamedTuple):
    """One quantity over speed."""

    words: str
    value: Callable[[SteerRow], float | None]


PANELS = (
    Panel("turns by, degrees a second", lambda row: row["yaw_rate_deg_s_per_deg"]),
    Panel("pushes sideways by, m/s²", lambda row: row["side_acceleration_m_s2_per_deg"]),
    Panel("rolls outwards by, N m, if heel is held", lambda row: _outwards(row["roll_moment_n_m_per_deg"])),
)


def steer_chart(answer: SteerAnswer) -> str:
    """The chart as SVG."""
    rows = [row for row in answer["rows"] if row["stable"] and row["yaw_rate_deg_s_per_deg"] is not None]
    title = TITLE.format(boat=answer["boat"])
    height = TOP + len(PANELS) * PANEL + (len(PANELS) - 1) * GAP + FOOT
    marks = [text((LEFT, 6.0), title, 1.2 * SIZE, bold=True)]
    if not rows:
        marks.append(text((LEFT, TOP + 10.0), NOTHING, SIZE))
        return drawing(WIDTH, height, marks, title)
    speeds = [row["boat_speed_kn"] for row in rows]
    step = max(1.0, round_step((max(speeds) - min(speeds)) / 8.0))
    low, high = step * floor(min(speeds) / step), step * ceil(max(speeds) / step)
    span = (low, max(high, low + step))
    for i, panel in enumerate(PANELS):
        marks += _panel(panel, rows, TOP + i * (PANEL + GAP), span, step, i == len(PANELS) - 1)
    return drawing(WIDTH, height, marks, title)


def _panel(
    panel: Panel, rows: Sequence[SteerRow], top: float, span: tuple[float, float], step: float, last: bool
) -> list[str]:
    values = [value for row in rows if (value := panel.value(row)) is not None]
    tick = round_step((max([*values, 0.0]) - min([*values, 0.0])) / TICKS)
    least = tick * floor(min([*values, 0.0]) / tick)
    most = max(tick * ceil(max([*values, 0.0]) / tick), least + tick)
    bottom, right = top + PANEL, WIDTH - RIGHT

    def place(speed: float, value: float) -> Point:
        x = LEFT + (speed - span[0]) / (span[1] - span[0]) * (right - LEFT)
        return x, bottom - (value - least) / (most - least) * PANEL

    marks = [text((LEFT, top - 2.0), panel.words, SIZE)]
    for i in range(round((most - least) / tick) + 1):
        value = least + i * tick
        y = place(span[0], value)[1]
        marks += [
            line([(LEFT, y), (right, y)], 0.3 if abs(value) < 1e-9 else 0.12, FAINT),
            text((LEFT - 1.5, y + 0.35 * SIZE), f"{value:.4g}".replace("-", "−"), SIZE, "end"),
        ]
    marks.append(line([(LEFT, top), (LEFT, bottom), (right, bottom)], 0.3))
    for i in range(round((span[1] - span[0]) / step) + 1):
        speed = span[0] + i * step
        x = place(speed, least)[0]
        marks.append(line([(x, bottom), (x, bottom + 1.0)], 0.3))
        if last:
            marks.append(text((x, bottom + 1.3 + SIZE), f"{speed:.4g}", SIZE, "middle"))
    if last:
        marks.append(text((right, bottom + 2.0 + 2.2 * SIZE), "boat speed, kn", SIZE, "end"))
    for flying in (False, True):
        points = [
            place(row["boat_speed_kn"], value)
            for row in sorted(rows, key=lambda one: one["boat_speed_kn"])
            if (row["state"] == "flying") == flying and (value := panel.value(row)) is not None
        ]
        marks += _curve(points, flying, panel is PANELS[0])
    return marks


def _curve(points: Sequence[Point], flying: bool, named: bool) -> list[str]:
    if not points:
        return []
    marks = [line(list(pair), 0.7 if flying else 0.3) for pair in pairwise(points)]
    for x, y in points:
        marks.append(circle((x, y), 0.9, "#000000" if flying else "#ffffff", 0.3))
    if named:
        x, y = points[len(points) // 2]
        words = FLYING if flying else AFLOAT
        at = (x + 1.5, y + 4.2) if flying else (x + 2.0, y + 5.5)
        wide = 0.56 * SIZE * len(words)
        back = [(at[0] - 0.5, at[1] - SIZE), (at[0] + wide, at[1] - SIZE), (at[0] + wide, at[1] + 1.0)]
        marks.append(shape([*back, (at[0] - 0.5, at[1] + 1.0)], "#ffffff"))
        marks.append(text(at, words, SIZE))
    return marks


def round_step(least: float) -> float:
    """The smallest of 1, 2, 5 times a power of ten that is at least this; 1 for nothing."""
    if least <= 0.0:
        return 1.0
    power = 10.0 ** floor(log10(least))
    return next(k * power for k in (1.0, 2.0, 5.0, 10.0) if k * power >= least * (1.0 - 1e-9))


def _outwards(roll: float | None) -> float | None:
    return None if roll is None else -roll
