"""The answers of the commands: their shapes, and the way from SI to them. Every key carries its unit.

A number that does not exist is null with an `outcome` beside it, never NaN and never left out.
"""

import json
from collections.abc import Mapping, Sequence
from math import isfinite
from typing import Any, TypedDict

from foilwright.documents.defaults import Assumed
from foilwright.documents.setup_card import SetupCard, SwingCheck
from foilwright.flight.at_speed import Steady
from foilwright.flight.chain_behaviour import ChainPoint
from foilwright.outcomes import CHAIN_LOCKED, NO_BALANCE, OUTCOMES, SOLVED
from foilwright.units import from_si
from foilwright.words import quantity

DECIMALS = 6

# The keys of `margins`, in this order, and the word of the glossary behind each; one carries another unit.
MARGINS: dict[str, str] = {
    "stall_deg": "stall",
    "tip_depth_mm": "tip_depth",
    "ventilation_deg": "ventilation",
    "touchdown_mm": "touchdown",
    "cavitation_kn": "cavitation",
    "wand_stop_deg": "wand_stop",
    "foil_stop_deg": "foil_stop",
    "hiking_percent": "hiking",
    "rudder_reversal_n": "rudder_reversal",
    "wand_contact_mm": "wand_contact",
}


class Fault(TypedDict):
    """One thing wrong with an input."""

    where: str
    came: str
    allowed: str
    mend: str


class CheckedFile(TypedDict):
    """One file looked at."""

    path: str
    kind: str | None
    ok: bool
    faults: list[Fault]


class CheckAnswer(TypedDict):
    """Answer of `check`."""

    format: str
    version: int
    files: list[CheckedFile]


class SwingAnswer(TypedDict):
    """Trailing edge at the root from foil angle 0, down positive: at each stop, and wand held."""

    back_mm: float
    forward_mm: float
    middle_mm: float
    wand_deg: float


class SettingAnswer(TypedDict):
    """Where an adjuster stands."""

    adjuster: str
    steps: float


class ChosenSetting(TypedDict):
    """Where an adjuster is to stand, and how far that is from where it stands."""

    adjuster: str
    steps: float
    change: float


class ChainRow(TypedDict):
    """The chain at one wand angle."""

    wand_deg: float
    foil_deg: float | None
    gearing: float | None
    transmission_deg: float | None
    slop_deg: float | None
    stop: str
    outcome: str


class ChainAnswer(TypedDict):
    """Answer of `chain`."""

    format: str
    version: int
    boat: str
    boat_version: str
    settings: list[SettingAnswer]
    rows: list[ChainRow]
    locks_at_deg: list[float]
    swing_check: SwingAnswer


class FlyRow(TypedDict):
    """One steady state at a boat speed, or why there is none."""

    boat_speed_kn: float
    state: str | None
    stable: bool | None
    outcome: str
    sentence: str
    ride_height_m: float | None
    trim_deg: float | None
    heel_deg: float
    wand_deg: float | None
    wand_touching: bool | None
    foil_deg: float | None
    main_lift_n: float | None
    rudder_lift_n: float | None
    buoyancy_n: float | None
    drag_n: float | None
    drag_by_part_n: dict[str, float]
    margins: dict[str, float | None]
    nearest_limit: str | None


class AssumedAnswer(TypedDict):
    """A number that the boat file did not give, and what its band does to the height at one boat speed."""

    name: str
    value: float
    low: float
    high: float
    unit: str
    source: str
    boat_speed_kn: float | None
    ride_height_change_mm: float | None
    outcome: str


class FlyAnswer(TypedDict):
    """Answer of `fly`."""

    format: str
    version: int
    boat: str
    boat_version: str
    settings: list[SettingAnswer]
    rows: list[FlyRow]
    take_off_speed_kn: float | None
    take_off_later_kn: float | None
    assumed: list[AssumedAnswer]


