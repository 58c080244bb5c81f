"""The parts of a boat as a person measures them: hull, main foil, rudder, rig, wand, crew.

Lengths from the transom (x, positive forward) and from the keel line (z, positive up); angles leading edge
up, to the reference line of the file. The ranges are those of any credible boat of this kind, so that a
slip of unit shows.
"""

from typing import Annotated, Literal

from pydantic import Field

from foilwright.documents.measured import Part, measurable, measured, measured_with_default, told

Form = Literal["narrow", "wide", "two-person"]
FORMS: tuple[Form, ...] = ("narrow", "wide", "two-person")

Pair = Annotated[list[float], Field(min_length=2, max_length=2)]
"""An x and a y."""


class Reference(Part):
    """The straight line that every angle was measured against; any that can be seen will do."""

    words: str | None = told("what it is: two taped marks, the deck edge at the racks ...", None)
    keel_line_deg: float = measured_with_default(
        "angle of this line to the keel line, bow end higher positive; added to chord angles, taken from "
        "every wand angle",
        -10.0,
        10.0,
        0.0,
    )
    above_keel_m: float = measured_with_default(
        "height of this line above the keel line at the main strut, for heights given over it", -0.5, 1.5, 0.0
    )


class Mass(Part):
    """The boat rigged, foils and sail on, nobody aboard."""

    mass_kg: float | None = measurable("mass of the rigged boat", 15.0, 400.0)
    x_m: float | None = measurable("its centre, forward of the transom", 0.0, 8.0)
    z_m: float | None = measurable("its centre, above the keel line", -0.5, 2.0)
    pitch_radius_m: float | None = measurable("radius of gyration in pitch", 0.2, 3.0)


class Crew(Part):
    """Everyone aboard together, in wet kit."""

    usual_mass_kg: float | None = measurable("usual mass", 25.0, 250.0)
    least_mass_kg: float | None = measurable("lightest crew the boat is for", 25.0, 250.0)
    greatest_mass_kg: float | None = measurable("heaviest crew the boat is for", 25.0, 250.0)
    x_m: float | None = measurable("usual centre of the crew, forward of the transom", -1.0, 7.0)
    z_m: float | None = measurable("centre of the crew, above the keel line", 0.1, 2.5)
    out_m: float | None = measurable("centre of the crew, out from the centreline, fully hiked", 0.1, 3.5)
    drag_area_m2: float | None = measurable("drag area of the crew in the wind", 0.05, 2.0)


class Hull(Part):
    """The hull with its racks. Its shape is ten numbers; missing ones are those of its form."""

    id: str | None = told("name or number of this hull, so that it can be swapped", None)
    length_m: float | None = measurable("length, transom to stem", 2.0, 8.0)
    beam_m: float | None = measurable("greatest beam of the hull at the deck, without racks", 0.2, 3.0)
    depth_m: float | None = measurable("keel line to deck at the deepest place", 0.1, 1.2)
    greatest_beam_share: float | None = measurable(
        "place of greatest beam, share of the length from the transom", 0.2, 0.8
    )
    bow_exponent: float | None = measurable(
        "fullness of the bow in plan: 1 an ellipse, larger is finer", 0.5, 4.0
    )
    bow_beam_share: float | None = measurable(
        "beam at the stem over greatest beam, 0 for a pointed bow", 0.0, 0.95
    )
    transom_beam_share: float | None = measurable("beam at the transom over greatest beam", 0.05, 1.0)
    bow_rise_m: float | None = measurable("height of the bottom above the keel line at the bow", 0.0, 0.8)
    stern_rise_m: float | None = measurable(
        "height of the bottom above the keel line at the transom", 0.0, 0.8
    )
    section_exponent: float | None = measurable(
        "shape of the sections: 2 a parabola, larger is boxier", 1.0, 8.0
    )
    form_factor: float | None = measurable("factor of the form on friction", 1.0, 1.6)
    wave_share: float | None = measurable(
        "share of the thin-ship wave resistance kept (wide hulls plane)", 0.0, 1.5
    )
    planing_share: float | None = measurable("share of the flat-plate planing lift", 0.0, 1.2)
    drag_area_m2: float | None = measurable("drag area of hull and racks in the wind", 0.05, 2.5)
    drag_z_m: float | None = measurable("height of its centre above the keel line", 0.0, 2.0)


class Rig(Part):
    """Mast and sail."""

    id: str | None = told("name or number of this rig, so that it can be swapped", None)
    sail_area_m2: float | None = measurable("sail area", 2.0, 30.0)
    mast_height_m: float | None = measurable("mast above the deck", 2.0, 12.0)
    effort_x_m: float | None = measurable("centre of effort, forward of the transom", -1.0, 6.0)
    effort_z_m: float | None = measurable("centre of effort, above the keel line", 0.8, 8.0)
    mast_drag_area_m2: float | None = measurable("drag area of mast and rigging in the wind", 0.01, 1.0)
    mast_x_m: float | None = measurable("mast, forward of the transom", 0.0, 7.0)
    mast_z_m: float | None = measurable("middle height of the mast above the keel line", 0.5, 8.0)
    reef_share: float | None = measurable(
        "height of the sail as it is set, over that of the whole sail; left out where it cannot be reefed",
        0.5,
        1.0,
    )


