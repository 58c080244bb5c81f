"""The steering chart: marks inside the page, round ticks, nothing to draw said in words."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from foilwright.documents.steer_answer import SteerAnswer
from foilwright.jobs.steer_boat import steer
from foilwright.paper.steer_chart import NOTHING, round_step, steer_chart
from tests.demo_boats import demo_boat

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def answer() -> SteerAnswer:
    return steer(demo_boat("pipkin"), 48.0, [4.0, 6.0, 8.0, 10.0, 14.0, 18.0])


@pytest.mark.parametrize(
    ("least", "step"), [(0.0, 1.0), (0.011, 0.02), (0.19, 0.2), (0.2, 0.2), (3.1, 5.0), (51.0, 100.0)]
)
def test_round_steps(least, step):
    assert round_step(least) == pytest.approx(step)


def test_every_mark_is_on_the_page(answer):
    drawn = ElementTree.fromstring(steer_chart(answer))
    _, _, width, height = (float(x) for x in drawn.attrib["viewBox"].split())
    for line in drawn.iter(f"{SVG}polyline"):
        for x, y in re.findall(r"([-\d.]+),([-\d.]+)", line.attrib["points"]):
            assert 0.0 <= float(x) <= width and 0.0 <= float(y) <= height
    for words in drawn.iter(f"{SVG}text"):
        assert 0.0 <= float(words.attrib["y"]) <= height
    assert len(list(drawn.iter(f"{SVG}circle"))) == 3 * 6


def test_a_chart_of_nothing_says_so(answer):
    empty = {**answer, "rows": [{**row, "yaw_rate_deg_s_per_deg": None} for row in answer["rows"]]}
    assert NOTHING in steer_chart(empty)  # type: ignore[arg-type]


def test_the_same_answer_gives_the_same_bytes(answer):
    assert steer_chart(answer) == steer_chart(answer)
