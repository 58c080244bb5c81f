"""Margins: each falls to nothing where its limit is, in the limit's own unit, and the nearest is named."""

from __future__ import annotations

from math import cos, isfinite, pi, radians, sin

import numpy as np
import pytest

from foilwright.compiled import plain
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.at_speed import case_of, fly_at, scratch
from foilwright.flight.margins import CONTACT_PERIOD, SPANS, Margins, foil_stall, margins, smaller
from foilwright.flight.state import steady
from foilwright.flight.trim_at_speed import loads_at
from foilwright.measures import Floats
from foilwright.water.hull import hull_in_water
from tests.demo_boats import BOATS, KN, changed, demo_boat, flying, number


def margins_of(
    boat: ReadyBoat, row: Floats, water, speed: float, height: float, trim: float = 0.0, heel: float = 0.0
) -> Margins:
    """All margins of a state, balanced or not."""
    case = case_of(row, boat.tables, water, speed, heel)
    flight = loads_at(case, height, trim, plain(scratch().items))
    return margins(case.boat, case.tables, case.water, steady(speed, height, trim, heel), flight)


@pytest.mark.parametrize("name", BOATS)
def test_every_margin_is_a_number_and_the_nearest_is_the_smallest_share(fresh, name):
    boat = demo_boat(name)
    for speed_kn in (10.5, 12.0, 16.0, 20.0):
        there = flying(boat, boat.row, fresh, speed_kn)
        assert set(there.margins) == set(SPANS)
        shares = {k: m / SPANS[k] for k, m in there.margins.items() if m is not None}
        assert all(isfinite(share) for share in shares.values())
        assert there.nearest == min(shares, key=lambda k: shares[k])
        assert there.margins["hiking"] is None, "belongs to sailing in wind"


def test_touchdown_is_the_height_of_the_lowest_point(marram, fresh):
    """Where it is nothing the hull just touches: no volume above it, some below."""
    hull = plain(marram.tables.hull)
    for trim, heel in ((0.0, 0.0), (radians(3.0), 0.0), (radians(-2.0), radians(-10.0))):
        lowest = margins_of(marram, marram.row, fresh, 6.0, 0.3, trim, heel).touchdown
        assert lowest == pytest.approx(
            margins_of(marram, marram.row, fresh, 6.0, 0.5, trim, heel).touchdown - 0.2, abs=1e-9
        )
        just = 0.3 - lowest
        volumes = [
            hull_in_water(
                hull, just + up, sin(trim), cos(trim), sin(heel), cos(heel), number(marram, "main.x")
            ).volume
            for up in (0.03, -0.03)
        ]
        assert volumes[0] == 0.0
        assert volumes[1] > 0.0


def test_tip_depth_is_that_of_the_higher_foils_higher_tip(marram, fresh):
    """Upright the rudder foil, 40 mm less deep, counts; heeled half its span times the sine comes off the
    deepest.
    """
    height = 0.5
    upright = margins_of(marram, marram.row, fresh, 7.0, height)
    assert upright.tip_depth == pytest.approx(0.98 - height, abs=1e-3)
    heeled = margins_of(marram, marram.row, fresh, 7.0, height, 0.0, radians(12.0))
    tips = [
        below * cos(radians(12.0)) - height - 0.5 * span * sin(radians(12.0))
        for below, span in ((1.02, 0.98), (0.98, 0.84))
    ]
    assert heeled.tip_depth == pytest.approx(min(tips), abs=2e-3)
    out = margins_of(marram, marram.row, fresh, 7.0, 0.9, 0.0, radians(12.0))
    assert out.tip_depth < 0.0


def test_stall_margin_is_angle_to_the_limit(marram, fresh):
    """More incidence takes as many degrees off it, while the main foil is the nearer."""
    before = margins_of(marram, marram.row, fresh, 5.0, 0.3, radians(3.0))
    row = changed(marram, {"main.incidence": radians(1.0)})
    after = margins_of(marram, row, fresh, 5.0, 0.3, radians(3.0))
    assert before.stall - after.stall == pytest.approx(radians(1.0), rel=0.05)
    assert margins_of(marram, marram.row, fresh, 5.0, 0.3, radians(16.0)).stall < 0.0


def test_stall_counts_both_ways(marram):
    """In the middle of its range a foil has as much left upwards as downwards."""
    boat = case_of(marram.row, marram.tables, None, 1.0, 0.0).boat  # type: ignore[arg-type]
    planform = boat.main_planform
    slope, most = 4.5, 1.3
    assert foil_stall(0.0, 0.0, slope, most, -most, planform) == pytest.approx(
        planform.stall_share * most / slope
    )
    assert foil_stall(0.1, 0.0, slope, most, -most, planform) == pytest.approx(
        foil_stall(-0.1, 0.0, slope, most, -most, planform)
    )


