"""One line of a bench sheet: what must stand in it, and what is said where it does not."""

import re
from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any

from foilwright.documents.bench_record import KINDS, Kind, Line
from foilwright.mistakes import Mistake
from foilwright.units import BY_SYMBOL, parsed, plain, to_si

COLUMNS = ("what", "at", "way", "wand_deg", "travel", "settings", "load_n", "reading", "note")

# Credible readings, in the unit of the kind: what lies outside was not read from a gauge.
CREDIBLE: dict[str, tuple[float, float]] = {
    "batten": (-250.0, 300.0),
    "batten-zero": (-100.0, 100.0),
    "level": (-30.0, 30.0),
    "edge": (-80.0, 80.0),
    "wand-stop": (-60.0, 130.0),
    "foil-stop": (-250.0, 300.0),
    "tape": (200.0, 6000.0),
    "rake": (-300.0, 300.0),
    "weigh": (2.0, 300.0),
    "pull": (0.0, 150.0),
}
WAND = (-60.0, 130.0)


def line_of(number: int, row: Mapping[str, Any], file: str) -> Line:
    """One reading from its cells. Raises the first Mistake found."""
    where = f"{file}, line {number}"
    for name in row:
        if name not in COLUMNS:
            near = get_close_matches(name, COLUMNS, n=1, cutoff=0.5)
            mend = f"Did you mean {near[0]}?" if near else "Take it out, or put it into `note`."
            raise Mistake(where, f"`{name}`", ", ".join(COLUMNS), mend)
    what = _word(row, "what")
    kind = KINDS.get(what)
    if kind is None:
        near = get_close_matches(what, list(KINDS), n=1, cutoff=0.5)
        raise Mistake(
            where,
            f"`{what}` as `what`",
            ", ".join(KINDS),
            f"Did you mean {near[0]}?" if near else "Use one of these.",
        )
    at = _place(row, kind, what, where)
    wand, travel = _wand(row, kind, what, at, where)
    note = str(row.get("note", "")).strip()
    if re.fullmatch(r"[\d.,]+", note):
        raise Mistake(
            f"{where}: note",
            f"`{note}`, a number",
            "words",
            "A comma for the decimal point, or a comma too many: write 1.2 with a point.",
        )
    load = _number(row, "load_n", "N", where)
    if load and not kind.load:
        raise Mistake(where, f"a load at `{what}`", "a load at `batten` only", "Take it out of this line.")
    if not -200.0 <= load <= 200.0:
        raise Mistake(where, f"load_n = {plain(load)}", "-200 to 200 N", "Half a litre of water weighs 5 N.")
    as_read = str(row.get("reading", "")).strip()
    if not as_read:
        raise Mistake(where, "no reading", f"a number in {kind.unit}", "Write what the gauge showed.")
    reading = parsed(as_read, kind.unit, f"{where}: reading")
    _credible(reading / BY_SYMBOL[kind.unit].in_si, as_read, what, kind, where)
    return Line(
        number, what, at, _way(row, what, where), wand, travel, _settings(row, where), load, as_read, reading
    )


def _word(row: Mapping[str, Any], name: str) -> str:
    return str(row.get(name) or "").strip().lower().replace(" ", "-")


def _place(row: Mapping[str, Any], kind: Kind, what: str, where: str) -> str:
    at = _word(row, "at")
    if kind.places and at not in kind.places:
        near = get_close_matches(at, kind.places, n=1, cutoff=0.5)
        raise Mistake(
            where,
            f"`{at}` as `at`" if at else f"`{what}` without `at`",
            ", ".join(kind.places),
            f"Did you mean {near[0]}?" if near else "Say which.",
        )
    if at and not kind.places:
        raise Mistake(where, f"`{at}` as `at`", f"nothing: `{what}` needs no place", "Take it out.")
    return at


def _wand(row: Mapping[str, Any], kind: Kind, what: str, at: str, where: str) -> tuple[float | None, str]:
    """The wand's angle [rad] and its direction of travel, where the reading hangs on them."""
    needs = kind.wand or at == "flap"
    travel = _word(row, "travel")
    written = str(row.get("wand_deg", "")).strip()
    if travel and travel not in ("back", "forward"):
        if re.fullmatch(r"[+-]?[\d.]+", travel) or written in ("back", "forward"):
            mend = "Two columns have changed places: wand_deg is a number, travel is back or forward."
        else:
            mend = "back: the wand came to its place going aft; forward: going forward."
        raise Mistake(where, f"travel `{travel}`", "back or forward", mend)
    if not written:
        if needs:
            raise Mistake(
                where, f"`{what}` without wand_deg", "the wand's angle in deg", "Read the wand too."
            )
        return None, travel
    wand = parsed(written, "deg", f"{where}: wand_deg")
    low, high = (to_si(end, "deg") for end in WAND)
    if not low <= wand <= high:
        raise Mistake(
            f"{where}: wand_deg",
            written,
            f"{plain(WAND[0])} to {plain(WAND[1])} deg from plumb, aft positive",
            "Read the wand again; were two columns swapped?",
        )
    if needs and not travel:
        raise Mistake(
            where,
            "no direction of travel",
            "back or forward in `travel`",
            "Say which way the wand came to its place; the lost motion is read from the difference.",
        )
    return wand, travel


def _way(row: Mapping[str, Any], what: str, where: str) -> str:
    way = _word(row, "way")
    if way not in ("", "one", "other"):
        raise Mistake(
            where,
            f"way `{way}`",
            "one or other",
            "`other` is the level turned end for end on the same place.",
        )
    if way and what != "level":
        raise Mistake(where, f"a way at `{what}`", "a way at `level` only", "Take it out of this line.")
    return way


def _settings(row: Mapping[str, Any], where: str) -> dict[str, float]:
    """Where the adjusters stood: `main-rod=3 wand-length=-1`, or a table; others stood at their marks."""
    came = row.get("settings") or {}
    if isinstance(came, Mapping):
        pairs = [(str(name), str(steps)) for name, steps in came.items()]
    else:
        pairs = []
        for part in re.split(r"[\s;]+", str(came).strip()):
            name, equals, steps = part.partition("=")
            if not equals:
                raise Mistake(
                    f"{where}: settings",
                    f"`{part}`",
                    "NAME=STEPS, such as main-rod=3",
                    "Count from the mark.",
                )
            pairs.append((name, steps))
    settings = {}
    for name, steps in pairs:
        try:
            settings[name] = float(steps)
        except ValueError:
            raise Mistake(
                f"{where}: settings",
                f"`{name}={steps}`",
                "NAME=STEPS, such as main-rod=3",
                "Count from the mark.",
            ) from None
    return settings


def _number(row: Mapping[str, Any], name: str, unit: str, where: str) -> float:
    written = str(row.get(name, "")).strip()
    return parsed(written, unit, f"{where}: {name}") if written else 0.0


def _credible(value: float, as_read: str, what: str, kind: Kind, where: str) -> None:
    low, high = CREDIBLE[what]
    if low <= value <= high:
        return
    mend = "Read it again; were two columns swapped?"
    for factor, words in ((10.0, "centimetres"), (1000.0, "metres")) if kind.unit == "mm" else ():
        if abs(value) < abs(low) and low <= value * factor <= high:
            mend = f"That looks like {words}; did you mean {plain(value * factor)} mm?"
            break
    raise Mistake(f"{where}: reading", as_read, f"{plain(low)} to {plain(high)} {kind.unit}", mend)
