"""The boats and crews of a day, loaded: who may sail what, and what one crew in one boat is worth today."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import combinations
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np

from foilwright.documents import day_texts as texts
from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ReadyBoat, ready
from foilwright.documents.day_checks import OUT
from foilwright.documents.day_limits import EXCEEDED, Entered, Facts, standing_of
from foilwright.documents.day_record import DayBoat, DaySailor, DaySheet
from foilwright.documents.day_words import bar_words, knots, percent
from foilwright.documents.sailor import Sailor, band_is_old, read_sailor, sailor_from_data, together
from foilwright.jobs.aboard import HEADS, row_with_crew
from foilwright.jobs.conditions import settings_from
from foilwright.mistakes import Mistake
from foilwright.setup.day_wind import DayWind
from foilwright.setup.flown_in_wind import BOLDNESS, WINDS, FlownInWind, Shares, flown_in_wind, shares
from foilwright.setup.goals import Goal, goal_for
from foilwright.setup.pairing import Prospect
from foilwright.setup.sailor_hand import USUAL_STAGE
from foilwright.water.properties import Water

FALLS_OFF = 0.15  # of the usual mass: this far outside the boat's own range a crew counts half
FAST_ENOUGH = 10.0  # mean boat speed that serves the aim of speed wholly [m/s]
UNHURRIED_RUN = 8.0  # a run to take-off that teaches it: not over before it is felt [s]


@dataclass(frozen=True)
class BoatToday:
    """A boat in use today, ready to fly, with its settings as found, its heads, sail and foil set."""

    record: DayBoat
    boat: ReadyBoat
    settings: Mapping[str, float]
    heads: int
    sail: str
    foil_set: str

    @property
    def name(self) -> str:
        """As in the day sheet."""
        return self.record.name


class Seat(NamedTuple):
    """One crew in one boat."""

    boat: BoatToday
    people: tuple[str, ...]
    crew: tuple[Sailor, ...]
    aims: tuple[str, ...]

    @property
    def stage(self) -> str:
        """That of the one aboard who has learned least."""
        return together(self.crew).stage or USUAL_STAGE


def boats_today(day: DaySheet, folder: Path, file: str) -> list[BoatToday]:
    """Every boat that is not out of service, read and made ready."""
    rigs = {rig.name: rig for rig in day.rigs}
    sets = {foils.name: foils for foils in day.foil_sets}
    found = []
    for record in day.boats:
        if record.state == OUT:
            continue
        where = f"{file}: boats.{record.name}"
        foils = sets[record.foil_set] if record.foil_set else None
        path = folder / (foils.file if foils is not None and foils.file else record.file)
        rig = rigs[record.rig] if record.rig else None
        instead = {"rig.sail_area_m2": rig.sail_area_m2} if rig and rig.sail_area_m2 is not None else None
        boat = ready(read_boat(path), instead, path.name)
        settings = settings_from(boat, {**boat.present, **record.found_at}, f"{where}.found_at")
        sail = (rig.sail or rig.name) if rig else f"{boat.numbers['rig.sail_area_m2']:g}"
        found.append(
            BoatToday(record, boat, settings, HEADS.get(boat.form, 1), sail, record.foil_set or "its own")
        )
    return found


def sailors_today(day: DaySheet, folder: Path, file: str) -> dict[str, Sailor]:
    """Everybody of the day who is not absent, by name."""
    return {one.name: _sailor(one, folder, file) for one in day.sailors if one.name not in day.absent}


def old_bands(day: DaySheet, sailors: Mapping[str, Sailor]) -> list[str]:
    """Who was weighed too long ago."""
    today = date.fromisoformat(day.date)
    return [name for name, sailor in sailors.items() if band_is_old(sailor, today)]


def _sailor(one: DaySailor, folder: Path, file: str) -> Sailor:
    where = f"{file}: sailors.{one.name}"
    if one.file is not None:
        sailor = read_sailor(folder / one.file)
    else:
        data = {"format": "foilwright/sailor", "version": 1, "mass_band_kg": one.mass_band_kg}
        sailor = sailor_from_data({**data, **({"build": one.build} if one.build else {})}, where)
    instead = {"name": one.name, "stage": one.stage or sailor.stage}
    return sailor.model_copy(update=instead)


def seats_of(day: DaySheet, boats: Sequence[BoatToday], sailors: Mapping[str, Sailor]) -> list[Seat]:
    """Every crew in every boat that the day sheet lets it have."""
    records = {one.name: one for one in day.sailors}
    found = []
    for boat in boats:
        may = [name for name in sailors if not records[name].boats or boat.name in records[name].boats]
        found += [seat_of(boat, people, sailors, records) for people in combinations(may, boat.heads)]
    return found


def seat_of(
    boat: BoatToday, people: Sequence[str], sailors: Mapping[str, Sailor], records: Mapping[str, DaySailor]
) -> Seat:
    """These people in this boat."""
    aims = tuple(records[name].aim or "" for name in people)
    return Seat(boat, tuple(people), tuple(sailors[name] for name in people), aims)


def seats_by_hand(
    day: DaySheet, boats: Sequence[BoatToday], sailors: Mapping[str, Sailor], file: str
) -> list[Seat]:
    """The pairings set by hand; a Mistake where the boat takes another number of people."""
    named = {boat.name: boat for boat in boats}
    records = {one.name: one for one in day.sailors}
    found = []
    for number, one in enumerate(day.hand_pairings, 1):
        boat = named[one.boat]
        if len(one.sailors) != boat.heads:
            raise Mistake(
                f"{file}: hand_pairings[{number}]",
                f"{len(one.sailors)} aboard {boat.name}",
                f"{boat.heads}, by the form of the boat ({boat.boat.form})",
                "Add or take out a name, or take another boat.",
            )
        found.append(seat_of(boat, one.sailors, sailors, records))
    return found


def goal_of(seat: Seat, wave_height: float) -> Goal:
    """What this crew wants in this boat over waves of a height [m]."""
    return goal_for(seat.stage, seat.boat.boat.form, wave_height)


# The table of one seat -------------------------------------------------------------------------------------


def table_parts(seat: Seat, settings: Mapping[str, float], temperature: float, salinity: float) -> list[Any]:
    """Everything that the table of a seat depends on; the day's wind is not among it."""
    return [
        seat.boat.boat.version,
        seat.boat.boat.numbers["rig.sail_area_m2"],
        dict(settings),
        [one.model_dump(mode="json", exclude={"name", "weighed"}) for one in seat.crew],
        seat.stage,
        temperature,
        salinity,
    ]


