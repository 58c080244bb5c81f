"""Wind as people tell it: how it was measured, what that is at 10 m, and what the hand gauge would read.

Both figures are shown wherever a wind is shown: 10 kn on the hand gauge is 12 kn in a forecast.
"""

from typing import Literal, NamedTuple, get_args

from foilwright.air.wind import (
    HAND_HEIGHT,
    INLAND_ROUGHNESS,
    OPEN_ROUGHNESS,
    at_height,
    at_ten,
    share_at_height,
)
from foilwright.mistakes import Mistake
from foilwright.units import from_si, plain

How = Literal["hand gauge", "mast", "forecast"]
HOWS: tuple[How, ...] = get_args(How)
HEIGHTS_M: dict[str, float] = {"hand gauge": HAND_HEIGHT, "mast": 6.0, "forecast": 10.0}
"""Where each way of measuring has it, unless told otherwise [m]."""
READING_ERROR: dict[str, float] = {"hand gauge": 0.07, "mast": 0.05, "forecast": 0.0}
"""Standard error of a reading over it: gauge, bobbing, minutes of averaging; common practice, no source. A
forecast's doubt is its own spread, which it has to state."""
ROUGHEST = 1.0e-3  # roughness length of short steep chop [m]
LAYERING = 0.05  # what warm or cold air may do between 10 m and 2 m, share of the wind; common practice
LOWEST_M, HIGHEST_M = 0.5, 100.0


class ToldWind(NamedTuple):
    """One wind, both ways, in m/s."""

    at_ten: float  # mean wind at 10 m
    at_ten_se: float  # its standard error
    at_hand: float  # the same wind at the sailor's hand gauge
    hand_height: float  # [m]


def told_wind(
    speed: float,
    how: str,
    height_m: float | None = None,
    hand_height_m: float | None = None,
    roughness: float = INLAND_ROUGHNESS,
    where: str = "--measured",
) -> ToldWind:
    """A wind [m/s] as it was measured, at 10 m and at the hand gauge.

    how: hand gauge, mast or forecast; height_m of what measured it; hand_height_m of the gauge to compare
    with: 2 m unless told, and the measuring gauge itself where that is the hand gauge.
    """
    if how not in HEIGHTS_M:
        raise Mistake(where, f"`{how}`", ", ".join(HOWS), "Say how the wind was measured.")
    height = HEIGHTS_M[how] if height_m is None else height_m
    if hand_height_m is None:
        hand_height_m = height if how == "hand gauge" else HAND_HEIGHT
    for metres in (height, hand_height_m):
        if not LOWEST_M <= metres <= HIGHEST_M:
            raise Mistake(
                where,
                f"a height of {plain(metres)} m",
                f"{plain(LOWEST_M)} to {plain(HIGHEST_M)} m above the water",
                "Give the height of the gauge above the water, in metres.",
            )
    wind = at_ten(speed, height, roughness)
    error = wind * (READING_ERROR[how] ** 2 + profile_error(height) ** 2) ** 0.5
    return ToldWind(wind, error, at_height(wind, hand_height_m, roughness), hand_height_m)


def profile_error(height_m: float) -> float:
    """Standard error of the step from this height to 10 m, over the wind [-].

    Half the difference between open water and steep chop, and the layering of warm over cold air or cold over
    warm, which grows with the step; nothing at 10 m.
    """
    rough = 0.5 * abs(share_at_height(height_m, OPEN_ROUGHNESS) - share_at_height(height_m, ROUGHEST))
    step = abs(1.0 - share_at_height(height_m, INLAND_ROUGHNESS))
    layered = LAYERING * step / (1.0 - share_at_height(HAND_HEIGHT, INLAND_ROUGHNESS))
    return float((rough * rough + layered * layered) ** 0.5)


def both_ways(wind: ToldWind) -> str:
    """The two figures in words: "12 kn at 10 m (10 kn on a hand gauge at 2 m)"."""
    ten, hand = (plain(round(from_si(speed, "kn"))) for speed in (wind.at_ten, wind.at_hand))
    return f"{ten} kn at 10 m ({hand} kn on a hand gauge at {plain(wind.hand_height)} m)"


class Force(NamedTuple):
    """One force of the Beaufort scale, mean wind at 10 m in whole knots."""

    number: int
    least_kn: int
    most_kn: int
    name: str


BEAUFORT: tuple[Force, ...] = (
    Force(0, 0, 0, "calm"),
    Force(1, 1, 3, "light air"),
    Force(2, 4, 6, "light breeze"),
    Force(3, 7, 10, "gentle breeze"),
    Force(4, 11, 16, "moderate breeze"),
    Force(5, 17, 21, "fresh breeze"),
    Force(6, 22, 27, "strong breeze"),
    Force(7, 28, 33, "near gale"),
    Force(8, 34, 40, "gale"),
    Force(9, 41, 47, "strong gale"),
    Force(10, 48, 55, "storm"),
    Force(11, 56, 63, "violent storm"),
    Force(12, 64, 999, "hurricane"),
)


def force_of(wind: float) -> Force:
    """The Beaufort force of a mean wind at 10 m [m/s], by the knots that are shown.

    The scale's limits in m/s and in knots are two tables: at 16 and 21 kn they differ by a force.
    """
    knots = round(from_si(max(wind, 0.0), "kn"))
    return next(force for force in BEAUFORT if knots <= force.most_kn)
