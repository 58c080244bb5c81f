"""A folder to put results in."""

from pathlib import Path

from foilwright.mistakes import Mistake


def make_folder(folder: Path) -> Path:
    """The folder, made where it is missing; a Mistake where it cannot be."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as e:
        raise Mistake(
            "--out",
            f"{folder} cannot be made ({e.strerror})",
            "a folder you may write to",
            "Choose another folder.",
        ) from None
    return folder
