"""Derivatives of the balance: by dual numbers through the same text, against differences and against
slopes_at.
"""

from __future__ import annotations

from math import isfinite, radians
from typing import Any

import numpy as np
import pytest

from foilwright.compiled import plain
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.at_speed import case_of, nearby, scratch
from foilwright.flight.boat import boat_from, scratch_shapes
from foilwright.flight.loads import N_ITEMS
from foilwright.flight.state import still
from foilwright.flight.trim_at_speed import Case, balance, slopes_at
from foilwright.measures import Floats
from foilwright.water.properties import Water
from tests.demo_boats import BOATS, KN, demo_boat, flying
from tests.laws.dual import Dual, dual_array, for_duals, slope_of, value_of

DONE: dict[Any, Any] = {}
DUAL_BALANCE = for_duals(balance, DONE)
DUAL_BOAT = for_duals(boat_from, DONE)

# Speed [kn], height [m], trim [deg], heel [deg]: afloat, awash, flying, heeled, high and low.
PLACES = [
    (4.0, -0.117, 1.0, 0.0),
    (8.0, -0.02, 3.0, 0.0),
    (9.0, 0.12, 4.0, -5.0),
    (12.0, 0.45, 1.0, 0.0),
    (12.0, 0.45, 1.0, -15.0),
    (18.0, 0.55, -1.0, 10.0),
    (14.0, 0.75, 0.0, 0.0),
]


def dual_case(
    boat: ReadyBoat, water: Water, speed: float, heel: float, instead: dict[str, Any] | None = None
) -> Case:
    """The boat with dual numbers in place of some numbers of its row."""
    row = dual_array(len(boat.row))
    row[:] = [float(number) for number in boat.row]
    for name, value in (instead or {}).items():
        row[boat.names.index(name)] = value
    links, drawn = (dual_array(shape) for shape in scratch_shapes(len(row)))
    unpacked = DUAL_BOAT(row, links, drawn)
    return Case(unpacked, plain(boat.tables), plain(water), still(), speed, heel, 1.0)


def dual_balance(case: Case, height: Any, trim: Any) -> tuple[Any, Any]:
    lift, pitch = DUAL_BALANCE(case, height, trim, dual_array((N_ITEMS, 6)))
    return lift, pitch


@pytest.mark.parametrize("name", BOATS)
def test_same_text_same_values(fresh, name):
    """Fed with plain numbers, the copy for dual numbers gives the very same balance."""
    boat = demo_boat(name)
    for speed_kn, height, trim_deg, heel_deg in PLACES:
        speed, trim, heel = speed_kn * KN, radians(trim_deg), radians(heel_deg)
        case = case_of(boat.row, boat.tables, fresh, speed, heel)
        here = balance(case, height, trim, plain(scratch().items))
        there = dual_balance(dual_case(boat, fresh, speed, heel), Dual(height), Dual(trim))
        assert tuple(value_of(part) for part in there) == pytest.approx(here, abs=1e-13)


@pytest.mark.parametrize("name", BOATS)
def test_slopes_of_the_balance_with_height_and_trim(fresh, name):
    """Dual numbers against central differences, and against the solver's own forward differences."""
    boat = demo_boat(name)
    step = 1e-5  # the foil angle settles to 1e-10 rad, which a smaller step would magnify
    for speed_kn, height, trim_deg, heel_deg in PLACES:
        speed, trim, heel = speed_kn * KN, radians(trim_deg), radians(heel_deg)
        case = case_of(boat.row, boat.tables, fresh, speed, heel)
        duals = dual_case(boat, fresh, speed, heel)
        items = plain(scratch().items)
        lift, pitch = balance(case, height, trim, items)
        own = slopes_at(case, height, trim, lift, pitch, items)
        exact = []
        for with_height, with_trim in ((1.0, 0.0), (0.0, 1.0)):
            by_dual = dual_balance(duals, Dual(height, with_height), Dual(trim, with_trim))
            up = balance(case, height + step * with_height, trim + step * with_trim, items)
            down = balance(case, height - step * with_height, trim - step * with_trim, items)
            for dual, high, low in zip(by_dual, up, down, strict=True):
                assert slope_of(dual) == pytest.approx((high - low) / (2.0 * step), rel=2e-6, abs=2e-7)
                exact.append(slope_of(dual))
        assert [own.lift_by_height, own.pitch_by_height, own.lift_by_trim, own.pitch_by_trim] == (
            pytest.approx(exact, rel=1e-3, abs=1e-3)
        )


NUMBERS = {
    "marram": (
        "links.1.rod_longer",
        "links.0.out_arm",
        "links.2.pivot_x",
        "wand.length",
        "wand.tension",
        "wand.pivot_z",
        "rudder.incidence",
        "main.incidence",
        "main.area",
        "main.span",
        "crew.x",
        "crew.mass",
        "rig.effort_z",
    ),
    "pipkin": ("links.0.in_arm", "main.pivot_share", "wand.length", "crew.x", "main.z"),
    "marram-curve": ("chain.curve_position", "wand.length", "rudder.area"),
}


@pytest.mark.parametrize("name", NUMBERS)
def test_ride_height_by_a_number_of_the_boat(fresh, name):
    """Implicit function: height and trim move by -J^-1 dF/dnumber; against solving again on either side."""
    boat = demo_boat(name)
    speed = 13.0 * KN
    state = flying(boat, boat.row, fresh, 13.0)
    duals = dual_case(boat, fresh, speed, 0.0)
    by_height = dual_balance(duals, Dual(state.height, 1.0), Dual(state.trim))
    by_trim = dual_balance(duals, Dual(state.height), Dual(state.trim, 1.0))
    jacobian = np.array([[slope_of(by_height[i]), slope_of(by_trim[i])] for i in range(2)])
    for number in NUMBERS[name]:
        place = boat.names.index(number)
        at = float(boat.row[place])
        case = dual_case(boat, fresh, speed, 0.0, {number: Dual(at, 1.0)})
        by_number = dual_balance(case, Dual(state.height), Dual(state.trim))
        moves = -np.linalg.solve(jacobian, [slope_of(part) for part in by_number])
        step = 1e-4 * max(abs(at), 0.01)
        again: list[Floats] = []
        for side in (1.0, -1.0):
            row = boat.row.copy()
            row[place] += side * step
            solved = nearby(row, boat.tables, fresh, speed, 0.0, state.height, state.trim)
            assert solved is not None
            again.append(np.array(solved[:2]))
        stepped = (again[0] - again[1]) / (2.0 * step)
        assert moves == pytest.approx(stepped, rel=2e-4, abs=1e-6), number
        assert all(isfinite(move) for move in moves)
        assert np.abs(moves).max() > 0.0, f"{number} does nothing"
