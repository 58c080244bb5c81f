"""Where the example files are: in `examples/` of a checkout, inside the package of an installed copy."""

from importlib.resources import files
from pathlib import Path

from foilwright.mistakes import Mistake


def examples_folder() -> Path:
    """The folder of the examples."""
    package = Path(str(files("foilwright")))
    installed = package / "examples"
    return installed if installed.is_dir() else package.parent.parent / "examples"


def example(name: str) -> Path:
    """The path of an example: "boats/marram.toml", or "marram" for a boat."""
    folder = examples_folder()
    for path in (folder / name, folder / "boats" / f"{name}.toml", folder / "boats" / name):
        if path.is_file():
            return path
    known = ", ".join(sorted(path.stem for path in (folder / "boats").glob("*.toml")))
    raise Mistake(
        f"example {name}", "there is no such example", known or "none found", "Use one of these names."
    )
