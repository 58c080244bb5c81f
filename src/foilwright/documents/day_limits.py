"""The limits a centre may enter for itself, and how a day stands against them.

Nothing here permits anything. A limit comes out as *exceeded*, *unknown* or *not exceeded*; the first two are
shown alike, the last is not shown as a permission anywhere. Which limits a centre has is its own decision.
"""

from typing import Literal, NamedTuple, get_args

What = Literal[
    "mean-wind-most",
    "mean-wind-least",
    "gust-most",
    "gust-factor-most",
    "wave-height-most",
    "water-temperature-least",
    "air-temperature-least",
    "depth-at-slip-least",
    "depth-in-area-least",
    "boats-per-safety-boat-most",
    "daylight-left-least",
]
WHATS: tuple[What, ...] = get_args(What)


class Kind(NamedTuple):
    """One kind of limit: in words, its unit, whether it is the most or the least, what of the day."""

    words: str
    unit: str
    most: bool
    of_the_day: str


KINDS: dict[What, Kind] = {
    "mean-wind-most": Kind("mean wind at 10 m", "kn", True, "the wind"),
    "mean-wind-least": Kind("mean wind at 10 m", "kn", False, "the wind"),
    "gust-most": Kind("gusts at 10 m", "kn", True, "the gusts"),
    "gust-factor-most": Kind("gusts over mean wind", "", True, "the gusts"),
    "wave-height-most": Kind("wave height", "cm", True, "the wave height"),
    "water-temperature-least": Kind("water temperature", "C", False, "the water temperature"),
    "air-temperature-least": Kind("air temperature", "C", False, "the air temperature"),
    "depth-at-slip-least": Kind("depth at the slip", "m", False, "the depth at the slip"),
    "depth-in-area-least": Kind("depth in the area", "m", False, "the depth in the area"),
    "boats-per-safety-boat-most": Kind("boats a safety boat", "", True, "the safety boats"),
    "daylight-left-least": Kind("daylight after the last is ashore", "min", False, "the sunset"),
}

EXCEEDED, UNKNOWN, NOT_EXCEEDED = "exceeded", "unknown", "not exceeded"


class Entered(NamedTuple):
    """A limit as entered: its number in the unit of its kind, or none where it was left blank."""

    what: What
    value: float | None
    stage: str | None
    boat: str | None
    by: str
    date: str


class Standing(NamedTuple):
    """How the day stands against one limit.

    how      exceeded, unknown or not exceeded
    today    what the day has [unit of the kind], or none
    missing  what is not known: "the limit", or what of the day
    """

    limit: Entered
    how: str
    today: float | None
    missing: str = ""


class Facts(NamedTuple):
    """What the day says about each kind of limit [in the unit of the kind], where it says anything.

    The wind counts at its strong end for a most and at its light end for a least.
    """

    values: dict[What, float | None]


def standing_of(limit: Entered, facts: Facts) -> Standing:
    """The day against one limit."""
    kind = KINDS[limit.what]
    today = facts.values.get(limit.what)
    if limit.value is None:
        return Standing(limit, UNKNOWN, today, "the limit")
    if today is None:
        return Standing(limit, UNKNOWN, None, kind.of_the_day)
    beyond = today > limit.value if kind.most else today < limit.value
    return Standing(limit, EXCEEDED if beyond else NOT_EXCEEDED, today)


def not_entered(limits: tuple[Entered, ...]) -> tuple[What, ...]:
    """Kinds of limit that the centre has not entered at all."""
    entered = {limit.what for limit in limits}
    return tuple(what for what in WHATS if what not in entered)
