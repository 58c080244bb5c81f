"""Boat files: the demo boats as described, few numbers, uncertainty, saving, meaning, reference line."""

from __future__ import annotations

import importlib.util
import os
import stat
from functools import cache
from math import degrees, radians
from pathlib import Path
from types import ModuleType
from typing import Any

import numpy as np
import pytest

from foilwright.documents.boat_file import BoatFile, boat_from_text, read_boat, save_boat
from foilwright.documents.boat_numbers import ReadyBoat, ready
from foilwright.documents.boat_table import given_numbers
from foilwright.documents.defaults import CURVE_DEFAULTS, DEFAULTS, FOIL_STOPS, ROD_DEFAULTS
from foilwright.documents.examples import example, examples_folder
from foilwright.documents.limits import limits_of
from foilwright.documents.measured import twin_of
from foilwright.flight.boat import Boat, boat_from, row_names, scratch_shapes
from foilwright.linkage.chain import turn_chain
from foilwright.linkage.curve import read_curve
from foilwright.mistakes import Mistake, Mistakes
from foilwright.setup.adjusters import turned

TWELVE = """
format = "foilwright/boat"
version = 1
name = "Twelve"
form = "narrow"
[main_foil]
control = "flap"
below_keel_m = 1.0
span_m = 0.98
mean_chord_m = 0.107
incidence_deg = 1.0
[rudder]
behind_main_strut_m = 2.3
incidence_deg = 0.0
[wand]
length_m = 1.12
pivot_z_m = 0.32
ahead_of_main_strut_m = 1.5
[chain]
[[chain.curve]]
position = 0.0
wand_deg = [20.0, 45.0, 70.0]
foil_deg = [-4.9, 2.5, 9.9]
[[chain.curve]]
position = 3.0
foil_change_deg = 3.0
"""

# Foil angle [deg] before the stops, over wand 5, 25, 45, 65, 80 deg, and length of the rods [m]: the numbers
# that the boats were invented with.
CHAINS = {
    "marram": ((-8.94, -3.52, 2.50, 8.47, 12.51), (0.5505, 0.9500, 1.2619)),
    "pipkin": ((-1.72, 0.46, 3.00, 5.60, 7.39), (1.3820, 1.2406)),
    "sedge": ((-8.97, -3.53, 2.50, 8.47, 12.49), (0.8511, 1.1000, 1.3826)),
}
WANDS = (5.0, 25.0, 45.0, 65.0, 80.0)


@cache
def made(name: str) -> ReadyBoat:
    return ready(read_boat(example(name)))


def unpacked(row: Any) -> tuple[Boat, Any, Any]:
    links, drawn = (np.zeros(shape) for shape in scratch_shapes(len(row)))
    return boat_from(row, links, drawn), links, drawn


def foil_at(row: Any, wand_deg: float) -> float:
    boat, links, drawn = unpacked(row)
    turned = turn_chain(drawn, links, radians(wand_deg) - boat.chain.wand_at_drawing)
    return degrees(boat.chain.foil_at_drawing + turned.turn)


@pytest.mark.parametrize("name", CHAINS)
def test_the_chains_of_the_demo_boats(name: str) -> None:
    angles, rods = CHAINS[name]
    row = made(name).row
    _, _, drawn = unpacked(row)
    assert drawn[:, 9] == pytest.approx(rods, abs=0.00006)  # a twentieth of a millimetre
    assert [foil_at(row, wand) for wand in WANDS] == pytest.approx(angles, abs=0.006)


def test_a_longer_rod_turns_the_flap_of_marram_down_and_of_marram_reversed_up() -> None:
    for name, sign in (("marram", 1.0), ("marram-reversed", -1.0)):
        boat = made(name)
        longer = boat.row_with(
            {"chain.rods.main-rod.length_m": boat.numbers["chain.rods.main-rod.length_m"] + 0.001}
        )
        for wand in (20.0, 45.0, 70.0):
            assert foil_at(longer, wand) - foil_at(boat.row, wand) == pytest.approx(sign, abs=0.1)
    differences = [
        foil_at(made("marram-reversed").row, w) - foil_at(made("marram").row, w) for w in range(0, 83, 2)
    ]
    assert max(map(abs, differences)) == pytest.approx(0.8, abs=0.1)


