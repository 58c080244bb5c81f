"""The chain from wand to foil: cranks joined by rods, exact planar kinematics.

All parts lie in the centreplane, x forward and z up. Turning is counted from forward towards up, so a
wand that swings aft turns by minus its change of angle, and a trailing edge that goes down (or a whole
foil whose leading edge goes up) turns by plus its change of angle.

Crank 0 is the wand crank. Rod i joins the out-arm of crank i to the in-arm of crank i + 1, and the last
crank is the horn of the foil. Each rod closes the four-bar loop
|tip_out(i) - tip_in(i + 1)| = rod length (Freudenstein 1955), here by the intersection of two circles:
the in-arm's tip lies on a circle about its pivot and on one about the driving tip. Of the two
intersections the one continuous with the drawing position is taken; which one that is follows from the
drawing and is not searched for.
"""

from math import atan2, cos, fabs, sin, sqrt
from typing import NamedTuple

from foilwright.measures import Floats
from foilwright.smooth import clip, sign_of

# Numbers of one link in the boat's row: the rod and the crank it drives.
LINK_NUMBERS = (
    "rod_longer",  # rod length minus its length in the drawing [m]
    "pivot_x",  # pivot of the driven crank [m]
    "pivot_z",
    "in_arm",  # in-arm length [m]
    "in_direction",  # in-arm direction in the drawing, from forward towards up [rad]
    "out_arm",  # out-arm length [m]; nothing for the horn
    "out_direction",  # out-arm direction in the drawing [rad]
    "play",  # lost motion of the rod's two joints together [m]
    "stretch",  # stretch of the rod and its seats [m/N]
)
LINK_SIZE = 9
DRAWN_SIZE = 12


class Turned(NamedTuple):
    """The chain at one wand angle.

    turn          of the last crank from its drawing position [rad]
    gearing       turn of the last crank per radian of wand angle [rad/rad]
    slack         least 1 - |cosine| over the loops; below zero the chain is locked
    transmission  least angle between a rod and the arm it drives, 0..pi/2 [rad]
    play          lost motion at the last crank, both ways together [rad]
    give          turn of the last crank per N m on it, from the stretch of the rods [rad/(N m)]
    """

    turn: float
    gearing: float
    slack: float
    transmission: float
    play: float
    give: float


def draw_chain(
    pivot_x: float, pivot_z: float, out_arm: float, out_direction: float, links: Floats, drawn: Floats
) -> None:
    """Writes what follows from the drawing position into `drawn` [links, 12], once a boat and setting.

    Columns: driving pivot x, z; driving out-arm in the drawing x, z; driven pivot x, z; in-arm length;
    in-arm direction as cosine and sine; rod length; branch (+1 or -1); stretch. The rod is as long as
    the drawing says plus `rod_longer`, so a hole whose rods are re-made keeps the drawing position.
    """
    ax = pivot_x
    az = pivot_z
    arm_x = out_arm * cos(out_direction)
    arm_z = out_arm * sin(out_direction)
    for i in range(links.shape[0]):
        bx = links[i, 1]
        bz = links[i, 2]
        ux = cos(links[i, 4])
        uz = sin(links[i, 4])
        rod_x = bx + links[i, 3] * ux - ax - arm_x
        rod_z = bz + links[i, 3] * uz - az - arm_z
        # Which side of the line from pivot to driving tip the in-arm lies on in the drawing.
        to_tip_x = ax + arm_x - bx
        to_tip_z = az + arm_z - bz
        drawn[i, 0] = ax
        drawn[i, 1] = az
        drawn[i, 2] = arm_x
        drawn[i, 3] = arm_z
        drawn[i, 4] = bx
        drawn[i, 5] = bz
        drawn[i, 6] = links[i, 3]
        drawn[i, 7] = ux
        drawn[i, 8] = uz
        drawn[i, 9] = sqrt(rod_x * rod_x + rod_z * rod_z) + links[i, 0]
        drawn[i, 10] = sign_of(to_tip_x * uz - to_tip_z * ux)
        drawn[i, 11] = links[i, 8]
        ax = bx
        az = bz
        arm_x = links[i, 5] * cos(links[i, 6])
        arm_z = links[i, 5] * sin(links[i, 6])


def turn_chain(drawn: Floats, links: Floats, wand_turn_aft: float) -> Turned:
    """The chain with the wand `wand_turn_aft` [rad] further aft than in the drawing.

    Where a loop cannot close, the rod is taken as pointing along the line of centres (the nearest the
    parts come) and `slack` is negative: the caller calls that *chain locked*.
    """
    c = cos(wand_turn_aft)
    s = -sin(wand_turn_aft)
    ratio = -1.0  # turn of the present crank per radian of wand angle
    slack = 1.0
    least_sine = 1.0
    play = 0.0
    give = 0.0
    n = drawn.shape[0]
    for i in range(n):
        arm_x = c * drawn[i, 2] - s * drawn[i, 3]
        arm_z = s * drawn[i, 2] + c * drawn[i, 3]
        to_tip_x = drawn[i, 0] + arm_x - drawn[i, 4]
        to_tip_z = drawn[i, 1] + arm_z - drawn[i, 5]
        r = drawn[i, 6]
        rod = drawn[i, 9]
        d2 = to_tip_x * to_tip_x + to_tip_z * to_tip_z + 1e-18
        d = sqrt(d2)
        cosine = (d2 + r * r - rod * rod) / (2.0 * d * r)
        room = 1.0 - fabs(cosine)
        if room < slack:
            slack = room
        held = clip(cosine, -0.999999, 0.999999)
        side = drawn[i, 10] * sqrt(1.0 - held * held)
        # In-arm direction: the line from pivot to driving tip turned by plus or minus the loop's angle.
        in_x = (to_tip_x * held - to_tip_z * side) / d
        in_z = (to_tip_z * held + to_tip_x * side) / d
        # The crank has turned from its drawn in-arm direction to this one.
        c = in_x * drawn[i, 7] + in_z * drawn[i, 8]
        s = in_z * drawn[i, 7] - in_x * drawn[i, 8]
        # Both tips move alike along the rod: ratio of turning = ratio of the arms' moments about it.
        e_x = r * in_x - to_tip_x
        e_z = r * in_z - to_tip_z
        drive = (arm_x * e_z - arm_z * e_x) / rod
        driven = r * (in_x * e_z - in_z * e_x) / rod
        sine = fabs(driven) / r
        if sine < least_sine:
            least_sine = sine
        if fabs(driven) < 1e-9:
            driven = 1e-9 * sign_of(driven)
        step = drive / driven
        per_metre = 1.0 / driven
        ratio = ratio * step
        play = play * fabs(step) + links[i, 7] * fabs(per_metre)
        give = give * step * step + drawn[i, 11] * per_metre * per_metre
    turn = -wand_turn_aft
    if n > 0:
        turn = atan2(s, c)
    square = 1.0 - least_sine * least_sine
    return Turned(turn, ratio, slack, atan2(least_sine, sqrt(clip(square, 0.0, 1.0))), play, give)
