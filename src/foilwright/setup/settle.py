"""The state near a start, found in few looks at the balance where its slopes are known already. Plain Python.

Broyden's rule from known slopes: one look at the balance a round, where a fresh start takes three for its
slopes alone. How far the next step reaches says how far off the state is, so that a search that cannot be of
use any more can be left early.
"""

from math import fabs
from typing import Any

from foilwright.flight.trim_at_speed import SOLVED_TOLERANCE, Case, balance, polished
from foilwright.measures import Floats
from foilwright.smooth import clip

MOST_LOOKS = 12  # then the slopes are taken afresh


class Closing:
    """One search: where it stands, what it misses there, and the step that it would take next.

    height, trim            where it stands [m, rad]
    step_height, step_trim  the step that it would take next
    miss                    largest of what is left of heave and pitch; endless before the first look
    """

    def __init__(self, case: Case, height: float, trim: float, by_state: Floats, items: Any) -> None:
        self.case, self.items = case, items
        self.start = (height, trim)
        self.height, self.trim = height, trim
        self.slopes = [float(by_state[i, j]) for i in (0, 1) for j in (0, 1)]
        self.left = (0.0, 0.0)
        self.step_height = self.step_trim = 0.0
        self.looks = 0
        self.miss = float("inf")

    def look(self) -> None:
        """Takes the step, looks at the balance there, and learns from what came out."""
        step_h, step_t = self.step_height, self.step_trim
        self.height += step_h
        self.trim += step_t
        lift, pitch = balance(self.case, self.height, self.trim, self.items)
        a, b, c, d = self.slopes
        if self.looks:
            size = step_h * step_h + step_t * step_t + 1e-300
            lift_off = (lift - self.left[0] - a * step_h - b * step_t) / size
            pitch_off = (pitch - self.left[1] - c * step_h - d * step_t) / size
            a, b = a + lift_off * step_h, b + lift_off * step_t
            c, d = c + pitch_off * step_h, d + pitch_off * step_t
            self.slopes = [a, b, c, d]
        self.looks += 1
        self.left = (lift, pitch)
        self.miss = max(fabs(lift), fabs(pitch))
        determinant = a * d - b * c
        if determinant * determinant < 1e-20:
            self.looks = MOST_LOOKS
            return
        self.step_height = clip(-(d * lift - b * pitch) / determinant, -0.1, 0.1)
        self.step_trim = clip(-(a * pitch - c * lift) / determinant, -0.03, 0.03)

    def found(self, tolerance: float) -> bool | None:
        """True where it has settled, None where it has not yet, False where there is nothing near."""
        if self.miss <= tolerance:
            return True
        if self.looks < MOST_LOOKS:
            return None
        self.height, self.trim, self.miss, _ = polished(self.case, *self.start, self.items)
        return self.miss <= SOLVED_TOLERANCE


def settled(
    case: Case, start: tuple[float, float], by_state: Floats, items: Any, tolerance: float = SOLVED_TOLERANCE
) -> tuple[float, float] | None:
    """Height [m] and trim [rad] of the state near a start, from known slopes [2, 2]; None without one."""
    closing = Closing(case, *start, by_state, items)
    while closing.found(tolerance) is None:
        closing.look()
    return (closing.height, closing.trim) if closing.miss <= max(tolerance, SOLVED_TOLERANCE) else None
