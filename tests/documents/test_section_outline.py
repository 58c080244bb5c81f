"""A foil section given by its own outline in the boat file: its faults, and the whole way to a flight.

Referee: the same section by its name. Without the extra `polars` the section code's answer is read from
data/outline_0012.json (made by builders/outline_table.py); where the extra is installed the code itself runs.
"""

import json
from importlib.util import find_spec
from math import degrees, log, radians
from pathlib import Path

import numpy as np
import pytest

from foilwright.compiled import plain
from foilwright.documents.boat_file import boat_from_text
from foilwright.documents.boat_numbers import ReadyBoat, ready, section_specs
from foilwright.documents.examples import example
from foilwright.flight.at_speed import fly_at
from foilwright.mistakes import Mistake, Mistakes
from foilwright.water import section_data
from foilwright.water.properties import water_at
from foilwright.water.section import section_line, section_polar

STORED = Path(__file__).parent / "data" / "outline_0012.json"
MAIN, RUDDER = 'section = "NACA 63-412"', 'section = "NACA 63-209"'
KNOT = 1852.0 / 3600.0
RUDDER_SECTION = 1  # its place in the tables


def symmetric_outline(thickness: float, last: float = -0.1015) -> list[list[float]]:
    """A four-digit symmetric section (Jacobs, Ward & Pinkerton, NACA Report 460, 1933).

    Its tail is blunt, a fortieth of the thickness; last = -0.1036 closes it.
    """
    x = 0.5 * (1.0 - np.cos(np.linspace(0.0, np.pi, 30)))
    series = (0.2969, -0.1260, -0.3516, 0.2843, last)
    powers = np.stack([x**p for p in (0.5, 1, 2, 3, 4)])
    y = 5.0 * thickness * (np.array(series) @ powers)
    upper = np.column_stack([x[::-1], y[::-1]])
    return np.vstack([upper, np.column_stack([x[1:], -y[1:]])]).round(6).tolist()


OUTLINE = symmetric_outline(0.12)


def marram_with(old: str, new: str) -> str:
    text = example("marram").read_text(encoding="utf-8")
    assert old in text
    return text.replace(old, new)


def with_outline(outline: list[list[float]]) -> str:
    return marram_with(RUDDER, f"section_outline = {outline}")


def by_name() -> ReadyBoat:
    return ready(boat_from_text(marram_with(RUDDER, 'section = "NACA 0012"'), "named.toml"))


def same_flight(own: ReadyBoat, named: ReadyBoat, height: float, trim: float) -> None:
    """At 10, 12 and 16 kn: within so many metres and radians, drag within 0.5 %."""
    for speed in (10.0, 12.0, 16.0):
        ours, theirs = (fly_at(b.row, b.tables, water_at(), speed * KNOT)[-1] for b in (own, named))
        assert ours.state == theirs.state
        assert ours.height == pytest.approx(theirs.height, abs=height)
        assert ours.trim == pytest.approx(theirs.trim, abs=trim)
        assert ours.drag == pytest.approx(theirs.drag, rel=0.005)


def same_section(own: ReadyBoat, named: ReadyBoat, section: int, flaps: tuple[float, ...]) -> None:
    """Lift line, drag, moment and hinge moment as one reads them in a solve."""
    tables = [plain(b.tables).sections for b in (own, named)]
    for re in (3e5, 6e5, 1.2e6):
        for flap in flaps:
            ours, theirs = (section_line(t, section, flap, log(re)) for t in tables)
            assert degrees(ours[0]) == pytest.approx(degrees(theirs[0]), abs=0.05)
            assert ours[1] == pytest.approx(theirs[1], rel=0.005)
            assert ours[2] == pytest.approx(theirs[2], abs=0.03)
            assert ours[3] == pytest.approx(theirs[3], abs=0.05)
            for alpha in (0.0, 3.0, 6.0):
                at = flap, log(re), radians(alpha)
                (cd, cm, ch, _), there = (section_polar(t, section, *at) for t in tables)
                assert cd == pytest.approx(there[0], rel=0.02)
                assert cm == pytest.approx(there[1], abs=0.002)
                assert ch == pytest.approx(there[2], abs=0.003)


