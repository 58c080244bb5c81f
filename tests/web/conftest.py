"""The application on a fresh store, asked in this process."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from foilwright.web.app import application
from tests.web.asking import Asking


@pytest.fixture
def app(tmp_path: Path) -> Iterator[Any]:
    made = application(tmp_path / "store", warm=False)
    yield made
    made.state.store.close()


@pytest.fixture
def ask(app: Any) -> Asking:
    return Asking(app)


@pytest.fixture(scope="session")
def looking(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Asking]:
    """One application for all questions that keep nothing."""
    made = application(tmp_path_factory.mktemp("looking") / "store", warm=False)
    yield Asking(made)
    made.state.store.close()
