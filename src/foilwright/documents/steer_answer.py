"""The answer of `steer`: how the boat answers its tiller over speed, and the elastic that steadies it."""

from collections.abc import Mapping, Sequence
from math import isfinite, radians
from typing import NamedTuple, TypedDict

from foilwright.documents.answers import (
    SettingAnswer,
    has_state,
    in_unit,
    outcome_name,
    outcome_sentence,
    settings_answer,
    shown_number,
)
from foilwright.documents.defaults import Assumed
from foilwright.flight.at_speed import Steady
from foilwright.flight.steering import Turn
from foilwright.flight.steering_elastic import MEANT_TURN, TACK, TillerElastic, TillerHand
from foilwright.outcomes import NO_BALANCE, SOLVED

TOO_HEAVY = (
    "No elastic does it: the water alone makes a meant turn too heavy, or pulls the tiller away. A longer "
    "tiller, or a blade whose steering axis lies nearer its quarter chord, changes that."
)
CANNOT_KEEP = (
    "An elastic that keeps {hand:.1f} N of hand inside {asked:.1f}° asks {meant:.0f} N for a turn of 5° and "
    "{tack:.0f} N at 20°, more than the {meant_most:.1f} N and {tack_most:.0f} N taken as heavy. "
    "What can be had is {kept:.1f}°: lighter hands do the rest."
)
NOT_NEEDED = "The water alone centres the tiller enough; no elastic is needed."
NO_SPEED = "No steady state at these speeds, so there is nothing to steady."


class SteerRow(TypedDict):
    """How one steady state answers the tiller, or why there is none. Changes are for one degree of tiller."""

    boat_speed_kn: float
    state: str | None
    stable: bool | None
    outcome: str
    sentence: str
    ride_height_m: float | None
    trim_deg: float | None
    heel_deg: float
    yaw_rate_deg_s_per_deg: float | None
    turn_radius_m: float | None
    side_acceleration_m_s2_per_deg: float | None
    roll_moment_n_m_per_deg: float | None
    crew_out_change_mm_per_deg: float | None
    heel_change_deg_per_deg: float | None
    yaw_rate_heeled_deg_s_per_deg: float | None
    leeway_change_deg_per_deg: float | None
    tiller_force_n_per_deg: float | None
    tiller_force_first_n_per_deg: float | None
    holds_course: bool | None
    settling_s: float | None


class ElasticTurn(TypedDict):
    """What it takes to hold a rudder angle."""

    rudder_deg: float
    tiller_travel_mm: float
    pull_n: float | None
    most_pull_n: float


class ElasticAnswer(TypedDict):
    """The tiller elastic: each of two, at the tiller's end."""

    outcome: str
    sentence: str
    stage: str
    hand_force_n: float
    keep_within_deg: float
    kept_within_deg: float | None
    as_asked: bool
    from_boat_speed_kn: float | None
    to_boat_speed_kn: float | None
    tiller_length_m: float
    axis_ahead_mm: float
    stiffness_n_per_m: float | None
    pretension_n: float | None
    stretch_mm: float | None
    least_pretension_n: float | None
    most_pretension_n: float | None
    turns: list[ElasticTurn]


class SteerAssumed(TypedDict):
    """A number of the tiller that the boat file did not give."""

    name: str
    value: float
    low: float
    high: float
    unit: str
    source: str


class SteerAnswer(TypedDict):
    """Answer of `steer`."""

    format: str
    version: int
    boat: str
    boat_version: str
    settings: list[SettingAnswer]
    rows: list[SteerRow]
    tiller_elastic: ElasticAnswer
    assumed: list[SteerAssumed]
    file: str | None


class Steered(NamedTuple):
    """A steady state and the turn from it; no turn where there is no state."""

    steady: Steady
    turn: Turn | None


class Tiller(NamedTuple):
    """The rudder's lever [m]."""

    length: float
    axis_ahead: float


class ElasticFound(NamedTuple):
    """The elastic and what it was asked for; None where no elastic does it. Speeds [m/s] it is for."""

    stage: str
    hand: TillerHand
    elastic: TillerElastic | None
    slowest: float | None
    fastest: float | None


def at_tiller(blade_force: float, tiller: Tiller) -> float:
    """Force at the tiller's end, back to amidships positive [N], of a force to leeward on a blade [N].

    For a rudder angle to leeward, whose force is to windward where the water centres the blade.
    """
    return -blade_force * tiller.axis_ahead / tiller.length


