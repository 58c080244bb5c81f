"""Every word of the pages, apart from code, so that another language can be put beside it.

Plain English that a twelve-year-old can read. Nothing here permits anything. The page fills in `{...}`.
"""

TITLE = "foilwright"
PAGES = (("bench", "Bench"), ("flight", "Flight"))
SKIP = "To the drawing"
CAUTION = (
    "Worked out for flat water and steady hands. Your centre's procedures and the local rules come first; "
    "nothing here gives anybody leave to sail."
)
NO_SCRIPTS = "The drawing needs scripts. Without them the cards tell the same: foilwright card."

PAGE: dict[str, dict[str, str]] = {"bench": {}, "flight": {}}
