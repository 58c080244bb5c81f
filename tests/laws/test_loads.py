"""Loads: they add up, they know nothing of where we put the origin, they have the symmetries of the world."""

from __future__ import annotations

from math import radians, sqrt

import numpy as np
import pytest

from foilwright.air.sails import sail_force
from foilwright.air.wind import share_at_height
from foilwright.axes import attitude, height_of, to_body, to_earth
from foilwright.compiled import plain
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.chain_behaviour import unpacked
from foilwright.flight.loads import ITEMS, Flight, loads, sums
from foilwright.flight.state import Around, State, steady, still
from foilwright.measures import Floats
from foilwright.water.properties import Water
from tests.demo_boats import BOATS, KN, changed

ITEM = {name: i for i, name in enumerate(ITEMS)}
LOW, HIGH = 0.02, 0.45  # lifting, and flying [m]


def loads_of(
    boat: ReadyBoat,
    row: Floats,
    water: Water,
    state: State,
    around: Around | None = None,
    pull_share: float = 1.0,
) -> tuple[Flight, Floats]:
    items = np.zeros((len(ITEMS), 6))
    flight = loads(
        plain(unpacked(row)), plain(boat.tables), water, around or still(), state, pull_share, plain(items)
    )
    return flight, items


def states() -> list[State]:
    """States of every kind: afloat, lifting, flying; heeled, with leeway, with rudder, with rates."""
    return [
        steady(3.0, -0.10, radians(2.0), 0.0),
        steady(4.5, LOW, radians(3.0), radians(-5.0)),
        steady(7.0, HIGH, 0.0, 0.0),
        State(
            7.0, HIGH, radians(1.0), radians(-12.0), radians(2.0), radians(1.5), 0.1, 0.1, -0.2, 0.1, 1.0, 0.0
        ),
        State(
            9.0,
            0.5,
            radians(-1.0),
            radians(8.0),
            radians(-1.0),
            radians(-2.0),
            -0.2,
            -0.3,
            0.15,
            0.05,
            1.0,
            0.0,
        ),
    ]


@pytest.mark.parametrize("name", BOATS)
def test_loads_are_finite_and_sum_to_their_parts(boats, fresh, name):
    boat = boats[name]
    for state in states():
        _, items = loads_of(boat, boat.row, fresh, state)
        assert np.isfinite(items).all()
        assert sums(plain(items)) == pytest.approx(tuple(items.sum(axis=0)), abs=1e-9)


@pytest.mark.parametrize("name", BOATS)
def test_weights_pull_down_and_have_no_moment(boats, fresh, name):
    boat = boats[name]
    for state in states():
        flight, items = loads_of(boat, boat.row, fresh, state)
        both = items[0] + items[1]
        a = attitude(state.trim, state.heel, state.leeway)
        assert to_earth(a, *both[:3]) == pytest.approx((0.0, 0.0, -flight.weight), abs=1e-9)
        assert both[3:] == pytest.approx([0.0, 0.0, 0.0], abs=1e-9)
        assert flight.weight == pytest.approx((boat.row[0] + boat.row[3]) * fresh.gravity)


def test_the_pull_is_all_resistance_and_balances_it(marram, fresh):
    for state in states():
        flight, items = loads_of(marram, marram.row, fresh, state)
        a = attitude(state.trim, state.heel, state.leeway)
        along = [to_earth(a, *item[:3])[0] for item in items]
        assert sum(along) == pytest.approx(0.0, abs=1e-9)
        assert along[ITEM["pull"]] == pytest.approx(flight.drag)
        _, half = loads_of(marram, marram.row, fresh, state, None, 0.5)
        assert half[ITEM["pull"]] == pytest.approx(0.5 * items[ITEM["pull"]])
        assert half[:-1] == pytest.approx(items[:-1])


def test_moving_the_boats_origin_aft_changes_nothing(marram, fresh):
    """The same boat measured from a point 0.7 m further aft, its hull moved with it."""
    shift = 0.7
    places = [name for name in marram.names if name.endswith((".x", "_x"))]
    assert {"main.x", "rudder.x", "crew.x", "mass.x", "rig.effort_x", "wand.pivot_x", "air.mast_x"} <= set(
        places
    )
    row = changed(marram, dict.fromkeys(places, shift))
    for state in states():
        _, items = loads_of(marram, marram.row, fresh, state)
        _, moved = loads_of(marram, row, fresh, state)
        # The hull's table starts at its transom and stays where it is: its own items are told apart below.
        for name in ("boat weight", "crew weight", "main foil", "rudder foil", "rudder strut", "wand"):
            if name == "rudder strut" and state.height < 0.1:
                continue  # how far the transom covers it is the hull's
            # The control is settled to 1e-10 rad, some 1e-6 N of lift.
            assert moved[ITEM[name]] == pytest.approx(items[ITEM[name]], abs=1e-5), name


