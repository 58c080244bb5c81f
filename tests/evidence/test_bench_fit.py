"""The fit of a bench sheet on cases small enough to work out by hand."""

from __future__ import annotations

from math import degrees, radians

import numpy as np
import pytest

from foilwright.documents.bench_boat import Bench, bench_of
from foilwright.documents.bench_sheet import sheet_from_text
from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ready
from foilwright.documents.examples import example
from foilwright.evidence.bench_angles import held_foil
from foilwright.evidence.bench_fit import fit, needed_error
from foilwright.evidence.bench_model import expected
from foilwright.evidence.bench_pairs import Odd, odd_pairs, other_wands

HEAD = """format,foilwright/bench
version,1
boat,Marram
level_error_deg,0.3
bow_lift_x_m,3.0
stern_lift_x_m,0.0
what,at,way,wand_deg,travel,settings,load_n,reading
"""


def bench(lines: str, boat: str = "marram") -> Bench:
    return bench_of(ready(read_boat(example(boat))), sheet_from_text(HEAD + lines, "s.csv"))


def found(bench: Bench, name: str) -> tuple[float, float]:
    """Fitted value and standard error of one thing, in its unit."""
    result = fit(bench.model, bench.readings)
    k = [thing.name for thing in bench.unsure].index(name)
    thing = bench.unsure[k]
    return (
        thing.before + float(result.parameters[k]) * thing.error,
        float(result.standard_errors[k]) * thing.error,
    )


def test_a_chord_read_both_ways_round_frees_it_from_the_levels_zero() -> None:
    """Level 0.4 deg off, boat 1 deg bow up, rudder chord 0.5 deg: the zero halves out, the tilt too."""
    sheet = bench(
        "level,reference,one,,,,,1.4\nlevel,reference,other,,,,,0.6\n"
        "level,rudder-foil,one,,,,,1.9\nlevel,rudder-foil,other,,,,,1.1\n"
    )
    value, error = found(sheet, "rudder.incidence_deg")
    # By hand: two differences of readings give 0.5 +- 0.3 deg, the file says 0 +- 0.3 deg: half way between.
    assert value == pytest.approx(0.25, abs=0.01)
    assert error == pytest.approx(0.3 / 2**0.5, abs=0.002)


def test_weights_at_both_ends_give_mass_and_centre() -> None:
    """Bow point 3 m ahead of the stern point: 41 kg together, centre where the shares say."""
    sheet = bench("weigh,bow,,,,,,24.6\nweigh,stern,,,,,,16.4\n")
    mass, error = found(sheet, "mass.mass_kg")
    # The file knows 40 +- 0.5 kg, two weighings 41 +- 0.71: the mean weighted by 1 / error squared.
    assert mass == pytest.approx((40.0 / 0.25 + 41.0 / 0.5) / (1 / 0.25 + 1 / 0.5), abs=0.02)
    assert error == pytest.approx((1 / 0.25 + 1 / 0.5) ** -0.5, abs=0.005)
    centre, _ = found(sheet, "mass.x_m")
    assert centre == pytest.approx(1.8, abs=0.01)


def test_pull_out_and_back_part_into_elastic_and_friction() -> None:
    """Wand hanging straight down: its weight has no moment. 15 N out, 11 N back at 0.3 m: 3.9 and 0.6 N m."""
    lines = "".join(
        f"pull,,,0,{travel},,,{newton}\n" for travel, newton in (("back", 15), ("forward", 11)) * 8
    )
    sheet = bench(lines)
    assert found(sheet, "wand.tension_n_m")[0] == pytest.approx(3.9, abs=0.03)
    assert found(sheet, "wand.friction_n_m")[0] == pytest.approx(0.6, abs=0.05)


def test_friction_holds_the_foil_back_on_either_side_of_its_play() -> None:
    play, free = radians(1.0), radians(3.0)
    back = held_foil(free, 0.3, play, 0.0, 1.0, 0.0, -1.0, 1.0)
    forward = held_foil(free, 0.3, play, 0.0, -1.0, 0.0, -1.0, 1.0)
    assert (degrees(back.foil), degrees(forward.foil)) == pytest.approx((2.5, 3.5))
    # A chain that lifts the edge as the wand goes back: the other way about.
    assert held_foil(free, -0.3, play, 0.0, 1.0, 0.0, -1.0, 1.0).foil == forward.foil
    # A weight beats the friction, whichever way the wand came, and stretches the rods.
    loaded = [held_foil(free, 0.3, play, radians(0.1), t, 3.0, -1.0, 1.0).foil for t in (-1.0, 1.0)]
    assert np.degrees(loaded) == pytest.approx([3.8, 3.8])
    # At a stop nothing moves with the wand.
    assert held_foil(free, 0.3, play, 0.0, 1.0, 0.0, -1.0, radians(2.0)) == (radians(2.0), 0.0)


def test_back_and_forward_tell_lost_motion_from_an_offset() -> None:
    """Half a degree either side of the file's curve is play; both half a degree up is an offset."""
    model = bench("".join(f"batten,,,{w},{t},,,0\n" for w in (30, 45, 60) for t in ("back", "forward")))
    middle, _ = expected(
        model.model, model.readings._replace(travel=np.zeros(6)), np.zeros((1, len(model.unsure)))
    )
    arm = 0.3 * radians(0.5)
    side = np.where(model.readings.travel > 0, -arm, arm)
    names = [thing.name for thing in model.unsure]
    zero, play = names.index("chain.foil_deg"), names.index("chain.rods: play_mm of every joint")

    played = fit(model.model, model.readings._replace(value=middle[0] + side)).parameters
    shifted = fit(model.model, model.readings._replace(value=middle[0] + arm)).parameters
    assert abs(played[zero]) < 0.05
    assert shifted[zero] > 0.3  # part of it is taken for the batten's zero, which nobody read here
    assert played[play] - shifted[play] > 0.5


def test_wand_angles_without_a_partner() -> None:
    lines = "".join(
        f"batten,,,{wand},{travel},,,0\n"
        for travel, wands in (("back", (20, 30, 45, 60)), ("forward", (60, 47, 20, 20)))
        for wand in wands
    )
    [odd] = odd_pairs(bench(lines).readings)  # 47 for 45 is the same place; 20 for 30 is not
    assert odd == Odd((1,), (6, 7))
    assert [(i, round(degrees(wand))) for i, wand in other_wands(bench(lines).readings, odd)] == [
        (1, 20), (6, 30), (7, 30),
    ]  # fmt: skip
    assert odd_pairs(bench(lines.replace(",20,forward", ",30,forward", 1)).readings) == []
    assert odd_pairs(bench("batten,,,20,back,,,0\nbatten,,,30,back,,,0\n").readings) == []


def test_compiled_and_plain_say_the_same() -> None:
    sheet = bench("".join(f"batten,,,{w},back,main-rod=2,,0\n" for w in (15, 30, 45, 60, 75)))
    candidates = np.random.default_rng(3).standard_normal((4, len(sheet.unsure)))
    for by_plain, by_compiled in zip(
        expected(sheet.model, sheet.readings, candidates),
        expected(sheet.model, sheet.readings, candidates, fast=True),
        strict=True,
    ):
        assert by_plain == pytest.approx(by_compiled, abs=1e-12)


def test_how_well_an_angle_must_be_known() -> None:
    assert degrees(needed_error(0.05 / radians(1.0), 0.010)) == pytest.approx(
        0.2
    )  # 50 mm a degree, 10 mm wanted
    assert needed_error(0.0, 0.010) == np.inf
