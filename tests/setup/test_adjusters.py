"""Adjusters: what a step changes, between steps, out of range, unknown names, rods kept or re-made."""

from __future__ import annotations

from math import cos, degrees, hypot, radians, sin

import numpy as np
import pytest

from foilwright.documents.boat_file import boat_from_text, read_boat
from foilwright.documents.boat_numbers import ready
from foilwright.documents.examples import example
from foilwright.flight.boat import boat_from, scratch_shapes
from foilwright.linkage.chain import turn_chain
from foilwright.mistakes import Mistake
from foilwright.setup.adjusters import Adjuster, adjuster_named, change_at, turned

MARRAM = ready(read_boat(example("marram")))


def number(row: np.ndarray, name: str) -> float:
    return float(row[MARRAM.names.index(name)])


@pytest.mark.parametrize(
    ("adjuster", "name", "per_step"),
    [
        ("main-rod", "links.1.rod_longer", 0.001),
        ("wand-length", "wand.length", 0.030),
        ("gearing", "links.0.out_arm", 0.004),
        ("rudder-rake", "rudder.incidence", radians(0.5)),
        ("wand-tension", "wand.tension", 0.5),
        ("sailor-aft", "crew.x", -0.1),
    ],
)
def test_one_step_of_each_adjuster_of_marram(adjuster: str, name: str, per_step: float) -> None:
    for steps in (-3.0, -1.0, 0.5, 3.0):
        row = turned(MARRAM.row, MARRAM.adjusters, {adjuster: steps})
        assert number(row, name) - number(MARRAM.row, name) == pytest.approx(steps * per_step, abs=1e-12)
        others = [i for i, n in enumerate(MARRAM.names) if n != name]
        assert np.abs(row[others] - MARRAM.row[others]).max() < 1e-15, "the drawing position is kept"


def test_the_row_at_the_mark_is_left_alone_and_changes_add_up() -> None:
    before = MARRAM.row.copy()
    both = turned(MARRAM.row, MARRAM.adjusters, {"main-rod": 2.0, "wand-length": -1.0})
    one = turned(MARRAM.row, MARRAM.adjusters, {"main-rod": 2.0})
    assert both == pytest.approx(turned(one, MARRAM.adjusters, {"wand-length": -1.0}))
    assert (MARRAM.row == before).all()
    assert (turned(MARRAM.row, MARRAM.adjusters, {}) == before).all()


def test_straight_between_uneven_holes() -> None:
    adjuster = Adjuster(
        "holes", (0, 2), np.array([-1.0, 0.0, 2.0]), np.array([[-1.0, 3.0], [0.0, 0.0], [4.0, 1.0]])
    )
    assert change_at(adjuster, 1.0) == pytest.approx([2.0, 0.5])
    assert change_at(adjuster, -0.5) == pytest.approx([-0.5, 1.5])
    assert change_at(adjuster, 2.0) == pytest.approx([4.0, 1.0])
    assert change_at(adjuster, 2.5) == pytest.approx([5.0, 1.25])  # carried on, for slopes at the ends
    assert turned(np.array([1.0, 1.0, 1.0]), [adjuster], {"holes": 2.0}) == pytest.approx([5.0, 1.0, 2.0])


def test_an_unknown_adjuster_is_told_with_the_nearest() -> None:
    with pytest.raises(Mistake) as caught:
        turned(MARRAM.row, MARRAM.adjusters, {"main_rodd": 1.0})
    assert "main-rod" in caught.value.mend and "rudder-rake" in caught.value.allowed
    with pytest.raises(Mistake, match="no adjusters"):
        adjuster_named([], "main-rod")


@pytest.mark.parametrize("steps", [8.5, -9.0, float("nan"), float("inf")])
def test_out_of_range(steps: float) -> None:
    with pytest.raises(Mistake) as caught:
        turned(MARRAM.row, MARRAM.adjusters, {"main-rod": steps})
    assert "-8 to +8 steps" in caught.value.allowed


def test_holes_whose_rods_are_kept_move_the_foil_in_the_drawing() -> None:
    """With the same rods the lever's longer arm turns the bell crank, by the closure of the loop alone."""
    text = example("marram").read_text(encoding="utf-8").replace('rods = "re-made"', 'rods = "kept"')
    kept = ready(boat_from_text(text, "m.toml"))
    gearing = next(a for a in kept.adjusters if a.name == "gearing")
    assert {kept.names[i] for i in gearing.numbers} == {"links.0.out_arm", "links.1.rod_longer"}
    for step in (-3.0, 2.0):
        row = turned(kept.row, kept.adjusters, {"gearing": step})
        links, drawn = (np.zeros(shape) for shape in scratch_shapes(len(row)))
        boat_from(row, links, drawn)
        length = kept.numbers["chain.rods.main-rod.length_m"]
        assert drawn[1, 9] == pytest.approx(length, abs=1e-12), "the main rod is as long as it was"
        turn = turn_chain(drawn, links, 0.0).turn
        # The bell crank's angle from the loop: lever tip (2.9, 0.32 - arm), in-arm 0.045 about (1.95, 0.24).
        arm = 0.040 + 0.004 * step
        angles = np.linspace(radians(60), radians(120), 200_001)
        gap = (
            np.hypot(1.95 + 0.045 * np.cos(angles) - 2.9, 0.24 + 0.045 * np.sin(angles) - 0.32 + arm) - length
        )
        bell = float(angles[np.abs(gap).argmin()])
        # and the horn's from the next: bell-crank tip, strut rod as drawn, horn 0.028 about (1.886, -1.02).
        tip = (1.95 + 0.022 * cos(bell + radians(90)), 0.24 + 0.022 * sin(bell + radians(90)))
        rod = hypot(1.886 - 0.028 - (1.95 - 0.022), -1.02 - 0.24)
        horns = np.linspace(radians(150), radians(210), 200_001)
        gap = np.hypot(1.886 + 0.028 * np.cos(horns) - tip[0], -1.02 + 0.028 * np.sin(horns) - tip[1]) - rod
        assert degrees(turn) == pytest.approx(degrees(float(horns[np.abs(gap).argmin()])) - 180.0, abs=0.002)


def test_a_curve_is_turned_along_its_positions() -> None:
    curve = ready(read_boat(example("marram-curve")))
    row = turned(curve.row, curve.adjusters, {"main-rod": 2.0})
    changed = {name for name, a, b in zip(curve.names, curve.row, row, strict=True) if a != b}
    assert changed == {"chain.curve_position"}
    assert row[curve.names.index("chain.curve_position")] == 2.0


def test_present_is_where_the_adjusters_stand() -> None:
    text = (
        example("marram")
        .read_text(encoding="utf-8")
        .replace("greatest = 8\n", "greatest = 8\npresent = -2.0\n")
    )
    boat = ready(boat_from_text(text, "m.toml"))
    assert boat.present["main-rod"] == -2.0
    assert boat.row == pytest.approx(MARRAM.row), "the row stands at the marks"
