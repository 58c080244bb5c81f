"""Statics of a boat on two foils, in closed form, against the whole boat as it is flown.

- Two supports: L1 + L2 = W, and moments about the main foil: L2 = W d / l for a centre of gravity d behind
  it, l being the distance between the foils; a pull T at a height z adds a bow-down moment T z and takes T z
  / l off the rudder foil (elementary statics).
- Take-off: W = rho / 2 U^2 S C_L, so U goes with sqrt(mass) and with 1 / sqrt(area) at one lift coefficient.
- Neutral point of two lifting surfaces: x = sum(k x) / sum(k), k the lift slope of each (Etkin, Dynamics of
  Flight).
"""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.at_speed import Steady, take_off_speed
from foilwright.flight.chain_behaviour import unpacked
from foilwright.flight.loads import ITEMS
from tests.demo_boats import KN, changed, demo_boat, flying, number
from tests.literature.published import CLOSED_FORM, Source, compare, percent

TOPIC = "Two foils"
TAKE_OFF = Source(TOPIC, "U = sqrt(2 W / (ρ S C_L))", CLOSED_FORM)


@pytest.mark.parametrize("name", ["marram", "pipkin", "sedge"])
def test_shares_of_the_foils_follow_from_all_other_loads(fresh, name):
    """Both lifts of a steady state, from the moments of everything else about each foil: within 0.1 % of the
    weight.

    Body axes and small trims: the state chosen is the speed at which the boat runs nearly level.
    """
    boat = demo_boat(name)
    state = flying(boat, boat.row, fresh, 15.0)
    parts = unpacked(boat.row)
    weight = (parts.mass.mass + parts.crew.mass) * fresh.gravity
    centre_x = (parts.mass.mass * parts.mass.x + parts.crew.mass * parts.crew.x) * fresh.gravity / weight
    centre_z = (parts.mass.mass * parts.mass.z + parts.crew.mass * parts.crew.z) * fresh.gravity / weight
    others = np.sum([load for item, load in state.loads.items() if not item.endswith(" foil")], axis=0)
    between = parts.main.x - parts.rudder.x
    # Bow-up moment of the other loads about the main foil; the foils' own drag and section moments are small.
    drags = sum(
        (parts_z - centre_z) * -state.loads[item][0]
        for item, parts_z in (("main foil", parts.main.z), ("rudder foil", parts.rudder.z))
    )
    about_main = -(others[4] - (parts.main.x - centre_x) * -others[2])
    pitching = sum(
        (z - centre_z) * state.loads[item][0] - (x - centre_x) * state.loads[item][2] - state.loads[item][4]
        for item, x, z in (
            ("main foil", parts.main.x, parts.main.z),
            ("rudder foil", parts.rudder.x, parts.rudder.z),
        )
    )
    rudder_lift = (about_main + drags + pitching) / between
    main_lift = -others[2] - rudder_lift
    closed = {"main foil": main_lift, "rudder foil": rudder_lift}
    for item, expected in closed.items():
        assert state.loads[item][2] == pytest.approx(expected, abs=0.001 * weight)


def tipping_and_drag(boat: ReadyBoat, gravity: float, before: Steady, after: Steady) -> float:
    """What a change of setting does beside its own moment, bow-down moment taken off [N m]: the weights stand
    high over the main foil and go aft with a bow that comes up, and the pull at its height grows with the
    drag."""
    tips = 0.0
    for part in ("mass", "crew"):
        height = number(boat, f"{part}.z") - number(boat, "main.z")
        tips += number(boat, f"{part}.mass") * gravity * height * (after.trim - before.trim)
    arm = number(boat, "rig.effort_z") - number(boat, "main.z")
    return tips - (after.drag - before.drag) * arm


