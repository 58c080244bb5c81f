"""Writes the other Marrams from marram.toml: by its curve, with its rod reversed, from twelve numbers.

    python builders/demo_boats.py

Run it again after a change of marram.toml. `tests/documents/test_boat_file.py` holds the files against it.
"""

from __future__ import annotations

from math import degrees, radians
from pathlib import Path

import numpy as np
import tomlkit
from tomlkit.items import Table

from foilwright.documents.boat_file import BoatFile, boat_from_text
from foilwright.documents.boat_row import row_of
from foilwright.documents.boat_table import all_numbers, given_numbers
from foilwright.documents.twelve import TURNS as TWELVE_TURNS
from foilwright.documents.twelve import WAND_DEG as TWELVE_WAND_DEG
from foilwright.documents.twelve import twelve_boat
from foilwright.flight.boat import boat_from, scratch_shapes
from foilwright.linkage.chain import Turned, turn_chain
from foilwright.linkage.curve import no_curve

BOATS = Path(__file__).parent.parent / "examples" / "boats"
WAND_DEG = (5.0, 25.0, 45.0, 65.0, 80.0)
TURNS = (-3, 0, 3)

CURVE_HEAD = """\
# Marram known by its measured curve: the invented boat of marram.toml as a club would measure it that cannot
# reach its rods. Foil angles at five wand angles, with the main rod at its mark and three turns either way;
# the lost motion of all joints together is one number at the foil. Every number is invented: made from
# marram.toml by builders/demo_boats.py.

"""
REVERSED_HEAD = """\
# Marram reversed: the invented boat of marram.toml with its main rod on the other side of lever and bell
# crank, so that a longer rod lowers the flap. Every number is invented: made from marram.toml by
# builders/demo_boats.py.

"""
TWELVE_HEAD = """\
# Marram from twelve numbers: the invented boat of marram.toml as two people would measure it in one sitting,
# without sections, masses or crank lengths. Wand length, pivot height, pivot to main strut; foil angle at
# wand 20, 45 and 70; foil change for three turns; both chord angles; strut length, strut spacing; main-foil
# span times mean chord. All else is taken from the form of boat, and named as assumed. Every number is
# invented: made from marram.toml by builders/demo_boats.py.

"""


def chain_at(boat: BoatFile, turns: float, wand_deg: float) -> Turned:
    """The cranked chain at a wand angle with the main rod `turns` millimetres longer."""
    numbers, _ = all_numbers(boat, given_numbers(boat))
    numbers["chain.rods.main-rod.length_m"] += 0.001 * turns
    row = row_of(boat, numbers, no_curve())
    links, drawn = (np.zeros(shape) for shape in scratch_shapes(len(row)))
    ready = boat_from(row, links, drawn)
    return turn_chain(drawn, links, radians(wand_deg) - ready.chain.wand_at_drawing)


def foil_deg(boat: BoatFile, turns: float, wand_deg: float) -> float:
    """Flap angle before its stops, rounded to a hundredth of a degree."""
    assert boat.chain.foil_deg is not None
    return round(boat.chain.foil_deg + degrees(chain_at(boat, turns, wand_deg).turn), 2)


def without_head(text: str) -> str:
    """The text from `format` on, without the comments at the top."""
    return text[text.index("format =") :]


def curve_text(text: str, boat: BoatFile) -> str:
    """marram-curve.toml."""
    document = tomlkit.parse(without_head(text))
    document["name"] = "Marram by its curve"
    chain = tomlkit.table()
    chain.add(
        tomlkit.comment("Flap angle to the foil's chord, trailing edge down positive, before its stops.")
    )
    chain["foil_least_deg"] = -6.0
    chain["foil_greatest_deg"] = 12.0
    chain["slop_deg"] = round(degrees(chain_at(boat, 0, 45.0).play), 2)
    chain["give_deg_per_n_m"] = 0.0
    curves = tomlkit.aot()
    for turns in TURNS:
        curve = tomlkit.table()
        curve["position"] = float(turns)
        curve["wand_deg"] = list(WAND_DEG)
        curve["foil_deg"] = [foil_deg(boat, turns, wand) for wand in WAND_DEG]
        curves.append(curve)
    chain["curve"] = curves
    document["chain"] = chain
    adjusters = document["adjusters"]
    assert isinstance(adjusters, list)
    kept = tomlkit.aot()
    for adjuster in adjusters:
        assert isinstance(adjuster, Table)
        if adjuster["name"] == "main-rod":
            adjuster["changes"] = tomlkit.parse('x = [{ number = "chain.curve_position", per_step = 1.0 }]')[
                "x"
            ]
        if adjuster["name"] != "gearing":  # nobody measured the curve with the rod in another hole
            kept.append(adjuster)
    document["adjusters"] = kept
    return CURVE_HEAD + tidy(tomlkit.dumps(document))


