"""Flight over the wind: chosen, moved and shared by mouse, finger and keys; what it says and refuses.

Nothing here waits for the compiled physics: a wind is answered without it, only later.
"""

import json
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, urlencode, urlsplit

import pytest

from tests.whole_way.page.conftest import SIZES
from tests.whole_way.page.test_moving import outlines
from tests.whole_way.page.test_seeing import look_at_texts

WIND = "/flight?boat=Marram&sweep=wind&wind=12"


def sentence(look) -> str:
    return str(look.page.locator("#sentence").inner_text())


def in_wind(look, wind: str) -> str:
    """Waits for the state in a wind, and hands back its sentence."""
    look.until(
        f"a state in {wind} kn",
        lambda: f"In {wind}\u00a0kn of wind it" in sentence(look),
        60.0,
    )
    return sentence(look)


@pytest.mark.parametrize("size", SIZES)
def test_it_can_be_read_and_axe_finds_nothing(visit, size: str):
    import axe_playwright_python

    look = visit(WIND, size, bypass_csp=True)
    in_wind(look, "12")
    look.settled()
    look_at_texts(look)
    rules = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")
    look.page.add_script_tag(content=rules)
    found = look.page.evaluate("() => axe.run(document, { resultTypes: ['violations'] })")
    assert [(one["id"], [node["target"] for node in one["nodes"]]) for one in found["violations"]] == []
    for one in look.page.locator(".choose label").all():
        box = one.bounding_box()
        assert box["height"] >= 44


def test_a_phone_at_twice_the_size(visit):
    look = visit(f"{WIND}&angle=50&measured=hand+gauge", "phone", full=False, device_scale_factor=2)
    look.page.set_viewport_size({"width": 195, "height": 422})
    for wind in ("12", "6"):
        look.page.locator("#wind-number").fill(wind)
        look.page.locator("#wind-number").press("Enter")
        in_wind(look, wind)
        look.settled()
        look_at_texts(look)


@pytest.mark.parametrize(("size", "way"), [("laptop", "mouse"), ("tablet", "finger"), ("phone", "keys")])
def test_chosen_turned_and_put_back(visit, size: str, way: str):
    look = visit("/flight?boat=Marram&speed=12", size, touch=way == "finger")
    page = look.page
    assert "At 12" in sentence(look)
    if way == "keys":
        page.locator("#sweep-speed").focus()
        page.keyboard.press("ArrowDown")
    else:
        label = page.locator("label:has(#sweep-wind)")
        (label.tap if way == "finger" else label.click)()
    told = in_wind(look, "12")
    assert "flying" in told and "to windward" in told and "sails at 1" in told
    assert page.locator("#wind").is_visible() and not page.locator("#speed").is_visible()
    assert page.locator("#wind").get_attribute("aria-valuetext").startswith("12.0 knots of wind: flying")
    # The state is drawn heeled, and another setting is another state with its outline before.
    start = look.value("main-rod")
    if way == "keys":
        look.press("main-rod", "ArrowUp")
    else:
        look.drag("main-rod", (60.0, -40.0), way == "finger")
    look.wait_until_not("main-rod", start)
    look.until("an outline before", lambda: outlines(look) > 0)
    look.until("another state", lambda: "of wind it" in sentence(look) and sentence(look) != told, 60.0)
    page.locator("#put-back").click()
    look.wait_for_value("main-rod", start)
    look.until("the state before", lambda: sentence(look) == told, 60.0)
    # Back to boat speed, as it was.
    page.locator("#sweep-speed").check()
    look.until("boat speed again", lambda: sentence(look).startswith("At 12"))
    look.until("the address says it", lambda: "sweep=" not in page.url)
    assert not page.locator("#about-wind").is_visible()


def test_the_wind_by_slider_number_and_chart_and_its_address(visit):
    look = visit(WIND, "tablet")
    page = look.page
    told = in_wind(look, "12")
    page.locator("#wind-more").click()
    in_wind(look, "13")
    page.locator("#wind").focus()
    page.keyboard.press("ArrowLeft")
    look.until("12.5", lambda: page.locator("#wind-number").input_value() == "12.5")
    page.locator("#wind-number").fill("9,5")
    page.locator("#wind-number").press("Enter")
    in_wind(look, "9.5")
    look.settled()
    chart = page.locator("#chart-speed")
    chart.scroll_into_view_if_needed()
    box = chart.bounding_box()
    page.mouse.click(box["x"] + box["width"] * 0.8, box["y"] + box["height"] * 0.5)
    look.until("another wind", lambda: page.locator("#wind-number").input_value() != "9.5")
    page.locator("#wind-number").fill("12")
    page.locator("#wind-number").press("Enter")
    page.locator("#angle-number").fill("110,5")
    page.locator("#angle-number").press("Enter")
    look.until("another angle", lambda: "angle=110.5" in page.url, 60.0)
    page.locator("#measured").select_option("hand gauge")
    look.until("measured otherwise", lambda: "measured=hand+gauge" in page.url, 60.0)
    look.settled()
    other = in_wind(look, "12")
    assert other != told
    assert "on a hand gauge" in page.locator("#wind-both").inner_text()
    assert "a broad reach" in page.locator("#angle-words").inner_text()
    page.reload()
    page.wait_for_selector("body[data-full]", state="attached")
    assert in_wind(look, "12") == other
    assert page.locator("#angle-number").input_value() == "110.5"
    assert page.locator("#measured").input_value() == "hand gauge"