def test_ventilation_shrinks_with_the_angle_of_a_strut(marram, fresh):
    """At heel and trim the strut meets the water at an angle: trim times the sine of heel."""
    straight = margins_of(marram, marram.row, fresh, 8.0, 0.5)
    slanted = margins_of(marram, marram.row, fresh, 8.0, 0.5, radians(3.0), radians(20.0))
    assert straight.ventilation - slanted.ventilation == pytest.approx(
        radians(3.0) * sin(radians(20.0)), rel=0.02
    )


def test_cavitation_starts_at_its_speed(marram, fresh):
    """A margin of so many m/s: much faster it is gone, and deeper it is more."""
    slow, fast = (margins_of(marram, marram.row, fresh, speed, 0.5) for speed in (8.0, 16.0))
    assert slow.cavitation > fast.cavitation
    assert margins_of(marram, marram.row, fresh, 20.0, 0.5, radians(2.0)).cavitation < 0.0


@pytest.mark.parametrize("name", BOATS)
def test_stops_of_wand_and_foil(fresh, name):
    """The nearer stop of each, counted from where wand and foil stand."""
    boat = demo_boat(name)
    there = flying(boat, boat.row, fresh, 14.0)
    ends = (number(boat, "wand.forward_stop"), number(boat, "wand.aft_stop"))
    foils = (number(boat, "chain.foil_least"), number(boat, "chain.foil_greatest"))
    assert there.margins["wand_stop"] == pytest.approx(
        min(there.wand - ends[0], ends[1] - there.wand), abs=1e-6
    )
    assert there.margins["foil_stop"] == pytest.approx(
        min(there.foil - foils[0], foils[1] - there.foil), abs=1e-9
    )


@pytest.mark.parametrize("name", ["marram", "sedge", "pipkin"])
def test_rudder_reversal_is_how_far_the_rudder_foil_is_from_changing_sides(fresh, name):
    boat = demo_boat(name)
    for speed_kn in (12.0, 16.0, 20.0):
        there = flying(boat, boat.row, fresh, speed_kn)
        margin = there.margins["rudder_reversal"]
        assert margin is not None
        assert margin == pytest.approx(abs(there.rudder_lift), rel=0.02, abs=2.0)


def test_wand_contact_is_the_wave_that_the_paddle_just_follows(marram, fresh):
    """By hand at 14 kn: what holds the wand down, against the inertia of a rod about its end at 0.3 s."""
    there = flying(marram, marram.row, fresh, 14.0)
    tilt = sin(there.wand - there.trim)
    length, mass = number(marram, "wand.length"), number(marram, "wand.mass")
    inertia = mass * length**2 / 3.0
    held = number(marram, "wand.tension") + 0.5 * mass * fresh.gravity * length * tilt
    margin = there.margins["wand_contact"]
    assert margin is not None
    by_hand = held * length * tilt / inertia / (2.0 * pi / CONTACT_PERIOD) ** 2
    # The chain's own load on the wand is the rest.
    assert margin == pytest.approx(by_hand, rel=0.5)
    tighter = changed(marram, {"wand.tension": 1.0})
    more = flying(marram, tighter, fresh, 14.0).margins["wand_contact"]
    assert more is not None and more > margin


def test_margins_that_mean_nothing_are_left_out(marram, fresh):
    """Afloat there is no touchdown to come; with the wand off the water, no contact to lose and no stop of
    it.
    """
    (afloat,) = fly_at(marram.row, marram.tables, fresh, 4.0 * KN)
    assert afloat.margins["touchdown"] is None
    # A flap that cannot go below 3 degrees lifts the boat until a short wand leaves the water.
    stuck = changed(marram, {"wand.length": -0.4, "chain.foil_least": radians(9.0)})
    off = [s for s in fly_at(stuck, marram.tables, fresh, 18.0 * KN) if not s.wand_touching]
    assert off
    for there in off:
        assert there.margins["wand_contact"] is None
        assert there.margins["wand_stop"] is None


def test_margins_are_symmetric_in_heel(marram, fresh):
    one = margins_of(marram, marram.row, fresh, 7.0, 0.5, radians(1.0), radians(9.0))
    other = margins_of(marram, marram.row, fresh, 7.0, 0.5, radians(1.0), radians(-9.0))
    assert np.array(one) == pytest.approx(np.array(other), abs=1e-9)


def test_the_smaller():
    assert smaller(1.0, 2.0) == smaller(2.0, 1.0) == 1.0
