"""Changes of adjusters in the boat's own words: single turns, the grid of first changes, reasons."""

import re
from collections.abc import Mapping, Sequence
from math import degrees

import numpy as np

from foilwright.documents import turn_texts as texts
from foilwright.documents.boat_chain import AdjusterRecord
from foilwright.setup.choose import CHANGED, INSIDE, KNOWN, NO_FLIGHT, NOTHING_BETTER, Choice
from foilwright.setup.grid import BOWS, HEIGHTS, Entry, Turn
from foilwright.setup.judge import Bands, Judged
from foilwright.setup.order import HEIGHT, PLACE
from foilwright.units import plain
from foilwright.words import quantity, shown

LEAST_SHOWN_BOW = 0.05  # [deg]


def turn_words(record: AdjusterRecord, steps: float, with_how: bool = False) -> str:
    """One change: "main rod 3 turns less", "sailor 200 mm forward"; and how to move it, where known."""
    distance = re.fullmatch(r"(\d+(?:\.\d+)?) (\w+) (\w+)", record.one_step)
    name = record.name.replace("-", " ")
    if distance and distance[3] in texts.OPPOSITE:
        way = distance[3] if steps > 0.0 else texts.OPPOSITE[distance[3]]
        number = plain(float(distance[1]) * abs(steps))
        words = texts.DISTANCE.format(number=number, unit=distance[2], way=way)
        name = re.sub(rf" {distance[3]}$", "", name)
    else:
        found = re.match(r"(?:one|a|an) (?!half\b)(\w+)", record.one_step)
        unit = found[1] if found else "step"
        unit = unit if abs(steps) == 1.0 else f"{unit}s"
        form = texts.MORE if steps > 0.0 else texts.LESS
        words = form.format(number=plain(abs(steps)), unit=unit)
    if not with_how or record.how is None:
        return f"{name} {words}"
    how = (texts.HOW if steps > 0.0 else texts.HOW_BACK).format(how=record.how)
    return f"{name} {words} ({how})"


def height_words(change: float) -> str:
    """A change of ride height [m]: "50 mm lower"."""
    form = texts.HIGHER if change >= 0.0 else texts.LOWER
    return form.format(height=f"{5.0 * round(200.0 * abs(change)):.0f}")


def bow_words(change: float) -> str:
    """A change of trim [rad]: "bow down 0.4°"."""
    if abs(degrees(change)) < LEAST_SHOWN_BOW:
        return texts.BOW_SAME
    form = texts.BOW_UP if change > 0.0 else texts.BOW_DOWN
    return form.format(bow=f"{abs(degrees(change)):.1f}")


def grid_words(
    grid: Mapping[tuple[str, str], Entry], records: Sequence[AdjusterRecord], short: bool = False
) -> dict[str, dict[str, str | None]]:
    """The grid as it stands on a card: keys low, right, high by bow_down, level, bow_up.

    Each turn with what it does; where `short`, without.
    """
    by_name = {record.name: record for record in records}
    return {
        height: {
            bow: entry_words(grid[(height, bow)], by_name, short) if (height, bow) in grid else None
            for bow in BOWS
        }
        for height in HEIGHTS
    }


def entry_words(entry: Entry, records: Mapping[str, AdjusterRecord], short: bool = False) -> str:
    """One place of the grid."""
    turns = [
        turn_words(records[turn.adjuster], turn.steps) if short else _expected(turn, records)
        for turn in (entry.first, entry.then)
        if turn is not None
    ]
    words = "; then ".join(turns)
    for advice in entry.advice:
        said = texts.ADVICE[advice]
        if not words and advice == "look again":
            continue  # at what, where nothing can be turned
        if not words:
            words = said
        elif advice == "look again":
            words = f"{words}; {said}"
        else:
            words = f"{said}: {words}"
    return words or texts.NOTHING_FITS


def _expected(turn: Turn, records: Mapping[str, AdjusterRecord]) -> str:
    return texts.EXPECT.format(
        turn=turn_words(records[turn.adjuster], turn.steps),
        height=height_words(turn.height),
        bow=bow_words(turn.trim),
    )


# Reasons ---------------------------------------------------------------------------------------------------


def reasons(choice: Choice, records: Sequence[AdjusterRecord]) -> list[str]:
    """Why these settings, in sentences: what is wrong now, each change in its turn, and what stays wrong."""
    moves = [*move_words(choice, records), *order_words(choice)]
    return [*why_words(choice), *moves, *after_words(choice), *tried_words(choice)]


def why_words(choice: Choice) -> list[str]:
    """What is wrong with the settings as they stand, or why nothing is changed."""
    if choice.why == NO_FLIGHT or choice.present is None:
        return [texts.NO_FLIGHT]
    if choice.why == INSIDE:
        return [texts.INSIDE]
    if choice.why == KNOWN:
        height, at = max((one[0], speed) for one, speed in zip(choice.doubts, choice.speeds, strict=True))
        bow, bow_at = max((one[1], speed) for one, speed in zip(choice.doubts, choice.speeds, strict=True))
        return [
            texts.KNOWN.format(
                height=f"{5.0 * round(200.0 * height):.0f}", at=_speed(at), bow=f"{degrees(bow):.1f}",
                bow_at=_speed(bow_at),
            )
        ]  # fmt: skip
    found = _wrong(choice.present, choice.bands, choice.speeds) + _short(choice.present, choice.speeds)
    return found if choice.why == CHANGED else [*found, texts.NOTHING_BETTER]


