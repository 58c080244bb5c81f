"""Ride height and bow angle from the stripes of tape that show on the two struts.

Geometry alone, for a boat seen from abeam on flat water: what shows of a strut between hull and water is
(h + a sin t) / cos t + z, with h the ride height at the main strut, a how far the strut stands ahead of the
main strut, t the trim and z the height of the strut's upper end over the keel line; heel divides it by its
cosine. Two struts, two unknowns. A count is good to half a stripe either way, all places in between equally
likely: standard error 1 / sqrt(12) of a stripe (the uniform distribution).
"""

from math import atan, cos, sqrt
from typing import NamedTuple

UNIFORM = 1.0 / sqrt(12.0)


class Struts(NamedTuple):
    """Where the struts stand. [m]

    spacing             main strut ahead of the rudder strut
    main_top, rudder_top  where each leaves the hull, over the keel line
    stripe              from stripe to stripe
    """

    spacing: float
    main_top: float
    rudder_top: float
    stripe: float


class Seen(NamedTuple):
    """Ride height [m] and trim [rad] as the stripes tell, each with one standard error."""

    height: float
    height_error: float
    trim: float
    trim_error: float


def seen_from_stripes(main_count: float, rudder_count: float, struts: Struts, heel: float = 0.0) -> Seen:
    """Ride height and trim from the stripes showing at main and rudder strut, at a heel [rad].

    The errors of the two counts are independent; that of the trim comes from their difference.
    """
    upright = cos(heel)
    main = main_count * struts.stripe * upright - struts.main_top
    rudder = rudder_count * struts.stripe * upright - struts.rudder_top
    slope = (main - rudder) / struts.spacing
    trim = atan(slope)
    one = UNIFORM * struts.stripe * upright
    return Seen(
        height=main * cos(trim),
        height_error=one * cos(trim),
        trim=trim,
        trim_error=sqrt(2.0) * one / struts.spacing / (1.0 + slope * slope),
    )
