"""The answer of `day`: its shape. Nothing about anybody's body; reasons are in the coach's view."""

from typing import TypedDict

from foilwright.documents.answers import ChosenSetting


class DayRow(TypedDict):
    """Flight on one course of a wind column; null where it does not fly there."""

    wind_angle_deg: float
    outcome: str
    boat_speed_kn: float | None
    ride_height_m: float | None
    trim_deg: float | None
    heel_deg: float | None


class DayColumn(TypedDict):
    """One wind of a card: low, likely or high; no run to take-off where it will not take off in it."""

    name: str
    wind_kn: float
    wind_by_hand_kn: float
    take_off_run_s: float | None
    settings: list[ChosenSetting]
    rows: list[DayRow]


class DaySuggestion(TypedDict):
    """One of the suggestions, and what it gives up."""

    name: str
    settings: list[ChosenSetting]
    sentence: str
    gives_up: str
    flies_percent: float
    at_height_percent: float
    take_off_speed_kn: float | None
    chosen: bool


class DayCard(TypedDict):
    """One boat that is sailed."""

    boat: str
    boat_version: str
    sailors: list[str]
    stage: str
    by_hand: bool
    advice: str
    sentence: str
    better_percent: float | None
    settings: list[ChosenSetting]
    settings_words: list[str]
    first_change: str
    suggested: list[DaySuggestion]
    columns: list[DayColumn]
    file: str | None


class DayNotToday(TypedDict):
    """A sailor without a boat, and what would change it."""

    sailor: str
    sentence: str
    boat: str | None
    wind_change_kn: float | None


class DaySummary(TypedDict):
    """The day in short."""

    date: str
    place: str
    wind: list[str]
    water: str
    warned: list[str]
    absent: list[str]
    out_of_service: list[str]
    changed: list[str]


class DayTried(TypedDict):
    """How much was looked at."""

    prospects: int
    pairings: int
    how: str
    settings: int
    possible_settings: int


class DayAnswer(TypedDict):
    """Answer of `day`."""

    format: str
    version: int
    cards: list[DayCard]
    fleet_sheet: str
    pencil_slate: str
    coach: str
    not_today: list[DayNotToday]
    summary: DaySummary
    tried: DayTried


class DemoAnswer(TypedDict):
    """Answer of `demo`: that of `day`, and where the summary for people lies."""

    format: str
    version: int
    day: DayAnswer
    summary: str
