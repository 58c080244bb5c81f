"""The pages. A page is a frame with words; what is drawn comes from the answers."""

import json
from pathlib import Path

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response
from fastapi.templating import Jinja2Templates
from markupsafe import Markup

from foilwright.jobs.keep_boats import boats_at_hand
from foilwright.web import texts

router = APIRouter()
templates = Jinja2Templates(Path(__file__).parent / "templates")


@router.get("/", include_in_schema=False)
def start() -> Response:
    """The page opens at Flight."""
    return RedirectResponse("/flight", 303)


@router.get("/bench", include_in_schema=False)
def bench(request: Request) -> HTMLResponse:
    """How does this boat's chain behave, and is it as drawn?"""
    return page(request, "bench")


@router.get("/flight", include_in_schema=False)
def flight(request: Request) -> HTMLResponse:
    """How high, bow up or down, from what speed, and what changes it?"""
    return page(request, "flight")


@router.get("/favicon.ico", include_in_schema=False)
def icon() -> Response:
    """Browsers ask for it on their own."""
    return RedirectResponse("/static/icon.svg", 301)


def page(request: Request, name: str) -> HTMLResponse:
    """One page: its frame, its words, and the boats at hand."""
    names = [boat.name for boat in boats_at_hand(request.app.state.store)]
    return templates.TemplateResponse(
        request,
        f"{name}.html",
        {"texts": texts.PAGE[name], "all": texts, "island": island, "names": names, "here": name},
    )


def island(value: object) -> Markup:
    """Data inside a page, written so that no text in it can end the element that holds it."""
    written = json.dumps(value, ensure_ascii=False, allow_nan=False)
    for sign, code in (
        ("<", "\\u003c"),
        (">", "\\u003e"),
        ("&", "\\u0026"),
        ("\u2028", "\\u2028"),
        ("\u2029", "\\u2029"),
    ):
        written = written.replace(sign, code)
    return Markup(written)
