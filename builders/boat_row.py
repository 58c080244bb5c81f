"""Writes docs/reference/boat-row.md: every number of a boat's row and where it comes from.

    python builders/boat_row.py

`tests/house/test_theory_pages.py` holds the page against what this makes.
"""

from __future__ import annotations

from pathlib import Path

from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ready
from foilwright.documents.examples import example
from foilwright.flight.boat import N_SCALARS, SCALARS
from foilwright.linkage.chain import LINK_NUMBERS, LINK_SIZE

PAGE = Path(__file__).parent.parent / "docs" / "reference" / "boat-row.md"
BOATS = ("marram", "pipkin", "sedge")

HEAD = """\
# The row of numbers of a boat

Made by `builders/boat_row.py`. A boat that flies is one row of float64, SI and radians, body axes
([axes](../theory/axes.md)), and four tables ([how a boat becomes
numbers](../theory/how-a-boat-becomes-numbers.md)). In Python:

    from foilwright.documents.boat_file import read_boat
    from foilwright.documents.boat_numbers import ready
    boat = ready(read_boat("examples/boats/marram.toml"))
    boat.row, boat.names, boat.tables

*From* says how the number follows from those of the boat file, completed with the defaults. `deg` is
pi/180, `line` is `reference.keel_line_deg` in radians, `whole` is 1 where the whole main foil is turned
and 0 where a flap is; `[main_foil] x_m` is field x_m of that table. The right columns are the demo boats
with every adjuster at its mark, to seven digits.

"""

FOIL = {
    "x": ("station of strut and quarter chord [m]", "x_m"),
    "z": ("foil plane, negative below the keel line [m]", "minus below_keel_m"),
    "span": ("tip to tip [m]", "span_m"),
    "area": ("[m2]", "area_m2"),
    "incidence": (
        "chord line to keel line, leading edge up, foil angle nothing [rad]",
        "incidence_deg deg + line; 0 for a whole main foil",
    ),
    "flap_per_turn": ("flap angle per foil angle [rad/rad]", "main foil: 1 - whole; rudder foil: 0"),
    "incidence_per_turn": ("incidence per foil angle [rad/rad]", "main foil: whole; rudder foil: 0"),
    "flap_chord_share": ("flap chord over chord", "flap_chord_share; 0 without a flap"),
    "flap_span_share": ("flapped share of the span", "flap_span_share; 0 without a flap"),
    "pivot_share": (
        "hinge of a whole foil, share of the mean aerodynamic chord from its leading edge",
        "pivot_share; 0.25 where there is none",
    ),
    "tau": ("excess of the mean induced angle over elliptic loading", "planform: see foil page"),
    "delta": ("excess of induced drag over elliptic loading, as used", "planform"),
    "lift_factor": ("lifting surface over lifting line, f", "planform"),
    "sweep_cosine": ("cosine of the quarter-chord sweep", "planform"),
    "stall_share": ("greatest CL over that of the most loaded section", "planform"),
    "centre_share": ("aerodynamic centre, share of the mean aerodynamic chord", "planform"),
    "moment_chord_ratio": ("mean aerodynamic chord over mean chord", "planform"),
    "flap_share": (
        "share of a full-span flap's effect",
        "planform, from flap_span_share; 1 for full span or none",
    ),
    "kink_cross": ("induced drag of a flap over part of the span", "planform"),
    "kink_square": ("same", "planform"),
    "strut_chord": ("[m]", "strut_chord_m"),
    "strut_thickness": ("thickness over chord", "strut_thickness_share"),
    "strut_top": (
        "z where the strut leaves the hull [m]",
        "strut_top_m; else the keel height of the hull's lines there",
    ),
}
OTHERS = {
    "mass.mass": ("rigged boat without crew [kg]", "mass.mass_kg"),
    "mass.x": ("its centre [m]", "mass.x_m"),
    "mass.z": ("its centre [m]", "mass.z_m"),
    "crew.mass": ("everyone aboard [kg]", "crew.usual_mass_kg, or the sailor's mass where one is named"),
    "crew.x": ("their centre [m]", "crew.x_m"),
    "crew.out": ("their centre, to windward of the centreline [m]", "crew.out_m"),
    "crew.z": ("their centre [m]", "crew.z_m"),
    "air.hull_drag_area": ("hull and racks [m2]", "hull.drag_area_m2"),
    "air.hull_z": ("where it acts [m]", "hull.drag_z_m"),
    "air.mast_drag_area": ("mast and rigging [m2]", "rig.mast_drag_area_m2"),
    "air.mast_x": ("where it acts [m]", "rig.mast_x_m"),
    "air.mast_z": ("where it acts [m]", "rig.mast_z_m; else hull.depth_m + rig.mast_height_m / 2"),
    "air.crew_drag_area": ("crew, acts at their centre [m2]", "crew.drag_area_m2"),
    "rig.effort_x": ("centre of effort [m]", "rig.effort_x_m"),
    "rig.effort_z": ("centre of effort [m]", "rig.effort_z_m"),
    "rig.sail_area": ("[m2]", "rig.sail_area_m2"),
    "rig.aspect_ratio": (
        "effective span squared over area of the sail",
        "(1.1 rig.mast_height_m)^2 / rig.sail_area_m2",
    ),
    "hull.form_factor": ("on friction", "hull.form_factor"),
    "hull.wave_share": ("share of thin-ship wave resistance", "hull.wave_share"),
    "hull.planing_share": ("share of flat-plate planing lift", "hull.planing_share"),
    "wand.pivot_x": ("[m]", "wand.pivot_x_m; else main_foil.x_m + wand.ahead_of_main_strut_m"),
    "wand.pivot_z": ("[m]", "wand.pivot_z_m"),
    "wand.length": ("pivot to tip [m]", "wand.length_m"),
    "wand.forward_stop": ("wand angle [rad]", "wand.forward_stop_deg deg - line"),
    "wand.aft_stop": ("wand angle [rad]", "wand.aft_stop_deg deg - line"),
    "wand.paddle_length": ("[m]", "wand.paddle_length_m"),
    "wand.paddle_width": ("[m]", "wand.paddle_width_m"),
    "wand.stick_width": ("[m]", "wand.stick_width_m"),
    "wand.mass": ("[kg]", "wand.mass_kg"),
    "wand.tension": ("moment of the elastic, towards forward [N m]", "wand.tension_n_m"),
    "wand.friction": ("moment of friction, either way [N m]; not used in a solve", "wand.friction_n_m"),
    "wand.bend": (
        "turn of the pivot's end against the line to the tip [rad/(N m)]",
        "wand.bend_deg_per_n_m deg",
    ),
    "chain.wand_at_drawing": ("[rad]", "chain.wand_deg deg - line; pi/4 for a measured curve"),
    "chain.foil_at_drawing": (
        "[rad]",
        "flap: chain.foil_deg deg; whole: main_foil.incidence_deg deg + line; "
        "curve: its foil angle at wand pi/4, position 0",
    ),
    "chain.foil_least": ("foil stop [rad]", "chain.foil_least_deg deg + whole line"),
    "chain.foil_greatest": ("foil stop [rad]", "chain.foil_greatest_deg deg + whole line"),
    "chain.crank_arm": ("out-arm of the wand crank [m]", "out_arm_m of the first crank; 0 for a curve"),
    "chain.crank_direction": (
        "its direction in the drawing [rad]",
        "out_direction_deg deg of the first crank",
    ),
    "chain.play": (
        "lost motion at the foil beside that of the joints, both ways together [rad]",
        "chain.slop_deg deg",
    ),
    "chain.give": (
        "turn of the foil per N m beside the rods' stretch [rad/(N m)]",
        "chain.give_deg_per_n_m deg",
    ),
    "chain.from_curve": ("1 where a measured curve takes the place of the rods", "1 or 0"),
    "chain.curve_position": ("adjuster position on the curve [steps]", "chain.curve_position; 0 at the mark"),
}
LINK = {
    "rod_longer": (
        "rod length less its length in the drawing [m]",
        "length_m - drawn length; 0 where not given",
    ),
    "pivot_x": ("pivot of the driven crank [m]", "pivot_x_m of crank i + 1"),
    "pivot_z": ("same [m]", "pivot_z_m of crank i + 1"),
    "in_arm": ("in-arm of the driven crank [m]", "in_arm_m of crank i + 1"),
    "in_direction": ("its direction in the drawing [rad]", "in_direction_deg deg of crank i + 1"),
    "out_arm": ("out-arm of the driven crank [m]", "out_arm_m of crank i + 1; 0 for the horn"),
    "out_direction": (
        "its direction in the drawing [rad]",
        "out_direction_deg deg of crank i + 1; 0 for the horn",
    ),
    "play": ("lost motion of the rod's two joints together [m]", "0.002 play_mm of rod i"),
    "stretch": ("of the rod [m/N]", "0.001 stretch_mm_per_n of rod i"),
}


