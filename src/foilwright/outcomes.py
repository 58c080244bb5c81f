"""How a computation can end: one vocabulary for code, JSON and people.

The codes are what kernels write into result rows; the sentences are what people read.
"""

from typing import NamedTuple

SOLVED = 0
NO_BALANCE = 1
CHAIN_LOCKED = 2
OUTSIDE_VALIDITY = 3
GAVE_UP = 4
STOPPED = 5


class Outcome(NamedTuple):
    """One way to end: its code, its name, a sentence and a remedy."""

    code: int
    name: str
    sentence: str
    remedy: str


OUTCOMES: tuple[Outcome, ...] = (
    Outcome(SOLVED, "solved", "A steady state was found.", ""),
    Outcome(
        NO_BALANCE,
        "no balance in range",
        "No steady height and bow angle carries the boat at this speed.",
        "Look at the nearest speed that has one; more speed, more foil angle or less weight may be missing.",
    ),
    Outcome(
        CHAIN_LOCKED,
        "chain locked",
        "A rod cannot reach at the wand angle this needs.",
        "Check the rod lengths and arm lengths of the chain against the boat.",
    ),
    Outcome(
        OUTSIDE_VALIDITY,
        "outside validity",
        "A model was asked beyond the range it is known for.",
        "Treat the answer as a hint only, and stay inside the range named.",
    ),
    Outcome(
        GAVE_UP,
        "gave up",
        "The search did not settle. That is a fault of ours, not of the boat.",
        "Please keep the boat file and tell us.",
    ),
    Outcome(STOPPED, "stopped", "Stopped by the person; what was done is kept.", "Start again to go on."),
)

NAMES: tuple[str, ...] = tuple(outcome.name for outcome in OUTCOMES)
