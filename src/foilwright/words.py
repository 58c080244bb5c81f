"""The glossary as data: one word for one thing, with unit, decimals and positive direction.

It feeds command help, JSON keys, error messages and `docs/reference/words.md`. Nothing here computes.
"""

from math import isfinite
from typing import NamedTuple

from foilwright.units import BY_ENDING, BY_SYMBOL


class Quantity(NamedTuple):
    """One quantity word.

    name      as used in names, without its unit
    meaning   in words
    unit      its unit in SI, as computed with
    shown     its unit as shown to people
    decimals  as shown
    positive  which way is positive; empty where it cannot be negative or needs no saying
    more      words for a positive and a negative value on screens and paper, where a sign would be no help
    """

    name: str
    meaning: str
    unit: str
    shown: str
    decimals: int
    positive: str = ""
    more: tuple[str, str] | None = None


class Word(NamedTuple):
    """One word for a part, a state or a thing."""

    name: str
    meaning: str


QUANTITIES: tuple[Quantity, ...] = (
    Quantity("boat_speed", "speed over the water", "m/s", "kn", 1),
    Quantity("wind", "true wind at 10 m height", "m/s", "kn", 1),
    Quantity("wind_angle", "between the course and where the wind comes from, 0 to 180", "rad", "deg", 0),
    Quantity(
        "made_good", "part of the boat speed straight to or from the wind", "m/s", "kn", 1, "to the wind"
    ),
    Quantity(
        "ride_height", "keel line at the main strut above the undisturbed surface", "m", "m", 2, "flying"
    ),
    Quantity("trim", "bow angle", "rad", "deg", 1, "bow up", ("bow up", "bow down")),
    Quantity("heel", "heel", "rad", "deg", 0, "to leeward", ("to leeward", "to windward")),
    Quantity(
        "leeway",
        "between where the boat points and its course",
        "rad",
        "deg",
        1,
        "the boat moves to leeward of where it points",
    ),
    Quantity(
        "rudder",
        "rudder angle",
        "rad",
        "deg",
        1,
        "turns the boat to leeward (bears away)",
        ("bearing away", "heading up"),
    ),
    Quantity("depth", "foil plane below the surface", "m", "m", 2, "down"),
    Quantity(
        "wand",
        "wand angle aft of the body-vertical; 0 straight down, 90 straight aft",
        "rad",
        "deg",
        0,
        "aft",
    ),
    Quantity(
        "foil",
        "foil angle: of the flap, or of a whole foil's chord to the keel line",
        "rad",
        "deg",
        1,
        "trailing edge down, or leading edge up: more lift",
    ),
    Quantity("incidence", "foil incidence: chord line to keel line", "rad", "deg", 1, "leading edge up"),
    Quantity("flap", "flap angle", "rad", "deg", 1, "trailing edge down: more lift"),
    Quantity("rake", "rudder rake", "rad", "deg", 1, "foot of the rudder forward"),
    Quantity("gearing", "foil degrees per wand degree", "", "", 3, "wand aft gives more foil angle"),
    Quantity("transmission", "least angle between a rod and the arm it drives, up to 90", "rad", "deg", 0),
    Quantity("slop", "lost motion: how far the foil can move with the wand held still", "rad", "deg", 1),
    Quantity("locks_at", "wand angle where the chain locks", "rad", "deg", 0),
    Quantity("rod_travel", "travel of a push rod", "m", "mm", 1, "away from the wand"),
    Quantity("main_lift", "lift of the main foil", "N", "N", 0, "up"),
    Quantity("rudder_lift", "lift of the rudder foil", "N", "N", 0, "up"),
    Quantity("buoyancy", "lift of the hull, afloat and planing", "N", "N", 0, "up"),
    Quantity("drag", "drag of everything together, along the course", "N", "N", 0, "aft"),
    Quantity("power", "share of full sail force: 1 full, easing towards a luffing sail", "", "", 2),
    Quantity("hiking", "share of full hiking in use", "", "%", 0),
    Quantity("take_off_speed", "slowest boat speed at which the boat can fly", "m/s", "kn", 1),
    Quantity("take_off_wind", "lightest wind at which the boat can get flying", "m/s", "kn", 1),
    Quantity("keeps_flying_wind", "lightest wind that keeps a flying boat flying", "m/s", "kn", 1),
    Quantity("yaw_rate", "rate of turn", "rad/s", "deg/s", 1, "to leeward"),
    Quantity("turn_radius", "radius of a turn", "m", "m", 0),
    Quantity("side_acceleration", "acceleration sideways", "m/s2", "m/s2", 1, "to leeward"),
    Quantity("yaw_rate_heeled", "rate of turn with the heel at which nobody need move", "rad/s", "deg/s", 1),
    Quantity("roll_moment", "moment that rolls the boat", "N m", "N m", 0, "to leeward"),
    Quantity("crew_out", "place of the crew", "m", "mm", 0, "out to windward"),
    Quantity("settling", "time in which a disturbance of the course falls to a third", "s", "s", 2),
    Quantity("tiller_force", "force of the water at the tiller's end", "N", "N", 1, "back to amidships"),
    Quantity("tiller_force_first", "the same before the boat has begun to turn", "N", "N", 1),
    Quantity("hand_force", "stray pull of the hand at the tiller's end", "N", "N", 1),
    Quantity("keep_within", "rudder angle that a stray hand may make", "rad", "deg", 1),
    Quantity("kept_within", "rudder angle that a stray hand does make", "rad", "deg", 1),
    Quantity("tiller_length", "steering axis to the end of the tiller", "m", "m", 2),
    Quantity("axis_ahead", "steering axis ahead of the strut's quarter chord", "m", "mm", 0),
    Quantity("stiffness", "of one tiller elastic", "N/m", "N/m", 0),
    Quantity("pretension", "pull of each tiller elastic with the tiller amidships", "N", "N", 1),
    Quantity("least_pretension", "below it one side goes slack at once", "N", "N", 1),
    Quantity("most_pretension", "above it a meant turn is heavy", "N", "N", 1),
    Quantity("stretch", "stretch of each tiller elastic with the tiller amidships", "m", "mm", 0),
    Quantity("tiller_travel", "travel of the tiller's end", "m", "mm", 0),
    Quantity("pull", "force at the tiller's end to hold a rudder angle", "N", "N", 1),
    Quantity("most_pull", "the same, above which it is heavy", "N", "N", 1),
    Quantity("from_boat_speed", "slowest boat speed that counts", "m/s", "kn", 1),
    Quantity("to_boat_speed", "fastest boat speed that counts", "m/s", "kn", 1),
    Quantity("mass", "mass", "kg", "kg", 0),
    Quantity("span", "from tip to tip", "m", "m", 2),
    Quantity("area", "area seen from above", "m2", "m2", 3),
    Quantity(
        "steps", "setting of an adjuster, counted from its mark", "", "steps", 1, "as the adjuster says"
    ),
    Quantity(
        "back",
        "swing check: trailing edge at the root with the wand hard back, from foil angle 0",
        "m",
        "mm",
        0,
        "down",
        ("down", "up"),
    ),
    Quantity(
        "forward",
        "swing check: trailing edge at the root with the wand at its forward stop",
        "m",
        "mm",
        0,
        "down",
        ("down", "up"),
    ),
    Quantity(
        "middle",
        "swing check: trailing edge at the root with the wand held between its stops",
        "m",
        "mm",
        1,
        "down",
        ("down", "up"),
    ),
    Quantity("main_stripes", "stripes showing at the main strut", "", "", 1),
    Quantity("rudder_stripes", "stripes showing at the rudder strut", "", "", 1),
    Quantity("rms", "root of the mean square of what is left over after a fit", "rad", "deg", 2),
    Quantity("run", "distance or time sailed before taking off", "s", "s", 0),
    # margins: what is left, positive inside; of the two foils the worse counts
    Quantity("stall", "margin: angle left to the stall, worse foil", "rad", "deg", 1, "inside"),
    Quantity("tip_depth", "margin: depth of the shallowest foil tip", "m", "mm", 0, "inside"),
    Quantity("ventilation", "margin: strut angle left before air is drawn down", "rad", "deg", 1, "inside"),
    Quantity("touchdown", "margin: lowest point of the hull above the surface", "m", "mm", 0, "inside"),
    Quantity("cavitation", "margin: speed left to cavitation", "m/s", "kn", 1, "inside"),
    Quantity("wand_stop", "margin: wand angle left to its nearer stop", "rad", "deg", 0, "inside"),
    Quantity("foil_stop", "margin: foil angle left to its nearer stop", "rad", "deg", 1, "inside"),
    Quantity(
        "rudder_reversal", "margin: rudder-foil lift left before it changes sign", "N", "N", 0, "inside"
    ),
    Quantity(
        "wand_contact",
        "margin: largest wave amplitude that the wand follows at a stated period",
        "m",
        "mm",
        0,
        "inside",
    ),
)
BY_NAME: dict[str, Quantity] = {quantity.name: quantity for quantity in QUANTITIES}

