"""A setup card in words: the same sentences for every form. Nothing here knows how they are set."""

import re
from collections.abc import Sequence
from math import degrees
from typing import NamedTuple

from foilwright.documents.flight_view import FlightView
from foilwright.documents.setup_card import CardSetting, Expected, SetupCard
from foilwright.paper import texts
from foilwright.paper.boat_labels import Label
from foilwright.units import ending_of, from_si
from foilwright.words import shown


class CardWords(NamedTuple):
    """What is written on a card, part by part. Captions wait for the scales of their drawings."""

    title: str
    mark: str
    for_whom: str
    labels: tuple[Label, ...]
    numbered: tuple[Label, ...]  # the same, short: the number that the settings' table has
    swing: tuple[tuple[str, str], ...]  # which stop, and the reading there
    settings: tuple[tuple[str, str, str], ...]
    expect: tuple[tuple[str, ...], ...]
    expect_notes: tuple[str, ...]
    no_flight: str
    valid: tuple[str, ...]


def words_of(card: SetupCard) -> CardWords:
    """The words of one card."""
    return CardWords(
        title=card.boat,
        mark=texts.INVENTED if card.invented else "",
        for_whom=texts.FOR.format(sailor=card.sailor) if card.sailor else "",
        labels=tuple(Label(s.adjuster, spoken(s.adjuster), setting_words(s)) for s in card.settings),
        numbered=tuple(Label(s.adjuster, str(i + 1), short_setting(s)) for i, s in enumerate(card.settings)),
        swing=swing_words(card),
        settings=tuple((spoken(s.adjuster), setting_words(s), mark_words(s)) for s in card.settings),
        expect=tuple(_expected(row) for row in card.expected),
        expect_notes=_notes(card),
        no_flight=card.no_flight or "",
        valid=_valid(card),
    )


def spoken(name: str) -> str:
    """A name of ours as it is said: main-rod, main_foil -> main rod, main foil."""
    return name.replace("-", " ").replace("_", " ")


def signed(value: float) -> str:
    """A count with its sign: +2, −1.5."""
    return f"{value:+g}".replace("-", "−")


def setting_words(setting: CardSetting) -> str:
    """A setting in steps from the mark, in the boat's own unit where it is one word: "+2 turns"."""
    if setting.steps == 0:
        return texts.AT_MARK
    found = re.match(r"(?:one|a|an) (\w+)", setting.one_step)
    unit = found[1] if found else "step"
    return texts.STEPS.format(
        steps=signed(setting.steps), unit=unit if abs(setting.steps) == 1 else f"{unit}s"
    )


def short_setting(setting: CardSetting) -> str:
    """A setting as short as it can be: +2, or the word for the mark."""
    return texts.SHORT_MARK if setting.steps == 0 else signed(setting.steps)


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
    return (
        (texts.SWING_BACK, texts.SWING_READING.format(edge=edge, travel=shown("back", card.swing.back))),
        (
            texts.SWING_FORWARD,
            texts.SWING_READING.format(edge=edge, travel=shown("forward", card.swing.forward)),
        ),
    )


def stripes(count: float) -> str:
    """Stripes showing, to the nearest half: 4, 4½; 0 when the hull is in the water."""
    halves = round(2.0 * max(count, 0.0))
    whole, half = divmod(halves, 2)
    return f"{whole or ''}½" if half else str(whole)


def _expected(row: Expected) -> tuple[str, ...]:
    speed = f"{from_si(row.speed, 'kn'):g} kn"
    wand = texts.WAND_BACK.format(angle=shown("wand", row.wand)) if row.wand_touching else texts.WAND_OFF
    flying = row.state == "flying"
    height = shown("ride_height", row.height) if flying else texts.HULL_IN_WATER
    count = f"{stripes(row.main_stripes)} / {stripes(row.rudder_stripes)}" if flying else "–"
    return speed, height, shown("trim", row.trim).removeprefix("bow "), count, wand


def _notes(card: SetupCard) -> tuple[str, ...]:
    notes = [
        texts.TAKE_OFF.format(speed=shown("take_off_speed", card.take_off))
        if card.take_off
        else texts.NO_TAKE_OFF
    ]
    if abs(degrees(card.heel)) >= 0.5:
        notes.append(texts.HEELED.format(heel=shown("heel", card.heel)))
    speeds = [row.speed for row in card.expected]
    if len(set(speeds)) < len(speeds):
        notes.append(texts.TWO_STATES)
    if card.band:
        low, high = (shown("ride_height", end) for end in card.band)
        notes.append(texts.BAND.format(stage=card.stage, low=low, high=high))
        over = [row.speed for row in card.expected if row.state == "flying" and row.height > card.band[1]]
        if over:
            notes.append(texts.ABOVE_BAND.format(speed=f"{from_si(min(over), 'kn'):g} kn"))
    return tuple(notes)


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
        words.append(texts.VALID_DATE.format(date=card.date))
    words.append(texts.REFIT)
    if card.sure:
        name = doubt_words(card.sure.biggest)
        words.append(
            texts.SURE.format(
                speed=f"{from_si(card.sure.speed, 'kn'):g} kn",
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
        speed=f"{from_si(card.view_speed, 'kn'):g} kn",
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
