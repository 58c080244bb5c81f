"""A bench sheet fits into the twenty minutes that form and how-to promise."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from foilwright.documents.bench_blank import blank_sheet
from foilwright.documents.bench_record import KINDS
from foilwright.documents.bench_time import SECONDS, TO_SET_UP, TO_TURN, minutes
from foilwright.documents.boat_file import read_boat
from foilwright.documents.examples import example

HOW_TO = Path(__file__).resolve().parents[2] / "docs" / "how-to" / "measure-a-boat.md"


@pytest.mark.parametrize("name", ["marram", "marram-curve", "marram-twelve", "pipkin", "sedge"])
def test_every_sheet_takes_at_most_twenty_minutes(name: str) -> None:
    assert 15.0 <= minutes(blank_sheet(read_boat(example(name)))) <= 20.0


def test_the_minutes_of_the_how_to_make_twenty() -> None:
    rows = re.findall(r"^\| (\d+) \|", HOW_TO.read_text(encoding="utf-8"), re.MULTILINE)
    assert sum(int(row) for row in rows) == 20


def test_time_is_counted_by_kind_and_by_turning() -> None:
    assert set(SECONDS) == set(KINDS) and set(TO_SET_UP) <= set(KINDS)
    blanks = [blank for blank in blank_sheet(read_boat(example("marram"))) if blank.what == "batten"]
    at_mark = [blank for blank in blanks if not blank.settings and not blank.load_n]
    assert minutes(at_mark) == pytest.approx(len(at_mark) * SECONDS["batten"] / 60.0)
    turned = [blank for blank in blanks if not blank.load_n]
    assert minutes(turned) == pytest.approx((len(turned) * SECONDS["batten"] + 2 * TO_TURN) / 60.0)