class StripesAnswer(TypedDict):
    """Stripes seen from another boat; changes are from what was worked out to what was seen."""

    boat_speed_kn: float
    main_stripes: float
    rudder_stripes: float
    ride_height_m: float
    ride_height_error_mm: float
    trim_deg: float
    trim_error_deg: float
    ride_height_change_mm: float | None
    trim_change_deg: float | None
    outcome: str
    place: list[str]
    first_change: str | None


class CardAnswer(TypedDict):
    """Answer of `card`."""

    format: str
    version: int
    boat: str
    boat_version: str
    form: str
    stage: str | None
    outcome: str
    sentence: str
    settings: list[ChosenSetting]
    reasons: list[str]
    runners_up: list[dict[str, Any]]
    grid: dict[str, dict[str, str | None]]
    swing_check: SwingAnswer
    take_off_speed_kn: float | None
    stripes_seen: StripesAnswer | None
    file: str | None


def as_json(answer: Mapping[str, Any]) -> str:
    """An answer as the one object that is printed; NaN is refused."""
    return json.dumps(answer, ensure_ascii=False, allow_nan=False, indent=2)


def shown_number(name: str, value: float) -> float:
    """A value in SI, in the unit of its word in the glossary, rounded."""
    return in_unit(value, quantity(name).shown)


def in_unit(value: float, unit: str) -> float:
    """A value in SI, in a unit, rounded to what a reader could use; minus nothing is nothing."""
    if not isfinite(value):
        raise ValueError(f"a number that is not one on its way into an answer, in {unit}")
    return round(from_si(value, unit) if unit else value, DECIMALS) + 0.0


def outcome_name(code: int) -> str:
    """The word for an outcome."""
    return OUTCOMES[code].name


def outcome_sentence(code: int, limit: str) -> str:
    """The sentence for an outcome, with what it is about."""
    if code == SOLVED:
        return ""
    about = f" This is about: {limit}." if limit else ""
    return f"{OUTCOMES[code].sentence}{about}"


# From SI ---------------------------------------------------------------------------------------------------


def settings_answer(settings: Mapping[str, float]) -> list[SettingAnswer]:
    """Every adjuster with its setting."""
    return [{"adjuster": name, "steps": float(steps)} for name, steps in settings.items()]


def swing_answer(swing: SwingCheck) -> SwingAnswer:
    """The swing check in millimetres."""
    return {
        "back_mm": in_unit(swing.back, "mm"),
        "forward_mm": in_unit(swing.forward, "mm"),
        "middle_mm": in_unit(swing.middle, "mm"),
        "wand_deg": shown_number("wand", swing.wand),
    }


def chain_row(point: ChainPoint) -> ChainRow:
    """One row of `chain`."""
    held = not point.locked
    transmission = point.transmission if held else None
    return {
        "wand_deg": shown_number("wand", point.wand),
        "foil_deg": shown_number("foil", point.foil) if held else None,
        "gearing": in_unit(point.gearing, "") if held else None,
        "transmission_deg": shown_number("transmission", transmission) if transmission is not None else None,
        "slop_deg": shown_number("slop", point.slop) if held else None,
        "stop": point.stop if held else "",
        "outcome": outcome_name(SOLVED if held else CHAIN_LOCKED),
    }


def has_state(steady: Steady) -> bool:
    """Whether a row carries a state: solved, or found beyond what the models are known for."""
    return steady.state != ""


