"""`steer` at the command line: shapes, words, the chart, nulls with an outcome, exit codes."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from foilwright.documents import steer_answer
from tests.cli.test_answers import fits

STEER = ("steer", "marram", "--sailor", "75")


def test_steer(foilwright):
    said = foilwright(*STEER, "--speed", "6:12:6", "--json")
    assert said.code == 0 and said.err == ""
    fits(said.answer, steer_answer.SteerAnswer)
    assert said.answer["format"] == "foilwright/steer"
    afloat, flying = said.answer["rows"]
    assert (afloat["boat_speed_kn"], flying["boat_speed_kn"]) == (6, 12)
    assert (afloat["state"], flying["state"]) == ("lifting", "flying")
    for row in (afloat, flying):
        assert row["stable"] and row["holds_course"] and row["outcome"] == "solved"
        # R = U / rate, a = U rate, both of one degree
        metres = row["boat_speed_kn"] * 1852 / 3600
        rate = row["yaw_rate_deg_s_per_deg"] * 3.14159265 / 180
        assert row["turn_radius_m"] == pytest.approx(metres / rate, rel=1e-5)
        assert row["side_acceleration_m_s2_per_deg"] == pytest.approx(metres * rate, rel=1e-4)
        assert row["roll_moment_n_m_per_deg"] < 0.0 < row["heel_change_deg_per_deg"]
    elastic = said.answer["tiller_elastic"]
    assert elastic["outcome"] == "solved" and elastic["stage"] == "improving"
    assert elastic["from_boat_speed_kn"] == elastic["to_boat_speed_kn"] == 12
    assert elastic["stretch_mm"] == pytest.approx(
        1000 * elastic["pretension_n"] / elastic["stiffness_n_per_m"]
    )
    assert [turn["rudder_deg"] for turn in elastic["turns"]] == [5, 20]
    assert {one["name"] for one in said.answer["assumed"]} == {
        "rudder.tiller_length_m",
        "rudder.axis_ahead_m",
    }


def test_what_is_asked_of_the_elastic(foilwright):
    words = (*STEER, "--speed", "12", "--stage", "expert", "--keep-within", "2", "--hand", "3N", "--json")
    elastic = foilwright(*words).answer["tiller_elastic"]
    assert (elastic["keep_within_deg"], elastic["hand_force_n"], elastic["stage"]) == (2, 3, "expert")
    assert elastic["as_asked"]
    fewer = (*STEER, "--speed", "12", "--keep-within", "0.5", "--hand", "6", "--json")
    said = foilwright(*fewer)
    fits(said.answer, steer_answer.SteerAnswer)
    elastic = said.answer["tiller_elastic"]
    assert said.code == 0  # the turn is known; what cannot be had is said
    assert elastic["outcome"] == "no balance in range" and not elastic["as_asked"]
    assert elastic["kept_within_deg"] > 0.5 and "6.0 N" in elastic["sentence"]


def test_a_boat_whose_tiller_was_measured(foilwright, tmp_path):
    from foilwright.documents.examples import example

    text = example("marram").read_text(encoding="utf-8")
    start = text.index("[rudder]") + len("[rudder]\n")
    file = tmp_path / "boat.toml"
    file.write_text(
        text[:start] + "tiller_length_m = 1.1\naxis_ahead_m = 0.04\n" + text[start:], encoding="utf-8"
    )
    answer = foilwright("steer", file, "--sailor", "75", "--speed", "12", "--json").answer
    assert answer["assumed"] == []
    assert (answer["tiller_elastic"]["tiller_length_m"], answer["tiller_elastic"]["axis_ahead_mm"]) == (
        1.1,
        40,
    )
    by_default = foilwright(*STEER, "--speed", "12", "--json").answer["rows"][0]
    first = answer["rows"][0]["tiller_force_first_n_per_deg"] / by_default["tiller_force_first_n_per_deg"]
    assert first == pytest.approx(0.04 / 0.02625 * 0.9 / 1.1, rel=1e-4)


def test_rows_beyond_the_models_do_not_count_for_the_elastic(foilwright):
    answer = foilwright("steer", "sedge", "--sailor", "145", "--speed", "16:60:44", "--json").answer
    assert [row["outcome"] for row in answer["rows"]] == ["solved", "outside validity"]
    assert answer["rows"][1]["yaw_rate_deg_s_per_deg"] is not None
    assert answer["tiller_elastic"]["to_boat_speed_kn"] == 16


def test_the_chart(foilwright, tmp_path):
    file = tmp_path / "steer.svg"
    said = foilwright(*STEER, "--speed", "6:12:2", "--out", file)
    assert said.code == 0 and str(file) in said.out
    drawn = ElementTree.fromstring(file.read_text(encoding="utf-8"))
    words = [one.text for one in drawn.iter("{http://www.w3.org/2000/svg}text")]
    assert "How Marram answers one degree of tiller" in words
    assert "flying" in words and "hull in the water" in words
    assert len(list(drawn.iter("{http://www.w3.org/2000/svg}circle"))) == 3 * 4


def test_no_state_no_turn(foilwright, tmp_path):
    file = tmp_path / "steer.svg"
    said = foilwright("steer", "pipkin", "--sailor", "250", "--speed", "1", "--out", file, "--json")
    fits(said.answer, steer_answer.SteerAnswer)
    for row in said.answer["rows"]:
        if row["state"] is None:
            assert row["yaw_rate_deg_s_per_deg"] is None and row["sentence"]
    assert file.exists()


def test_in_words(foilwright):
    said = foilwright("steer", "pipkin", "--sailor", "48", "--speed", "6:12:6")
    assert said.code == 0
    assert "Tiller elastic (improving, 12 kn)" in said.out
    assert "lifting" in said.out and "flying" in said.out and "leave to sail" in said.out


@pytest.mark.parametrize(
    ("words", "hint"),
    [
        (("--keep-within", "30"), "0.2 to 10 deg"),
        (("--keep-within", "wide"), "wide"),
        (("--hand", "0"), "0.1 to 50 N"),
        (("--hand", "2mm"), "length"),
        (("--stage", "ace"), "improving"),
        (("--out", "steer.pdf"), ".svg"),
        (("--out", "no-such-folder/steer.svg"), "folder"),
        (("--speed", "20:4"), "4:20"),
        (("--heel", "80"), "-45 to 45"),
    ],
)
def test_wrong_input(foilwright, monkeypatch, tmp_path, words, hint):
    monkeypatch.chdir(tmp_path)
    speed = () if "--speed" in words else ("--speed", "12")
    said = foilwright(*STEER, *speed, *words)
    assert said.code == 2 and said.out == "" and hint in said.err
