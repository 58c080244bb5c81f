"""Every sentence of the fleet sheet and the pencil slate, apart from code.

No sentence permits anything: no sentence says that a boat, a wind or a person is fit to sail.
"""

FLEET = "fleet sheet"
SLATE = "pencil slate"
INVENTED = "invented example"
HEAD = ("Who", "Boat", "Sail", "Foils", "Set to, from the mark", "First change afloat")
CHANGED_HEAD = "Changed since the sheet before"
NOTHING_CHANGED = "Nothing has changed since the sheet before."
CHANGED = "CHANGED: {what}"
NOTE = "Note: {note}"
NOT_IN_A_BOAT = "Not in a boat on this sheet: {names}. Ask the coach."
ABSENT = "Absent: {names}."
NOBODY = "Nobody is proposed for a boat in this wind."
OUT_TITLE = "Out of service"
WARNED_TITLE = "Exceeded or unknown"
WARNED_NONE = "No limit that the centre entered is exceeded or unknown. That decides nothing."
DEPTH_TITLE = "How far down, with nothing to spare"
DEPTH_HEAD = ("Boat", "Foils, afloat", "Mast, upside down", "At the slip", "In the area")
LESS = "{depth}: LESS THAN {what}"
THE_FOILS, THE_MAST, BOTH = "THE FOILS", "THE MAST", "FOILS AND MAST"
UNKNOWN = "UNKNOWN"
CAUTIONS_TITLE = "Take care"
CAUTIONS = (
    "Helmet, impact vest that floats, long sleeves and legs, boots, hook knife.",
    "Foils cut: covers on ashore, two to carry, gloves; nobody downwind of a rigged boat.",
    "A capsized boat: come from the bow or the mast, never over the foils, engine off near people.",
    "Entrapment and righting drilled before flying. Wide spacing, a clear run-out to leeward. Weed, lines, "
    "swimmers: look. Cold comes fast: come in early.",
    "Swing check before you launch. Change one thing; two flights each way; then decide.",
)
DECIDES = (
    "This sheet gives nobody leave to sail. The centre's procedures, the local rules and the people in "
    "charge on the day come first."
)

SLATE_HEAD = (
    "time",
    "boat",
    "what was changed",
    "flights",
    "touch-downs",
    "capsizes",
    "stripes front / back",
)
SLATE_LEAD = (
    "Stripes: how many show on each strut. Flights, touchdowns and capsizes: one stroke each. Write the time "
    "of every change, also when it is put back."
)
SLATE_SIDES = ("front: to write on", "back: what is known")
SLATE_BOATS = "Set, counted from the mark"
EXPECT = "{settings}. {first}"
WIND_TITLE = "Wind by hand gauge, at 2 m"
WIND_HEAD = ("time", "mean", "gust")
HEADS_TITLE = "Head count every ten minutes: {count} people afloat in {boats} boats by this sheet"
FILLED = ("safety boat", "crew", "began", "ended")
SLATE_FIRST = "Read the back first: what is exceeded or unknown, and how deep it is."
SLATE_CAUTION = (
    "Before anything is written: count heads, look round. Engine off near people and foils; from the bow or "
    "the mast. Nothing is called to a sailor in flight."
)
