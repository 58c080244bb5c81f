"""What is kept: saving, two people at once, undo, the trail; and nothing where something is wrong."""

from typing import Any

import pytest

from foilwright.documents.examples import examples_folder
from foilwright.jobs import keep_boats
from foilwright.store import boats as store_boats
from foilwright.store.versions import save_in
from tests.web.asking import Asking, fault_of

SHEET = (examples_folder() / "bench" / "marram-bench.csv").read_text(encoding="utf-8")
UGLY = "<script>alert(1)</script>&\"'"
LONG = "The boat with the very longest name that anybody would paint"


def entries(ask: Asking) -> list[dict[str, Any]]:
    return list(ask.get("/boats/trail").json()["entries"])


def listed(ask: Asking, name: str) -> dict[str, Any]:
    return next(one for one in ask.get("/boats").json()["boats"] if one["name"] == name)


def put(store: Any, name: str, example: str = "marram") -> int:
    """A boat of another name in the store."""
    text = (examples_folder() / "boats" / f"{example}.toml").read_text(encoding="utf-8")
    quoted = name.replace("\\", "\\\\").replace('"', '\\"')
    renamed = text.replace('name = "Marram"', f'name = "{quoted}"', 1)
    return keep_boats.save_text(store, name, renamed, None, "shed")["version_id"]


def test_settings_are_kept_as_a_new_version(ask: Asking):
    body = {"settings": {"main-rod": 1.5, "wand-length": 2}, "made_from": 0, "by": "  Ash   Grey "}
    saved = ask.post("/boats/Marram/settings", body).json()
    assert saved["beside"] == []
    example, version = ask.get("/boats/Marram/versions").json()["versions"]
    assert (example["made_by"], version["made_by"]) == ("the examples", "Ash Grey")
    assert version["made_from"] == example["version_id"]
    drawn = ask.get("/ask/drawing", {"boat": "Marram"}).json()
    steps = {one["name"]: one["steps"] for one in drawn["drawn"]["adjusters"]}
    assert (steps["main-rod"], steps["wand-length"]) == (1.5, 2)
    assert [one["verb"] for one in entries(ask)] == ["save", "save"]
    assert listed(ask, "Marram")["versions"] == [version]


def test_two_people_saving_the_same_boat_are_both_kept(ask: Asking):
    """Each from the example that both were looking at; then each from the version that both were."""
    path = "/boats/Marram/settings"
    hers = ask.post(path, {"settings": {"main-rod": 1}, "made_from": 0, "by": "her"}).json()
    his = ask.post(path, {"settings": {"main-rod": 2}, "made_from": 0, "by": "him"}).json()
    assert hers["beside"] == []
    assert [one["made_by"] for one in his["beside"]] == ["her"]
    assert [one["made_by"] for one in listed(ask, "Marram")["versions"]] == ["her", "him"]
    for saved, steps in ((hers, 1), (his, 2)):
        drawn = ask.get("/ask/drawing", {"boat": "Marram", "version": saved["version_id"]}).json()["drawn"]
        assert drawn["adjusters"][0]["steps"] == steps
    again = {"settings": {"main-rod": 3}, "made_from": his["version_id"]}
    ask.post(path, {**again, "by": "her"})
    last = ask.post(path, {**again, "by": "him"}).json()
    assert [one["made_by"] for one in last["beside"]] == ["her", "her"]
    examples = [
        one for one in ask.get("/boats/Marram/versions").json()["versions"] if one["made_from"] is None
    ]
    assert len(examples) == 1, "the example is kept once"


def test_a_measured_boat_is_kept_with_its_sheet(ask: Asking):
    saved = ask.post("/boats/Marram/measured", {"sheet": SHEET, "made_from": 0, "by": "bosun"})
    assert saved.status_code == 200, saved.text
    assert saved.json()["bench"]["readings"] > 10
    assert [(one["kind"], one["by"]) for one in entries(ask)] == [
        ("bench-sheet", "bosun"),
        ("boat", "bosun"),
        ("boat", "the examples"),
    ]


def test_undo_hides_and_brings_back(ask: Asking):
    saved = ask.post("/boats/Marram/settings", {"settings": {"main-rod": 1}, "made_from": 0}).json()
    undone = ask.post("/boats/undo", {"trail_id": saved["trail_id"], "by": "her"})
    assert undone.status_code == 200
    assert [one["made_by"] for one in listed(ask, "Marram")["versions"]] == ["the examples"]
    assert ask.get("/ask/drawing", {"boat": "Marram"}).json()["drawn"]["adjusters"][0]["steps"] == 0
    twice = ask.post("/boats/undo", {"trail_id": saved["trail_id"]})
    assert "undone already" in fault_of(twice)["came"]
    ask.post("/boats/undo", {"trail_id": undone.json()["trail_id"]})
    assert ask.get("/ask/drawing", {"boat": "Marram"}).json()["drawn"]["adjusters"][0]["steps"] == 1


GOOD = {"settings": {"main-rod": 1}, "made_from": 0}


