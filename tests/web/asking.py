"""Asking the application without a network: one call, one answer."""

import asyncio
import json
from collections.abc import AsyncIterator, Iterable, Mapping
from typing import Any

import httpx

HOME = "http://127.0.0.1:8640"


class Asking:
    """Asks an application in this process, as a page of its own would: with its Host and its Origin."""

    def __init__(self, app: Any) -> None:
        self.app = app

    def __call__(
        self,
        method: str,
        path: str,
        *,
        query: Any = None,
        body: Any = None,
        raw: bytes | None = None,
        pieces: Iterable[bytes] | None = None,
        headers: Mapping[str, str | None] | None = None,
    ) -> httpx.Response:
        """`body` is sent as JSON, `raw` as it is, `pieces` one by one without a length."""
        sent: dict[str, str] = {}
        content: Any = raw
        if method not in ("GET", "HEAD"):
            sent = {"Origin": HOME, "Content-Type": "application/json"}
        if body is not None:
            content = json.dumps(body).encode()
        if pieces is not None:
            content = _one_by_one(pieces)
        for name, value in (headers or {}).items():
            if value is None:
                sent.pop(name, None)
            else:
                sent[name] = value

        async def once() -> httpx.Response:
            transport = httpx.ASGITransport(app=self.app)
            async with httpx.AsyncClient(transport=transport, base_url=HOME) as client:
                return await client.request(method, path, params=query, content=content, headers=sent)

        return asyncio.run(once())

    def get(self, path: str, query: Any = None) -> httpx.Response:
        """Looks at something."""
        return self("GET", path, query=query)

    def post(self, path: str, body: Any) -> httpx.Response:
        """Sends JSON from the page itself."""
        return self("POST", path, body=body)


async def _one_by_one(pieces: Iterable[bytes]) -> AsyncIterator[bytes]:
    for piece in pieces:
        yield piece


def fault_of(answer: httpx.Response) -> dict[str, str]:
    """The error of a refusal, in the one shape that it may have."""
    told = answer.json()
    assert set(told) <= {"error", "all"}, told
    for one in (told["error"], *told.get("all", ())):
        assert set(one) == {"where", "came", "allowed", "mend"}, one
        assert all(isinstance(words, str) and words.strip() for words in one.values()), one
    return dict(told["error"])
