"""From the table of a boat's numbers to its row: SI and radians, every angle to the keel line."""

from collections.abc import Mapping
from functools import lru_cache
from math import pi, radians

import numpy as np

from foilwright.air.sails import aspect_ratio_of, reefed
from foilwright.documents.boat_record import BoatFile
from foilwright.documents.boat_table import drawn_length, is_curve, pivot
from foilwright.flight.boat import row_names
from foilwright.linkage.curve import CurveTable, curve_table, no_curve, read_curve
from foilwright.measures import Floats
from foilwright.water.planform import Planform, planform


def curve_of(boat: BoatFile, numbers: Mapping[str, float]) -> CurveTable:
    """The measured curve as a table, angles to the keel line; the empty one where there are rods."""
    if not is_curve(boat):
        return no_curve()
    line = radians(numbers["reference.keel_line_deg"])
    of_foil = line if boat.main_foil.control == "whole" else 0.0
    at_mark = next(curve for curve in boat.chain.curve if curve.wand_deg)
    readings = tuple(
        (curve.position, tuple(base.wand_deg), tuple(base.foil_deg), curve.foil_change_deg or 0.0)
        for curve in boat.chain.curve
        for base in (curve if curve.wand_deg else at_mark,)
    )
    return _table(readings, line, of_foil)


@lru_cache(maxsize=8)
def _table(
    curves: tuple[tuple[float, tuple[float, ...], tuple[float, ...], float], ...], line: float, of_foil: float
) -> CurveTable:
    positions = [position for position, _, _, _ in curves]
    readings = [
        (np.radians(wand) - line, np.radians(foil) + radians(change) + of_foil)
        for _, wand, foil, change in curves
    ]
    if len(positions) == 1:  # no adjuster acts on it: the same at every position
        positions, readings = [positions[0], positions[0] + 1.0], [*readings, *readings]
    return curve_table(positions, readings)


def row_of(boat: BoatFile, numbers: Mapping[str, float], curve: CurveTable) -> Floats:
    """The row of `flight/boat.py` from the completed numbers: SI and radians, to the keel line."""
    values = _scalars(boat, numbers, curve)
    for i, rod in enumerate(boat.chain.rods):
        values |= _link(boat, numbers, i, rod.name)
    return np.array([values[name] for name in row_names(len(boat.chain.rods))])


@lru_cache(maxsize=64)
def _outline(span: float, area: float, taper: float, sweep: float, flap_span: float) -> Planform:
    return planform(span, area, taper, sweep, flap_span)


def _scalars(boat: BoatFile, n: Mapping[str, float], curve: CurveTable) -> dict[str, float]:
    line = radians(n["reference.keel_line_deg"])
    whole = boat.main_foil.control == "whole"
    of_foil = line if whole else 0.0
    by_curve = is_curve(boat)
    wand_drawn = 0.25 * pi if by_curve else radians(n["chain.wand_deg"]) - line
    if by_curve:
        foil_drawn, _ = read_curve(curve, wand_drawn, 0.0)
    else:
        # Of a whole foil the incidence at the mark and the foil angle in the drawing are one angle.
        foil_drawn = radians(n["main_foil.incidence_deg" if whole else "chain.foil_deg"]) + of_foil
    crank = boat.chain.cranks[0].name if boat.chain.cranks else ""
    foot = n["hull.depth_m"]  # of the sail: at the deck
    sail = reefed(n["rig.sail_area_m2"], n["rig.effort_z_m"] - foot, n.get("rig.reef_share", 1.0))
    values = {
        "mass.mass": n["mass.mass_kg"],
        "mass.x": n["mass.x_m"],
        "mass.z": n["mass.z_m"],
        "crew.mass": n["crew.usual_mass_kg"],
        "crew.x": n["crew.x_m"],
        "crew.out": n["crew.out_m"],
        "crew.z": n["crew.z_m"],
        "air.hull_drag_area": n["hull.drag_area_m2"],
        "air.hull_z": n["hull.drag_z_m"],
        "air.mast_drag_area": n["rig.mast_drag_area_m2"],
        "air.mast_x": n["rig.mast_x_m"],
        "air.mast_z": n["rig.mast_z_m"],
        "air.crew_drag_area": n["crew.drag_area_m2"],
        "rig.effort_x": n["rig.effort_x_m"],
        "rig.effort_z": foot + sail.effort_above_foot,
        "rig.sail_area": sail.area,
        "rig.aspect_ratio": aspect_ratio_of(n["rig.mast_height_m"], n["rig.sail_area_m2"]),
        "hull.form_factor": n["hull.form_factor"],
        "hull.wave_share": n["hull.wave_share"],
        "hull.planing_share": n["hull.planing_share"],
        "wand.pivot_x": n["wand.pivot_x_m"],
        "wand.pivot_z": n["wand.pivot_z_m"],
        "wand.length": n["wand.length_m"],
        "wand.forward_stop": radians(n["wand.forward_stop_deg"]) - line,
        "wand.aft_stop": radians(n["wand.aft_stop_deg"]) - line,
        "wand.paddle_length": n["wand.paddle_length_m"],
        "wand.paddle_width": n["wand.paddle_width_m"],
        "wand.stick_width": n["wand.stick_width_m"],
        "wand.mass": n["wand.mass_kg"],
        "wand.tension": n["wand.tension_n_m"],
        "wand.friction": n["wand.friction_n_m"],
        "wand.bend": radians(n["wand.bend_deg_per_n_m"]),
        "chain.wand_at_drawing": wand_drawn,
        "chain.foil_at_drawing": foil_drawn,
        "chain.foil_least": radians(n["chain.foil_least_deg"]) + of_foil,
        "chain.foil_greatest": radians(n["chain.foil_greatest_deg"]) + of_foil,
        "chain.crank_arm": n.get(f"chain.cranks.{crank}.out_arm_m", 0.0),
        "chain.crank_direction": radians(n.get(f"chain.cranks.{crank}.out_direction_deg", 0.0)),
        "chain.play": radians(n["chain.slop_deg"]),
        "chain.give": radians(n["chain.give_deg_per_n_m"]),
        "chain.from_curve": 1.0 if by_curve else 0.0,
        "chain.curve_position": n["chain.curve_position"],
    }
    incidence = 0.0 if whole else radians(n["main_foil.incidence_deg"]) + line
    values |= _foil(n, "main_foil", "main", incidence, 0.0 if whole else 1.0, 1.0 if whole else 0.0)
    values |= _foil(n, "rudder", "rudder", radians(n["rudder.incidence_deg"]) + line, 0.0, 0.0)
    return values


