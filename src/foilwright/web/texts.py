"""Every word of the pages, apart from code, so that another language can be put beside it.

Plain English that a twelve-year-old can read. Nothing here permits anything. The page fills in `{...}`.
"""

from typing import Any

from foilwright.web.texts_bench import BENCH
from foilwright.web.texts_flight import FLIGHT
from foilwright.web.texts_guesses import GUESSES

TITLE = "foilwright"
PAGES = (("bench", "Bench"), ("flight", "Flight"))
NAV = "Pages"
SKIP = "To the drawing"
BOAT, VERSION, SAILOR, BY = "Boat", "Version", "Aboard", "Who keeps it"
UNDO = "Undo"
BESIDE = (
    "This boat has more than one newest version: they were made apart from each other. All are kept. Look at "
    "each, see what differs, and go on from one: what you keep next is made from the version on the page."
)
CAUTION = (
    "Worked out for flat water and steady hands. Wear what your centre asks for; foils cut. Your centre's "
    "procedures and the local rules come first; nothing here gives anybody leave to sail."
)
NO_SCRIPTS = "The drawing needs scripts. Without them the paper card tells the same: foilwright card."

SHARED: dict[str, str] = {
    "drawing": "The boat. Its parts can be moved with the pointer or the arrow keys.",
    "chain_parts": "The parts of the chain that can be moved.",
    "server": "the page",
    "silent": "no answer from the server",
    "running": "a running server",
    "again": "Start it again with foilwright serve; what was kept is still there.",
    "broken": "Something is broken in this page: a fault of ours. Load it again; what was kept is there.",
    "fault": "{where}: {came}. Allowed: {allowed}. {mend}",
    "field_fault": "This cannot stand here: {came}. Allowed: {allowed}. {mend}",
    "version": "{made_by}, {made_at}",
    "example": "the example as it comes",
    "bow_up": "bow up {angle}°",
    "bow_down": "bow down {angle}°",
    "bow_level": "bow level",
    "bow_same": "bow as before",
    "wand": "wand",
    "hidden": "hidden, not measured",
    "foil": "foil",
    "less_of": "{name}: less",
    "more_of": "{name}: more",
    "number_of": "{name}: a number",
    "number_fault": "{name}: any number from {least} to {greatest}.",
    "one_step": "a step is {step}",
    "how": "How: {how}.",
    "who": "Who: {who}{when}.",
    "anybody": "anybody",
    "when_ashore": ", ashore",
    "when_stopped": ", stopped",
    "when_flying": ", also in flight",
    "mark": "Lost count? {mm} mm: {words}.",
    "how_shown": "How to move them",
    "does": "{height}, {bow}",
    "higher": "{mm} mm higher",
    "lower": "{mm} mm lower",
    "height_same": "no change of height",
    "no_change": "no change",
    "no_effect": "no steady flight with one more",
    "adjuster_spoken": "{steps} steps from the mark. {does}",
    "keep_title": "Keep these settings",
    "keep": "Keep as a new version",
    "nothing_to_keep": "There is nothing to keep yet.",
    "saved": "Kept. The version before is still there.",
    "saved_beside": "Kept. {others} changed the same version meanwhile: both are kept, shown side by side.",
    "undo": "Undo",
    "redo": "Bring it back",
    "undone": "Undone. Nothing is lost: it can be brought back.",
    "redone": "It is back.",
    "undo_of": "Undo what {by} kept, {at}",
    "beside_title": "Side by side",
    "beside_same": "They differ in nothing but who kept them.",
    "differs": "what differs",
    "differs_title": "What differs",
    "look_at": "Look at the one of {made_by}, {made_at}",
    "look_here": "On the page now: {made_by}, {made_at}",
    "not_said": "not said",
    "trail_title": "What was changed",
    "trail_none": "Nothing was kept of this boat yet.",
    "trail_line": "{at}, {by}: {what}",
    "trail_save_boat": "kept a version of the boat",
    "trail_save_bench-sheet": "kept a bench sheet, as it was read",
    "trail_undo_boat": "took a version back, or brought one back",
    "trail_undo_bench-sheet": "took a bench sheet back, or brought one back",
    "by_examples": "the examples",
    "put_back": "Put back",
    "turn_title": "Adjusters",
    "legend_before": "Thin dashed line: before the last change.",
    "outline_before": "before",
    "chain_title": "The chain, enlarged",
    "chain_scale": "About {times} times the scale of the boat; rods cut short.",
    "chain_hidden": "Only its curve was measured: what is in the box nobody has seen.",
    "unit_deg": "°",
    "unit_m2": "m²",
    "unit_N m": "N m",
    "unit_deg/(N m)": "° for each N m",
    "wand_spoken": "wand {wand} degrees back, foil {foil} degrees",
    "wand_locked": "wand {wand} degrees back, the chain is locked",
}

PAGE: dict[str, dict[str, Any]] = {
    "bench": {**SHARED, **BENCH},
    "flight": {**SHARED, **FLIGHT, "guesses": GUESSES},
}
