"""The demo's summary for people: one short page of Markdown, and the same as plain text."""

from collections.abc import Sequence
from textwrap import fill

from foilwright.documents.setup_card import SetupCard
from foilwright.paper import texts
from foilwright.paper.card_words import CardWords, swing_words, water_words, words_of
from foilwright.paper.text_card import WIDTH, columns

Files = Sequence[tuple[SetupCard, Sequence[str]]]
"""Each card with the names of its files."""


def summary_markdown(cards: Files) -> str:
    """What each boat is expected to do, as Markdown."""
    parts = [f"# {texts.SUMMARY_TITLE}", _first(cards)]
    for card, names in cards:
        words = words_of(card)
        expect = _no_flight(words) if words.no_flight else "\n".join(_markdown_table(words.expect))
        links = ", ".join(f"[{name}]({name})" for name in names)
        parts += [f"## {card.boat}", expect, " ".join(words.expect_notes), _swing(card), _cards(links)]
    return "\n\n".join(parts) + "\n"


def summary_text(cards: Files) -> str:
    """The same for a terminal."""
    parts = [texts.SUMMARY_TITLE, fill(_first(cards), WIDTH)]
    for card, names in cards:
        words = words_of(card)
        expect = _no_flight(words) if words.no_flight else "\n".join(columns(texts.EXPECT_HEAD, words.expect))
        notes = fill(" ".join(words.expect_notes), WIDTH)
        parts += [f"{card.boat}\n{expect}", notes, fill(_swing(card), WIDTH), _cards(", ".join(names))]
    return "\n\n".join(parts) + "\n"


def _first(cards: Files) -> str:
    card, _ = cards[0]
    return texts.SUMMARY_FIRST.format(water=water_words(card.salinity, card.temperature))


def _no_flight(words: CardWords) -> str:
    return f"{texts.NO_FLIGHT_TITLE}. {words.no_flight}"


def _cards(names: str) -> str:
    return texts.SUMMARY_CARDS.format(cards=names)


def _swing(card: SetupCard) -> str:
    (back, back_reading), (forward, forward_reading) = swing_words(card)
    return texts.SUMMARY_SWING.format(
        back=_inside(back),
        back_reading=back_reading,
        forward=_inside(forward),
        forward_reading=forward_reading,
    )


def _inside(words: str) -> str:
    """Words as they stand inside a sentence."""
    return words[0].lower() + words[1:]


def _markdown_table(rows: Sequence[Sequence[str]]) -> list[str]:
    ruler = ["---"] * len(texts.EXPECT_HEAD)
    return [f"| {' | '.join(row)} |" for row in (texts.EXPECT_HEAD, ruler, *rows)]