def table_of(seat: Seat, settings: Mapping[str, float], water: Water, roughness: float) -> dict[str, Any]:
    """The seat over the fixed table of winds and courses, ready to be kept."""
    row = row_with_crew(seat.boat.boat, settings, seat.crew)
    found = flown_in_wind(row, seat.boat.boat.tables, water, roughness, BOLDNESS[seat.stage])
    return {
        name: value if isinstance(value, int) else [[_none(x) for x in line] for line in value.tolist()]
        for name, value in found._asdict().items()
    }


def table_from(kept: Mapping[str, Any]) -> FlownInWind:
    """A table as it was kept."""
    tables = [np.array(kept[name], dtype=float) for name in FlownInWind._fields[:-1]]
    return FlownInWind._make([*tables, int(kept["lost"])])


def _none(value: float) -> float | None:
    return value if np.isfinite(value) else None


# Its worth today -------------------------------------------------------------------------------------------


def prospect_of(
    seat: Seat, table: FlownInWind, wind: DayWind, goal: Goal, limits: Sequence[Entered], facts: Facts
) -> Prospect:
    """What a seat is worth in today's wind, with reasons for the coach and what bars it."""
    found = shares(table, wind, goal.low, goal.high, goal.keep["tip_depth"])
    teaches = [serves(aim, found) for aim in seat.aims]
    return Prospect(
        people=seat.people,
        boat=seat.boat.name,
        flies=found.flies,
        in_band=found.in_band,
        safe=found.safe,
        teaches=sum(teaches) / len(teaches),
        take_off=found.take_off,
        most_wind=found.most_wind,
        bars=tuple(bars_of(seat, limits, facts)),
        reasons=tuple(reasons_of(seat, found, teaches)),
        suits=suits(seat),
    )


