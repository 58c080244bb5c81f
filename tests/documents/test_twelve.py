"""A boat from twelve numbers: which they are, any straight reference, how far off it flies."""

from __future__ import annotations

from math import cos, radians, tan

import pytest

from foilwright.documents.boat_file import boat_from_text, read_boat
from foilwright.documents.boat_numbers import ready
from foilwright.documents.examples import example
from foilwright.documents.twelve import EXTRA, TWELVE, twelve_boat
from foilwright.flight.at_speed import fly_at
from foilwright.jobs.how_sure import Flying, how_sure
from foilwright.mistakes import Mistake, Mistakes
from foilwright.units import to_si
from foilwright.water.properties import water_at

NUMBERS = {
    "wand_length_m": 1.12,
    "pivot_height_m": 0.32,
    "pivot_to_strut_m": 1.5,
    "foil_at_wand_20_deg": -4.9,
    "foil_at_wand_45_deg": 2.5,
    "foil_at_wand_70_deg": 9.9,
    "foil_change_deg": 3.0,
    "main_chord_deg": 1.0,
    "rudder_chord_deg": 0.0,
    "strut_length_m": 1.025,
    "strut_spacing_m": 2.3,
    "main_foil_area_m2": 0.105,
}


def made(**changes: float) -> str:
    return twelve_boat("Twelve", "narrow", "flap", {**NUMBERS, **changes})


def test_there_are_twelve_and_each_lands_in_the_file() -> None:
    assert len(TWELVE) == 12 and set(NUMBERS) == {key.name for key in TWELVE}
    boat = ready(boat_from_text(made(), "t.toml"))
    for key in (*TWELVE, *EXTRA):
        if "chain.curve" not in key.path:
            wanted = NUMBERS.get(key.name, boat.numbers[key.path])
            assert boat.numbers[key.path] == pytest.approx(wanted), key.name
    assert boat.numbers["main_foil.below_keel_m"] == pytest.approx(
        1.025 - boat.numbers["main_foil.strut_top_m"]
    )
    assert boat.numbers["main_foil.span_m"] == pytest.approx((9.0 * 0.105) ** 0.5, abs=1e-4)
    assert "main_foil.below_keel_m" not in {one.name for one in boat.assumed}
    assert [adjuster.name for adjuster in boat.adjusters] == ["main-rod"]


@pytest.mark.parametrize("name", NUMBERS)
def test_each_is_asked_for_by_name(name: str) -> None:
    fewer = {key: value for key, value in NUMBERS.items() if key != name}
    if name == "foil_change_deg":  # a rod of fixed length cannot be turned
        assert ready(boat_from_text(twelve_boat("T", "narrow", "flap", fewer), "t.toml")).adjusters == ()
        return
    with pytest.raises(Mistakes, match=name):
        twelve_boat("T", "narrow", "flap", fewer)


def test_one_that_is_none_of_the_twelve_is_refused() -> None:
    with pytest.raises(Mistakes, match="none of the twelve"):
        made(sail_area_m2=7.0)


def test_any_straight_reference_gives_the_same_boat() -> None:
    """Against the deck edge: 0.35 m over the keel line at the strut, its bow end 2 deg higher."""
    up = radians(2.0)
    at_pivot = 0.35 + 1.5 * tan(up)
    deck = made(
        keel_line_deg=2.0,
        above_keel_m=0.35,
        pivot_height_m=(0.32 - at_pivot) * cos(up),  # below the line: negative
        main_chord_deg=1.0 - 2.0,
        rudder_chord_deg=0.0 - 2.0,
    ).replace("[20.0, 45.0, 70.0]", "[22.0, 47.0, 72.0]")
    a, b = (ready(boat_from_text(text, "t.toml")) for text in (made(), deck))
    stops = [i for i, name in enumerate(a.names) if name in ("wand.forward_stop", "wand.aft_stop")]
    rest = [
        i for i in range(len(a.row)) if i not in stops
    ]  # assumed stops are read from the reference as well
    assert b.row[rest] == pytest.approx(a.row[rest], abs=2e-5)


@pytest.mark.parametrize("line", ["strut_m = 1.025", "above_reference_m = 0.32"])
def test_a_height_is_given_once(line: str) -> None:
    both = made().replace(
        line, f"{line}\nbelow_keel_m = 1.0" if "strut" in line else f"{line}\npivot_z_m = 0.3"
    )
    with pytest.raises((Mistake, Mistakes), match="Take one of them out"):
        boat_from_text(both, "t.toml")


def test_marram_from_twelve_numbers_flies_within_its_stated_band_of_marram() -> None:
    """Its band is two standard errors of all that was assumed and measured, at 10 to 20 kn."""
    whole, twelve = (ready(read_boat(example(name))) for name in ("marram", "marram-twelve"))
    water = water_at(15.0, 0.0, 15.0)
    for knots in (10.0, 12.0, 14.0, 17.0, 20.0):
        speed = to_si(knots, "kn")
        [a], [b] = (fly_at(boat.row, boat.tables, water, speed) for boat in (whole, twelve))
        band = 2.0 * how_sure(Flying(twelve, twelve.row, water, b)).height
        assert (a.state, b.state) == ("flying", "flying")
        assert abs(b.height - a.height) < band
        assert 0.1 < band < 0.7  # a hand's width or three: what was not measured costs that much
