"""Running the page on this machine: where the data lie, which address, and who may ask."""

import os
import socket
from collections.abc import Callable
from pathlib import Path

from foilwright.mistakes import Mistake
from foilwright.web.app import LOOPBACK, application

PORT = 8640


def data_home() -> Path:
    """Where this user's data live, by the custom of the system."""
    if os.environ.get("FOILWRIGHT_DATA"):
        return Path(os.environ["FOILWRIGHT_DATA"])
    if os.environ.get("XDG_DATA_HOME"):
        return Path(os.environ["XDG_DATA_HOME"]) / "foilwright"
    if os.environ.get("LOCALAPPDATA"):
        return Path(os.environ["LOCALAPPDATA"]) / "foilwright" / "data"
    return Path.home() / ".local" / "share" / "foilwright"


def serve(
    port: int, data: str | Path | None, lan: bool, say: Callable[[list[str], str | Path], None]
) -> None:
    """Serves until the person stops it. On this machine only, unless `lan` opens it to the local network.

    `say` hears the addresses of the page and where the data lie, as soon as both can be had.
    """
    import uvicorn

    taken = listening(port, "0.0.0.0" if lan else "127.0.0.1")
    try:
        number = taken.getsockname()[1]
        names = own_names() if lan else ()
        where = data if data is not None else data_home()
        try:
            app = application(where, LOOPBACK + names)
        except Mistake as wrong:
            mend = "Name a folder that you may write to: --data FOLDER."
            raise Mistake("--data", f"{wrong.where}, which {wrong.came}", wrong.allowed, mend) from None
        say([f"http://{name}:{number}/" for name in ("127.0.0.1", *names)], where)
        config = uvicorn.Config(app, log_level="warning", server_header=False, proxy_headers=False)
        uvicorn.Server(config).run(sockets=[taken])
    finally:
        taken.close()


def listening(port: int, address: str) -> socket.socket:
    """A socket on a port; 0 takes any that is free."""
    # The protocol is named: only then does the server's loop send small answers without waiting (40 ms).
    taken = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    taken.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        taken.bind((address, port))
    except OSError as error:
        taken.close()
        raise Mistake(
            "--port",
            f"{port}, which cannot be had ({error.strerror})",
            "a free port from 1024 to 65535, or 0",
            "Try --port 0.",
        ) from None
    taken.listen()
    return taken


def own_names() -> tuple[str, ...]:
    """This machine's name and its addresses on the local network."""
    name = socket.gethostname()
    try:
        found = {str(entry[4][0]) for entry in socket.getaddrinfo(name, None, socket.AF_INET)}
    except OSError:
        found = set()
    return tuple(sorted({name.lower(), f"{name.lower()}.local"} | found - set(LOOPBACK)))
