"""How many steady states the search misses, and what a full answer costs: against steps six times as fine.

Run from the repository's root: PYTHONPATH=src python studies/how_wrong/missed.py
"""

from typing import Any

import numpy as np

from foilwright.compiled import plain
from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ready
from foilwright.documents.examples import example
from foilwright.flight import every_state, lift_line, trim_at_speed
from foilwright.flight.at_speed import case_of
from foilwright.flight.loads import N_ITEMS, loads
from foilwright.flight.trim_at_speed import FOUND_SIZE, LINE_SIZE, MOST_STATES, Case, Work
from foilwright.setup.adjusters import turned
from foilwright.water.properties import water_at

KNOT = 1852.0 / 3600.0
BOATS = ("marram", "pipkin", "sedge")
SPEEDS_KN = np.arange(5.0, 20.1, 1.0)
SETTINGS = 4  # random settings a boat and speed, the mark beside them
calls = 0


def counted(*given: Any) -> Any:
    """The loads, counted."""
    global calls
    calls += 1
    return loads(*given)


def found(case: Case, finer: float) -> tuple[np.ndarray, int, int]:
    """Every state with steps so many times finer: rows, searches given up, evaluations."""
    global calls
    calls = 0
    rows = round(96 * finer)
    lift_line.MOST_ROWS = every_state.MOST_ROWS = rows
    lift_line.FIRST_LENGTH = 0.7 / finer
    lift_line.USUAL = 0.8 / finer
    lift_line.LONGEST = 3.0 / finer
    states = np.zeros((MOST_STATES, FOUND_SIZE))
    work = Work(np.zeros((N_ITEMS, 6)), np.zeros((rows, LINE_SIZE)), states)
    count, lost = every_state.steady_states(case, plain(work))
    return states[:count], lost, calls


def main() -> None:
    """Prints one line a boat."""
    trim_at_speed.loads = counted
    random = np.random.default_rng(1)
    print(
        "| boat | cases | without a state | states | missed by the steps in use | gave up "
        "| evaluations: median, most |"
    )
    print("|---|---|---|---|---|---|---|")
    for name in BOATS:
        boat = ready(read_boat(example(name)))
        cases = empty = total = missed = gave_up = 0
        costs = []
        for speed in SPEEDS_KN:
            for k in range(SETTINGS + 1):
                setting = {
                    a.name: float(random.uniform(a.least, a.greatest)) if k else 0.0 for a in boat.adjusters
                }
                row = turned(boat.row, boat.adjusters, setting)
                case = case_of(row, boat.tables, water_at(), speed * KNOT, 0.0)
                fine, _, _ = found(case, 6.0)
                rough, lost, cost = found(case, 1.0)
                cases += 1
                empty += len(fine) == 0
                total += len(fine)
                gave_up += lost
                costs.append(cost)
                gone = [f for f in fine if not any(np.abs(f[:2] - r[:2]).max() < 1e-6 for r in rough)]
                missed += len(gone)
                for f in gone:
                    where = f"height {f[0]:.4f} trim {np.degrees(f[1]):.3f} stable {f[2]:.0f}"
                    print(f"    {name} {speed:g} kn {setting}: missed {where}; {len(fine)} states")
        cost = f"{np.median(costs):.0f}, {max(costs)}"
        print(f"| {name} | {cases} | {empty} | {total} | {missed} | {gave_up} | {cost} |")


if __name__ == "__main__":
    main()
