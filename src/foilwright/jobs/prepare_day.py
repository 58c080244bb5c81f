"""Prepares a day: who sails which boat, how it is set, the sheets, and what would change it for the others.

Every result is kept in the folder by the meaning of its input, so that a run can be stopped and gone on with,
and a corrected wind or an absence is answered from what is already known.
"""

import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from foilwright.air.wind import INLAND_ROUGHNESS
from foilwright.documents import day_texts as texts
from foilwright.documents.coach_view import coach_text
from foilwright.documents.day_answer import DayAnswer, DayCard, DayNotToday
from foilwright.documents.day_changes import lines_as_kept, lines_before, marked
from foilwright.documents.day_checks import OUT, entered, minutes_of
from foilwright.documents.day_limits import Entered, Facts
from foilwright.documents.day_record import DaySheet
from foilwright.documents.day_sheet import read_day
from foilwright.documents.day_weather import WindToday, facts_of, wind_today
from foilwright.documents.day_words import (
    not_today_words,
    times_line,
    warned_lines,
    water_line,
    wind_lines,
)
from foilwright.documents.fleet_sheet import Depths, FleetLine, FleetSheet
from foilwright.documents.setup_card import SetupCard
from foilwright.flight.many_in_wind import at_hand
from foilwright.jobs.conditions import conditions_from
from foilwright.jobs.day_cards import Around, card_of
from foilwright.jobs.day_crews import (
    BoatToday,
    Seat,
    boats_today,
    goal_of,
    old_bands,
    prospect_of,
    sailors_today,
    seats_by_hand,
    seats_of,
    table_from,
    table_of,
    table_parts,
)
from foilwright.jobs.day_paper import day_card
from foilwright.jobs.how_deep import depth_needed
from foilwright.jobs.kept_results import FOLDER, kept_or_made, key_of, put_kept, read_kept
from foilwright.jobs.put_folder import make_folder
from foilwright.setup.flown_in_wind import WINDS, FlownInWind
from foilwright.setup.pairing import NotToday, Pairings, Prospect, not_today, pairings
from foilwright.units import from_si

TWO_TO_A4 = "cards-two-to-a4.pdf"
STILL_WATER_C = 15.0  # taken where the day sheet says nothing; it changes the water's density very little


class Progress(NamedTuple):
    """How far a day is: steps done, of how many, what is done now, and seconds left as far as can be told."""

    done: int
    of: int
    what: str
    left: float | None


Tell = Callable[[Progress], None]


class _Loaded(NamedTuple):
    day: DaySheet
    file: str
    folder: Path
    wind: WindToday
    boats: list[BoatToday]
    seats: list[Seat]
    by_hand: list[Seat]
    old: list[str]
    around: Around
    temperature: float
    salinity: float
    limits: list[Entered]


def prepare_day(
    path: str | Path, out: str | Path, tell: Tell | None = None, card_files: bool = True
) -> DayAnswer:
    """Prepares the day of a day sheet in the folder `out`, made where it is missing."""
    return prepared_day(path, out, tell, card_files)[0]


def prepared_day(
    path: str | Path, out: str | Path, tell: Tell | None = None, card_files: bool = True
) -> tuple[DayAnswer, list[SetupCard]]:
    """The same, with the cards as data, in the order of the boats; none without `card_files`."""
    from foilwright.paper.fleet_sheet import fleet_sheet
    from foilwright.paper.paper_card import paper_card, paper_sheet
    from foilwright.paper.pencil_slate import pencil_slate
    from foilwright.paper.put_file import put_file

    path = Path(path)
    loaded = _load(path)
    folder = make_folder(Path(out))
    make_folder(folder / FOLDER)
    steps = _Steps(tell, len(loaded.seats) + len(loaded.by_hand) + min(len(loaded.boats), len(loaded.seats)))
    if not at_hand():
        steps.begin(texts.COMPILING)
    tables = {_who(seat): _table(loaded, seat, folder, steps) for seat in [*loaded.seats, *loaded.by_hand]}
    chosen, prospects, facts = _paired(loaded, tables)
    seats = {_who(seat): seat for seat in [*loaded.seats, *loaded.by_hand]}
    cards = [
        _card(loaded, seats[_of(one)], tables[_of(one)], folder, steps, one.boat in chosen.by_hand)
        for one in chosen.chosen
    ]
    papers: list[SetupCard] = []
    if card_files:
        for card, one in zip(cards, chosen.chosen, strict=True):
            card["file"] = str(folder / _card_name(one.boat))
        papers = [
            _paper(loaded, seats[_of(one)], card) for card, one in zip(cards, chosen.chosen, strict=True)
        ]
        for card, paper in zip(cards, papers, strict=True):
            put_file(Path(card["file"]), paper_card(paper))
        if papers:
            put_file(folder / TWO_TO_A4, paper_sheet(papers))
    left = [_not_today(loaded, name, prospects, chosen) for name in chosen.left]
    sheet = _fleet(loaded, chosen, cards, facts, folder)
    names = {"fleet_sheet": "fleet-sheet.pdf", "pencil_slate": "pencil-slate.pdf", "coach": "coach.txt"}
    put_file(folder / names["fleet_sheet"], fleet_sheet(sheet))
    first, last = minutes_of(loaded.day.first_launch), minutes_of(loaded.day.last_ashore)
    put_file(folder / names["pencil_slate"], pencil_slate(sheet, first, last))
    answer: DayAnswer = {
        "format": "foilwright/day",
        "version": 1,
        "cards": [_public(card) for card in cards],
        "fleet_sheet": str(folder / names["fleet_sheet"]),
        "pencil_slate": str(folder / names["pencil_slate"]),
        "coach": str(folder / names["coach"]),
        "not_today": left,
        "summary": {
            "date": loaded.day.date,
            "place": loaded.day.place,
            "wind": list(sheet.wind),
            "water": sheet.water,
            "warned": list(sheet.warned),
            "absent": list(sheet.absent),
            "out_of_service": list(sheet.out),
            "changed": [f"{line.boat}: {', '.join(line.changed)}" for line in sheet.lines if line.changed],
        },
        "tried": {
            "prospects": len(tables),
            "pairings": chosen.tried,
            "how": chosen.how,
            "settings": sum(card["tried"] for card in cards),
            "possible_settings": sum(card["possible"] for card in cards),
        },
    }
    masses = {
        name: sailor.mass_kg
        for seat in seats.values()
        for name, sailor in zip(seat.people, seat.crew, strict=True)
    }
    put_file(
        folder / names["coach"],
        coach_text(loaded.day, answer, prospects, chosen, masses, loaded.old).encode(),
    )
    return answer, papers