def steer_row(steered: Steered, tiller: Tiller) -> SteerRow:
    """One row of `steer`."""
    steady, turn = steered
    found = has_state(steady)
    outcome = steady.outcome if turn is not None or steady.outcome != SOLVED else NO_BALANCE

    def number(value: float | None, unit: str) -> float | None:
        return None if turn is None or value is None or not isfinite(value) else in_unit(value, unit)

    row: SteerRow = {
        "boat_speed_kn": shown_number("boat_speed", steady.speed),
        "state": steady.state or None,
        "stable": bool(steady.stable) if found else None,
        "outcome": outcome_name(outcome),
        "sentence": outcome_sentence(outcome, steady.limit or ("" if turn else "the turn")),
        "ride_height_m": shown_number("ride_height", steady.height) if found else None,
        "trim_deg": shown_number("trim", steady.trim) if found else None,
        "heel_deg": shown_number("heel", steady.heel),
        "yaw_rate_deg_s_per_deg": None,
        "turn_radius_m": None,
        "side_acceleration_m_s2_per_deg": None,
        "roll_moment_n_m_per_deg": None,
        "crew_out_change_mm_per_deg": None,
        "heel_change_deg_per_deg": None,
        "yaw_rate_heeled_deg_s_per_deg": None,
        "leeway_change_deg_per_deg": None,
        "tiller_force_n_per_deg": None,
        "tiller_force_first_n_per_deg": None,
        "holds_course": None,
        "settling_s": None,
    }
    if turn is not None:
        row["yaw_rate_deg_s_per_deg"] = number(turn.yaw_rate, "deg/s per deg")
        radius = abs(steady.speed / turn.yaw_rate) if turn.yaw_rate else None  # of a turn with a radian
        row["turn_radius_m"] = None if radius is None else number(radius / radians(1.0), "m")
        row["side_acceleration_m_s2_per_deg"] = number(turn.side_acceleration, "m/s2 per deg")
        row["roll_moment_n_m_per_deg"] = number(turn.roll_moment, "N m per deg")
        row["crew_out_change_mm_per_deg"] = number(turn.crew_out, "mm per deg")
        row["heel_change_deg_per_deg"] = number(turn.heel, "deg per deg")
        row["yaw_rate_heeled_deg_s_per_deg"] = number(turn.yaw_rate_heeled, "deg/s per deg")
        row["leeway_change_deg_per_deg"] = number(turn.leeway, "deg per deg")
        row["tiller_force_n_per_deg"] = number(at_tiller(turn.blade_force, tiller), "N per deg")
        row["tiller_force_first_n_per_deg"] = number(at_tiller(turn.blade_force_first, tiller), "N per deg")
        row["holds_course"] = turn.holds_course
        row["settling_s"] = number(turn.settling, "s")
    return row


def elastic_answer(found: ElasticFound, tiller: Tiller) -> ElasticAnswer:
    """The tiller elastic in the units that people read."""
    hand, elastic = found.hand, found.elastic
    sentence = ""
    if elastic is None:
        sentence = NO_SPEED if found.slowest is None else TOO_HEAVY
    elif not elastic.as_asked:
        sentence = CANNOT_KEEP.format(
            hand=hand.stray,
            asked=in_unit(hand.keep_within, "deg"),
            meant=elastic.asked_meant_force,
            tack=elastic.asked_tack_force,
            meant_most=hand.meant_most,
            tack_most=hand.tack_most,
            kept=in_unit(elastic.within, "deg"),
        )
    elif elastic.stiffness <= 0.0:
        sentence = NOT_NEEDED
    stretch = None
    if elastic is not None and elastic.stiffness > 0.0:
        stretch = in_unit(elastic.pretension / elastic.stiffness, "mm")
    return {
        "outcome": outcome_name(SOLVED if elastic is not None and elastic.as_asked else NO_BALANCE),
        "sentence": sentence,
        "stage": found.stage,
        "hand_force_n": in_unit(hand.stray, "N"),
        "keep_within_deg": in_unit(hand.keep_within, "deg"),
        "kept_within_deg": None if elastic is None else in_unit(elastic.within, "deg"),
        "as_asked": elastic is not None and elastic.as_asked,
        "from_boat_speed_kn": None if found.slowest is None else shown_number("boat_speed", found.slowest),
        "to_boat_speed_kn": None if found.fastest is None else shown_number("boat_speed", found.fastest),
        "tiller_length_m": in_unit(tiller.length, "m"),
        "axis_ahead_mm": in_unit(tiller.axis_ahead, "mm"),
        "stiffness_n_per_m": None if elastic is None else in_unit(elastic.stiffness, "N/m"),
        "pretension_n": None if elastic is None else in_unit(elastic.pretension, "N"),
        "stretch_mm": stretch,
        "least_pretension_n": None if elastic is None else in_unit(elastic.least_pretension, "N"),
        "most_pretension_n": None if elastic is None else in_unit(elastic.most_pretension, "N"),
        "turns": [
            {
                "rudder_deg": in_unit(angle, "deg"),
                "tiller_travel_mm": in_unit(angle * tiller.length, "mm"),
                "pull_n": None if force is None else in_unit(force, "N"),
                "most_pull_n": in_unit(most, "N"),
            }
            for angle, force, most in (
                (MEANT_TURN, elastic.meant_force if elastic else None, hand.meant_most),
                (TACK, elastic.tack_force if elastic else None, hand.tack_most),
            )
        ],
    }


def steer_answer(
    boat: str,
    version: str,
    settings: Mapping[str, float],
    rows: Sequence[Steered],
    tiller: Tiller,
    elastic: ElasticFound,
    assumed: Sequence[Assumed],
    file: str | None,
) -> SteerAnswer:
    """Answer of `steer`."""
    return {
        "format": "foilwright/steer",
        "version": 1,
        "boat": boat,
        "boat_version": version,
        "settings": settings_answer(settings),
        "rows": [steer_row(row, tiller) for row in rows],
        "tiller_elastic": elastic_answer(elastic, tiller),
        "assumed": [
            {
                "name": one.name,
                "value": in_unit(one.value, ""),
                "low": in_unit(one.low, ""),
                "high": in_unit(one.high, ""),
                "unit": one.unit,
                "source": one.source,
            }
            for one in assumed
        ],
        "file": file,
    }
