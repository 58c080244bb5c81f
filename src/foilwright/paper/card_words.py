"""A setup card in words: the same sentences for every form. Nothing here knows how they are set."""

import re
from collections.abc import Sequence
from math import degrees
from typing import NamedTuple

from foilwright.documents.flight_view import FlightView
from foilwright.documents.setup_card import CardSetting, Expected, Grid, SetupCard, StripesSeen, WindColumn
from foilwright.paper import texts
from foilwright.paper.boat_labels import Label
from foilwright.units import ending_of, from_si
from foilwright.words import shown


class CardWords(NamedTuple):
    """What is written on a card, part by part. Captions wait for the scales of their drawings.

    numbered    the labels, short: the number that the settings' table has
    swing       how the wand is held, and the reading there
    choice      title, lead, the changes in their order, and what is said about them
    seen        what stripes seen say; not on paper, which is printed before
    expect      a column a speed, or a wind: what it is called, then its rows as in expect_head
    grid        a row a height: what it is called, then the three bows; full_grid with what each change does
    """

    title: str
    mark: str
    for_whom: str
    labels: tuple[Label, ...]
    numbered: tuple[Label, ...]
    swing: tuple[tuple[str, str], ...]
    settings: tuple[tuple[str, str, str], ...]
    choice: "ChoiceWords"
    expect_title: str
    expect_head: tuple[str, ...]
    expect: tuple[tuple[str, ...], ...]
    expect_notes: tuple[str, ...]
    seen: tuple[str, ...]
    grid: tuple[tuple[str, ...], ...]
    full_grid: tuple[tuple[str, ...], ...]
    no_flight: str
    valid: tuple[str, ...]


class ChoiceWords(NamedTuple):
    """What to change first. Without a choice only the sentence that says so; `tried` for those who ask."""

    title: str
    moves: tuple[str, ...]
    notes: tuple[str, ...]
    tried: str


def words_of(card: SetupCard) -> CardWords:
    """The words of one card."""
    return CardWords(
        title=card.boat,
        mark=texts.INVENTED if card.invented else "",
        for_whom=texts.FOR.format(sailor=card.sailor) if card.sailor else "",
        labels=tuple(Label(s.adjuster, spoken(s.adjuster), setting_words(s)) for s in card.settings),
        numbered=tuple(Label(s.adjuster, str(i + 1), short_setting(s)) for i, s in enumerate(card.settings)),
        swing=swing_words(card),
        settings=tuple((spoken(s.adjuster), set_to_words(s), mark_words(s)) for s in card.settings),
        choice=choice_words(card),
        expect_title=texts.WINDS_TITLE if card.winds else texts.EXPECT_TITLE,
        expect_head=texts.WINDS_HEAD if card.winds else texts.EXPECT_HEAD,
        expect=_winds(card.winds) if card.winds else _expected(card.expected),
        expect_notes=_notes(card),
        seen=tuple(seen_words(card.seen, card.short_grid)) if card.seen else (),
        grid=grid_rows(card.short_grid),
        full_grid=grid_rows(card.grid),
        no_flight=card.no_flight or "",
        valid=_valid(card),
    )


def choice_words(card: SetupCard) -> ChoiceWords:
    """What to change first, and why; or that nothing is changed or was chosen."""
    choice = card.choice
    if choice is None:
        return ChoiceWords("", (), (texts.AS_IT_STANDS,), "")
    notes = []
    if choice.moves:
        notes.append(texts.WHY.format(why=" ".join(choice.why)))
    else:
        notes += [capital(one.removeprefix(f"{texts.NOTHING_TITLE}: ")) for one in choice.why]
    notes += choice.after
    if choice.others:
        notes.append(texts.OTHERS.format(others=texts.OTHERS_BETWEEN.join(choice.others)))
    title = texts.CHOICE_TITLE if choice.moves else texts.NOTHING_TITLE
    return ChoiceWords(title, choice.moves, tuple(notes), choice.tried)