def about(items: Floats, x: float, y: float, z: float) -> Floats:
    """The sum of all items with moments about a point x, y, z from the centre of gravity, body axes."""
    total = items.sum(axis=0)
    total[3:] -= np.cross([x, y, z], total[:3])
    return total


def test_balance_about_the_centre_of_gravity_is_balance_about_any_point(marram, fresh):
    """In a solved state the boat is balanced about the main foil too."""
    from foilwright.flight.at_speed import fly_at

    (state,) = fly_at(marram.row, marram.tables, fresh, 14.0 * KN)
    items = np.array([state.loads[name] for name in ITEMS])
    for point in ((0.0, 0.0, 0.0), (0.4, 0.0, -1.5), (-2.0, 0.0, 2.0)):
        total = about(items, *point)
        assert np.abs(total[[0, 2, 4]]).max() < 1e-6


def mirrored(state: State) -> State:
    """The other tack: what is to leeward becomes what is to windward."""
    return state._replace(
        heel=-state.heel,
        leeway=-state.leeway,
        rudder=-state.rudder,
        roll_rate=-state.roll_rate,
        yaw_rate=-state.yaw_rate,
    )


@pytest.mark.parametrize("name", BOATS)
def test_mirror_symmetry(boats, fresh, name):
    """Heel, leeway, rudder, roll, yaw, wind across and crew out on the other side: side force, roll and yaw
    moment change sign and all else stays."""
    boat = boats[name]
    out = boat.names.index("crew.out")
    row = boat.row.copy()
    row[out] = 0.8
    other = row.copy()
    other[out] = -0.8
    signs = np.array([1.0, -1.0, 1.0, -1.0, 1.0, -1.0])
    around = still()._replace(wind_x=-3.0, wind_y=4.0, main_y=0.2, rudder_y=-0.1, main_z=0.1)
    opposite = around._replace(wind_y=-4.0, main_y=-0.2, rudder_y=0.1)
    for state in states():
        flight, items = loads_of(boat, row, fresh, state, around)
        reflected, mirror = loads_of(boat, other, fresh, mirrored(state), opposite)
        assert mirror * signs == pytest.approx(items, abs=1e-8)
        assert reflected.drag == pytest.approx(flight.drag)
        assert reflected.control.wand == pytest.approx(flight.control.wand, abs=1e-10)


def at_reynolds(boat: ReadyBoat, fresh: Water, factor: float) -> tuple[Floats, Floats, Flight, Flight]:
    """The boat flying and `factor` times as fast, in water so much more viscous that Reynolds numbers agree.

    The wand's elastic and weight go with speed squared too, so that it rests at the same angle.
    """
    row = boat.row.copy()
    row[[name.endswith(".play") for name in boat.names]] = 0.0  # how far a foil crosses it goes with force
    state = steady(6.0, HIGH, radians(0.5), 0.0)
    slow, items = loads_of(boat, row, fresh, state)
    faster = row.copy()
    for name in ("wand.tension", "wand.mass"):
        faster[boat.names.index(name)] *= factor**2
    thick = fresh._replace(viscosity=fresh.viscosity * factor, air_viscosity=fresh.air_viscosity * factor)
    fast, more = loads_of(boat, faster, thick, state._replace(speed=6.0 * factor))
    return items, more, slow, fast


@pytest.mark.parametrize("name", ["marram", "pipkin", "sedge"])
def test_forces_go_with_speed_squared_at_one_reynolds_number(boats, fresh, name):
    factor = 1.5
    items, more, slow, fast = at_reynolds(boats[name], fresh, factor)
    assert fast.control.foil == pytest.approx(slow.control.foil, abs=1e-6)
    for name in ("main foil", "main strut", "rudder foil", "rudder strut", "wand", "hull air", "mast air"):
        scaled = items[ITEM[name]] * factor**2
        assert more[ITEM[name]] == pytest.approx(scaled, rel=2e-4, abs=1e-3), name
    for name in ("boat weight", "crew weight", "buoyancy"):
        assert more[ITEM[name]] == pytest.approx(items[ITEM[name]]), name


