"""The setup card as one HTML file: opens anywhere with no network or scripts, fonts and drawings inside."""

from base64 import b64encode
from collections.abc import Sequence
from html import escape
from importlib.resources import files

from foilwright.documents.setup_card import SetupCard
from foilwright.paper import texts
from foilwright.paper.boat_drawing import boat_drawing
from foilwright.paper.card_words import ChoiceWords, boat_caption, chain_caption, numbered_rows, words_of
from foilwright.paper.chain_drawing import chain_drawing
from foilwright.paper.svg_marks import FONT

# On the narrowest phone a drawing is about 330 pixels wide; words in it are then 16 pixels high.
DRAWING_WIDTH = 100.0
WORDS = 4.9
BOAT_HEIGHT = 95.0
WINDOW_HEIGHT = 42.0


def html_card(card: SetupCard) -> str:
    """The card as HTML."""
    words = words_of(card)
    title = texts.DRAWING_TITLE.format(boat=card.boat)
    boat = boat_drawing(card.view, (), words.numbered, title, DRAWING_WIDTH, BOAT_HEIGHT, WORDS, "")
    chain, chain_scale = chain_drawing(
        card.view, texts.CHAIN_TITLE.format(boat=card.boat), DRAWING_WIDTH, WORDS, 2, WINDOW_HEIGHT, ""
    )
    mark = f' <span class="mark">{escape(words.mark)}</span>' if words.mark else ""
    kind = f"{texts.CARD} {words.for_whom}".strip()
    expect = (
        [_heading(texts.NO_FLIGHT_TITLE), _paragraph(words.no_flight)]
        if words.no_flight
        else [_heading(words.expect_title), _expect(words.expect_head, words.expect)]
    )
    settings = [(*row, "", "") for row in numbered_rows(words.settings)]
    body = [
        f"<header><h1>{escape(words.title)}{mark}</h1><p>{escape(kind)}</p></header>",
        _figure(boat.svg, boat_caption(card, boat.scale, False)),
        _heading(texts.SETTINGS_TITLE),
        _table(texts.SETTINGS_HEAD, settings, "settings") if settings else _paragraph(texts.NO_SETTINGS),
        '<section class="swing">',
        _heading(texts.SWING_TITLE),
        *(f"<p>{escape(lead)} <strong>{escape(reading)}</strong></p>" for lead, reading in words.swing),
        _paragraph(texts.SWING_READ),
        "</section>",
        *_choice(words.choice),
        *expect,
        _paragraph(" ".join(words.expect_notes)),
        *([_paragraph(" ".join(words.seen))] if words.seen else []),
        *_grid(words.full_grid),
        _paragraph(texts.RULE),
        _figure(chain, chain_caption(card, chain_scale, False)),
        _heading(texts.CAUTIONS_TITLE),
        "<ul>",
        *(f"<li>{escape(caution)}</li>" for caution in texts.CAUTIONS),
        "</ul>",
        f'<p class="stop"><strong>{escape(texts.STOP_TITLE)}</strong> {escape(texts.STOP)}</p>',
        *(_paragraph(sentence) for sentence in words.valid),
    ]
    title = f"{escape(words.title)}, {escape(texts.CARD)}"
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f'<title>{title}</title>\n<link rel="icon" href="data:,">\n'
        f"<style>\n{_fonts()}{STYLE}</style>\n</head>\n"
        f"<body>\n<main>\n{chr(10).join(body)}\n</main>\n</body>\n</html>\n"
    )


def _choice(choice: ChoiceWords) -> list[str]:
    if not choice.title:
        return [_paragraph(note) for note in choice.notes]
    lead = [_paragraph(texts.ONE_AT_A_TIME)] if len(choice.moves) > 1 else []
    moves = [f"<li><strong>{escape(move)}</strong></li>" for move in choice.moves]
    return [
        '<section class="first">',
        _heading(choice.title),
        *lead,
        *(["<ul>", *moves, "</ul>"] if moves else []),
        *(_paragraph(note) for note in (*choice.notes, choice.tried) if note),
        "</section>",
    ]


def _expect(head: Sequence[str], expect: Sequence[Sequence[str]]) -> str:
    """A column a speed."""
    paces, *rows = list(zip(("", *head), *expect, strict=True))
    return _table([f"{pace}" for pace in paces], rows)