# Loading ---------------------------------------------------------------------------------------------------


def _load(path: Path) -> _Loaded:
    day = read_day(path)
    file, folder = path.name, path.parent
    boats = boats_today(day, folder, file)
    sailors = sailors_today(day, folder, file)
    hand = seats_by_hand(day, boats, sailors, file)
    taken = {name for seat in hand for name in seat.people}
    gone = {seat.boat.name for seat in hand}
    seats = [
        seat
        for seat in seats_of(day, boats, sailors)
        if seat.boat.name not in gone and not taken & set(seat.people)
    ]
    temperature = STILL_WATER_C if day.water.temperature_c is None else day.water.temperature_c
    salinity = day.water.salinity_g_per_kg or 0.0
    water = conditions_from(salinity, temperature).water
    wind = wind_today(day)
    waves = (day.water.wave_height_cm or 0.0) / 100.0
    around = Around(wind, water, INLAND_ROUGHNESS, waves, day.seed)
    limits = [entered(limit, f"{file}: limits[{i}]") for i, limit in enumerate(day.limits, 1)]
    old = old_bands(day, sailors)
    return _Loaded(day, file, folder, wind, boats, seats, hand, old, around, temperature, salinity, limits)


def _who(seat: Seat) -> tuple[str, tuple[str, ...]]:
    return seat.boat.name, seat.people


def _of(prospect: Prospect) -> tuple[str, tuple[str, ...]]:
    return prospect.boat, prospect.people


# Computing -------------------------------------------------------------------------------------------------


