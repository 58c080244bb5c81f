"""A boat from twelve numbers: which they are, and the boat file that they make.

Twelve readings that two people take in one sitting, without sections, masses or crank lengths. All else comes
from the form of boat, each default named with its band (`defaults.py`). The file is an ordinary boat file.
"""

from collections.abc import Mapping
from typing import NamedTuple

from foilwright.documents.boat_parts import Form
from foilwright.mistakes import Mistake, Mistakes
from foilwright.units import plain

WAND_DEG = (20.0, 45.0, 70.0)
TURNS = 3.0


class Key(NamedTuple):
    """One of the twelve.

    name    as asked for, with its unit
    path    where it stands in the boat file
    how     how it is read
    """

    name: str
    path: str
    how: str


TWELVE: tuple[Key, ...] = (
    Key("wand_length_m", "wand.length_m", "tape, pivot to tip"),
    Key("pivot_height_m", "wand.above_reference_m", "tape, pivot above the straight reference"),
    Key("pivot_to_strut_m", "wand.ahead_of_main_strut_m", "tape, along the reference"),
    Key("foil_at_wand_20_deg", "chain.curve, position 0", "batten or level, wand held at 20 deg"),
    Key("foil_at_wand_45_deg", "chain.curve, position 0", "the same at 45 deg"),
    Key("foil_at_wand_70_deg", "chain.curve, position 0", "the same at 70 deg"),
    Key(
        "foil_change_deg",
        "chain.curve, position 3",
        "the rod three turns longer, wand at 45 deg: how far the foil moved",
    ),
    Key(
        "main_chord_deg",
        "main_foil.incidence_deg",
        "level on the chord less level on the reference, end for end",
    ),
    Key("rudder_chord_deg", "rudder.incidence_deg", "the same"),
    Key("strut_length_m", "main_foil.strut_m", "tape, hull to foil"),
    Key("strut_spacing_m", "rudder.behind_main_strut_m", "tape, main strut to rudder strut"),
    Key("main_foil_area_m2", "main_foil.area_m2", "tape: span times mean chord"),
)
"""The twelve keys. Span and mean chord are two lengths and one number: the foil's area."""

EXTRA: tuple[Key, ...] = (
    Key(
        "main_foil_span_m",
        "main_foil.span_m",
        "tape, tip to tip; without it nine times the mean chord is taken",
    ),
    Key(
        "keel_line_deg",
        "reference.keel_line_deg",
        "angle of the reference to the keel line; 0 where it is that",
    ),
    Key(
        "above_keel_m",
        "reference.above_keel_m",
        "height of the reference over the keel line at the main strut",
    ),
)
"""What may be told beside them. The span was measured for the area anyway."""

USUAL_ASPECT_RATIO = 9.0  # span over mean chord of such foils: common practice, no source


def twelve_boat(
    name: str, form: Form, control: str, numbers: Mapping[str, float], adjuster: str = "main-rod"
) -> str:
    """The text of a boat file from the twelve numbers by their names.

    `adjuster` is what the turns were made with; without `foil_change_deg` (a rod of fixed length) there is
    none. Raises Mistakes for what is missing or unknown; the numbers are checked when the file is read.
    """
    _check(numbers)
    n = numbers
    area = n["main_foil_area_m2"]
    span = n.get("main_foil_span_m", (USUAL_ASPECT_RATIO * area) ** 0.5)
    foil = ", ".join(_number(n[f"foil_at_wand_{wand:.0f}_deg"]) for wand in WAND_DEG)
    wand = ", ".join(_number(angle) for angle in WAND_DEG)
    lines = [
        'format = "foilwright/boat"',
        "version = 1",
        f'name = "{name}"',
        f'form = "{form}"',
        "",
        "[reference] # the straight line that was measured against",
        f"keel_line_deg = {_number(n.get('keel_line_deg', 0.0))}",
        f"above_keel_m = {_number(n.get('above_keel_m', 0.0))}",
        "",
        "[main_foil]",
        f'control = "{control}"',
        f"strut_m = {_number(n['strut_length_m'])}",
        f"span_m = {_number(round(span, 4))}",
        f"area_m2 = {_number(area)}",
        f"incidence_deg = {_number(n['main_chord_deg'])}",
        "",
        "[rudder]",
        f"behind_main_strut_m = {_number(n['strut_spacing_m'])}",
        f"incidence_deg = {_number(n['rudder_chord_deg'])}",
        "",
        "[wand]",
        f"length_m = {_number(n['wand_length_m'])}",
        f"above_reference_m = {_number(n['pivot_height_m'])}",
        f"ahead_of_main_strut_m = {_number(n['pivot_to_strut_m'])}",
        "",
        "[[chain.curve]] # the adjuster at its mark",
        "position = 0.0",
        f"wand_deg = [{wand}]",
        f"foil_deg = [{foil}]",
    ]
    if "foil_change_deg" in n:
        lines += [
            "",
            "[[chain.curve]] # three turns further",
            f"position = {_number(TURNS)}",
            f"foil_change_deg = {_number(n['foil_change_deg'])}",
            "",
            "[[adjusters]]",
            f'name = "{adjuster}"',
            'one_step = "one turn"',
            "least = -3",
            "greatest = 3",
            'changes = [{ number = "chain.curve_position", per_step = 1.0 }]',
        ]
    return "\n".join(lines) + "\n"


def _check(numbers: Mapping[str, float]) -> None:
    known = {key.name for key in (*TWELVE, *EXTRA)}
    found = [
        Mistake(key.name, "missing", f"one of the twelve numbers: {key.how}", "Measure it.")
        for key in TWELVE
        if key.name not in numbers and key.name != "foil_change_deg"
    ]
    found += [
        Mistake(name, "a number that is none of the twelve", ", ".join(sorted(known)), "Take it out.")
        for name in numbers
        if name not in known
    ]
    if found:
        raise Mistakes(tuple(found))


def _number(value: float) -> str:
    text = plain(value)
    return text if "." in text else f"{text}.0"
