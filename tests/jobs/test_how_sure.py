"""What an assumption is worth: solved again where it matters, to first order elsewhere, and both agree."""

import pytest

from foilwright.documents.boat_file import boat_from_text
from foilwright.documents.boat_numbers import ready
from foilwright.flight.at_speed import fly_at, nearby
from foilwright.jobs import how_sure as module
from foilwright.jobs.how_sure import Flying, assumed_changes, height_changes, how_sure, reference_state
from foilwright.water.properties import water_at

FEW = """
format = "foilwright/boat"
version = 1
name = "Few"
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


@pytest.fixture(scope="module")
def few() -> Flying:
    boat = ready(boat_from_text(FEW, "few.toml"))
    water = water_at()
    state = reference_state(
        [s for kn in (12.0, 16.0) for s in fly_at(boat.row, boat.tables, water, kn * 0.514444)]
    )
    assert state is not None
    return Flying(boat, boat.row, water, state)


def test_the_reference_is_the_flying_state_nearest_to_12_kn(few):
    assert few.state.speed == pytest.approx(12.0 * 0.514444)
    assert reference_state([]) is None


def test_every_assumption_is_weighed(few):
    changes = assumed_changes(few)
    assert len(changes) == len(few.boat.assumed) > 40
    assert all(change is not None for change in changes)


def test_first_order_agrees_with_solving_again(few, monkeypatch):
    """Within a third, and 4 mm, for bands as wide as these: good enough to put them in order."""
    bands = {one.name: (one.low, one.high) for one in few.boat.assumed}
    monkeypatch.setattr(module, "SOLVED_AGAIN", 0)
    first = height_changes(few, bands)
    monkeypatch.setattr(module, "SOLVED_AGAIN", len(bands))
    again = height_changes(few, bands)
    for name in bands:
        assert first[name] == pytest.approx(again[name], rel=0.34, abs=0.004), name


def test_directions(few):
    """Crew further forward lowers it (the bow drops); a deeper rudder foil lifts less near the surface."""
    changes = dict(zip((one.name for one in few.boat.assumed), assumed_changes(few), strict=True))
    assert changes["crew.x_m"] < -0.02
    assert changes["mass.mass_kg"] < -0.02
    assert changes["main_foil.zero_lift_shift_deg"] < -0.02


def test_a_solved_change_is_the_difference_of_two_solved_heights(few):
    low, high = 1.25, 1.65
    [change] = height_changes(few, {"crew.x_m": (low, high)}).values()
    state = few.state
    heights = []
    for x in (low, high):
        row = few.boat.row_with({"crew.x_m": x})
        found = nearby(row, few.boat.tables, few.water, state.speed, 0.0, state.height, state.trim)
        assert found is not None
        heights.append(found[0])
    assert change == pytest.approx(heights[1] - heights[0], abs=1e-9)


def test_the_sailors_own_mass_is_not_in_doubt(few):
    row = few.row.copy()
    row[few.boat.names.index("crew.mass")] = 80.0
    state = reference_state(fly_at(row, few.boat.tables, few.water, few.state.speed))
    assert height_changes(few._replace(row=row, state=state), {"crew.usual_mass_kg": (60.0, 90.0)}) == {
        "crew.usual_mass_kg": 0.0
    }


def test_all_doubts_together(few):
    """Nothing of this boat has a standard error, so half of each band is all there is."""
    sure = how_sure(few)
    changes = dict(zip((one.name for one in few.boat.assumed), assumed_changes(few), strict=True))
    assert sure.biggest == max(changes, key=lambda name: abs(changes[name] or 0.0))
    assert sure.assumed
    # The smaller doubts are taken to first order in the sum, which a card rounds to 5 mm.
    total = sum((0.5 * (x or 0.0)) ** 2 for x in changes.values()) ** 0.5
    assert sure.height == pytest.approx(total, abs=0.0025)
    assert 0.1 < sure.height < 0.4
