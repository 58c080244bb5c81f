"""The chain ashore: demo boats as they were drawn, stops met in their order, the swing check, locks."""

from __future__ import annotations

from math import degrees, radians

import numpy as np
import pytest

from foilwright.flight.chain_behaviour import chain_at, locks_at, point_at, swing_angles, unpacked
from tests.demo_boats import BOATS, changed, demo_boat, number

# Foil angle [deg] before its stops and gearing at wand 5, 25, 45, 65, 80 degrees: what the boats were drawn
# with.
WAND_DEG = (5.0, 25.0, 45.0, 65.0, 80.0)
DRAWN = {
    "marram": ((-8.94, -3.52, 2.50, 8.47, 12.51), (0.245, 0.291, 0.306, 0.286, 0.249)),
    "pipkin": ((-1.72, 0.46, 3.00, 5.60, 7.39), (0.096, 0.120, 0.131, 0.126, 0.112)),
    "sedge": ((-8.97, -3.53, 2.50, 8.47, 12.49), (0.246, 0.292, 0.306, 0.285, 0.248)),
}
NO_STOPS = {
    "chain.foil_least": -1.0,
    "chain.foil_greatest": 1.0,
    "wand.forward_stop": -1.0,
    "wand.aft_stop": 1.0,
}


@pytest.mark.parametrize("name", DRAWN)
def test_chains_as_they_were_drawn(name):
    """The angles to the hundredth of a degree and the gearings to the thousandth that are printed."""
    boat = demo_boat(name)
    points = chain_at(changed(boat, NO_STOPS), boat.tables, np.radians(WAND_DEG))
    foils, gearings = DRAWN[name]
    assert [degrees(point.foil) for point in points] == pytest.approx(foils, abs=0.0051)
    assert [point.gearing for point in points] == pytest.approx(gearings, abs=0.00051)
    assert not any(point.stop or point.locked for point in points)


def test_the_reversed_chain_differs_by_less_than_a_degree(boats):
    """Near the forward stop by about 0.8 degrees; at the drawing position not at all."""
    wand = np.radians(np.arange(0.0, 83.0, 1.0))
    one, other = (
        [point.foil for point in chain_at(changed(boats[name], NO_STOPS), boats[name].tables, wand)]
        for name in ("marram", "marram-reversed")
    )
    apart = np.degrees(np.abs(np.subtract(one, other)))
    assert apart[45] == pytest.approx(0.0, abs=1e-9)
    assert 0.5 < apart.max() < 1.2
    assert apart.argmax() < 10


@pytest.mark.parametrize(("name", "per_mm"), [("marram", 1.0), ("sedge", 1.0), ("marram-reversed", -1.0)])
def test_a_turn_of_the_main_rod_is_a_degree_of_flap(name, per_mm):
    boat = demo_boat(name)
    for wand in (30.0, 45.0, 60.0):
        at_mark, longer = (
            chain_at(row, boat.tables, [radians(wand)])[0].foil
            for row in (boat.row, changed(boat, {"links.1.rod_longer": 0.001}))
        )
        assert 0.9 < degrees(longer - at_mark) / per_mm < 1.1


@pytest.mark.parametrize("name", BOATS)
def test_stops_hold_and_say_so(name):
    boat = demo_boat(name)
    least, greatest = number(boat, "chain.foil_least"), number(boat, "chain.foil_greatest")
    for point in chain_at(boat.row, boat.tables, np.radians(np.arange(-10.0, 95.0, 2.5))):
        assert least - 1e-12 <= point.foil <= greatest + 1e-12
        if point.stop == "foil least":
            assert point.foil == least
        elif point.stop == "foil greatest":
            assert point.foil == greatest
        elif point.stop == "wand forward":
            assert point.wand < number(boat, "wand.forward_stop")
        elif point.stop == "wand aft":
            assert point.wand > number(boat, "wand.aft_stop")
        else:
            assert least < point.foil < greatest


def test_the_first_stop_met_holds_everything(marram):
    """With the flap's stops far off, the wand's own stops hold; the flap goes no further than they let it."""
    free = changed(marram, {"chain.foil_least": -1.0, "chain.foil_greatest": 1.0})
    at_stop, beyond = chain_at(free, marram.tables, np.radians([82.0, 95.0]))
    assert (at_stop.stop, beyond.stop) == ("", "wand aft")
    assert beyond.foil == at_stop.foil
    assert beyond.wand == radians(95.0), "what was asked is handed back"


@pytest.mark.parametrize("name", BOATS)
def test_swing_check(name):
    """Wand hard back: down to the foil's greatest, or as far as the wand's own stop lets it; and forward."""
    boat = demo_boat(name)
    back, forward = swing_angles(boat.row, boat.tables)
    points = chain_at(
        boat.row, boat.tables, [number(boat, "wand.aft_stop"), number(boat, "wand.forward_stop")]
    )
    assert (back, forward) == (points[0].foil, points[1].foil)
    assert back > radians(4.0) > 0.0 > forward
    if name == "marram":
        assert (degrees(back), degrees(forward)) == pytest.approx((12.0, -6.0))


def test_slop_of_new_joints(marram):
    """0.1 mm in each of six joints, seen at a 28 mm horn: by the ratios of the arms, some 1.3 degrees at the
    most.

    Each rod's play turns its driven arm by play / arm; every later four-bar hands that on by its own ratio.
    """
    (point,) = chain_at(marram.row, marram.tables, [radians(45.0)])
    lever, crank = 1.0, 22.0 / 28.0
    own = 0.2 / 28.0 + 0.2 / 45.0 * crank + 0.2 / 40.0 * (40.0 / 45.0) * crank * lever
    assert point.slop == pytest.approx(own, rel=0.02)
    none = marram.row.copy()
    none[[name.endswith(".play") for name in marram.names]] = 0.0
    assert chain_at(none, marram.tables, [radians(45.0)])[0].slop == 0.0


def test_slop_and_gearing_of_a_measured_curve(boats):
    """Slop is the number in its file; there are no rods whose angles could be told, and it never locks."""
    curve = boats["marram-curve"]
    (point,) = chain_at(curve.row, curve.tables, [radians(45.0)])
    (like,) = chain_at(boats["marram"].row, boats["marram"].tables, [radians(45.0)])
    assert point.transmission is None
    assert point.slop == number(curve, "chain.play")
    assert point.gearing == pytest.approx(like.gearing, abs=0.005)
    assert locks_at(curve.row, curve.tables) == []


def test_the_demo_chains_do_not_lock_where_their_wands_go(boats):
    for boat in boats.values():
        for lock in locks_at(boat.row, boat.tables):
            assert not number(boat, "wand.forward_stop") <= lock <= number(boat, "wand.aft_stop")
        assert not any(
            point.locked for point in chain_at(boat.row, boat.tables, np.radians(np.arange(0.0, 83.0)))
        )


def test_one_point_by_itself_is_the_same(marram):
    boat = unpacked(marram.row)
    alone = point_at(boat, marram.tables, radians(33.0))
    assert alone == chain_at(marram.row, marram.tables, [radians(33.0)])[0]
    assert alone.transmission is not None and radians(40.0) < alone.transmission <= radians(90.0)