def test_what_cannot_be_is_told_at_its_field_and_nothing_is_lost(visit):
    look = visit(WIND, "phone")
    page = look.page
    told = in_wind(look, "12")
    look.settled()
    look.expected = ("422",)
    for wrong in ("0", "180", "400", "abeam"):
        page.locator("#angle-number").fill(wrong)
        page.locator("#angle-number").press("Enter")
        look.until(
            "a sentence", lambda wrong=wrong: f"`{wrong}`" in page.locator("#angle-fault").inner_text()
        )
        look.settled()
        assert page.locator("#angle-number").input_value() == wrong
        assert page.locator("#angle-number").get_attribute("aria-invalid") == "true"
        assert sentence(look) == told and f"angle={wrong}" not in page.url
    for wrong in ("99", "a gale"):
        page.locator("#wind-number").fill(wrong)
        page.locator("#wind-number").press("Enter")
        page.locator("#wind-fault").wait_for(state="visible")
        assert page.locator("#wind-number").input_value() == wrong and sentence(look) == told
    look.go("/flight?boat=Marram&set=main-rod=1&sweep=wind&wind=12&angle=400")
    assert "400" in page.locator("#address-fault").inner_text()
    assert "of wind it" in sentence(look) and look.value("main-rod") == 1, "the rest of the address holds"


def test_another_boat_laid_over(visit):
    look = visit(WIND, "laptop")
    page = look.page
    in_wind(look, "12")
    look.settled()
    curve, outline, legend = "#chart-speed .curve-other", "#side .other", page.locator("#legend")
    page.locator("#over").select_option("Sedge")
    look.until("its curve", lambda: page.locator(curve).count() > 0, 60.0)
    look.until("its outline", lambda: page.locator(outline).count() > 0, 60.0)
    assert "Thin dotted line: Sedge" in legend.inner_text()
    page.locator("#sweep-speed").check()
    look.until("boat speed", lambda: page.locator("#chart-height .curve-other").count() > 0)
    assert page.locator(outline).count() > 0
    page.locator("#sweep-wind").check()
    in_wind(look, "12")
    look.until("its curve again", lambda: page.locator(curve).count() > 0, 60.0)
    # Settings as they are now, against themselves turned.
    page.locator("#over").select_option("=")
    page.locator("#steps-main-rod").fill("2")
    page.locator("#steps-main-rod").press("Enter")
    look.settled()
    look.until("both", lambda: page.locator(f"{curve}, {outline}").count() > 1, 60.0)


def test_until_the_physics_is_compiled_the_curves_grow(visit):
    """The server made to answer as it does then: one wind a question, and the rest left for later."""
    look = visit("/static/icon.svg", full=None)
    compiled = False

    def slow(route: Any) -> None:
        address = urlsplit(route.request.url)
        words = parse_qs(address.query)
        [wind] = words["wind"]
        later = []
        if ":" in wind and not compiled:
            words["wind"] = ["4"]
            later = [float(kn) for kn in range(5, 25)]
        answer = route.fetch(url=f"{look.home}{address.path}?{urlencode(words, doseq=True)}")
        told = answer.json()
        if not compiled:
            told |= {"compiled": False, "later_kn": later, "take_off_told_kn": None}
        route.fulfill(response=answer, body=json.dumps(told))

    look.page.route("**/ask/wind?*", slow)
    look.page.route("**/ask/wind-ready", lambda route: route.fulfill(body=json.dumps({"compiled": compiled})))
    look.go(WIND, full=False)
    in_wind(look, "12")
    growing, needed = look.page.locator("#wind-growing"), look.page.locator("#off")
    look.until("a sentence", lambda: "one by one" in growing.inner_text(), 30.0)
    assert "still being worked out" in needed.inner_text()
    look.until("all of them", lambda: not growing.is_visible(), 120.0)
    drawn = "all => Math.max(...all.map(one => one.getAttribute('points').trim().split(/\\s+/).length))"
    assert look.page.eval_on_selector_all("#chart-height .curve", drawn) == 21
    # An adjuster turned meanwhile: the drawing at once, the state when the hand rests.
    look.press("main-rod", "ArrowUp")
    look.until("still to come", lambda: "still being worked out" in sentence(look))
    in_wind(look, "12")
    compiled = True
    look.settled()
