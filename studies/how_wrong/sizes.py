"""How far ride height and bow angle move when one assumption of the model is changed, on the example boats.

From the repository's root:

    PYTHONPATH=src python studies/how_wrong/sizes.py               # all changes
    PYTHONPATH=src python studies/how_wrong/sizes.py downwash      # those with this word
    PYTHONPATH=src python studies/how_wrong/sizes.py take-off      # take-off speeds
"""

import contextlib
import sys
from collections.abc import Callable, Iterator, Mapping
from math import degrees, radians
from typing import Any, NamedTuple

import numpy as np

from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ReadyBoat, ready
from foilwright.documents.examples import example
from foilwright.flight import control, foil_flow, load_items, loads
from foilwright.flight.at_speed import Steady, fly_at, take_off_speed
from foilwright.linkage import wand
from foilwright.measures import Floats
from foilwright.outcomes import SOLVED
from foilwright.water import foil, hull, strut
from foilwright.water.properties import Water, water_at

KNOT = 1852.0 / 3600.0
BOATS = ("marram", "pipkin", "sedge")
SPEEDS_KN = (10.5, 12.0, 15.0, 18.0)


class Variant(NamedTuple):
    """One change: its words, other values for names of modules, numbers of the row to change."""

    words: str
    names: Mapping[tuple[Any, str], Any] = {}
    row: Callable[[dict[str, float]], dict[str, float]] = dict
    heel: float = 0.0
    water: Water | None = None


@contextlib.contextmanager
def put(names: Mapping[tuple[Any, str], Any]) -> Iterator[None]:
    """Other values for names of modules, for as long as it lasts; kernels call by bare name."""
    before = {(module, name): getattr(module, name) for module, name in names}
    for (module, name), value in names.items():
        setattr(module, name, value)
    try:
        yield
    finally:
        for (module, name), value in before.items():
            setattr(module, name, value)


def scaled(factor: float, *names: str) -> Callable[[dict[str, float]], dict[str, float]]:
    """Row numbers whose name ends like this, times a factor."""
    return lambda row: {k: v * factor if k.endswith(names) else v for k, v in row.items()}


def added(amount: float, *names: str) -> Callable[[dict[str, float]], dict[str, float]]:
    """Row numbers whose name ends like this, plus an amount."""
    return lambda row: {k: v + amount if k.endswith(names) else v for k, v in row.items()}


def times(factor: float, function: Callable[..., Any]) -> Callable[..., Any]:
    """A function with its value, or all its values, times a factor."""

    def made(*given: float) -> Any:
        value = function(*given)
        return tuple(factor * v for v in value) if isinstance(value, tuple) else factor * value

    return made


def no_load_on_wand(boat: Any, tables: Any, angle: float) -> Any:
    """The chain as it is, but without gearing: the wand does not feel the foil."""
    return control_chain(boat, tables, angle)._replace(gearing=0.0)


def other_side(boat: Any, tables: Any, angle: float) -> Any:
    """The foil on the other side of its play."""
    turned = control_chain(boat, tables, angle)
    return turned._replace(play=-turned.play)


def no_image(*given: float) -> float:
    """The downwash without the image of the main foil."""
    deep = list(given)
    deep[5] = deep[6] = 1e3
    return foil.downwash_angle(*deep)


def on_sheet(*given: float) -> float:
    """The downwash as if the rudder foil lay on the sheet."""
    low = list(given)
    low[4] = 0.0
    return foil.downwash_angle(*low)


def more_drag(tables: Any, section: int, flap: float, log_re: float, alpha: float) -> Any:
    """A tenth more profile drag."""
    cd, cm, ch, cp = polar(tables, section, flap, log_re, alpha)
    return 1.1 * cd, cm, ch, cp


def no_moment(tables: Any, section: int, flap: float, log_re: float, alpha: float) -> Any:
    """No moment of the section (the whole foil's hinge moment loses it too)."""
    cd, _, ch, cp = polar(tables, section, flap, log_re, alpha)
    return cd, 0.0, ch, cp


