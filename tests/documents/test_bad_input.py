"""Wrong boat files, sailors and values: one case a fault, each with a sentence naming field and mend."""

from __future__ import annotations

import random
import re
from pathlib import Path

import numpy as np
import pytest

from foilwright.documents.boat_file import boat_from_text, read_boat, save_boat
from foilwright.documents.boat_numbers import ready
from foilwright.documents.examples import example
from foilwright.documents.sailor import sailor_from, sailor_from_data
from foilwright.mistakes import Mistake, Mistakes
from foilwright.units import parsed

MARRAM = example("marram").read_text(encoding="utf-8")
CURVE = example("marram-curve").read_text(encoding="utf-8")
PIPKIN = example("pipkin").read_text(encoding="utf-8")


def changed(text: str, old: str, new: str) -> str:
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
    return text.replace(old, new)


def faults(text: str) -> list[Mistake]:
    try:
        boat_from_text(text, "marram.toml")
    except Mistakes as several:
        return list(several.found)
    except Mistake as one:
        return [one]
    return []


LEVER_OUT = "in_direction_deg = -90.0\nout_arm_m = 0.040\nout_direction_deg = -90.0"
SINGLE = [
    # (old, new, where, words that must be in what came, allowed or mend)
    ("length_m = 1.12\n", "lenght_m = 1.12\n", "wand.lenght_m", "Did you mean length_m?"),
    ("length_m = 1.12\n", "length_mm = 1120\n", "wand.length_mm", "Did you mean length_m = 1.12?"),
    ("length_m = 1.12\nlength_se_m = 0.005\n", "", "wand.length_m", "missing"),
    ("length_m = 1.12\n", "length_m = 1120.0\n", "wand.length_m", "did you mean 1.12 m?"),
    ("length_m = 1.12\n", "length_m = 112\n", "wand.length_m", "did you mean 1.12 m?"),
    ("length_m = 1.12\n", 'length_m = "1.12 m"\n', "wand.length_m", "without quotation marks and unit"),
    ("length_m = 1.12\n", "length_m = nan\n", "wand.length_m", "Write a number."),
    ("length_m = 1.12\n", "length_m = true\n", "wand.length_m", "true"),
    ("length_m = 1.12\n", "length_m = 0.31\n", "wand.length_m", "longer than the pivot is high"),
    ("length_se_m = 0.005", "length_se_m = -0.005", "wand.length_se_m", "0 or more"),
    ("tension_n_m = 3.0", "tension_se_n_m = 0.3", "wand.tension_se_n_m", "Give tension_n_m too"),
    ("aft_stop_deg = 82.0", "aft_stop_deg = 1.431", "wand.aft_stop_deg", "did you mean 81.99 deg?"),
    ("incidence_deg = 1.0\n", "incidence_deg = 57.3\n", "main_foil.incidence_deg", "-10 to 10 deg"),
    ("\nwand_deg = 45.0", "\nwand_deg = 0.785", "chain.wand_deg", "radians; did you mean 45 deg?"),
    ("foil_greatest_deg = 12.0", "foil_greatest_deg = -12.0", "chain.foil_greatest_deg", "0 to 60 deg"),
    (
        "foil_least_deg = -6.0\nfoil_greatest_deg = 12.0",
        "foil_least_deg = -0.105\nfoil_greatest_deg = 0.209",
        "chain.foil_greatest_deg",
        "radians; did you mean -6.02 and 12 deg?",
    ),
    (
        "forward_stop_deg = 0.0\naft_stop_deg = 82.0",
        "forward_stop_deg = 45.0\naft_stop_deg = 40.0",
        "wand.aft_stop_deg",
        "swap them",
    ),
    (
        LEVER_OUT,
        LEVER_OUT.replace("out_direction_deg = -90.0", "out_direction_deg = -1.5708"),
        "chain.cranks.lever.out_direction_deg",
        "did you mean -90 deg?",
    ),
    ("area_m2 = 0.105", "area_m2 = -0.105", "main_foil.area_m2", "did you mean 0.105 m2?"),
    ("area_m2 = 0.105", "area_m2 = 1050", "main_foil.area_m2", "did you mean 0.105 m2?"),
    ("area_m2 = 0.105", "area_m2 = 0.4", "main_foil.area_m2", "area is span times mean chord"),
    ("area_m2 = 0.105", "area_m2 = 0.105\nmean_chord_m = 0.107", "main_foil.mean_chord_m", "one of them out"),
    ("area_m2 = 0.105\n", "", "main_foil.area_m2", "area_m2 or mean_chord_m"),
    ("drag_area_m2 = 0.38", "drag_area_m2 = -0.38", "crew.drag_area_m2", "cannot be negative"),
    ("mass_kg = 40.0\n", "mass_kg = 40000.0\n", "mass.mass_kg", "grams; did you mean 40 kg?"),
    ('\nform = "narrow"', '\nform = "narow"', "form", "Did you mean narrow?"),
    ('\nform = "narrow"', "", "form", "missing"),
    ('control = "flap"', 'control = "both"', "main_foil.control", "flap or whole"),
    ("flap_span_share = 1.0", "pivot_share = 0.3", "main_foil.pivot_share", "mend `control`"),
    ('section = "NACA 63-412"', 'section = "wing"', "main_foil.section", "typical"),
    ("pivot_x_m = 3.45\n", "", "wand.pivot_x_m", "pivot_x_m or ahead_of_main_strut_m"),
    ("pivot_x_m = 3.45\n", "pivot_x_m = 1.0\n", "wand.pivot_x_m", "the wand is at the bow"),
    ("x_m = -0.35", "x_m = 1.9", "rudder.x_m", "behind it is negative"),
    ("least_mass_kg = 60.0", "least_mass_kg = 80.0", "crew.least_mass_kg", "75 kg"),
    (
        'name = "main-rod" #',
        'length_m = 0.85\nname = "main-rod" #',
        "chain.rods.main-rod.length_m",
        "too short",
    ),
    (
        'name = "main-rod" #',
        'length_m = 1.05\nname = "main-rod" #',
        "chain.rods.main-rod.length_m",
        "too long",
    ),
    ('name = "main-rod" #', 'length_m = 950\nname = "main-rod" #', "chain.rods.main-rod.length_m", "0.95 m"),
    ("pivot_x_m = 2.900\n", "", "chain.cranks.lever.pivot_x_m", "missing"),
    (
        'name = "wand-crank" #',
        'pivot_x_m = 3.4\nname = "wand-crank" #',
        "chain.cranks.wand-crank.pivot_x_m",
        "turns on the wand's pivot",
    ),
    ('name = "lever"', 'name = "Lever 1"', "chain.cranks.Lever 1.name", "lower-case"),
    ('name = "strut-rod"', 'name = "main-rod"', "chain.rods", "twice"),
    ("\nfoil_deg = 2.5\n", "\n", "chain.foil_deg", "Read the flap"),
    ('name = "gearing"', 'name = "main-rod"', "adjusters.main-rod", "twice"),
    ("least = -8\ngreatest = 8", "least = 8\ngreatest = -8", "adjusters.main-rod", "Swap them"),
    ("least = -8\n", "least = 1\n", "adjusters.main-rod", "Count from the mark"),
    ("least = -8\n", "least = -8\npresent = 9.0\n", "adjusters.main-rod.present", "Count again"),
    ("per_step = 0.001 }", "per_step = 1.0 }", "adjusters.main-rod", "write 0.001 a step"),
    (
        "chain.rods.main-rod.length_m",
        "chain.rods.mainrod.length_m",
        "adjusters.main-rod.changes",
        "Did you mean chain.rods.main-rod.length_m?",
    ),
    ('number = "crew.x_m"', 'number = "mass.pitch_radius_m"', "adjusters.sailor-aft", "changes nothing"),
    ('changes = [{ number = "crew.x_m", per_step = -0.1 }]', "", "adjusters.sailor-aft", "Say in one way"),
    (
        '"chain.cranks.lever.out_arm_m" = 0.040',
        '"chain.cranks.lever.out_arm_m" = 0.041',
        "adjusters.gearing.positions",
        "Hole 0 is the mark",
    ),
    ("{ step = 1, values", "{ step = 2, values", "adjusters.gearing.positions", "hole 2 twice"),
    ('when = "ashore"', 'when = "sometimes"', "adjusters.gearing.when", "ashore or stopped or flying"),
    ("[rig]\nid", "[rigg]\nid", "rigg", "Did you mean rig?"),
    ("version = 1", "version = 2", "version", "newer foilwright"),
    ('format = "foilwright/boat"', 'format = "foilwright/sailor"', "format", "if this is a boat file"),
    ("[reference]\n", "[reference\n", "marram.toml", "line 15"),
]


