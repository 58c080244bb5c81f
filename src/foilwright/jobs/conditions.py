"""What a person asks for, read: ranges, settings, water, heel. In: the words of the command line. Out: SI."""

import re
from collections.abc import Mapping, Sequence
from math import floor
from typing import NamedTuple

import numpy as np

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.sailor import Sailor
from foilwright.measures import Floats
from foilwright.mistakes import Mistake
from foilwright.setup.adjusters import adjuster_named, check_setting, turned
from foilwright.setup.standing import Standing
from foilwright.units import parsed, plain, to_si
from foilwright.water.properties import Water, water_at

FLY_SPEEDS = "4:24:1"
CARD_SPEEDS = "10:18:2"
WAND_ANGLES = "0:90:5"
MOST_ROWS = 500
MOST_STRIPES = 30.0
SPEED_LIMITS = (to_si(0.5, "kn"), to_si(60.0, "kn"))
WAND_LIMITS = (to_si(-60.0, "deg"), to_si(150.0, "deg"))
HEEL_LIMITS = (to_si(-45.0, "deg"), to_si(45.0, "deg"))
SEA_SALINITY = 35.16504  # standard sea water [g/kg]
STILL_AIR_C = 15.0


class Conditions(NamedTuple):
    """The water, as the physics takes it and as it was asked for."""

    water: Water
    salinity: float  # [g/kg]
    temperature: float  # [deg C]


class StripesRead(NamedTuple):
    """Stripes counted at main and rudder strut, to half a stripe, at a boat speed [m/s]."""

    main: float
    rudder: float
    speed: float


def stripes_from(came: str, where: str = "--stripes") -> StripesRead:
    """Stripes seen, from MAIN,RUDDER@SPEED: `4.5,5@14kn`."""
    allowed = "MAIN,RUDDER@SPEED: stripes showing at the main and at the rudder strut, and the boat speed"
    found = re.fullmatch(r"([^,@]+),([^,@]+)@([^,@:]+)", came.replace("½", ".5"))
    if found is None:
        raise Mistake(where, f"`{came}`", allowed, "Write for example --stripes 4.5,5@14.")
    counts = []
    for words in found.groups()[:2]:
        try:
            count = float(words)
        except ValueError:
            raise Mistake(where, f"`{words}`", allowed, "Write for example --stripes 4.5,5@14.") from None
        if not 0.0 <= count <= MOST_STRIPES:
            mend = "Count the stripes between hull and water."
            raise Mistake(where, f"`{words}` stripes", f"0 to {MOST_STRIPES:g}", mend)
        counts.append(count)
    [speed] = range_from(found[3], "kn", 1.0, SPEED_LIMITS, where)
    return StripesRead(counts[0], counts[1], speed)


def three_of(speeds: Sequence[float]) -> list[float]:
    """Slow, middle and fast of some speeds: the ends, and the one nearest to half way; fewer if there are."""
    slow, fast = min(speeds), max(speeds)
    middle = min(speeds, key=lambda speed: abs(speed - 0.5 * (slow + fast)))
    return sorted({slow, middle, fast})


def speeds_from(speeds: str | Sequence[float], default_step: float, where: str = "--speed") -> list[float]:
    """Boat speeds [m/s] from FROM:TO:STEP in knots or with their units, or from numbers in knots."""
    return _range_or_numbers(speeds, "kn", to_si(default_step, "kn"), SPEED_LIMITS, where)


def wand_angles_from(angles: str | Sequence[float], where: str = "--wand") -> list[float]:
    """Wand angles [rad] from FROM:TO:STEP in degrees, or from numbers in degrees."""
    return _range_or_numbers(angles, "deg", to_si(5.0, "deg"), WAND_LIMITS, where)


def _range_or_numbers(
    came: str | Sequence[float], unit: str, default_step: float, limits: tuple[float, float], where: str
) -> list[float]:
    if isinstance(came, str):
        return range_from(came, unit, default_step, limits, where)
    if not came:
        raise Mistake(where, "no number", f"one number or more, in {unit}", "Give at least one.")
    return [value for number in came for value in range_from(f"{number}", unit, default_step, limits, where)]


def heel_from(came: str | float, where: str = "--heel") -> float:
    """Heel [rad], to leeward positive, from degrees."""
    words = f"{came}"
    heel = parsed(words, "deg", where)
    _check_limits(heel, words, "deg", HEEL_LIMITS, where)
    return heel


