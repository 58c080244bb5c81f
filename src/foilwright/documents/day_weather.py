"""The day's wind and water read off a day sheet: at 10 m and as a hand gauge would show it, and as facts."""

from math import hypot
from typing import NamedTuple

from foilwright.documents.day_checks import minutes_of
from foilwright.documents.day_limits import Facts
from foilwright.documents.day_record import DaySheet
from foilwright.documents.wind_told import HEIGHTS_M, told_wind
from foilwright.setup.day_wind import DayWind
from foilwright.units import from_si, to_si

ONE_IN_TEN = 1.2816  # standard errors that are exceeded once in ten
STEADY_SHARE = 0.15  # how far a measured wind is taken to wander either way, where the sheet does not say


class WindToday(NamedTuple):
    """The wind that the day is prepared for.

    at_ten     at 10 m [m/s], with the doubt of how it was measured in its spread
    by_hand    the same as a gauge held up at 2 m in a boat would read [m/s]
    how        forecast, hand gauge or mast;  height  where it was known [m]
    direction  where it comes from [deg], where it is known
    spread     whether low and high were given, or taken as 15 % either way
    """

    at_ten: DayWind
    by_hand: DayWind
    how: str
    height: float
    direction: float | None
    spread: bool


def wind_today(day: DaySheet) -> WindToday:
    """The measured wind where there is one, otherwise the forecast."""
    if day.measured is not None:
        m = day.measured
        height = HEIGHTS_M[m.how] if m.height_m is None else m.height_m
        spread = m.low_kn is not None or m.high_kn is not None
        low, high = (
            (m.wind_kn if end is None else end for end in (m.low_kn, m.high_kn))
            if spread
            else (m.wind_kn * (1.0 - STEADY_SHARE), m.wind_kn * (1.0 + STEADY_SHARE))
        )
        return _wind(low, m.wind_kn, high, m.gust_kn, m.how, height, m.direction_deg, spread)
    if day.forecast is None:
        raise ValueError("a day sheet without wind passed its checks")
    f = day.forecast
    height = HEIGHTS_M["forecast"]
    return _wind(f.low_kn, f.likely_kn, f.high_kn, f.gust_kn, "forecast", height, f.direction_deg, True)


def _wind(
    low: float,
    likely: float,
    high: float,
    gust: float | None,
    how: str,
    height: float,
    direction: float | None,
    spread: bool,
) -> WindToday:
    told = [
        None if one is None else told_wind(to_si(one, "kn"), how, height, where="[measured]")
        for one in (low, likely, high, gust)
    ]
    ten = [None if one is None else one.at_ten for one in told]
    hand = [None if one is None else one.at_hand for one in told]
    middle = told[1]
    assert middle is not None
    doubt = ONE_IN_TEN * middle.at_ten_se
    return WindToday(_wider(_day_wind(ten), doubt), _day_wind(hand), how, height, direction, spread)


def _wider(wind: DayWind, doubt: float) -> DayWind:
    """The wind with the doubt of its measurement [m/s] taken into both its ends."""
    low = wind.likely - hypot(wind.likely - wind.low, doubt)
    high = wind.likely + hypot(wind.high - wind.likely, doubt)
    return DayWind(max(low, 0.0), wind.likely, high, wind.gust)


def _day_wind(four: list[float | None]) -> DayWind:
    low, likely, high, gust = four
    assert low is not None and likely is not None and high is not None
    return DayWind(low, likely, high, gust)


def facts_of(day: DaySheet, wind: WindToday, boats_afloat: int) -> Facts:
    """What the day says about each kind of limit, in the unit of the kind; none where it says nothing."""
    low, likely, high = (from_si(one, "kn") for one in wind.at_ten[:3])
    gust = None if wind.at_ten.gust is None else from_si(wind.at_ten.gust, "kn")
    water, crews = day.water, day.safety_boats
    left = None if day.sunset is None else float(minutes_of(day.sunset) - minutes_of(day.last_ashore))
    return Facts(
        {
            "mean-wind-most": high,
            "mean-wind-least": low,
            "gust-most": gust,
            "gust-factor-most": None if gust is None or likely <= 0.0 else gust / likely,
            "wave-height-most": water.wave_height_cm,
            "water-temperature-least": water.temperature_c,
            "air-temperature-least": water.air_temperature_c,
            "depth-at-slip-least": water.depth_at_slip_m,
            "depth-in-area-least": water.depth_in_area_m,
            "boats-per-safety-boat-most": None if crews is None else _share(boats_afloat, crews),
            "daylight-left-least": left,
        }
    )


def _share(boats: int, crews: int) -> float:
    """Boats a safety boat; with none at all more than any limit allows, unless nobody sails."""
    return boats / crews if crews > 0 else 0.0 if boats == 0 else 1e9