def test_lift_coefficients_are_lift_over_pressure_and_area(marram, fresh):
    state = steady(7.0, HIGH, radians(1.0), 0.0)
    flight, items = loads_of(marram, marram.row, fresh, state)
    boat = unpacked(marram.row)
    a = attitude(state.trim, 0.0, 0.0)
    pressure = 0.5 * fresh.density * 7.0**2
    up = to_earth(a, *items[ITEM["main foil"], :3])[2]
    assert up == pytest.approx(pressure * boat.main.area * flight.main.lift, rel=1e-3)


def test_no_rates_and_still_water_change_nothing(marram, fresh):
    """Zeros by name, in a state with everything else in it."""
    for state in states():
        at_rest = state._replace(climb=0.0, roll_rate=0.0, pitch_rate=0.0, yaw_rate=0.0)
        _, items = loads_of(marram, marram.row, fresh, at_rest)
        _, again = loads_of(marram, marram.row, fresh, at_rest, Around(*([0.0] * len(Around._fields))))
        assert (items == again).all()


def test_a_bow_going_down_adds_angle_of_attack_ahead_and_takes_it_aft(marram, fresh):
    """q x arm / U at main and rudder foil; q is a right-hand rate about port, so positive is bow down."""
    state = steady(7.0, HIGH, 0.0, 0.0)
    boat = unpacked(marram.row)
    centre = (boat.mass.mass * boat.mass.x + boat.crew.mass * boat.crew.x) / (boat.mass.mass + boat.crew.mass)
    height = (boat.mass.mass * boat.mass.z + boat.crew.mass * boat.crew.z) / (boat.mass.mass + boat.crew.mass)
    before, _ = loads_of(marram, marram.row, fresh, state)
    for rate in (0.05, -0.05):
        after, _ = loads_of(marram, marram.row, fresh, state._replace(pitch_rate=rate))
        for part, was, now in (
            (boat.main, before.main.alpha, after.main.alpha),
            (boat.rudder, before.rudder.alpha + before.downwash, after.rudder.alpha + after.downwash),
        ):
            along = 7.0 + rate * (part.z - height)
            expected = rate * (part.x - centre) / along
            assert now - was == pytest.approx(expected, rel=1e-3)
    assert boat.rudder.x < centre < boat.main.x


def test_climbing_takes_angle_of_attack_away(marram, fresh):
    state = steady(7.0, HIGH, 0.0, 0.0)
    before, _ = loads_of(marram, marram.row, fresh, state)
    after, _ = loads_of(marram, marram.row, fresh, state._replace(climb=0.1))
    assert after.main.alpha - before.main.alpha == pytest.approx(-0.1 / 7.0, rel=1e-3)


def test_water_rising_at_the_main_foil_lifts_it(marram, fresh):
    """The same angle of attack as a boat that sinks at that speed, and at the rudder only more downwash."""
    state = steady(7.0, HIGH, 0.0, 0.0)
    before, items = loads_of(marram, marram.row, fresh, state)
    after, more = loads_of(marram, marram.row, fresh, state, still()._replace(main_z=0.15))
    assert after.main.alpha - before.main.alpha == pytest.approx(0.15 / 7.0, rel=1e-3)
    assert more[ITEM["main foil"], 2] > items[ITEM["main foil"], 2] + 50.0
    assert after.downwash > before.downwash
    sinking, _ = loads_of(marram, marram.row, fresh, state._replace(climb=-0.15))
    assert sinking.main.alpha == pytest.approx(after.main.alpha, abs=1e-9)


def test_a_following_stream_takes_speed_away(marram, fresh):
    """Water that runs along with the boat at one knot: foil loads of a boat one knot slower."""
    state = steady(7.0, HIGH, radians(0.5), 0.0)
    around = still()._replace(main_x=KN, rudder_x=KN)
    after, _ = loads_of(marram, marram.row, fresh, state, around)
    slower, _ = loads_of(marram, marram.row, fresh, state._replace(speed=7.0 - KN))
    assert after.main_speed == pytest.approx(slower.main_speed)
    assert after.rudder_speed == pytest.approx(slower.rudder_speed)