def more_hinge(tables: Any, section: int, flap: float, log_re: float, alpha: float) -> Any:
    """A fifth more flap hinge moment."""
    cd, cm, ch, cp = polar(tables, section, flap, log_re, alpha)
    return cd, cm, 1.2 * ch, cp


def less_flap(tables: Any, section: int, flap: float, log_re: float) -> Any:
    """A flap with nine tenths of its effect on the zero-lift angle."""
    rest, _, _, _ = line(tables, section, 0.0, log_re)
    zero, slope, most, least = line(tables, section, flap, log_re)
    return rest + 0.9 * (zero - rest), slope, most, least


def less_stall(tables: Any, section: int, flap: float, log_re: float) -> Any:
    """Sections that stall a tenth earlier."""
    zero, slope, most, least = line(tables, section, flap, log_re)
    return zero, slope, 0.9 * most, 0.9 * least


def longer_rod(row: dict[str, float]) -> dict[str, float]:
    """The last rod but one, 1 mm longer: the one that boats adjust."""
    links = sum(name.endswith("rod_longer") for name in row)
    name = f"links.{links - 2}.rod_longer"
    return row | {name: row[name] + 0.001}


def pull_at_centre(row: dict[str, float]) -> dict[str, float]:
    """The sail pulls at the centre of gravity."""
    mass = row["mass.mass"] + row["crew.mass"]
    x, z = ((row["mass.mass"] * row[f"mass.{c}"] + row["crew.mass"] * row[f"crew.{c}"]) / mass for c in "xz")
    return row | {"rig.effort_x": x, "rig.effort_z": z}


control_chain = control.chain_from
polar = foil_flow.section_polar
line = foil_flow.section_line