def move_words(choice: Choice, records: Sequence[AdjusterRecord], with_how: bool = True) -> list[str]:
    """The changes in their order, each with what it does; how it is made only `with_how`."""
    return _moves(choice, {record.name: record for record in records}, with_how)


def order_words(choice: Choice) -> list[str]:
    """Why the changes stand in that order, where there are several."""
    roles = [move.role for move in choice.moves]
    if len(roles) > 1 and PLACE in roles:
        if roles[0] == PLACE:
            return [texts.PEOPLE_FIRST]
        if roles[0] == HEIGHT:
            return [texts.LOWER_FIRST]
    return []


def after_words(choice: Choice) -> list[str]:
    """What is left when the changes are made."""
    if choice.why != CHANGED or choice.chosen is None:
        return []
    left = _left(choice.chosen, choice.bands, choice.speeds)
    return left + _short(choice.chosen, choice.speeds)


def tried_words(choice: Choice) -> list[str]:
    """How it was searched; nothing where no search was needed."""
    if choice.why not in (CHANGED, NOTHING_BETTER):
        return []
    form = texts.TRIED if choice.proved else texts.TRIED_NOT_ALL
    return [form.format(scored=choice.scored, solved=choice.solved)]


def _outside(one: Judged, bands: Bands) -> tuple[tuple[int, float], ...]:
    """Where height is most above and below its band, and trim likewise: index of the speed, by how much."""
    heights, trims = np.array(one.heights), np.array(one.trims)
    sides = (heights - bands.high, bands.low - heights, trims - bands.bow_high, bands.bow_low - trims)
    return tuple((int(np.argmax(side)), float(np.max(side))) for side in sides)


def _wrong(one: Judged, bands: Bands, speeds: Sequence[float]) -> list[str]:
    (over, by_over), (under, by_under), (up, by_up), (down, by_down) = _outside(one, bands)
    found = []
    for at, by, form, end in (
        (over, by_over, texts.ABOVE, bands.high),
        (under, by_under, texts.BELOW, bands.low),
    ):
        if by > 0.0005:
            there, limit = shown("ride_height", one.heights[at]), shown("ride_height", float(end[at]))
            height = f"{1000.0 * by:.0f}"
            found.append(form.format(height=height, speed=_speed(speeds[at]), there=there, end=limit))
    for at, by, form in ((up, by_up, texts.TOO_BOW_UP), (down, by_down, texts.TOO_BOW_DOWN)):
        if degrees(by) > LEAST_SHOWN_BOW:
            bow = f"{degrees(by):.1f}"
            found.append(form.format(bow=bow, speed=_speed(speeds[at]), there=shown("trim", one.trims[at])))
    return found


def _moves(choice: Choice, records: Mapping[str, AdjusterRecord], with_how: bool) -> list[str]:
    middle = len(choice.speeds) // 2
    found = []
    for i, move in enumerate(choice.moves):
        place = (
            texts.PLACES[0] if i == 0 else texts.PLACES[2] if i == len(choice.moves) - 1 else texts.PLACES[1]
        )
        found.append(
            texts.MOVE.format(
                place=place,
                turn=turn_words(records[move.adjuster], move.steps, with_how),
                speed=_speed(choice.speeds[middle]),
                height=height_words(move.heights[middle]),
                bow=bow_words(move.trims[middle]),
            )
        )
    return found


def _left(one: Judged, bands: Bands, speeds: Sequence[float]) -> list[str]:
    (over, by_over), (under, by_under), up, down = _outside(one, bands)
    left = []
    for at, by, form in ((over, by_over, texts.STILL_ABOVE), (under, by_under, texts.STILL_BELOW)):
        if by > 0.0005:
            left.append(form.format(height=f"{1000.0 * by:.0f}", speed=_speed(speeds[at])))
    at, by = max(up, down, key=lambda side: side[1])
    if degrees(by) > LEAST_SHOWN_BOW:
        left.append(texts.STILL_BOW.format(bow=f"{degrees(by):.1f}", speed=_speed(speeds[at])))
    return [texts.STILL.format(left=", ".join(left))] if left else [texts.KEPT]


def _short(one: Judged, speeds: Sequence[float]) -> list[str]:
    found = []
    for at, name, by in one.short:
        if name == "touchdown" and one.heights[at] < 0.2:
            found.append(texts.NOT_FLYING.format(speed=_speed(speeds[at])))
        else:
            meaning = quantity(name).meaning.removeprefix("margin: ")
            found.append(texts.SHORT.format(margin=meaning, by=shown(name, by), speed=_speed(speeds[at])))
    return found


def _speed(speed: float) -> str:
    return shown("boat_speed", speed).replace(".0 ", " ")