# --- the whole way ---


def test_the_outline_reaches_the_section_tables():
    boat = boat_from_text(with_outline(OUTLINE), "own.toml")
    numbers = ready(boat_from_text(example("marram").read_text(encoding="utf-8"), "marram.toml")).numbers
    main, rudder = section_specs(boat, numbers)
    assert rudder.coordinates is not None and np.allclose(rudder.coordinates, OUTLINE)
    assert main.coordinates is None


@pytest.fixture
def stored_answer(monkeypatch):
    """The section code's answer about OUTLINE without a flap, as it was kept."""
    kept = json.loads(STORED.read_text(encoding="utf-8"))

    def answer(content: bytes, flap_share: float):
        assert np.array_equal(np.frombuffer(content).reshape(-1, 2), OUTLINE) and flap_share == 0.0
        return np.array(kept["line"]), np.array(kept["polar"])

    monkeypatch.setattr(section_data, "tabulated", answer)


@pytest.mark.usefixtures("stored_answer")
def test_an_outline_flies_as_the_section_of_that_shape():
    """Within 1 mm and 0.01 degrees of the named section: the tables hold the same code's answers."""
    own, named = ready(boat_from_text(with_outline(OUTLINE), "own.toml")), by_name()
    assert own.sections == ("NACA 63-412", "its own outline")
    assert own.assumed_words == {}
    same_section(own, named, RUDDER_SECTION, (0.0, radians(5.0)))
    same_flight(own, named, 0.001, radians(0.01))


@pytest.mark.usefixtures("stored_answer")
def test_factors_and_roughness_act_on_an_outline_as_on_a_name():
    words = "\nroughness = 1.0\nzero_lift_shift_deg = 0.4\ngreatest_lift_factor = 0.8"
    own = ready(boat_from_text(with_outline(OUTLINE) + "", "own.toml"))
    text = with_outline(OUTLINE).replace("section_outline", words.strip() + "\nsection_outline")
    rough = ready(boat_from_text(text, "own.toml"))
    named = ready(boat_from_text(marram_with(RUDDER, 'section = "NACA 0012"' + words), "named.toml"))
    same_section(rough, named, RUDDER_SECTION, (0.0,))
    lines = [section_line(plain(b.tables).sections, RUDDER_SECTION, 0.0, log(6e5)) for b in (own, rough)]
    assert degrees(lines[1][0] - lines[0][0]) == pytest.approx(0.4, abs=0.1)
    assert lines[1][2] < 0.8 * lines[0][2]


def test_the_section_code_makes_of_an_outline_what_is_kept():
    """Only where the extra is installed: the stored answer, and a main foil with a flap."""
    pytest.importorskip("neuralfoil")
    pytest.importorskip("aerosandbox")
    kept = json.loads(STORED.read_text(encoding="utf-8"))
    line, polar = section_data.tabulated(np.array(OUTLINE).tobytes(), 0.0)
    assert np.allclose(line, kept["line"], rtol=1e-3, atol=1e-4)
    assert np.allclose(polar, kept["polar"], rtol=2e-3, atol=2e-4)
    own, named = ready(boat_from_text(with_outline(OUTLINE), "own.toml")), by_name()
    same_flight(own, named, 0.001, radians(0.01))
    outline = f"section_outline = {OUTLINE}"
    own = ready(boat_from_text(marram_with(MAIN, outline), "own.toml"))
    named = ready(boat_from_text(marram_with(MAIN, 'section = "NACA 0012"'), "named.toml"))
    same_section(own, named, 0, (0.0, radians(5.0)))
    same_flight(own, named, 0.002, radians(0.02))