@pytest.mark.parametrize(
    ("old", "new", "where", "words"), SINGLE, ids=[f"{w}: {x[:30]}" for _, _, w, x in SINGLE]
)
def test_one_fault_is_one_sentence_naming_field_and_mend(old: str, new: str, where: str, words: str) -> None:
    found = faults(changed(MARRAM, old, new))
    assert found, "the fault was not noticed"
    here = [mistake for mistake in found if where in mistake.where]
    assert here, f"{where} is not named by {found}"
    assert any(words in str(mistake) for mistake in here), "\n".join(map(str, here))
    assert all(mistake.where.startswith("marram.toml") for mistake in found)
    assert all(mistake.came and mistake.allowed and mistake.mend for mistake in found)


CURVES = [
    (
        "[5.0, 25.0, 45.0, 65.0, 80.0]\nfoil_deg = [-8.94",
        "[5.0, 45.0, 25.0, 65.0, 80.0]\nfoil_deg = [-8.94",
        "chain.curve[2].wand_deg",
        "Sort the readings",
    ),
    ("foil_deg = [-8.94, -3.52,", "foil_deg = [-3.52,", "chain.curve[2].foil_deg", "4 foil angles for 5"),
    (
        "[5.0, 25.0, 45.0, 65.0, 80.0]\nfoil_deg = [-8.94, -3.52, 2.5, 8.47, 12.51]",
        "[5.0, 80.0]\nfoil_deg = [-8.94, 12.51]",
        "chain.curve[2].wand_deg",
        "three readings",
    ),
    (
        "[5.0, 25.0, 45.0, 65.0, 80.0]\nfoil_deg = [-8.94",
        "[0.09, 0.44, 0.79, 1.13, 1.4]\nfoil_deg = [-8.94",
        "chain.curve[2].wand_deg",
        "radians",
    ),
    (
        "foil_deg = [-8.94, -3.52, 2.5, 8.47, 12.51]",
        "foil_deg = [-0.16, -0.06, 0.04, 0.15, 0.22]",
        "chain.curve[2].foil_deg",
        "radians",
    ),
    (
        "foil_deg = [-8.94, -3.52, 2.5, 8.47, 12.51]",
        'foil_deg = [-8.94, -3.52, "2.5", 8.47, 12.51]',
        "chain.curve[2].foil_deg[3]",
        "quotation marks",
    ),
    ("position = 3.0", "position = 0.0", "chain.curve", "one curve a position"),
]


