"""Who is aboard, in the row: the usual crew changes nothing, builds and masses move the right numbers."""

import numpy as np
import pytest

from foilwright.documents.examples import examples_folder
from foilwright.documents.sailor import Sailor, read_sailor
from foilwright.jobs.aboard import adjusters_with_crew, fore_and_aft, movable_by, row_of, row_with_crew
from tests.demo_boats import demo_boat


def example(name):
    return read_sailor(examples_folder() / "sailors" / f"{name}.toml")


@pytest.mark.parametrize(("name", "mass"), [("marram", 75.0), ("pipkin", 48.0), ("sedge", 145.0)])
def test_the_usual_crew_changes_nothing(name, mass):
    boat = demo_boat(name)
    row = row_with_crew(boat, {}, [Sailor(mass_band_kg=[mass])])
    assert row == pytest.approx(boat.row, abs=1e-12)


def test_a_pair_is_two_sailors():
    boat = demo_boat("sedge")
    row = row_with_crew(boat, {}, [example("rowan"), example("teasel")])
    moved = {name for name, a, b in zip(boat.names, row, boat.row, strict=True) if abs(a - b) > 1e-12}
    assert moved == {"crew.mass", "crew.out", "crew.z", "air.crew_drag_area"}
    assert row[boat.names.index("crew.mass")] == 140.0
    # a little lighter, so a little shorter than the usual pair
    assert -0.03 < row[boat.names.index("crew.out")] - boat.row[boat.names.index("crew.out")] < 0.0


def test_tall_and_heavy_reaches_out_and_stands_in_the_wind():
    boat = demo_boat("marram")
    light, heavy = (row_with_crew(boat, {}, [example(name)]) for name in ("fern", "alder"))
    for number in ("crew.mass", "crew.out", "crew.z", "air.crew_drag_area"):
        assert light[boat.names.index(number)] < boat.row[boat.names.index(number)]
        assert boat.row[boat.names.index(number)] < heavy[boat.names.index(number)]
    righting = [
        row[boat.names.index("crew.mass")] * row[boat.names.index("crew.out")] for row in (light, heavy)
    ]
    assert righting[0] < 40.0 * 1.55
    assert righting[1] > 90.0 * 1.55


def test_settings_stay():
    boat = demo_boat("marram")
    usual = [Sailor(mass_band_kg=[75])]
    aft = row_with_crew(boat, {"sailor-aft": 2.0}, usual)
    assert aft[boat.names.index("crew.x")] == pytest.approx(boat.row[boat.names.index("crew.x")] - 0.2)
    assert np.count_nonzero(np.abs(aft - boat.row) > 1e-12) == 1


def test_how_far_they_will_go():
    boat = demo_boat("marram")
    assert fore_and_aft(boat, [example("tansy")]) == (-3.0, 3.0)
    assert fore_and_aft(boat, [example("fern")]) == pytest.approx((-2.0, 2.0))
    assert fore_and_aft(boat, [Sailor(mass_band_kg=[75], fore_aft_m=1.0)]) == (-3.0, 3.0)


def ends(boat, crew, settings):
    [place] = [one for one in adjusters_with_crew(boat, crew, settings) if one.name == "sailor-aft"]
    return place.least, place.greatest


def test_the_search_may_move_them_only_as_far_as_they_will_go():
    boat = demo_boat("marram")
    fern, still = example("fern"), Sailor(mass_band_kg=[75], fore_aft_m=0.0)
    assert ends(boat, [fern], {}) == (-2.0, 2.0)
    assert ends(boat, [fern], {"sailor-aft": 3.0}) == (-2.0, 3.0), "where it stands stays in the range"
    assert "sailor-aft" in movable_by(boat, [fern])
    assert "sailor-aft" not in movable_by(boat, [still])
    assert ends(boat, [Sailor(mass_band_kg=[40.0])], {}) == (-3.0, 3.0)


def test_plain_kilograms_move_the_mass_alone_and_a_build_the_reach_as_well():
    boat = demo_boat("marram")
    out, mass = boat.names.index("crew.out"), boat.names.index("crew.mass")
    plain, built = row_of(boat, {}, Sailor(mass_band_kg=[40.0])), row_of(boat, {}, example("fern"))
    assert plain[mass] == built[mass] == 40.0
    assert plain[out] == boat.row[out]
    assert built[out] < boat.row[out]
