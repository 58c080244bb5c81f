"""The side force of a hull afloat that drifts or turns: slender-body theory on the draft along its length.

Kernels: plain scalar functions. Small beside what the struts do; used where the boat turns.
"""

from math import pi
from typing import NamedTuple

from foilwright.measures import Floats
from foilwright.smooth import positive_part
from foilwright.water.hull_shape import HullShape

_WETTING = 0.002
"""Rounding of a station's draft where it leaves the water [m]."""

CENTRE_OF_DRAFT = 0.42
"""Where the force acts below the surface, share of the draft: 4/(3 pi), elliptic over the draft."""


class HullSide(NamedTuple):
    """The side force on the hull. Body axes."""

    force: float
    """to port [N]"""
    moment: float
    """right-hand about body z at the reference place, bow to port positive [N m]"""
    below: float
    """where the force acts, below the undisturbed surface [m]"""


def station_draft(low: float, x: float, height: float, sin_trim: float, cos_trim: float, at: float) -> float:
    """Depth of a station's lowest point below the surface [m], nothing above it; rounded over 2 mm."""
    depth = -(height + (x - at) * sin_trim + cos_trim * low)
    if depth < -0.02:
        return 0.0
    return positive_part(depth, _WETTING)


def hull_side_force(
    shape: HullShape,
    height: float,
    sin_trim: float,
    cos_trim: float,
    reference_x: float,
    centre_x: float,
    speed: float,
    sideways: float,
    yaw_rate: float,
    density: float,
) -> HullSide:
    """Side force and yaw moment about centre_x [m forward of the transom] of a hull moving with small angles.

    height [m] belongs to reference_x; speed along the hull, sideways velocity of centre_x to port [m/s];
    yaw_rate bow to port [rad/s]; density [kg/m3].

    A slice of water of the added mass m' = (pi/2) rho T^2 a metre (T the draft, whatever the beam: half of
    an ellipse) gets the section's own sideways velocity v = sideways + yaw_rate (x - centre_x) as the hull
    passes. Where the draft grows going aft, the force a metre is U d(m' v)/dx; where it shrinks the flow
    leaves the hull and keeps its momentum, so only the change of v counts, U m' dv/dx, and there is no
    thrust back from a closing stern.

    Source: R. T. Jones, NACA Report 835, 1946 (wings of low aspect ratio; the keel line for an edge, the
    undisturbed surface for a mirror). A box of even draft gives the leading terms of D. Clarke, P. Gedling
    and G. Hine, Trans. RINA 125, 1983. Small angles; low Froude number, where the surface is a mirror:
    at high Froude number the added mass of a section falls to 0.4 of this.
    """
    x: Floats = shape.x
    last = x.shape[0] - 1
    mass = 0.5 * pi * density
    draft = station_draft(shape.low[last], x[last], height, sin_trim, cos_trim, reference_x)
    deepest = draft
    ahead_mass = mass * draft * draft
    ahead_v = sideways + yaw_rate * (x[last] - centre_x)
    # The stem cuts into water that was at rest.
    force = -speed * ahead_mass * ahead_v
    moment = force * (x[last] - centre_x)
    for k in range(last):
        i = last - 1 - k
        draft = station_draft(shape.low[i], x[i], height, sin_trim, cos_trim, reference_x)
        if draft > deepest:
            deepest = draft
        here_mass = mass * draft * draft
        here_v = sideways + yaw_rate * (x[i] - centre_x)
        if here_mass >= ahead_mass:
            piece = speed * (ahead_mass * ahead_v - here_mass * here_v)
        else:
            piece = speed * 0.5 * (ahead_mass + here_mass) * (ahead_v - here_v)
        force = force + piece
        moment = moment + piece * (0.5 * (x[i] + x[i + 1]) - centre_x)
        ahead_mass = here_mass
        ahead_v = here_v
    return HullSide(force, moment, CENTRE_OF_DRAFT * deepest)
