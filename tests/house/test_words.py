"""Every word used is a word of the glossary, and every word and field is documented."""

from __future__ import annotations

import importlib.util
import json
import tomllib
from math import radians
from pathlib import Path
from types import ModuleType

import pytest
from pydantic import BaseModel

from foilwright import words
from foilwright.documents.boat_file import BoatFile
from foilwright.documents.examples import examples_folder
from foilwright.documents.sailor import STAGES, Sailor
from foilwright.units import BY_SYMBOL, UNITS, ending_of, from_si, named_value_to_si, plain, to_si

ROOT = Path(__file__).parent.parent.parent
PLAIN_NUMBERS = {
    "version",
    "position",
    "step",
    "per_step",
    "present",
    "least",
    "greatest",
    "taper",
    "roughness",
    "bow_exponent",
    "section_exponent",
    "form_factor",
    "greatest_lift_factor",
}


def reference() -> ModuleType:
    spec = importlib.util.spec_from_file_location("reference", ROOT / "builders" / "reference.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_reference_pages_are_what_the_code_says() -> None:
    for name, text in reference().pages().items():
        page = ROOT / "docs" / "reference" / name
        assert page.read_text(encoding="utf-8") == text, f"run builders/reference.py: {name} is behind"


def test_every_field_of_a_document_has_a_meaning_and_a_unit_or_needs_none() -> None:
    tables = [model for _, model in reference().TABLES] + [Sailor]
    for model in tables:
        assert model.__doc__
        for name, field in model.model_fields.items():
            assert field.description, f"{model.__name__}.{name}"
            if field.annotation in (float, float | None, int):
                known = ending_of(name) is not None or name in PLAIN_NUMBERS or name.endswith("_share")
                assert known, f"{model.__name__}.{name} carries no unit"


def test_every_table_of_the_boat_file_has_its_page() -> None:
    listed = {model for _, model in reference().TABLES}

    def inside(model: type[BaseModel]) -> set[type[BaseModel]]:
        schema = model.model_json_schema()
        return {model} | {m for m in listed if m.__name__ in schema.get("$defs", {})}

    assert len(inside(BoatFile)) == len(BoatFile.model_json_schema()["$defs"]) + 1


def test_the_schema_describes_the_examples() -> None:
    """Every key of every example stands in the schema (a small walk, no schema library needed)."""
    schema = BoatFile.model_json_schema()

    def known(value: object, at: dict) -> None:
        at = schema["$defs"][at["$ref"].rsplit("/", 1)[1]] if "$ref" in at else at
        if isinstance(value, dict) and "properties" in at:
            for key, inner in value.items():
                assert key in at["properties"], key
                known(inner, at["properties"][key])
        elif isinstance(value, list):
            for inner in value:
                known(inner, at.get("items", {}))

    for path in (examples_folder() / "boats").glob("*.toml"):
        known(tomllib.loads(path.read_text(encoding="utf-8")), schema)
    json.dumps(schema)


def test_words_are_unique_and_units_are_known() -> None:
    names = [q.name for q in words.QUANTITIES]
    assert len(set(names)) == len(names)
    assert len({unit.symbol for unit in UNITS}) == len({unit.ending for unit in UNITS}) == len(UNITS)
    for q in words.QUANTITIES:
        assert q.meaning and (not q.shown or q.shown in BY_SYMBOL), q
        assert words.is_known_key(words.key_of(q.name)), q
    assert tuple(word.name for word in words.STAGES) == STAGES


@pytest.mark.parametrize(
    "key",
    [
        "boat_speed_kn",
        "ride_height_m",
        "ride_height_change_mm",
        "trim_change_deg",
        "drag_change_n",
        "foil_deg",
        "take_off_speed_change_kn",
        "stall_deg",
        "tip_depth_mm",
        "ventilation_deg",
        "touchdown_mm",
        "cavitation_kn",
        "wand_stop_deg",
        "foil_stop_deg",
        "hiking_percent",
        "rudder_reversal_n",
        "wand_contact_mm",
        "locks_at_deg",
        "back_mm",
        "forward_mm",
        "transmission_deg",
        "gearing",
        "slop_deg",
        "swing_check",
        "nearest_limit",
        "made_good_kn",
        "yaw_rate_deg_s_per_deg",
        "outcome",
    ],
)
def test_keys_of_our_json_are_known(key: str) -> None:
    assert words.is_known_key(key)


def test_a_key_that_is_no_word_of_ours_is_found() -> None:
    answer = {"rows": [{"boat_speed_kn": 12.0, "velocity_kn": 12.0}], "drag_by_part_n": {"anything": 1.0}}
    assert words.unknown_keys(answer) == ["velocity_kn"]


@pytest.mark.parametrize(
    ("name", "value", "text"),
    [
        ("ride_height", 0.43, "0.43 m"),
        ("ride_height", -0.04, "−0.04 m"),
        ("trim", radians(1.2), "bow up 1.2°"),
        ("trim", radians(-0.5), "bow down 0.5°"),
        ("trim", radians(0.04), "level"),
        ("heel", radians(-10), "10° to windward"),
        ("heel", radians(4), "4° to leeward"),
        ("heel", 0.0, "upright"),
        ("boat_speed", 12 * 1852 / 3600, "12.0 kn"),
        ("tip_depth", 0.09, "90 mm"),
        ("back", 0.006, "6 mm down"),
        ("forward", -0.002, "2 mm up"),
        ("gearing", 0.3061, "0.306"),
        ("hiking", 0.72, "72 %"),
        ("drag", -0.2, "0 N"),
        ("drag", None, "–"),
        ("drag", float("nan"), "–"),
    ],
)
def test_how_values_are_shown(name: str, value: float | None, text: str) -> None:
    assert words.shown(name, value) == text


def test_units_there_and_back() -> None:
    assert to_si(1.0, "kn") == pytest.approx(0.514444, abs=1e-6)  # the international knot, 1852 m an hour
    assert to_si(180.0, "deg") == pytest.approx(3.141592653589793)
    for unit in UNITS:
        assert from_si(to_si(3.7, unit.symbol), unit.symbol) == pytest.approx(3.7)
    assert named_value_to_si("tension_n_m", 3.0) == 3.0
    assert named_value_to_si("play_mm", 0.1) == pytest.approx(1e-4)
    assert named_value_to_si("taper", 0.5) == 0.5
    assert [plain(x) for x in (1.12, 1050.0, 0.0005, 1e-7, 2e8, -90.0)] == [
        "1.12",
        "1050",
        "0.0005",
        "0.0000001",
        "200000000",
        "-90",
    ]


def test_help_of_a_quantity() -> None:
    assert words.describe("trim") == "bow angle [deg], positive: bow up"