def test_the_curve_of_marram_is_that_of_its_cranks() -> None:
    cranked, curve = made("marram"), made("marram-curve")
    assert len(curve.row) == len(row_names(0))
    main_rod = next(a for a in cranked.adjusters if a.name == "main-rod")
    for turns in (-3.0, -1.0, 0.0, 2.0, 3.0):
        row = cranked.row.copy()
        row[list(main_rod.numbers)] += 0.001 * turns
        for wand in range(5, 81, 5):
            by_curve, _ = read_curve(curve.tables.curve, radians(wand), turns)
            assert degrees(by_curve) == pytest.approx(foil_at(row, wand), abs=0.05)
    same = set(cranked.names[: len(row_names(0))]) - {n for n in row_names(0) if n.startswith("chain.")}
    for name in same:
        assert curve.row[curve.names.index(name)] == cranked.row[cranked.names.index(name)], name


def test_the_other_marrams_are_what_their_builder_makes() -> None:
    builder = loaded("builders/demo_boats.py")
    for name, text in builder.texts().items():
        assert (examples_folder() / "boats" / name).read_text(encoding="utf-8") == text, (
            f"run {builder.__file__}"
        )


def test_marram_in_numbers() -> None:
    boat, _, _ = unpacked(made("marram").row)
    assert (boat.mass.mass, boat.mass.x, boat.mass.z) == (40.0, 1.80, 0.40)
    assert (boat.crew.mass, boat.crew.x, boat.crew.out, boat.crew.z) == (75.0, 1.45, 1.55, 0.75)
    assert (boat.main.x, boat.main.z, boat.main.span, boat.main.area) == (1.95, -1.02, 0.98, 0.105)
    assert (boat.main.flap_per_turn, boat.main.incidence_per_turn) == (1.0, 0.0)
    assert degrees(boat.main.incidence) == pytest.approx(1.0)
    assert (boat.rudder.x, boat.rudder.z) == (-0.35, -0.98)
    assert (boat.wand.length, boat.wand.tension) == (1.12, 3.0)
    assert degrees(boat.wand.aft_stop) == pytest.approx(82.0)
    assert [boat.links[i, 7] for i in range(3)] == pytest.approx([0.0002] * 3)  # 0.1 mm in each of two joints


def test_the_chord_of_a_whole_foil_is_counted_once() -> None:
    boat, _, _ = unpacked(made("pipkin").row)
    assert (boat.main.flap_per_turn, boat.main.incidence_per_turn, boat.main.incidence) == (0.0, 1.0, 0.0)
    assert degrees(boat.chain.foil_at_drawing) == pytest.approx(3.0)
    sure = made("pipkin").bands
    assert degrees(sure["chain.foil_at_drawing"]) == pytest.approx(0.3)


def test_twelve_numbers_make_a_boat_and_the_rest_is_named() -> None:
    boat = boat_from_text(TWELVE, "twelve.toml")
    flying = ready(boat)
    assert np.isfinite(flying.row).all()
    made_boat, _, _ = unpacked(flying.row)
    assert made_boat.wand.pivot_x - made_boat.main.x == pytest.approx(1.5)
    assert made_boat.main.x - made_boat.rudder.x == pytest.approx(2.3)
    assert made_boat.main.area == pytest.approx(0.98 * 0.107)
    names = {assumed.name for assumed in flying.assumed}
    assert {"mass.mass_kg", "hull.length_m", "crew.x_m", "chain.slop_deg", "rudder.area_m2"} <= names
    assert not names & set(given_numbers(boat))
    assert flying.assumed_words == {"main_foil.section": "typical 12 %", "rudder.section": "typical 9 %"}
    for assumed in flying.assumed:
        assert assumed.low <= assumed.value <= assumed.high, assumed
        low, high = limits_of(assumed.name)
        assert low <= assumed.low and assumed.high <= high, assumed
    shifted, _ = read_curve(flying.tables.curve, radians(45.0), 3.0)
    assert degrees(shifted) == pytest.approx(5.5, abs=0.01)