def test_a_crest_everywhere_is_a_boat_that_sits_lower(marram, fresh):
    """A surface 50 mm higher at wand and both foils: their loads are those 50 mm lower."""
    state = steady(7.0, HIGH, 0.0, 0.0)
    crest = still()._replace(surface_at_wand=0.05, surface_at_main=0.05, surface_at_rudder=0.05)
    _, items = loads_of(marram, marram.row, fresh, state, crest)
    _, lower = loads_of(marram, marram.row, fresh, state._replace(height=HIGH - 0.05))
    for name in ("main foil", "main strut", "rudder foil", "rudder strut", "wand"):
        assert items[ITEM[name]] == pytest.approx(lower[ITEM[name]], abs=1e-9), name


def test_rudder_to_leeward_pushes_to_windward_and_turns_the_bow_to_leeward(marram, fresh):
    state = steady(7.0, HIGH, 0.0, 0.0)._replace(rudder=radians(2.0))
    _, items = loads_of(marram, marram.row, fresh, state)
    strut = items[ITEM["rudder strut"]]
    assert strut[1] < -10.0, "windward is -y"
    assert strut[5] > 10.0, "a right-hand turn about up takes the bow to port, to leeward"


def test_leeway_pushes_to_windward_and_heel_shares_it_with_the_foil(marram, fresh):
    upright = steady(7.0, HIGH, 0.0, 0.0)._replace(leeway=radians(2.0))
    _, items = loads_of(marram, marram.row, fresh, upright)
    assert items[ITEM["main strut"], 1] < -50.0
    heeled = upright._replace(heel=radians(-15.0))
    _, leaning = loads_of(marram, marram.row, fresh, heeled)
    a = attitude(0.0, radians(-15.0), radians(2.0))
    across = [to_earth(a, *leaning[ITEM[name], :3])[1] for name in ("main foil", "main strut")]
    assert across[0] < -50.0, "a foil heeled to windward lifts to windward"


def test_air_forces_follow_the_apparent_wind(marram, fresh):
    """Wind of 5 m/s square from starboard on a boat at 6 m/s: half rho A V along the apparent wind.

    The wind is that at 10 m; each part feels what the profile leaves of it at its own height.
    """
    state = steady(6.0, HIGH, 0.0, 0.0)
    _, items = loads_of(marram, marram.row, fresh, state, still()._replace(wind_y=5.0, roughness=5e-4))
    boat = unpacked(marram.row)
    felt = 5.0 * share_at_height(HIGH + boat.crew.z, 5e-4)
    assert 3.5 < felt < 4.5
    apparent = sqrt(6.0**2 + felt**2)
    area = boat.air.crew_drag_area
    expected = 0.5 * fresh.air_density * area * apparent * np.array([-6.0, felt, 0.0])
    assert items[ITEM["crew air"], :3] == pytest.approx(expected)


def test_the_sail_pulls_forward_and_to_leeward_from_its_centre_of_effort(marram, fresh):
    """At power 0 there is none; in a beam wind its force is that of `air/sails.py` in the heeled frame."""
    state = steady(6.0, HIGH, 0.0, radians(-10.0))
    wind = still()._replace(wind_y=5.0, roughness=5e-4)
    _, items = loads_of(marram, marram.row, fresh, state, wind)
    assert (items[ITEM["sail"]] == 0.0).all(), "the bench has no sail"
    flight, items = loads_of(marram, marram.row, fresh, state._replace(power=0.8), wind)
    sail = items[ITEM["sail"]]
    rig = unpacked(marram.row).rig
    a = attitude(0.0, radians(-10.0), 0.0)
    effort_height = HIGH + height_of(a, 0.0, 0.0, rig.effort_z)
    moving = to_body(a, 6.0, -5.0 * share_at_height(effort_height, 5e-4), 0.0)
    wanted = sail_force(rig.sail_area, rig.aspect_ratio, fresh.air_density, moving[0], moving[1], 0.8)
    assert sail[:3] == pytest.approx((wanted.drive, wanted.side, 0.0))
    assert wanted.drive > 100.0
    assert wanted.side > 100.0
    assert flight.drag > 0.0, "drag is that of everything but the sail"
    assert sail[3] < -300.0, "heels to leeward, a negative right-hand turn about forward"


def test_buoyancy_is_the_weight_of_the_water_displaced_and_acts_up(marram, fresh):
    for heel in (0.0, 0.2):
        state = steady(3.0, -0.1, radians(1.0), heel)
        flight, items = loads_of(marram, marram.row, fresh, state)
        a = attitude(state.trim, heel, 0.0)
        up = to_body(a, 0.0, 0.0, 1.0)
        weight = fresh.density * fresh.gravity * flight.hull.volume
        assert items[ITEM["buoyancy"], :3] == pytest.approx(weight * np.array(up))