def told(name: str) -> tuple[str, str]:
    """Meaning and origin of a number of the row."""
    part, _, number = name.partition(".")
    if part in ("main", "rudder"):
        meaning, origin = FOIL[number]
        of_file = {"main": "main_foil", "rudder": "rudder"}[part]
        return meaning, origin if origin.startswith(("planform", "main foil")) else f"[{of_file}] {origin}"
    return OTHERS[name]


def page() -> str:
    """The page."""
    boats = [ready(read_boat(example(name))) for name in BOATS]
    lines = [HEAD.rstrip(), "", "| no | name | meaning | from | " + " | ".join(BOATS) + " |"]
    lines.append("|---|---|---|---|" + "---|" * len(BOATS))
    for i, name in enumerate(SCALARS):
        values = " | ".join(f"{boat.row[i] + 0.0:.7g}" for boat in boats)
        lines.append(f"| {i} | {name} | {' | '.join(told(name))} | {values} |")
    lines += [
        "",
        "## Links",
        "",
        f"Then {LINK_SIZE} numbers a link, i = 0 ... : number {N_SCALARS} + {LINK_SIZE} i + j. "
        "A boat with a measured curve has none.",
        "",
        "| j | name | meaning | from |",
        "|---|---|---|---|",
    ]
    lines += [f"| {j} | {name} | {' | '.join(LINK[name])} |" for j, name in enumerate(LINK_NUMBERS)]
    for boat in boats:
        links = (len(boat.row) - N_SCALARS) // LINK_SIZE
        lines += [
            "",
            f"{boat.name}:",
            "",
            "| i | " + " | ".join(LINK_NUMBERS) + " |",
            "|---" * (LINK_SIZE + 1) + "|",
        ]
        for i in range(links):
            start = N_SCALARS + LINK_SIZE * i
            lines.append(
                f"| {i} | " + " | ".join(f"{v + 0.0:.7g}" for v in boat.row[start : start + LINK_SIZE]) + " |"
            )
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