def capital(words: str) -> str:
    """Words that begin a sentence."""
    return words[:1].upper() + words[1:]


def notes_by_length(card: SetupCard) -> tuple[str, str, str]:
    """What is said about a choice: all; without the next best settings; the first reason alone."""
    choice = card.choice
    if choice is None:
        return (texts.AS_IT_STANDS,) * 3
    shorter = choice._replace(others=())
    shortest = shorter._replace(after=(), why=choice.why[:1])
    every, less, least = (
        " ".join(choice_words(card._replace(choice=one)).notes) for one in (choice, shorter, shortest)
    )
    return every, less, least


def grid_rows(grid: Grid) -> tuple[tuple[str, ...], ...]:
    """The grid of first changes as rows; nothing where it is empty."""
    if not any(words for row in grid.values() for words in row.values()):
        return ()
    return tuple(
        (texts.GRID_SIDES[height], *(words or texts.GRID_EMPTY for words in row.values()))
        for height, row in grid.items()
    )


def spoken(name: str) -> str:
    """A name of ours as it is said: main-rod, main_foil -> main rod, main foil."""
    return name.replace("-", " ").replace("_", " ")


def signed(value: float) -> str:
    """A count with its sign: +2, −1.5."""
    return f"{value:+g}".replace("-", "−")


def setting_words(setting: CardSetting) -> str:
    """A setting in steps from the mark, in the boat's own unit where it is one word: "+2 turns"."""
    return _steps_words(setting, setting.steps)


def set_to_words(setting: CardSetting) -> str:
    """A setting with where it stands now, if that is elsewhere: "−3 turns (now at the mark)"."""
    words = setting_words(setting)
    if setting.change == 0:
        return words
    return texts.NOW.format(setting=words, now=short_steps(setting.steps - setting.change))


def _steps_words(setting: CardSetting, steps: float) -> str:
    if steps == 0:
        return texts.AT_MARK
    found = re.match(r"(?:one|a|an) (?!half\b)(\w+)", setting.one_step)
    unit = found[1] if found else "step"
    return texts.STEPS.format(steps=signed(steps), unit=unit if abs(steps) == 1 else f"{unit}s")


def paper_setting(setting: CardSetting) -> str:
    """A setting as it stands in the narrow table on paper."""
    return texts.SHORT_MARK if setting.steps == 0 else setting_words(setting)


def short_setting(setting: CardSetting) -> str:
    """A setting as short as it can be: +2, or the word for the mark."""
    return short_steps(setting.steps)


def short_steps(steps: float) -> str:
    """Steps from the mark as short as they can be: +2, or the word for the mark."""
    return texts.SHORT_MARK if steps == 0 else signed(steps)


def numbered_rows(rows: Sequence[tuple[str, str, str]]) -> list[tuple[str, str, str]]:
    """The settings' table with the numbers that stand in the drawing."""
    return [(f"{i + 1} {name}", setting, mark) for i, (name, setting, mark) in enumerate(rows)]


def mark_words(setting: CardSetting) -> str:
    """How to find the setting again with a ruler when the count is lost."""
    if setting.mark is None or setting.mark_mm is None:
        return texts.NO_MARK
    return texts.MARK.format(reading=f"{setting.mark_mm:.0f}".replace("-", "−"), words=setting.mark)


def swing_words(card: SetupCard) -> tuple[tuple[str, str], ...]:
    """The swing check: at which stop of the wand, and the reading in millimetres."""
    edge = texts.FOIL_EDGE if card.view.whole_foil else texts.FLAP_EDGE
    swing = card.swing
    held = texts.SWING_MIDDLE.format(wand=shown("wand", swing.wand))
    readings = (
        (texts.SWING_BACK, shown("back", swing.back)),
        (texts.SWING_FORWARD, shown("forward", swing.forward)),
        (held, shown("middle", swing.middle)),
    )
    return tuple((how, texts.SWING_READING.format(edge=edge, travel=travel)) for how, travel in readings)


