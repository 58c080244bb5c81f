"""The answers of `effects` and `same-as`: their shapes, and the way from SI to them."""

from collections.abc import Mapping, Sequence
from typing import TypedDict

from foilwright.documents.answers import (
    SettingAnswer,
    in_unit,
    outcome_name,
    outcome_sentence,
    settings_answer,
    shown_number,
)
from foilwright.outcomes import SOLVED
from foilwright.setup.effects import Change, Effect
from foilwright.setup.same_as import SameAs
from foilwright.setup.take_off_change import TakeOffChange


class ChangeAnswer(TypedDict):
    """What a change does; all null where there is no state after it."""

    ride_height_change_mm: float | None
    trim_change_deg: float | None
    drag_change_n: float | None
    rudder_lift_change_n: float | None


class StepAnswer(TypedDict):
    """What one step either way does, solved again."""

    ride_height_change_mm: float | None
    trim_change_deg: float | None
    drag_change_n: float | None
    rudder_lift_change_n: float | None
    take_off_speed_change_kn: float | None


class EffectRow(TypedDict):
    """What one step of one thing does at one speed: by the derivative, and both ways by solving again."""

    boat_speed_kn: float
    adjuster: str
    outcome: str
    ride_height_change_mm: float | None
    trim_change_deg: float | None
    drag_change_n: float | None
    rudder_lift_change_n: float | None
    take_off_speed_change_kn: float | None
    linear: bool | None
    stop_met: str | None
    one_more: StepAnswer
    one_less: StepAnswer


class EffectsAnswer(TypedDict):
    """Answer of `effects`."""

    format: str
    version: int
    boat: str
    boat_version: str
    settings: list[SettingAnswer]
    take_off_speed_kn: float | None
    rows: list[EffectRow]


class OneOfTwo(TypedDict):
    """One side of `same-as`."""

    boat: str
    boat_version: str
    adjuster: str
    settings: list[SettingAnswer]


class SameAsAnswer(TypedDict):
    """Answer of `same-as`: so many steps of the second do what one step of the first does."""

    format: str
    version: int
    boat_speed_kn: float
    first: OneOfTwo
    second: OneOfTwo
    outcome: str
    sentence: str
    steps: float | None
    within_range: bool | None
    ride_height_change_mm: float | None
    trim_change_deg: float | None
    left_over: ChangeAnswer


def change_answer(change: Change | None) -> ChangeAnswer:
    """A change in the units that people read."""
    if change is None:
        return {
            "ride_height_change_mm": None,
            "trim_change_deg": None,
            "drag_change_n": None,
            "rudder_lift_change_n": None,
        }
    return {
        "ride_height_change_mm": in_unit(change.height, "mm"),
        "trim_change_deg": in_unit(change.trim, "deg"),
        "drag_change_n": in_unit(change.drag, "N"),
        "rudder_lift_change_n": in_unit(change.rudder_lift, "N"),
    }


def step_answer(change: Change | None, take_off: float | None) -> StepAnswer:
    """A step with what it does to the take-off speed [m/s]."""
    speed = None if take_off is None else in_unit(take_off, "kn")
    return {**change_answer(change), "take_off_speed_change_kn": speed}


def effect_row(effect: Effect, take_off: TakeOffChange) -> EffectRow:
    """One row of `effects`."""
    return {
        "boat_speed_kn": shown_number("boat_speed", effect.speed),
        "adjuster": effect.adjuster,
        "outcome": outcome_name(effect.outcome),
        **step_answer(effect.slope, take_off.slope),
        "linear": effect.linear,
        "stop_met": effect.stop_met or None,
        "one_more": step_answer(effect.more, take_off.more),
        "one_less": step_answer(effect.less, take_off.less),
    }


def effects_answer(
    boat: str,
    version: str,
    settings: Mapping[str, float],
    table: Sequence[Effect],
    take_off: float | None,
    take_off_changes: Mapping[str, TakeOffChange],
) -> EffectsAnswer:
    """Answer of `effects`; the take-off speed [m/s] is that of the boat as it stands."""
    return {
        "format": "foilwright/effects",
        "version": 1,
        "boat": boat,
        "boat_version": version,
        "settings": settings_answer(settings),
        "take_off_speed_kn": None if take_off is None else shown_number("take_off_speed", take_off),
        "rows": [effect_row(effect, take_off_changes[effect.adjuster]) for effect in table],
    }


def one_of_two(boat: str, version: str, adjuster: str, settings: Mapping[str, float]) -> OneOfTwo:
    """One side of `same-as`."""
    return {
        "boat": boat,
        "boat_version": version,
        "adjuster": adjuster,
        "settings": settings_answer(settings),
    }


def same_as_answer(speed: float, first: OneOfTwo, second: OneOfTwo, found: SameAs) -> SameAsAnswer:
    """Answer of `same-as` at a boat speed [m/s]."""
    change = change_answer(found.change)
    return {
        "format": "foilwright/same-as",
        "version": 1,
        "boat_speed_kn": shown_number("boat_speed", speed),
        "first": first,
        "second": second,
        "outcome": outcome_name(found.outcome),
        "sentence": "" if found.outcome == SOLVED else outcome_sentence(found.outcome, found.limit),
        "steps": None if found.steps is None else in_unit(found.steps, ""),
        "within_range": found.within_range,
        "ride_height_change_mm": change["ride_height_change_mm"],
        "trim_change_deg": change["trim_change_deg"],
        "left_over": change_answer(found.left_over),
    }
