"""Runs the tests of the store on PostgreSQL: the one that FOILWRIGHT_POSTGRES names, or a throwaway one.

`python -m tests.store.on_postgres [pytest arguments]`. The throwaway server needs initdb and pg_ctl on the
PATH, listens on a socket in a temporary folder only, and is gone afterwards. The database is emptied before
each test, so never name one that holds anything.
"""

import os
import pwd
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest


def plain_user() -> tuple[int, int] | None:
    """The server refuses to run as root: then somebody else must own it."""
    if os.getuid() != 0:
        return None
    for name in ("postgres", "nobody"):
        try:
            found = pwd.getpwnam(name)
        except KeyError:
            continue
        return found.pw_uid, found.pw_gid
    raise SystemExit("Run this as an ordinary user, or name a database in FOILWRIGHT_POSTGRES.")


@contextmanager
def throwaway_server() -> Iterator[str]:
    """The address of a fresh server in a temporary folder."""
    if not (shutil.which("initdb") and shutil.which("pg_ctl")):
        raise SystemExit(
            "No PostgreSQL here: put initdb and pg_ctl on the PATH, or name a database to be emptied in "
            "FOILWRIGHT_POSTGRES, such as postgresql://me@localhost/foilwright_test."
        )
    user = plain_user()
    folder = Path(tempfile.mkdtemp(prefix="fw-pg-"))
    as_user: dict[str, int] = {}
    if user:
        os.chown(folder, *user)
        as_user = {"user": user[0], "group": user[1]}
    data = folder / "data"

    def call(*words: str) -> None:
        subprocess.run(words, check=True, stdout=subprocess.DEVNULL, cwd=folder, **as_user)  # type: ignore[call-overload]

    try:
        call("initdb", "-D", str(data), "-U", "tester", "--auth=trust", "--no-sync")
        options = f"-k {folder} -c listen_addresses='' -c fsync=off"
        call("pg_ctl", "-D", str(data), "-w", "-l", str(folder / "log"), "-o", options, "start")
        try:
            yield f"postgresql://tester@/postgres?host={folder}"
        finally:
            call("pg_ctl", "-D", str(data), "-m", "immediate", "stop")
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def main(arguments: list[str]) -> int:
    """The tests of the store, but for those that are about a file."""
    folder = str(Path(__file__).parent)
    if os.environ.get("FOILWRIGHT_POSTGRES"):
        return int(pytest.main([folder, *arguments]))
    with throwaway_server() as address:
        os.environ["FOILWRIGHT_POSTGRES"] = address
        return int(pytest.main([folder, *arguments]))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
