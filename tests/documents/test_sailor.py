"""Sailors: the examples, how far out they get, how steady they are, and what is nobody's business."""

from datetime import date
from itertools import pairwise

import pytest

from foilwright.documents.examples import examples_folder
from foilwright.documents.sailor import (
    STAGES,
    Sailor,
    band_is_old,
    place_of,
    read_sailor,
    sailor_from,
    sailor_from_data,
    together,
)
from foilwright.mistakes import Mistake, Mistakes

FILES = sorted((examples_folder() / "sailors").glob("*.toml"))
ASH = {"format": "foilwright/sailor", "version": 1, "mass_band_kg": [70, 75]}


def example(name: str) -> Sailor:
    return read_sailor(examples_folder() / "sailors" / f"{name}.toml")


def test_the_examples_are_six_of_every_stage_and_say_that_they_are_invented():
    sailors = [read_sailor(path) for path in FILES]
    assert len(sailors) == 6
    assert {sailor.stage for sailor in sailors} == set(STAGES)
    assert {sailor.build for sailor in sailors} == {"short", "middle", "tall"}
    assert all("Invented" in path.read_text(encoding="utf-8").splitlines()[0] for path in FILES)
    assert [f"{sailor.name}".lower() for sailor in sailors] == [path.stem for path in FILES]
    assert all(sailor.mass_band_kg[1] - sailor.mass_band_kg[0] <= 5.0 for sailor in sailors)


def test_the_mass_alone_is_enough():
    sailor = sailor_from_data(ASH, "ash.toml")
    assert (sailor.build, sailor.stage, sailor.fore_aft_m) == (None, None, None)
    assert sailor.hand == sailor_from_data({**ASH, "stage": "improving"}, "ash.toml").hand
    assert sailor_from_data({**ASH, "mass_band_kg": [72]}, "ash.toml").mass_kg == 72.0


@pytest.mark.parametrize("build", [None, "middle"])
def test_the_usual_sailor_sits_where_the_boat_file_says(build):
    place = place_of([Sailor(mass_band_kg=[75], build=build)], 75.0, 1.55, 0.75, 1)
    assert place == pytest.approx((1.55, 0.75))


def test_two_usual_sailors_told_together_or_one_by_one():
    whole = place_of([Sailor(mass_band_kg=[145])], 145.0, 1.75, 0.80, 2)
    pair = place_of([Sailor(mass_band_kg=[72.5]), Sailor(mass_band_kg=[72.5])], 145.0, 1.75, 0.80, 2)
    assert whole == pytest.approx(pair)
    assert whole == pytest.approx((1.75, 0.80))


def test_taller_reaches_further_and_heavier_of_one_build_too():
    outs = [
        place_of([Sailor(mass_band_kg=[75], build=build)], 75.0, 1.55, 0.75, 1).out
        for build in ("short", "middle", "tall")
    ]
    assert outs == sorted(outs)
    # A tenth of a metre of stature is worth about half of that: legs and trunk lie out along the rack.
    assert outs[2] - outs[0] == pytest.approx(0.51 * 0.12 * 1.72, abs=0.01)
    light, heavy = (place_of([Sailor(mass_band_kg=[m])], 75.0, 1.55, 0.75, 1).out for m in (60, 90))
    assert 1.45 < light < 1.55 < heavy < 1.65


def test_no_build_moves_the_reach_by_more_than_a_quarter_of_a_metre():
    child = place_of([Sailor(mass_band_kg=[25], build="short")], 90.0, 1.55, 0.75, 1)
    assert child.out == pytest.approx(1.30)


def test_a_pair_is_as_the_sum_of_its_sailors():
    rowan, teasel = example("rowan"), example("teasel")
    both = together([rowan, teasel])
    assert both.mass_kg == rowan.mass_kg + teasel.mass_kg
    assert both.stage == "settled"
    assert both.build == "middle"
    assert both.name == "Rowan and Teasel"
    assert together([example("fern"), example("tansy")]).build is None


def test_hands_grow_steadier():
    hands = [sailor_from_data({**ASH, "stage": stage}, "ash.toml").hand for stage in STAGES]
    for before, after in pairwise(hands):
        assert all(b < a for a, b in zip(before, after, strict=True))


def test_a_band_is_good_for_three_months():
    sailor = sailor_from_data({**ASH, "weighed": "2026-05-04"}, "ash.toml")
    assert not band_is_old(sailor, date(2026, 8, 4))
    assert band_is_old(sailor, date(2026, 8, 5))
    assert not band_is_old(sailor_from("75"), date(2030, 1, 1))


@pytest.mark.parametrize(
    ("line", "where"),
    [
        ({"build": "fat"}, "build"),
        ({"fore_aft_m": 3.0}, "fore_aft_m"),
        ({"weighed": "in spring"}, "weighed"),
        ({"height_cm": 172}, "height_cm"),
        ({"sex": "f"}, "sex"),
    ],
)
def test_what_a_sailor_file_may_not_say(line, where):
    with pytest.raises((Mistake, Mistakes)) as caught:
        sailor_from_data({**ASH, **line}, "ash.toml")
    assert where in str(caught.value)
