"""The hump: the least thrust to spare on the way into flight, and what makes it, part by part."""

from collections.abc import Sequence
from typing import NamedTuple

from foilwright.flight.sailing_in_wind import CurvePoint


class Hump(NamedTuple):
    """The dip of the surplus before take-off. SI."""

    speed: float  # [m/s]
    surplus: float  # of thrust over drag there [N]; negative: the boat does not get over it
    thrust: float  # of the sail [N]
    drag_by_part: dict[str, float]  # [N], the largest first
    change_by_part: dict[str, float]  # of drag, from the most surplus before it [N], the largest first
    thrust_change: float  # of the sail, from there [N]


def hump_of(curve: Sequence[CurvePoint]) -> Hump | None:
    """The hump of a curve of surplus; None where no point of it is in the water and holds itself.

    Compared with the slower point that has the most surplus, so that it can be told what grew: drag of which
    part, or loss of thrust.
    """
    wet = [point for point in curve if point.holds and point.state != "flying"]
    if not wet:
        return None
    least = min(wet, key=lambda point: point.surplus)
    before = max(
        (point for point in wet if point.speed <= least.speed), key=lambda point: point.surplus, default=least
    )
    change = {name: drag - before.drag_by_part.get(name, 0.0) for name, drag in least.drag_by_part.items()}
    return Hump(
        least.speed,
        least.surplus,
        least.thrust,
        largest_first(least.drag_by_part),
        largest_first(change),
        least.thrust - before.thrust,
    )


def largest_first(parts: dict[str, float]) -> dict[str, float]:
    """The same, ordered."""
    return dict(sorted(parts.items(), key=lambda part: -part[1]))
