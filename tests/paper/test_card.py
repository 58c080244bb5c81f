"""The card: one A5 side, everything on it, nothing that permits, the same in every form and every time."""

import io
import re
from functools import cache
from html.parser import HTMLParser
from importlib.resources import files
from typing import Any

import pypdf
import pytest

from foilwright.documents import turn_texts
from foilwright.documents.setup_card import SetupCard
from foilwright.jobs import desk
from foilwright.paper import texts
from foilwright.paper.paper_card import TEXT_MM, paper_card, paper_sheet
from foilwright.paper.svg_marks import FONT

pytestmark = pytest.mark.usefixtures("compiled_physics")
BOATS = ("marram", "marram-curve", "marram-reversed", "pipkin", "sedge")
A5_POINTS = (148.0 / 25.4 * 72.0, 210.0 / 25.4 * 72.0)
LEAST_POINTS = 9.0
PERMITS = re.compile(
    r"\b(safe|safely|go|going|ok|okay|ready|fit to|allowed|permitted|approved|clear to|may sail)\b|[✓✔✅]",
    re.IGNORECASE,
)
# What may be said with such a word in it: the boat that watches, and what the tool does not do.
HARMLESS = re.compile(r"safety boat|nobody leave to sail", re.IGNORECASE)
SHALL_BE_THERE = (
    "helmet", "impact vest that floats", "boots", "hook knife", "depth", "mast", "righting", "safety boat",
    "spacing", "leeward", "Cold", "procedures", "local rules", "Stop if", "coach's signal", "swing check",
    "Void",
)  # fmt: skip


def page_of(pdf: bytes) -> pypdf.PageObject:
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    assert len(reader.pages) == 1
    return reader.pages[0]


def one_line(words: str) -> str:
    return " ".join(words.split())


