"""The application: pages, answers for the drawing, and what is kept. `serve` runs it."""

import threading
from collections.abc import AsyncIterator, Callable, Iterable
from contextlib import asynccontextmanager
from pathlib import Path

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from fastapi.staticfiles import StaticFiles
from starlette.exceptions import HTTPException

from foilwright.jobs.desk import open_boat
from foilwright.jobs.explore import asked, warm_up
from foilwright.jobs.explore_wind import warm_up_wind
from foilwright.jobs.keep_boats import open_shelf
from foilwright.mistakes import Mistake, Mistakes
from foilwright.web import ask, boats, pages
from foilwright.web.guard import Guard
from foilwright.web.refusals import Refusal, nothing_there, wrong_fields, wrong_input

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
        title="foilwright",
        docs_url=None,
        redoc_url=None,
        openapi_url="/ask/openapi.json",
        lifespan=life,
        responses={422: {"model": Refusal, "description": "What is wrong, where, and how to mend it"}},
    )
    app.state.store = store
    # The physics of sailing in a wind takes longer to get ready, so only where somebody asks for it.
    app.state.wind_wanted = begun_once(warm_up_wind) if warm else lambda: None
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


def begun_once(work: Callable[[], None]) -> Callable[[], None]:
    """A call that begins some work in the background the first time, and does nothing ever after."""
    first = threading.Lock()

    def begin() -> None:
        if first.acquire(blocking=False):  # and never released
            threading.Thread(target=work, daemon=True).start()

    return begin