def _foil(
    n: Mapping[str, float],
    part: str,
    name: str,
    incidence: float,
    flap_per_turn: float,
    incidence_per_turn: float,
) -> dict[str, float]:
    outline = _outline(
        n[f"{part}.span_m"],
        n[f"{part}.area_m2"],
        n[f"{part}.taper"],
        radians(n[f"{part}.sweep_deg"]),
        n.get(f"{part}.flap_span_share", 1.0),
    )
    round_by = 1.0 / (pi * outline.aspect_ratio)
    values = {
        "x": n[f"{part}.x_m"],
        "z": -n[f"{part}.below_keel_m"],
        "span": outline.span,
        "area": outline.area,
        "incidence": incidence,
        "flap_per_turn": flap_per_turn,
        "incidence_per_turn": incidence_per_turn,
        "flap_chord_share": n.get(f"{part}.flap_chord_share", 0.0),
        "flap_span_share": n.get(f"{part}.flap_span_share", 0.0),
        "pivot_share": n.get(f"{part}.pivot_share", 0.25),
        "tau": outline.slope_term / round_by - 1.0,
        "delta": outline.drag_term / round_by - 1.0,
        "lift_factor": outline.lift_factor,
        "sweep_cosine": outline.sweep_cosine,
        "stall_share": outline.stall_share,
        "centre_share": outline.centre_share,
        "moment_chord_ratio": outline.moment_chord / outline.chord,
        "flap_share": outline.flap_share,
        "kink_cross": outline.kink_cross,
        "kink_square": outline.kink_square,
        "strut_chord": n[f"{part}.strut_chord_m"],
        "strut_thickness": n[f"{part}.strut_thickness_share"],
        "strut_top": n[f"{part}.strut_top_m"],
    }
    return {f"{name}.{key}": value for key, value in values.items()}


def _link(boat: BoatFile, n: Mapping[str, float], i: int, rod: str) -> dict[str, float]:
    crank = boat.chain.cranks[i + 1].name
    x, z = pivot(boat, n, i + 1)
    values = {
        "rod_longer": n[f"chain.rods.{rod}.length_m"] - drawn_length(boat, n, i),
        "pivot_x": x,
        "pivot_z": z,
        "in_arm": n[f"chain.cranks.{crank}.in_arm_m"],
        "in_direction": radians(n[f"chain.cranks.{crank}.in_direction_deg"]),
        "out_arm": n.get(f"chain.cranks.{crank}.out_arm_m", 0.0),
        "out_direction": radians(n.get(f"chain.cranks.{crank}.out_direction_deg", 0.0)),
        "play": 0.002 * n[f"chain.rods.{rod}.play_mm"],  # two joints
        "stretch": 0.001 * n[f"chain.rods.{rod}.stretch_mm_per_n"],
    }
    return {f"links.{i}.{key}": value for key, value in values.items()}