class _Steps:
    """Counts the steps of a day and tells how long the rest may take, from those not kept already."""

    def __init__(self, tell: Tell | None, of: int) -> None:
        self.tell, self.of, self.done = tell, of, 0
        self.began = 0.0
        self.took: list[float] = []

    def begin(self, what: str) -> None:
        """A step begins."""
        self.began = time.monotonic()
        if self.tell is not None:
            # The middle one: the first step may have had to compile the physics.
            left = sorted(self.took)[len(self.took) // 2] * (self.of - self.done) if self.took else None
            self.tell(Progress(self.done, self.of, what, left))

    def end(self, kept: bool) -> None:
        """It has ended; one that was kept says nothing about the time."""
        self.done += 1
        if not kept:
            self.took.append(time.monotonic() - self.began)


def _table(loaded: _Loaded, seat: Seat, folder: Path, steps: _Steps) -> FlownInWind:
    settings = seat.boat.settings
    steps.begin(f"{' + '.join(seat.people)} in {seat.boat.name}")
    key = key_of("table", table_parts(seat, settings, loaded.temperature, loaded.salinity))
    around = loaded.around
    kept, lay_there = kept_or_made(
        folder, key, lambda: table_of(seat, settings, around.water, around.roughness)
    )
    steps.end(lay_there)
    return table_from(kept)


def _paired(
    loaded: _Loaded, tables: Mapping[tuple[str, tuple[str, ...]], FlownInWind]
) -> tuple[Pairings, list[Prospect], Facts]:
    """The pairings and every prospect. Boats afloat are counted once the pairings stand."""
    wind, waves = loaded.wind.at_ten, loaded.around.wave_height

    def prospects(seats: Sequence[Seat], facts: Facts) -> list[Prospect]:
        return [
            prospect_of(seat, tables[_who(seat)], wind, goal_of(seat, waves), loaded.limits, facts)
            for seat in seats
        ]

    facts = facts_of(loaded.day, loaded.wind, 0)
    all_of_them, hand = prospects(loaded.seats, facts), prospects(loaded.by_hand, facts)
    names = [one.name for one in loaded.day.sailors if one.name not in loaded.day.absent]
    chosen = pairings(names, [boat.name for boat in loaded.boats], all_of_them, hand)
    return chosen, [*all_of_them, *hand], facts_of(loaded.day, loaded.wind, len(chosen.chosen))


def _card(
    loaded: _Loaded, seat: Seat, table: FlownInWind, folder: Path, steps: _Steps, by_hand: bool
) -> dict[str, Any]:
    steps.begin(f"settings of {seat.boat.name}")
    parts = table_parts(seat, seat.boat.settings, loaded.temperature, loaded.salinity)
    around = loaded.around
    day = [around.wind.at_ten, around.wind.by_hand, around.wave_height, around.seed]
    key = key_of("card", parts, seat.people, seat.aims, day)
    card, lay_there = kept_or_made(folder, key, lambda: card_of(seat, table, around))
    steps.end(lay_there)
    return {**card, "by_hand": by_hand, "file": None}


def _card_name(boat: str) -> str:
    return f"{boat.lower().replace(' ', '-')}-card.pdf"


def _paper(loaded: _Loaded, seat: Seat, card: Mapping[str, Any]) -> SetupCard:
    """The paper card of a pairing, with the settings chosen here and the day's three winds."""
    day, winds = loaded.day, loaded.wind.at_ten
    around = conditions_from(loaded.salinity, loaded.temperature)
    low, high = f"{from_si(winds.low, 'kn'):.0f}", f"{from_si(winds.high, 'kn'):.0f} kn"
    return day_card(
        seat, card, around, texts.CARD_DAY.format(date=day.date, place=day.place, low=low, high=high)
    )


def _public(card: Mapping[str, Any]) -> DayCard:
    """The card as it is answered, its keys in their order."""
    return {name: card[name] for name in DayCard.__annotations__}  # type: ignore[return-value]


def _not_today(loaded: _Loaded, name: str, prospects: Sequence[Prospect], chosen: Pairings) -> DayNotToday:
    likely = loaded.wind.at_ten.likely
    one: NotToday = not_today(name, prospects, chosen.chosen, likely)
    # The boat in which less would have to change than in any other but the one named.
    others = [p for p in prospects if p.boat != one.boat]
    other = not_today(name, others, chosen.chosen, likely)
    named = other.boat if other.kind == one.kind else ""
    signed = one.by if one.kind == "more wind" else -one.by
    change = round(from_si(signed, "kn"), 1) if one.kind in ("more wind", "less wind") else None
    words = not_today_words(one, named, WINDS[-1])
    return {"sailor": name, "sentence": words, "boat": one.boat or None, "wind_change_kn": change}


# The sheet -------------------------------------------------------------------------------------------------


def _fleet(
    loaded: _Loaded, chosen: Pairings, cards: Sequence[Mapping[str, Any]], facts: Facts, folder: Path
) -> FleetSheet:
    day, boats = loaded.day, {boat.name: boat for boat in loaded.boats}
    lines = [
        FleetLine(
            tuple(card["sailors"]), one.boat, boats[one.boat].sail, boats[one.boat].foil_set,
            tuple(card["settings_words"]), card["first_change"], boats[one.boat].record.note or "", (),
        )
        for one, card in zip(chosen.chosen, cards, strict=True)
    ]  # fmt: skip
    kept_lines = folder / FOLDER / "fleet.json"
    sheet = key_of(day.model_dump(mode="json"))
    before = lines_before(read_kept(kept_lines), sheet)
    put_kept(kept_lines, {"sheet": sheet, "lines": lines_as_kept(lines), "before": before})
    depths = []
    for one in chosen.chosen:
        seat = next(s for s in [*loaded.seats, *loaded.by_hand] if _who(s) == _of(one))
        foils, mast = depth_needed(
            seat.boat.boat, sum(sailor.mass_kg for sailor in seat.crew), loaded.around.water
        )
        depths.append(Depths(one.boat, foils, mast, day.water.depth_at_slip_m, day.water.depth_in_area_m))
    return FleetSheet(
        invented="invented" in (day.notes or "").lower(),
        date=day.date,
        place=day.place,
        times=times_line(day),
        wind=wind_lines(day, loaded.wind),
        water=water_line(day),
        lines=marked(lines, before),
        not_in_a_boat=chosen.left,
        absent=tuple(day.absent),
        out=tuple(
            texts.OUT_OF_SERVICE.format(boat=boat.name, by=boat.by, note=boat.note)
            for boat in day.boats
            if boat.state == OUT
        ),
        warned=warned_lines(day, loaded.limits, facts, len(lines)),
        depths=tuple(depths),
        before=before is not None,
    )
