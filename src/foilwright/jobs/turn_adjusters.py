"""What turning does: the effects of every adjuster, and one adjuster in steps of another."""

from pathlib import Path
from typing import NamedTuple

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.effect_answers import (
    EffectsAnswer,
    SameAsAnswer,
    effects_answer,
    one_of_two,
    same_as_answer,
)
from foilwright.jobs.conditions import (
    SPEED_LIMITS,
    conditions_from,
    heel_from,
    range_from,
    settings_from,
    speeds_from,
    standing_of,
)
from foilwright.jobs.desk import Settings, Speeds, Who, open_boat, sailor_of
from foilwright.mistakes import Mistake
from foilwright.setup.adjusters import adjuster_named
from foilwright.setup.effects import effects
from foilwright.setup.same_as import same_as
from foilwright.setup.standing import PULL, Standing, compiled_at_hand, flown
from foilwright.setup.take_off_change import take_off, take_off_changes

EFFECT_SPEEDS = "9:18:3"
EFFECT_STEP = 3.0  # [kn]


class Loaded(NamedTuple):
    """A boat with its sailor, as it stands."""

    boat: ReadyBoat
    standing: Standing


def effects_of(
    boat: str | Path | ReadyBoat,
    sailor: Who,
    speeds: Speeds = EFFECT_SPEEDS,
    settings: Settings = (),
    heel: str | float = 0.0,
    water: str | float = "fresh",
    temperature: str | float = 15.0,
) -> EffectsAnswer:
    """What one step of every adjuster and of the sail's pull does, over boat speeds."""
    at = speeds_from(speeds, EFFECT_STEP)
    loaded = _load(boat, sailor, settings, heel, water, temperature)
    standing, fast = loaded.standing, compiled_at_hand()
    states = flown(standing, at, fast)
    table = effects(standing, list(zip(at, states, strict=True)), fast)
    off = take_off(standing, [state for state in states if state is not None], fast)
    return effects_answer(
        loaded.boat.name,
        loaded.boat.version,
        standing.settings,
        table,
        None if off is None else off.speed,
        take_off_changes(standing, off, fast),
    )


def same(
    boat_a: str | Path | ReadyBoat,
    adjuster_a: str,
    boat_b: str | Path | ReadyBoat,
    adjuster_b: str,
    sailor: Who,
    speed: str | float = 12.0,
    sailor_b: Who | None = None,
    heel: str | float = 0.0,
    water: str | float = "fresh",
    temperature: str | float = 15.0,
) -> SameAsAnswer:
    """How many steps of B's adjuster do what one step of A's does, and what that leaves over."""
    speeds = range_from(f"{speed}", "kn", 1.0, SPEED_LIMITS, "--speed")
    if len(speeds) != 1:
        raise Mistake("--speed", f"`{speed}`", "one boat speed in kn", "Write for example --speed 12.")
    sides = []
    for boat, name, who in ((boat_a, adjuster_a, sailor), (boat_b, adjuster_b, sailor_b or sailor)):
        loaded = _load(boat, who, (), heel, water, temperature)
        if name != PULL:
            adjuster_named(loaded.boat.adjusters, name, loaded.boat.name)
        sides.append((loaded, name, flown(loaded.standing, speeds, False)[0]))
    (a, name_a, state_a), (b, name_b, state_b) = sides
    found = same_as(a.standing, state_a, name_a, b.standing, state_b, name_b)
    first, second = (
        one_of_two(one.boat.name, one.boat.version, name, one.standing.settings) for one, name, _ in sides
    )
    return same_as_answer(speeds[0], first, second, found)


def _load(
    boat: str | Path | ReadyBoat,
    sailor: Who,
    settings: Settings,
    heel: str | float,
    water: str | float,
    temperature: str | float,
) -> Loaded:
    who = sailor_of(sailor)
    lean = heel_from(heel)
    around = conditions_from(water, temperature)
    ready_boat = boat if isinstance(boat, ReadyBoat) else open_boat(boat)
    present = settings_from(ready_boat, settings)
    return Loaded(ready_boat, standing_of(ready_boat, present, who, around.water, lean))