class Words(HTMLParser):
    """The visible words of a page."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[str] = []
        self.hidden = 0
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        self.hidden += tag in ("style", "title")

    def handle_endtag(self, tag):
        self.hidden -= tag in ("style", "title")

    def handle_data(self, data):
        if not self.hidden:
            self.found.append(data)

    @property
    def text(self) -> str:
        return one_line(" ".join(self.found))


@pytest.mark.parametrize("boat", BOATS)
def test_paper_is_one_a5_side(make_card, boat):
    page = page_of(make_card(boat, "paper").content)
    assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(A5_POINTS, abs=0.05)


@pytest.mark.parametrize("boat", ["marram", "sedge"])
def test_no_text_is_smaller_than_nine_points(make_card, boat):
    sizes = set()

    def note(text, user_matrix, text_matrix, font, size):
        if text.strip():
            # The size on paper: the font's size through both matrices.
            a, b = text_matrix[0], text_matrix[1]
            scale = (a * a + b * b) ** 0.5
            c, d = user_matrix[0], user_matrix[1]
            sizes.add(round(size * scale * (c * c + d * d) ** 0.5, 2))

    page_of(make_card(boat, "paper").content).extract_text(visitor_text=note)
    assert sizes
    assert min(sizes) >= LEAST_POINTS - 0.01, sizes


def test_words_in_the_drawings_are_nine_points():
    assert pytest.approx(LEAST_POINTS) == TEXT_MM / 25.4 * 72.0


@pytest.mark.parametrize("boat", BOATS)
def test_nothing_lies_outside_the_page(make_card, boat):
    places = []

    def note(text, user_matrix, text_matrix, font, size):
        if text.strip():
            x = text_matrix[4] * user_matrix[0] + text_matrix[5] * user_matrix[2] + user_matrix[4]
            y = text_matrix[4] * user_matrix[1] + text_matrix[5] * user_matrix[3] + user_matrix[5]
            places.append((x, y))

    page_of(make_card(boat, "paper").content).extract_text(visitor_text=note)
    assert all(10.0 < x < A5_POINTS[0] - 10.0 and 10.0 < y < A5_POINTS[1] - 10.0 for x, y in places)


def test_only_our_font_is_in_the_pdf(make_card):
    page = page_of(make_card("marram", "paper").content)
    fonts: Any = page["/Resources"]
    names = [str(font.get_object()["/BaseFont"]) for font in fonts["/Font"].values()]
    assert names
    assert all(FONT.replace(" ", "") in name for name in names), names


@cache
def chosen(boat: str, stage: str) -> SetupCard:
    """A card with its settings chosen, over a range that all boats fly in."""
    usual = desk.open_boat(boat).numbers["crew.usual_mass_kg"]
    return desk.card(boat, usual, "10:18", stage, "text").card


@pytest.mark.parametrize("stage", ["first-hops", "improving", "expert"])
@pytest.mark.parametrize("boat", BOATS)
def test_a_chosen_card_is_one_a5_side_with_all_on_it(boat, stage):
    card = chosen(boat, stage)
    page = page_of(paper_card(card))
    assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(A5_POINTS, abs=0.05)
    said = one_line(page.extract_text())
    assert card.choice is not None
    for words in (*card.choice.moves, *card.choice.why, *texts.CAUTIONS, texts.STOP, texts.RULE):
        assert one_line(words).removeprefix("Change nothing: ").lower() in said.lower(), words
    for row in card.short_grid.values():
        for cell in row.values():
            assert one_line(cell or texts.GRID_EMPTY) in said, cell
    for pace in texts.PACE[3]:
        assert pace in said
    assert PERMITS.search(HARMLESS.sub("", said)) is None


def test_changes_stand_in_their_order_with_what_they_do_and_settings_say_from_where():
    card = chosen("marram", "improving")
    assert card.choice is not None and len(card.choice.moves) >= 1
    assert card.choice.moves[0].startswith("First: ")
    said = one_line(desk.rendered(card, "text").decode())
    for setting in card.settings:
        assert ("(now mark)" in said) == any(one.change for one in card.settings), setting
    assert "Change first" in said


def test_nothing_to_change_is_said_at_once():
    card = chosen("sedge", "settled")
    assert card.choice is not None and not card.choice.moves
    said = one_line(page_of(paper_card(card)).extract_text())
    assert "Change nothing" in said and "Change first" not in said


def test_two_cards_stand_on_one_a4_sheet():
    reader = pypdf.PdfReader(
        io.BytesIO(paper_sheet([chosen("marram", "improving"), chosen("sedge", "settled")]))
    )
    [page] = reader.pages
    a4_landscape = (297.0 / 25.4 * 72.0, 210.0 / 25.4 * 72.0)
    assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(a4_landscape, abs=0.05)
    said = one_line(page.extract_text())
    assert "Marram" in said and "Sedge" in said and said.count(one_line(texts.STOP)) == 2
    three = paper_sheet([chosen("marram", "improving")] * 3)
    assert len(pypdf.PdfReader(io.BytesIO(three)).pages) == 2


def test_long_names_still_fit():
    """The longest names that invented boats have had, and a long first name."""
    card = chosen("marram", "improving")
    names = ("port-threaded-barrel", "bow-wand-extension", "lever-hole-position", "rudder-twist-grip",
             "wand-elastic-knot", "sailor-place-aft")  # fmt: skip
    settings = tuple(
        one._replace(adjuster=name, steps=-2.5) for one, name in zip(card.settings, names, strict=True)
    )
    anchors = dict(zip(names, card.view.anchors.values(), strict=True))
    parts = {part: f"{name}-mended-twice" for part, name in card.parts.items()}
    long = card._replace(
        boat="Great Burnet of Otterpool", sailor="Bartholomew", settings=settings, parts=parts,
        view=card.view._replace(anchors=anchors),
    )  # fmt: skip
    said = one_line(page_of(paper_card(long)).extract_text())
    assert "Bartholomew" in said and all(name.replace("-", " ") in said for name in names)


@pytest.mark.parametrize("form", ["paper", "html"])
def test_same_card_same_bytes(form):
    first, second = (desk.card("marram", 75.0, form=form, speeds=[12.0]).content for _ in range(2))
    assert first == second


def words_in(make_card, boat: str, form: str) -> str:
    content = make_card(boat, form).content
    if form == "paper":
        return one_line(page_of(content).extract_text())
    return Words(content.decode()).text if form == "html" else one_line(content.decode())


@pytest.mark.parametrize("form", ["paper", "html", "text"])
def test_every_caution_is_there(make_card, form):
    said = words_in(make_card, "marram", form)
    for words in (*texts.CAUTIONS, texts.STOP, texts.RULE, texts.SWING_READ, *SHALL_BE_THERE):
        assert one_line(words) in said, words


@pytest.mark.parametrize("form", ["paper", "html", "text"])
@pytest.mark.parametrize("boat", BOATS)
def test_nothing_permits(make_card, boat, form):
    said = HARMLESS.sub("", words_in(make_card, boat, form))
    assert PERMITS.search(said) is None, PERMITS.search(said)


def test_no_text_of_ours_permits():
    for module in (texts, turn_texts):
        for name, value in vars(module).items():
            if name.isupper():
                for words in (
                    value.values()
                    if isinstance(value, dict)
                    else (value if isinstance(value, tuple) else [value])
                ):
                    for said in [words] if isinstance(words, str) else words:
                        assert PERMITS.search(HARMLESS.sub("", said)) is None, name


@pytest.mark.parametrize("form", ["paper", "html", "text"])
def test_no_mass_stands_on_a_card(form):
    content = desk.card("marram", 77.7, [12.0, 14.0], "improving", form).content
    said = page_of(content).extract_text() if form == "paper" else content.decode()
    said = re.sub(r"base64,[^)]*", "", said)
    assert "77.7" not in said and "78 kg" not in said
    assert " kg" not in said


@pytest.mark.parametrize("form", ["paper", "html", "text"])
def test_settings_readings_and_validity_stand_on_it(make_card, form):
    made = make_card("marram", form)
    said = words_in(make_card, "marram", form)
    answer = made.answer
    assert answer["boat_version"] in said
    assert "marram-main-1" in said and "invented example" in said
    for setting in answer["settings"]:
        assert setting["adjuster"].replace("-", " ") in said
    back, forward = answer["swing_check"]["back_mm"], answer["swing_check"]["forward_mm"]
    assert f"{abs(back):.0f} mm {'down' if back > 0 else 'up'}" in said
    assert f"{abs(forward):.0f} mm {'down' if forward > 0 else 'up'}" in said
    assert f"{answer['take_off_speed_kn']:.1f} kn" in said
    assert "14 mm: threads showing ahead of the lock nut" in said  # how to find the mark again


@pytest.mark.parametrize("form", ["paper", "html", "text"])
def test_a_setting_off_its_mark_moves_the_ruler_too(form):
    made = desk.card("marram", 75.0, speeds=[12.0], form=form, settings={"main-rod": 2, "wand-length": -1})
    content = made.content
    said = one_line(page_of(content).extract_text()) if form == "paper" else one_line(content.decode())
    assert "+2 turns" in said and "−1 hole" in said
    assert "16 mm: threads" in said and "190 mm: wand showing" in said


def test_a_first_name_may_stand_on_it(tmp_path):
    sailor = tmp_path / "ash.toml"
    sailor.write_text(
        'format = "foilwright/sailor"\nversion = 1\n'
        'name = "Ash"\nmass_band_kg = [70, 75]\nstage = "improving"\n'
    )
    made = desk.card("marram", str(sailor), speeds=[12.0, 14.0], form="text")
    assert "for Ash" in made.content.decode()
    assert "Height wanted (improving): 0.25 m to 0.45 m." in one_line(made.content.decode())
    assert "72" not in made.content.decode().replace(made.answer["boat_version"], "")


def test_a_boat_that_does_not_fly_gets_its_card_with_the_reason():
    for form in ("paper", "html", "text"):
        made = desk.card("marram", 75.0, speeds=[4.0, 6.0], form=form)
        words = page_of(made.content).extract_text() if form == "paper" else Words(made.content.decode()).text
        assert "Between 4 kn and 6 kn the hull stays in the water." in one_line(words)
        assert texts.NO_FLIGHT_TITLE in one_line(words)
    assert made.answer["sentence"].startswith("Between 4 kn")


def test_html_needs_nothing_from_elsewhere(make_card):
    page = make_card("marram", "html").content.decode()
    assert not re.search(r"<script|@import", page)
    for tag, attributes in Words(page).tags:
        for name in ("src", "href"):
            assert (attributes.get(name) or "data:").startswith("data:"), tag
    assert all(url.startswith("data:font/woff2") for url in re.findall(r"url\(([^)]*)\)", page))


def test_html_can_be_read_aloud(make_card):
    tags = Words(make_card("marram", "html").content.decode()).tags
    drawings = [attributes for tag, attributes in tags if tag == "svg"]
    assert len(drawings) == 2 and all(one["aria-label"] for one in drawings)
    assert ("html", {"lang": "en"}) in tags
    assert [tag for tag, _ in tags].count("h1") == 1


def test_the_licence_lies_beside_the_fonts():
    folder = files("foilwright.paper").joinpath("fonts")
    assert "SIL OPEN FONT LICENSE" in folder.joinpath("OFL.txt").read_text()
    assert {one.name for one in folder.iterdir() if one.name.endswith((".ttf", ".woff2"))} == {
        f"AtkinsonHyperlegibleNext-{name}"
        for name in ("Regular.ttf", "Bold.ttf", "latin-Regular.woff2", "latin-Bold.woff2")
    }
