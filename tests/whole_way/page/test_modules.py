"""The modules of the page by themselves, in the browser: what they read between rows, turn and escape."""

from itertools import pairwise
from math import acos, cos, degrees, isfinite, radians, sin

import pytest

from tests.whole_way.page.conftest import LONG


@pytest.fixture
def module(visit):
    """Calls an exported function of a module: module("geometry", "placeIn", [0, 1], 0.5)."""
    look = visit("/static/icon.svg", full=None)
    look.page.goto(f"{look.home}/flight")

    def call(file: str, name: str, *values: object) -> object:
        script = (
            "async ([file, name, values]) => {"
            " const made = (await import(`/static/${file}.js`))[name];"
            " return typeof made === 'function' ? made(...values) : made; }"
        )
        return look.page.evaluate(script, [file, name, list(values)])

    return call


def test_reading_between_rows(module):
    angles = [0, 10, 20, 40]
    assert module("geometry", "placeIn", angles, 15) == {"i": 1, "share": 0.5}
    assert module("geometry", "placeIn", angles, -5) == {"i": 0, "share": 0}
    assert module("geometry", "placeIn", angles, 99) == {"i": 2, "share": 1}
    half = {"i": 1, "share": 0.5}
    assert module("geometry", "between", [0, 2, 4, 9], half) == 3
    assert module("geometry", "between", [0, None, 4, 9], half) is None, "locked on one side is not half free"
    assert module("geometry", "between", [0, 2, None, 9], {"i": 1, "share": 0}) == 2


def test_bow_up_lifts_what_is_ahead_of_the_main_strut(module):
    """Against the rotation written out: bow up is positive, about the main strut at the keel."""
    trim, height, main = radians(3.0), 0.4, 1.9
    for x, z in ((3.2, 0.3), (0.0, 0.1), (1.9, 0.0)):
        along, over = module("geometry", "overWater", [x, z], main, {"trim": trim, "height": height})
        assert along == pytest.approx((x - main) * cos(trim) - z * sin(trim))
        assert over == pytest.approx(height + (x - main) * sin(trim) + z * cos(trim))


def test_a_wand_that_touches_flat_water(module):
    drawn = {"wand_pivot": [3.3, 0.4], "wand_length_m": 1.2, "main_x_m": 1.9}
    chain = {"forward_stop_deg": -10, "aft_stop_deg": 85}
    level = module("geometry", "touchingWand", drawn, chain, {"height": 0.3, "trim": 0})
    assert degrees(level["wand"]) == pytest.approx(degrees(acos(0.7 / 1.2)))
    assert level["touching"] is True
    off = module("geometry", "touchingWand", drawn, chain, {"height": 0.9, "trim": 0})
    assert degrees(off["wand"]) == pytest.approx(-10) and off["touching"] is False
    deep = module("geometry", "touchingWand", drawn, chain, {"height": -0.6, "trim": 0})
    assert degrees(deep["wand"]) == pytest.approx(85), "the aft stop holds it"


def test_every_word_in_a_drawing_is_escaped(module):
    assert module("marks", "escaped", "<a href='x'>&\"") == "&lt;a href=&#39;x&#39;&gt;&amp;&quot;"
    drawn = module("marks", "text", [1, 2], "<script>alert(1)</script>", "name")
    assert "<script" not in drawn and drawn.startswith("<text")


@pytest.mark.parametrize(
    "low, high, most", [(0, 1, 4), (-0.3, 0.6, 4), (4, 24, 5), (0, 1187, 4), (1e-4, 9e-4, 3)]
)
def test_ticks_are_round_and_inside(module, low: float, high: float, most: int):
    found = module("chart", "ticks", low, high, most)
    assert 1 <= len(found) <= most + 1
    assert all(low - 1e-9 <= one <= high + 1e-9 for one in found)
    steps = {round(b - a, 9) for a, b in pairwise(found)}
    assert len(steps) <= 1


def test_numbers_as_people_write_them(module):
    assert module("words", "typed", "12,5") == 12.5
    assert module("words", "typed", " −3 ") == -3
    assert module("words", "fixed", -0.04, 1) == "0.0"
    assert module("words", "signed", 2, 0) == "+2"
    assert module("words", "signed", -2, 0) == "−2"


DRAWN_IN = """async ([boat, wide, most]) => {
  const answer = await (await fetch(`/ask/drawing?${new URLSearchParams({ boat })}`)).json();
  const words = { hidden: "not measured", foil: "foil", wand: "wand" };
  const { draw } = await import("/static/chain.js");
  const made = draw(answer.chain, answer.drawn, 45, null, wide, most, words);
  return { svg: made.svg, scale: made.scale, grips: [...made.grips.values()].flat() };
}"""


@pytest.mark.parametrize("boat", ["Marram", LONG])
@pytest.mark.parametrize(("wide", "most"), [(320, None), (320, 270), (160, 60), (90, None), (1200, 30)])
def test_the_chain_is_drawn_in_however_little_room(visit, boat: str, wide: int, most: int | None):
    """Before the type is there, names are wider and the room beside the boat may be none."""
    look = visit("/static/icon.svg", full=None)
    look.page.goto(f"{look.home}/flight")
    made = look.page.evaluate(DRAWN_IN, [boat, wide, most])
    assert made["scale"] > 0
    assert "NaN" not in made["svg"] and "Infinity" not in made["svg"]
    assert all(isfinite(number) for number in made["grips"])
