"""foilwright: how a centreline foiling dinghy flies, and its setup card.

    import foilwright

    boat = foilwright.read_boat("examples/boats/marram.toml")
    answer = foilwright.fly(boat, sailor=75, speeds=[10, 14, 18])

The public names are those of `__all__`; they are loaded when first asked for, so that importing the
package is quick. Units at this door are sailors' units and stand in every key of an answer.
docs/reference/api.md describes each name.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from foilwright.documents.boat_numbers import ReadyBoat
    from foilwright.documents.examples import example
    from foilwright.jobs.demonstrate import demo
    from foilwright.jobs.desk import card, chain, check, fly
    from foilwright.jobs.desk import open_boat as read_boat
    from foilwright.jobs.measure_bench import measure_bench as bench
    from foilwright.jobs.prepare_day import prepare_day as day
    from foilwright.jobs.sail_boat import sail
    from foilwright.jobs.steer_boat import steer
    from foilwright.jobs.turn_adjusters import effects_of as effects
    from foilwright.jobs.turn_adjusters import same as same_as
    from foilwright.mistakes import Mistake, Mistakes

__all__ = [
    "read_boat",
    "example",
    "check",
    "chain",
    "fly",
    "effects",
    "same_as",
    "bench",
    "card",
    "sail",
    "steer",
    "day",
    "demo",
    "ReadyBoat",
    "Mistake",
    "Mistakes",
]

_HOMES = {
    "read_boat": ("foilwright.jobs.desk", "open_boat"),
    "example": ("foilwright.documents.examples", "example"),
    "check": ("foilwright.jobs.desk", "check"),
    "chain": ("foilwright.jobs.desk", "chain"),
    "fly": ("foilwright.jobs.desk", "fly"),
    "effects": ("foilwright.jobs.turn_adjusters", "effects_of"),
    "same_as": ("foilwright.jobs.turn_adjusters", "same"),
    "bench": ("foilwright.jobs.measure_bench", "measure_bench"),
    "card": ("foilwright.jobs.desk", "card"),
    "sail": ("foilwright.jobs.sail_boat", "sail"),
    "steer": ("foilwright.jobs.steer_boat", "steer"),
    "day": ("foilwright.jobs.prepare_day", "prepare_day"),
    "demo": ("foilwright.jobs.demonstrate", "demo"),
    "ReadyBoat": ("foilwright.documents.boat_numbers", "ReadyBoat"),
    "Mistake": ("foilwright.mistakes", "Mistake"),
    "Mistakes": ("foilwright.mistakes", "Mistakes"),
}


def __getattr__(name: str) -> Any:
    """Loads a public name when it is first asked for."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    module, attribute = _HOMES[name]
    found = getattr(import_module(module), attribute)
    globals()[name] = found
    return found


def __dir__() -> list[str]:
    return sorted(__all__)
