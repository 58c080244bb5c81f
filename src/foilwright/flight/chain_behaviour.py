"""What the chain does ashore: foil angle over wand angle, gearing, play, stops, locks, the swing check.

Exact, with sharp stops; nothing flows and nothing bends.
"""

from collections.abc import Iterable
from math import radians
from typing import NamedTuple

import numpy as np

from foilwright.compiled import plain
from foilwright.flight.boat import Boat, Tables, boat_from, scratch_shapes
from foilwright.flight.control import chain_from
from foilwright.measures import Floats
from foilwright.smooth import clip

LOCKS_FROM, LOCKS_TO, LOCKS_STEP = radians(-60.0), radians(150.0), radians(1.0)


class ChainPoint(NamedTuple):
    """The chain with the wand held at one angle; angles in radians.

    wand   the angle asked for;  foil  the foil's angle after all stops;  gearing  foil per wand
    transmission  least angle between a rod and the arm it drives; None for a measured curve
    slop   lost motion of the foil, both ways together;  stop  the stop that is met, or nothing
    locked True where a rod cannot reach; foil, gearing and slop then mean nothing
    """

    wand: float
    foil: float
    gearing: float
    transmission: float | None
    slop: float
    stop: str
    locked: bool


def unpacked(row: Floats) -> Boat:
    """The boat of one row, with its own scratch."""
    links, drawn = scratch_shapes(len(row))
    return boat_from(row, np.zeros(links), np.zeros(drawn))


def chain_at(row: Floats, tables: Tables, wand_angles: Iterable[float]) -> list[ChainPoint]:
    """The chain at each wand angle [rad]. A wand asked beyond its stop stays at the stop, and says so."""
    boat = plain(unpacked(row))
    tables = plain(tables)
    return [point_at(boat, tables, wand) for wand in wand_angles]


def point_at(boat: Boat, tables: Tables, wand: float) -> ChainPoint:
    """The chain at one wand angle [rad]; the first stop met holds everything else."""
    held = clip(wand, boat.wand.forward_stop, boat.wand.aft_stop)
    turned = chain_from(boat, tables, held)
    free = boat.chain.foil_at_drawing + turned.turn
    foil = clip(free, boat.chain.foil_least, boat.chain.foil_greatest)
    stop = ""
    if foil != free:
        stop = "foil least" if free < foil else "foil greatest"
    elif held != wand:
        stop = "wand forward" if wand < held else "wand aft"
    transmission = None if boat.chain.from_curve > 0.5 else turned.transmission
    return ChainPoint(wand, foil, turned.gearing, transmission, turned.play, stop, turned.slack < 0.0)


def locks_at(row: Floats, tables: Tables) -> list[float]:
    """Wand angles [rad] at which the chain locks on the way from its drawing position; a curve never does."""
    boat = plain(unpacked(row))
    tables = plain(tables)
    drawing = boat.chain.wand_at_drawing
    found = []
    for end in (LOCKS_FROM, LOCKS_TO):
        steps = int(abs(end - drawing) / LOCKS_STEP)
        step = LOCKS_STEP if end > drawing else -LOCKS_STEP
        for k in range(steps + 1):
            if chain_from(boat, tables, drawing + k * step).slack < 0.0:
                free, locked = drawing + (k - 1) * step, drawing + k * step
                for _ in range(30):
                    middle = 0.5 * (free + locked)
                    if chain_from(boat, tables, middle).slack < 0.0:
                        locked = middle
                    else:
                        free = middle
                found.append(free)
                break
    return sorted(found)


def swing_angles(row: Floats, tables: Tables) -> tuple[float, float]:
    """Foil angles [rad] of the swing check: wand hard back, and wand at its forward stop."""
    boat = plain(unpacked(row))
    tables = plain(tables)
    return (
        point_at(boat, tables, boat.wand.aft_stop).foil,
        point_at(boat, tables, boat.wand.forward_stop).foil,
    )
