"""The card of one pairing: settings chosen under the day's spread, three winds, first change."""

from collections.abc import Mapping, Sequence
from math import isfinite
from typing import Any, NamedTuple

from foilwright.documents import day_texts as texts
from foilwright.documents.answers import ChosenSetting
from foilwright.documents.boat_chain import AdjusterRecord
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.day_weather import WindToday
from foilwright.documents.day_words import advice_words, gives_up_words
from foilwright.documents.turn_words import turn_words
from foilwright.jobs.aboard import adjusters_with_crew, movable_by, row_with_crew
from foilwright.jobs.choose_setting import first_changes
from foilwright.jobs.day_columns import answered_columns, in_todays_winds, paper_columns
from foilwright.jobs.day_crews import Seat, goal_of
from foilwright.jobs.how_sure import Flying, how_sure, reference_state
from foilwright.paper.card_words import doubt_words
from foilwright.setup.choose import roles_of
from foilwright.setup.choose_in_wind import (
    CHANGE,
    EASIEST,
    FASTEST,
    MEASURE_FIRST,
    NO_FLIGHT,
    STEADIEST,
    ChoiceInWind,
    Suggestion,
    choose_in_wind,
)
from foilwright.setup.flown_in_wind import FlownInWind, occasions
from foilwright.setup.grid import HIGH, LEVEL, LOW
from foilwright.setup.order import BOW, HEIGHT, TENSION, place_in_order, role_of
from foilwright.setup.over_samples import ground_of
from foilwright.setup.sailor_hand import hand_of
from foilwright.setup.samples import drawn
from foilwright.setup.standing import Standing, flown
from foilwright.setup.take_off_change import take_off
from foilwright.units import from_si, to_si
from foilwright.water.properties import Water

GOAL_OF_AIM = {"taking-off": EASIEST, "speed": FASTEST}
BENCH_SPEEDS = tuple(to_si(speed, "kn") for speed in (8.0, 10.0, 12.0, 14.0, 16.0))
SHOWN_FIRST = (HEIGHT, BOW, TENSION)  # what an adjuster must be for to be one of the two on the fleet sheet


class Around(NamedTuple):
    """What is around every boat of the day."""

    wind: WindToday
    water: Water
    roughness: float
    wave_height: float  # [m]
    seed: int


def card_of(seat: Seat, table: FlownInWind, around: Around) -> dict[str, Any]:
    """Everything of a card but its file, as it is kept and answered."""
    boat = seat.boat.boat
    row = row_with_crew(boat, {}, seat.crew)
    adjusters = adjusters_with_crew(boat, seat.crew, seat.boat.settings)
    standing = Standing(row, boat.tables, around.water, adjusters, seat.boat.settings, 0.0)
    choice = _chosen(seat, standing, table, around)
    wanted = goal_named(seat.aims, goal_of(seat, around.wave_height).learner)
    settings = dict(seat.boat.settings)
    taken = ""
    if choice is not None and choice.advice == CHANGE:
        names = [one.name for one in choice.suggested]
        taken = wanted if wanted in names else STEADIEST
        one = choice.suggested[names.index(taken)]
        settings = dict(zip((a.name for a in boat.adjusters), one.seen.setting, strict=True))
    records = {record.name: record for record in boat.file.adjusters}
    after = standing._replace(settings=settings)
    sentence = texts.ADVICE_NO_FLIGHT
    if choice is not None:
        sentence = advice_words(
            choice, first_measured(boat, standing) if choice.advice == MEASURE_FIRST else ""
        )
    answered = _answered(settings, seat.boat.settings)
    winds = in_todays_winds(seat, settings, around.wind, around.water, around.roughness)
    return {
        "boat": boat.name,
        "boat_version": boat.version,
        "sailors": list(seat.people),
        "stage": seat.stage,
        "advice": NO_FLIGHT if choice is None else choice.advice,
        "sentence": sentence,
        "better_percent": None if choice is None else round(100.0 * choice.better),
        "settings": answered,
        "settings_words": settings_words(standing, settings, seat.boat.settings, records),
        "first_change": first_words(after, records),
        "suggested": [] if choice is None else _suggested(choice, seat, taken),
        "columns": answered_columns(winds, answered),
        "paper": {
            "winds": paper_columns(seat, settings, winds),
            "choice": paper_choice(choice, sentence, settings, seat, taken),
        },
        "tried": 0 if choice is None else choice.tried,
        "possible": 0 if choice is None else choice.possible,
    }


def goal_named(aims: Sequence[str], learner: bool) -> str:
    """Which suggestion goes on the sheet: that of the aim all aboard share, the fastest for no learner."""
    goals = {GOAL_OF_AIM.get(aim, STEADIEST) for aim in aims}
    if len(goals) > 1 or (learner and FASTEST in goals):
        return STEADIEST
    return goals.pop()


def _chosen(seat: Seat, standing: Standing, table: FlownInWind, around: Around) -> ChoiceInWind | None:
    """The choice over the day's samples; none where the boat flies in none of the day's winds."""
    when = occasions(table, around.wind.at_ten)
    if not when:
        return None
    boat, goal = seat.boat.boat, goal_of(seat, around.wave_height)
    samples = drawn(when, hand_of(seat.stage), boat.names, boat.bands, around.seed)
    off = take_off(standing, [], True)
    ground = ground_of(standing, goal, samples, None if off is None else off.speed)
    if ground is None:
        return None
    return choose_in_wind(ground, goal.learner, movable_by(boat, seat.crew))


