"""A boat that is looked at anywhere, balanced or not: as it stands, or with one thing moved by some steps."""

from collections.abc import Sequence
from functools import cached_property
from math import cos, sin

import numpy as np

from foilwright.compiled import plain
from foilwright.flight import look
from foilwright.flight.at_speed import case_of, scratch
from foilwright.flight.boat import row_names
from foilwright.flight.many import looks_at
from foilwright.flight.trim_at_speed import Case, balance
from foilwright.measures import Floats
from foilwright.setup.standing import Reading, Standing, reading, reading_of, stepped
from foilwright.water.hull import lowest_point

MAIN_X = row_names(0).index("main.x")
NO_NUMBERS = np.zeros(0, dtype=np.int64)


class Trial:
    """One row of numbers in the water of a standing boat, plain or compiled.

    row         its numbers, settings and crew in them [SI];  pull_share  of resistance
    fast        uses the compiled kernel, which must be at hand
    """

    def __init__(self, standing: Standing, row: Floats, pull_share: float = 1.0, fast: bool = False) -> None:
        self.standing, self.row, self.pull_share, self.fast = standing, row, pull_share, fast

    @cached_property
    def case(self) -> Case:
        """The same for the plain run; its speed is to be replaced."""
        at = self.standing
        return case_of(self.row, at.tables, at.water, 1.0, at.heel, self.pull_share)

    def lowest(self, height: float, trim: float) -> float:
        """The hull's lowest point over the water [m]."""
        heel, hull = self.standing.heel, self.standing.tables.hull
        x = float(self.row[MAIN_X])
        return float(lowest_point(hull, height, sin(trim), cos(trim), sin(heel), cos(heel), x))

    def moved(self, name: str, steps: float) -> "Trial":
        """With one thing moved from where it is."""
        change, pull = stepped(self.standing, name, steps)
        return Trial(self.standing, self.row + change, self.pull_share + pull, self.fast)

    def seen(self, points: Sequence[tuple[float, float, float]]) -> Floats:
        """What `flight.look` sees [points, LOOK_SIZE] at boat speeds [m/s], heights [m] and trims [rad]."""
        at, where = self.standing, np.array(points).reshape(-1, 3)
        none, speeds = np.zeros((len(where), 0)), np.ascontiguousarray(where[:, 0])
        given = (self.row, at.tables, at.water, NO_NUMBERS, none, speeds)
        return looks_at(*given, where[:, 1:], at.heel, self.pull_share)

    def readings(self, points: Sequence[tuple[float, float, float]]) -> list[Reading]:
        """A reading at every point."""
        if not self.fast:
            return [reading(self.case._replace(speed=speed), h, t) for speed, h, t in points]
        return [reading_of(one) for one in self.seen(points)]

    def balance(self, speed: float, height: float, trim: float) -> tuple[float, float]:
        """What is left of heave and pitch, as `trim_at_speed.balance` has it."""
        if self.fast:
            [one] = self.seen([(speed, height, trim)])
            return float(one[look.LIFT_LEFT]), float(one[look.PITCH_LEFT])
        return balance(self.case._replace(speed=speed), height, trim, plain(scratch().items))
