"""The heel a helm holds when nobody says otherwise: a stated habit, the same for every boat. No kernel.

Afloat the boat is sailed upright. In flight it is heeled to windward, most close to the wind, so that the
main foil carries part of the side force and the weight stands to windward: 16 degrees at 50 degrees to the
wind and 10 with the wind abeam, as flown by practised sailors in 12 kn (common practice, no source; clubs fly
5 to 12 close to the wind, learners 0 to 5). In less wind there is less to hold up, and the heel comes down
with it.
"""

from math import radians

import numpy as np

from foilwright.flight.wind_balance import Helm

FLYING_HEEL: tuple[tuple[float, float], ...] = (
    (0.0, -16.0), (50.0, -16.0), (70.0, -13.0), (90.0, -10.0), (110.0, -7.0), (130.0, -4.0), (150.0, -2.0),
    (180.0, 0.0),
)  # fmt: skip
"""True wind angle and heel in flight, to leeward positive [degrees], straight lines between."""
FLOATING_HEEL = 0.0  # [degrees]
FULL_FROM = 12.0 * 1852.0 / 3600.0  # wind from which the whole heel is held: 12 kn [m/s]
LEAST_SHARE = 0.3  # of it that is held in the lightest air
LIGHT_BELOW = 2.5  # wind up to which it is this share [m/s]


def usual_helm(wind: float, angle: float, boldness: float = 1.0) -> Helm:
    """The heel held afloat and in flight [rad] in a wind [m/s] at a true wind angle [rad].

    boldness: 1 a practised sailor; a learner heels less, 0 not at all.
    """
    at = [radians(degrees) for degrees, _ in FLYING_HEEL]
    heel = float(np.interp(abs(angle), at, [radians(degrees) for _, degrees in FLYING_HEEL]))
    share = float(np.interp(wind, [LIGHT_BELOW, FULL_FROM], [LEAST_SHARE, 1.0]))
    return Helm(radians(FLOATING_HEEL), boldness * share * heel)


def held(heel: float) -> Helm:
    """One heel [rad], afloat and in flight."""
    return Helm(heel, heel)
