"""Every sentence about turning an adjuster, apart from code. Plain English; nothing here permits anything."""

MORE, LESS = "{number} {unit} more", "{number} {unit} less"
DISTANCE = "{number} {unit} {way}"
HOW = "{how}"
HOW_BACK = "the other way round from: {how}"
OPPOSITE = {"aft": "forward", "forward": "aft", "up": "down", "down": "up", "out": "in", "in": "out"}

THEN = "{first}; then {then}"
EXPECT = "{turn} ({height}, {bow})"
HIGHER, LOWER = "{height} mm higher", "{height} mm lower"
BOW_UP, BOW_DOWN, BOW_SAME = "bow up {bow}°", "bow down {bow}°", "bow as before"
ADVICE = {
    "look for drag and power": "slow? first weed, course, sheet, sail; at full speed",
    "look again": "and look again",
    "change nothing": "change nothing",
}
NOTHING_FITS = "no adjuster of this boat does that: ask"

INSIDE = "Change nothing: height and bow are inside their bands at every speed."
KNOWN = (
    "Change nothing: what is worked out lies outside the bands by less than the boat is known "
    "(height to ± {height} mm at {at}, bow to ± {bow}° at {bow_at}). Measure more before turning anything."
)
NOTHING_BETTER = "Change nothing: no change of up to three adjusters is worth making."
NO_FLIGHT = "Change nothing: the boat does not fly at these speeds, so nothing was chosen."
ABOVE = "Now up to {height} mm above the band (at {speed}: {there}, band up to {end})."
BELOW = "Now up to {height} mm below the band (at {speed}: {there}, band from {end})."
TOO_BOW_UP = "Now the bow is up to {bow}° above its band (at {speed}: {there})."
TOO_BOW_DOWN = "Now the bow is up to {bow}° below its band (at {speed}: {there})."
MOVE = "{place}: {turn}. At {speed} that makes it {height}, {bow}."
PLACES = ("First", "Then", "Last")
LOWER_FIRST = "What lowers the boat comes first, so that it is never above its band on the way."
PEOPLE_FIRST = "The sailor's place comes before any part."
STILL = "After that: {left}."
STILL_ABOVE = "still up to {height} mm above the band at {speed}"
STILL_BELOW = "still up to {height} mm below the band at {speed}"
STILL_BOW = "the bow still up to {bow}° outside its band at {speed}"
KEPT = "After that height and bow are inside their bands at every speed."
SHORT = "{margin} is {by} short of what is kept, at {speed}."
NOT_FLYING = "At {speed} the hull would be in the water."
TRIED = (
    "{scored} settings were scored and {solved} solved; no other could do better as far as the scores reach."
)
TRIED_NOT_ALL = "{scored} settings were scored and the best {solved} solved; a better one may be left."
