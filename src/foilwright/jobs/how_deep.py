"""How far a boat reaches below the water: its foils while it floats, its mast when it lies upside down."""

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.water.hull import hull_in_water
from foilwright.water.properties import Water

ROUNDS = 40


def depth_needed(boat: ReadyBoat, crew_kg: float, water: Water) -> tuple[float, float]:
    """Foils floating and mast upside down [m], with nothing to spare.

    The foils: the deeper one below the keel line, and how deep the keel line floats, level, crew aboard. The
    mast: its height above the deck, the deck taken to lie at the water.
    """
    numbers = boat.numbers
    deepest = max(numbers["main_foil.below_keel_m"], numbers["rudder.below_keel_m"])
    return deepest + draught(boat, crew_kg, water), numbers["rig.mast_height_m"]


def draught(boat: ReadyBoat, crew_kg: float, water: Water) -> float:
    """Depth of the keel line, floating level [m]; that of the deck where the hull cannot carry so much."""
    wanted = (boat.numbers["mass.mass_kg"] + crew_kg) / water.density
    low, high = 0.0, boat.numbers["hull.depth_m"]
    for _ in range(ROUNDS):
        middle = 0.5 * (low + high)
        volume = hull_in_water(boat.tables.hull, -middle, 0.0, 1.0, 0.0, 1.0, 0.0).volume
        low, high = (low, middle) if volume > wanted else (middle, high)
    return 0.5 * (low + high)
