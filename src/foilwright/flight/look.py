"""What is read off a boat held at a ride height and trim, balanced or not."""

from foilwright.axes import attitude
from foilwright.flight.at_speed import lift_of
from foilwright.flight.trim_at_speed import Case, heave_and_pitch, loads_at
from foilwright.measures import Floats

LIFT_LEFT = 0  # of heave, over weight
PITCH_LEFT = 1  # bow up, over weight times a metre
DRAG = 2  # [N]
RUDDER_LIFT = 3  # [N]
HELD_BACK = 4  # how much more the chain would turn the foil than its stops let it [rad]
TOUCH = 5  # 1 with the wand on the water .. 0 off it
OFF_FORWARD = 6  # of the wand from its forward stop [rad]
OFF_AFT = 7  # and from its aft one
HULL_VOLUME = 8  # under water [m3]
LOOK_SIZE = 9

RUDDER_FOIL = 4  # its place among the loads


def look(case: Case, height: float, trim: float, items: Floats, seen: Floats) -> None:
    """One look at a case at a ride height [m] and trim [rad], into `seen` [LOOK_SIZE]."""
    flight = loads_at(case, height, trim, items)
    a = attitude(trim, case.heel, 0.0)
    lift, pitch = heave_and_pitch(a, flight.weight, items)
    seen[LIFT_LEFT] = lift
    seen[PITCH_LEFT] = pitch
    seen[DRAG] = flight.drag
    seen[RUDDER_LIFT] = lift_of(items, RUDDER_FOIL, a)
    seen[HELD_BACK] = flight.control.free_foil - flight.control.foil
    seen[TOUCH] = flight.control.touch
    seen[OFF_FORWARD] = flight.control.wand - case.boat.wand.forward_stop
    seen[OFF_AFT] = case.boat.wand.aft_stop - flight.control.wand
    seen[HULL_VOLUME] = flight.hull.volume
