"""Keeping, undo, two people at once, shared addresses, names that are scripts, a server that is gone."""

import re
from urllib.parse import urlencode

import pytest

from tests.whole_way.page.conftest import UGLY


def turn(look, name: str, steps: str) -> None:
    number = look.page.locator(f"#steps-{name}")
    number.fill(steps)
    number.press("Enter")
    look.settled()


def keep(look, who: str) -> str:
    look.page.locator("#by").fill(who)
    look.page.locator("#save button[type=submit]").click()
    look.until("it was kept", lambda: look.page.locator("#saved").inner_text().strip() != "")
    look.settled()
    return str(look.page.locator("#saved").inner_text())


def kept(look, boat: str) -> list[dict]:
    """The versions of a boat as the server has them."""
    answer = look.page.request.get(f"{look.home}/boats").json()
    return next(one["versions"] for one in answer["boats"] if one["name"] == boat)


def test_keep_and_undo(visit):
    look = visit("/flight?boat=Sedge&speed=12")
    turn(look, "main-rod", "2")
    keep(look, "Ash")
    assert [one["made_by"] for one in kept(look, "Sedge")] == ["Ash"]
    assert "Ash" in look.page.locator("#versions").inner_text()
    look.page.reload()
    look.page.wait_for_selector("body[data-full]", state="attached")
    assert look.value("main-rod") == 2
    turn(look, "main-rod", "3")
    keep(look, "Ash")
    look.page.locator("#undo").click()
    look.settled()
    look.wait_for_value("main-rod", 2)
    assert len(kept(look, "Sedge")) == 1
    versions = look.page.request.get(f"{look.home}/boats/Sedge/versions").json()["versions"]
    assert [one["taken_back"] for one in versions] == [False, False, True], "nothing is lost"


def test_two_people_keep_the_same_boat(visit):
    """Both opened it before either kept it."""
    hers = visit("/flight?boat=Marram+reversed&speed=12")
    his = visit("/bench?boat=Marram+reversed")
    his.go("/flight?boat=Marram+reversed&speed=12")
    turn(hers, "main-rod", "1")
    keep(hers, "Wren")
    turn(his, "main-rod", "-1")
    assert "Wren" in keep(his, "Teal"), "he is told who else changed it"
    assert [one["made_by"] for one in kept(his, "Marram reversed")] == ["Wren", "Teal"]
    assert his.page.locator("#beside").is_visible()
    told = his.page.locator("#versions").inner_text() + his.page.locator("#beside").inner_text()
    assert "Wren" in told and "Teal" in told
    assert his.value("main-rod") == -1 and hers.value("main-rod") == 1


def test_a_measured_boat_is_kept_from_the_bench(visit):
    from foilwright.documents.examples import examples_folder

    look = visit("/bench?boat=Marram")
    assert look.page.locator("#head-batten_length_mm").input_value() == "600"
    sheet = (examples_folder() / "bench" / "marram-bench.csv").read_text(encoding="utf-8")
    for summary in look.page.locator("details:has(#sheet) > summary").all():
        summary.click()
    look.page.locator("#sheet").fill(sheet)
    look.until("a fit", lambda: look.page.locator("#fitted").is_visible(), 60.0)
    keep(look, "bosun")
    assert kept(look, "Marram")[-1]["made_by"] == "bosun"
    undone = look.page.locator("#undo")
    undone.click()
    look.settled()


def type_sheet(look, words: str) -> None:
    for summary in look.page.locator("details:has(#sheet):not([open]) > summary").all():
        summary.click()
    look.page.locator("#sheet").fill(words)


def test_what_a_sheet_changes_is_drawn_before_it_is_kept(visit):
    from foilwright.documents.examples import examples_folder

    look = visit("/bench?boat=Sedge&wand=50")
    sheet = (examples_folder() / "bench" / "sedge-bench.csv").read_text(encoding="utf-8")
    curves, parts, legend = "#chart-curve .curve-other", "#chain .other", look.page.locator("#legend")
    type_sheet(look, sheet)
    look.until("the fitted chain", lambda: look.page.locator(curves).count() == 1, 60.0)
    look.settled()
    for name in ("gearing", "slop"):
        assert look.page.locator(f"#chart-{name} .curve-other").count() == 1
    assert look.page.locator(parts).count() > 3, "the arms and the flap"
    told = re.search(
        r"At wand 50° the flap would stand at (\S+°); without the sheet (\S+°)", legend.inner_text()
    )
    assert told is not None and told[1] != told[2]
    assert f"flap {told[2]}" in look.page.locator("#sentence").inner_text()
    look.page.locator("#sheet-clear").click()
    look.until("nothing dotted", lambda: look.page.locator(f"{curves}, {parts}").count() == 0)
    assert not legend.is_visible()
    type_sheet(look, sheet)
    look.until("the fitted chain", lambda: look.page.locator(curves).count() == 1, 60.0)
    keep(look, "bosun")
    assert look.page.locator(f"{curves}, {parts}").count() == 0, "it is kept"
    assert f"flap {told[1]}" in look.page.locator("#sentence").inner_text(), "and is what was drawn"
    look.page.reload()
    look.until("the sheet", lambda: look.page.locator("#fitted").is_visible(), 60.0)
    assert look.page.locator(curves).count() == 0, "nothing of it is still to come"
    look.page.locator("#trail button").first.click()
    look.until("the fitted chain", lambda: look.page.locator(curves).count() == 1, 60.0)
    turn(look, "main-rod", "1")
    look.until("the same with the rod turned", lambda: told[1] not in legend.inner_text(), 60.0)
    assert look.page.locator(curves).count() == 1


