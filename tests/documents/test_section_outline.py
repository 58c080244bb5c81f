"""A foil section given by its own outline in the boat file."""

from importlib.util import find_spec

import numpy as np
import pytest

from foilwright.documents.boat_file import boat_from_text
from foilwright.documents.boat_numbers import ready, section_specs
from foilwright.documents.examples import example
from foilwright.mistakes import Mistake

SECTION = 'section = "NACA 63-412"'


def symmetric_outline(thickness: float) -> list[list[float]]:
    """A four-digit symmetric section (Jacobs, Ward & Pinkerton, NACA Report 460, 1933), closed behind."""
    x = 0.5 * (1.0 - np.cos(np.linspace(0.0, np.pi, 30)))
    series = (0.2969, -0.1260, -0.3516, 0.2843, -0.1036)
    powers = np.stack([x**p for p in (0.5, 1, 2, 3, 4)])
    y = 5.0 * thickness * (np.array(series) @ powers)
    upper = np.column_stack([x[::-1], y[::-1]])
    return np.vstack([upper, np.column_stack([x[1:], -y[1:]])]).round(6).tolist()


def with_outline(outline: list[list[float]]) -> str:
    text = example("marram").read_text(encoding="utf-8")
    assert SECTION in text
    return text.replace(SECTION, f"section_outline = {outline}")


def test_the_outline_reaches_the_section_tables():
    outline = symmetric_outline(0.12)
    boat = boat_from_text(with_outline(outline), "own.toml")
    numbers = ready(boat_from_text(example("marram").read_text(encoding="utf-8"), "marram.toml")).numbers
    main, rudder = section_specs(boat, numbers)
    assert main.coordinates is not None and np.allclose(main.coordinates, outline)
    assert rudder.coordinates is None


@pytest.mark.skipif(find_spec("neuralfoil") is not None, reason="the section code is installed here")
def test_without_the_section_code_the_mend_is_named():
    boat = boat_from_text(with_outline(symmetric_outline(0.12)), "own.toml")
    with pytest.raises(Mistake, match="polars"):
        ready(boat)


def test_too_short_an_outline_is_refused():
    boat = boat_from_text(with_outline(symmetric_outline(0.12)[:10]), "own.toml")
    with pytest.raises(Mistake, match="20 rows"):
        ready(boat)
