"""Numbers as people type them on a page: a decimal comma is as good as a point."""

import re

_COMMA = re.compile(r"(?<=\d),(?=\d)")


def point(words: str) -> str:
    """The same words with points for decimal commas: "12,5kn", "main-rod=+0,5", "4:24:0,5"."""
    return _COMMA.sub(".", words.strip())