PARTS: tuple[Word, ...] = (
    Word("centreline foiler", "a dinghy that flies on two T-foils, both on the centreline"),
    Word("main foil, main strut", "the forward lifting foil and the vertical that carries it"),
    Word("rudder foil, rudder strut", "the aft pair"),
    Word(
        "flap, whole foil",
        "the two ways a main foil is controlled: a hinged trailing edge, or the whole foil pivots",
    ),
    Word("wand", "the surface feeler at the bow; its tip is the paddle, its hinge the wand pivot"),
    Word("wand elastic", "the elastic that drives the wand forward; its pull is the wand tension"),
    Word("tiller elastic", "the elastic that centres the tiller"),
    Word("push rod, lever, bell crank, horn", "the chain from wand to foil"),
    Word("adjuster", "anything the sailor or coach can change, counted in steps from its mark"),
    Word(
        "mark",
        "where an adjuster's count starts, with a ruler reading so that a lost count can be found again",
    ),
    Word("stop", "the end of travel of any part"),
    Word("rack", "the structure outboard of the hull that the crew sits on"),
    Word(
        "strut stripes",
        "tape every 100 mm on both struts, so that height and bow angle can be read from another boat",
    ),
)
STATES: tuple[Word, ...] = (
    Word("floating", "the hull carries at least 95 % of the weight"),
    Word("lifting", "the hull carries less than 95 % of the weight"),
    Word("flying", "the hull carries nothing, its lowest point clear of the water"),
    Word(
        "wand touching", "the paddle follows the surface; off the surface the wand rests on its forward stop"
    ),
)
STAGES: tuple[Word, ...] = (
    Word("first-hops", "flights of a few seconds"),
    Word("improving", "flights of 10 to 30 seconds"),
    Word("settled", "flights of minutes"),
    Word("expert", "flies most of the session"),
)
FORMS: tuple[Word, ...] = (
    Word("narrow", "slender hull with racks, one sailor"),
    Word("wide", "dinghy hull that planes, one sailor"),
    Word("two-person", "two sailors"),
)
THINGS: tuple[Word, ...] = (
    Word("setting", "the position of every adjuster, in steps from its own mark"),
    Word("effect", "change of a flight quantity for one step of an adjuster"),
    Word("margin", "distance from a limit, in the limit's own unit, positive inside"),
    Word("nearest limit", "the smallest margin, in words"),
    Word(
        "swing check",
        "ashore, ten seconds: wand to each stop, read the trailing edge at the root in millimetres",
    ),
    Word("assumed", "a number that the boat file did not give, taken from its form of boat, with a band"),
    Word(
        "bench",
        "the boat at a given speed with no wind, heel 0, thrust equal to drag at the centre of effort",
    ),
    Word("take-off", "the start of a flight"),
    Word("touchdown", "the hull hits the water in flight"),
    Word("breach", "a foil tip reaches the surface and lift is lost"),
    Word("ventilation", "air drawn down a strut or to a foil, with sudden loss of force"),
    Word("crew", "the sailors aboard together, in wet kit"),
    Word("in use, in use with a note, out of service", "the three states of a boat"),
)

