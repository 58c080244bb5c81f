"""What every request passes first: who is asked, from where, how much is sent; and what every answer carries.

Also on the loopback address: a page of somebody else in the same browser can reach it. So the Host must be
ours (else a foreign name could be made to point here), a change must come from our own page, and the
browser is told to load nothing from anywhere else.
"""

import logging
from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from typing import Any
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders

from foilwright.mistakes import Mistake
from foilwright.web.refusals import BROKEN, RefusalAnswer

MOST_BYTES = 1_000_000
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; "
    "connect-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}
SAFE = ("GET", "HEAD")

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]


class Guard:
    """Wraps the application. `hosts` are the names, without a port, under which it may be asked."""

    def __init__(self, app: Callable[[Scope, Receive, Send], Awaitable[None]], hosts: Iterable[str]) -> None:
        self.app = app
        self.hosts = frozenset(hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        fault = self.fault(scope["method"], headers)

        begun = too_large = False

        async def send_with_headers(message: Message) -> None:
            nonlocal begun
            if message["type"] == "http.response.start":
                begun = True
                out = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    out[name] = value
                if "cache-control" not in out:
                    out["Cache-Control"] = "no-store"
            await send(message)

        async def refuse(status: int, mistake: Mistake) -> None:
            await RefusalAnswer(mistake, status)(scope, receive, send_with_headers)

        if fault is not None:
            await refuse(*fault)
            return
        taken = 0

        async def bounded() -> Message:
            nonlocal taken, too_large
            message = await receive()
            taken += len(message.get("body", b""))
            if taken > MOST_BYTES:
                # The rest is not read: to the application the sender has gone away.
                too_large = True
                return {"type": "http.disconnect"}
            return message

        async def send_unless_too_large(message: Message) -> None:
            if not too_large:
                await send_with_headers(message)

        try:
            await self.app(scope, bounded, send_unless_too_large)
        except Exception:
            logging.getLogger(__name__).exception("%s %s", scope["method"], scope["path"])
            if begun:
                raise
            await refuse(500, BROKEN)
            return
        if too_large and not begun:
            await refuse(413, _too_large(f"more than {MOST_BYTES} bytes"))

    def fault(self, method: str, headers: Headers) -> tuple[int, Mistake] | None:
        """Why a request is refused, or nothing."""
        host = headers.get("host", "")
        if name_of(host) not in self.hosts:
            return 421, Mistake(
                "Host",
                f"`{host}`",
                f"one of {', '.join(sorted(self.hosts))}",
                "Open the address that `serve` printed.",
            )
        if method in SAFE:
            return None
        origin = headers.get("origin")
        if origin is None or address_of(origin) != host:
            return 403, Mistake(
                "Origin",
                f"`{origin}`" if origin else "missing",
                "this page's own address",
                "Make the change on the page.",
            )
        length = headers.get("content-length", "0")
        if not length.isdecimal() or int(length) > MOST_BYTES:
            return 413, _too_large(f"{length} bytes")
        return None


def name_of(host: str) -> str:
    """The name in a Host header, without its port."""
    try:
        return urlsplit(f"//{host}").hostname or ""
    except ValueError:
        return ""


def address_of(origin: str) -> str:
    """Name and port of an Origin header."""
    try:
        return urlsplit(origin).netloc
    except ValueError:
        return ""


def _too_large(came: str) -> Mistake:
    return Mistake("upload", came, f"at most {MOST_BYTES} bytes", "This is not a document of ours.")
