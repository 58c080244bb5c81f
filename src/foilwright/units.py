"""Units at the edges: SI inside, sailors' units in files, on screens and on the command line.

A unit is known by the symbol that a person writes ("kn") and by the ending it gives a name ("_kn"). Used by
documents and doors, never by physics.
"""

import re
from math import isfinite, pi
from typing import NamedTuple

from foilwright.mistakes import Mistake


class Unit(NamedTuple):
    """One unit: how it is written, what it measures, and what one of it is in SI."""

    symbol: str
    kind: str
    in_si: float
    ending: str  # of names that carry it, without the underscore


UNITS: tuple[Unit, ...] = (
    Unit("m", "length", 1.0, "m"),
    Unit("cm", "length", 0.01, "cm"),
    Unit("mm", "length", 0.001, "mm"),
    Unit("m2", "area", 1.0, "m2"),
    Unit("cm2", "area", 1e-4, "cm2"),
    Unit("kg", "mass", 1.0, "kg"),
    Unit("g", "mass", 0.001, "g"),
    Unit("m/s", "speed", 1.0, "m_s"),
    Unit("kn", "speed", 1852.0 / 3600.0, "kn"),
    Unit("km/h", "speed", 1.0 / 3.6, "km_h"),
    Unit("rad", "angle", 1.0, "rad"),
    Unit("deg", "angle", pi / 180.0, "deg"),
    Unit("N", "force", 1.0, "n"),
    Unit("N m", "moment", 1.0, "n_m"),
    Unit("s", "time", 1.0, "s"),
    Unit("min", "time", 60.0, "min"),
    Unit("Hz", "frequency", 1.0, "hz"),
    Unit("steps", "count", 1.0, "steps"),
    Unit("turns", "count", 1.0, "turns"),
    Unit("%", "share", 0.01, "percent"),
    Unit("C", "temperature", 1.0, "c"),
    Unit("m/s2", "acceleration", 1.0, "m_s2"),
    Unit("deg/s", "rate of turn", pi / 180.0, "deg_s"),
    Unit("mm/N", "stretch", 0.001, "mm_per_n"),
    Unit("mm a step", "pitch", 0.001, "mm_per_step"),
    Unit("deg/(N m)", "give", pi / 180.0, "deg_per_n_m"),
    Unit("deg/s per deg", "yaw response", 1.0, "deg_s_per_deg"),
    Unit("m/s2 per deg", "side response", 180.0 / pi, "m_s2_per_deg"),
    Unit("N m per deg", "roll response", 180.0 / pi, "n_m_per_deg"),
    Unit("mm per deg", "place response", 0.18 / pi, "mm_per_deg"),
    Unit("deg per deg", "angle response", 1.0, "deg_per_deg"),
    Unit("N per deg", "force response", 180.0 / pi, "n_per_deg"),
    Unit("N/m", "stiffness", 1.0, "n_per_m"),
)
BY_SYMBOL: dict[str, Unit] = {unit.symbol: unit for unit in UNITS}
BY_ENDING: dict[str, Unit] = {unit.ending: unit for unit in UNITS}
OTHER_SPELLINGS: dict[str, str] = {
    "kt": "kn",
    "kts": "kn",
    "knots": "kn",
    "knot": "kn",
    "°": "deg",
    "degrees": "deg",
    "degree": "deg",
    "m²": "m2",
    "turn": "turns",
    "step": "steps",
    "metres": "m",
    "kilograms": "kg",
    "kgs": "kg",
    "Nm": "N m",
}

_WRITTEN = re.compile(r"\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*?)\s*")


def to_si(value: float, symbol: str) -> float:
    """A value in the unit `symbol`, in SI."""
    return value * BY_SYMBOL[symbol].in_si


def from_si(value: float, symbol: str) -> float:
    """A value in SI, in the unit `symbol`."""
    return value / BY_SYMBOL[symbol].in_si


def ending_of(name: str) -> Unit | None:
    """The unit that a name carries at its end ("boat_speed_kn" -> kn); nothing where it has none.

    The longest ending wins: "tension_n_m" is newton metres, not metres.
    """
    parts = name.split("_")
    for i in range(1, len(parts)):
        unit = BY_ENDING.get("_".join(parts[i:]))
        if unit is not None:
            return unit
    return None


def named_value_to_si(name: str, value: float) -> float:
    """A value from a field whose name carries its unit, in SI; as it stands where the name carries none."""
    unit = ending_of(name)
    return value if unit is None else value * unit.in_si


def plain(value: float, digits: int = 6) -> str:
    """A number as a person would write it: no exponent for ordinary sizes, no trailing zeros."""
    text = f"{value:.{digits}g}"
    if "e" not in text:
        return text
    return f"{value:.12f}".rstrip("0").rstrip(".") if abs(value) < 1.0 else f"{value:.0f}"


def parsed(text: str, usual: str, where: str) -> float:
    """What a person wrote, in SI: "12kn", "6 m/s", "450mm"; a bare number is in the unit `usual`."""
    kind = BY_SYMBOL[usual].kind
    others = ", ".join(unit.symbol for unit in UNITS if unit.kind == kind)
    allowed = f"a number in {usual}, or with one of the units {others}"
    example = f"Write for example 12{usual}."
    if re.fullmatch(r"\s*[+-]?\d+,\d.*", text):
        raise Mistake(
            where, f"`{text}`", allowed, f"Write {text.replace(',', '.', 1).strip()}, with a point."
        )
    found = _WRITTEN.fullmatch(text)
    if found is None:
        raise Mistake(where, f"`{text}`", allowed, example)
    value = float(found[1])
    written = found[2]
    unit = BY_SYMBOL.get(OTHER_SPELLINGS.get(written, written)) if written else BY_SYMBOL[usual]
    if unit is None:
        raise Mistake(where, f"`{text}`, with a unit `{written}` that is not known", allowed, example)
    if unit.kind != kind:
        raise Mistake(where, f"`{text}`, which is {unit.kind}, not {kind}", allowed, example)
    if not isfinite(value):
        raise Mistake(where, f"`{text}`", allowed, example)
    return value * unit.in_si