KEYS: dict[str, str] = {
    "take_off_later_kn": "how much later, at most, since slow flight near the surface makes waves",
    "format": "which document of ours this is",
    "version": "of the format",
    "error": "what was wrong with the input",
    "where": "file and field, or option",
    "came": "what stood there",
    "allowed": "what may stand there",
    "mend": "what to do about it",
    "all": "every mistake found in one document",
    "boat": "name of the boat",
    "boat_version": "ten signs that change whenever the meaning of the boat file does",
    "rows": "one a case, every steady state of it",
    "state": "floating, lifting or flying",
    "stable": "whether a small push in heave and pitch dies out (static)",
    "outcome": "how the computation ended",
    "sentence": "the outcome in a sentence",
    "remedy": "what to do about the outcome",
    "margins": "what is left to each limit",
    "nearest_limit": "the smallest margin, in words",
    "wand_touching": "whether the wand follows the surface",
    "drag_by_part_n": "drag of each part [N]",
    "assumed": "numbers that the boat file did not give",
    "name": "of a number, an adjuster, a document",
    "value": "as taken",
    "low": "lower end of a band",
    "high": "upper end of a band",
    "unit": "of value, low and high",
    "source": "where a number comes from",
    "stop": "which stop is met, if any",
    "swing_check": "trailing edge with the wand at each stop, and held between them",
    "stripes_seen": "stripes seen from another boat, and what they say",
    "ride_height_error_mm": "standard error of a ride height read off stripes",
    "trim_error_deg": "standard error of a bow angle read off stripes",
    "place": "where: the water of a day; of stripes seen, the place in the grid: height, then bow",
    "first_change": "what to change first: afloat, or for stripes seen what the grid says there",
    "adjuster": "which adjuster",
    "linear": "whether two steps do twice what one does",
    "stop_met": "whether a stop spoils the effect",
    "one_more": "one step more, solved again",
    "one_less": "one step less, solved again",
    "first": "the adjuster whose step is to be matched",
    "second": "the adjuster that matches it",
    "within_range": "whether the adjuster can be moved that far",
    "left_over": "what the second adjuster cannot match",
    "miss": "units outside the bands, 10 mm of height or 0.1 degrees of bow each, averaged over speeds",
    "settings": "where each adjuster stands",
    "sheet": "the bench sheet's file",
    "readings": "how many lines were read",
    "fitted": "numbers of the boat before and after the fit",
    "sheet_found": "what the sheet says about itself: how the boat stood, the gauges' zeros",
    "before": "as the file has it",
    "after": "as fitted",
    "standard_error": "how well it is known now",
    "outliers": "lines that do not fit and were not used",
    "line": "number of the line in the sheet",
    "what": "kind of reading",
    "reading": "as read, in the kind's unit",
    "expected": "what the other lines ask for",
    "not_learned": "numbers that the sheet says next to nothing about",
    "together": "pairs that are known only together",
    "names": "of the numbers",
    "correlation": "between two numbers, -1 to 1",
    "warnings": "what to know before believing the numbers",
    "settled": "whether the least was found",
    "new_version": "boat_version of the file written",
    "change": "from where it stands now",
    "reasons": "why these settings",
    "runners_up": "the next best settings",
    "grid": "first change by height (low, right, high) and bow (bow_down, level, bow_up)",
    "right": "the ride height wanted",
    "bow_down": "the bow lower than wanted",
    "level": "the bow as wanted",
    "bow_up": "the bow higher than wanted",
    "file": "written",
    "files": "looked at",
    "path": "of a file",
    "kind": "of document",
    "ok": "whether nothing is wrong",
    "faults": "what is wrong",
    "cards": "setup cards made",
    "summary": "the answer in short",
    "sailor": "who sails",
    "stage": "stage of learning",
    "form": "form of boat, or of card",
    "runs": "from rest to take-off, by true wind angle, in a wind a knot above the take-off wind",
    "least": "the least of all angles looked at",
    "hand_gauge_kn": "the same wind as a hand gauge at 2 m reads it [kn]",
    "at_wind_angle_deg": "the true wind angle of the least [deg]",
    "by_wind_angle_deg": "the same at each true wind angle looked at [kn]",
    "best_upwind": "the state that makes most good to windward, among the angles asked for",
    "best_downwind": "the state that makes most good to leeward, among the angles asked for",
    "holds_course": "whether a small push in sway and yaw dies out, tiller and heel held",
    "tiller_elastic": "the two elastics that centre the tiller",
    "as_asked": "whether it keeps the stray hand inside the angle asked for",
    "turns": "what it takes at the tiller's end to hold a rudder angle",
    "sailors": "who sails, by first name or nickname",
    "by_hand": "whether a person set the pairing",
    "advice": "change nothing, change, measure first, or no flight",
    "better_percent": "of the boats that this one may be, for how many the change is no worse [%]",
    "settings_words": "the two settings that matter most, in the boat's own words",
    "suggested": "settings worth thinking of, each named after what it is best at",
    "gives_up": "what a suggestion gives up to the others",
    "flies_percent": "share of the flights looked at in which it flies [%]",
    "at_height_percent": "share in which it is at the height wanted with its tips deep enough [%]",
    "chosen": "whether it is the one on the sheet",
    "columns": "low, likely and high wind of the day",
    "day": "the prepared day, as `day` answers it",
    "take_off_run_s": "seconds from rest to flying on the quickest course; null: it will not take off",
    "wind_by_hand_kn": "the same wind as a hand gauge at 2 m reads it [kn]",
    "fleet_sheet": "the fleet sheet's file",
    "pencil_slate": "the pencil slate's file",
    "coach": "the coach's view, with reasons and masses: for nobody else",
    "not_today": "who is not proposed for a boat, and the wind or boat that would change it",
    "date": "the day",
    "water": "sea state, depth, temperature and salt, in words",
    "warned": "limits exceeded, unknown or not entered, all alike",
    "absent": "who is not there after all",
    "out_of_service": "boats that get no card, with who and why",
    "changed": "what is not as on the sheet before",
    "tried": "how much was looked at",
    "prospects": "crews in boats",
    "pairings": "complete pairings",
    "how": "enumeration, or integer programme",
    "possible_settings": "how many settings there are",
}
"""Every key of our JSON that is no quantity with its unit."""


