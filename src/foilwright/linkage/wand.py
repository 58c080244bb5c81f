"""The wand: where it meets the water, and what holds it there.

Along its own length the wand crosses the surface a distance `length - immersed` from its pivot. Upright
and level that is cos(wand angle) = pivot height / that distance; with trim and heel the wand's direction
has an earth-vertical part cos(psi) cos(trim) cos(heel) + sin(psi) sin(trim) (the wand angle psi is
counted from the body's vertical).

The immersed length is not free: the water's push on paddle and stick must balance the elastic, the
wand's weight and what the chain asks for.
"""

from math import atan2, sqrt
from typing import NamedTuple

from foilwright.smooth import clip, positive_part, positive_slope, smooth_min

PADDLE_NORMAL = 1.28  # normal-force coefficient of a flat plate square to the flow (Hoerner 1965, ch. 3)
PADDLE_EDGE = 0.005  # the paddle's upper edge is rounded over this length [m]
MOST_COSINE = 0.9998  # the wand's angle to the water's normal is kept above 1.1 degrees
COSINE_ROUNDING = 0.0004  # width of that limit [-]
MOST_IMMERSED = 0.9  # share of the wand; a boat at rest drowns its wand
UPRIGHT_BELOW = 0.8  # share of the wand: with its pivot lower than this a wand straight down is in the water


class Touch(NamedTuple):
    """Where the wand rests when nothing but the water stops it.

    angle     aft of the body-vertical [rad]
    immersed  length under water [m]
    push      force of the water, normal to the wand [N]
    cosine    of the angle between wand and earth-vertical, before its limit; 1 or more: off the water
    """

    angle: float
    immersed: float
    push: float
    cosine: float


def wetted_area(immersed: float, paddle_length: float, paddle_width: float, stick_width: float) -> float:
    """Area of paddle and stick under water [m2] for an immersed length [m], smooth at the paddle's edge."""
    over = positive_part(immersed - paddle_length, PADDLE_EDGE) - positive_part(-paddle_length, PADDLE_EDGE)
    return stick_width * immersed + (paddle_width - stick_width) * (immersed - over)


def touching(
    pivot_height: float,
    cos_trim: float,
    sin_trim: float,
    cos_heel: float,
    length: float,
    paddle_length: float,
    paddle_width: float,
    stick_width: float,
    weight: float,
    pull: float,
    pressure: float,
    guess: float,
) -> Touch:
    """Wand angle and immersion at a pivot height over the local water [m].

    weight    of the wand [N], acting half way down
    pull      moment that must be held beside the weight: elastic less what the chain gives [N m]
    pressure  dynamic pressure of the flow past the paddle [Pa]
    guess     of the immersed length, to begin with [m]; the answer does not depend on it

    The push is PADDLE_NORMAL times the pressure of the flow component normal to the wand times the
    immersed area, half the immersed length inside the tip. Its moment rises with immersion, so Newton's
    rule, kept between the lengths known to be too short and too long, settles in a few steps. Where the
    pull is negative (the chain itself pushes the wand aft) the paddle just brushes the surface.
    """
    upright = cos_trim * cos_heel
    reach = sqrt(upright * upright + sin_trim * sin_trim)
    lean = atan2(sin_trim, upright)
    height = positive_part(pivot_height / reach, 0.02)
    wanted_pull = positive_part(pull, 0.05)
    low = 0.0
    high = MOST_IMMERSED * length
    if height < UPRIGHT_BELOW * length and length - height < high:
        high = length - height  # straight down: it cannot go deeper, however little the water pushes
    immersed = clip(guess, low, high)
    for _ in range(60):
        left = length - immersed
        free = height / left
        cosine = smooth_min(free, MOST_COSINE, COSINE_ROUNDING)
        sine = sqrt(1.0 - cosine * cosine)
        strength = PADDLE_NORMAL * pressure * cosine
        area = wetted_area(immersed, paddle_length, paddle_width, stick_width)
        arm = length - 0.5 * immersed
        miss = strength * cosine * area * arm - wanted_pull - 0.5 * weight * length * sine
        width = paddle_width + (stick_width - paddle_width) * positive_slope(
            immersed - paddle_length, PADDLE_EDGE
        )
        upright_rate = positive_slope(MOST_COSINE - free, COSINE_ROUNDING) * free / left
        slope = (
            strength * (cosine * (width * arm - 0.5 * area) + 2.0 * upright_rate * area * arm)
            + 0.5 * weight * length * cosine * upright_rate / sine
            + 1e-9
        )
        if miss > 0.0:
            high = immersed
        else:
            low = immersed
        new = immersed - miss / slope
        if new <= low or new >= high:
            new = 0.5 * (low + high)
        change = new - immersed
        immersed = new
        if change * change < 1e-18:
            break
    left = length - immersed
    free = height / left
    cosine = smooth_min(free, MOST_COSINE, COSINE_ROUNDING)
    strength = PADDLE_NORMAL * pressure * cosine * cosine
    area = wetted_area(immersed, paddle_length, paddle_width, stick_width)
    return Touch(lean + atan2(sqrt(1.0 - cosine * cosine), cosine), immersed, strength * area, free)
