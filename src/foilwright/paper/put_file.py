"""Writing a file all at once: whoever reads it sees the old one or the new one, never half of either."""

import os
import tempfile
from pathlib import Path

from foilwright.documents.toml_file import cannot_write
from foilwright.mistakes import Mistake


def put_file(path: Path, content: bytes) -> None:
    """Writes a file by way of a temporary one beside it; raises a Mistake where that cannot be done."""
    if path.is_dir():
        raise Mistake(str(path), "this is a folder", "the name of a file to write", "Name a file in it.")
    if not path.parent.is_dir():
        raise Mistake(
            str(path),
            f"there is no folder {path.parent}",
            "a file in a folder that exists",
            "Make the folder first.",
        )
    temporary = ""
    try:
        handle, temporary = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".new", dir=path.parent)
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        os.chmod(temporary, 0o644)
        os.replace(temporary, path)
    except OSError as e:
        raise cannot_write(path, e) from None
    finally:
        if temporary and os.path.exists(temporary):
            os.unlink(temporary)
