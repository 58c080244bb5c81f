"""Fleet sheet: one A4; pencil slate: both sides of one A5; 9 pt at the least, unknown as loud as exceeded."""

from __future__ import annotations

import io
import itertools
import re

import pypdf
import pytest

from foilwright.documents.fleet_sheet import Depths, FleetLine, FleetSheet
from foilwright.mistakes import Mistake
from foilwright.paper.fleet_sheet import depth_row, fleet_content, fleet_sheet
from foilwright.paper.pencil_slate import head_count_times, pencil_slate

LINES = (
    FleetLine(("Ash",), "Marram", "6.9", "foils A", ("main rod 2 turns more", "rudder rake at the mark"),
              "Too low: main rod 1 turn more. Too high: main rod 1 turn less.", "", ()),
    FleetLine(("Tansy",), "Pipkin", "5.6", "foils B", ("wand length 1 hole more",),
              "Too low: wand length 1 hole more. Too high: wand length 1 hole less.", "lacing", ("crew",)),
    FleetLine(("Rowan", "Hazel"), "Sedge", "12", "foils C", ("main rod 3 turns less",),
              "Change nothing afloat; ask.", "", ()),
)  # fmt: skip
SHEET = FleetSheet(
    invented=True,
    date="2026-06-06",
    place="Alder Mere",
    times="first launch 10:00, last ashore 12:30 (UTC+01:00)",
    wind=("Forecast at 10 m: 9 to 15 kn.", "On a hand gauge at 2 m that is 8 to 13 kn."),
    water="Sea: ripples.",
    lines=LINES,
    not_in_a_boat=("Linden",),
    absent=("Bryony",),
    out=("Clover: out of service (Teasel): crack at the strut. No card; Teasel releases it.",),
    warned=("EXCEEDED: depth at the slip.", "UNKNOWN: water temperature."),
    depths=(Depths("Marram", 1.1, 4.9, 1.6, None), Depths("Sedge", 1.3, 6.6, 1.2, 7.0)),
    before=True,
)


A4, A5 = [210, 297], [148, 210]


def words_and_sizes(pdf: bytes, paper: list[int]) -> tuple[str, list[float], int]:
    pages = pypdf.PdfReader(io.BytesIO(pdf)).pages
    sizes: list[float] = []
    words = ""
    for page in pages:
        assert [round(float(side) / 72.0 * 25.4) for side in page.mediabox[2:]] == paper
        words += page.extract_text(
            visitor_text=lambda text, cm, tm, fonts, size: (
                sizes.append(abs(size * tm[3] * cm[3])) if text.strip() else None
            )
        )
    return re.sub(r"\s+", " ", words), sizes, len(pages)


def test_the_fleet_sheet_is_one_a4_that_says_what_it_must() -> None:
    pdf = fleet_sheet(SHEET)
    assert pdf == fleet_sheet(SHEET)
    words, sizes, pages = words_and_sizes(pdf, A4)
    assert pages == 1
    assert min(sizes) >= 8.99
    for sentence in (
        "Ash", "Rowan + Hazel", "foils A", "main rod 2 turns more", "CHANGED: crew", "Note: lacing",
        "Not in a boat on this sheet: Linden", "Absent: Bryony", "Clover: out of service (Teasel)",
        "EXCEEDED: depth at the slip", "UNKNOWN: water temperature", "LESS THAN THE MAST",
        "LESS THAN FOILS AND MAST",
        "gives nobody leave to sail", "never over the foils",
    ):  # fmt: skip
        assert sentence in words, sentence


def test_the_slate_is_written_on_in_front_and_says_what_is_known_on_its_back() -> None:
    pdf = pencil_slate(SHEET, 600, 750)
    assert pdf == pencil_slate(SHEET, 600, 750)
    _, sizes, pages = words_and_sizes(pdf, A5)
    assert pages == 2
    assert min(sizes) >= 8.99
    front, back = (
        re.sub(r"\s+", " ", page.extract_text()) for page in pypdf.PdfReader(io.BytesIO(pdf)).pages
    )
    for sentence in (
        "10:00", "12:30", "Head count every ten minutes: 4 people afloat in 3 boats", "Read the back first",
        "what was changed", "flights", "downs", "capsizes", "stripes",
        "Wind by hand gauge, at 2 m Forecast at 10 m: 9 to 15 kn. On a hand gauge at 2 m that is 8 to 13 kn.",
    ):  # fmt: skip
        assert sentence in front, sentence
    for sentence in (
        "Rowan + Hazel", "Set, counted from the mark", "main rod 3 turns less. Change nothing afloat; ask.",
        "EXCEEDED: depth at the slip", "UNKNOWN: water temperature", "LESS THAN FOILS AND MAST",
        "gives nobody leave to sail", "what was changed",
    ):  # fmt: skip
        assert sentence in back, sentence


