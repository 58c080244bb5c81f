"""What in a day sheet contradicts itself: each a sentence that says how to mend it."""

from collections.abc import Iterator, Sequence
from datetime import date as a_date
from datetime import time as a_time
from difflib import get_close_matches

from foilwright.documents.day_limits import KINDS, Entered
from foilwright.documents.day_record import DayBoat, DaySheet, FoilSet, Limit, Rig
from foilwright.mistakes import Mistake
from foilwright.units import from_si, parsed, plain

OUT = "out of service"


def contradictions(day: DaySheet, file: str) -> list[Mistake]:
    """Everything that cannot be so, in the order of the sheet."""
    return [
        *_times(day, file),
        *_winds(day, file),
        *_twice("sailors", [sailor.name for sailor in day.sailors], file),
        *_twice("boats", [boat.name for boat in day.boats], file),
        *_twice("rigs", [rig.name for rig in day.rigs], file),
        *_twice("foil_sets", [foils.name for foils in day.foil_sets], file),
        *_people(day, file),
        *_boats(day, file),
        *_limits(day, file),
        *_hand_pairings(day, file),
    ]


def zone_of(text: str, where: str) -> str:
    """A time zone, if it is one."""
    from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

    sign = text.removeprefix("UTC")
    if text == "UTC" or (
        text != sign and sign[0] in "+-" and _is_time(sign[1:]) and int(sign[1:].split(":")[0]) <= 14
    ):
        return text
    try:
        ZoneInfo(text)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise Mistake(
            where, f'"{text}"', "UTC+HH:MM, or a name of the time-zone tables", "Write for example UTC+02:00."
        ) from None
    return text


def entered(limit: Limit, where: str) -> Entered:
    """A limit with its number read; none where it was left blank."""
    kind = KINDS[limit.what]
    value = None
    words = (limit.value or "").strip()
    if words:
        if kind.unit:
            value = from_si(parsed(words, kind.unit, where), kind.unit)
        else:
            try:
                value = float(words)
            except ValueError:
                raise Mistake(where, f'"{words}"', "a number", 'Write for example "1.5".') from None
    return Entered(limit.what, value, limit.stage, limit.boat, limit.by, limit.date)


def minutes_of(text: str) -> int:
    """Minutes after midnight of HH:MM."""
    hours, minutes = text.split(":")
    return 60 * int(hours) + int(minutes)


def _is_time(text: str) -> bool:
    try:
        a_time.fromisoformat(text)
    except ValueError:
        return False
    return len(text) == 5


def _is_date(text: str) -> bool:
    try:
        a_date.fromisoformat(text)
    except ValueError:
        return False
    return len(text) == 10


def _times(day: DaySheet, file: str) -> Iterator[Mistake]:
    if not _is_date(day.date):
        yield Mistake(
            f"{file}: date", f'"{day.date}"', "YYYY-MM-DD", "Write for example 2026-06-06; it must exist."
        )
    try:
        zone_of(day.time_zone, f"{file}: time_zone")
    except Mistake as mistake:
        yield mistake
    given = {
        "first_launch": day.first_launch,
        "last_ashore": day.last_ashore,
        "sunset": day.sunset,
        "measured.at": day.measured.at if day.measured else None,
    }
    wrong = [name for name, text in given.items() if text is not None and not _is_time(text)]
    for name in wrong:
        yield Mistake(
            f"{file}: {name}", f'"{given[name]}"', "HH:MM, 00:00 to 23:59", "Write for example 09:40."
        )
    if not {"first_launch", "last_ashore"} & set(wrong) and day.last_ashore <= day.first_launch:
        yield Mistake(
            f"{file}: last_ashore",
            f"{day.last_ashore}, which is not after the first launch at {day.first_launch}",
            "a time later on the same day",
            "Turn the two round, or correct one.",
        )