def range_from(
    words: str, unit: str, default_step: float, limits: tuple[float, float], where: str
) -> list[float]:
    """A range in SI, both ends in it; one number alone is a range of one."""
    example = WAND_ANGLES if unit == "deg" else FLY_SPEEDS
    allowed = f"FROM:TO:STEP in {unit}, both ends included, for example {example}; or one number"
    ends = words.split(":")
    if not 1 <= len(ends) <= 3 or not all(end.strip() for end in ends):
        raise Mistake(where, f"`{words}`", allowed, "Put colons between two or three numbers.")
    numbers = [parsed(end, unit, where) for end in ends]
    for number, written in zip(numbers[:2], ends[:2], strict=False):
        _check_limits(number, written, unit, limits, where)
    if len(numbers) == 1:
        return numbers
    low, high = numbers[:2]
    step = numbers[2] if len(numbers) == 3 else default_step
    if high < low:
        turned_round = ":".join([ends[1], ends[0], *ends[2:]])
        raise Mistake(where, f"`{words}`, which runs backwards", allowed, f"Write {turned_round}.")
    if step <= 0.0:
        raise Mistake(where, f"`{words}`, with a step of {ends[2]}", allowed, "Write a step above 0.")
    count = floor((high - low) / step + 1e-9)
    if count + 1 > MOST_ROWS:
        raise Mistake(
            where,
            f"`{words}`, which is {count + 1} rows",
            f"at most {MOST_ROWS} rows",
            "Write a larger step.",
        )
    found = [low + i * step for i in range(count + 1)]
    return found if high - found[-1] < 1e-9 * max(abs(high), 1.0) else [*found, high]


def _check_limits(value: float, written: str, unit: str, limits: tuple[float, float], where: str) -> None:
    if not limits[0] <= value <= limits[1]:
        low, high = (plain(round(end / to_si(1.0, unit), 6)) for end in limits)
        raise Mistake(where, f"`{written}`", f"{low} to {high} {unit}", "Look at the number and its unit.")


def settings_from(
    boat: ReadyBoat, came: Sequence[str] | Mapping[str, float], where: str = "--set"
) -> dict[str, float]:
    """Every adjuster's setting [steps]: as the file has it, changed by each NAME=STEPS or name -> steps."""
    words = [f"{name}={steps}" for name, steps in came.items()] if isinstance(came, Mapping) else came
    settings = dict(boat.present)
    asked: set[str] = set()
    for one in words:
        name, equals, steps = one.partition("=")
        if not equals or not name.strip():
            raise Mistake(
                where, f"`{one}`", "NAME=STEPS, counted from the mark", "Write for example main-rod=+2."
            )
        adjuster = adjuster_named(boat.adjusters, name.strip(), where)
        if adjuster.name in asked:
            raise Mistake(where, f"{adjuster.name} twice", "each adjuster once", "Keep one of the two.")
        asked.add(adjuster.name)
        number = parsed(steps, "steps", f"{where} {adjuster.name}")
        check_setting(adjuster, number, where)
        settings[adjuster.name] = number
    return settings


def conditions_from(water: str | float, temperature: str | float) -> Conditions:
    """The water from `fresh`, `sea` or its salinity in g/kg, and its temperature in degrees Celsius."""
    celsius = parsed(f"{temperature}", "C", "--temperature")
    if not -2.0 <= celsius <= 40.0:
        raise Mistake(
            "--temperature", f"`{temperature}`", "-2 to 40 degrees C", "Give the water's temperature."
        )
    salinity = _salinity(f"{water}".strip().lower())
    return Conditions(water_at(celsius, salinity, STILL_AIR_C), salinity, celsius)


def _salinity(words: str) -> float:
    named = {"fresh": 0.0, "sea": SEA_SALINITY}
    if words in named:
        return named[words]
    allowed = "fresh, sea, or the salinity in g/kg from 0 to 42"
    try:
        salinity = float(words.removesuffix("g/kg"))
    except ValueError:
        raise Mistake("--water", f"`{words}`", allowed, "Write for example --water sea.") from None
    if not 0.0 <= salinity <= 42.0:
        raise Mistake("--water", f"`{words}`", allowed, "Sea water has about 35 g/kg.")
    return salinity


def row_for(boat: ReadyBoat, settings: Mapping[str, float], sailor: Sailor | None) -> Floats:
    """The boat's row with its settings, and with the sailor's mass where there is one."""
    row = turned(boat.row, boat.adjusters, settings)
    if sailor is not None:
        row = np.array(row)
        row[boat.names.index("crew.mass")] = sailor.mass_kg
    return row


def standing_of(
    boat: ReadyBoat, settings: Mapping[str, float], sailor: Sailor | None, water: Water, heel: float
) -> Standing:
    """A boat ready to fly with its sailor aboard and its settings, as the setup room wants it."""
    return Standing(row_for(boat, {}, sailor), boat.tables, water, boat.adjusters, settings, heel)
