"""The application: pages, answers for the drawing, and what is kept. `serve` runs it."""

import threading
from collections.abc import AsyncIterator, Iterable
from contextlib import asynccontextmanager
from pathlib import Path
from typing import cast

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from fastapi.staticfiles import StaticFiles
from starlette.exceptions import HTTPException

from foilwright.jobs.desk import open_boat
from foilwright.jobs.explore import asked, warm_up
from foilwright.jobs.keep_boats import open_shelf
from foilwright.mistakes import Mistake, Mistakes
from foilwright.web import ask, boats, pages
from foilwright.web.guard import Guard

HERE = Path(__file__).parent
LOOPBACK = ("127.0.0.1", "localhost", "::1")


def application(data: str | Path, hosts: Iterable[str] = LOOPBACK, warm: bool = True) -> FastAPI:
    """The application on the store at `data`; with `warm` it gets the compiled physics ready meanwhile."""
    store = open_shelf(data)

    @asynccontextmanager
    async def life(_: FastAPI) -> AsyncIterator[None]:
        if warm:
            threading.Thread(target=lambda: warm_up(asked(open_boat("marram"), "75")), daemon=True).start()
        yield
        store.close()

    app = FastAPI(
        title="foilwright", docs_url=None, redoc_url=None, openapi_url="/ask/openapi.json", lifespan=life
    )
    app.state.store = store
    app.include_router(pages.router)
    app.include_router(ask.router)
    app.include_router(boats.router)
    app.mount("/fonts", StaticFiles(directory=HERE.parent / "paper" / "fonts"), name="fonts")
    app.mount("/static", StaticFiles(directory=HERE / "static"), name="static")
    app.add_middleware(Guard, hosts=tuple(hosts))
    app.add_exception_handler(Mistake, wrong_input)
    app.add_exception_handler(Mistakes, wrong_input)
    app.add_exception_handler(RequestValidationError, wrong_fields)
    app.add_exception_handler(HTTPException, nothing_there)
    return app


def wrong_input(_: Request, fault: Exception) -> Response:
    """Wrong input in the one shape in which a mistake leaves the house."""
    return JSONResponse(cast(Mistake | Mistakes, fault).as_json(), 422)


def wrong_fields(_: Request, fault: Exception) -> Response:
    """A field that is missing or of another kind, as a sentence."""
    found = []
    for one in cast(RequestValidationError, fault).errors():
        where = ".".join(str(part) for part in one["loc"][1:]) or str(one["loc"][0])
        came = "missing" if one["type"] == "missing" else repr(one.get("input"))[:80]
        found.append(Mistake(where, came, str(one["msg"]), "Look at this field."))
    return JSONResponse(Mistakes(tuple(found)).as_json(), 422)


def nothing_there(request: Request, fault: Exception) -> Response:
    """An address that is not one of ours, or asked in another way than it may be."""
    status = cast(HTTPException, fault).status_code
    mistake = Mistake(
        "address",
        f"{request.method} {request.url.path}",
        "an address of this page",
        "Go back to the start of the page: /",
    )
    return JSONResponse(mistake.as_json(), status)
