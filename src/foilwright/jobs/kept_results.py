"""Results kept in a folder by the hash of what they were computed from, so that a day can be gone on with."""

import hashlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from foilwright.paper.put_file import put_file

FOLDER = "kept"
WAY = 2  # goes up whenever what is computed, or how it is kept, changes its meaning


def key_of(*parts: Any) -> str:
    """Twenty signs for the meaning of anything that JSON can hold, and for the text of the physics."""
    from foilwright.compiled import source_hash

    content = json.dumps([WAY, source_hash(), *parts], sort_keys=True, separators=(",", ":"), default=str)
    return hashlib.sha256(content.encode()).hexdigest()[:20]


def kept_or_made(folder: Path, key: str, make: Callable[[], Any]) -> tuple[Any, bool]:
    """The result of this key, and whether it lay there already; a file that cannot be read is made again."""
    path = folder / FOLDER / f"{key}.json"
    found = read_kept(path)
    if found is not None:
        return found, True
    made = make()
    put_kept(path, made)
    return made, False


def read_kept(path: Path) -> Any:
    """What lies there, or nothing."""
    try:
        return json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None


def put_kept(path: Path, content: Any) -> None:
    """Keeps a result all at once: half a file is never seen."""
    put_file(path, json.dumps(content, ensure_ascii=False, allow_nan=False, indent=1).encode())
