"""`sail` at the command line: shapes, words, nulls with an outcome, exit codes, bad input."""

from __future__ import annotations

import pytest

from foilwright import words
from foilwright.documents import sail_answer
from foilwright.documents.answers import MARGINS
from tests.cli.test_answers import fits

SAIL = ("sail", "marram", "--sailor", "75")


@pytest.mark.usefixtures("compiled_wind")
def test_sail(foilwright):
    said = foilwright(*SAIL, "--wind", "12", "--angle", "90", "--json")
    assert said.code == 0
    fits(said.answer, sail_answer.SailAnswer)
    assert said.answer["format"] == "foilwright/sail"
    assert words.unknown_keys(said.answer) == []
    (row,) = said.answer["rows"]
    assert row["outcome"] == "solved"
    assert row["state"] == "flying"
    assert row["stable"] is True
    assert row["wind_angle_deg"] == 90.0
    assert 15.5 < row["boat_speed_kn"] < 19.5
    assert row["heel_deg"] == pytest.approx(-10.0, abs=0.1)
    assert row["hiking_percent"] > 95.0
    assert row["power"] < 1.0
    assert row["made_good_kn"] == pytest.approx(0.0, abs=1e-6)
    assert set(row["margins"]) == set(MARGINS)
    assert row["nearest_limit"] in MARGINS
    needed = said.answer["take_off_wind_kn"]
    assert needed["at_wind_angle_deg"] == 90.0
    assert needed["by_wind_angle_deg"] == {"90": needed["least"]}
    assert 8.0 < needed["least"] < 11.0
    assert 6.5 < said.answer["keeps_flying_wind_kn"]["least"] < 8.5
    assert said.answer["best_upwind"]["outcome"] == "no balance in range"
    assert said.answer["hand_gauge_kn"] < said.answer["wind_kn"] == 12.0


@pytest.mark.usefixtures("compiled_wind")
def test_too_close_to_the_wind_is_a_cannot_with_its_reason(foilwright):
    said = foilwright("sail", "pipkin", "--sailor", "48", "--wind", "8", "--angle", "25", "--json")
    assert said.code == 3
    (row,) = said.answer["rows"]
    assert row["outcome"] == "no balance in range"
    assert "sail pulls less than the drag" in row["sentence"]
    assert row["boat_speed_kn"] is None
    assert said.answer["take_off_wind_kn"]["least"] is None
    assert all(value is None for value in row["margins"].values())


@pytest.mark.parametrize(
    ("given", "where", "hint"),
    [
        (("--wind", "0"), "--wind", "Without wind nothing sails"),
        (("--wind", "60"), "--wind", "gale"),
        (("--angle", "0"), "--angle", "Straight into the wind"),
        (("--angle", "180"), "--angle", "straight before it"),
        (("--angle", "-90"), "--angle", "whichever tack"),
        (("--measured", "guess"), "--measured", "forecast"),
        (("--heel", "60"), "--heel", "45"),
        (("--angle", "150:40:5"), "--angle", "40:150:5"),
    ],
)
def test_what_cannot_be_sailed_is_refused_in_a_sentence(foilwright, given, where, hint):
    said = foilwright(*SAIL, *given, "--json")
    assert said.code == 2
    error = said.answer["error"]
    assert error["where"] == where
    assert hint in error["mend"] + error["allowed"]
