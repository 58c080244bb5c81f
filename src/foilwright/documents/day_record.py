"""The day sheet as a record: place and times, wind and water, sailors, boats, and what people decided.

What was not told stays untold: nothing here fills a gap, since a gap is shown as loudly as a limit exceeded.
"""

from typing import Literal

from pydantic import Field

from foilwright.documents.day_limits import What
from foilwright.documents.measured import Part, told
from foilwright.documents.sailor import Build, Stage
from foilwright.documents.wind_told import How

FORMAT = "foilwright/day"
VERSION = 1

Sea = Literal["flat", "ripples", "knee-high chop"]
State = Literal["in use", "in use with a note", "out of service"]
Aim = Literal["taking-off", "longer-flights", "steady-height", "close-to-the-wind", "speed"]


def between(meaning: str, low: float, high: float, default: float | None = None) -> float | None:
    """A number that may be left out, with its credible range."""
    field: float | None = Field(default, description=meaning, ge=low, le=high)
    return field


def needed(meaning: str, low: float, high: float) -> float:
    """A number that must be given, with its credible range."""
    field: float = Field(..., description=meaning, ge=low, le=high)
    return field


def written(meaning: str) -> str:
    """A name that must be given."""
    field: str = Field(..., description=meaning, min_length=1, max_length=60)
    return field


class Forecast(Part):
    """The wind as forecast at 10 m, with its spread."""

    low_kn: float = needed("wind likely to be exceeded nine times in ten", 0.0, 60.0)
    likely_kn: float = needed("as likely more as less", 0.0, 60.0)
    high_kn: float = needed("exceeded one time in ten", 0.0, 60.0)
    gust_kn: float | None = between("strongest gusts", 0.0, 90.0)
    direction_deg: float | None = between("where it comes from, clockwise from north", 0.0, 360.0)
    issued: str | None = told("when and by whom it was issued", None)


class Measured(Part):
    """The wind as measured on the day; where it is given it is used in place of the forecast."""

    wind_kn: float = needed("mean over some minutes, as read", 0.0, 60.0)
    gust_kn: float | None = between("strongest gust, as read", 0.0, 90.0)
    how: How = told("how it was measured: hand gauge, mast or forecast")
    height_m: float | None = between("height of the gauge above the water", 0.5, 30.0)
    low_kn: float | None = between("how light it is expected to get, as the gauge would read", 0.0, 60.0)
    high_kn: float | None = between("how strong it is expected to get, as the gauge would read", 0.0, 60.0)
    direction_deg: float | None = between("where it comes from, clockwise from north", 0.0, 360.0)
    at: str | None = told("when, HH:MM", None)


class WaterToday(Part):
    """Sea state, depths and temperature of the water."""

    sea: Sea | None = told("in words: flat, ripples or knee-high chop", None)
    wave_height_cm: float | None = between("from trough to crest", 0.0, 200.0)
    depth_at_slip_m: float | None = between("least depth where boats are launched", 0.0, 50.0)
    depth_in_area_m: float | None = between("least depth of the sailing area while it is used", 0.0, 200.0)
    temperature_c: float | None = between("of the water", -2.0, 40.0)
    air_temperature_c: float | None = between("of the air", -20.0, 50.0)
    salinity_g_per_kg: float | None = between("0 fresh, about 35 the sea; 0 if left out", 0.0, 42.0)


class DaySailor(Part):
    """One sailor of the day: a file, or the few things that are needed."""

    name: str = written("a first name or nickname, as on the fleet sheet")
    file: str | None = told("a sailor file, beside the day sheet", None)
    mass_band_kg: list[float] | None = told("lightest and heaviest, in wet kit, where there is no file", None)
    build: Build | None = told("short, middle or tall, where there is no file", None)
    stage: Stage | None = told("stage of learning; that of the file if left out", None)
    aim: Aim | None = told("what today is for", None)
    boats: list[str] = told("boats that this sailor may be given; every boat if left out", [])


class DayBoat(Part):
    """One boat of the day and its state."""

    name: str = written("of the boat, as on the fleet sheet")
    file: str = written("its boat file, beside the day sheet")
    state: State = told("in use, in use with a note, out of service", "in use")
    note: str | None = told("what the note says, or why it is out of service", None)
    by: str | None = told("who put it out of service, and may release it", None)
    rig: str | None = told("the rig it sails with today", None)
    foil_set: str | None = told("the foil set it sails with today", None)
    found_at: dict[str, float] = Field(
        default_factory=dict,
        description="where its adjusters stand, in steps from the mark; as in its file if left out",
    )


class Rig(Part):
    """A rig of the pool."""

    name: str = written("of the rig")
    sail: str | None = told("its sail, as written on the fleet sheet", None)
    sail_area_m2: float | None = between("area of the sail, where it is not that of the boat file", 0.5, 40.0)
    state: State = told("in use, in use with a note, out of service", "in use")


class FoilSet(Part):
    """A foil set of the pool."""

    name: str = written("of the foil set")
    file: str | None = told("the boat file as measured with this set, where it is not the boat's own", None)
    state: State = told("in use, in use with a note, out of service", "in use")


class Limit(Part):
    """One limit of the centre: entered by a named person on a date. A value left blank is unknown."""

    what: What = told("what is limited")
    value: str | None = told("number with its unit; blank where nobody has decided", None)
    stage: Stage | None = told("for this stage of learning only", None)
    boat: str | None = told("for this boat only", None)
    by: str = written("who entered it")
    date: str = written("when it was entered, YYYY-MM-DD")


class Asked(Part):
    """Something that the centre asks to be so before anybody launches."""

    what: str = written("what must be so, in the centre's own words")
    met: bool | None = told("whether it is so; blank where nobody has looked", None)
    by: str | None = told("who looked", None)


class HandPairing(Part):
    """A pairing set by hand: it stands, whatever is computed."""

    sailors: list[str] = told("who sails")
    boat: str = written("in which boat")
    why: str = written("the reason, kept with the day")
    by: str = written("who decided it")


class DaySheet(Part):
    """A day sheet."""

    format: Literal["foilwright/day"] = told('always "foilwright/day"')
    version: Literal[1] = told("of the format: 1")
    date: str = written("the day, YYYY-MM-DD")
    place: str = written("where")
    time_zone: str = written("UTC+HH:MM, or a name such as those of the time-zone tables")
    first_launch: str = written("HH:MM")
    last_ashore: str = written("HH:MM")
    sunset: str | None = told("HH:MM", None)
    safety_boats: int | None = Field(None, description="manned safety boats on the water", ge=0, le=50)
    seed: int = Field(1, description="where chance is drawn from: same sheet, same answer", ge=0, le=10**9)
    notes: str | None = told("anything worth knowing", None)
    forecast: Forecast | None = told("the wind as forecast", None)
    measured: Measured | None = told("the wind as measured", None)
    water: WaterToday = told("the water", WaterToday())
    sailors: list[DaySailor] = told("who comes")
    boats: list[DayBoat] = told("what there is to sail")
    rigs: list[Rig] = told("rigs of the pool", [])
    foil_sets: list[FoilSet] = told("foil sets of the pool", [])
    limits: list[Limit] = told("the centre's own limits", [])
    asked: list[Asked] = told("what the centre asks to be so", [])
    absent: list[str] = told("sailors who are not there after all", [])
    hand_pairings: list[HandPairing] = told("pairings set by hand", [])