@pytest.mark.parametrize(("old", "new", "where", "words"), CURVES)
def test_faults_of_a_measured_curve(old: str, new: str, where: str, words: str) -> None:
    found = faults(changed(CURVE, old, new))
    assert any(where in mistake.where and words in str(mistake) for mistake in found), "\n".join(
        map(str, found)
    )


def test_a_curve_at_one_position_cannot_be_turned() -> None:
    text = CURVE[: CURVE.index("[[chain.curve]]")]
    second = CURVE.split("[[chain.curve]]")[2]
    rest = CURVE[CURVE.index("[[adjusters]]") :]
    found = faults(f"{text}[[chain.curve]]{second}{rest}")
    assert any("adjusters.main-rod" in m.where for m in found), "\n".join(map(str, found))


def test_rods_and_curve_together() -> None:
    found = faults(
        MARRAM
        + "\n[[chain.curve]]\nposition = 0.0\nwand_deg = [5.0, 25.0, 45.0]\nfoil_deg = [1.0, 2.0, 3.0]\n"
    )
    assert [m.where for m in found] == ["marram.toml: chain"]


def test_a_rod_left_out() -> None:
    text = MARRAM.replace(
        '[[chain.rods]]\nname = "strut-rod" # bell crank to flap horn, down the strut\nplay_mm = 0.1\n'
        "stretch_mm_per_n = 0.0\n",
        "",
    )
    assert "2 rods for 4 cranks" in str(faults(text)[0])


def test_a_chain_that_locks_before_any_stop_is_told_with_its_wand_angle() -> None:
    text = changed(
        MARRAM, "in_arm_m = 0.028\nin_direction_deg = 180.0", "in_arm_m = 0.012\nin_direction_deg = 120.0"
    )
    text = changed(
        text,
        "foil_least_deg = -6.0\nfoil_greatest_deg = 12.0",
        "foil_least_deg = -45.0\nfoil_greatest_deg = 60.0",
    )
    (mistake,) = faults(text)
    assert mistake.where == "marram.toml: chain.rods.strut-rod"
    assert "the chain locks at wand" in mistake.came


def test_two_angles_of_a_whole_foil_that_differ() -> None:
    found = faults(changed(PIPKIN, "\nfoil_deg = 3.0\n", "\nfoil_deg = 2.5\n"))
    assert "chain.foil_deg" in found[0].where and "one angle" in found[0].allowed


def test_a_misspelt_name_is_one_fault() -> None:
    (mistake,) = faults(changed(MARRAM, "length_m = 1.12\n", "lenght_m = 1.12\n"))
    assert mistake.where == "marram.toml: wand.lenght_m"
    assert mistake.mend == "Did you mean length_m?"