@pytest.mark.parametrize(
    "line", [line for line in TWELVE.splitlines() if "_m = " in line or "incidence" in line]
)
def test_each_of_the_twelve_is_missed_by_name(line: str) -> None:
    name = line.split(" = ")[0]
    if name == "behind_main_strut_m":
        assert "rudder.x_m" in {
            a.name for a in ready(boat_from_text(TWELVE.replace(line, ""), "t.toml")).assumed
        }
        return
    with pytest.raises((Mistake, Mistakes), match="missing"):
        boat_from_text(TWELVE.replace(line, "", 1), "twelve.toml")


@pytest.mark.parametrize("form", ["narrow", "wide", "two-person"])
@pytest.mark.parametrize("control", ["flap", "whole"])
def test_every_form_of_boat_works_by_data_alone(form: str, control: str) -> None:
    text = TWELVE.replace('"narrow"', f'"{form}"').replace('"flap"', f'"{control}"')
    if control == "whole":
        text = text.replace("[-4.9, 2.5, 9.9]", "[-1.5, 1.2, 4.0]")
    assert np.isfinite(ready(boat_from_text(text, "t.toml")).row).all()


def test_a_default_hangs_on_what_is_known() -> None:
    longer = TWELVE.replace("[rudder]", "[hull]\nlength_m = 3.5\n[rudder]")
    a, b = ready(boat_from_text(TWELVE, "a.toml")).numbers, ready(boat_from_text(longer, "b.toml")).numbers
    for path in ("mass.x_m", "crew.x_m", "rig.effort_x_m", "wand.pivot_x_m", "rudder.x_m"):
        assert b[path] - a[path] == pytest.approx(b["main_foil.x_m"] - a["main_foil.x_m"])


def test_every_measured_field_has_its_twin() -> None:
    names = [
        ("length_m", "length_se_m"),
        ("taper", "taper_se"),
        ("tension_n_m", "tension_se_n_m"),
        ("area_m2", "area_se_m2"),
        ("stretch_mm_per_n", "stretch_se_mm_per_n"),
    ]
    for name, twin in names:
        assert twin_of(name) == twin
    fields = BoatFile.model_json_schema()["$defs"]["Wand"]["properties"]
    assert fields["length_se_m"]["minimum"] == 0
    assert "id_se" not in fields


REEF = """
[[adjusters]]
name = "reef"
one_step = "one row of reef points"
how = "ease the halyard, tie the row"
more = "less sail, carried lower"
least = 0
greatest = 1
positions = [
    { step = 0, values = { "rig.reef_share" = 1.0 } },
    { step = 1, values = { "rig.reef_share" = 0.9 } },
]
"""


def test_a_rig_that_can_be_reefed_says_so_by_data() -> None:
    """Area with the square of what is left of the sail, its effort with it; aspect ratio kept."""
    whole = example("sedge").read_text(encoding="utf-8")
    boat = ready(boat_from_text(whole.replace("[rig]\n", "[rig]\nreef_share = 1.0\n", 1) + REEF, "reef.toml"))
    assert np.allclose(boat.row, ready(boat_from_text(whole, "sedge.toml")).row, rtol=1e-15)
    [reef] = [one for one in boat.adjusters if one.name == "reef"]
    moved = turned(boat.row, boat.adjusters, {**boat.present, "reef": 1.0})
    area, effort, aspect = (
        boat.names.index(f"rig.{name}") for name in ("sail_area", "effort_z", "aspect_ratio")
    )
    deck = boat.numbers["hull.depth_m"]
    assert moved[area] == pytest.approx(0.81 * boat.row[area])
    assert moved[effort] - deck == pytest.approx(0.9 * (boat.row[effort] - deck))
    assert moved[aspect] == boat.row[aspect]
    assert len(reef.numbers) == 2


def test_uncertainty_reaches_the_row() -> None:
    sure = made("marram").bands
    assert sure["wand.length"] == pytest.approx(0.005)
    assert degrees(sure["rudder.incidence"]) == pytest.approx(0.3)
    assert "wand.pivot_x" not in sure
    assert sure["air.hull_z"] == pytest.approx(0.108)  # half the band of what was assumed