def fly_row(steady: Steady) -> FlyRow:
    """One row of `fly`."""
    found = has_state(steady)

    def number(name: str, value: float) -> float | None:
        return shown_number(name, value) if found else None

    return {
        "boat_speed_kn": shown_number("boat_speed", steady.speed),
        "state": steady.state or None,
        "stable": bool(steady.stable) if found else None,
        "outcome": outcome_name(steady.outcome),
        "sentence": outcome_sentence(steady.outcome, steady.limit),
        "ride_height_m": number("ride_height", steady.height),
        "trim_deg": number("trim", steady.trim),
        "heel_deg": shown_number("heel", steady.heel),
        "wand_deg": number("wand", steady.wand),
        "wand_touching": bool(steady.wand_touching) if found else None,
        "foil_deg": number("foil", steady.foil),
        "main_lift_n": number("main_lift", steady.main_lift),
        "rudder_lift_n": number("rudder_lift", steady.rudder_lift),
        "buoyancy_n": number("buoyancy", steady.buoyancy),
        "drag_n": number("drag", steady.drag),
        "drag_by_part_n": {name: in_unit(value, "N") for name, value in steady.drag_by_part.items()},
        "margins": margins_answer(steady.margins),
        "nearest_limit": next((key for key, name in MARGINS.items() if name == steady.nearest), None),
    }


def margins_answer(margins: Mapping[str, float | None]) -> dict[str, float | None]:
    """The margins, always with all their keys."""
    answer: dict[str, float | None] = {}
    for key, name in MARGINS.items():
        value = margins.get(name)
        unit = "%" if name == "hiking" else quantity(name).shown
        answer[key] = None if value is None else in_unit(value, unit)
    return answer


def assumed_answer(assumed: Assumed, speed: float | None, change: float | None) -> AssumedAnswer:
    """One assumption; its change of ride height [m] from low to high at a speed [m/s], null for none."""
    return {
        "name": assumed.name,
        "value": round(assumed.value, DECIMALS),
        "low": round(assumed.low, DECIMALS),
        "high": round(assumed.high, DECIMALS),
        "unit": assumed.unit,
        "source": assumed.source,
        "boat_speed_kn": None if speed is None else shown_number("boat_speed", speed),
        "ride_height_change_mm": None if change is None else in_unit(change, "mm"),
        "outcome": outcome_name(NO_BALANCE if change is None else SOLVED),
    }


def stripes_answer(card: SetupCard) -> StripesAnswer | None:
    """What stripes seen say."""
    seen = card.seen
    if seen is None:
        return None
    there = seen.expected
    side, top = seen.place
    return {
        "boat_speed_kn": shown_number("boat_speed", seen.speed),
        "main_stripes": seen.main,
        "rudder_stripes": seen.rudder,
        "ride_height_m": shown_number("ride_height", seen.height),
        "ride_height_error_mm": in_unit(seen.height_error, "mm"),
        "trim_deg": shown_number("trim", seen.trim),
        "trim_error_deg": in_unit(seen.trim_error, "deg"),
        "ride_height_change_mm": None if there is None else in_unit(seen.height - there.height, "mm"),
        "trim_change_deg": None if there is None else in_unit(seen.trim - there.trim, "deg"),
        "outcome": outcome_name(NO_BALANCE if there is None else SOLVED),
        "place": [side, top],
        "first_change": card.grid[side][top],
    }


def card_answer(
    card: SetupCard,
    reasons: Sequence[str],
    runners_up: Sequence[dict[str, Any]],
    form: str,
    outcome: int,
    limit: str,
    file: str | None,
) -> CardAnswer:
    """Answer of `card`."""
    return {
        "format": "foilwright/card",
        "version": 1,
        "boat": card.boat,
        "boat_version": card.version,
        "form": form,
        "stage": card.stage,
        "outcome": outcome_name(outcome),
        "sentence": card.no_flight or outcome_sentence(outcome, limit),
        "settings": [
            {"adjuster": one.adjuster, "steps": float(one.steps), "change": float(one.change)}
            for one in card.settings
        ],
        "reasons": list(reasons),
        "runners_up": list(runners_up),
        "grid": {height: dict(row) for height, row in card.grid.items()},
        "swing_check": swing_answer(card.swing),
        "take_off_speed_kn": None if card.take_off is None else shown_number("take_off_speed", card.take_off),
        "stripes_seen": stripes_answer(card),
        "file": file,
    }
