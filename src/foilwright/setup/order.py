"""The coach's order of changes: people before parts, the bow before the height, the quick before the slow.

What an adjuster is for is read off the numbers it changes, so a boat with other names for its adjusters, or
with others altogether, is ordered the same way. Order and roles are common practice, no source.
"""

from collections.abc import Sequence

from foilwright.setup.adjusters import Adjuster

PLACE, BOW, HEIGHT, SPREAD, TENSION, ASHORE = "place", "bow", "height", "spread", "tension", "ashore"
ORDER = (PLACE, BOW, HEIGHT, SPREAD, TENSION, ASHORE)
"""After looking at the boat, the swing check and the sail's power, which turn no adjuster."""


def role_of(adjuster: Adjuster, names: Sequence[str]) -> str:
    """What an adjuster is for, from the names of the row's numbers that it changes."""
    touched = [names[i] for i in adjuster.numbers]
    if any(name.startswith("crew.") for name in touched):
        return PLACE
    if all(name.startswith("rudder.") for name in touched):
        return BOW
    if any(name.endswith(("_arm", "_direction")) for name in touched):
        return SPREAD
    if all(name == "chain.curve_position" or name.endswith("rod_longer") for name in touched):
        return HEIGHT
    if all(name in ("wand.length", "wand.pivot_x", "wand.pivot_z") for name in touched):
        return HEIGHT
    if all(name.startswith("wand.") for name in touched):
        return TENSION
    return ASHORE


def place_in_order(role: str) -> int:
    """Where a role stands in the order, the first one 0."""
    return ORDER.index(role)
