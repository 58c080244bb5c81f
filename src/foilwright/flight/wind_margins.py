"""How far a state of sailing in wind is from its limits, and how it stands in the water. Kernels."""

from foilwright.flight.margins import SPANS, margins
from foilwright.flight.wind_balance import Sailing, loads_in_wind, out_share, power_at, state_of
from foilwright.flight.wind_settle import Work
from foilwright.smooth import clip

MARGIN_NAMES = tuple(SPANS)
SPAN_SIZES = tuple(SPANS.values())
HIKING = MARGIN_NAMES.index("hiking")
NOT_HERE = 1e9  # in place of a margin that means nothing in this state
FLOATING_SHARE = 0.95  # of the weight on the hull
TOUCHING_SHARE = 0.5
LEAST_POWER = 0.15  # below this a luffing sail is the limit, not the crew
FLOATING, LIFTING, FLYING = 0.0, 1.0, 2.0
STANDING, HEEL_HELD, MARGINS, NEAREST, NEAREST_SHARE = 10, 11, 12, 22, 23
"""Places in a row of what is found, see `wind_states`."""


def put_margins(case: Sailing, work: Work, row: int) -> None:
    """Standing, heel, every margin and the nearest of them, of the state in work.x into a row of work.found.

    Hiking is the share of the reach that the crew has left. It may be the nearest limit while the sail is at
    full power; fully hiked, the sail is eased and something else is the limit, until hardly any power is
    left.
    """
    found = work.found
    flight = loads_in_wind(case, work.x, work.items)
    state = state_of(case.helm, work.x)
    m = margins(case.boat, case.tables, case.water, state, flight)
    buoyancy = case.water.density * case.water.gravity * flight.hull.volume / flight.weight
    standing = LIFTING
    if buoyancy >= FLOATING_SHARE:
        standing = FLOATING
    elif m.touchdown > 0.0:
        standing = FLYING
    found[row, STANDING] = standing
    found[row, HEEL_HELD] = state.heel
    found[row, MARGINS] = m.stall
    found[row, MARGINS + 1] = m.tip_depth
    found[row, MARGINS + 2] = m.ventilation
    found[row, MARGINS + 3] = m.touchdown
    found[row, MARGINS + 4] = m.cavitation
    found[row, MARGINS + 5] = m.wand_stop
    found[row, MARGINS + 6] = m.foil_stop
    found[row, MARGINS + 7] = clip(1.0 - out_share(work.x[5]), 0.0, 1.0)
    found[row, MARGINS + 8] = m.rudder_reversal
    found[row, MARGINS + 9] = m.wand_contact
    if standing != FLYING:
        found[row, MARGINS + 3] = NOT_HERE
    if flight.control.touch < TOUCHING_SHARE:
        found[row, MARGINS + 5] = NOT_HERE
        found[row, MARGINS + 9] = NOT_HERE
    power = power_at(work.x[5])
    nearest = 0
    share = NOT_HERE
    for k in range(len(SPAN_SIZES)):
        here = found[row, MARGINS + k] / SPAN_SIZES[k]
        eased = k == HIKING and 0.95 > power > LEAST_POWER
        if here < share and not eased:
            nearest = k
            share = here
    found[row, NEAREST] = nearest
    found[row, NEAREST_SHARE] = share
