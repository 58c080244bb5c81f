"""A second implementation of sailing in a wind against the package, on 100 random boats and winds.

Run from the repository's root: PYTHONPATH=src python studies/second_opinion/compare_sailing.py
"""

import sys
from collections import Counter
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from foilwright.flight.many_in_wind import all_in_wind
from foilwright.flight.take_off import WayUp
from foilwright.flight.wind_margins import MARGINS, NOT_HERE
from foilwright.flight.wind_states import STABLE
from tests.demo_boats import NO_CHANGE
from tests.second_opinion.compare_sailing import (
    draw_in_wind,
    loads_of_the_package,
    miss_in_wind,
    sailor,
    states_in_wind,
)
from tests.second_opinion.limits import limits
from tests.second_opinion.sailing import SCALES, starts_over_the_range
from tests.second_opinion.way import curve_from, way_up

BOATS = 100
ALONE = 20  # of them looked at with no start from the package
STARTS = 10
WAYS = 8  # of them followed up from rest
SEED = 30
# quantity, unit, factor from SI
SHOWN = (
    ("speed", "kn", 3600 / 1852),
    ("height", "mm", 1e3),
    ("trim", "deg", 180 / np.pi),
    ("leeway", "deg", 180 / np.pi),
    ("rudder", "deg", 180 / np.pi),
    ("out", "of the reach", 1.0),
    ("power", "of full", 1.0),
    ("force", "of weight", 1.0),
    ("moment", "m", 1.0),
    ("relative_force", "of it", 1.0),
)


def main() -> None:
    rng = np.random.default_rng(SEED)
    misses, worst_item = [], Counter()
    standings, none, settled, elsewhere, signs, margin = Counter(), 0, 0, 0, 0, 0.0
    reached, unseen, missed = 0, 0, []
    for k, case in enumerate(draw_in_wind(BOATS, SEED)):
        ours, theirs = sailor(case), states_in_wind(case)
        none += not len(theirs)
        for state in theirs:
            standings[("floating", "lifting", "flying")[int(state[10])]] += 1
            misses.append(miss_in_wind(ours, case, state))
            worst_item[misses[-1].worst] += 1
            signs += ours.stable(state[:6]) != (state[STABLE] > 0)
            for value, other in zip(
                limits(ours, state[:6]).values(), state[MARGINS : MARGINS + 10], strict=True
            ):
                margin = max(margin, abs((NOT_HERE if value is None else value) - other))
            own = ours.solve_from(state[:6] + SCALES * rng.uniform(-0.3, 0.3, 6))
            settled += own is not None
            elsewhere += own is not None and away(own, theirs) > 1e-3
        if k < ALONE:
            alone = ours.solve_anywhere(starts_over_the_range(STARTS, SEED + k))
            reached += len(alone)
            unseen += sum(away(state[:6], np.array(alone)) > 1e-3 for state in theirs)
            for own in alone:
                if away(own, theirs) > 1e-3:
                    left = np.abs(loads_of_the_package(case, own)[0]).max()
                    missed.append((k, case.base, own.round(4).tolist(), float(left), ours.stable(own)))
        print(k, len(theirs), file=sys.stderr, flush=True)
    print(f"{BOATS} boats, {none} without a state, {len(misses)} states: {dict(standings)}")
    for name, unit, factor in SHOWN:
        sizes = np.abs([getattr(miss, name) for miss in misses]) * factor
        print(f"  {name:15} max {sizes.max():.1e}  median {np.median(sizes):.1e} {unit}")
    print(f"worst item: {dict(worst_item)}")
    print(f"margins: at most {margin:.1e} off; {signs} states stable for one only")
    print(f"solved from a place away: {settled} settle, {elsewhere} of them on no state of the package")
    print(
        f"{ALONE} boats from nowhere: {reached} states reached, {len(missed)} of them none of the package's, "
        f"{unseen} of the package's not reached"
    )
    for one in missed:
        print("  ", one)
    ways()


def ways() -> None:
    """The way up from rest beside one over a curve followed in small steps."""
    for case in draw_in_wind(BOATS, SEED)[:WAYS]:
        winds = np.array([(case.wind, case.angle, *case.heels)])
        nothing = np.zeros((1, 0))
        found = all_in_wind(
            case.row, case.boat.tables, case.water, case.roughness, NO_CHANGE, nothing, winds, threads=1
        )
        theirs = WayUp(*(float(v) for v in found.ways[0]))
        ours = way_up(curve_from(sailor(case), 3.5), case.water.gravity)
        for name in ("speed", "take_off", "seconds", "hump", "hump_speed", "slowest"):
            own, other = getattr(ours, name), getattr(theirs, name)
            print(f"  {case.base} {name:10} {-1.0 if own is None else own:.4f} {other:.4f}", flush=True)


def away(own, theirs) -> float:
    """How far a state lies from the nearest of the package's, in scales."""
    if not len(theirs):
        return float("inf")
    return float(np.abs((own - theirs[:, :6]) / SCALES).max(axis=1).min())


if __name__ == "__main__":
    main()