def suits(seat: Seat) -> float:
    """1 for a crew within the masses of the boat file, falling off outside them; our own choice."""
    numbers = seat.boat.boat.numbers
    aboard = sum(sailor.mass_kg for sailor in seat.crew)
    beyond = max(numbers["crew.least_mass_kg"] - aboard, aboard - numbers["crew.greatest_mass_kg"], 0.0)
    return 1.0 / (1.0 + (beyond / (FALLS_OFF * numbers["crew.usual_mass_kg"])) ** 2)


def serves(aim: str, found: Shares) -> float:
    """How well a day in a boat serves an aim, 0 to 1. Common practice, no source."""
    if aim == "taking-off":
        unhurried = 0.0 if found.seconds is None else min(found.seconds / UNHURRIED_RUN, 1.0)
        return found.flies * (0.5 + 0.5 * unhurried)
    if aim == "longer-flights":
        return found.safe
    if aim == "steady-height":
        return found.in_band
    if aim == "close-to-the-wind":
        return found.close
    if aim == "speed":
        return found.flies * min(found.speed / FAST_ENOUGH, 1.0)
    return found.flies


def bars_of(seat: Seat, limits: Sequence[Entered], facts: Facts) -> list[str]:
    """The centre's own limits for this stage or this boat that the day exceeds."""
    stages = {one.stage or USUAL_STAGE for one in seat.crew}
    mine = [
        limit
        for limit in limits
        if (limit.stage is not None or limit.boat is not None)
        and (limit.stage is None or limit.stage in stages)
        and (limit.boat is None or limit.boat == seat.boat.name)
    ]
    standings = [standing_of(limit, facts) for limit in mine]
    return [bar_words(one) for one in standings if one.how == EXCEEDED]


def reasons_of(seat: Seat, found: Shares, teaches: Sequence[float]) -> list[str]:
    """Why a seat is a good or a poor idea, in numbers: for the coach alone."""
    lines = [
        texts.FLIES.format(flies=percent(found.flies), band=percent(found.in_band), safe=percent(found.safe))
    ]
    if found.take_off is None:
        lines.append(texts.NEVER.format(most=knots(WINDS[-1])))
    elif found.seconds is None:
        lines.append(texts.TAKES_OFF_NOT_NOW.format(wind=knots(found.take_off)))
    else:
        lines.append(texts.TAKES_OFF.format(wind=knots(found.take_off), seconds=f"{found.seconds:.0f} s"))
    if found.most_wind is not None:
        lines.append(texts.KEEPS.format(wind=knots(found.most_wind)))
    if found.nearest and found.nearest_wind is not None:
        nearest = found.nearest.replace("_", " ")
        lines.append(texts.NEAREST.format(wind=knots(found.nearest_wind), nearest=nearest))
    if suits(seat) < 1.0:
        numbers = seat.boat.boat.numbers
        least, greatest = (f"{numbers[f'crew.{end}_mass_kg']:.0f}" for end in ("least", "greatest"))
        lines.append(texts.NOT_MEANT_FOR.format(least=least, greatest=greatest))
    for name, aim, share in zip(seat.people, seat.aims, teaches, strict=True):
        said = texts.SERVES.format(aim=aim, teaches=percent(share)) if aim else texts.NO_AIM
        lines.append(f"{name}: {said}")
    return lines