def test_nothing_about_anybodys_body_is_on_either_sheet() -> None:
    for pdf, paper in ((fleet_sheet(SHEET), A4), (pencil_slate(SHEET, 600, 750), A5)):
        words, _, _ = words_and_sizes(pdf, paper)
        assert not re.search(r"\bkg\b|\bmass\b|\bweigh|\bage\b", words, re.I)


@pytest.mark.parametrize("count", [0, 1, 8])
def test_a_fleet_of_any_usual_size_fits(count: int) -> None:
    lines = tuple(LINES[i % 3]._replace(boat=f"boat {i + 1}") for i in range(count))
    depths = tuple(Depths(f"boat {i + 1}", 1.1, 4.9, 1.6, 4.0) for i in range(count))
    sheet = SHEET._replace(lines=lines, depths=depths, warned=SHEET.warned * 3)
    for pdf, paper, sides in ((fleet_sheet(sheet), A4, 1), (pencil_slate(sheet, 600, 780), A5, 2)):
        words, sizes, pages = words_and_sizes(pdf, paper)
        assert pages == sides
        assert min(sizes) >= 8.99
        assert ("Nobody is proposed" in words) == (count == 0)


def test_a_fleet_that_does_not_fit_is_refused_in_words() -> None:
    lines = tuple(LINES[0]._replace(boat=f"boat {i}") for i in range(80))
    with pytest.raises(Mistake, match="more than one A4 holds"):
        fleet_sheet(SHEET._replace(lines=lines))
    with pytest.raises(Mistake, match=r"80 boats, more than one A5 holds.*both sides of one A5"):
        pencil_slate(SHEET._replace(lines=lines), 600, 750)


def test_depth_is_told_for_foils_and_for_the_mast_and_unknown_is_loud() -> None:
    assert depth_row(SHEET.depths[0])[1:] == ["1.1 m", "4.9 m", "1.6 m: LESS THAN THE MAST", "UNKNOWN"]
    assert depth_row(SHEET.depths[1])[3:] == ["1.2 m: LESS THAN FOILS AND MAST", "7.0 m"]


def test_without_any_warning_nothing_reads_as_leave() -> None:
    content = fleet_content(SHEET._replace(warned=()))
    assert content["warned"] == [
        "No limit that the centre entered is exceeded or unknown. That decides nothing."
    ]


def gaps_between_rules(page: pypdf.PageObject) -> list[float]:
    """Between the rules that go across the whole page, from the top [mm]."""
    ink = page.get_contents().get_data().decode("latin-1")  # type: ignore[union-attr]
    strokes = re.findall(r"q 1 0 0 -1 [\d.]+ ([\d.]+) cm[^\n]* 0 0 m ([\d.]+) 0 l\nS", ink)
    across = sorted({round(float(at) / 72.0 * 25.4, 2) for at, wide in strokes if float(wide) > 370.0})
    return [high - low for low, high in itertools.pairwise(across)]


@pytest.mark.parametrize("last", [750, 1200])
def test_a_line_to_write_on_is_ten_millimetres_high_however_long_the_day(last: int) -> None:
    for page, least in zip(
        pypdf.PdfReader(io.BytesIO(pencil_slate(SHEET, 600, last))).pages, (7, 3), strict=True
    ):
        assert sum(9.99 <= gap < 15.0 for gap in gaps_between_rules(page)) >= least


def test_a_head_is_counted_every_ten_minutes() -> None:
    assert head_count_times(600, 630) == ["10:00", "10:10", "10:20", "10:30"]
    assert len(head_count_times(480, 1200)) == 24
