"""What can be wrong with a chain beyond single numbers: its make-up, its curve, whether it closes."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from math import degrees, pi, radians

import numpy as np

from foilwright.documents.boat_chain import Crank, Curve
from foilwright.documents.boat_record import BoatFile
from foilwright.flight.boat import N_SCALARS, SCALARS, scratch_shapes
from foilwright.linkage.chain import draw_chain, turn_chain
from foilwright.measures import Floats
from foilwright.mistakes import Mistake
from foilwright.units import plain

LOOK_EVERY = radians(0.5)


def make_up(boat: BoatFile, file: str) -> Iterator[Mistake]:
    """Faults in how the chain is put together."""
    chain = boat.chain
    where = f"{file}: chain"
    if chain.curve and (chain.cranks or chain.rods):
        yield Mistake(
            where,
            "cranks and rods, and a curve as well",
            "either cranks and rods, or a measured curve",
            "Take one of them out.",
        )
        return
    if chain.curve:
        found = list(_curve_faults(chain.curve, where))
        yield from found or _whole_foil_by_curve(boat, where)
        return
    if not chain.cranks:
        yield Mistake(
            where,
            "neither cranks and rods nor a curve",
            "[[chain.cranks]] and [[chain.rods]], or [[chain.curve]]",
            "Where the rods cannot be reached, measure the curve: foil angle at three wand angles or more.",
        )
        return
    if len(chain.cranks) < 2 or len(chain.rods) != len(chain.cranks) - 1:
        yield Mistake(
            f"{where}.rods",
            f"{len(chain.rods)} rods for {len(chain.cranks)} cranks",
            "two cranks or more, and one rod less than cranks",
            "Give the wand crank first, the horn of the foil last, and a rod between each two.",
        )
        return
    for kind, entries in (("cranks", chain.cranks), ("rods", chain.rods)):
        names = [entry.name for entry in entries]
        for name in sorted({name for name in names if names.count(name) > 1}):
            yield Mistake(
                f"{where}.{kind}", f"`{name}` twice", "a name of its own for each", "Rename one of them."
            )
    for i, crank in enumerate(chain.cranks):
        yield from _crank_faults(crank, i == 0, i == len(chain.cranks) - 1, f"{where}.cranks.{crank.name}")
    if boat.main_foil.control == "flap" and chain.foil_deg is None:
        yield Mistake(
            f"{where}.foil_deg",
            "missing",
            "the flap angle in the drawing position, -20 to 30 deg",
            "Read the flap with the wand held at wand_deg.",
        )


def _whole_foil_by_curve(boat: BoatFile, where: str) -> Iterator[Mistake]:
    """The chord angle of a whole foil is on its curve already."""
    wand = 45.0 if boat.chain.wand_deg is None else boat.chain.wand_deg
    curve = min((c for c in boat.chain.curve if c.wand_deg), key=lambda c: abs(c.position))
    if boat.main_foil.control != "whole" or not curve.wand_deg[0] <= wand <= curve.wand_deg[-1]:
        return
    read = float(np.interp(wand, curve.wand_deg, curve.foil_deg))
    if abs(read - boat.main_foil.incidence_deg) > 1.0:
        yield Mistake(
            f"{where}.curve",
            f"{plain(read, 3)} deg at wand {plain(wand)}, where main_foil.incidence_deg is "
            f"{plain(boat.main_foil.incidence_deg)}",
            "the same angle within 1 deg",
            "Of a whole foil both are the chord to the reference line: read it again.",
        )


def _crank_faults(crank: Crank, first: bool, last: bool, where: str) -> Iterator[Mistake]:
    wanted = {
        "in_arm_m": not first,
        "in_direction_deg": not first,
        "pivot_x_m": not first,
        "pivot_z_m": not first,
        "out_arm_m": not last,
        "out_direction_deg": not last,
    }
    what = "the wand crank" if first else "the horn" if last else "this crank"
    for name, is_wanted in wanted.items():
        value = getattr(crank, name)
        if is_wanted and value is None:
            yield Mistake(f"{where}.{name}", "missing", "a number", f"Measure it: {what} needs it.")
        elif not is_wanted and value is not None:
            mend = "The wand crank turns on the wand's pivot." if "pivot" in name else "Take it out."
            yield Mistake(f"{where}.{name}", plain(value), f"nothing: {what} has none of its own", mend)
        elif name.endswith("_deg") and value is not None and _looks_like_radians(value):
            yield Mistake(
                f"{where}.{name}",
                plain(value),
                "degrees, from forward towards up",
                f"That looks like radians; did you mean {plain(degrees(value), 4)} deg?",
            )


def _looks_like_radians(value: float) -> bool:
    """Whether an angle given in degrees is a quarter, half or whole turn in radians."""
    return any(abs(abs(value) - k * pi / 2) < 0.002 for k in (1, 2, 3, 4))


def _curve_faults(curves: Sequence[Curve], where: str) -> Iterator[Mistake]:
    places = [curve.position for curve in curves]
    if len(set(places)) < len(places):
        yield Mistake(
            f"{where}.curve", "two curves at one position", "one curve a position", "Mend `position`."
        )
    if not any(curve.wand_deg for curve in curves):
        yield Mistake(
            f"{where}.curve",
            "no readings",
            "wand_deg and foil_deg at one position at least",
            "Read the foil angle at three wand angles or more.",
        )
    for i, curve in enumerate(curves):
        here = f"{where}.curve[{i + 1}]"
        wand, foil = curve.wand_deg, curve.foil_deg
        if not wand and not foil:
            if curve.foil_change_deg is None:
                yield Mistake(
                    here, "no readings", "wand_deg and foil_deg, or foil_change_deg", "Add the readings."
                )
            continue
        if curve.foil_change_deg is not None:
            yield Mistake(
                f"{here}.foil_change_deg",
                plain(curve.foil_change_deg),
                "nothing beside wand_deg and foil_deg",
                "Take one of them out.",
            )
        if len(wand) != len(foil):
            yield Mistake(
                f"{here}.foil_deg",
                f"{len(foil)} foil angles for {len(wand)} wand angles",
                "one foil angle for each wand angle",
                "Look for a reading left out.",
            )
        elif curve.foil_se_deg and (len(curve.foil_se_deg) != len(foil) or min(curve.foil_se_deg) < 0.0):
            yield Mistake(
                f"{here}.foil_se_deg",
                f"{len(curve.foil_se_deg)} standard errors for {len(foil)} foil angles",
                "one for each foil angle, 0 or more, or none at all",
                "Write how far off each reading may be, or take the line out.",
            )
        elif len(wand) < 3:
            yield Mistake(
                f"{here}.wand_deg",
                f"{len(wand)} readings",
                "three readings or more",
                "Read also in between, for example at wand 20, 45 and 70.",
            )
        elif any(b <= a for a, b in pairwise(wand)):
            at = next(b for a, b in pairwise(wand) if b <= a)
            yield Mistake(
                f"{here}.wand_deg",
                f"{plain(at)} after a greater angle",
                "wand angles rising from entry to entry",
                "Sort the readings by wand angle; of two at one angle take the mean.",
            )
        elif wand[-1] < 3.0:
            yield Mistake(
                f"{here}.wand_deg",
                f"up to {plain(wand[-1])}",
                "degrees, for example 20 to 70",
                f"That looks like radians; did you mean {plain(degrees(wand[-1]), 3)} deg?",
            )
        elif wand[0] < -40.0 or wand[-1] > 120.0 or min(foil) < -60.0 or max(foil) > 60.0:
            yield Mistake(
                here,
                f"wand {plain(wand[0])} to {plain(wand[-1])}, foil {plain(min(foil))} to {plain(max(foil))}",
                "wand -40 to 120 deg, foil -60 to 60 deg",
                "Look for a slip of sign or unit.",
            )
        elif max(foil) - min(foil) < 0.5:
            yield Mistake(
                f"{here}.foil_deg",
                f"{plain(min(foil))} to {plain(max(foil))}",
                "foil angles that change with the wand, in degrees",
                "They hardly change; are they in radians, or is the chain loose?",
            )


def closing(boat: BoatFile, row: Floats, file: str) -> Iterator[Mistake]:
    """Whether every rod reaches, from the drawing position to the first stop either way."""
    n = {name: float(row[i]) for i, name in enumerate(SCALARS)}
    shape, drawn_shape = scratch_shapes(len(row))
    links, drawn = np.array(row[N_SCALARS:]).reshape(shape), np.zeros(drawn_shape)
    draw_chain(
        n["wand.pivot_x"], n["wand.pivot_z"], n["chain.crank_arm"], n["chain.crank_direction"], links, drawn
    )
    rods = [rod.name for rod in boat.chain.rods]
    for i, rod in enumerate(rods):
        if drawn[i, 9] <= 0.0 or turn_chain(drawn[: i + 1], links[: i + 1], 0.0).slack < 0.0:
            length, wanted = drawn[i, 9], drawn[i, 9] - links[i, 0]
            yield Mistake(
                f"{file}: chain.rods.{rod}.length_m",
                f"{plain(length, 4)}: too {'short' if links[i, 0] < 0 else 'long'} "
                f"to close at wand {plain(degrees(n['chain.wand_at_drawing']), 3)} deg, the drawing position",
                f"about {plain(wanted, 4)} m, as the pivots and arms have it",
                "Measure the rod joint to joint, or leave its length out.",
            )
            return
    locked = first_lock(n, links, drawn)
    if locked is not None:
        wand, i = locked
        yield Mistake(
            f"{file}: chain.rods.{rods[i]}",
            f"the chain locks at wand {plain(degrees(wand), 3)} deg, before any stop",
            f"a chain that turns from stop to stop, wand {plain(degrees(n['wand.forward_stop']), 3)} to "
            f"{plain(degrees(n['wand.aft_stop']), 3)} deg",
            "Measure this rod, its two arms and their pivots again.",
        )


def first_lock(n: Mapping[str, float], links: Floats, drawn: Floats) -> tuple[float, int] | None:
    """Wand angle [rad] nearest to the drawing where the chain locks short of any stop, and the rod."""
    start = n["chain.wand_at_drawing"]
    found: list[tuple[float, int]] = []
    for stop, way in ((n["wand.aft_stop"], 1.0), (n["wand.forward_stop"], -1.0)):
        for k in range(int(max(way * (stop - start), 0.0) / LOOK_EVERY) + 1):
            wand = start + way * k * LOOK_EVERY
            turned = turn_chain(drawn, links, wand - start)
            if turned.slack < 0.0:
                rod = next(
                    i
                    for i in range(len(drawn))
                    if turn_chain(drawn[: i + 1], links[: i + 1], wand - start).slack < 0.0
                )
                found.append((wand, rod))
                break
            foil = n["chain.foil_at_drawing"] + turned.turn
            if not n["chain.foil_least"] <= foil <= n["chain.foil_greatest"]:
                break
    return min(found, key=lambda at: abs(at[0] - start)) if found else None
