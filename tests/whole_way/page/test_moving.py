"""Every part that can be moved, by mouse, by finger and by keys, at three sizes of window."""

import pytest

from tests.whole_way.page.conftest import SIZES

PAGES = {"flight": "/flight?boat=Marram&speed=12", "bench": "/bench?boat=Marram&wand=45"}
MOVES = [(60.0, -40.0), (-60.0, 40.0)]
ALWAYS = {"flight": {"main-rod", "wand", "hull", "sailor-aft"}, "bench": {"main-rod", "wand"}}


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("address", PAGES.values(), ids=PAGES)
def test_by_mouse(visit, address: str, size: str):
    look = visit(address, size, full=False)
    drag_every_part(look, finger=False)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("address", PAGES.values(), ids=PAGES)
def test_by_finger(visit, address: str, size: str):
    look = visit(address, size, full=False, touch=True)
    drag_every_part(look, finger=True)


def drag_every_part(look, finger: bool) -> None:
    """The part follows, its outline before stays, and a double tap puts it back."""
    names = look.handles()
    assert set(names) >= ALWAYS[look.page.locator("body").get_attribute("data-page")]
    for name in names:
        look.settled()
        start = look.value(name)
        assert on_top(look, name), f"{name} lies under something"
        by = MOVES[0] if start < look.limits(name)[1] - 1e-6 else MOVES[1]
        look.drag(name, by, finger)
        look.wait_until_not(name, start)
        look.until(f"an outline before, after {name}", lambda: outlines(look) > 0)
        look.put_back(name, start, finger)
        look.until(f"no outline after {name} was put back", lambda: outlines(look) == 0)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("address", PAGES.values(), ids=PAGES)
def test_by_keys(visit, address: str, size: str):
    look = visit(address, size, full=False)
    for name in look.handles():
        look.settled()
        start = look.value(name)
        least, greatest = look.limits(name)
        forth, back = ("ArrowUp", "ArrowLeft") if start < greatest - 1e-6 else ("ArrowLeft", "ArrowUp")
        look.press(name, forth)
        moved = look.wait_until_not(name, start)
        assert abs(moved - start) <= 1.0
        look.press(name, back)
        look.wait_for_value(name, start)
        look.press(name, "End")
        look.wait_for_value(name, greatest)
        look.press(name, "Home")
        look.wait_for_value(name, least)
        look.press(name, "Escape")
        assert look.page.evaluate("() => document.activeElement.dataset.handle") == name
        look.page.locator("#put-back").click()


@pytest.mark.parametrize("address", PAGES.values(), ids=PAGES)
def test_every_handle_speaks_its_value_in_words(visit, address: str):
    look = visit(address, "phone")
    found = look.page.eval_on_selector_all(
        "[role=slider], input[type=range]",
        "all => all.map(one => [one.getAttribute('aria-label') ?? one.labels?.[0]?.textContent ?? '', "
        "one.getAttribute('aria-valuetext')])",
    )
    assert len(found) > 5
    for label, words in found:
        assert label.strip(), found
        assert words and any(sign.isalpha() for sign in words), (label, words)
        assert not {"{", "}"} & set(label + words), "a place in a sentence was not filled"
    sizes = look.page.eval_on_selector_all(
        "[data-handle]", "all => all.map(one => [one.offsetWidth, one.offsetHeight])"
    )
    assert all(wide >= 44 and high >= 44 for wide, high in sizes)


@pytest.mark.parametrize("address", PAGES.values(), ids=PAGES)
def test_plus_minus_and_a_number_do_the_same(visit, address: str):
    look = visit(address, "phone")
    page = look.page
    number = page.locator("#steps-main-rod")
    buttons = page.locator("#adjusters li").filter(has=number).get_by_role("button")
    buttons.last.click()
    look.wait_for_value("main-rod", 1)
    look.settled()
    buttons.first.click()
    look.wait_for_value("main-rod", 0)
    look.settled()
    number.fill("1,5")
    number.press("Enter")
    look.wait_for_value("main-rod", 1.5)
    look.settled()
    number.fill("far too much")
    number.press("Enter")
    assert number.get_attribute("aria-invalid") == "true"
    fault = page.locator("#fault-main-rod")
    fault.wait_for(state="visible")
    assert "main rod" in fault.inner_text().lower()
    assert look.value("main-rod") == 1.5, "nothing is lost"
    number.fill("999")
    number.press("Enter")
    assert number.get_attribute("aria-invalid") == "true" and look.value("main-rod") == 1.5


def test_speed_by_slider_number_and_chart(visit):
    look = visit("/flight?boat=Marram&speed=12", "tablet")
    page = look.page
    page.locator("#speed").focus()
    page.keyboard.press("ArrowRight")
    assert page.locator("#speed").input_value() == "12.1"
    page.locator("#speed-number").fill("14,5")
    page.locator("#speed-number").press("Enter")
    look.until("14.5 kn", lambda: page.locator("#speed").input_value() == "14.5")
    assert "14.5" in page.locator("#sentence").inner_text()
    page.locator("#speed-number").fill("99")
    page.locator("#speed-number").press("Enter")
    page.locator("#speed-fault").wait_for(state="visible")
    assert page.locator("#speed").input_value() == "14.5"
    chart = page.locator("#chart-height")
    chart.scroll_into_view_if_needed()
    box = chart.bounding_box()
    page.mouse.click(box["x"] + box["width"] * 0.3, box["y"] + box["height"] * 0.5)
    look.until("another speed", lambda: page.locator("#speed").input_value() != "14.5")
    look.until("the address says it", lambda: f"speed={page.locator('#speed').input_value()}" in page.url)


def outlines(look) -> int:
    return int(look.page.locator("#side .before").count())


def on_top(look, name: str) -> bool:
    """Whether a pointer at the middle of the handle meets the handle."""
    x, y = look.centre(name)
    met = "([x, y]) => document.elementFromPoint(x, y)?.closest('[data-handle]')?.dataset.handle"
    return bool(look.page.evaluate(met, [x, y]) == name)