def _grid(rows: Sequence[Sequence[str]]) -> list[str]:
    """The grid: a table where there is room for one, one place under the other on a phone."""
    if not rows:
        return []
    tops = list(texts.GRID_TOPS.values())
    head = "".join(f'<th scope="col">{escape(words)}</th>' for words in (texts.GRID_TITLE, *tops))
    body = "\n".join(
        f'<tr><th scope="row">{escape(side)}</th>'
        + "".join(
            f'<td data-at="{escape(texts.SEEN_PLACE.format(side=side, top=top))}">{escape(cell)}</td>'
            for top, cell in zip(tops, cells, strict=True)
        )
        + "</tr>"
        for side, *cells in rows
    )
    return [
        _heading(texts.GRID_LEAD),
        f'<table class="grid">\n<thead><tr>{head}</tr></thead>\n<tbody>\n{body}\n</tbody>\n</table>',
    ]


def _figure(svg: str, caption: str) -> str:
    return f"<figure>{svg}<figcaption>{escape(caption)}</figcaption></figure>"


def _heading(words: str) -> str:
    return f"<h2>{escape(words)}</h2>"


def _paragraph(words: str) -> str:
    return f"<p>{escape(words)}</p>"


def _table(head: Sequence[str], rows: Sequence[Sequence[str]], name: str = "expect") -> str:
    top = "".join(f'<th scope="col">{escape(words)}</th>' for words in head)
    body = "\n".join(
        f'<tr><th scope="row">{escape(first)}</th>'
        + "".join(f"<td>{escape(words)}</td>" for words in rest)
        + "</tr>"
        for first, *rest in rows
    )
    return f'<table class="{name}">\n<thead><tr>{top}</tr></thead>\n<tbody>\n{body}\n</tbody>\n</table>'


def _fonts() -> str:
    folder = files("foilwright.paper").joinpath("fonts")
    faces = []
    for weight, name in ((400, "Regular"), (700, "Bold")):
        data = b64encode(
            folder.joinpath(f"AtkinsonHyperlegibleNext-latin-{name}.woff2").read_bytes()
        ).decode()
        faces.append(
            f'@font-face{{font-family:"{FONT}";font-weight:{weight};'
            f'src:url(data:font/woff2;base64,{data}) format("woff2")}}\n'
        )
    return "".join(faces)


STYLE = f"""*{{box-sizing:border-box}}
body{{margin:0;background:#fff;color:#000;font:18px/1.4 "{FONT}",sans-serif}}
main{{max-width:36rem;margin:0 auto;padding:.75rem}}
header{{display:flex;justify-content:space-between;align-items:baseline;gap:1rem;border-bottom:1px solid}}
header p{{margin:0;white-space:nowrap}}
h1{{font-size:1.7rem;margin:0;line-height:1.2}}
h2{{font-size:1.15rem;margin:1.1rem 0 .3rem}}
p{{margin:.35rem 0}}
ul{{margin:.35rem 0;padding-left:1.2rem}}
li{{margin:.25rem 0}}
.mark{{font-size:1rem;font-weight:400;border:1px solid;padding:.1rem .4rem;white-space:nowrap}}
.mark{{vertical-align:middle}}
figure{{margin:.6rem 0}}
figcaption{{margin-top:.3rem}}
svg{{display:block;width:100%;height:auto}}
table{{border-collapse:collapse;width:100%}}
th,td{{text-align:left;vertical-align:top;padding:.35rem .4rem .35rem 0;border-bottom:1px solid #999}}
.expect td,.expect th{{font-size:16px}}
.settings th:nth-child(n+4),.settings td:nth-child(n+4){{display:none}}
.grid td,.grid th{{font-size:16px}}
.swing,.stop,.first{{border:2px solid;padding:.3rem .6rem .5rem;margin:1rem 0}}
.swing h2,.first h2{{margin-top:.2rem}}
@media (max-width:39.99rem){{
.grid,.grid tbody,.grid tr,.grid td{{display:block}}
.grid thead,.grid tbody th{{display:none}}
.grid td::before{{content:attr(data-at) ": ";font-weight:700}}
}}
@media (min-width:40rem),print{{
.settings th:nth-child(n+4),.settings td:nth-child(n+4){{display:table-cell;width:4.5rem}}
.settings th:nth-child(n+4),.settings td:nth-child(n+4){{border-left:1px solid #999;padding-left:.4rem}}
}}
@media print{{body{{font-size:11pt}}figure,table,.swing,.stop{{break-inside:avoid}}}}
"""
