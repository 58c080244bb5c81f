"""The demo's summary for people: one short page of Markdown, and the same as plain text."""

from collections.abc import Sequence
from textwrap import fill

from foilwright.documents.setup_card import SetupCard
from foilwright.paper import texts
from foilwright.paper.card_words import CardWords, swing_words, water_words, words_of
from foilwright.paper.text_card import WIDTH, columns

Files = Sequence[tuple[SetupCard, Sequence[str]]]
"""Each card with the names of its files."""


def summary_markdown(cards: Files, sheet: str) -> str:
    """What each boat is expected to do, as Markdown."""
    parts = [f"# {texts.SUMMARY_TITLE}", _first(cards)]
    for card, names in cards:
        words = words_of(card)
        expect = _no_flight(words) if words.no_flight else "\n".join(_markdown_table(_by_speed(words)))
        links = ", ".join(f"[{name}]({name})" for name in names)
        parts += [f"## {card.boat}", expect, " ".join(words.expect_notes)]
        parts += [_choice(words), _swing(card), _cards(links)]
    parts.append(texts.SUMMARY_SHEET.format(sheet=f"[{sheet}]({sheet})"))
    return "\n\n".join(parts) + "\n"


def summary_text(cards: Files, sheet: str) -> str:
    """The same for a terminal."""
    parts = [texts.SUMMARY_TITLE, fill(_first(cards), WIDTH)]
    for card, names in cards:
        words = words_of(card)
        rows = "\n".join(columns(texts.EXPECT_HEAD, _by_speed(words)))
        expect = _no_flight(words) if words.no_flight else rows
        notes = fill(" ".join(words.expect_notes), WIDTH)
        parts += [f"{card.boat}\n{expect}", notes, fill(_choice(words), WIDTH)]
        parts += [fill(_swing(card), WIDTH), _cards(", ".join(names))]
    parts.append(texts.SUMMARY_SHEET.format(sheet=sheet))
    return "\n\n".join(parts) + "\n"


def _first(cards: Files) -> str:
    card, _ = cards[0]
    return texts.SUMMARY_FIRST.format(water=water_words(card.salinity, card.temperature))


def _by_speed(words: CardWords) -> list[Sequence[str]]:
    """A row a speed."""
    return [column[1:] for column in words.expect]


def _choice(words: CardWords) -> str:
    """What to change first, in one paragraph."""
    choice = words.choice
    return " ".join([f"{choice.title}.", *choice.moves, *choice.notes] if choice.title else choice.notes)


def _no_flight(words: CardWords) -> str:
    return f"{texts.NO_FLIGHT_TITLE}. {words.no_flight}"


def _cards(names: str) -> str:
    return texts.SUMMARY_CARDS.format(cards=names)


def _swing(card: SetupCard) -> str:
    return texts.SUMMARY_SWING.format(
        readings="; ".join(f"{_inside(how)} {reading}" for how, reading in swing_words(card))
    )


def _inside(words: str) -> str:
    """Words as they stand inside a sentence."""
    return words[0].lower() + words[1:]


def _markdown_table(rows: Sequence[Sequence[str]]) -> list[str]:
    ruler = ["---"] * len(texts.EXPECT_HEAD)
    return [f"| {' | '.join(row)} |" for row in (texts.EXPECT_HEAD, ruler, *rows)]
