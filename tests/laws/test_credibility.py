"""What the demo boats do in a wind is what sailors would believe, and what the page of it says.

The ranges and how they were come by: builders/sailing_table.py (common practice, no source).
"""

from __future__ import annotations

from math import radians

import pytest

from builders.sailing_table import EXPECTED, PAGE, WATER, row_with, speeds
from foilwright.air.wind import INLAND_ROUGHNESS
from foilwright.flight.take_off_wind import usual_runner, winds_needed
from tests.demo_boats import KN, demo_boat

BEHIND = "the page is behind: run builders/sailing_table.py"


@pytest.mark.parametrize("name", list(EXPECTED))
@pytest.mark.usefixtures("compiled_wind")
def test_the_wind_a_boat_needs_abeam(name):
    boat, expected = demo_boat(name), EXPECTED[name]
    for mass, (least, most) in zip(expected.masses, expected.take_off, strict=True):
        runner = usual_runner(row_with(boat, mass), boat.tables, WATER, INLAND_ROUGHNESS, True)
        [needed] = winds_needed(runner, [radians(90.0)])
        assert needed.take_off_wind is not None and needed.keeps_flying_wind is not None
        assert least <= needed.take_off_wind / KN <= most
        if mass == expected.masses[1]:
            assert expected.keeps[0] <= needed.keeps_flying_wind / KN <= expected.keeps[1]


@pytest.mark.parametrize("name", list(EXPECTED))
@pytest.mark.usefixtures("compiled_wind")
def test_boat_speeds_are_believed_and_those_of_the_page(name):
    lines = speeds(demo_boat(name), EXPECTED[name])
    assert "**" not in lines[-1], "in bold stands what is outside its range"
    told = PAGE.read_text(encoding="utf-8").splitlines()
    for line in "\n".join(lines).splitlines():
        assert line in told, BEHIND
