"""What can be seen and read: accessibility, contrast, and no label cut or on top of another."""

from pathlib import Path
from urllib.parse import urlencode

import pytest

from tests.whole_way.page.conftest import LONG, SIZES

PAGES = {
    "flight": "/flight?boat=Marram&speed=12",
    "bench": "/bench?boat=Marram&wand=45",
    "flight of a curve": "/flight?boat=Marram+by+its+curve&speed=8",
    "bench of a curve": "/bench?boat=Marram+by+its+curve",
    "flight of two": "/flight?boat=Pipkin&speed=15",
    "bench of a whole foil": "/bench?boat=Sedge&wand=70",
    "flight of long names": f"/flight?{urlencode({'boat': LONG})}",
    "bench of long names": f"/bench?{urlencode({'boat': LONG})}",
}
LEAST_CONTRAST = 7.0
LEAST_TYPE = 16.0

TEXTS = Path(__file__).with_name("texts.js").read_text(encoding="utf-8")


def contrast(one: str, other: str) -> float:
    """Of two colours as the browser writes them, by WCAG 2.2, success criterion 1.4.6."""

    def light(colour: str) -> float:
        parts = [float(part) / 255 for part in colour[colour.index("(") + 1 : -1].split(",")[:3]]
        red, green, blue = (
            part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
        )
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    high, low = sorted((light(one), light(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_contrast_as_published():
    """WCAG 2.2 defines black on white as 21; #767676 on white is the well-known 4.54."""
    assert contrast("rgb(0, 0, 0)", "rgb(255, 255, 255)") == pytest.approx(21.0)
    assert contrast("rgb(118, 118, 118)", "rgb(255, 255, 255)") == pytest.approx(4.54, abs=0.005)


def told(one: dict) -> str:
    return f"{one['words']!r} ({one['svg'] or one['kind']} {one['className']})"


def look_at_texts(look) -> None:
    """Nothing cut, nothing on top of another, nothing small or faint."""
    seen = look.page.evaluate(TEXTS)
    texts = seen["found"]
    assert len(texts) > 40
    assert seen["wide"] <= seen["window"], "the page is wider than the window"
    assert seen["cut"] == []
    water = "rgb(223, 234, 238)"
    for one in texts:
        assert one["size"] >= LEAST_TYPE - 0.01, told(one)
        grounds = [one["behind"], *([water] if one["kind"] == "svg" else [])]
        assert min(contrast(one["colour"], ground) for ground in grounds) >= LEAST_CONTRAST, told(one)
        assert not {"{", "}"} & set(one["words"]), f"a place in a sentence was not filled: {told(one)}"
        assert "undefined" not in one["words"] and "NaN" not in one["words"], told(one)
        assert one["left"] >= -0.5 and one["right"] <= seen["window"] + 0.5, f"cut: {told(one)}"
        if one["svg"]:
            frame = seen["svgs"][one["svg"]]
            assert frame["left"] - 0.5 <= one["left"] and one["right"] <= frame["right"] + 0.5, (
                f"cut: {told(one)}"
            )
            assert frame["top"] - 1 <= one["top"] and one["bottom"] <= frame["bottom"] + 1, (
                f"cut: {told(one)}"
            )
    for i, one in enumerate(texts):
        for other in texts[:i]:
            across = min(one["right"], other["right"]) - max(one["left"], other["left"])
            down = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
            assert not (across > 1.0 and down > 2.0), f"{told(one)} lies on {told(other)}"


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("address", PAGES.values(), ids=PAGES)
def test_every_label_can_be_read(visit, address: str, size: str):
    look_at_texts(visit(address, size))


@pytest.mark.parametrize("address", list(PAGES.values())[:2], ids=list(PAGES)[:2])
def test_every_label_can_be_read_while_things_are_moved(visit, address: str):
    look = visit(address, "phone")
    for name in ("main-rod", "wand", "rudder-rake"):
        for key in ("End", "Home"):
            look.press(name, key)
            look.settled()
            look_at_texts(look)


@pytest.mark.parametrize("size", ["laptop", "phone"])
@pytest.mark.parametrize("address", PAGES.values(), ids=PAGES)
def test_at_twice_the_size(visit, address: str, size: str):
    """A browser at 200 % is a window of half the size at two points a pixel."""
    wide, high = SIZES[size]
    look = visit(address, size, full=False, device_scale_factor=2)
    look.page.set_viewport_size({"width": wide // 2, "height": high // 2})
    look.page.reload()
    look.page.wait_for_selector("body[data-full]", state="attached")
    look_at_texts(look)


@pytest.mark.parametrize("address", list(PAGES.values())[:2], ids=list(PAGES)[:2])
def test_a_phone_at_twice_the_size_while_things_are_moved(visit, address: str):
    look = visit(address, "phone", full=False, device_scale_factor=2)
    look.page.set_viewport_size({"width": 195, "height": 422})
    look.settled()
    for name in ("main-rod", "wand", "rudder-rake"):
        for key in ("End", "Home"):
            look.press(name, key)
            look.settled()
            look_at_texts(look)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("address", PAGES.values(), ids=PAGES)
def test_axe_finds_nothing(visit, address: str, size: str):
    """The rules of axe-core, all of them, those of level AAA among them."""
    import axe_playwright_python

    rules = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")
    look = visit(address, size, bypass_csp=True)
    look.page.add_script_tag(content=rules)
    for summary in look.page.locator("summary:visible").all():
        summary.click()
    found = look.page.evaluate("() => axe.run(document, { resultTypes: ['violations'] })")
    assert [
        (one["id"], one["help"], [node["target"] for node in one["nodes"]]) for one in found["violations"]
    ] == []
    assert len(found["passes"]) > 15


@pytest.mark.parametrize("address", list(PAGES.values())[:2], ids=list(PAGES)[:2])
def test_without_scripts_a_sentence_says_what_to_do(visit, address: str):
    look = visit("/static/icon.svg", full=None, java_script_enabled=False)
    look.page.goto(look.home + address)
    words = look.page.locator("noscript").inner_text()
    assert "foilwright card" in words
