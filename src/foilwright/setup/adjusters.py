"""Adjusters: what one step of a barrel, a hole, a grip or a choice changes in the boat's row of numbers."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

import numpy as np

from foilwright.measures import Floats
from foilwright.mistakes import Mistake


@dataclass(frozen=True)
class Adjuster:
    """One adjuster, counted in steps from its mark.

    numbers  indices into the boat's row
    steps    the whole steps of its range [steps], rising
    amounts  change of each number at each of them, from its value at the mark [steps, numbers]; SI
    """

    name: str
    numbers: tuple[int, ...]
    steps: Floats
    amounts: Floats

    @property
    def least(self) -> float:
        """The lower end of its range [steps]."""
        return float(self.steps[0])

    @property
    def greatest(self) -> float:
        """The upper end of its range [steps]."""
        return float(self.steps[-1])


def change_at(adjuster: Adjuster, steps: float) -> Floats:
    """Change of each of the adjuster's numbers at a setting [steps]; straight between whole steps.

    Beyond the range the last straight piece is carried on, so that slopes can be taken at its ends.
    """
    at = adjuster.steps
    k = min(max(int(np.searchsorted(at, steps, side="right")) - 1, 0), len(at) - 2)
    share = (steps - at[k]) / (at[k + 1] - at[k])
    return np.asarray(adjuster.amounts[k] + share * (adjuster.amounts[k + 1] - adjuster.amounts[k]))


def adjuster_named(adjusters: Sequence[Adjuster], name: str, where: str = "--set") -> Adjuster:
    """The adjuster of this name, or a Mistake that suggests the nearest one."""
    for adjuster in adjusters:
        if adjuster.name == name:
            return adjuster
    names = [adjuster.name for adjuster in adjusters]
    near = get_close_matches(name.lower().replace("_", "-").replace(" ", "-"), names, n=1, cutoff=0.5)
    if near:
        mend = f"Did you mean {near[0]}?"
    else:
        mend = "Use a name from the list, or add the adjuster to the boat file."
    allowed = f"the boat's adjusters: {', '.join(names)}" if names else "nothing: this boat has no adjusters"
    raise Mistake(where, f"an adjuster `{name}` that this boat does not have", allowed, mend)


def check_setting(adjuster: Adjuster, steps: float, where: str = "--set") -> None:
    """Raises a Mistake where a setting [steps] is no number or outside the adjuster's range."""
    if not adjuster.least - 1e-9 <= steps <= adjuster.greatest + 1e-9:
        nearest = adjuster.greatest if steps > adjuster.greatest else adjuster.least
        raise Mistake(
            where,
            f"{adjuster.name} = {steps:g} steps, which is outside its range",
            f"{adjuster.least:+g} to {adjuster.greatest:+g} steps from the mark",
            f"The nearest it can stand is {adjuster.name}={nearest:+g}.",
        )


def turned(
    row: Floats, adjusters: Sequence[Adjuster], settings: Mapping[str, float], where: str = "--set"
) -> Floats:
    """A new row: `row` with its adjusters at their marks, each setting [steps from the mark] applied.

    Changes of several adjusters add up.
    """
    new = row.copy()
    for name, steps in settings.items():
        adjuster = adjuster_named(adjusters, name, where)
        check_setting(adjuster, steps, where)
        new[list(adjuster.numbers)] += change_at(adjuster, steps)
    return new
