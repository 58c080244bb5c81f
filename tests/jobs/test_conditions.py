"""What a person asks for: ranges with both ends, settings from the mark, water."""

from itertools import pairwise
from math import radians

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foilwright.jobs.conditions import (
    conditions_from,
    heel_from,
    row_for,
    settings_from,
    speeds_from,
    wand_angles_from,
)
from foilwright.jobs.desk import open_boat, sailor_of
from foilwright.mistakes import Mistake
from foilwright.units import from_si


def knots(words: str) -> list[float]:
    return [round(from_si(speed, "kn"), 6) for speed in speeds_from(words, 1.0)]


def test_ranges():
    assert knots("4:8:2") == [4, 6, 8]
    assert knots("4:8:3") == [4, 7, 8]  # both ends, whatever the step
    assert knots("4:6") == [4, 5, 6]  # the step that is stated
    assert knots("12") == [12]
    assert knots("12:12:1") == [12]
    assert knots("3.6km/h:7.2km/h:3.6km/h") == pytest.approx([1.943844, 3.887689], abs=1e-6)


@given(st.integers(10, 500), st.integers(0, 400), st.integers(2, 90))
def test_a_range_holds_its_ends_and_keeps_its_step(low: int, more: int, step: int):
    found = knots(f"{low / 10}:{(low + more) / 10 if low + more < 600 else low / 10}:{step / 10}")
    assert found[0] == pytest.approx(low / 10)
    assert found[-1] == pytest.approx((low + more) / 10 if low + more < 600 else low / 10)
    assert all(b - a <= step / 10 + 1e-6 for a, b in pairwise(found))


def test_numbers_from_python():
    assert speeds_from([10, 14.5], 1.0) == pytest.approx([10 * 1852 / 3600, 14.5 * 1852 / 3600])
    assert wand_angles_from([45]) == pytest.approx([radians(45)])
    assert heel_from(-10) == pytest.approx(radians(-10))
    with pytest.raises(Mistake):
        speeds_from([], 1.0)


def test_settings_count_from_the_mark_and_the_rest_stays():
    boat = open_boat("marram")
    settings = settings_from(boat, ["main-rod=+2", "sailor-aft=-1.5"])
    assert settings["main-rod"] == 2 and settings["sailor-aft"] == -1.5
    assert {name for name, steps in settings.items() if steps} == {"main-rod", "sailor-aft"}
    assert settings_from(boat, {"main-rod": 2})["main-rod"] == 2
    assert settings_from(boat, ["main-rod = 2 turns"])["main-rod"] == 2


def test_the_sailor_comes_aboard():
    boat = open_boat("marram")
    row = row_for(boat, boat.present, sailor_of(62))
    assert row[boat.names.index("crew.mass")] == 62
    assert boat.row[boat.names.index("crew.mass")] == 75  # the boat itself is not changed


def test_water():
    assert conditions_from("fresh", "15").water.density == pytest.approx(999.1, abs=0.1)
    assert conditions_from("sea", "15").water.density == pytest.approx(1026.0, abs=0.2)
    assert conditions_from("20", 15).salinity == conditions_from("20g/kg", 15).salinity == 20