def test_every_fault_of_a_file_is_told_at_once() -> None:
    text = changed(MARRAM, "length_m = 1.12\n", "lenght_m = 1.12\n")
    text = changed(text, "area_m2 = 0.105", "area_m2 = -0.105")
    text = changed(text, 'control = "flap"', 'control = "flaps"')
    found = faults(text)
    places = " ".join(m.where for m in found)
    for where in ("wand.lenght_m", "main_foil.area_m2", "main_foil.control"):
        assert where in places


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00", "binary data"),
        ('name = "Köln"'.encode("latin-1"), "Save it again as UTF-8"),
        (b"# " + b"x" * 1_000_001, "larger than 1 MB"),
        (b"", "format"),
        (b"a = " + b"[" * 100_000, "nested too deep"),
    ],
)
def test_what_is_no_document(tmp_path: Path, content: bytes, words: str) -> None:
    path = tmp_path / "thing.toml"
    path.write_bytes(content)
    with pytest.raises(Mistake) as caught:
        read_boat(path)
    assert words in str(caught.value) or words in str(caught.value.allowed)
    assert "thing.toml" in caught.value.where


def test_no_file_and_a_folder(tmp_path: Path) -> None:
    with pytest.raises(Mistake, match="there is no such file"):
        read_boat(tmp_path / "none.toml")
    with pytest.raises(Mistake, match="this is a folder"):
        read_boat(tmp_path)


def test_a_change_that_makes_no_good_boat_is_not_written(tmp_path: Path) -> None:
    path = tmp_path / "marram.toml"
    path.write_text(MARRAM, encoding="utf-8")
    with pytest.raises(Mistakes):
        save_boat(path, {"wand.length_m": 1120.0})
    assert path.read_text(encoding="utf-8") == MARRAM
    assert [p.name for p in tmp_path.iterdir()] == ["marram.toml"]


@pytest.mark.parametrize("mass", ["0", "400", "-70", "75lb", "abc", "", "nan"])
def test_sailors_that_are_none(mass: str) -> None:
    with pytest.raises(Mistake) as caught:
        sailor_from(mass)
    assert caught.value.where == "--sailor"
    assert "kg" in caught.value.allowed


def test_a_sailor_file_without_private_things() -> None:
    good = {
        "format": "foilwright/sailor",
        "version": 1,
        "name": "Ash",
        "mass_band_kg": [70, 75],
        "stage": "settled",
    }
    sailor = sailor_from_data(good, "ash.toml")
    assert sailor.mass_kg == 72.5
    with pytest.raises(Mistake, match="does not need"):
        sailor_from_data({**good, "birth_date": "2011"}, "ash.toml")
    with pytest.raises(Mistake, match="400 kg"):
        sailor_from_data({**good, "mass_band_kg": [70, 400]}, "ash.toml")
    with pytest.raises(Mistakes, match="Did you mean improving"):
        sailor_from_data({**good, "stage": "improved"}, "ash.toml")
    with pytest.raises(Mistake, match="lightest"):
        sailor_from_data({**good, "mass_band_kg": [75, 70]}, "ash.toml")
    assert sailor_from("75kg").mass_kg == 75.0


def test_values_with_units() -> None:
    assert parsed("12kn", "kn", "--speed") == pytest.approx(12 * 1852 / 3600)
    assert parsed("6 m/s", "kn", "--speed") == 6.0
    assert parsed("450mm", "m", "--x") == pytest.approx(0.45)
    for text, words in (
        ("12,5kn", "12.5kn"),
        ("12kg", "mass, not speed"),
        ("fast", "12kn"),
        ("12 furlongs", "furlongs"),
    ):
        with pytest.raises(Mistake) as caught:
            parsed(text, "kn", "--speed")
        assert words in str(caught.value)


ODD = ["-1", "0", "1e9", "nan", "inf", '"x"', "true", "[1, 2]", "{a = 1}", "[]", "1979-05-27", '""', "[[1]]"]


@pytest.mark.parametrize("seed", range(8))
def test_mangled_files_end_in_a_sentence_or_in_a_boat_of_finite_numbers(seed: int) -> None:
    dice = random.Random(seed)
    for _ in range(25):
        lines = dice.choice([MARRAM, CURVE, PIPKIN]).split("\n")
        for _ in range(dice.choice([1, 1, 2, 4])):
            i = dice.randrange(len(lines))
            name, equals, value = lines[i].partition(" = ")
            number = re.match(r"-?\d+\.?\d*", value)
            way = dice.random()
            if way < 0.2:
                del lines[i]
            elif equals and number and way < 0.6:
                lines[i] = (
                    f"{name} = {float(number[0]) * dice.choice([-1, 0.001, 0.01, 10, 1000, 57.3, 0.7])!r}"
                )
            elif equals and way < 0.8:
                lines[i] = f"{name} = {dice.choice(ODD)}"
            else:
                lines.insert(i, dice.choice(lines))
        try:
            boat = ready(boat_from_text("\n".join(lines), "mangled.toml"))
        except (Mistake, Mistakes) as told:
            assert "mangled.toml" in str(told)
        else:
            assert np.isfinite(boat.row).all()
            assert all(np.isfinite(adjuster.amounts).all() for adjuster in boat.adjusters)