def _winds(day: DaySheet, file: str) -> Iterator[Mistake]:
    forecast, measured = day.forecast, day.measured
    if forecast is None and measured is None:
        yield Mistake(
            f"{file}: wind",
            "neither a forecast nor a measured wind",
            "[forecast] with low_kn, likely_kn, high_kn, or [measured] with wind_kn and how",
            "Add one of them.",
        )
    if forecast is not None:
        f = forecast
        if not f.low_kn <= f.likely_kn <= f.high_kn:
            yield Mistake(
                f"{file}: forecast",
                f"low {plain(f.low_kn)}, likely {plain(f.likely_kn)}, high {plain(f.high_kn)} kn",
                "low, likely and high in rising order",
                "Put them in order.",
            )
        if f.gust_kn is not None and f.gust_kn < f.likely_kn:
            yield _weak_gust(f"{file}: forecast.gust_kn", f.gust_kn, f.likely_kn)
    if measured is not None:
        m = measured
        if m.gust_kn is not None and m.gust_kn < m.wind_kn:
            yield _weak_gust(f"{file}: measured.gust_kn", m.gust_kn, m.wind_kn)
        low, high = (m.wind_kn if end is None else end for end in (m.low_kn, m.high_kn))
        if not low <= m.wind_kn <= high:
            yield Mistake(
                f"{file}: measured",
                f"low {plain(low)}, measured {plain(m.wind_kn)}, high {plain(high)} kn",
                "low, measured and high in rising order",
                "Put them in order.",
            )


def _weak_gust(where: str, gust: float, wind: float) -> Mistake:
    return Mistake(
        where,
        f"gusts of {plain(gust)} kn in a mean wind of {plain(wind)} kn",
        "gusts at least as strong as the mean wind",
        "Correct one of the two.",
    )


def _twice(table: str, names: Sequence[str], file: str) -> Iterator[Mistake]:
    for name in dict.fromkeys(name for name in names if names.count(name) > 1):
        yield Mistake(
            f"{file}: {table}.{name}",
            f"{name} twice",
            "each name once",
            "Give one another name, or take it out.",
        )


def _unknown(where: str, came: str, known: Sequence[str], what: str) -> Mistake:
    near = get_close_matches(came, known, n=1, cutoff=0.5)
    return Mistake(
        where,
        f"{what} {came}, which is not in the sheet",
        ", ".join(known) or f"nothing: the sheet has no {what}",
        f"Did you mean {near[0]}?" if near else "Add it to the sheet, or correct the name.",
    )


def _people(day: DaySheet, file: str) -> Iterator[Mistake]:
    boats = [boat.name for boat in day.boats]
    if not day.sailors:
        yield Mistake(f"{file}: sailors", "nobody", "one sailor or more", "Add [[sailors]].")
    for sailor in day.sailors:
        where = f"{file}: sailors.{sailor.name}"
        if (sailor.file is None) == (sailor.mass_band_kg is None):
            both = sailor.file is not None
            yield Mistake(
                where,
                "both a file and a mass band" if both else "neither a file nor a mass band",
                "one of the two",
                "Take one out." if both else 'Add file = "NAME.toml", or mass_band_kg = [70, 75].',
            )
        for boat in sailor.boats:
            if boat not in boats:
                yield _unknown(f"{where}.boats", boat, boats, "boat")
    names = [sailor.name for sailor in day.sailors]
    for absent in day.absent:
        if absent not in names:
            yield _unknown(f"{file}: absent", absent, names, "sailor")


def _boats(day: DaySheet, file: str) -> Iterator[Mistake]:
    if not day.boats:
        yield Mistake(f"{file}: boats", "no boat", "one boat or more", "Add [[boats]].")
    for boat in day.boats:
        where = f"{file}: boats.{boat.name}"
        if boat.state == OUT and not (boat.by and boat.note):
            yield Mistake(
                where,
                "out of service, with nobody's name or no reason",
                "by and note beside it",
                "Write who put it out of service and why; that person releases it.",
            )
        if boat.state == "in use with a note" and not boat.note:
            yield Mistake(where, "in use with a note, with no note", "the note", "Write note = ...")
    yield from _pool(day, file, "rig", day.rigs)
    yield from _pool(day, file, "foil_set", day.foil_sets)


