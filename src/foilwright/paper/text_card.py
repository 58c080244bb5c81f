"""The setup card as plain text for a terminal or a message: the same sentences, no drawings."""

import textwrap
from collections.abc import Sequence

from foilwright.documents.setup_card import SetupCard
from foilwright.paper import texts
from foilwright.paper.card_words import words_of

WIDTH = 78


def text_card(card: SetupCard) -> str:
    """The card as text, at most 78 characters wide."""
    words = words_of(card)
    mark = f"  ({words.mark})" if words.mark else ""
    kind = f"{texts.CARD} {words.for_whom}".strip()
    lines = [f"{words.title}{mark}, {kind}", ""]
    lines += [
        texts.SWING_TITLE,
        *(f"  {lead} {reading}" for lead, reading in words.swing),
        *_wrapped(texts.SWING_READ),
    ]
    lines += ["", texts.SETTINGS_TITLE]
    lines += (
        columns(texts.SETTINGS_HEAD[:3], words.settings) if words.settings else _wrapped(texts.NO_SETTINGS)
    )
    lines.append("")
    choice = words.choice
    if choice.title:
        lines.append(f"{choice.title}. {texts.ONE_AT_A_TIME}" if len(choice.moves) > 1 else choice.title)
    for sentence in (*choice.moves, *choice.notes, choice.tried):
        lines += _wrapped(sentence)
    lines.append("")
    if words.no_flight:
        lines += [texts.NO_FLIGHT_TITLE, *_wrapped(words.no_flight)]
    else:
        lines += [words.expect_title, *turned_columns(words.expect_head, words.expect)]
    for sentence in (*words.expect_notes, *words.seen, texts.RULE):
        lines += _wrapped(sentence)
    if words.full_grid:
        lines += ["", texts.GRID_LEAD]
        for side, *cells in words.full_grid:
            for top, cell in zip(texts.GRID_TOPS.values(), cells, strict=True):
                place = texts.SEEN_PLACE.format(side=side, top=top)
                lines += textwrap.wrap(
                    f"{place}: {cell}", WIDTH, initial_indent="  ", subsequent_indent="    "
                )
    lines += ["", texts.CAUTIONS_TITLE]
    for caution in texts.CAUTIONS:
        lines += textwrap.wrap(caution, WIDTH, initial_indent="  - ", subsequent_indent="    ")
    lines += ["", *_wrapped(f"{texts.STOP_TITLE} {texts.STOP}", ""), ""]
    for sentence in words.valid:
        lines += _wrapped(sentence, "")
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _wrapped(words: str, indent: str = "  ") -> list[str]:
    return textwrap.wrap(
        words, WIDTH, initial_indent=indent, subsequent_indent=indent, break_on_hyphens=False
    )


def turned_columns(head: Sequence[str], expect: Sequence[Sequence[str]]) -> list[str]:
    """What to expect with a column a speed."""
    rows = list(zip(("", *head), *expect, strict=True))
    return columns(rows[0], rows[1:])


def columns(head: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """A table as lines, each column as wide as its widest entry."""
    every = [head, *rows]
    widths = [max(len(row[i]) for row in every) for i in range(len(head))]
    return [
        "  " + "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in every
    ]