VARIANTS = (
    # chain, curve, wand
    Variant("rod to the bell crank 1 mm longer", row=longer_rod),
    Variant("play: foil on the other side of it", {(control, "chain_from"): other_side}),
    Variant("play: none (foil in the middle)", row=scaled(0.0, ".play")),
    Variant("play: 0.4 mm a joint instead of 0.1", row=scaled(4.0, ".play")),
    Variant("play crossing over 0.1 N m instead of 1", {(control, "PLAY_ROUNDING"): 0.1}),
    Variant("play crossing over 3 N m instead of 1", {(control, "PLAY_ROUNDING"): 3.0}),
    Variant("stretch of the rods 0.0005 mm/N each", row=added(5e-7, ".stretch")),
    Variant(
        "the wand does not feel the foil's hinge moment",
        {(control, "chain_from"): no_load_on_wand, (control, "FIRST_GEARING"): 0.0},
    ),
    Variant("friction 0.3 N m, wand rising (tension - 0.3)", row=added(-0.3, "wand.tension")),
    Variant("friction 0.3 N m, wand sinking (tension + 0.3)", row=added(0.3, "wand.tension")),
    Variant("wand tension + 1 N m", row=added(1.0, "wand.tension")),
    Variant("wand bends 0.3 deg per N m", row=added(radians(0.3), "wand.bend")),
    Variant("wand 5 mm longer", row=added(0.005, "wand.length")),
    Variant("wand pivot 5 mm higher", row=added(0.005, "wand.pivot_z")),
    Variant("wand weight left out", row=scaled(1e-9, "wand.mass")),
    Variant("paddle coefficient 1.28 -> 1.0", {(wand, "PADDLE_NORMAL"): 1.0}),
    Variant("wand skims: no immersion at all", {(wand, "PADDLE_NORMAL"): 1.28e3}),
    Variant("paddle edge rounded over 20 mm instead of 5", {(wand, "PADDLE_EDGE"): 0.02}),
    Variant("stops rounded by 0.03 deg instead of 0.3", {(control, "STOP_ROUNDING"): radians(0.03)}),
    Variant("flap hinge moment + 20 %", {(foil_flow, "section_polar"): more_hinge}),
    # foil
    Variant("foil incidence + 0.1 deg (main)", row=added(radians(0.1), "main.incidence")),
    Variant("rudder-foil incidence + 0.1 deg", row=added(radians(0.1), "rudder.incidence")),
    Variant("flap effect - 10 %", {(foil_flow, "section_line"): less_flap}),
    Variant(
        "lifting line alone (lifting-surface factor 1)",
        row=lambda r: r | {k: 1.0 for k in r if k.endswith("lift_factor")},
    ),
    Variant("elliptic foils (tau, delta 0)", row=scaled(0.0, ".tau", ".delta")),
    Variant("no surface effect on the section (K = 1)", {(foil, "surface_factor"): lambda k: 1.0}),
    Variant("no image in the induced angle (sigma = 0)", {(foil, "biplane_factor"): lambda g: 0.0}),
    Variant("stall corner rounded by 0.006 instead of 0.06", {(foil, "_STALL_WIDTH"): 0.006}),
    Variant("lift comes in over 0.4 chords instead of 0.2", {(foil, "_CUTOFF"): 0.4}),
    Variant("section moment left out (cm = 0)", {(foil_flow, "section_polar"): no_moment}),
    # downwash
    Variant("no downwash at all", {(loads, "downwash_angle"): times(0.0, foil.downwash_angle)}),
    Variant("downwash without the image", {(loads, "downwash_angle"): no_image}),
    Variant("downwash + 10 %", {(loads, "downwash_angle"): times(1.1, foil.downwash_angle)}),
    Variant("downwash as on the sheet, whatever the height", {(loads, "downwash_angle"): on_sheet}),
    Variant("core of the wake 0.02 spans instead of 0.025", {(foil, "_WAKE_CORE"): 0.02}),
    Variant("core of the wake 0.002 spans instead of 0.025", {(foil, "_WAKE_CORE"): 0.002}),
    # struts, hull, air, pull
    Variant("spray drag x 1.5", {(strut, "spray_drag"): times(1.5, strut.spray_drag)}),
    Variant("junction drag x 2", {(loads, "junction_drag"): times(2.0, strut.junction_drag)}),
    Variant("strut profile drag + 16 %", {(strut, "section_drag"): times(1.16, strut.section_drag)}),
    Variant("profile drag of the foils + 10 %", {(foil_flow, "section_polar"): more_drag}),
    Variant(
        "induced drag + 5 %",
        row=lambda r: r | {k: 1.05 * (1.0 + v) - 1.0 for k, v in r.items() if k.endswith(".delta")},
    ),
    Variant("air drag areas + 20 %", row=scaled(1.2, "_drag_area")),
    Variant("centre of effort 0.2 m higher", row=added(0.2, "rig.effort_z")),
    Variant("pull at the centre of gravity", row=pull_at_centre),
    Variant("centre of the crew 0.05 m higher", row=added(0.05, "crew.z")),
    Variant("centre of the crew 0.05 m aft", row=added(-0.05, "crew.x")),
    Variant("crew + 1 kg", row=added(1.0, "crew.mass")),
    Variant("wave resistance + 20 %", row=scaled(1.2, "wave_share")),
    Variant("planing lift: none", row=scaled(0.0, "planing_share")),
    Variant("wet transom: no base drag", {(load_items, "transom_drag"): times(0.0, hull.transom_drag)}),
    Variant("greatest section lift - 10 %", {(foil_flow, "section_line"): less_stall}),
    Variant("heel 10 deg to windward", heel=radians(-10.0)),
    Variant("sea water at 15 deg C instead of fresh", water=water_at(salinity_g_kg=35.0)),
    Variant("water at 20 deg C instead of 15", water=water_at(temperature_c=20.0)),
)


