"""A second implementation of chain and balance against the package, on 300 random boats.

Run from the repository's root: PYTHONPATH=src python studies/second_opinion/compare.py
"""

import sys
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.second_opinion.compare import (
    Difference,
    difference,
    flyer,
    nearest,
    states_of_the_package,
)
from tests.second_opinion.draws import draw

BOATS = 300
ALONE = 60  # of them searched with no start from the package
SEED = 20
# quantity, unit, factor from SI
SHOWN = (
    ("height", "mm", 1e3),
    ("trim", "deg", 180 / np.pi),
    ("wand", "deg", 180 / np.pi),
    ("foil", "deg", 180 / np.pi),
    ("force", "of weight", 1.0),
    ("pitching", "m", 1.0),
    ("rolling", "m", 1.0),
    ("relative_force", "of it", 1.0),
    ("drag", "of it", 1.0),
)


def main() -> None:
    rng = np.random.default_rng(SEED)
    misses: list[tuple[bool, str, Difference]] = []
    away, alone, unseen, none = [], [], 0, 0
    for k, case in enumerate(draw(BOATS, SEED)):
        ours, theirs = flyer(case), states_of_the_package(case)
        none += not theirs
        for state in theirs:
            misses.append((case.heel != 0, state.state, difference(ours, state)))
            solved = ours.solve_near(
                state.height + rng.uniform(-0.03, 0.03), state.trim + rng.uniform(-0.01, 0.01)
            )
            if solved is not None:
                away.append(nearest(theirs, solved))
        if k < ALONE:
            found = ours.solve()
            unseen += len(theirs) - len(found)
            alone.extend(nearest(theirs, state) for state in found)
    states = [state for _, state, _ in misses]
    print(
        f"{BOATS} boats, {none} without a state, {len(misses)} states: "
        + ", ".join(f"{states.count(name)} {name}" for name in sorted(set(states)))
    )
    for heeled, title in ((False, "upright"), (True, "heeled")):
        group = [miss for at_heel, _, miss in misses if at_heel == heeled]
        print(f"{title}, {len(group)} states")
        for name, unit, factor in SHOWN:
            sizes = np.abs([getattr(miss, name) for miss in group]) * factor
            print(f"  {name:15} max {sizes.max():.1e}  median {np.median(sizes):.1e} {unit}")
    for title, found_at in (("solved from a place away", away), ("searched alone", alone)):
        sizes = np.abs(np.array(found_at)) * (1e3, 180 / np.pi)
        largest, middle = sizes.max(axis=0), np.median(sizes, axis=0)
        print(f"{title}, {len(found_at)} states: height max {largest[0]:.1e} median {middle[0]:.1e} mm")
        print(f"  trim max {largest[1]:.1e} median {middle[1]:.1e} deg")
    print(f"searched alone: {ALONE} boats; our grid of a degree misses {unseen} states of the package")


if __name__ == "__main__":
    main()
