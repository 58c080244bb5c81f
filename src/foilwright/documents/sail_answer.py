"""The answer of `sail`: every steady state in a wind, the wind that is needed, and the best angles."""

from collections.abc import Mapping, Sequence
from math import degrees
from typing import TypedDict

from foilwright.documents.answers import (
    MARGINS,
    SettingAnswer,
    in_unit,
    margins_answer,
    outcome_name,
    outcome_sentence,
    settings_answer,
    shown_number,
)
from foilwright.documents.wind_told import ToldWind
from foilwright.flight.sailing_in_wind import Sailed
from foilwright.flight.take_off_wind import WindNeeded
from foilwright.outcomes import NO_BALANCE, SOLVED

NOT_SAILED = "No steady state in this wind at this angle."


class SailRow(TypedDict):
    """One steady state in a wind, or why there is none."""

    wind_kn: float
    wind_angle_deg: float
    boat_speed_kn: float | None
    state: str | None
    stable: bool | None
    outcome: str
    sentence: str
    ride_height_m: float | None
    trim_deg: float | None
    heel_deg: float | None
    leeway_deg: float | None
    rudder_deg: float | None
    power: float | None
    hiking_percent: float | None
    made_good_kn: float | None
    wand_deg: float | None
    wand_touching: bool | None
    foil_deg: float | None
    drag_n: float | None
    drag_by_part_n: dict[str, float]
    margins: dict[str, float | None]
    nearest_limit: str | None


class NeededAnswer(TypedDict):
    """The least wind that does, over the angles looked at, and at each of them; null where none does."""

    least: float | None
    at_wind_angle_deg: float | None
    by_wind_angle_deg: dict[str, float | None]
    outcome: str


class RunAnswer(TypedDict):
    """The run from rest at one true wind angle."""

    wind_angle_deg: float
    take_off_speed_kn: float | None
    run_s: float | None
    outcome: str


class BestAnswer(TypedDict):
    """The state that makes most good straight to or from the wind."""

    wind_angle_deg: float | None
    boat_speed_kn: float | None
    made_good_kn: float | None
    state: str | None
    outcome: str


class SailAnswer(TypedDict):
    """Answer of `sail`."""

    format: str
    version: int
    boat: str
    boat_version: str
    settings: list[SettingAnswer]
    wind_kn: float
    hand_gauge_kn: float
    rows: list[SailRow]
    take_off_wind_kn: NeededAnswer
    keeps_flying_wind_kn: NeededAnswer
    runs: list[RunAnswer]
    best_upwind: BestAnswer
    best_downwind: BestAnswer


def sail_row(one: Sailed) -> SailRow:
    """One row of `sail`."""
    found = one.state != ""

    def number(name: str, value: float) -> float | None:
        return shown_number(name, value) if found else None

    sentence = outcome_sentence(one.outcome, one.limit)
    if one.outcome == NO_BALANCE:
        sentence = f"{NOT_SAILED} This is about {one.limit}."
    return {
        "wind_kn": shown_number("wind", one.wind),
        "wind_angle_deg": shown_number("wind_angle", one.angle),
        "boat_speed_kn": number("boat_speed", one.speed),
        "state": one.state or None,
        "stable": one.stable if found else None,
        "outcome": outcome_name(one.outcome),
        "sentence": sentence,
        "ride_height_m": number("ride_height", one.height),
        "trim_deg": number("trim", one.trim),
        "heel_deg": number("heel", one.heel),
        "leeway_deg": number("leeway", one.leeway),
        "rudder_deg": number("rudder", one.rudder),
        "power": number("power", one.power),
        "hiking_percent": in_unit(min(max(one.out_share, 0.0), 1.0), "%") if found else None,
        "made_good_kn": number("made_good", one.made_good),
        "wand_deg": number("wand", one.wand),
        "wand_touching": one.wand_touching if found else None,
        "foil_deg": number("foil", one.foil),
        "drag_n": number("drag", one.drag),
        "drag_by_part_n": {name: in_unit(value, "N") for name, value in one.drag_by_part.items()},
        "margins": margins_answer(one.margins),
        "nearest_limit": next((key for key, name in MARGINS.items() if name == one.nearest), None),
    }


def needed_answer(winds: Sequence[tuple[float, float | None]]) -> NeededAnswer:
    """Winds [m/s] by true wind angle [rad]."""
    known = [(wind, angle) for angle, wind in winds if wind is not None]
    least = min(known, default=None)
    return {
        "least": None if least is None else shown_number("take_off_wind", least[0]),
        "at_wind_angle_deg": None if least is None else shown_number("wind_angle", least[1]),
        "by_wind_angle_deg": {
            f"{degrees(angle):g}": None if wind is None else shown_number("take_off_wind", wind)
            for angle, wind in winds
        },
        "outcome": outcome_name(NO_BALANCE if least is None else SOLVED),
    }


def run_answer(needed: WindNeeded) -> RunAnswer:
    """The run at one angle, in a wind one knot above the take-off wind."""
    speed, seconds = needed.take_off_speed, needed.seconds
    return {
        "wind_angle_deg": shown_number("wind_angle", needed.angle),
        "take_off_speed_kn": None if speed is None else shown_number("take_off_speed", speed),
        "run_s": None if seconds is None else shown_number("run", seconds),
        "outcome": outcome_name(NO_BALANCE if speed is None or seconds is None else SOLVED),
    }


def best_answer(best: Sailed | None) -> BestAnswer:
    """The best state one way."""
    if best is None:
        return {
            "wind_angle_deg": None,
            "boat_speed_kn": None,
            "made_good_kn": None,
            "state": None,
            "outcome": outcome_name(NO_BALANCE),
        }
    return {
        "wind_angle_deg": shown_number("wind_angle", best.angle),
        "boat_speed_kn": shown_number("boat_speed", best.speed),
        "made_good_kn": shown_number("made_good", best.made_good),
        "state": best.state,
        "outcome": outcome_name(best.outcome),
    }


def sail_answer(
    boat: str,
    version: str,
    settings: Mapping[str, float],
    wind: ToldWind,
    rows: Sequence[Sailed],
    needed: Sequence[WindNeeded],
    upwind: Sailed | None,
    downwind: Sailed | None,
) -> SailAnswer:
    """Answer of `sail`."""
    return {
        "format": "foilwright/sail",
        "version": 1,
        "boat": boat,
        "boat_version": version,
        "settings": settings_answer(settings),
        "wind_kn": shown_number("wind", wind.at_ten),
        "hand_gauge_kn": shown_number("wind", wind.at_hand),
        "rows": [sail_row(row) for row in rows],
        "take_off_wind_kn": needed_answer([(one.angle, one.take_off_wind) for one in needed]),
        "keeps_flying_wind_kn": needed_answer([(one.angle, one.keeps_flying_wind) for one in needed]),
        "runs": [run_answer(one) for one in needed],
        "best_upwind": best_answer(upwind),
        "best_downwind": best_answer(downwind),
    }
