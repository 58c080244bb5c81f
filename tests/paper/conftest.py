"""Cards of the demo boats: each boat flown once, each form made once."""

from collections.abc import Callable
from functools import cache

import pytest

from foilwright.jobs import desk


@cache
def flown(boat: str) -> desk.Card:
    return desk.card(boat, 75.0, form="text")


@cache
def made(boat: str, form: str) -> desk.Card:
    return flown(boat)._replace(content=desk.rendered(flown(boat).card, form))


@pytest.fixture
def make_card() -> Callable[[str, str], desk.Card]:
    """A card by boat and form, kept for the next test that asks for the same."""
    return made
