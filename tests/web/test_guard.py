"""Who may ask and change, how much may be sent, and what every answer carries."""

import json
import logging
from typing import Any

import pytest

from foilwright.web.guard import HEADERS, MOST_BYTES
from tests.web.asking import HOME, Asking, fault_of

UNDO = json.dumps({"trail_id": 1}).encode()
FOREIGN_HOSTS = ["elsewhere.example", "127.0.0.1.elsewhere.example", "10.0.0.1:8640", "", "[", "localhost."]
FOREIGN_ORIGINS = [
    None,
    "null",
    "",
    "http://elsewhere.example",
    "http://127.0.0.1:1",
    "http://127.0.0.1",
    "http://127.0.0.1:8640.elsewhere.example",
    "http://[",
]


@pytest.mark.parametrize("host", FOREIGN_HOSTS)
@pytest.mark.parametrize("path", ["/flight", "/static/page.js", "/boats"])
def test_a_foreign_name_is_refused(looking: Asking, path: str, host: str):
    answer = looking("GET", path, headers={"Host": host})
    assert answer.status_code == 421
    assert fault_of(answer)["where"] == "Host"


@pytest.mark.parametrize("host", ["localhost", "localhost:8640", "127.0.0.1", "[::1]:8640", "LOCALHOST:8640"])
def test_our_own_names_are_known(looking: Asking, host: str):
    assert looking("GET", "/boats", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize("origin", FOREIGN_ORIGINS)
@pytest.mark.parametrize("path", ["/boats/Marram/settings", "/boats/undo", "/ask/bench-fit", "/nowhere"])
def test_a_change_from_a_foreign_page_is_refused(looking: Asking, path: str, origin: str | None):
    answer = looking("POST", path, raw=UNDO, headers={"Origin": origin})
    assert answer.status_code == 403
    assert fault_of(answer)["where"] == "Origin"
    assert looking.get("/boats/trail").json()["entries"] == []


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS"])
def test_other_ways_of_asking_need_our_page_too(looking: Asking, method: str):
    assert looking(method, "/boats", headers={"Origin": None}).status_code == 403
    assert looking(method, "/boats").status_code == 405


def test_the_origin_must_be_the_host_that_was_asked(looking: Asking):
    """Both are ours, but another program may stand behind the other one."""
    answer = looking("POST", "/boats/undo", raw=UNDO, headers={"Host": "localhost:8640", "Origin": HOME})
    assert answer.status_code == 403


@pytest.mark.parametrize("path", ["/boats/Marram/settings", "/ask/bench-fit"])
def test_too_large_a_message_is_not_read(looking: Asking, path: str):
    told = looking("POST", path, raw=b"x" * (MOST_BYTES + 1))
    assert (told.status_code, fault_of(told)["where"]) == (413, "upload")
    untold = looking("POST", path, pieces=[b" " * 100_000] * 11)
    assert "content-length" not in {name.lower() for name in untold.request.headers}
    assert (untold.status_code, fault_of(untold)["where"]) == (413, "upload")


@pytest.mark.parametrize("length", ["-1", "1e3", "many", str(10**30)])
def test_a_length_that_is_none_is_refused(looking: Asking, length: str):
    assert looking("POST", "/boats/undo", raw=UNDO, headers={"Content-Length": length}).status_code == 413


@pytest.mark.parametrize(
    ("method", "path", "status"),
    [
        ("GET", "/", 303),
        ("GET", "/flight", 200),
        ("GET", "/bench", 200),
        ("GET", "/favicon.ico", 301),
        ("GET", "/static/page.js", 200),
        ("GET", "/static/style.css", 200),
        ("GET", "/static/icon.svg", 200),
        ("GET", "/static/../app.py", 404),
        ("GET", "/static/nothing.js", 404),
        ("GET", "/fonts/AtkinsonHyperlegibleNext-latin-Regular.woff2", 200),
        ("GET", "/boats", 200),
        ("GET", "/ask/openapi.json", 200),
        ("GET", "/ask/drawing", 422),
        ("GET", "/nothing", 404),
        ("POST", "/flight", 405),
        ("POST", "/boats/undo", 422),
    ],
)
def test_every_answer_carries_the_policy(looking: Asking, method: str, path: str, status: int):
    answer = looking(method, path)
    assert answer.status_code == status
    for name, value in HEADERS.items():
        assert answer.headers.get_list(name) == [value]
    assert "cache-control" in answer.headers
    if status >= 400:
        fault_of(answer)


def test_the_policy_lets_nothing_in_from_elsewhere():
    policy = dict(one.strip().split(" ", 1) for one in HEADERS["Content-Security-Policy"].split(";"))
    assert policy["default-src"] == "'none'"
    assert policy["script-src"] == policy["style-src"] == policy["connect-src"] == "'self'"
    assert "unsafe" not in str(policy) and "*" not in str(policy) and "http" not in str(policy)


def test_what_breaks_here_is_told_and_the_next_question_answered(
    app: Any, ask: Asking, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
):
    def broken(_: object) -> None:
        raise RuntimeError("a rod broke")

    monkeypatch.setattr("foilwright.jobs.keep_boats.trail_of", broken)
    with caplog.at_level(logging.ERROR):
        answer = ask.get("/boats/trail")
    assert answer.status_code == 500
    assert "fault of ours" in fault_of(answer)["came"]
    assert "a rod broke" not in answer.text, "what broke is for the log"
    assert "a rod broke" in caplog.text
    assert answer.headers["Content-Security-Policy"] == HEADERS["Content-Security-Policy"]
    assert ask.get("/boats").status_code == 200
