"""Who sails which boat: the best of all possible pairings over a table of prospects, exactly.

A prospect is one sailor, or two, in one boat. Its worth is a sum over what matters for that pairing, times
the people aboard, so that a boat for two counts for both. Pairings set by hand stand. The search is exact:
every pairing is enumerated where there are few, otherwise the same question is put to an integer programme.
"""

from collections.abc import Iterator, Sequence
from itertools import product
from math import isfinite
from typing import NamedTuple

FLIES_WORTH, SAFE_WORTH, TEACHES_WORTH = 1.0, 1.0, 0.75
BAND_WORTH = 0.25  # little: the height is what the adjusters are there for
LEAST_FLIES = 0.2  # share of the day's wind in which a pairing must fly to be proposed
MOST_ENUMERATED = 50_000
TIE = 1e-9


class Prospect(NamedTuple):
    """One sailor or two in one boat, under the day's wind.

    flies        share of the day's wind in which it flies
    in_band      share in which it flies at the height its stage wants
    safe         share in which every margin wanted is kept
    teaches      how well the day's wind in this boat serves the aim, 0 to 1
    take_off     lightest wind at which it takes off [m/s], none where it never does
    most_wind    strongest wind of those looked at in which it still flies with its margins [m/s], or none
    bars         why it may not be proposed at all, in words; empty where nothing bars it
    reasons      why it is a good or a poor idea, in words, for the coach alone
    suits        1 for a crew that the boat is meant for, less the further it is from that
    """

    people: tuple[str, ...]
    boat: str
    flies: float
    in_band: float
    safe: float
    teaches: float
    take_off: float | None
    most_wind: float | None
    bars: tuple[str, ...] = ()
    reasons: tuple[str, ...] = ()
    suits: float = 1.0


class Pairings(NamedTuple):
    """What is proposed.

    chosen   the prospects, in the order of the boats
    by_hand  which of them were set by hand
    left     sailors without a boat
    tried    how many complete pairings were tried, or are possible where `how` is not enumeration
    how      enumeration, or integer programme
    """

    chosen: tuple[Prospect, ...]
    by_hand: frozenset[str]
    left: tuple[str, ...]
    tried: int
    how: str


class NotToday(NamedTuple):
    """Why a sailor has no boat, and what would change it: always wind or boat.

    kind  more wind, less wind, boat taken, other boat, barred, no boat
    boat  the one it is about;  by  how much more or less wind [m/s];  words  of the bar
    """

    sailor: str
    kind: str
    boat: str = ""
    by: float = 0.0
    words: str = ""


def worth(prospect: Prospect) -> float:
    """What a pairing is worth, for everybody aboard together."""
    one = (
        FLIES_WORTH * prospect.flies
        + BAND_WORTH * prospect.in_band
        + SAFE_WORTH * prospect.safe
        + TEACHES_WORTH * prospect.teaches
    )
    return one * prospect.suits * len(prospect.people)


def may_be_proposed(prospect: Prospect) -> bool:
    """Whether a pairing flies often enough to be proposed, and nothing bars it."""
    return not prospect.bars and prospect.flies >= LEAST_FLIES


def pairings(
    sailors: Sequence[str],
    boats: Sequence[str],
    prospects: Sequence[Prospect],
    by_hand: Sequence[Prospect] = (),
) -> Pairings:
    """The best pairings of these sailors and boats; ties go to the order in which they are named."""
    fixed = {one.boat: one for one in by_hand}
    gone = {name for one in by_hand for name in one.people}
    free_boats = [boat for boat in boats if boat not in fixed]
    options = {
        boat: [p for p in prospects if p.boat == boat and may_be_proposed(p) and not gone & set(p.people)]
        for boat in free_boats
    }
    possible = 1
    for boat in free_boats:
        possible *= len(options[boat]) + 1
    if possible <= MOST_ENUMERATED:
        best, tried = _enumerated([options[boat] for boat in free_boats])
        how = "enumeration"
    else:
        best, tried = _programmed([p for boat in free_boats for p in options[boat]]), possible
        how = "integer programme"
    all_chosen = {**fixed, **{one.boat: one for one in best}}
    chosen = tuple(all_chosen[boat] for boat in boats if boat in all_chosen)
    afloat = {name for one in chosen for name in one.people}
    left = tuple(name for name in sailors if name not in afloat)
    return Pairings(chosen, frozenset(fixed), left, tried, how)


