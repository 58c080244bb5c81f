"""What to expect in the day's low, likely and high wind, with the settings of a card."""

from collections.abc import Mapping, Sequence
from math import cos, degrees, inf
from typing import Any, NamedTuple

import numpy as np

from foilwright.documents.answers import ChosenSetting
from foilwright.documents.day_answer import DayColumn, DayRow
from foilwright.documents.day_weather import WindToday
from foilwright.documents.flight_view import STRIPE_EVERY, exposed, flight_view
from foilwright.documents.setup_card import Expected, WindColumn
from foilwright.flight.helm_policy import usual_helm
from foilwright.flight.many_in_wind import all_in_wind, scratch_in_wind
from foilwright.flight.sailing_in_wind import Sailed, sailed, sailing_case
from foilwright.flight.wind_margins import FLYING, STANDING
from foilwright.flight.wind_states import STABLE
from foilwright.jobs.aboard import row_with_crew
from foilwright.jobs.day_crews import Seat
from foilwright.measures import Floats
from foilwright.setup.flown_in_wind import BOLDNESS, COURSES, runs_of
from foilwright.units import from_si
from foilwright.water.properties import Water

NAMES = ("low", "likely", "high")
SHOWN_FIRST = (1, 2, 0)  # places in COURSES: across the wind, then off it, then close to it
LEAST_WIND = 0.5  # no wind is less for the search [m/s]


class InOneWindToday(NamedTuple):
    """One wind of the day. SI and radians.

    seconds  run to take-off on the quickest course; none where it gets up on no course
    states   the flying state on each of COURSES, none where it does not fly there
    """

    name: str
    wind: float
    by_hand: float
    seconds: float | None
    states: tuple[Sailed | None, ...]


def in_todays_winds(
    seat: Seat, settings: Mapping[str, float], wind: WindToday, water: Water, roughness: float
) -> list[InOneWindToday]:
    """The boat with these settings and crew in each of the day's three winds."""
    tables, row = seat.boat.boat.tables, row_with_crew(seat.boat.boat, settings, seat.crew)
    winds = [max(one, LEAST_WIND) for one in wind.at_ten[:3]]
    helms = [(one, angle, usual_helm(one, angle, BOLDNESS[seat.stage])) for one in winds for angle in COURSES]
    cases = np.array([(one, angle, *helm) for one, angle, helm in helms])
    found = all_in_wind(
        row, tables, water, roughness, np.zeros(0, dtype=np.int64), np.zeros((len(cases), 0)), cases
    )
    up, seconds = runs_of(found)
    work = scratch_in_wind()
    every: list[Sailed | None] = []
    for (one, angle, helm), states, count in zip(helms, found.states, found.counts, strict=True):
        best = fastest_flying(states[:count])
        case = sailing_case(row, tables, water, one, angle, helm, roughness)
        every.append(None if best is None else sailed(case, best, work))
    answers = []
    for i, name in enumerate(NAMES):
        here = slice(i * len(COURSES), (i + 1) * len(COURSES))
        run = float(np.where(up[here], seconds[here], inf).min())
        answers.append(
            InOneWindToday(
                name, wind.at_ten[i] or 0.0, wind.by_hand[i] or 0.0, None if run == inf else run,
                tuple(every[here]),
            )
        )  # fmt: skip
    return answers


def fastest_flying(states: Floats) -> Floats | None:
    """Of the states of one case the fastest that flies and is stable."""
    flying = [one for one in states if one[STABLE] > 0.0 and one[STANDING] == FLYING]
    return max(flying, key=lambda one: float(one[0]), default=None)


def answered_columns(columns: Sequence[InOneWindToday], settings: Sequence[ChosenSetting]) -> list[DayColumn]:
    """The columns as they are answered."""
    return [
        {
            "name": one.name,
            "wind_kn": round(from_si(one.wind, "kn"), 1),
            "wind_by_hand_kn": round(from_si(one.by_hand, "kn"), 1),
            "take_off_run_s": None if one.seconds is None else round(one.seconds, 1),
            "settings": list(settings),
            "rows": [_row(angle, state) for angle, state in zip(COURSES, one.states, strict=True)],
        }
        for one in columns
    ]


def _row(angle: float, state: Sailed | None) -> DayRow:
    if state is None:
        return {
            "wind_angle_deg": round(degrees(angle)), "outcome": "no balance in range",
            "boat_speed_kn": None, "ride_height_m": None, "trim_deg": None, "heel_deg": None,
        }  # fmt: skip
    return {
        "wind_angle_deg": round(degrees(angle)),
        "outcome": "solved",
        "boat_speed_kn": round(from_si(state.speed, "kn"), 1),
        "ride_height_m": round(state.height, 3),
        "trim_deg": round(degrees(state.trim), 1),
        "heel_deg": round(degrees(state.heel), 1),
    }


# For paper --------------------------------------------------------------------------------------------------


def paper_columns(
    seat: Seat, settings: Mapping[str, float], columns: Sequence[InOneWindToday]
) -> list[dict[str, Any]]:
    """The columns of the paper card, as they are kept: those of WindColumn, what is seen by its own name."""
    row = row_with_crew(seat.boat.boat, settings, seat.crew)
    return [_paper_column(seat, row, one) for one in columns]


def _paper_column(seat: Seat, row: Floats, one: InOneWindToday) -> dict[str, Any]:
    up = one.seconds is not None
    shown = next((one.states[k] for k in SHOWN_FIRST if one.states[k] is not None), None) if up else None
    seen = None
    if shown is not None:
        view = flight_view(seat.boat.boat, row, True, shown.height, shown.trim, shown.wand, shown.foil)
        lean = 1.0 / max(cos(shown.heel), 0.5)  # heel to either side shows more of a strut that leans
        seen = Expected(
            shown.speed, shown.state, shown.height, shown.trim, shown.wand, shown.wand_touching,
            lean * exposed(view, view.main) / STRIPE_EVERY, lean * exposed(view, view.rudder) / STRIPE_EVERY,
            shown.nearest,
        )._asdict()  # fmt: skip
    return {
        "name": one.name,
        "wind": one.wind,
        "by_hand": one.by_hand,
        "seconds": one.seconds,
        "speeds": [None if s is None or not up else s.speed for s in one.states],
        "seen": seen,
        "foil": 0.0 if shown is None else shown.foil,
        "heel": 0.0 if shown is None else shown.heel,
    }


def columns_from(kept: Sequence[Mapping[str, Any]]) -> tuple[WindColumn, ...]:
    """The columns of the paper card as they were kept."""
    return tuple(
        WindColumn(
            **{
                **one,
                "speeds": tuple(one["speeds"]),
                "seen": None if one["seen"] is None else Expected(**one["seen"]),
            }
        )
        for one in kept
    )
