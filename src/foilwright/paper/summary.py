"""The demo's summary for people: one short page of Markdown, and the same as plain text."""

from collections.abc import Sequence
from textwrap import fill

from foilwright.documents.day_answer import DayAnswer
from foilwright.documents.setup_card import SetupCard
from foilwright.paper import texts
from foilwright.paper.card_words import CardWords, swing_words, words_of
from foilwright.paper.text_card import WIDTH, turned_columns

Files = Sequence[tuple[SetupCard, Sequence[str]]]
"""Each card with the names of its files."""


def summary_markdown(day: DayAnswer, cards: Files, sheets: Sequence[str]) -> str:
    """Who sails what, what each boat is expected to do, and who does not sail today, as Markdown."""
    parts = [f"# {_title(day)}", texts.SUMMARY_FIRST, *_day(day)]
    for card, names in cards:
        words = words_of(card)
        links = ", ".join(f"[{name}]({name})" for name in names)
        parts += [f"## {_boat(card)}", _choice(words), "\n".join(_markdown_table(words))]
        parts += [" ".join(words.expect_notes), _swing(card), texts.SUMMARY_CARDS.format(cards=links)]
    parts += [f"## {texts.SUMMARY_ASHORE}", *_ashore(day)]
    parts.append(texts.SUMMARY_SHEETS.format(sheets=", ".join(f"[{name}]({name})" for name in sheets)))
    return "\n\n".join(parts) + "\n"


def summary_text(day: DayAnswer, cards: Files, sheets: Sequence[str]) -> str:
    """The same for a terminal."""
    parts = [_title(day), fill(texts.SUMMARY_FIRST, WIDTH), *(fill(words, WIDTH) for words in _day(day))]
    for card, names in cards:
        words = words_of(card)
        rows = "\n".join(turned_columns(words.expect_head, words.expect))
        parts += [f"{_boat(card)}\n{rows}", fill(_choice(words), WIDTH), fill(_swing(card), WIDTH)]
        parts.append(texts.SUMMARY_CARDS.format(cards=", ".join(names)))
    parts += [texts.SUMMARY_ASHORE, *(fill(words, WIDTH) for words in _ashore(day))]
    parts.append(texts.SUMMARY_SHEETS.format(sheets=", ".join(sheets)))
    return "\n\n".join(parts) + "\n"


def _title(day: DayAnswer) -> str:
    summary = day["summary"]
    return texts.SUMMARY_TITLE.format(place=summary["place"], date=summary["date"])


def _day(day: DayAnswer) -> list[str]:
    return [" ".join([*day["summary"]["wind"], day["summary"]["water"]])]


def _ashore(day: DayAnswer) -> list[str]:
    """Who has no boat and what would change it, and what is exceeded or unknown: a paragraph each."""
    lines = [f"{one['sailor']}: {one['sentence']}" for one in day["not_today"]]
    return [*lines, *day["summary"]["out_of_service"], *day["summary"]["warned"]]


def _boat(card: SetupCard) -> str:
    return f"{card.boat}: {card.sailor}"


def _choice(words: CardWords) -> str:
    """What to change first, in one paragraph."""
    choice = words.choice
    turns = f"{'; '.join(choice.moves)}." if choice.moves else ""
    return " ".join(part for part in (f"{choice.title}:", turns, *choice.notes) if part)


def _swing(card: SetupCard) -> str:
    return texts.SUMMARY_SWING.format(
        readings="; ".join(f"{_inside(how)} {reading}" for how, reading in swing_words(card))
    )


def _inside(words: str) -> str:
    """Words as they stand inside a sentence."""
    return words[0].lower() + words[1:]


def _markdown_table(words: CardWords) -> list[str]:
    """A column a wind."""
    head, *rows = zip((words.expect_title, *words.expect_head), *words.expect, strict=True)
    ruler = ["---"] * len(head)
    return [f"| {' | '.join(row)} |" for row in (head, ruler, *rows)]
