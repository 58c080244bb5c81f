"""Wind: the profile near the water, and the two figures of one wind."""

from itertools import pairwise

import pytest

from foilwright.air.wind import (
    INLAND_ROUGHNESS,
    NEAR_WATER,
    at_height,
    at_ten,
    beaufort,
    charnock,
    share_at_height,
)
from foilwright.documents.wind_told import BEAUFORT, both_ways, force_of, profile_error, told_wind
from foilwright.mistakes import Mistake
from foilwright.units import from_si, to_si


@pytest.mark.parametrize("roughness", [0.0, 1e-6, 5e-4, 0.2, 3.0])
def test_wind_grows_with_height_and_is_sane_everywhere(roughness):
    shares = [share_at_height(0.05 * i, roughness) for i in range(-20, 300)]
    assert all(before <= after for before, after in pairwise(shares))
    assert 0.0 < shares[0] < 1.0 < shares[-1]
    assert share_at_height(10.0, roughness) == pytest.approx(1.0)


def test_near_the_water_value_and_slope_go_on():
    step = 1e-6
    below, at, above = (share_at_height(NEAR_WATER + d, 5e-4) for d in (-step, 0.0, step))
    assert (at - below) / step == pytest.approx((above - at) / step, rel=1e-4)
    assert share_at_height(0.0, 5e-4) == share_at_height(-0.3, 5e-4)
    # flat at the water
    assert share_at_height(step, 5e-4) - share_at_height(0.0, 5e-4) < 1e-10


@pytest.mark.parametrize("height", [0.5, 2.0, 6.0, 10.0, 30.0])
def test_there_and_back(height):
    assert at_height(at_ten(7.0, height, 3e-4), height, 3e-4) == pytest.approx(7.0)


def test_charnock_has_settled():
    for wind in (0.0, 0.5, 3.0, 15.0, 30.0):
        sea = charnock(wind, 0.018)
        again = 0.018 * sea.friction_velocity**2 / 9.80665 + 0.11 * 1.5e-5 / sea.friction_velocity
        assert sea.roughness == pytest.approx(again, rel=1e-9)


def test_beaufort_of_nothing_and_of_much():
    assert beaufort(-1.0) == beaufort(0.0) == 0
    assert beaufort(60.0) == 9
    assert force_of(0.0).name == "calm"
    assert force_of(60.0).name == "hurricane"
    assert all(a.most_kn + 1 == b.least_kn for a, b in pairwise(BEAUFORT))


def test_how_the_wind_was_measured():
    knots = to_si(12.0, "kn")
    forecast = told_wind(knots, "forecast")
    assert forecast.at_ten == pytest.approx(knots)
    assert from_si(forecast.at_hand, "kn") == pytest.approx(10.0, abs=0.1)
    assert forecast.at_ten_se == 0.0
    hand = told_wind(forecast.at_hand, "hand gauge")
    assert hand.at_ten == pytest.approx(knots)
    mast = told_wind(at_height(knots, 4.0, INLAND_ROUGHNESS), "mast", 4.0)
    assert mast.at_ten == pytest.approx(knots)
    assert 0.0 < mast.at_ten_se < hand.at_ten_se < 0.12 * hand.at_ten


def test_a_gauge_at_another_height():
    low, high = (told_wind(5.0, "hand gauge", height) for height in (1.5, 3.0))
    assert low.at_ten > told_wind(5.0, "hand gauge").at_ten > high.at_ten
    # what it is compared with is the gauge itself
    assert low.at_hand == pytest.approx(5.0)
    assert told_wind(5.0, "mast", 6.0, 1.5).hand_height == 1.5


def test_the_doubt_covers_what_gauges_read():
    """0.83 to 0.85 of a forecast, common practice: within one standard error of ours either way."""
    share = share_at_height(2.0, INLAND_ROUGHNESS)
    for reads in (0.83, 0.85):
        assert abs(reads / share - 1.0) < profile_error(2.0) < 0.07
    assert profile_error(10.0) == pytest.approx(0.0, abs=1e-12)


def test_both_figures_in_words():
    assert both_ways(told_wind(to_si(10.0, "kn"), "hand gauge")) == (
        "12 kn at 10 m (10 kn on a hand gauge at 2 m)"
    )


@pytest.mark.parametrize(("how", "height"), [("guess", None), ("mast", 0.1), ("mast", 500.0)])
def test_what_no_gauge_is(how, height):
    with pytest.raises(Mistake) as caught:
        told_wind(5.0, how, height)
    assert caught.value.where == "--measured"