def test_another_straight_reference_gives_the_same_boat() -> None:
    """Against a line whose bow end stands 2 deg higher, chords read 2 deg less, the wand 2 deg more."""
    text = example("marram").read_text(encoding="utf-8")
    for old, new in (
        ("keel_line_deg = 0.0", "keel_line_deg = 2.0"),
        ("\nincidence_deg = 1.0\n", "\nincidence_deg = -1.0\n"),
        ("\nincidence_deg = 0.0\n", "\nincidence_deg = -2.0\n"),
        ("forward_stop_deg = 0.0", "forward_stop_deg = 2.0"),
        ("aft_stop_deg = 82.0", "aft_stop_deg = 84.0"),
        ("\nwand_deg = 45.0", "\nwand_deg = 47.0"),
    ):
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    assert ready(boat_from_text(text, "m.toml")).row == pytest.approx(made("marram").row, abs=1e-12)


def test_the_version_follows_the_meaning_only(tmp_path: Path) -> None:
    text = example("marram").read_text(encoding="utf-8")
    version = boat_from_text(text, "m.toml").version_of_content()
    same = text.replace("length_m = 1.12\n", "length_m = 1.120 # by tape\n")
    other = text.replace("length_m = 1.12\n", "length_m = 1.121\n")
    less_sure = text.replace("length_se_m = 0.005", "length_se_m = 0.006")
    assert boat_from_text(same, "other-name.toml").version_of_content() == version
    assert boat_from_text(other, "m.toml").version_of_content() != version
    assert boat_from_text(less_sure, "m.toml").version_of_content() != version
    assert len(version) == 10


def test_saving_keeps_comments_and_rights_and_leaves_nothing_behind(tmp_path: Path) -> None:
    path = tmp_path / "marram.toml"
    path.write_text(example("marram").read_text(encoding="utf-8"), encoding="utf-8")
    path.chmod(0o640)
    boat = save_boat(
        path, {"wand.length_m": 1.13, "adjusters.main-rod.present": 2.0, "rudder.area_se_m2": 0.001}
    )
    assert boat.wand.length_m == 1.13
    again = read_boat(path)
    assert again == boat and again.adjusters[0].present == 2.0
    assert again.rudder.standard_errors["area_m2"] == 0.001
    text = path.read_text(encoding="utf-8")
    assert text.startswith("# Marram: an invented boat.") and "# in each joint, new" in text
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert os.listdir(tmp_path) == ["marram.toml"]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    real, link = tmp_path / "real.toml", tmp_path / "link.toml"
    real.write_text(example("marram").read_text(encoding="utf-8"), encoding="utf-8")
    link.symlink_to(real)
    save_boat(link, {"wand.length_m": 1.13})
    assert link.is_symlink() and read_boat(real).wand.length_m == 1.13


def test_a_file_from_another_editor(tmp_path: Path) -> None:
    path = tmp_path / "m.toml"
    path.write_bytes(
        b"\xef\xbb\xbf" + example("marram").read_text(encoding="utf-8").replace("\n", "\r\n").encode()
    )
    assert read_boat(path) == read_boat(example("marram"))


def test_every_part_has_an_identity() -> None:
    assert read_boat(example("marram")).part_ids()["rudder"] == "marram-rudder-1"
    ids = boat_from_text(TWELVE, "t.toml").part_ids()
    assert set(ids) == {"hull", "main_foil", "rudder", "rig", "wand"}
    assert len(set(ids.values())) == 5


def test_every_default_is_a_field_of_the_boat_file_and_has_a_source() -> None:
    tables = [*DEFAULTS, *CURVE_DEFAULTS, *(d for t in FOIL_STOPS.values() for d in t)]
    tables += [d._replace(path=f"chain.rods.any.{d.path}") for d in ROD_DEFAULTS]
    for default in tables:
        assert limits_of(default.path)[0] > -1e9, default.path
        assert default.source
        for form in ("narrow", "wide", "two-person"):
            band = default.for_form(form)
            assert band.low <= band.value <= band.high, default


def test_an_assumption_can_be_replaced() -> None:
    boat = read_boat(example("marram"))
    other = ready(boat, {"main_foil.roughness": 1.0})
    assert "main_foil.roughness" not in {a.name for a in other.assumed}
    assert (other.tables.sections.polar != ready(boat).tables.sections.polar).any()


def test_examples_are_known_by_name() -> None:
    assert example("boats/marram.toml") == example("marram")
    with pytest.raises(Mistake, match="marram"):
        example("no-such-boat")


def loaded(path: str) -> ModuleType:
    file = Path(__file__).parent.parent.parent / path
    spec = importlib.util.spec_from_file_location(file.stem, file)
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module