def flying(boat: ReadyBoat, row: Floats, water: Water, speed_kn: float, heel: float) -> Steady | None:
    """The stable steady state with the highest flight at a speed, if any."""
    found = [
        s for s in fly_at(row, boat.tables, water, speed_kn * KNOT, heel) if s.outcome == SOLVED and s.stable
    ]
    return max(found, key=lambda s: s.height, default=None)


def one(boat: ReadyBoat, variant: Variant) -> list[Steady | None]:
    """The states of one boat under one variant."""
    changed = variant.row(dict(zip(boat.names, (float(v) for v in boat.row), strict=True)))
    row = np.array([changed[name] for name in boat.names])
    with put(variant.names):
        return [flying(boat, row, variant.water or water_at(), kn, variant.heel) for kn in SPEEDS_KN]


def difference(state: Steady | None, base: Steady | None) -> str:
    """Millimetres of ride height and degrees of bow between two states."""
    if state is None or base is None:
        return "no state"
    return f"{1e3 * (state.height - base.height):+.1f} mm {degrees(state.trim - base.trim):+.2f}"


TAKE_OFF = (
    "play: foil on",
    "play: 0.4",
    "wand tension",
    "wand bends",
    "lifting line alone",
    "no downwash",
    "downwash + 10 %",
    "stall corner",
    "pull at the centre",
    "aft",
    "crew + 1",
    "wave resistance",
    "planing lift",
    "wet transom",
    "greatest section lift",
)
"""Changes whose take-off speed is worth knowing, by the beginning of their words or a part of them."""


def take_off(boat: ReadyBoat, variant: Variant) -> float | None:
    """Slowest boat speed with a stable flying state [kn]."""
    changed = variant.row(dict(zip(boat.names, (float(v) for v in boat.row), strict=True)))
    row = np.array([changed[name] for name in boat.names])
    with put(variant.names):
        speed = take_off_speed(row, boat.tables, variant.water or water_at(), variant.heel)
    return None if speed is None else speed / KNOT


def take_offs() -> None:
    """Prints take-off speeds, a column a boat."""
    print("| change | " + " | ".join(BOATS) + " |\n|---|" + "---|" * len(BOATS))
    boats = [ready(read_boat(example(name))) for name in BOATS]
    bases = [take_off(boat, Variant("as it is")) for boat in boats]
    print("| as it is | " + " | ".join(f"{kn:.2f} kn" if kn else "none" for kn in bases) + " |")
    for variant in VARIANTS:
        if any(part in variant.words for part in TAKE_OFF):
            speeds = [take_off(boat, variant) for boat in boats]
            cells = (f"{a - b:+.2f}" if a and b else "none" for a, b in zip(speeds, bases, strict=True))
            print(f"| {variant.words} | " + " | ".join(cells) + " |")


def main(wanted: str = "") -> None:
    """Prints a line a variant and boat, a column a speed."""
    print("| change | boat | " + " | ".join(f"{kn:g} kn" for kn in SPEEDS_KN) + " |")
    print("|---|---|" + "---|" * len(SPEEDS_KN))
    boats = {name: ready(read_boat(example(name))) for name in BOATS}
    bases = {name: one(boat, Variant("as it is")) for name, boat in boats.items()}
    for name, states in bases.items():
        cells = " | ".join(
            f"{1e3 * s.height:.0f} mm {degrees(s.trim):+.2f} deg" if s else "no state" for s in states
        )
        print(f"| as it is | {name} | {cells} |")
    for variant in VARIANTS:
        if wanted not in variant.words:
            continue
        for name, boat in boats.items():
            states = one(boat, variant)
            cells = " | ".join(difference(s, base) for s, base in zip(states, bases[name], strict=True))
            print(f"| {variant.words} | {name} | {cells} |")


if __name__ == "__main__":
    if sys.argv[1:2] == ["take-off"]:
        take_offs()
    else:
        main(*sys.argv[1:2])
