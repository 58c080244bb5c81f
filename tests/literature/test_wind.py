"""Wind over water: profile with height, roughness of the sea, Beaufort's scale.

Logarithmic wall law and Charnock's relation with the smooth term, closed form and fixed point, neutral air
(Charnock 1955; Smith 1988). The power law stands beside it: 1/7 is the classic exponent over land, 0.10 to
0.11 that over water (from memory). Beaufort's limits in m/s and in knots are public weather pages'; his mean
winds 0.836 B^1.5 from memory. Tolerances: profile to the last figure printed; Charnock 1 %;
the two laws against each other 2 %.
"""

import pytest

from foilwright.air.wind import CHARNOCK, beaufort, beaufort_wind, charnock, share_at_height
from foilwright.documents.wind_told import BEAUFORT, force_of, told_wind
from foilwright.units import from_si, to_si
from tests.literature.published import (
    CLOSED_FORM,
    MEMORY_SURE,
    PRACTICE,
    READ,
    Source,
    between,
    compare,
    missed,
    percent,
)

TOPIC = "Wind"
LOG = Source(TOPIC, "Logarithmic profile, wind over that at 10 m", CLOSED_FORM)
POWER = Source(TOPIC, "Power law (z/10)^p, classic and over water", MEMORY_SURE)
FIXED = Source(TOPIC, "Charnock 1955 with smooth term, a 0.0144, ν 1.5e-5 m²/s, fixed point", CLOSED_FORM)
SCALE = Source(TOPIC, "The Beaufort wind scale, public weather page: limits in m/s", READ)
KNOTS = Source(TOPIC, "The same and a ship inspection page: limits in knots", READ)
MEANS = Source(TOPIC, "Beaufort's mean winds, 0.836 B^1.5", MEMORY_SURE)
GAUGE = Source(TOPIC, "A hand gauge held up at 2 m over a forecast", PRACTICE)

ROUGH = (2e-4, 1e-3, 5e-3, 0.03)
PROFILE = [
    (1.0, (0.7872, 0.7500, 0.6971, 0.6036), (0.7197, 0.7943, 0.7762)),
    (2.0, (0.8513, 0.8253, 0.7883, 0.7229), (0.7946, 0.8513, 0.8377)),
    (3.0, (0.8887, 0.8693, 0.8416, 0.7927), (0.8420, 0.8866, 0.8760)),
    (5.0, (0.9359, 0.9247, 0.9088, 0.8807), (0.9057, 0.9330, 0.9266)),
]


@pytest.mark.parametrize(("height", "shares", "powers"), PROFILE)
def test_profile(height, shares, powers):
    for roughness, share in zip(ROUGH, shares, strict=True):
        ours = share_at_height(height, roughness)
        compare(f"{height:g} m, roughness {roughness:g} m", share, ours, 5e-5, "", LOG)
    for exponent, power in zip((1.0 / 7.0, 0.10, 0.11), powers, strict=True):
        name = f"{height:g} m: power {exponent:.3g} itself"
        compare(name, power, (height / 10.0) ** exponent, 5e-5, "", POWER, referee=True)
    # Water of roughness 2e-4 to 5e-4 m is what the exponents over water were fitted to.
    ours = share_at_height(height, 2e-4)
    compare(f"{height:g} m: exponent 0.10, ours at 2e-4 m", powers[1], ours, percent(2.0), "", POWER)
    ours = share_at_height(height, 5e-4)
    compare(f"{height:g} m: exponent 0.11, ours at 5e-4 m", powers[2], ours, percent(2.0), "", POWER)


@pytest.mark.parametrize(
    ("wind", "friction", "roughness", "drag"),
    [
        (5.0, 0.1637, 4.94e-5, 1.07e-3),
        (8.0, 0.2832, 1.24e-4, 1.25e-3),
        (10.0, 0.3708, 2.06e-4, 1.37e-3),
        (12.0, 0.4637, 3.19e-4, 1.49e-3),
    ],
)
def test_charnock(wind, friction, roughness, drag):
    sea = charnock(wind, CHARNOCK)
    compare(f"{wind:g} m/s: friction velocity", friction, sea.friction_velocity, percent(1.0), "m/s", FIXED)
    compare(f"{wind:g} m/s: roughness", roughness, sea.roughness, percent(1.0), "m", FIXED)
    compare(f"{wind:g} m/s: drag coefficient", drag, sea.drag_coefficient, percent(1.0), "", FIXED)


METRES = [(0, 0.2), (0.3, 1.5), (1.6, 3.3), (3.4, 5.4), (5.5, 7.9), (8.0, 10.7), (10.8, 13.8), (13.9, 17.1),
          (17.2, 20.7)]  # fmt: skip
IN_KNOTS = [(0, 0), (1, 3), (4, 6), (7, 10), (11, 16), (17, 21), (22, 27), (28, 33), (34, 40)]
NAMES = (
    "calm",
    "light air",
    "light breeze",
    "gentle breeze",
    "moderate breeze",
    "fresh breeze",
    "strong breeze",
    "near gale",
    "gale",
)


@pytest.mark.parametrize("force", range(9))
def test_beaufort_limits(force):
    for metres in METRES[force]:
        compare(f"{metres:g} m/s", force, beaufort(metres), 0.01, "force", SCALE)
    for knots in dict.fromkeys(IN_KNOTS[force]):
        compare(f"{knots} kn", force, force_of(to_si(knots, "kn")).number, 0.01, "force", KNOTS)
    assert BEAUFORT[force].name == NAMES[force]


@pytest.mark.parametrize(
    ("force", "wind"),
    [(1, 0.84), (2, 2.36), (3, 4.34), (4, 6.69), (5, 9.35), (6, 12.29), (7, 15.48), (8, 18.92)],
)
def test_beaufort_means(force, wind):
    compare(f"force {force}: mean wind", wind, beaufort_wind(force), 0.005, "m/s", MEANS)
    assert beaufort(wind) == force


@pytest.mark.parametrize("knots", [16, 21])
def test_the_two_tables_of_beaufort_differ(knots):
    reason = "the scale's limits in knots and in m/s are two tables; a wind shown in knots goes by knots"
    force = force_of(to_si(knots, "kn")).number
    missed(f"{knots} kn by its m/s", force, beaufort(to_si(knots, "kn")), 0.5, 1.0, reason, "force", SCALE)


def test_hand_gauge_against_a_forecast():
    between("2 m over 10 m, roughness as assumed", 0.83, 0.85, share_at_height(2.0, 5e-4), "", GAUGE)
    ten = from_si(told_wind(to_si(10.0, "kn"), "hand gauge").at_ten, "kn")
    compare("10 kn on the hand gauge", 12.0, ten, 0.3, "kn", GAUGE)
