"""The bench form: every line of the sheet has its numbered box, in order, A4, large enough to read."""

from __future__ import annotations

import io
import re

import pypdf
import pytest

from foilwright.documents.bench_blank import blank_sheet
from foilwright.documents.boat_file import read_boat
from foilwright.documents.examples import example
from foilwright.paper.bench_form import bench_form, form_rows

BOATS = ("marram", "marram-twelve", "pipkin", "sedge")


@pytest.mark.parametrize("name", BOATS)
def test_every_line_of_the_sheet_has_its_box_in_order(name: str) -> None:
    boat = read_boat(example(name))
    rows = form_rows(boat)
    numbers = [int(box.split()[0]) for row in rows for box in row.boxes]
    assert numbers == list(range(1, len(blank_sheet(boat)) + 1))
    assert all(len(row.boxes) <= 7 for row in rows)


@pytest.mark.parametrize("name", BOATS)
def test_the_form_is_a4_and_says_what_it_must(name: str) -> None:
    boat = read_boat(example(name))
    pdf = bench_form(boat)
    assert pdf == bench_form(boat)
    pages = pypdf.PdfReader(io.BytesIO(pdf)).pages
    assert 1 <= len(pages) <= 2
    sizes: list[float] = []
    words = ""
    for page in pages:
        assert [round(float(side) / 72.0 * 25.4) for side in page.mediabox[2:]] == [210, 297]
        words += page.extract_text(
            visitor_text=lambda text, cm, tm, fonts, size: (
                sizes.append(abs(size * tm[3] * cm[3])) if text.strip() else None
            )
        )
    assert min(sizes) >= 8.99
    plain = re.sub(r"\s+", " ", words)
    for sentence in (
        boat.name,
        "Write the reading, not the result",
        "do the swing check",
        "Never move the ruler",
        "Its end 600 mm from the",
        "about 17 minutes" if name == "pipkin" else "minutes, two people",
    ):
        assert sentence in plain
    assert ("Foot forward" in plain) == (name in ("marram", "sedge"))
