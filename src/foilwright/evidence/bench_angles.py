"""The foil angle that each line of a bench sheet should have read, for many candidate boats at once.

Ashore nothing flows. What decides on which side of the chain's play the foil sits is friction: the foil is
dragged after the chain, so it stops short of where the chain would have it. With the wand moved back the
foil sits on one side of the play, with the wand moved forward on the other, and reading both ways tells lost
motion from an offset. A weight hung on the foil beats the friction and holds the foil on its own side.
"""

from math import fabs
from typing import Any, NamedTuple, cast

from foilwright.flight.boat import Tables, boat_from
from foilwright.flight.control import chain_from
from foilwright.linkage.curve import CurveTable
from foilwright.measures import Floats, Ints
from foilwright.smooth import clip, sign_of


class Held(NamedTuple):
    """The foil with the wand held: its angle after its stops [rad], and its slope with the wand [rad/rad].

    The slope is nothing where the foil stands at a stop.
    """

    foil: float
    gearing: float


def held_foil(
    free: float,
    gearing: float,
    play: float,
    give: float,
    travel: float,
    moment: float,
    least: float,
    most: float,
) -> Held:
    """Foil angle [rad] of a chain that would have it at `free` [rad].

    travel  +1 where the wand came to its place going back, -1 going forward, 0 not known (middle of the play)
    moment  on the foil, towards more lift [N m]; with one, the play is taken up on its side
    """
    side = -travel * sign_of(gearing)
    if fabs(moment) > 0.0:
        side = sign_of(moment)
    wanted = free + 0.5 * side * play + give * moment
    foil = clip(wanted, least, most)
    if fabs(wanted - foil) > 0.0:
        return Held(foil, 0.0)
    return Held(foil, gearing)


def held_foils(
    rows: Floats,
    curves: Floats,
    tables: Tables,
    setting: Ints,
    wand: Floats,
    travel: Floats,
    moment: Floats,
    row: Floats,
    links: Floats,
    drawn: Floats,
    foils: Floats,
    gearings: Floats,
) -> None:
    """Fills `foils` and `gearings` [candidates, readings] in rad and rad/rad.

    rows      boats [candidates, settings, numbers];  curves  measured curves [candidates, i, j]
    setting   which of the settings each reading was taken at
    wand      wand angle to the keel line [candidates, readings], rad
    row, links, drawn  scratch; the curve inside `tables` is scratch as well
    """
    curve = tables.curve.foil
    for p in range(rows.shape[0]):
        for i in range(curve.shape[0]):
            for j in range(curve.shape[1]):
                curve[i, j] = curves[p, i, j]
        last = -1
        for n in range(setting.shape[0]):
            s = setting[n]
            if s != last:
                for k in range(row.shape[0]):
                    row[k] = rows[p, s, k]
                last = s
            boat = boat_from(row, links, drawn)
            turned = chain_from(boat, tables, wand[p, n])
            held = held_foil(
                boat.chain.foil_at_drawing + turned.turn,
                turned.gearing,
                turned.play,
                turned.give,
                travel[n],
                moment[n],
                boat.chain.foil_least,
                boat.chain.foil_greatest,
            )
            foils[p, n] = held.foil
            gearings[p, n] = held.gearing


def only_curve(curve: CurveTable) -> Tables:
    """Tables that hold nothing but a curve: ashore nothing else is asked for."""
    nothing = cast(Any, 0.0)
    return Tables(sections=nothing, hull=nothing, waves=nothing, curve=curve)
