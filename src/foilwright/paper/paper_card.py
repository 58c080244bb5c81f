"""The paper card: one A5 side as PDF, or two on an A4 sheet; always the same bytes for the same card.

The largest drawings with which everything fits on the side are taken; a card that still does not fit is
refused rather than cut off.
"""

import json
from collections.abc import Sequence
from importlib.resources import files

from foilwright.documents.setup_card import SetupCard
from foilwright.mistakes import Mistake
from foilwright.paper import texts
from foilwright.paper.boat_drawing import BoatDrawing, boat_drawing
from foilwright.paper.card_words import (
    CardWords,
    boat_caption,
    chain_caption,
    notes_by_length,
    numbered_rows,
    paper_setting,
    words_of,
)
from foilwright.paper.chain_drawing import chain_drawing
from foilwright.paper.svg_marks import FONT

WIDTH_MM, HEIGHT_MM = 148.0, 210.0
BOAT_WIDTH_MM, CHAIN_WIDTH_MM = 87.0, 136.0
SWING_WIDTH_MM = 47.0
DAY_BOAT_WIDTH_MM, DAY_SWING_WIDTH_MM = 69.0, 65.0  # the card of a day has less height for both
TEXT_MM = 9.0 * 25.4 / 72.0  # 9 pt, the least on a card read with wet hands
# Greatest heights of the two drawings, largest first; without room for the chain the boat alone. Where even
# the smallest has no room the next best settings are left out, then all but the first reason: the other forms
# have them.
HEIGHTS_MM = (
    (64.0, 26.0), (52.0, 23.0), (44.0, 21.0), (54.0, 0.0), (48.0, 0.0), (44.0, 0.0), (40.0, 0.0), (36.0, 0.0),
    (32.0, 0.0), (32.0, 0.0), (32.0, 0.0),
)  # fmt: skip
DAY_HEIGHTS_MM = (
    (52.0, 23.0), (44.0, 21.0), (52.0, 0.0), (44.0, 0.0), (36.0, 0.0), (32.0, 0.0), (28.0, 0.0), (25.0, 0.0),
    (22.0, 0.0), (22.0, 0.0), (22.0, 0.0),
)  # fmt: skip
SECOND_SIDE = "needs a second side"
MADE = 0  # seconds: the date belongs to the words, never to the file


def paper_card(card: SetupCard) -> bytes:
    """The card as PDF, one A5 side."""
    return _compiled((card,), "a5")


def paper_sheet(cards: Sequence[SetupCard]) -> bytes:
    """Cards two by two on A4 sheets, landscape, to be cut along the middle."""
    return _compiled(cards, "a4")


def _compiled(cards: Sequence[SetupCard], sheet: str) -> bytes:
    import typst

    here = files("foilwright.paper")
    try:
        pdf, warnings = typst.compile_with_warnings(
            str(here.joinpath("card.typ")),
            font_paths=[str(here.joinpath("fonts"))],
            ignore_system_fonts=True,
            sys_inputs={"cards": json.dumps([_content(card) for card in cards]), "sheet": sheet},
            format="pdf",
            timestamp=MADE,
        )
    except typst.TypstError as error:
        if SECOND_SIDE not in error.message:
            raise
        names = ", ".join(dict.fromkeys(card.boat for card in cards))
        most = max(len(card.settings) for card in cards)
        raise Mistake(
            f"card of {names}",
            f"{most} adjusters, more than one A5 side holds",
            "what fits on one A5 side in 9 pt",
            "Take the HTML form.",
        ) from None
    if warnings:
        raise RuntimeError(f"the card's template warns: {warnings[0].message}")
    assert isinstance(pdf, bytes)
    return pdf


def _content(card: SetupCard) -> dict[str, object]:
    """What the template is filled with."""
    words = words_of(card)
    heights = heights_of(card)
    boats = _boats(card, words)
    of_chain = texts.CHAIN_TITLE.format(boat=card.boat)
    chains = [
        chain_drawing(card.view, of_chain, CHAIN_WIDTH_MM, TEXT_MM, 4, height) if height else ("", 0.0)
        for _, height in heights
    ]
    both = zip(words.settings, card.settings, strict=True)
    plain = [(name, paper_setting(one), mark) for (name, _, mark), one in both]
    notes = notes_by_length(card)
    rows = numbered_rows(plain) if boats[0].numbered else plain
    return {
        "font": FONT,
        "second-side": SECOND_SIDE,
        "kind": texts.CARD,
        "title": words.title,
        "mark": words.mark,
        "whom": words.for_whom,
        "boats": [boat.svg for boat in boats],
        "boat-captions": [boat_caption(card, boat.scale) for boat in boats],
        "chains": [svg for svg, _ in chains],
        "chain-captions": [chain_caption(card, scale) if svg else "" for svg, scale in chains],
        "settings-title": texts.SETTINGS_TITLE,
        "settings-head": texts.SETTINGS_HEAD,
        "settings": [(*row, one.change != 0) for row, one in zip(rows, card.settings, strict=True)],
        "no-settings": texts.NO_SETTINGS,
        "choice-title": words.choice.title,
        "one-at-a-time": texts.ONE_AT_A_TIME,
        "moves": words.choice.moves,
        "choice-notes": [*[notes[0]] * (len(heights) - 2), *notes[1:]],
        "expect-title": words.expect_title,
        "expect-head": words.expect_head,
        "expect-bold": 3 if card.winds else 2,
        "of-day": bool(card.winds),
        "swing-width": DAY_SWING_WIDTH_MM if card.winds else SWING_WIDTH_MM,
        "expect": words.expect,
        "expect-notes": " ".join((*words.expect_notes, texts.RULE)),
        "no-flight-title": texts.NO_FLIGHT_TITLE,
        "no-flight": words.no_flight,
        "grid-title": texts.GRID_TITLE,
        "grid-tops": list(texts.GRID_TOPS.values()),
        "grid": words.grid,
        "swing-title": texts.SWING_TITLE,
        "swing": words.swing,
        "swing-read": texts.SWING_READ,
        "cautions-title": texts.CAUTIONS_TITLE,
        "cautions": " ".join(texts.CAUTIONS),
        "stop-title": texts.STOP_TITLE,
        "stop": texts.STOP,
        "valid": " ".join(words.valid),
    }


def _boats(card: SetupCard, words: CardWords) -> list[BoatDrawing]:
    """The boat in every height, all labelled alike: in full where even the smallest has room for it."""
    title = texts.DRAWING_TITLE.format(boat=card.boat)
    width = DAY_BOAT_WIDTH_MM if card.winds else BOAT_WIDTH_MM

    def drawn(height: float, full: bool) -> BoatDrawing:
        labels = words.labels if full else ()
        return boat_drawing(card.view, labels, words.numbered, title, width, height, TEXT_MM)

    heights = [height for height, _ in heights_of(card)]
    full = not any(drawn(height, True).numbered for height in (heights[0], heights[-1]))
    return [drawn(height, full) for height in heights]


def heights_of(card: SetupCard) -> Sequence[tuple[float, float]]:
    """The heights of the drawings to be tried."""
    return DAY_HEIGHTS_MM if card.winds else HEIGHTS_MM