@pytest.mark.parametrize(
    ("path", "body", "where"),
    [
        ("Marram/settings", {}, "settings"),
        ("Marram/settings", {"settings": {"main-rod": 1}}, "made_from"),
        ("Marram/settings", {**GOOD, "settings": {}}, "settings"),
        ("Marram/settings", {**GOOD, "settings": {"main-rod": "far"}}, "settings.main-rod"),
        ("Marram/settings", {**GOOD, "settings": {"main-rod": None}}, "settings.main-rod"),
        ("Marram/settings", {**GOOD, "settings": ["main-rod"]}, "settings"),
        ("Marram/settings", {**GOOD, "settings": {"main-rod": 1e9}}, "settings"),
        ("Marram/settings", {**GOOD, "settings": {"main-rod": float("nan")}}, "settings main-rod"),
        ("Marram/settings", {**GOOD, "settings": {"no-such": 1}}, "settings"),
        ("Marram/settings", {**GOOD, "settings": {"\ud800": 1}}, "settings"),
        # Names that would be a path to something else in the boat file.
        ("Marram/settings", {**GOOD, "settings": {"main-rod.least": 1}}, "settings"),
        ("Marram/settings", {**GOOD, "settings": {"1": 1}}, "settings"),
        ("Marram/settings", {**GOOD, "settings": {"main-rod=1": 1}}, "settings main-rod"),
        ("Marram/settings", {**GOOD, "made_from": 9}, "version 9"),
        ("Marram/settings", {**GOOD, "made_from": "first"}, "made_from"),
        ("Marram/settings", {**GOOD, "made_from": -1}, "made_from"),
        ("Marram/settings", {**GOOD, "made_from": None}, "made_from"),
        ("Marram/settings", {**GOOD, "made_from": True}, "made_from"),
        ("Marram/settings", {**GOOD, "settings": {"main-rod": True}}, "settings.main-rod"),
        ("Marram/settings", {**GOOD, "by": "x" * 61}, "by"),
        ("Marram/settings", {**GOOD, "by": "x" * 201}, "by"),
        ("Marram/settings", {**GOOD, "by": "a\u202eb"}, "by"),
        ("Marram/settings", {**GOOD, "by": "a\0b"}, "by"),
        ("Marram/settings", {**GOOD, "by": 5}, "by"),
        ("Nobody/settings", GOOD, "boat"),
        ("%00/settings", GOOD, "name"),
        (f"{'x' * 81}/settings", GOOD, "name"),
        ("Marram/measured", {"made_from": 0}, "sheet"),
        ("Marram/measured", {"made_from": 0, "sheet": "rubbish"}, "sheet.csv, line 1"),
        ("Marram/measured", {"made_from": 0, "sheet": SHEET, "by": "x" * 61}, "by"),
        ("Sedge/measured", {"made_from": 0, "sheet": SHEET}, None),
        ("undo", {}, "trail_id"),
        ("undo", {"trail_id": "last"}, "trail_id"),
        ("undo", {"trail_id": 0}, "trail_id"),
        ("undo", {"trail_id": True}, "trail_id"),
        ("undo", {"trail_id": 9}, "entry 9 of the trail"),
    ],
)
def test_nothing_is_kept_where_something_is_wrong(ask: Asking, path: str, body: Any, where: str | None):
    answer = ask.post(f"/boats/{path}", body)
    assert answer.status_code == 422, answer.text
    fault = fault_of(answer)
    assert where is None or fault["where"] == where
    assert entries(ask) == []
    assert all(not one["versions"] for one in ask.get("/boats").json()["boats"])


@pytest.mark.parametrize("name", [UGLY, LONG, "a/b", "Ünder/ßtraße ⛵", "{{ 7 * 7 }}", "</script><b>"])
def test_any_name_can_be_kept_asked_and_changed(app: Any, ask: Asking, name: str):
    from urllib.parse import quote

    made = put(app.state.store, name)
    assert ask.get("/ask/drawing", {"boat": name}).json()["boat"] == name
    saved = ask.post(f"/boats/{quote(name, safe='')}/settings", {**GOOD, "made_from": made})
    assert saved.status_code == 200, saved.text
    assert len(ask.get(f"/boats/{quote(name, safe='')}/versions").json()["versions"]) == 2


@pytest.mark.parametrize("path", ["/flight", "/bench"])
def test_names_are_escaped_in_the_page(app: Any, ask: Asking, path: str):
    """In HTML and in the data inside the page; SVG is drawn in the browser and looked at there."""
    import json
    import re

    put(app.state.store, UGLY)
    put(app.state.store, "{{ 7 * 7 }}")
    page = ask.get(path).text
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert(1)&lt;/script&gt;&amp;&#34;&#39;" in page
    assert "{{ 7 * 7 }}" in page and "49" not in re.findall(r"<option[^>]*>([^<]*)", page)
    islands = re.findall(r'<script type="application/json" id="(\w+)">(.*?)</script>', page, re.DOTALL)
    found = {name: json.loads(text) for name, text in islands}
    assert UGLY in found["boats"]
    assert not any(sign in text for _, text in islands for sign in "<>&")
    scripts = re.findall(r"<script(?![^>]*application/json)([^>]*)>(.*?)</script>", page, re.DOTALL)
    assert scripts and all("src=" in how and not text.strip() for how, text in scripts)
    assert not re.search(r"\son\w+=|style=", page), "the policy forbids these in the page"


def test_a_measured_boat_and_its_sheet_are_kept_both_or_neither(ask: Asking, monkeypatch: pytest.MonkeyPatch):
    def cut_off(connection: Any, kind: str, *rest: Any) -> Any:
        if kind == "bench-sheet":
            raise OSError("no space left")
        return save_in(connection, kind, *rest)

    body = {"sheet": SHEET, "made_from": 0, "by": "bosun"}
    with monkeypatch.context() as cut:
        cut.setattr(store_boats, "save_in", cut_off)
        assert ask.post("/boats/Marram/measured", body).status_code == 500
    assert not [one for one in entries(ask) if one["by"] == "bosun"], "no boat without its sheet"
    assert ask.post("/boats/Marram/measured", body).status_code == 200
    kinds = [one["kind"] for one in entries(ask) if one["by"] == "bosun"]
    assert sorted(kinds) == ["bench-sheet", "boat"]
