"""Every sentence about a day, apart from code, so that another language can be put beside it.

No sentence permits anything. Whoever is not proposed for a boat is told so in words of wind and boat only.
"""

# Wind and water
FORECAST = "Forecast at 10 m: {low} to {high}, most likely {likely}{gust}{direction}."
MEASURED = "Measured ({how}, {height} m): {low} to {high}, now {likely}{gust}{direction}."
TAKEN_SPREAD = "The spread was taken as 15 % either way."
AT_TEN = "At 10 m that is {low} to {high}, most likely {likely}{gust}."
BY_HAND = "On a hand gauge at 2 m that is {low} to {high}, most likely {likely}{gust}."
GUST = ", gusts {gust}"
NO_GUST = ", gusts UNKNOWN"
FROM = ", from {direction}°"
WATER = "Sea: {sea}, waves {waves}. Depth: slip {slip}, area {area}. Water {temperature}, {salt}."
UNKNOWN = "UNKNOWN"
FRESH, SALT = "fresh", "{salinity} g/kg of salt"
TIMES = "first launch {first}, last ashore {last} ({zone})"

# Limits
EXCEEDED = "EXCEEDED: {words}, {side} {limit}{where} ({by}, {date}); today {today}."
LIMIT_UNKNOWN = "UNKNOWN: {words}, {side}{where}: the limit was left blank ({by}, {date})."
TODAY_UNKNOWN = "UNKNOWN: {words}, {side} {limit}{where} ({by}, {date}): {missing} is not in the day sheet."
NOT_ENTERED = "UNKNOWN: the centre has entered no limit for {words}."
SIDES = {True: "at most", False: "at least"}
ASKED_NOT = "NOT MET: {what} ({by})."
ASKED_UNKNOWN = "UNKNOWN: {what}: nobody has looked."
NO_SAFETY_BOAT = "EXCEEDED: boats afloat, and no manned safety boat."
OUT_OF_SERVICE = "{boat}: out of service ({by}): {note}. No card; {by} releases it."
OF_STAGE, OF_BOAT = " for {stage}", " for {boat}"

# Not today: wind and boat, never a body
MORE_WIND = "Will not fly in this wind: {by} more in {boat}{other}."
LESS_WIND = "Too much wind to fly with its margins: {by} less in {boat}{other}."
OR_BOAT = ", or {boat}"
BOAT_TAKEN = "{boat} would fly, and is taken: a change-over at half time, or a second boat."
OTHER_BOAT = "Will not fly in any wind up to {most} in the boats of the day: another boat or foil set."
BARRED = "{words}"
NO_BOAT = "No boat of the day is named for this sailor: name one, or bring another boat."
ABSENT = "Absent."
BAR_LIMIT = "The centre's limit{where}: {words} {side} {limit}; today {today}."
NO_MANNED = "no manned safety boat"

# Choice of settings
ADVICE_NOTHING = "Change nothing: it is safely at its height in {share} of the flights looked at."
ADVICE_MEASURE = (
    "Not enough known: measure {what} first. The change is better in {gains} of the boats this one may be, "
    "no worse in {better}."
)
CHANGE_IT = "Change it: "
ADVICE_CHANGE = (
    "Change it: {sure} better (no worse in {better} of the boats this one may be); safely at its height in "
    "{after} of the flights looked at, {before} as it stands."
)
ADVICE_NO_FLIGHT = "Nothing is chosen: it does not fly in today's wind."
GIVES_LATER = "takes off {later} of boat speed later than the easiest"
GIVES_LESS = "{less} less of the day at its height than the steadiest"
GIVES_DRAG = "{drag} more drag than the fastest"
GIVES_NOTHING = "gives up nothing that shows"

# Reasons, for the coach alone
FLIES = "flies in {flies} of the day's wind, at the height wanted in {band}, with every margin in {safe}"
TAKES_OFF = "takes off from {wind} of wind, after {seconds} in the likely wind"
TAKES_OFF_NOT_NOW = "takes off from {wind} of wind, not in the likely wind"
KEEPS = "margins kept up to {wind}"
NEVER = "takes off in no wind up to {most}"
SERVES = "serves the aim ({aim}): {teaches}"
HAND = "set by hand by {by}: {why}"
NEAREST = "smallest margin at {wind}: {nearest}"
NOT_MEANT_FOR = "outside what the boat file names for its crew ({least} to {greatest} kg)"
NO_AIM = "no aim in the day sheet"

# What changed
CHANGED_CREW, CHANGED_SETTINGS, CHANGED_FIRST = "crew", "settings", "first change"
CHANGED_RIG, CHANGED_NOTE = "sail or foils", "note"
NEW_LINE = "new"

FIRST_CHANGE = "Too low: {low}. Too high: {high}."
NO_FIRST_CHANGE = "Change nothing afloat; ask."
AT_MARK = "{name} at the mark"
AS_IT_STANDS = "as it stands"
TAKEN = "These settings: the {name}."
OTHER = "{name}: {words}, {gives_up}"
SETTINGS_TRIED = "{tried} settings of {possible} were tried over the day's winds."
COMPILING = (
    "the physics is compiled for this machine, once: two to four minutes, half of it before the settings"
)
CARD_DAY = "{date}, {place}, wind {low} to {high} at 10 m"
UNKNOWN_NUMBER = "what the boat file leaves open"