def first_measured(boat: ReadyBoat, standing: Standing) -> str:
    """What is worth measuring first, in words: the number whose doubt moves the ride height most."""
    states = [state for state in flown(standing, BENCH_SPEEDS, True) if state is not None]
    state = reference_state(states)
    if state is None:
        return texts.UNKNOWN_NUMBER
    sure = how_sure(Flying(boat, standing.present_row, standing.water, state))
    return doubt_words(sure.biggest) if sure.biggest else texts.UNKNOWN_NUMBER


def paper_choice(
    choice: ChoiceInWind | None,
    sentence: str,
    settings: Mapping[str, float],
    seat: Seat,
    taken: str,
) -> dict[str, Any]:
    """What the paper card says of the choice, as it is kept: the parts of a CardChoice."""
    records = {record.name: record for record in seat.boat.boat.file.adjusters}
    found, roles = seat.boat.settings, roles_of_boat(seat)
    moved = sorted(
        (name for name, steps in settings.items() if steps != found.get(name, 0.0)),
        key=lambda name: place_in_order(roles[name]),
    )
    others = [] if choice is None else [one for one in choice.suggested if one.changes and one.name != taken]
    return {
        "why": [sentence.removeprefix(texts.CHANGE_IT) if moved else sentence],
        "moves": [turn_words(records[name], settings[name] - found.get(name, 0.0)) for name in moved],
        "after": [texts.TAKEN.format(name=taken)] if taken else [],
        "others": [
            texts.OTHER.format(name=one.name, words=_turns(one, records), gives_up=gives_up_words(one))
            for one in others
        ],
        "tried": ""
        if choice is None
        else texts.SETTINGS_TRIED.format(tried=choice.tried, possible=choice.possible),
    }


def roles_of_boat(seat: Seat) -> dict[str, str]:
    """What each adjuster of the boat is for."""
    return {one.name: role_of(one, seat.boat.boat.names) for one in seat.boat.boat.adjusters}


def _turns(one: Suggestion, records: Mapping[str, AdjusterRecord]) -> str:
    return "; ".join(turn_words(records[name], by) for name, by in one.changes.items()) or texts.AS_IT_STANDS


def _answered(settings: Mapping[str, float], found: Mapping[str, float]) -> list[ChosenSetting]:
    return [
        {"adjuster": name, "steps": float(steps), "change": float(steps - found.get(name, 0.0))}
        for name, steps in settings.items()
    ]


def _suggested(choice: ChoiceInWind, seat: Seat, taken: str) -> list[dict[str, Any]]:
    names = [adjuster.name for adjuster in seat.boat.boat.adjusters]
    records = {record.name: record for record in seat.boat.boat.file.adjusters}
    return [
        {
            "name": one.name,
            "settings": _answered(dict(zip(names, one.seen.setting, strict=True)), seat.boat.settings),
            "sentence": _turns(one, records),
            "gives_up": gives_up_words(one),
            "flies_percent": round(100.0 * one.seen.flies),
            "at_height_percent": round(100.0 * one.seen.safe),
            "take_off_speed_kn": round(from_si(one.seen.take_off, "kn"), 1)
            if isfinite(one.seen.take_off)
            else None,
            "chosen": one.name == taken,
        }
        for one in choice.suggested
    ]


def settings_words(
    standing: Standing,
    settings: Mapping[str, float],
    found: Mapping[str, float],
    records: Mapping[str, AdjusterRecord],
) -> list[str]:
    """The settings that matter most: every one that is to be moved, and so many others that there are two.

    The others are those for the height, then for the bow, then for the tension.
    """
    roles = roles_of(standing)
    moved = [name for name, steps in settings.items() if steps != found.get(name, 0.0)]
    parts = [name for name in settings if roles[name] in SHOWN_FIRST and name not in moved]
    others = sorted(parts, key=lambda name: SHOWN_FIRST.index(roles[name]))
    shown = [*moved, *others[: max(2 - len(moved), 0)]]
    return [setting_words(records[name], settings[name]) for name in shown]


def setting_words(record: AdjusterRecord, steps: float) -> str:
    """Where an adjuster stands: "main rod 2 turns more", or at the mark."""
    if steps == 0.0:
        return texts.AT_MARK.format(name=record.name.replace("-", " "))
    return turn_words(record, steps)


def first_words(standing: Standing, records: Mapping[str, AdjusterRecord]) -> str:
    """The first change afloat where it flies too low or too high with the bow level."""
    entries = first_changes(standing, flown(standing, BENCH_SPEEDS, True))
    turns = []
    for height in (LOW, HIGH):
        entry = entries.get((height, LEVEL))
        if entry is None or entry.first is None:
            return texts.NO_FIRST_CHANGE
        turns.append(turn_words(records[entry.first.adjuster], entry.first.steps))
    return texts.FIRST_CHANGE.format(low=turns[0], high=turns[1])