def quantity(name: str) -> Quantity:
    """The entry of a quantity word."""
    return BY_NAME[name]


def key_of(name: str) -> str:
    """The JSON key of a quantity: its name with its shown unit, "boat_speed" -> "boat_speed_kn"."""
    unit = BY_NAME[name].shown
    return name if not unit or unit == name else f"{name}_{BY_SYMBOL[unit].ending}"


def is_known_key(key: str) -> bool:
    """Whether a JSON key is a known word: a quantity with a unit, its change or a key of the list."""
    if key in KEYS or key in BY_NAME:
        return True
    stem = key
    parts = key.split("_")
    for i in range(1, len(parts)):
        if "_".join(parts[i:]) in BY_ENDING:
            stem = "_".join(parts[:i])
            break
    return stem in BY_NAME or (stem.endswith("_change") and stem.removesuffix("_change") in BY_NAME)


def unknown_keys(
    answer: object, free: tuple[str, ...] = ("drag_by_part_n", "by_wind_angle_deg")
) -> list[str]:
    """Keys of a JSON answer that the glossary does not know; under the keys in `free` anything may stand."""
    if isinstance(answer, dict):
        own = [str(key) for key in answer if not is_known_key(str(key))]
        return own + [
            k for key, value in answer.items() if key not in free for k in unknown_keys(value, free)
        ]
    if isinstance(answer, list | tuple):
        return [key for value in answer for key in unknown_keys(value, free)]
    return []


def shown(name: str, value: float | None) -> str:
    """A value in SI as people read it: "0.43 m", "bow up 1.2°", "10° to windward"; a dash for none."""
    if value is None or not isfinite(value):
        return "–"
    entry = BY_NAME[name]
    number = value / BY_SYMBOL[entry.shown].in_si if entry.shown else value
    text = f"{number:.{entry.decimals}f}"
    if float(text) == 0.0:
        text = text.removeprefix("-")
    sign = "°" if entry.shown == "deg" else f" {entry.shown}" if entry.shown else ""
    if entry.more is None:
        return text.replace("-", "−") + sign
    text = text.removeprefix("-")
    if float(text) == 0.0:
        return {"trim": "level", "heel": "upright", "rudder": "straight"}.get(name, text + sign)
    words = entry.more[0] if value > 0 else entry.more[1]
    return f"{words} {text}{sign}" if name == "trim" else f"{text}{sign} {words}"


def describe(name: str) -> str:
    """A quantity in one line for command help: meaning, unit, positive direction."""
    entry = BY_NAME[name]
    unit = f" [{entry.shown}]" if entry.shown else ""
    return f"{entry.meaning}{unit}" + (f", positive: {entry.positive}" if entry.positive else "")
