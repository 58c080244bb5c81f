"""A sheet from a template and what fills it: the same bytes every time; nothing if it needs more room."""

import json
from collections.abc import Mapping
from importlib.resources import files

from foilwright.paper.svg_marks import FONT

NEEDS_MORE = "needs more room"
MADE = 0  # seconds: the date belongs to the words, never to the file


def sheet_pdf(template: str, content: Mapping[str, object]) -> bytes | None:
    """The sheet as PDF; nothing if it needs more room than the template has."""
    import typst

    here = files("foilwright.paper")
    filled = {"font": FONT, "needs-more": NEEDS_MORE, **content}
    try:
        pdf, warnings = typst.compile_with_warnings(
            str(here.joinpath(template)),
            font_paths=[str(here.joinpath("fonts"))],
            ignore_system_fonts=True,
            sys_inputs={"sheet": json.dumps(filled)},
            format="pdf",
            timestamp=MADE,
        )
    except typst.TypstError as error:
        if NEEDS_MORE in error.message:
            return None
        raise
    if warnings:
        raise RuntimeError(f"the template {template} warns: {warnings[0].message}")
    assert isinstance(pdf, bytes)
    return pdf
