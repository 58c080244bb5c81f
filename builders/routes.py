"""Writes docs/reference/routes.md from the API description of the page's own server.

    python builders/routes.py

`tests/web/test_reference.py` holds the page against what this makes.
"""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any

from foilwright.web.app import application
from foilwright.web.guard import MOST_BYTES

PAGE = Path(__file__).parent.parent / "docs" / "reference" / "routes.md"

HEAD = f"""\
# What the page asks its server

For whoever changes the page, or asks the server from a program on the same machine. Written from the API
description, which the server itself gives at `/ask/openapi.json`.

- Every answer is JSON in UTF-8. Whatever is wrong comes back in one shape,
  `{{"error": {{"where", "came", "allowed", "mend"}}}}`, with `"all"` beside it where several things were
  found: 422 for wrong input, 400 for a message that cannot be read, 404 and 405 for an address that is none,
  403 and 421 for a stranger, 413 above {MOST_BYTES // 1000} kB, and 500, also a sentence, for our faults.
- Only our own names in `Host` are answered (`--lan` adds this machine's). A `POST` needs the `Origin` of the
  page itself.
- Numbers are typed as people type them: `12,5` is as good as `12.5`.
- `/ask` only looks. `/boats` keeps: each change is a new version with an entry in the trail, and `made_from`
  says which version was changed (0: the example as it comes). Nothing is kept of what was refused.

"""


def written() -> str:
    """The whole page."""
    with tempfile.TemporaryDirectory() as folder:
        app = application(folder, warm=False)
        description = app.openapi()
        app.state.store.close()
    return HEAD + "\n".join(
        _route(path, method, one, description) for path, method, one in _routes(description)
    )


def _routes(description: dict[str, Any]) -> list[tuple[str, str, dict[str, Any]]]:
    return [
        (path, method, one) for path, ways in description["paths"].items() for method, one in ways.items()
    ]


def _route(path: str, method: str, one: dict[str, Any], description: dict[str, Any]) -> str:
    """One route: what it does, and its fields."""
    rows = [
        (field["name"], field["schema"], field["required"], field["schema"].get("description", ""))
        for field in one.get("parameters", ())
    ]
    content = one.get("requestBody", {}).get("content", {}).get("application/json")
    if content:
        body = _resolved(content["schema"], description)
        needed = body.get("required", ())
        rows += [
            (name, schema, name in needed, schema.get("description", ""))
            for name, schema in body["properties"].items()
        ]
    lines = [f"## {method.upper()} {path}", "", one["description"], ""]
    if rows:
        lines += ["| field | what may stand there | else |", "|---|---|---|"]
        lines += [
            f"| `{name}` | {_kind(_resolved(schema, description))}{f': {words}' if words else ''} "
            f"| {'must be there' if required else _default(schema)} |"
            for name, schema, required, words in rows
        ]
        lines.append("")
    return "\n".join(lines)


def _resolved(schema: dict[str, Any], description: dict[str, Any]) -> dict[str, Any]:
    if "$ref" in schema:
        found: dict[str, Any] = description["components"]["schemas"][schema["$ref"].rsplit("/", 1)[1]]
        return found
    return schema


def _kind(schema: dict[str, Any]) -> str:
    """What a field may be, in words."""
    for one in schema.get("anyOf", ()):
        if one.get("type") != "null":
            return _kind(one)
    kind = schema.get("type")
    if kind == "string":
        return f"words, at most {schema['maxLength']} signs" if "maxLength" in schema else "words"
    if kind == "integer":
        return f"whole number from {int(schema['minimum'])}" if "minimum" in schema else "whole number"
    if kind == "array":
        return f"may be repeated, at most {schema['maxItems']} times"
    if kind == "object":
        return f"names with a number each, at most {schema['maxProperties']}"
    return {"boolean": "true or false", "number": "number"}.get(str(kind), str(kind))


def _default(schema: dict[str, Any]) -> str:
    default = schema.get("default")
    if default in (None, ""):
        return "may be left out"
    return f"`{str(default).lower() if isinstance(default, bool) else default}`"


if __name__ == "__main__":
    PAGE.write_text(written(), encoding="utf-8", newline="\n")