@pytest.mark.parametrize("speed_kn", [12.0, 16.0])
def test_weight_moved_aft_goes_to_the_rudder_foil_as_d_over_l(marram, fresh, speed_kn):
    """Everything of weight W moved d aft: the rudder foil takes W d / l more, and what tipping and drag do; 3
    %."""
    d = 0.05
    before = flying(marram, marram.row, fresh, speed_kn)
    after = flying(marram, changed(marram, {"mass.x": -d, "crew.x": -d}), fresh, speed_kn)
    weight = (number(marram, "mass.mass") + number(marram, "crew.mass")) * fresh.gravity
    between = number(marram, "main.x") - number(marram, "rudder.x")
    expected = (weight * d + tipping_and_drag(marram, fresh.gravity, before, after)) / between
    assert after.rudder_lift - before.rudder_lift == pytest.approx(expected, rel=0.03)


@pytest.mark.parametrize("speed_kn", [12.0, 16.0])
def test_a_higher_pull_takes_load_off_the_rudder_foil_as_t_z_over_l(marram, fresh, speed_kn):
    """Pull T moved up by z: T z / l less on the rudder foil, and what tipping and drag do; 3 %.

    At 150 N, 3 m over the foil and foils 2 m apart the whole term is 225 N, usually the dominant one.
    """
    up = 0.2
    before = flying(marram, marram.row, fresh, speed_kn)
    after = flying(marram, changed(marram, {"rig.effort_z": up}), fresh, speed_kn)
    between = number(marram, "main.x") - number(marram, "rudder.x")
    expected = (-after.drag * up + tipping_and_drag(marram, fresh.gravity, before, after)) / between
    assert after.rudder_lift - before.rudder_lift == pytest.approx(expected, rel=0.03)


@pytest.mark.parametrize("name", ["marram", "sedge", "pipkin"])
def test_take_off_speed_goes_with_the_root_of_mass(fresh, name):
    """All masses 10 % up or 15 % down, at the same places: within 5 %."""
    boat = demo_boat(name)
    usual = take_off_speed(boat.row, boat.tables, fresh)
    assert usual is not None
    for factor in (1.10, 0.85):
        row = boat.row.copy()
        for part in ("mass.mass", "crew.mass"):
            row[boat.names.index(part)] *= factor
        speed = take_off_speed(row, boat.tables, fresh)
        assert speed is not None
        compare(f"{boat.name}: take-off speed, mass x {factor:g}", round(sqrt(factor), 4), speed / usual,
                percent(5.0), "of usual", TAKE_OFF)  # fmt: skip


@pytest.mark.parametrize("name", ["marram", "sedge", "pipkin"])
def test_take_off_speed_goes_with_the_root_of_area(fresh, name):
    """Both foils 10 % larger or 15 % smaller, spans with the root of it (same aspect ratio): within 5 %."""
    boat = demo_boat(name)
    usual = take_off_speed(boat.row, boat.tables, fresh)
    assert usual is not None
    for factor in (1.10, 0.85):
        row = boat.row.copy()
        for foil in ("main", "rudder"):
            row[boat.names.index(f"{foil}.area")] *= factor
            row[boat.names.index(f"{foil}.span")] *= sqrt(factor)
        speed = take_off_speed(row, boat.tables, fresh)
        assert speed is not None
        compare(f"{boat.name}: take-off speed, foil areas x {factor:g}", round(1.0 / sqrt(factor), 4),
                speed / usual, percent(5.0), "of usual", TAKE_OFF)  # fmt: skip


def test_weight_ahead_of_the_neutral_point_is_stable(marram, fresh):
    """At fixed foil angle and height a boat pitches back where its weight lies ahead of the foils' neutral
    point."""
    state = flying(marram, marram.row, fresh, 14.0)
    assert state.stable
    slopes = {"main": 4.4, "rudder": 4.0 * 0.75}  # per radian; the rudder foil in the main foil's wash
    k = {foil: slope * number(marram, f"{foil}.area") for foil, slope in slopes.items()}
    neutral = sum(k[foil] * number(marram, f"{foil}.x") for foil in k) / sum(k.values())
    weights = {part: number(marram, f"{part}.mass") for part in ("mass", "crew")}
    centre = sum(m * number(marram, f"{part}.x") for part, m in weights.items()) / sum(weights.values())
    assert centre > neutral
    assert len(ITEMS) == len(state.loads)
    assert pytest.approx(state.speed) == 14.0 * KN
