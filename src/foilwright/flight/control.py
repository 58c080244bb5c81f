"""From the water's surface to the foil: wand, chain and foil settled together.

Where the wand rests depends on what the chain asks of it, which depends on the foil's hinge moment,
which depends on the foil's angle; the foil in turn sits on one side of the chain's play and bends its
rods. All of that is one equation in one unknown, the foil angle.
"""

from math import pi, tanh
from typing import NamedTuple

from foilwright.flight.boat import Boat, Tables
from foilwright.flight.foil_flow import FoilFlow, flap_turning, foil_lift, whole_flow
from foilwright.linkage.chain import Turned, turn_chain
from foilwright.linkage.curve import read_curve
from foilwright.linkage.wand import touching
from foilwright.smooth import smooth_clip, smooth_step

STOP_ROUNDING = 0.3 * pi / 180.0  # [rad]
PLAY_ROUNDING = 1.0  # hinge moment over which the foil crosses its play [N m]
LIFT_OFF_SHARE = 0.03  # of the wand's length: rise over which the lifted wand falls to its forward stop
SETTLED = 1e-10  # [rad]
FIRST_GEARING = 0.2  # of any chain, to begin with


class Control(NamedTuple):
    """Wand, chain and main foil, settled.

    wand     wand angle at the pivot [rad]
    foil     foil angle [rad];  free_foil  the same without the foil's stops
    touch    1 touching the water .. 0 off it;  immersed [m];  push  of the water on the wand [N]
    pull     what the wand must hold beside its weight [N m]
    """

    wand: float
    foil: float
    free_foil: float
    touch: float
    immersed: float
    push: float
    pull: float
    chain: Turned
    flow: FoilFlow
    miss: float  # what is left of the foil's equation [rad]


def chain_from(boat: Boat, tables: Tables, wand: float) -> Turned:
    """The chain at a wand angle, from its rods or from its measured curve: `turn` is then the foil's own.

    Play and give of the whole chain at the foil are included.
    """
    if boat.chain.from_curve > 0.5:
        foil, gearing = read_curve(tables.curve, wand, boat.chain.curve_position)
        return Turned(
            foil - boat.chain.foil_at_drawing, gearing, 1.0, 0.5 * pi, boat.chain.play, boat.chain.give
        )
    turned = turn_chain(boat.drawn, boat.links, wand - boat.chain.wand_at_drawing)
    return Turned(
        turned.turn,
        turned.gearing,
        turned.slack,
        turned.transmission,
        turned.play + boat.chain.play,
        turned.give + boat.chain.give,
    )


def settled_control(
    boat: Boat,
    tables: Tables,
    gravity: float,
    pivot_height: float,
    cos_trim: float,
    sin_trim: float,
    cos_heel: float,
    sin_heel: float,
    wand_pressure: float,
    flow_angle: float,
    pressure: float,
    depth: float,
    log_re: float,
) -> Control:
    """Wand and foil angle that agree with each other, by the secant rule.

    pivot_height over the local water [m]; pressures are dynamic pressures at wand and main foil [Pa];
    flow_angle of the water to the keel line at the main foil [rad]; depth of the main foil [m].

    foil = clip(chain(wand) + play/2 tanh(hinge / PLAY_ROUNDING) + give x hinge), clipped to the foil's
    stops; the wand's pull is the elastic's moment less gearing x hinge. A wand that bends under the water's
    push stands further forward at its pivot than the line to its tip, by its bend times that moment. Both
    stops are rounded by 0.3 degrees. Solved to 1e-10 rad; `miss` tells where that was not reached, as
    with a foil whose give outruns its hinge moment.
    """
    wand_parts = boat.wand
    weight = wand_parts.mass * gravity
    immersed = 0.01
    # Begin from the drawing position, with the hinge moment it would have; the answer does not depend on it.
    foil = boat.chain.foil_at_drawing
    miss = 0.0
    last_foil = 0.0
    last_miss = 0.0
    gearing = FIRST_GEARING
    i = 0
    while True:
        there = foil_lift(boat.main, boat.main_planform, tables, 0, flow_angle, depth, sin_heel, log_re, foil)
        if boat.main.incidence_per_turn == 0.0:
            hinge = flap_turning(boat.main, boat.main_planform, tables, 0, pressure, log_re, there)
        else:
            hinge = whole_flow(boat.main, boat.main_planform, tables, 0, pressure, log_re, there).hinge
        pull = wand_parts.tension - gearing * hinge
        rest = touching(
            pivot_height,
            cos_trim,
            sin_trim,
            cos_heel,
            wand_parts.length,
            wand_parts.paddle_length,
            wand_parts.paddle_width,
            wand_parts.stick_width,
            weight,
            pull,
            wand_pressure,
            immersed,
        )
        immersed = rest.immersed
        bent = wand_parts.bend * rest.push * (wand_parts.length - 0.5 * rest.immersed)
        off = smooth_step(rest.cosine, 1.0, 1.0 + LIFT_OFF_SHARE)
        wand = smooth_clip(
            rest.angle - bent + off * (wand_parts.forward_stop - rest.angle + bent),
            wand_parts.forward_stop,
            wand_parts.aft_stop,
            STOP_ROUNDING,
        )
        chain = chain_from(boat, tables, wand)
        gearing = chain.gearing
        free = (
            boat.chain.foil_at_drawing
            + chain.turn
            + 0.5 * chain.play * tanh(hinge / PLAY_ROUNDING)
            + chain.give * hinge
        )
        wanted = smooth_clip(free, boat.chain.foil_least, boat.chain.foil_greatest, STOP_ROUNDING)
        if i == 0:
            foil = wanted
        else:
            miss = wanted - foil
            if miss * miss < SETTLED * SETTLED or i > 12:
                return Control(
                    wand,
                    foil,
                    free,
                    1.0 - off,
                    rest.immersed,
                    (1.0 - off) * rest.push,
                    pull,
                    chain,
                    whole_flow(boat.main, boat.main_planform, tables, 0, pressure, log_re, there),
                    miss,
                )
            step = miss
            if i > 1 and (last_miss - miss) * (last_miss - miss) > 1e-24:
                step = miss * (foil - last_foil) / (last_miss - miss)
                if step * step > 0.01:
                    step = 0.5 * miss
            last_foil = foil
            last_miss = miss
            foil = foil + step
        i = i + 1
