"""What people type on a page: a decimal comma is as good as a point, and words are whole."""

import re
from typing import Annotated

from pydantic import AfterValidator, BeforeValidator, Field

_COMMA = re.compile(r"(?<=\d),(?=\d)")


def point(words: str) -> str:
    """The same words with points for decimal commas: "12,5kn", "main-rod=+0,5", "4:24:0,5"."""
    return _COMMA.sub(".", words.strip())


def _whole(words: str) -> str:
    """Databases refuse the sign of number 0, and everybody refuses half a sign."""
    if "\0" in words or any("\ud800" <= sign <= "\udfff" for sign in words):
        raise ValueError("words of whole signs")
    return words


def _no_truth(value: object) -> object:
    """In JSON true is no number, though Python takes it for 1."""
    if isinstance(value, bool):
        raise ValueError("a number, neither true nor false")
    return value


NO_TRUTH = BeforeValidator(_no_truth)
LARGEST = 2**31 - 1  # number of a version that a database takes
Version = Annotated[int, Field(ge=0, le=LARGEST), NO_TRUTH]
"""A version of a boat; 0 is the example as it comes."""
Number = Annotated[float, NO_TRUTH]
Words = Annotated[str, AfterValidator(_whole)]
"""Text that can be kept and sent."""
