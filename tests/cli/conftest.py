"""The command line run in this process: exit code, standard output, standard error."""

import json
from collections.abc import Callable
from typing import Any, NamedTuple

import pytest

from foilwright.cli.main import run


class Said(NamedTuple):
    """What a command left behind."""

    code: int
    out: str
    err: str

    @property
    def answer(self) -> Any:
        return json.loads(self.out, parse_constant=_refuse)


def _refuse(constant: str) -> None:
    raise AssertionError(f"{constant} in an answer")


@pytest.fixture
def foilwright(capsys: pytest.CaptureFixture[str]) -> Callable[..., Said]:
    """Runs one command."""

    def command(*arguments: object) -> Said:
        code = run([str(one) for one in arguments])
        out, err = capsys.readouterr()
        return Said(code, out, err)

    return command
