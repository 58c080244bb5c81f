"""The verbs from Python: the same answers as on the command line, few public names, each documented."""

import inspect
import re
from pathlib import Path

import pytest
import typer.main

import foilwright
from foilwright.cli.main import app
from foilwright.jobs import desk
from foilwright.jobs.make_card import no_flight
from foilwright.outcomes import NO_BALANCE

DOCS = Path(__file__).resolve().parents[2] / "docs"


def test_public_names_are_few_there_and_documented():
    page = (DOCS / "reference" / "api.md").read_text(encoding="utf-8")
    assert len(foilwright.__all__) <= 16
    for name in foilwright.__all__:
        assert getattr(foilwright, name) is not None
        assert re.search(rf"\| `{name}[(`]", page), name
    assert set(dir(foilwright)) >= set(foilwright.__all__)
    with pytest.raises(AttributeError):
        foilwright.no_such_name  # noqa: B018


def test_the_page_of_public_names_shows_their_true_parameters():
    page = (DOCS / "reference" / "api.md").read_text(encoding="utf-8")
    for name, written in re.findall(r"^\| `(\w+)\(([^`]*)\)` \|", page, re.MULTILINE):
        true = inspect.signature(getattr(foilwright, name)).parameters.values()
        assert written == ", ".join(_written(one) for one in true), name


def _written(parameter):
    default = parameter.default
    if default is parameter.empty:
        return parameter.name
    plain = f"{default:g}" if isinstance(default, float) else repr(default).replace("'", '"')
    return f"{parameter.name}={plain}"


def test_numbers_and_words_ask_the_same():
    boat = foilwright.read_boat(foilwright.example("marram"))
    from_numbers = foilwright.fly(boat, 75, [12], {"main-rod": 1}, heel=-5, water=20, temperature=18)
    from_words = foilwright.fly("marram", "75kg", "12kn", ["main-rod=1"], "-5", "20", "18")
    assert from_numbers == from_words


@pytest.mark.usefixtures("compiled_physics")
def test_turning_and_measuring_from_python_say_what_the_command_line_says():
    asked = (foilwright.example("marram"), 75, [12], {"main-rod": 1})
    table = foilwright.effects(*asked)
    assert table == foilwright.effects("marram", "75kg", "12kn", ["main-rod=1"], "0")
    assert {row["adjuster"] for row in table["rows"]} >= {"main-rod", "sailor-aft", "sail-pull"}
    same = foilwright.same_as("marram", "main-rod", "pipkin", "wand-length", 75, 12, sailor_b=48)
    assert same == foilwright.same_as("marram", "main-rod", "pipkin", "wand-length", "75", "12kn", "48")
    assert same["steps"] is not None and 1.0 < same["steps"] < 4.0
    fitted = foilwright.bench(
        "marram", foilwright.example("marram").parents[1] / "bench" / "marram-bench.csv"
    )
    assert fitted["format"] == "foilwright/bench" and fitted["outliers"] == []


def test_rows_do_not_depend_on_the_rows_before():
    alone = foilwright.fly("marram", 75, [14])["rows"]
    among = [row for row in foilwright.fly("marram", 75, [9, 14, 20])["rows"] if row["boat_speed_kn"] == 14]
    assert alone == among


def test_a_misspelt_example_is_told():
    with pytest.raises(foilwright.Mistake, match=r"marram"):
        foilwright.read_boat("maram")


def test_a_card_where_nothing_balances_says_so():
    rows = [s._replace(outcome=NO_BALANCE, state="", stable=False) for s in _rows()]
    assert "No steady height and bow angle" in (no_flight(rows) or "")


def _rows():
    from foilwright.flight.at_speed import fly_at
    from foilwright.water.properties import water_at

    boat = desk.open_boat("marram")
    return fly_at(boat.row, boat.tables, water_at(), 5.0)


def test_curve_and_cranks_fly_alike():
    """The curve is sampled from the cranks: within 5 mm and 0.05 degrees at every speed."""
    cranks = foilwright.fly("marram", 75, "10:20:5")["rows"]
    curve = foilwright.fly("marram-curve", 75, "10:20:5")["rows"]
    for a, b in zip(cranks, curve, strict=True):
        assert a["ride_height_m"] == pytest.approx(b["ride_height_m"], abs=0.005)
        assert a["trim_deg"] == pytest.approx(b["trim_deg"], abs=0.05)


def test_every_command_and_option_is_documented():
    page = (DOCS / "reference" / "commands.md").read_text(encoding="utf-8")
    commands = typer.main.get_command(app).commands  # type: ignore[attr-defined]
    at_a_speed = {"demo", "check", "chain", "fly", "bench", "effects", "same-as", "card"}
    assert set(commands) == at_a_speed | {"sail", "steer", "day", "serve"}
    for name, command in commands.items():
        section = page.split(f"## foilwright {name}\n")[1].split("\n## ")[0]
        shared = page.split("## Options that several commands share")[1].split("\n## ")[0]
        for option in command.params:
            for written in option.opts:
                if written.startswith("--"):
                    assert written in section or f"`{written}" in shared, (name, written)
        assert command.help


@pytest.mark.usefixtures("compiled_physics")
def test_every_key_of_an_answer_is_documented():
    page = (DOCS / "reference" / "commands.md").read_text(encoding="utf-8")
    answers = {
        "fly": foilwright.fly("marram", 75, [12]),
        "chain": foilwright.chain("marram", [45]),
        "card": foilwright.card("marram", 75, [12], form="text").answer,
    }
    for name, answer in answers.items():
        section = page.split(f"## foilwright {name}\n")[1].split("\n## ")[0]
        for key in _keys(answer) - {"format", "version"}:
            assert re.search(rf"\b{key}\b", section), (name, key)


def _keys(answer: object) -> set[str]:
    if isinstance(answer, dict):
        inner = (value for key, value in answer.items() if key != "drag_by_part_n")
        return set(answer) | {key for value in inner for key in _keys(value)}
    if isinstance(answer, list):
        return {key for value in answer for key in _keys(value)}
    return set()


def test_commands_named_in_the_how_to_exist():
    page = (DOCS / "how-to" / "first-card.md").read_text(encoding="utf-8")
    commands = typer.main.get_command(app).commands  # type: ignore[attr-defined]
    named = re.findall(r"^foilwright (\w+)", page, re.MULTILINE)
    assert named and set(named) <= set(commands)
    for option in re.findall(r"(--[a-z]+)", page):
        assert any(option in one.opts for command in commands.values() for one in command.params), option
