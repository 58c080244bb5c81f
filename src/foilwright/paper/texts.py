"""Every sentence of the setup card, apart from code, so that another language can be put beside it.

Plain English that a twelve-year-old can read. Nothing here permits anything: no sentence says that a boat, a
wind or a person is fit to sail. `{...}` are filled in by `card_words.py`.
"""

INVENTED = "invented example"
CARD = "setup card"
FOR = "for {sailor}"

BOAT_CAPTION = "At {speed}: keel {height} above the water, {bow}. Boat {scale}, tape every 100 mm."
BOAT_CAPTION_STILL = "Not flying. Boat {scale}, tape every 100 mm down both struts."
CHAIN_CAPTION = "Chain {scale}, rods cut short: {rods} mm."
SCALE = "1:{scale}"
NO_SCALE = "to scale"
ROD = "{number} {name} {length}"
CURVE_CAPTION = "The chain is known by its measured curve only; what is in the box was not measured."

SWING_TITLE = "Swing check, ashore"
SWING_BACK = "Wand hard back:"
SWING_FORWARD = "Wand at forward stop:"
SWING_MIDDLE = "Wand {wand} aft of square:"
SWING_READING = "{edge} {travel}"
FLAP_EDGE = "flap edge"
FOIL_EDGE = "foil edge"
SWING_READ = (
    "Back edge at the root, from foil angle 0. If a stop is 2 mm out, or the held wand 1 mm, find out why "
    "first."
)

SETTINGS_TITLE = "Settings"
SETTINGS_HEAD = ("part", "set to", "count lost? measure", "found", "left")
AT_MARK = "at the mark"
SHORT_MARK = "mark"
STEPS = "{steps} {unit}"
MARK = "{reading} mm: {words}"
NO_SETTINGS = "The boat file names nothing that can be changed."
NO_MARK = "not measured: ask before you move it"
NOW = "{setting} (now {now})"

CHOICE_TITLE = "Change first"
NOTHING_TITLE = "Change nothing"
AS_IT_STANDS = "Settings as they stand: nothing was chosen, no stage was given."
ONE_AT_A_TIME = "One at a time, in this order."
WHY = "Why: {why}"
OTHERS = "Or instead: {others}."
OTHERS_BETWEEN = "; or "

GRID_TITLE = "Change if"
GRID_SIDES = {"low": "too low", "right": "right height", "high": "too high"}
GRID_TOPS = {"bow_down": "bow down", "level": "level", "bow_up": "bow up"}
GRID_EMPTY = "–"
GRID_LEAD = "First change, from these settings"

EXPECT_TITLE = "What to expect"
EXPECT_HEAD = ("speed", "keel height", "bow", "stripes front / back", "wand")
PACE = {1: ("",), 2: ("slow", "fast"), 3: ("slow", "middle", "fast")}
WINDS_TITLE = "Today's wind"
WINDS_HEAD = (
    "at 10 m / hand gauge at 2 m",
    "run to take-off",
    "speed close / across / off the wind",
    "then across: keel, bow",
    "stripes front / back",
    "heel",
    "wand",
)
WIND_BOTH = "{at_ten} / {by_hand} kn"
RUN = "{seconds} s"
NO_RUN = "will not take off"
SPEEDS = "{speeds} kn"
NOTHING = "–"
KEEL_AND_BOW = "{height}, {bow}"
RUN_BETWEEN, RUN_LAST = ", ", " and "
ABOVE_BAND_WIND = "Above that in {winds}: change nothing that raises the boat."
A_WIND = "{wind} kn of wind"
HULL_IN_WATER = "in the water"
WAND_BACK = "{angle} back"
WAND_OFF = "off the water"
SEEN = "Seen at {speed}, {main} / {rudder} stripes: {height} ± {height_error} mm, {bow} ± {bow_error}°"
SEEN_EXPECTED = "{seen}; worked out {height}, {bow}."
SEEN_ALONE = "{seen}."
SEEN_FIRST = "Counts as {place}: {first}."
SEEN_PLACE = "{side}, {top}"
TAKE_OFF = "Takes off from about {speed} of boat speed, upright in flat water."
NO_TAKE_OFF = "No speed was found at which it takes off."
HEELED = "Worked out at {heel}."
BAND = "Height wanted ({stage}): {low} to {high}."
ABOVE_BAND = "Above that from {speed} on: change nothing that raises the boat."

NO_FLIGHT_TITLE = "No steady flight"
NO_FLIGHT_HULL = "Between {low} and {high} the hull stays in the water."
NO_FLIGHT_OUTCOME = "Between {low} and {high}: {sentence} {remedy}"

RULE = "Change one thing; two flights each way; then decide. No better after two tries: put it back and ask."

CAUTIONS_TITLE = "Take care"
CAUTIONS = (
    "Wear a helmet, an impact vest that floats, long sleeves and legs, boots; carry a hook knife.",
    "Foils cut: covers on ashore, two to carry, never swim or drive over the foils of a capsized boat.",
    "Know the depth: for the foils, and for the mast upside down. Practise righting before flying.",
    "A safety boat near, wide spacing, a clear run-out to leeward. Cold comes fast: come in early.",
    "Your centre's procedures and the local rules come first. This card gives nobody leave to sail.",
)

STOP_TITLE = "Stop if"
STOP = "cracks, loose pins, weed, a roar from a foil, sudden change, cold, your coach's signal."

VALID = (
    "Valid for {boat}, version {version}, main foil {main}, rudder {rudder}, rig {rig}, wand {wand}, {water}."
)
VALID_DATE = "Made {date}."
VALID_DAY = "For this day and wind only: {date}."
REFIT = (
    "After a refit do the swing check again. "
    "Void if a part is swapped or mended, or the boat is out of service."
)
SURE = (
    "Worked out, not sailed: at {speed} the height is known to about ± {height} mm (biggest doubt: {doubt})."
)
SURE_ASSUMED = "{name}, not measured"
DOUBTS = {
    "zero_lift_shift_deg": "section",
    "greatest_lift_factor": "section",
    "roughness": "surface",
    "incidence_deg": "chord angle",
    "below_keel_m": "depth",
    "x_m": "place",
    "z_m": "height",
    "mass_kg": "mass",
    "play_mm": "play",
    "stretch_mm_per_n": "stretch",
    "foil_change_deg": "curve",
}
"""What a doubt is called on a card, by the last word of its path in the boat file."""
FRESH = "fresh water {temperature} °C"
SEA = "water of {salinity} g/kg salt, {temperature} °C"

DRAWING_TITLE = "{boat} in side view, bow to the right"
CHAIN_TITLE = "The chain of {boat} from wand to foil, enlarged"

SUMMARY_TITLE = "{place}, {date}: the example day"
SUMMARY_FIRST = (
    "Invented boats, sailors and water: none of their numbers belongs to a real one. The sheets, the cards "
    "and this summary give nobody leave to sail: the centre's procedures, the local rules and the people in "
    "charge decide."
)
SUMMARY_CARDS = "Cards: {cards}"
SUMMARY_SWING = "Swing check: {readings}."
SUMMARY_ASHORE = "Not in a boat, exceeded, unknown"
SUMMARY_SHEETS = "Fleet sheet, pencil slate, two cards to an A4 sheet: {sheets}"