def test_a_bad_sheet_is_told_at_its_field_and_stays(visit):
    look = visit("/bench?boat=Pipkin")
    for summary in look.page.locator("details:has(#sheet) > summary").all():
        summary.click()
    look.expected = ("422",)
    look.page.locator("#sheet").fill("what,reading\nbatten,far")
    look.until(
        "a sentence", lambda: look.page.locator("#fit-fault, #sheet-fault").filter(visible=True).count() > 0
    )
    assert "batten,far" in look.page.locator("#sheet").input_value(), "nothing is lost"
    assert kept(look, "Pipkin") == []


def test_an_address_says_it_all(visit):
    look = visit("/flight?boat=Marram+by+its+curve&speed=12")
    turn(look, "main-rod", "1,5")
    look.page.locator("#speed-number").fill("13,5")
    look.page.locator("#speed-number").press("Enter")
    look.settled()
    words = look.page.locator("#sentence").inner_text()
    again = visit(look.page.url.removeprefix(look.home))
    again.settled()
    assert again.value("main-rod") == 1.5
    assert again.page.locator("#sentence").inner_text() == words


@pytest.mark.parametrize("page", ["flight", "bench"])
@pytest.mark.parametrize(
    "query",
    [
        {"boat": "Nobody's"},
        {"boat": "Marram", "set": "main-rod=9999"},
        {"boat": "Marram", "set": "no-such=1"},
        {"boat": "Marram", "speed": "fast", "wand": "far"},
        {"boat": "Marram", "version": "77"},
        {"boat": "Marram", "sailor": "<b>heavy</b>"},
        {"boat": UGLY},
    ],
)
def test_a_strange_address_never_breaks_the_page(visit, page: str, query: dict):
    """Either it is drawn, or a sentence says what is wrong."""
    look = visit(f"/{page}?{urlencode(query)}", full=None)
    look.expected = ("422",)
    visible = "body[data-ready], .fault:not([hidden])"
    look.until("a drawing or a sentence", lambda: look.page.locator(visible).count() > 0, 30.0)
    look.settled()
    faults = " ".join(look.page.locator(".fault:visible").all_inner_texts())
    assert "a fault of ours" not in faults
    assert look.page.locator("b").count() == 0


@pytest.mark.parametrize("page", ["flight", "bench"])
def test_a_name_that_is_a_script_is_only_a_name(visit, page: str):
    look = visit(f"/{page}?{urlencode({'boat': UGLY})}")
    asked: list[str] = []

    def spoke(dialog):
        asked.append(dialog.message)
        dialog.dismiss()

    look.page.on("dialog", spoke)
    turn(look, "main-rod", "1")
    assert look.page.locator("#boat").input_value() == UGLY
    if page == "flight":
        look.page.locator("#over").select_option(UGLY)
        look.settled()
    assert look.page.locator("main script, svg script").count() == 0
    assert asked == []


def test_a_server_that_is_gone_is_told_and_nothing_is_lost(visit):
    look = visit("/flight?boat=Marram+by+its+curve&speed=12")
    look.expected = ("ERR_",)
    look.context.route("**/ask/**", lambda route: route.abort())
    look.context.route("**/boats/**", lambda route: route.abort())
    number = look.page.locator("#steps-main-rod")
    number.fill("2")
    number.press("Enter")
    look.until("a sentence", lambda: look.page.locator("#fault").is_visible())
    assert "foilwright serve" in look.page.locator("#fault").inner_text()
    look.page.locator("#by").fill("Ash")
    look.page.locator("#save button[type=submit]").click()
    look.page.wait_for_timeout(100)
    assert look.page.locator("#fault").is_visible()
    look.context.unroute_all()
    number.fill("3")
    number.press("Enter")
    look.wait_for_value("main-rod", 3)
    look.until("no sentence", lambda: not look.page.locator("#fault").is_visible())
    assert look.page.locator("#by").input_value() == "Ash"
    assert kept(look, "Marram by its curve") == []
