"""Every sentence of the bench form, apart from code, so that another language can be put beside it."""

FORM = "bench sheet: about {minutes:.0f} minutes, two people"
HEAD = ("date", "read by", "written by", "reference used", "level shows ±", "batten ±")
LEAD = (
    "Write the reading, not the result. One reads, one writes. No wind, boat held on its trolley, foil "
    "covers on where nothing is read. Numbers in the boxes are the lines of the sheet."
)
TITLES = {
    "tape": "Tape",
    "level reference": "Level on the straight reference",
    "level main-foil": "Level on the main foil's chord",
    "level rudder-foil": "Level on the rudder foil's chord",
    "level": "Level",
    "wand-stop": "Wand at its stops",
    "batten-zero": "Batten's zero",
    "foil-stop": "Batten with the foil at its stops",
    "batten": "Batten",
    "edge": "Trailing edge",
    "rake": "Ruler at the rudder's foot",
    "weigh": "Weight at each lift point",
    "pull": "Pull at 300 mm from the wand's pivot",
}
BATTEN = "Batten, wand going {travel}, {at}"
AT = "{settings} from the mark"
AT_MARKS = "adjusters at their marks"
LOADED = "Batten with half a litre of water on it"
LOADED_HOW = "Hold the wand still; hang the bottle from the batten's end."
WHOLE_ZERO = (
    "Its end {length:g} mm from the pivot. Chord along the reference. Never move the ruler in between."
)
HOW = {
    "level reference": "Then turned end for end on the same place.",
    "level main-foil": "Over two packers along the chord; then end for end.",
    "level rudder-foil": "Likewise.",
    "wand-stop": "Level on the wand, lying as the first way; from plumb, aft positive.",
    "batten-zero": "Its end {length:g} mm from the hinge. Flap held in line with the foil. "
    "Never move the ruler in between.",
    "foil-stop": "Down positive.",
    "batten": "Move the wand to the angle in one go, never past it; if it stands elsewhere, write where.",
    "rake": "Foot forward positive.",
    "weigh": "The other end rests on its point. Lift points ahead of the transom: ______ m and ______ m.",
    "pull": "Square to the wand, while it moves slowly.",
}
WAYS = {"one": "one way", "other": "turned"}
MARK = "mark"
ZERO = "zero"
FOOT = (
    "Put every adjuster back to its mark and count aloud. Type the numbers in as they stand here. A measured "
    "boat is not a tested boat: do the swing check before launching."
)
