"""How far out a sailor's weight gets: body segments, trunk angle, and a guess of stature from build.

Only differences from the usual sailor of a boat are used: the boat's own figure for the fully hiked reach
knows its rack, straps and wings. All SI and radians.
"""

from math import cos, sin
from typing import NamedTuple


class Segment(NamedTuple):
    """One part of the body, standing; all of both sides together."""

    mass: float  # percent of the body's
    height: float  # of its centre above the sole, share of stature [-]
    leg: bool  # stays along the rack while the trunk leans


ANKLE, KNEE, HIP, SHOULDER = 0.039, 0.285, 0.530, 0.818
"""Heights of joints over stature (Drillis & Contini 1966, New York University report 1166-03)."""
UPPER_ARM, FOREARM, HAND = 0.186, 0.146, 0.108
"""Lengths over stature, same source."""


def body(
    fractions: tuple[float, float, float, float, float, float, float, float],
    centres: tuple[float, float, float, float, float],
) -> tuple[Segment, ...]:
    """A body with its arms along the trunk.

    fractions [% of body mass]: head and neck, trunk, and each upper arm, forearm, hand, thigh, shank, foot.
    centres [% of the segment from its upper end]: upper arm, forearm, hand, thigh, shank; trunk 50, head 55.
    """
    head, trunk, upper_arm, forearm, hand, thigh, shank, foot = fractions
    of_upper_arm, of_forearm, of_hand, of_thigh, of_shank = (share / 100.0 for share in centres)
    elbow = SHOULDER - UPPER_ARM
    return (
        Segment(head, SHOULDER + 0.55 * (1.0 - SHOULDER), False),
        Segment(trunk, 0.5 * (HIP + SHOULDER), False),
        Segment(2.0 * upper_arm, SHOULDER - of_upper_arm * UPPER_ARM, False),
        Segment(2.0 * forearm, elbow - of_forearm * FOREARM, False),
        Segment(2.0 * hand, elbow - FOREARM - of_hand * HAND, False),
        Segment(2.0 * thigh, HIP - of_thigh * (HIP - KNEE), True),
        Segment(2.0 * shank, KNEE - of_shank * (KNEE - ANKLE), True),
        Segment(2.0 * foot, ANKLE, True),
    )


MALE = body((8.96, 46.84, 3.25, 1.87, 0.65, 10.50, 4.75, 1.43), (43.6, 43.0, 46.8, 43.3, 43.4))
FEMALE = body((8.20, 45.00, 2.90, 1.57, 0.50, 11.75, 5.35, 1.33), (45.8, 43.4, 46.8, 42.8, 41.9))
"""Plagenhoef, Evans & Abdelnour 1983, Research Quarterly for Exercise and Sport 54:169-178; centres of
forearm and hand from memory. The male fractions add up to 100.7 % and are taken as shares of their sum."""


def standing_centre(segments: tuple[Segment, ...]) -> float:
    """Height of the centre of mass, standing, over stature [-]."""
    whole = sum(part.mass for part in segments)
    return sum(part.mass * part.height for part in segments) / whole


def hiking_centre(segments: tuple[Segment, ...], trunk_angle: float) -> tuple[float, float]:
    """Centre of mass of a hiking sailor from the strap over the feet, over stature: out and up [-].

    trunk_angle above the horizontal [rad]; feet in the strap, legs straight and horizontal, arms along the
    trunk. The trunk turns about the hip.
    """
    whole = sum(part.mass for part in segments)
    out = up = 0.0
    for part in segments:
        along = part.height - ANKLE
        if part.leg:
            out += part.mass * along
        else:
            above_hip = part.height - HIP
            out += part.mass * (HIP - ANKLE + above_hip * cos(trunk_angle))
            up += part.mass * above_hip * sin(trunk_angle)
    return out / whole, up / whole


def righting_moment(mass: float, out: float, up: float, heel: float, gravity: float) -> float:
    """Moment of a sailor's weight about the centreline at the keel line [N m], to windward positive.

    mass [kg]; out to windward and up in the boat [m]; heel to leeward positive [rad]: m g (y cos - z sin).
    """
    return mass * gravity * (out * cos(heel) - up * sin(heel))


BUILDS = {"short": 0.94, "middle": 1.0, "tall": 1.06}
"""Stature over that of the middle build of the same mass: about one in ten is shorter or taller; common
practice, no source."""
USUAL_STATURE, USUAL_MASS, GROWTH = 1.72, 75.0, 0.22
WORKING_TRUNK_ANGLE = 0.6  # of a hike that is held, above the horizontal [rad]; common practice, no source
MOST_CHANGE = 0.25  # what a build may change of a boat's reach [m]


def stature_of(mass: float, build: str) -> float:
    """A guess of stature [m] from the mass of one sailor in wet kit [kg] and the build.

    1.72 m (mass / 75 kg)^0.22: 1.49 m at 39 kg, 1.56 m at 48 kg, 1.79 m at 90 kg, which growth charts and
    adults' statistics give within 0.02 m (from memory); one person of the middle build may be 0.06 m off.
    """
    return float(USUAL_STATURE * (mass / USUAL_MASS) ** GROWTH * BUILDS[build])


class Place(NamedTuple):
    """Where a crew's common centre of mass is when fully hiked."""

    out: float  # to windward of the centreline [m]
    z: float  # above the keel line [m]


def fully_hiked(
    masses: tuple[float, ...], builds: tuple[str, ...], usual_mass: float, boat_out: float, boat_z: float
) -> Place:
    """Reach of these sailors on a boat [m].

    masses of each [kg] and builds; usual_mass of one usual sailor of the boat [kg], taken as of middle build;
    boat_out, boat_z: the boat's own centre of its usual crew, fully hiked [m]. To it comes the difference of
    stature times the segment model at the working trunk angle, in the mean by mass, 0.25 m at most.
    """
    out, up = mean_hike()
    usual = stature_of(usual_mass, "middle")
    whole = sum(masses)
    taller = sum(m * (stature_of(m, b) - usual) for m, b in zip(masses, builds, strict=True)) / whole
    change = min(max(out * taller, -MOST_CHANGE), MOST_CHANGE)
    return Place(max(boat_out + change, 0.5 * boat_out), boat_z + up * taller)


def mean_hike() -> tuple[float, float]:
    """Out and up over stature at the working trunk angle, mean of both tables: nobody is asked which [-]."""
    one, other = (hiking_centre(table, WORKING_TRUNK_ANGLE) for table in (MALE, FEMALE))
    return 0.5 * (one[0] + other[0]), 0.5 * (one[1] + other[1])
