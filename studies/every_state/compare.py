"""The search for steady states against a fine grid: 200 random boats around each demo boat.

Run from the repository's root: PYTHONPATH=src:. python studies/every_state/compare.py
"""

from tests.demo_boats import BOATS
from tests.states_by_grid import against_the_grid

COUNT, SEED = 200, 81

whole = [0, 0, 0, 0, 0]
for name in BOATS:
    met = against_the_grid(name, COUNT, SEED)
    sizes = [met.on_grid, len(met.missed), met.more, met.several, met.gave_up]
    whole = [a + b for a, b in zip(whole, sizes, strict=True)]
    print(f"{name}: {met.on_grid} states on the grid, {len(met.missed)} missed, {met.more} more found,",
          f"{met.several} boats with several, {met.gave_up} gave up", flush=True)  # fmt: skip
    print(*met.missed, sep="\n", end="\n" if met.missed else "")
print(f"{COUNT * len(BOATS)} boats: {whole[0]} states on the grid, {whole[1]} missed, {whole[2]} more found,",
      f"{whole[3]} boats with several, {whole[4]} gave up")  # fmt: skip
