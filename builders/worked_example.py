"""Writes docs/theory/worked-example.md: every step of five solved states, for whoever computes them again.

    python builders/worked_example.py

`tests/house/test_theory_pages.py` holds the page against what this makes.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import log, radians
from pathlib import Path
from typing import NamedTuple

import numpy as np

from foilwright.compiled import plain
from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ready
from foilwright.documents.examples import example
from foilwright.flight.at_speed import case_of, fly_at, scratch
from foilwright.flight.loads import ITEMS
from foilwright.flight.trim_at_speed import balance, loads_at
from foilwright.water.properties import water_at

PAGE = Path(__file__).parent.parent / "docs" / "theory" / "worked-example.md"
KNOT = 1852.0 / 3600.0


class Example(NamedTuple):
    """One state to be shown."""

    boat: str
    speed_kn: float
    heel_deg: float
    why: str


EXAMPLES = (
    Example("marram", 12.0, 0.0, "flap, flying, upright"),
    Example("pipkin", 14.0, -10.0, "whole foil, flying, heeled 10 degrees to windward"),
    Example("marram", 5.0, 0.0, "hull in the water, transom wet, foil at its stop"),
    Example("pipkin", 6.0, -5.0, "planing lift, hull in the water, heeled"),
    Example("marram-curve", 16.0, 0.0, "measured curve in place of the rods"),
)

HEAD = """\
# Worked examples

Made by `builders/worked_example.py`. Steady states of demo boats with every adjuster at its mark, in
fresh water and air of 15 degrees C at standard gravity and pressure, to seven digits. Each is solved to
1e-10 of weight; compute the balance at the height and trim printed and compare part by part. SI and
radians; forces and moments in body axes about the centre of gravity.

"""


def table(head: tuple[str, ...], rows: Iterable[tuple[object, ...]]) -> list[str]:
    """A table of a page."""
    lines = ["| " + " | ".join(head) + " |", "|---" * len(head) + "|"]
    for row in rows:
        lines.append(
            "| " + " | ".join(f"{v + 0.0:.7g}" if isinstance(v, float) else str(v) for v in row) + " |"
        )
    return [*lines, ""]


def shown(one: Example) -> list[str]:
    """One state in full."""
    boat = ready(read_boat(example(one.boat)))
    water = water_at()
    speed, heel = one.speed_kn * KNOT, radians(one.heel_deg)
    state = max(fly_at(boat.row, boat.tables, water, speed, heel), key=lambda s: s.height)
    case = case_of(boat.row, boat.tables, water, speed, heel)
    items = scratch().items
    found = loads_at(case, state.height, state.trim, plain(items))
    control = found.control
    lines = [f"## {boat.name}, {one.speed_kn:g} kn: {one.why}", ""]
    lines += table(
        ("quantity", "value"),
        [
            ("speed", speed), ("heel", heel), ("height", state.height), ("trim", state.trim),
            ("stable", state.stable), ("state", state.state), ("wand angle", control.wand),
            ("foil angle", control.foil), ("foil angle without its stops", control.free_foil),
            ("touch", control.touch), ("immersed length", control.immersed), ("push", control.push),
            ("pull", control.pull), ("turn of the last crank", control.chain.turn),
            ("gearing", control.chain.gearing), ("slack", control.chain.slack),
            ("transmission", control.chain.transmission), ("play", control.chain.play),
            ("give", control.chain.give), ("hinge moment", control.flow.hinge), ("downwash", found.downwash),
            ("main depth", found.main_depth), ("rudder-foil depth", found.rudder_depth),
            ("main strut wetted", found.main_strut_wetted),
            ("rudder strut wetted", found.rudder_strut_wetted),
            ("main strut angle", found.main_strut_angle), ("rudder strut angle", found.rudder_strut_angle),
            ("weight", found.weight), ("drag", found.drag),
        ],
    )  # fmt: skip
    chords = (case.boat.main_planform.chord, case.boat.rudder_planform.chord)
    speeds = (found.main_speed, found.rudder_speed)
    lines += table(
        ("foil", "log Re", *found.main._fields),
        [
            (name, log(v * c / water.viscosity), *flow)
            for name, flow, v, c in zip(
                ("main", "rudder"), (found.main, found.rudder), speeds, chords, strict=True
            )
        ],
    )
    if found.hull.volume > 0.0:
        lines += table(("hull", "value"), list(zip(found.hull._fields, found.hull, strict=True)))
    lines += table(
        ("no", "item", "Fx", "Fy", "Fz", "Mx", "My", "Mz"),
        [(i, ITEMS[i], *(float(v) for v in items[i])) for i in range(len(ITEMS))],
    )
    lines += table(
        ("margin", "value"), [(name, "none" if m is None else float(m)) for name, m in state.margins.items()]
    )
    up, pitch = balance(case, state.height + 0.01, state.trim + 0.01, plain(items))
    lines += [
        f"Balance 0.01 m higher and 0.01 rad bow up: heave {up:.7g}, pitch {pitch:.7g} (over weight, m). "
        f"Nearest limit: {state.nearest}. Outcome {state.outcome}"
        f"{', ' + state.limit if state.limit else ''}.",
        "",
    ]
    return lines


def page() -> str:
    """The page."""
    water = water_at()
    lines = [HEAD.rstrip(), ""]
    lines += table(("water", "value"), list(zip(water._fields, (float(v) for v in water), strict=True)))
    for one in EXAMPLES:
        lines += shown(one)
    return "\n".join(lines).rstrip() + "\n"


if __name__ == "__main__":
    np.seterr(all="raise", under="ignore")
    PAGE.write_text(page(), encoding="utf-8")
