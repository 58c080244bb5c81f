"""Each test of published values is held against the kept table when it has passed."""

from collections.abc import Generator

import pytest

from tests.literature import published


@pytest.hookimpl(wrapper=True)
def pytest_runtest_call(item: pytest.Item) -> Generator[None, object, object]:
    published.ROWS.clear()
    result = yield
    published.settle(item.nodeid)
    return result