class Foil(Part):
    """What main foil and rudder share: a horizontal foil at the foot of a strut."""

    taper: float | None = measurable("tip chord over root chord", 0.1, 1.0)
    sweep_deg: float | None = measurable("sweep of the quarter-chord line, tips aft positive", -20.0, 30.0)
    section: str | None = told("foil section: NACA four-digit, 63- or 64-series", None)
    section_outline: list[Pair] | None = told(
        "in place of a known section: its outline, x and y in shares of the chord, from the trailing edge "
        "over the upper side to the nose and back; needs the extra `polars`",
        None,
    )
    roughness: float | None = measurable(
        "0 smooth and polished, 1 turbulent from 5 % of the chord: weed, wear", 0.0, 1.0
    )
    zero_lift_shift_deg: float | None = measurable("added to the section's angle of no lift", -3.0, 3.0)
    greatest_lift_factor: float | None = measurable(
        "multiplies the section's greatest and least lift", 0.4, 1.5
    )
    strut_chord_m: float | None = measurable("strut chord", 0.04, 0.4)
    strut_thickness_share: float | None = measurable("strut thickness over its chord", 0.06, 0.25)
    strut_top_m: float | None = measurable("where the strut leaves the hull, above the keel line", -0.5, 1.0)


class MainFoil(Foil):
    """The main foil with its strut. Stations are those of strut and foil quarter chord."""

    id: str | None = told("name or number of this foil, so that it can be swapped", None)
    control: Literal["flap", "whole"] = told("how the wand controls it: a flap, or the whole foil pivots")
    x_m: float | None = measurable("station, forward of the transom", 0.3, 7.0)
    below_keel_m: float | None = measurable("foil plane below the keel line; or give strut_m", 0.2, 2.5)
    strut_m: float | None = measurable(
        "strut from the hull's bottom to the foil plane, in place of below_keel_m", 0.2, 2.5
    )
    span_m: float = measured("tip to tip", 0.3, 3.0)
    area_m2: float | None = measurable("area seen from above; or give mean_chord_m", 0.02, 0.6)
    mean_chord_m: float | None = measurable("mean chord, in place of area_m2", 0.03, 0.4)
    incidence_deg: float = measured(
        "chord line to the reference, leading edge up, adjusters at their marks; of a "
        "whole foil: at the chain's wand_deg",
        -10.0,
        10.0,
    )
    flap_chord_share: float | None = measurable("flap chord over chord", 0.2, 0.4)
    flap_span_share: float | None = measurable("flapped share of the span", 0.2, 1.0)
    pivot_share: float | None = measurable(
        "hinge of a whole foil, share of chord from the leading edge", 0.0, 0.6
    )


class RudderFoil(Foil):
    """The rudder with its foil."""

    id: str | None = told("name or number of this rudder, so that it can be swapped", None)
    x_m: float | None = measurable(
        "station, forward of the transom: negative behind it; or behind_main_strut_m", -2.0, 2.0
    )
    behind_main_strut_m: float | None = measurable("strut spacing, in place of x_m", 0.8, 6.0)
    below_keel_m: float | None = measurable("foil plane below the keel line", 0.2, 2.5)
    span_m: float | None = measurable("tip to tip", 0.2, 3.0)
    area_m2: float | None = measurable("area seen from above", 0.01, 0.5)
    incidence_deg: float = measured(
        "chord line to the reference, leading edge up, adjusters at their marks", -10.0, 10.0
    )
    tiller_length_m: float | None = measurable(
        "rudder's steering axis to the end of the tiller, where its elastic pulls", 0.2, 2.5
    )
    axis_ahead_m: float | None = measurable(
        "steering axis ahead of the strut's quarter chord, half way down its wet part", -0.1, 0.3
    )


class Wand(Part):
    """The surface feeler at the bow."""

    id: str | None = told("name or number of this wand, so that it can be swapped", None)
    length_m: float = measured("pivot to tip, at the mark", 0.3, 3.0)
    pivot_x_m: float | None = measurable(
        "pivot, forward of the transom; or give ahead_of_main_strut_m", 0.5, 9.0
    )
    ahead_of_main_strut_m: float | None = measurable(
        "pivot ahead of the main strut, in place of pivot_x_m", 0.2, 5.0
    )
    pivot_z_m: float | None = measurable("pivot above the keel line; or give above_reference_m", -0.3, 1.5)
    above_reference_m: float | None = measurable(
        "pivot above the reference, square to it, in place of pivot_z_m", -1.0, 1.5
    )
    forward_stop_deg: float | None = measurable(
        "wand angle at its forward stop, aft of straight down", -40.0, 45.0
    )
    aft_stop_deg: float | None = measurable("wand angle at its aft stop", 40.0, 120.0)
    paddle_length_m: float | None = measurable("paddle length along the wand", 0.01, 0.5)
    paddle_width_m: float | None = measurable("paddle width", 0.005, 0.3)
    stick_width_m: float | None = measurable("width of the stick above the paddle", 0.002, 0.1)
    mass_kg: float | None = measurable("mass of the wand", 0.01, 2.0)
    tension_n_m: float | None = measurable("wand elastic: moment at the pivot, towards forward", 0.0, 30.0)
    friction_n_m: float | None = measurable("friction: moment at the pivot, either way", 0.0, 5.0)
    bend_deg_per_n_m: float | None = measurable(
        "how far the wand at its pivot turns against the line to its tip, per N m on it", 0.0, 5.0
    )
    time_constant_s: float | None = measurable("how long the wand takes to follow", 0.0, 0.5)
