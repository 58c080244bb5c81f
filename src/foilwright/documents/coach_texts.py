"""Every sentence of the coach's view of a day, apart from code."""

TITLE = "{place}, {date}: the coach's view"
PRIVATE = "For the coach alone: it holds masses and reasons. Not for a wall, a card or a group chat."
WARNED = "Exceeded or unknown:"
OLD_BANDS = "Weighed more than three months ago: {names}. Weigh again, in private."
PAIRED = "{boat}: {aboard} ({stage})"
BY_HAND = "  Set by hand by {by}: {why}."
BARRED_BY_HAND = "  LOOK AGAIN, against what is entered: {words}"
SUGGESTED = "  - {name}{mark}: {sentence}. At its height in {height} %; {gives_up}."
CHOSEN = " (on the sheet)"
NOT_TODAY = "Not in a boat today:"
EVERY_PROSPECT = "Everything that was looked at, best first in each boat:"
TRIED = (
    "Tried: {prospects} crews in boats, {pairings} pairings ({how}), {settings} settings of "
    "{possible_settings} there are."
)
DECIDES = "Nothing here permits anything. The centre's procedures and the people in charge decide."