def stripes(count: float) -> str:
    """Stripes showing, to the nearest half: 4, 4½; 0 when the hull is in the water."""
    halves = round(2.0 * max(count, 0.0))
    whole, half = divmod(halves, 2)
    return f"{whole or ''}½" if half else str(whole)


def _expected(rows: Sequence[Expected]) -> tuple[tuple[str, ...], ...]:
    """A column a speed: how fast, in words and in knots, then what to expect."""
    paces = texts.PACE.get(len(rows), ("",) * len(rows))
    return tuple((pace, *_column(row)) for pace, row in zip(paces, rows, strict=True))


def _winds(columns: Sequence[WindColumn]) -> tuple[tuple[str, ...], ...]:
    """A column a wind: low, likely and high, then what to expect in it."""
    return tuple((one.name, *_wind_column(one)) for one in columns)


def _wind_column(one: WindColumn) -> tuple[str, ...]:
    both = texts.WIND_BOTH.format(at_ten=_knots(one.wind), by_hand=_knots(one.by_hand))
    if one.seconds is None or one.seen is None:
        return both, texts.NO_RUN, *[texts.NOTHING] * (len(texts.WINDS_HEAD) - 2)
    _, height, bow, count, wand = _column(one.seen)
    speeds = " / ".join(texts.NOTHING if speed is None else _knots(speed) for speed in one.speeds)
    run = texts.RUN.format(seconds=f"{one.seconds:.0f}")
    keel = texts.KEEL_AND_BOW.format(height=height, bow=bow)
    return both, run, texts.SPEEDS.format(speeds=speeds), keel, count, shown("heel", one.heel), wand


def _knots(speed: float) -> str:
    """A speed [m/s] in whole knots, without the unit."""
    return f"{from_si(speed, 'kn'):.0f}"


def _some_winds(columns: Sequence[WindColumn]) -> str:
    """Some winds of the day in words: "9 and 12 kn of wind"."""
    winds = [_knots(one.wind) for one in columns]
    before = texts.RUN_BETWEEN.join(winds[:-1])
    return texts.A_WIND.format(wind=texts.RUN_LAST.join([*([before] if before else []), winds[-1]]))


def _column(row: Expected) -> tuple[str, ...]:
    wand = texts.WAND_BACK.format(angle=shown("wand", row.wand)) if row.wand_touching else texts.WAND_OFF
    flying = row.state == "flying"
    height = shown("ride_height", row.height) if flying else texts.HULL_IN_WATER
    count = f"{stripes(row.main_stripes)} / {stripes(row.rudder_stripes)}" if flying else "–"
    return speed_words(row.speed), height, shown("trim", row.trim).removeprefix("bow "), count, wand


def speed_words(speed: float) -> str:
    """A boat speed [m/s] in knots."""
    return f"{round(from_si(speed, 'kn'), 2):g} kn"


def _notes(card: SetupCard) -> tuple[str, ...]:
    notes = [
        texts.TAKE_OFF.format(speed=shown("take_off_speed", card.take_off))
        if card.take_off
        else texts.NO_TAKE_OFF
    ]
    if abs(degrees(card.heel)) >= 0.5:
        notes.append(texts.HEELED.format(heel=shown("heel", card.heel)))
    if card.band:
        low, high = (shown("ride_height", end) for end in card.band)
        notes.append(texts.BAND.format(stage=card.stage, low=low, high=high))
        over = [row.speed for row in card.expected if row.state == "flying" and row.height > card.band[1]]
        above = [one for one in card.winds if one.seen is not None and one.seen.height > card.band[1]]
        if above:
            notes.append(texts.ABOVE_BAND_WIND.format(winds=_some_winds(above)))
        if over:
            notes.append(texts.ABOVE_BAND.format(speed=speed_words(min(over))))
    return tuple(notes)


