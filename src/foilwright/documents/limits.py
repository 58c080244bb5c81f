"""The credible range of any number of the boat file, by its path."""

from functools import cache
from math import inf

from foilwright.documents.boat_record import BoatFile
from foilwright.documents.faults import field_at, limits


@cache
def limits_of(path: str) -> tuple[float, float]:
    """Lowest and highest credible value of the number at a path, in its own unit."""
    steps = path.split(".")
    if steps[:2] in (["chain", "cranks"], ["chain", "rods"]):
        del steps[2]  # the entry's name
    _, field = field_at(BoatFile, tuple(steps))
    low, high = limits(field) if field is not None else (None, None)
    return (-inf if low is None else low), (inf if high is None else high)