def not_today(
    sailor: str, prospects: Sequence[Prospect], chosen: Sequence[Prospect], likely: float
) -> NotToday:
    """What keeps a sailor ashore: the smallest change of wind, or the boat, that would alter it.

    likely  the day's likely wind [m/s]
    """
    mine = [p for p in prospects if sailor in p.people]
    fit = [p for p in mine if may_be_proposed(p)]
    if fit:
        return NotToday(sailor, "boat taken", max(fit, key=worth).boat)
    free = [p for p in mine if not p.bars]
    more = [(p.take_off - likely, p.boat) for p in free if p.take_off is not None and p.take_off > likely]
    less = [
        (likely - p.most_wind, p.boat)
        for p in free
        if p.most_wind is not None
        and p.take_off is not None
        and p.take_off <= likely
        and p.most_wind < likely
    ]
    changes = [(by, "more wind", boat) for by, boat in more] + [(by, "less wind", boat) for by, boat in less]
    nearest = min(changes, default=None)
    if nearest is not None:
        by, kind, boat = nearest
        return NotToday(sailor, kind, boat, by)
    if free:
        return NotToday(sailor, "other boat", free[0].boat)
    if mine:
        return NotToday(sailor, "barred", mine[0].boat, 0.0, mine[0].bars[0])
    return NotToday(sailor, "no boat")


def _enumerated(options: Sequence[Sequence[Prospect]]) -> tuple[list[Prospect], int]:
    """The best of every pairing, one choice or none a boat; how many there were that seat nobody twice."""
    best: list[Prospect] = []
    most, tried = -1.0, 0
    worths = [[worth(p) for p in one] for one in options]
    for picks in product(*(range(-1, len(one)) for one in options)):
        chosen = [options[i][k] for i, k in enumerate(picks) if k >= 0]
        people = [name for one in chosen for name in one.people]
        if len(people) != len(set(people)):
            continue
        tried += 1
        total = sum(worths[i][k] for i, k in enumerate(picks) if k >= 0)
        if total > most + TIE:
            best, most = chosen, total
    return best, tried


def _programmed(options: Sequence[Prospect]) -> list[Prospect]:
    """The same by an integer programme: each boat once, each sailor once, the greatest worth."""
    if not options:
        return []
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp

    once = [*_columns(options)]
    rows = np.zeros((len(once), len(options)))
    for i, columns in enumerate(once):
        rows[i, columns] = 1.0
    # Among equals the one named first: a share of the worth too small to decide anything else.
    order = 1e-7 * np.arange(len(options)) / len(options)
    worths = np.array([worth(p) for p in options])
    assert isfinite(float(worths.sum()))
    found = milp(
        order - worths,
        constraints=LinearConstraint(rows, ub=1.0),
        integrality=np.ones(len(options)),
        bounds=Bounds(0.0, 1.0),
        options={"mip_rel_gap": 0.0},
    )
    if found.x is None:
        raise RuntimeError(f"the pairing was not solved: {found.message}")
    return [one for one, share in zip(options, found.x, strict=True) if share > 0.5]


def _columns(options: Sequence[Prospect]) -> Iterator[list[int]]:
    """The options that share a boat, and those that share a sailor."""
    for boat in dict.fromkeys(p.boat for p in options):
        yield [i for i, p in enumerate(options) if p.boat == boat]
    for name in dict.fromkeys(name for p in options for name in p.people):
        yield [i for i, p in enumerate(options) if name in p.people]
