"""How long a bench sheet takes two people: so long for each reading, and for each thing set up.

The times are assumed, not taken with a watch: no source. Whoever measures boats may write better ones here.
"""

from collections.abc import Sequence
from itertools import groupby

from foilwright.documents.bench_blank import Blank

# One reading, one calls it out and one writes it down [s].
SECONDS: dict[str, float] = {
    "tape": 20.0,
    "level": 10.0,
    "wand-stop": 15.0,
    "batten-zero": 8.0,
    "foil-stop": 8.0,
    "batten": 11.0,  # the wand to its angle, phone, ruler
    "edge": 11.0,
    "rake": 20.0,
    "weigh": 45.0,  # lifted, and put down again
    "pull": 15.0,
}
TO_SET_UP: dict[str, float] = {
    "batten-zero": 60.0,  # the batten pegged, the ruler stood up
    "level": 30.0,  # packers on the chords
    "weigh": 30.0,
}
TO_TURN = 20.0  # an adjuster moved, counted aloud
TO_HANG = 30.0  # the bottle, on and off again


def minutes(blanks: Sequence[Blank]) -> float:
    """Time for all of them in their order [min]."""
    seconds = sum(SECONDS[blank.what] for blank in blanks)
    seconds += sum(TO_SET_UP.get(what, 0.0) for what in {blank.what for blank in blanks})
    # Zeros and levels in between are read wherever the adjusters stand.
    set_at = [blank.settings for blank in blanks if blank.what in ("tape", "batten", "rake")]
    turns = sum(1 for _ in groupby(set_at)) - 1
    seconds += TO_TURN * max(turns, 0)
    seconds += TO_HANG * any(blank.load_n for blank in blanks)
    return seconds / 60.0
