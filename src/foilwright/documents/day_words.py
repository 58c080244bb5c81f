"""A day in words: its wind and water, limits exceeded or unknown, who has no boat, what would change it."""

from collections.abc import Sequence

from foilwright.documents import day_texts as texts
from foilwright.documents.day_limits import (
    EXCEEDED,
    KINDS,
    NOT_EXCEEDED,
    Entered,
    Facts,
    Standing,
    not_entered,
    standing_of,
)
from foilwright.documents.day_record import DaySheet
from foilwright.documents.day_weather import WindToday
from foilwright.setup.choose_in_wind import (
    CHANGE_NOTHING,
    MEASURE_FIRST,
    ChoiceInWind,
    Suggestion,
    sure_words,
)
from foilwright.setup.day_wind import DayWind
from foilwright.setup.pairing import NotToday
from foilwright.units import from_si, plain


def knots(speed: float) -> str:
    """A wind in whole knots, with its unit."""
    return f"{from_si(speed, 'kn'):.0f} kn"


def half_knots(speed: float) -> str:
    """A difference of wind in half knots, at least one half."""
    return f"{plain(max(round(2.0 * from_si(speed, 'kn')) / 2.0, 0.5))} kn"


def percent(share: float) -> str:
    """A share in percent."""
    return f"{100.0 * share:.0f} %"


def wind_lines(day: DaySheet, wind: WindToday) -> tuple[str, ...]:
    """The wind as it was told, and at 10 m and on a hand gauge: every figure beside the others."""
    f = day.forecast
    lines = []
    if f is not None:
        gust = texts.NO_GUST if f.gust_kn is None else texts.GUST.format(gust=f"{plain(f.gust_kn)} kn")
        lines.append(
            texts.FORECAST.format(
                low=plain(f.low_kn), high=f"{plain(f.high_kn)} kn", likely=f"{plain(f.likely_kn)} kn",
                gust=gust, direction=_from(f.direction_deg),
            )
        )  # fmt: skip
    m = day.measured
    if m is not None:
        gust = texts.NO_GUST if m.gust_kn is None else texts.GUST.format(gust=f"{plain(m.gust_kn)} kn")
        low, high = (m.wind_kn if end is None else end for end in (m.low_kn, m.high_kn))
        lines.append(
            texts.MEASURED.format(
                how=m.how, height=plain(wind.height), low=plain(low), high=f"{plain(high)} kn",
                likely=f"{plain(m.wind_kn)} kn", gust=gust, direction=_from(m.direction_deg),
            )
        )  # fmt: skip
        lines[-1] += "" if wind.spread else f" {texts.TAKEN_SPREAD}"
        lines.append(_range(texts.AT_TEN, wind.at_ten))
    if m is None or m.how != "hand gauge":
        lines.append(_range(texts.BY_HAND, wind.by_hand))
    return tuple(lines)


def _range(form: str, wind: DayWind) -> str:
    gust = "" if wind.gust is None else texts.GUST.format(gust=knots(wind.gust))
    low = f"{from_si(wind.low, 'kn'):.0f}"
    return form.format(low=low, high=knots(wind.high), likely=knots(wind.likely), gust=gust)


def _from(direction: float | None) -> str:
    return "" if direction is None else texts.FROM.format(direction=plain(direction))


def water_line(day: DaySheet) -> str:
    """Sea, depth and temperature; what was not told is UNKNOWN."""
    w = day.water

    def said(value: float | None, unit: str) -> str:
        return texts.UNKNOWN if value is None else f"{plain(value)} {unit}"

    salt = w.salinity_g_per_kg or 0.0
    return texts.WATER.format(
        sea=w.sea or texts.UNKNOWN,
        waves=said(w.wave_height_cm, "cm"),
        slip=said(w.depth_at_slip_m, "m"),
        area=said(w.depth_in_area_m, "m"),
        temperature=said(w.temperature_c, "°C"),
        salt=texts.FRESH if salt == 0.0 else texts.SALT.format(salinity=plain(salt)),
    )


def times_line(day: DaySheet) -> str:
    """First launch and last ashore."""
    return texts.TIMES.format(first=day.first_launch, last=day.last_ashore, zone=day.time_zone)


# Limits ----------------------------------------------------------------------------------------------------


