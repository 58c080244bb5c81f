"""Every route with input drawn from the API description, of the right shape and of wrong ones.

Whatever comes, the answer is an answer or a refusal in the one shape, and what is refused is not kept. Half
of the drawn fields are swapped for good ones, so that what is drawn gets past the first check. `make fuzz`
draws many more, other ones each time.
"""

import json
import os
from typing import Any

import pytest
import schemathesis
from fastapi.routing import APIRoute
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schemathesis.generation import GenerationMode

from foilwright.documents.examples import examples_folder
from foilwright.web import ask, boats
from foilwright.web.guard import HEADERS
from tests.web.asking import Asking, fault_of

pytestmark = pytest.mark.usefixtures("compiled_physics")
MANY = int(os.environ.get("FOILWRIGHT_FUZZ", "0"))
FEW = 10
GOOD: dict[str, Any] = {
    "boat": "Marram",
    "boat_a": "Marram",
    "boat_b": "Sedge",
    "name": "Marram",
    "adjuster_a": "main-rod",
    "adjuster_b": "main-rod",
    "speed": "12",
    "sailor": "75",
    "sailor_a": "75",
    "sailor_b": "75",
    "set": ["main-rod=0,5"],
    "heel": "0",
    "water": "sea",
    "temperature": "15",
    "take_off": "false",
    "wind": "8",
    "angle": "90",
    "measured": "mast",
    "needed": "false",
    "version": 0,
    "made_from": 0,
    "by": "somebody",
    "trail_id": 1,
    "settings": {"main-rod": 1},
    "sheet": (examples_folder() / "bench" / "marram-bench.csv").read_text(encoding="utf-8"),
}
ROUTES = sorted(
    f"{method} {route.path_format}"
    for route in [*ask.router.routes, *boats.router.routes]
    if isinstance(route, APIRoute)
    for method in route.methods or ()
)
RIGHT, WRONG = GenerationMode.POSITIVE, GenerationMode.NEGATIVE


def described(asking: Asking) -> dict[str, Any]:
    """The routes as the API description has them."""
    schema = schemathesis.openapi.from_dict(asking.app.openapi())
    found: list[Any] = [one.ok() for one in schema.get_all_operations()]  # type: ignore[union-attr]
    return {one.label: one for one in found}


def partly_good(data: st.DataObject, drawn: Any) -> Any:
    """The same fields, some of them swapped for good ones or, of good ones, left out."""
    if not isinstance(drawn, dict):
        return drawn
    swap = data.draw(st.lists(st.booleans(), min_size=len(drawn), max_size=len(drawn)))
    return {
        name: GOOD[name] if good and name in GOOD else value
        for good, (name, value) in zip(swap, drawn.items(), strict=True)
    }


def send(asking: Asking, data: st.DataObject, case: Any) -> Any:
    """One drawn question, as a page would send it."""
    case.query = partly_good(data, dict(case.query or {}))
    case.path_parameters = partly_good(data, dict(case.path_parameters or {}))
    case.body = partly_good(data, case.body)
    wire = case.as_transport_kwargs(base_url="")
    # Half a sign cannot be sent in an address at all.
    query = json.loads(json.dumps(wire["params"]).replace("\\ud", "\\u0d"))
    raw = wire.get("data")
    if "json" in wire:
        raw = json.dumps(wire["json"]).encode()
    if raw is not None and not isinstance(raw, bytes):
        raw = str(raw).encode("utf-8", "replace")
    return asking(case.method, wire["url"], query=query, raw=raw)


def look_at(answer: Any) -> None:
    """Is it one of the answers that may leave the house?"""
    assert answer.headers["Content-Security-Policy"] == HEADERS["Content-Security-Policy"]
    if answer.status_code == 303 or answer.status_code == 200:
        assert answer.text == "null" or json.loads(answer.text, parse_constant=_no_number) is not None
    else:
        assert answer.status_code in (400, 404, 405, 413, 422), answer.text
        fault_of(answer)


def _no_number(words: str) -> None:
    raise AssertionError(f"{words} in an answer")


@pytest.mark.parametrize("mode", [RIGHT, WRONG], ids=["right", "wrong"])
@pytest.mark.parametrize("label", ROUTES)
def test_whatever_comes(app: Any, label: str, mode: GenerationMode):
    asking = Asking(app)
    operation = described(asking)[label]
    if mode is WRONG and not (operation.query or operation.path_parameters or operation.body):
        return  # it takes nothing, so nothing can be wrong
    kept = len(asking.get("/boats/trail").json()["entries"])

    @settings(
        max_examples=MANY or FEW,
        derandomize=not MANY,
        database=None,
        suppress_health_check=list(HealthCheck),
    )
    @given(case=operation.as_strategy(generation_mode=mode), data=st.data())
    def asked(case: Any, data: st.DataObject) -> None:
        nonlocal kept
        answer = send(asking, data, case)
        look_at(answer)
        now = len(asking.get("/boats/trail").json()["entries"])
        if case.method == "GET" or answer.status_code != 200:
            assert now == kept, "nothing is kept of what was refused, or only looked at"
        kept = now

    asked()