@pytest.mark.skipif(find_spec("neuralfoil") is not None, reason="the section code is installed here")
def test_without_the_section_code_the_mend_is_named():
    boat = boat_from_text(with_outline(OUTLINE), "own.toml")
    with pytest.raises(Mistake, match="polars"):
        ready(boat)


# --- what can be wrong with it ---


def scaled(x: float, y: float) -> list[list[float]]:
    return (np.array(OUTLINE) * [x, y]).tolist()


def swapped(one: int, other: int) -> list[list[float]]:
    rows = [list(row) for row in OUTLINE]
    rows[one], rows[other] = rows[other], rows[one]
    return rows


def opened(gap: float) -> list[list[float]]:
    """Each side turned away from the other about the nose."""
    return [[x, y + gap * x * (1.0 if i < 30 else -1.0)] for i, (x, y) in enumerate(OUTLINE)]


NOSE = 29
UPPER, LOWER = OUTLINE[: NOSE + 1], OUTLINE[NOSE:]
BAD = {
    "few points": (OUTLINE[::4], r"coordinates of shape \(15, 2\).*at least 20 rows"),
    "none": ([], "at least 20 rows"),
    "millimetres": (scaled(120.0, 120.0), "x from 0 to 120.*Divide x and y by the chord, 120"),
    "per cent": (scaled(100.0, 100.0), "Millimetres or per cent"),
    "shifted": ((np.array(OUTLINE) - [0.25, 0.0]).tolist(), "x from -0.25 to 0.75.*Shift and scale"),
    "y in per cent": (scaled(1.0, 100.0), "ends at|thickness of 12 of the chord.*Give y in shares"),
    "flat": (scaled(1.0, 0.01), "thickness of 0.0012"),
    "a point twice": ([*OUTLINE[:11], *OUTLINE[10:]], "rows 11 and 12 are the same point.*Take one"),
    "both sides with the nose": ([*UPPER, *LOWER], "rows 30 and 31 are the same point"),
    "open": (OUTLINE[:-8], "an open outline.*Add the points that are missing"),
    "one side": ([*UPPER, *[[x, 0.5 * y] for x, y in UPPER[-2::-1]]][:40], "an open outline"),
    "wide open": (opened(0.03), "an open outline"),
    "nose first": ([*UPPER[::-1], *LOWER[1:-1]], "begins at x = 0.*turn the upper side round"),
    "begun elsewhere": ([*OUTLINE[10:-1], *OUTLINE[:10]], "begins at x = 0.73.*Begin the list there"),
    "clockwise": (OUTLINE[::-1], "the lower side listed first.*Turn the order"),
    "wrong order": (swapped(8, 15), "x turns back at row"),
    "crossing": (
        [[x, -1.2 * y if y < 0.0 and 0.3 < x < 0.5 else y] for x, y in OUTLINE],
        r"crosses itself: the lower side lies above the upper one at x = 0\.[34]",
    ),
}


@pytest.mark.parametrize("name", BAD)
def test_a_bad_outline_is_told_in_one_sentence(name):
    outline, words = BAD[name]
    with pytest.raises((Mistake, Mistakes), match=words) as told:
        boat_from_text(with_outline(outline), "own.toml")
    assert "own.toml: rudder.section_outline" in str(told.value)
    assert len(str(told.value).splitlines()) == 1


def test_a_tail_closed_or_blunt_and_a_cambered_nose_are_no_faults():
    cambered = [[x, y + 0.08 * x * (1.0 - x)] for x, y in OUTLINE]
    for outline in (symmetric_outline(0.12, -0.1036), opened(0.004), cambered):
        boat_from_text(with_outline(outline), "own.toml")


def test_a_name_and_an_outline_are_not_given_together():
    text = marram_with(RUDDER, f"{RUDDER}\nsection_outline = {OUTLINE}")
    with pytest.raises((Mistake, Mistakes), match=r"rudder\.section_outline: given beside section"):
        boat_from_text(text, "own.toml")