def _pool(day: DaySheet, file: str, what: str, pool: Sequence[Rig] | Sequence[FoilSet]) -> Iterator[Mistake]:
    """A rig or a foil set is known, not out of service, and on one boat only."""
    known = {one.name: one for one in pool}
    taken: dict[str, DayBoat] = {}
    words = what.replace("_", " ")
    for boat in day.boats:
        named = boat.rig if what == "rig" else boat.foil_set
        where = f"{file}: boats.{boat.name}.{what}"
        if named is None or boat.state == OUT:
            continue
        if named not in known:
            yield _unknown(where, named, list(known), words)
        elif known[named].state == OUT:
            yield Mistake(
                where,
                f"{named}, which is out of service",
                f"a {words} in use",
                "Take another, or none of it.",
            )
        elif named in taken:
            yield Mistake(
                where,
                f"{named}, which {taken[named].name} has already",
                f"each {words} on one boat",
                "Give one of the two another.",
            )
        else:
            taken[named] = boat


def _limits(day: DaySheet, file: str) -> Iterator[Mistake]:
    boats = [boat.name for boat in day.boats]
    seen: set[tuple[str, str | None, str | None]] = set()
    for number, limit in enumerate(day.limits, 1):
        where = f"{file}: limits[{number}] ({limit.what})"
        try:
            entered(limit, f"{where}.value")
        except Mistake as mistake:
            yield mistake
        if not _is_date(limit.date):
            yield Mistake(f"{where}.date", f'"{limit.date}"', "YYYY-MM-DD", "Write when it was entered.")
        if limit.boat is not None and limit.boat not in boats:
            yield _unknown(f"{where}.boat", limit.boat, boats, "boat")
        key = (limit.what, limit.stage, limit.boat)
        if key in seen:
            yield Mistake(
                where,
                "the same limit twice",
                "each limit once a stage and boat",
                "Keep the one that is in force.",
            )
        seen.add(key)


def _hand_pairings(day: DaySheet, file: str) -> Iterator[Mistake]:
    names = [sailor.name for sailor in day.sailors]
    boats = {boat.name: boat for boat in day.boats}
    sailing: dict[str, str] = {}
    used: set[str] = set()
    for number, one in enumerate(day.hand_pairings, 1):
        where = f"{file}: hand_pairings[{number}]"
        if not 1 <= len(one.sailors) <= 2:
            yield Mistake(f"{where}.sailors", f"{len(one.sailors)} names", "one or two", "Name who sails.")
        for sailor in one.sailors:
            if sailor not in names:
                yield _unknown(f"{where}.sailors", sailor, names, "sailor")
            elif sailor in day.absent:
                yield Mistake(
                    f"{where}.sailors",
                    f"{sailor}, who is absent",
                    "sailors who are there",
                    "Take one of the two out.",
                )
            elif sailor in sailing:
                yield Mistake(
                    f"{where}.sailors",
                    f"{sailor} in {one.boat} and in {sailing[sailor]}",
                    "each sailor in one boat",
                    "Take one of the two out.",
                )
            sailing[sailor] = one.boat
        if one.boat not in boats:
            yield _unknown(f"{where}.boat", one.boat, list(boats), "boat")
        elif boats[one.boat].state == OUT:
            yield Mistake(
                f"{where}.boat",
                f"{one.boat}, which {boats[one.boat].by} put out of service: {boats[one.boat].note}",
                "a boat in use",
                f"Take it out; only {boats[one.boat].by} releases the boat.",
            )
        elif one.boat in used:
            yield Mistake(
                f"{where}.boat",
                f"{one.boat} for two pairings by hand",
                "each boat once",
                "Take one of the two out.",
            )
        used.add(one.boat)
