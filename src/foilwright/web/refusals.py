"""How every refusal leaves the house: one shape, a sentence, what is allowed and how to mend it."""

import json
from typing import Any, cast

from fastapi import Request
from fastapi.exceptions import RequestValidationError
from pydantic import BaseModel
from starlette.exceptions import HTTPException
from starlette.responses import Response

from foilwright.mistakes import Mistake, Mistakes

# What a field may be, by the name of the check that it failed; `{...}` is filled from the check.
ALLOWED = {
    "missing": "something must stand here",
    "string_type": "words",
    "string_unicode": "words of whole signs",
    "string_too_long": "at most {max_length} signs",
    "too_long": "at most {max_length} entries",
    "too_short": "at least {min_length} entry",
    "int_type": "a whole number",
    "int_parsing": "a whole number",
    "int_parsing_size": "a smaller whole number",
    "int_from_float": "a whole number",
    "float_type": "a number",
    "float_parsing": "a number",
    "bool_type": "true or false",
    "bool_parsing": "true or false",
    "dict_type": "names with a number each",
    "greater_than_equal": "{ge} or more",
    "less_than_equal": "{le} or less",
    "value_error": "{error}",
}
UNREADABLE = Mistake(
    "the message", "cannot be read", "JSON in UTF-8, as the page sends it", "Load the page again."
)
BROKEN = Mistake(
    "foilwright",
    "something broke here: a fault of ours",
    "an answer",
    "Nothing was kept of this. Load the page again; if it stays, tell us what you did.",
)
MOST_SHOWN = 80


class Told(BaseModel):
    """One thing wrong."""

    where: str
    came: str
    allowed: str
    mend: str


class Refusal(BaseModel):
    """The one shape of every refusal: the first thing wrong and, where several were found, all."""

    error: Told
    all: list[Told] | None = None


class RefusalAnswer(Response):
    """A refusal as JSON in plain signs, whatever came in."""

    media_type = "application/json"

    def __init__(self, mistake: Mistake | Mistakes, status: int) -> None:
        super().__init__(json.dumps(mistake.as_json()), status)


def wrong_input(_: Request, fault: Exception) -> Response:
    """Wrong input. The page has fields where the command line has options, of the same names."""
    found = fault.found if isinstance(fault, Mistakes) else (cast(Mistake, fault),)
    named = tuple(Mistake(one.where.removeprefix("--"), one.came, one.allowed, one.mend) for one in found)
    return RefusalAnswer(Mistakes(named) if isinstance(fault, Mistakes) else named[0], 422)


def wrong_fields(_: Request, fault: Exception) -> Response:
    """Fields that are missing or of another kind."""
    errors = cast(RequestValidationError, fault).errors()
    if any(one["type"] == "json_invalid" for one in errors):
        return RefusalAnswer(UNREADABLE, 422)
    return RefusalAnswer(Mistakes(tuple(_field(one) for one in errors)), 422)


def _field(one: Any) -> Mistake:
    where = ".".join(str(part) for part in one["loc"][1:]) or "the message"
    came = "nothing" if one["type"] == "missing" else shown(one.get("input"))
    form = ALLOWED.get(one["type"], "{msg}")
    allowed = form.format(**{"msg": one["msg"], **one.get("ctx", {})})
    return Mistake(where, came, allowed, "Look at this field.")


def shown(came: object) -> str:
    """What came, cut short."""
    words = f"`{came}`" if isinstance(came, str) else repr(came)
    return words if len(words) <= MOST_SHOWN else f"{words[:MOST_SHOWN]}..."


def nothing_there(request: Request, fault: Exception) -> Response:
    """An address that is not one of ours, asked in another way than it may be, or with rubbish behind it."""
    status = cast(HTTPException, fault).status_code
    if status == 400:
        return RefusalAnswer(UNREADABLE, 400)
    answer = RefusalAnswer(
        Mistake(
            "address",
            f"{request.method} {shown(request.url.path)}",
            "an address of this page, asked as the page asks it",
            "Go back to the start of the page: /",
        ),
        status,
    )
    allow = (cast(HTTPException, fault).headers or {}).get("Allow")
    if allow:
        answer.headers["Allow"] = allow
    return answer