def warned_lines(
    day: DaySheet, limits: Sequence[Entered], facts: Facts, boats_afloat: int
) -> tuple[str, ...]:
    """Every limit that is exceeded, unknown or not entered, and what is asked and not so: all alike."""
    lines = []
    for limit in limits:
        standing = standing_of(limit, facts)
        if standing.how != NOT_EXCEEDED:
            lines.append(limit_words(standing))
    if boats_afloat > 0 and day.safety_boats == 0:
        lines.append(texts.NO_SAFETY_BOAT)
    for asked in day.asked:
        if asked.met is None:
            lines.append(texts.ASKED_UNKNOWN.format(what=asked.what))
        elif not asked.met:
            lines.append(texts.ASKED_NOT.format(what=asked.what, by=asked.by or texts.UNKNOWN))
    missing = not_entered(tuple(limits))
    if missing:
        names = dict.fromkeys(f"{KINDS[what].words} ({texts.SIDES[KINDS[what].most]})" for what in missing)
        lines.append(texts.NOT_ENTERED.format(words="; ".join(names)))
    return tuple(lines)


def limit_words(standing: Standing) -> str:
    """One limit in words: exceeded, or unknown and what of it."""
    limit = standing.limit
    kind = KINDS[limit.what]
    common = {
        "words": kind.words,
        "side": texts.SIDES[kind.most],
        "where": limit_where(limit),
        "by": limit.by,
        "date": limit.date,
    }
    if limit.value is None:
        return texts.LIMIT_UNKNOWN.format(**common)
    value = _with_unit(limit.value, kind.unit)
    if standing.how == EXCEEDED and standing.today is not None:
        today = texts.NO_MANNED if standing.today > 1e6 else _with_unit(standing.today, kind.unit)
        return texts.EXCEEDED.format(**common, limit=value, today=today)
    return texts.TODAY_UNKNOWN.format(**common, limit=value, missing=standing.missing)


def bar_words(standing: Standing) -> str:
    """Why the centre's own limit keeps a stage out of a boat today."""
    limit = standing.limit
    kind = KINDS[limit.what]
    value = texts.UNKNOWN if limit.value is None else _with_unit(limit.value, kind.unit)
    today = texts.UNKNOWN if standing.today is None else _with_unit(standing.today, kind.unit)
    return texts.BAR_LIMIT.format(
        words=kind.words, side=texts.SIDES[kind.most], limit=value, where=limit_where(limit), today=today
    )


def limit_where(limit: Entered) -> str:
    """For which stage and boat a limit is meant."""
    stage = texts.OF_STAGE.format(stage=limit.stage) if limit.stage else ""
    return stage + (texts.OF_BOAT.format(boat=limit.boat) if limit.boat else "")


def _with_unit(value: float, unit: str) -> str:
    shown = {"C": " °C", "": ""}.get(unit, f" {unit}")
    return f"{plain(round(value, 1))}{shown}"


# Not today -------------------------------------------------------------------------------------------------


def not_today_words(one: NotToday, other: str, most: float) -> str:
    """Why a sailor has no boat, and the wind or boat that would change it; most: strongest wind looked at."""
    or_boat = texts.OR_BOAT.format(boat=other) if other and other != one.boat else ""
    if one.kind == "more wind":
        return texts.MORE_WIND.format(by=half_knots(one.by), boat=one.boat, other=or_boat)
    if one.kind == "less wind":
        return texts.LESS_WIND.format(by=half_knots(one.by), boat=one.boat, other=or_boat)
    if one.kind == "boat taken":
        return texts.BOAT_TAKEN.format(boat=one.boat)
    if one.kind == "other boat":
        return texts.OTHER_BOAT.format(most=knots(most))
    if one.kind == "barred":
        return texts.BARRED.format(words=one.words)
    return texts.NO_BOAT


# Choice ----------------------------------------------------------------------------------------------------


def advice_words(choice: ChoiceInWind, measure: str) -> str:
    """What is advised, and how sure that is, in words and numbers."""
    if choice.advice == CHANGE_NOTHING:
        return texts.ADVICE_NOTHING.format(share=percent(choice.present.safe))
    if choice.advice == MEASURE_FIRST:
        return texts.ADVICE_MEASURE.format(
            what=measure, gains=percent(choice.gains), better=percent(choice.better)
        )
    return texts.ADVICE_CHANGE.format(
        sure=sure_words(choice.better),
        better=percent(choice.better),
        before=percent(choice.present.safe),
        after=percent(max(one.seen.safe for one in choice.suggested)),
    )


def gives_up_words(one: Suggestion) -> str:
    """What a suggestion gives up to the others."""
    parts = []
    later = from_si(one.later, "kn")
    if later >= 0.1:
        parts.append(texts.GIVES_LATER.format(later=f"{later:.1f} kn"))
    if one.less >= 0.02:
        parts.append(texts.GIVES_LESS.format(less=percent(one.less)))
    if one.slower >= 0.005:
        parts.append(texts.GIVES_DRAG.format(drag=percent(one.slower)))
    return ", ".join(parts) or texts.GIVES_NOTHING