def seen_words(seen: StripesSeen, grid: Grid) -> list[str]:
    """What the stripes say, beside what was worked out, and the first change from there."""
    words = texts.SEEN.format(
        speed=speed_words(seen.speed),
        main=stripes(seen.main),
        rudder=stripes(seen.rudder),
        height=shown("ride_height", seen.height),
        height_error=f"{5.0 * round(200.0 * seen.height_error):.0f}",
        bow=shown("trim", seen.trim),
        bow_error=f"{degrees(seen.trim_error):.1f}",
    )
    found = [texts.SEEN_ALONE.format(seen=words)]
    if seen.expected is not None:
        height, bow = shown("ride_height", seen.expected.height), shown("trim", seen.expected.trim)
        found = [texts.SEEN_EXPECTED.format(seen=words, height=height, bow=bow)]
    side, top = seen.place
    first = grid[side][top]
    if first:
        place = texts.SEEN_PLACE.format(side=texts.GRID_SIDES[side], top=texts.GRID_TOPS[top])
        found.append(texts.SEEN_FIRST.format(place=place, first=first))
    return found


def water_words(salinity: float, temperature: float) -> str:
    """The water that the numbers hold for."""
    form = texts.FRESH if salinity < 0.5 else texts.SEA
    return form.format(salinity=f"{salinity:.0f}", temperature=f"{temperature:g}")


def _valid(card: SetupCard) -> tuple[str, ...]:
    parts = card.parts
    first = texts.VALID.format(
        boat=card.boat,
        version=card.version,
        main=parts["main_foil"],
        rudder=parts["rudder"],
        rig=parts["rig"],
        wand=parts["wand"],
        water=water_words(card.salinity, card.temperature),
    )
    words = [first]
    if card.date:
        words.append((texts.VALID_DAY if card.winds else texts.VALID_DATE).format(date=card.date))
    words.append(texts.REFIT)
    if card.sure:
        name = doubt_words(card.sure.biggest)
        words.append(
            texts.SURE.format(
                speed=speed_words(card.sure.speed),
                height=f"{max(5.0, 5.0 * round(200.0 * card.sure.height)):.0f}",
                doubt=texts.SURE_ASSUMED.format(name=name) if card.sure.assumed else name,
            )
        )
    return tuple(words)


def doubt_words(path: str) -> str:
    """The path of a number as a person says it: main_foil.zero_lift_shift_deg -> main foil section."""
    *parts, last = path.split(".")
    unit = ending_of(last)
    plain_name = last.removesuffix(f"_{unit.ending}") if unit else last
    return spoken(" ".join([*parts[-1:], texts.DOUBTS.get(last, plain_name)]))


def boat_caption(card: SetupCard, scale: float, to_scale: bool = True) -> str:
    """What the drawing of the boat shows; its scale only on paper, where it is true."""
    view: FlightView = card.view
    if not view.flying:
        return texts.BOAT_CAPTION_STILL.format(scale=_scale(scale, to_scale))
    return texts.BOAT_CAPTION.format(
        speed=speed_words(card.view_speed),
        height=shown("ride_height", view.height),
        bow=shown("trim", view.trim),
        scale=_scale(scale, to_scale),
    )


def _scale(scale: float, to_scale: bool) -> str:
    return texts.SCALE.format(scale=f"{scale:g}") if to_scale else texts.NO_SCALE


def chain_caption(card: SetupCard, scale: float, to_scale: bool = True) -> str:
    """What the drawing of the chain shows; its scale only on paper, where it is true."""
    view = card.view
    if not view.cranks:
        return texts.CURVE_CAPTION
    rods = ", ".join(
        texts.ROD.format(number=i + 1, name=spoken(name), length=f"{1000.0 * length:.0f}")
        for i, (name, length) in enumerate(zip(view.rods, view.rod_lengths, strict=True))
    )
    return texts.CHAIN_CAPTION.format(scale=_scale(scale, to_scale), rods=rods)