def reversed_text(text: str) -> str:
    """marram-reversed.toml."""
    text = without_head(text)
    swaps = (
        ('name = "Marram"', 'name = "Marram reversed"'),
        (
            "in_direction_deg = -90.0\nout_arm_m = 0.040\nout_direction_deg = -90.0",
            "in_direction_deg = -90.0\nout_arm_m = 0.040\nout_direction_deg = 90.0",
        ),
        ("in_arm_m = 0.045\nin_direction_deg = 90.0", "in_arm_m = 0.045\nin_direction_deg = -90.0"),
        (
            "a longer rod: more flap at the same wand angle, flies higher",
            "a longer rod: less flap at the same wand angle, flies lower",
        ),
    )
    for old, new in swaps:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return REVERSED_HEAD + text


def twelve_text(boat: BoatFile) -> str:
    """marram-twelve.toml: readings as a tape and a level give them, to 5 mm and a tenth of a degree."""
    numbers, _ = all_numbers(boat, given_numbers(boat))
    strut = numbers["main_foil.below_keel_m"] + numbers["main_foil.strut_top_m"]
    read = {
        "wand_length_m": numbers["wand.length_m"],
        "pivot_height_m": numbers["wand.pivot_z_m"],
        "pivot_to_strut_m": numbers["wand.pivot_x_m"] - numbers["main_foil.x_m"],
        "strut_length_m": round(strut / 0.005) * 0.005,
        "strut_spacing_m": numbers["main_foil.x_m"] - numbers["rudder.x_m"],
    }
    angles = {
        **{f"foil_at_wand_{wand:.0f}_deg": foil_deg(boat, 0, wand) for wand in TWELVE_WAND_DEG},
        "foil_change_deg": foil_deg(boat, TWELVE_TURNS, 45.0) - foil_deg(boat, 0, 45.0),
        "main_chord_deg": numbers["main_foil.incidence_deg"],
        "rudder_chord_deg": numbers["rudder.incidence_deg"],
    }
    area = {
        "main_foil_span_m": numbers["main_foil.span_m"],
        "main_foil_area_m2": numbers["main_foil.area_m2"],
    }
    read = {name: round(value, 3) for name, value in read.items()}
    angles = {name: round(value, 1) for name, value in angles.items()}
    return TWELVE_HEAD + twelve_boat(
        "Marram from twelve numbers", "narrow", "flap", {**read, **angles, **area}
    )


def tidy(text: str) -> str:
    """The comment of a chain that is gone goes too, and an empty line stands between tables."""
    lines = [
        line for line in text.splitlines() if not line.startswith(("# The chain in", "# towards up: 90"))
    ]
    out: list[str] = []
    for line in lines:
        if line.startswith("[") and out and out[-1] and not out[-1].startswith("#"):
            out.append("")
        out.append(line)
    return "\n".join(out) + "\n"


def texts() -> dict[str, str]:
    """Name of each file made -> its text."""
    text = (BOATS / "marram.toml").read_text(encoding="utf-8")
    boat = boat_from_text(text, "marram.toml")
    return {
        "marram-curve.toml": curve_text(text, boat),
        "marram-reversed.toml": reversed_text(text),
        "marram-twelve.toml": twelve_text(boat),
    }


def main() -> None:
    for name, text in texts().items():
        (BOATS / name).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
