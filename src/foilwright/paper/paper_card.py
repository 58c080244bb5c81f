"""The paper card: one A5 side as PDF, always the same bytes for the same card.

The drawings are made smaller until everything fits on the side; a card that still does not fit is refused
rather than cut off.
"""

import json
from importlib.resources import files

from foilwright.documents.setup_card import SetupCard
from foilwright.mistakes import Mistake
from foilwright.paper import texts
from foilwright.paper.boat_drawing import boat_drawing
from foilwright.paper.card_words import CardWords, boat_caption, chain_caption, numbered_rows, words_of
from foilwright.paper.chain_drawing import chain_drawing
from foilwright.paper.svg_marks import FONT

WIDTH_MM, HEIGHT_MM = 148.0, 210.0
DRAWING_WIDTH_MM = 136.0
TEXT_MM = 9.0 * 25.4 / 72.0  # 9 pt, the least on a card read with wet hands
# Greatest heights of the two drawings, largest first, and the pair that most cards come out with.
HEIGHTS_MM = (
    (74.0, 26.0), (70.0, 25.0), (66.0, 24.5), (63.0, 24.0), (60.0, 23.0), (57.0, 22.5), (54.0, 22.0),
    (51.0, 21.5), (48.0, 21.0), (45.0, 21.0), (42.0, 21.0), (39.0, 21.0),
)  # fmt: skip
USUAL = 4
SECOND_SIDE = "needs a second side"
MADE = 0  # seconds: the date belongs to the words, never to the file


def paper_card(card: SetupCard) -> bytes:
    """The card as PDF."""
    words = words_of(card)
    place = USUAL
    pdf = _compiled(card, words, *HEIGHTS_MM[place])
    if pdf is not None:
        while place > 0:
            place -= 1
            larger = _compiled(card, words, *HEIGHTS_MM[place])
            if larger is None:
                break
            pdf = larger
        return pdf
    for heights in HEIGHTS_MM[USUAL + 1 :]:
        pdf = _compiled(card, words, *heights)
        if pdf is not None:
            return pdf
    raise Mistake(
        f"card of {card.boat}",
        f"{len(card.settings)} adjusters and {len(card.expected)} rows, more than one A5 side holds",
        "what fits on one A5 side in 9 pt",
        "Ask for fewer speeds, or take the HTML form.",
    )


def _compiled(card: SetupCard, words: CardWords, boat_height: float, chain_height: float) -> bytes | None:
    """The PDF with its drawings at most this high; nothing if it needs a second side."""
    import typst

    width = DRAWING_WIDTH_MM
    title = texts.DRAWING_TITLE.format(boat=card.boat)
    boat = boat_drawing(card.view, words.labels, words.numbered, title, width, boat_height, TEXT_MM)
    if boat.numbered:
        words = words._replace(settings=tuple(numbered_rows(words.settings)))
    chain, chain_scale = chain_drawing(
        card.view, texts.CHAIN_TITLE.format(boat=card.boat), width, TEXT_MM, 4, chain_height
    )
    content = _content(card, words, boat_caption(card, boat.scale), chain_caption(card, chain_scale))
    here = files("foilwright.paper")
    try:
        pdf, warnings = typst.compile_with_warnings(
            str(here.joinpath("card.typ")),
            font_paths=[str(here.joinpath("fonts"))],
            ignore_system_fonts=True,
            sys_inputs={"card": json.dumps(content), "boat": boat.svg, "chain": chain},
            format="pdf",
            timestamp=MADE,
        )
    except typst.TypstError as error:
        if SECOND_SIDE in error.message:
            return None
        raise
    if warnings:
        raise RuntimeError(f"the card's template warns: {warnings[0].message}")
    assert isinstance(pdf, bytes)
    return pdf


def _content(card: SetupCard, words: CardWords, of_boat: str, of_chain: str) -> dict[str, object]:
    """What the template is filled with."""
    return {
        "font": FONT,
        "second-side": SECOND_SIDE,
        "kind": texts.CARD,
        "title": words.title,
        "mark": words.mark,
        "whom": words.for_whom,
        "boat-caption": of_boat,
        "chain-caption": of_chain,
        "settings-title": texts.SETTINGS_TITLE,
        "settings-head": texts.SETTINGS_HEAD,
        "settings": words.settings,
        "no-settings": texts.NO_SETTINGS,
        "expect-head": texts.EXPECT_HEAD,
        "expect": words.expect,
        "expect-notes": " ".join(words.expect_notes),
        "no-flight-title": texts.NO_FLIGHT_TITLE,
        "no-flight": words.no_flight,
        "swing-title": texts.SWING_TITLE,
        "swing": words.swing,
        "swing-read": texts.SWING_READ,
        "rule": texts.RULE,
        "cautions-title": texts.CAUTIONS_TITLE,
        "cautions": " ".join(texts.CAUTIONS),
        "stop-title": texts.STOP_TITLE,
        "stop": texts.STOP,
        "valid": " ".join(words.valid),
    }
