"""Kills a process that saves, again and again, and looks at the store after each: opens it clean, with all
that was confirmed? `python -m tests.store.killed FOLDER KILLS SEED` prints how many saves were confirmed.
"""

import os
import random
import select
import signal
import sys
import time
from pathlib import Path

from sqlalchemy import text

from foilwright.store.opening import open_store
from foilwright.store.versions import history, save


def saves_for_ever(folder: Path, out: int) -> None:
    """The child: saves and, only when a save has come back, says its number."""
    store = open_store(folder)
    parent = None
    while True:
        parent = save(store, "day", "a day", "x" * random.randrange(20_000), "child", parent).version.id
        os.write(out, f"{parent}\n".encode())


def one_kill(folder: Path, seconds: float, saving: bool) -> set[int]:
    """Starts a child, kills it after a while, and hands back what it had confirmed.

    The while begins with the first save that came back, or (not `saving`) with the child itself, so that
    some are killed while the store is being opened. Otherwise a busy machine would hardly see a save.
    """
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reader)
        try:
            saves_for_ever(folder, writer)
        finally:
            os._exit(1)
    os.close(writer)
    said = os.read(reader, 65536) if saving else b""
    end = time.monotonic() + seconds
    while (left := end - time.monotonic()) > 0.0:
        if select.select([reader], [], [], left)[0]:
            said += os.read(reader, 65536)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status), "the child ended by itself"
    while more := os.read(reader, 65536):
        said += more
    os.close(reader)
    return {int(line) for line in said.split(b"\n")[:-1]}


def kill_and_look(folder: Path, kills: int, seed: int) -> int:
    """How many saves were confirmed; raises where the store is not clean or one of them is gone."""
    chance = random.Random(seed)
    confirmed: set[int] = set()
    for kill in range(kills):
        confirmed |= one_kill(folder, chance.uniform(0.0, 0.2), kill % 4 != 3)
        store = open_store(folder)
        with store.reading() as connection:
            assert connection.execute(text("PRAGMA integrity_check")).scalar_one() == "ok"
            assert connection.execute(text("PRAGMA foreign_key_check")).all() == []
        kept = {version.id for version in history(store, "day", "a day")}
        store.close()
        assert confirmed <= kept, f"lost: {sorted(confirmed - kept)}"
    return len(confirmed)


if __name__ == "__main__":
    print(kill_and_look(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])))
