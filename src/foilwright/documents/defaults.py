"""What is assumed where a boat file is silent: a value and a band by form of boat, each with its source.

The values are common practice with no source unless a source stands beside them, and wide enough bands that
the boat at hand should lie inside. A default may hang on another number of the boat ("0.15 m aft of the
main strut"), so that a boat known by few numbers stays in proportion. Everything taken from here is
reported as assumed.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal, NamedTuple

from foilwright.units import ending_of

Triple = tuple[float, float, float]
PRACTICE = "common practice, no source"
DEMO_SHAPE = "shape of an invented demo boat; common practice, no source"


class Band(NamedTuple):
    """A value and the band it should lie in."""

    value: float
    low: float
    high: float


class Default(NamedTuple):
    """One default: the number's path in the boat file and its band for each form of boat."""

    path: str
    narrow: Band
    wide: Band
    two_person: Band
    source: str = PRACTICE
    way: Literal["as it stands", "plus", "times"] = "as it stands"
    base: str = ""  # the number that it is added to or multiplied with

    def for_form(self, form: str) -> Band:
        """The band of one form of boat, before its base comes in."""
        return self.narrow if form == "narrow" else self.wide if form == "wide" else self.two_person


@dataclass(frozen=True)
class Assumed:
    """A number that the boat file did not give: its path, what was taken, the band, unit and source."""

    name: str
    value: float
    low: float
    high: float
    unit: str
    source: str


class Taken(NamedTuple):
    """What was taken for a number that the boat file did not give."""

    path: str
    band: Band
    source: str


def _same(path: str, value: float, low: float, high: float, source: str = PRACTICE) -> Default:
    band = Band(value, low, high)
    return Default(path, band, band, band, source)


def _plus(path: str, base: str, narrow: Triple, wide: Triple, two_person: Triple) -> Default:
    return Default(path, Band(*narrow), Band(*wide), Band(*two_person), PRACTICE, "plus", base)


def _times(path: str, base: str, narrow: Triple, wide: Triple, two_person: Triple) -> Default:
    return Default(path, Band(*narrow), Band(*wide), Band(*two_person), PRACTICE, "times", base)


def _three(path: str, narrow: Triple, wide: Triple, two_person: Triple, source: str = PRACTICE) -> Default:
    return Default(path, Band(*narrow), Band(*wide), Band(*two_person), source)


FRICTION_OF_FORM = "as for slender hulls, ITTC 1957 line with a form factor; size common practice, no source"
WAND_TUBE = "a 14 mm carbon tube of 1.1 m turns 0.3 deg per N m (length / 3 E I): common practice, no source"
CARBON_TUBE = "a 6 mm carbon tube of 1 m stretches 0.0005 mm/N; with its seats: common practice, no source"

# In this order: what another hangs on comes before it.
DEFAULTS: tuple[Default, ...] = (
    _three("hull.length_m", (3.35, 3.2, 3.5), (3.05, 2.8, 3.6), (4.4, 4.0, 5.0)),
    _three("hull.beam_m", (0.36, 0.30, 0.50), (1.15, 0.90, 1.50), (0.62, 0.50, 1.20)),
    _three("hull.depth_m", (0.36, 0.30, 0.45), (0.36, 0.28, 0.45), (0.45, 0.35, 0.55)),
    _three("hull.greatest_beam_share", (0.42, 0.35, 0.5), (0.5, 0.4, 0.6), (0.42, 0.35, 0.5), DEMO_SHAPE),
    _three("hull.bow_exponent", (1.5, 1.0, 2.0), (1.0, 0.8, 1.5), (1.5, 1.0, 2.0), DEMO_SHAPE),
    _three("hull.bow_beam_share", (0.0, 0.0, 0.1), (0.45, 0.2, 0.6), (0.0, 0.0, 0.1), DEMO_SHAPE),
    _three("hull.transom_beam_share", (0.55, 0.4, 0.7), (0.80, 0.6, 0.95), (0.60, 0.45, 0.75), DEMO_SHAPE),
    _three("hull.bow_rise_m", (0.05, 0.02, 0.10), (0.22, 0.10, 0.30), (0.06, 0.02, 0.12), DEMO_SHAPE),
    _three("hull.stern_rise_m", (0.045, 0.02, 0.07), (0.05, 0.02, 0.08), (0.06, 0.03, 0.09), DEMO_SHAPE),
    _three("hull.section_exponent", (3.0, 2.4, 4.0), (2.2, 1.8, 2.8), (2.8, 2.2, 3.6), DEMO_SHAPE),
    _three("hull.form_factor", (1.12, 1.05, 1.20), (1.10, 1.05, 1.20), (1.12, 1.05, 1.20), FRICTION_OF_FORM),
    _three("hull.wave_share", (1.0, 0.85, 1.1), (0.6, 0.4, 0.9), (1.0, 0.85, 1.1)),
    _three("hull.planing_share", (0.0, 0.0, 0.2), (0.7, 0.4, 1.0), (0.0, 0.0, 0.3)),
    _three("hull.drag_area_m2", (0.32, 0.22, 0.42), (0.30, 0.20, 0.42), (0.45, 0.32, 0.60)),
    _times("hull.drag_z_m", "hull.depth_m", (0.5, 0.4, 1.0), (0.5, 0.4, 1.0), (0.5, 0.4, 1.0)),
    _times("main_foil.x_m", "hull.length_m", (0.582, 0.54, 0.62), (0.564, 0.52, 0.61), (0.568, 0.53, 0.61)),
    _same("main_foil.taper", 0.5, 0.3, 0.8),
    _same("main_foil.sweep_deg", 0.0, -3.0, 8.0),
    _same("main_foil.roughness", 0.5, 0.0, 1.0),
    _same("main_foil.zero_lift_shift_deg", 0.0, -0.5, 0.5),
    _same("main_foil.greatest_lift_factor", 1.0, 0.85, 1.15),
    _three("main_foil.mean_chord_m", (0.107, 0.09, 0.125), (0.117, 0.10, 0.135), (0.132, 0.11, 0.15)),
    _same("main_foil.flap_chord_share", 0.30, 0.25, 0.35),
    _same("main_foil.flap_span_share", 1.0, 0.85, 1.0),
    _same("main_foil.pivot_share", 0.30, 0.22, 0.35),
    _three("main_foil.strut_chord_m", (0.115, 0.10, 0.13), (0.115, 0.10, 0.13), (0.130, 0.11, 0.15)),
    _same("main_foil.strut_thickness_share", 0.12, 0.10, 0.14),
    _three("rudder.x_m", (-0.35, -0.60, 0.0), (-0.25, -0.50, 0.0), (-0.40, -0.70, 0.0)),
    _plus(
        "rudder.below_keel_m",
        "main_foil.below_keel_m",
        (-0.04, -0.12, 0.04),
        (-0.02, -0.10, 0.06),
        (-0.05, -0.15, 0.05),
    ),
    _times("rudder.span_m", "main_foil.span_m", (0.857, 0.75, 0.95), (0.816, 0.70, 0.95), (0.80, 0.70, 0.95)),
    _times(
        "rudder.area_m2", "main_foil.area_m2", (0.705, 0.55, 0.85), (0.626, 0.50, 0.80), (0.636, 0.50, 0.80)
    ),
    _same("rudder.taper", 0.5, 0.3, 0.8),
    _same("rudder.sweep_deg", 0.0, -3.0, 8.0),
    _same("rudder.roughness", 0.5, 0.0, 1.0),
    _same("rudder.zero_lift_shift_deg", 0.0, -0.5, 0.5),
    _same("rudder.greatest_lift_factor", 1.0, 0.85, 1.15),
    _three("rudder.strut_chord_m", (0.105, 0.09, 0.12), (0.105, 0.09, 0.12), (0.115, 0.10, 0.135)),
    _same("rudder.strut_thickness_share", 0.12, 0.10, 0.14),
    _three("mass.mass_kg", (40.0, 30.0, 60.0), (38.0, 33.0, 50.0), (92.0, 80.0, 120.0)),
    _plus("mass.x_m", "main_foil.x_m", (-0.15, -0.30, 0.05), (-0.22, -0.40, 0.0), (-0.25, -0.45, 0.0)),
    _three("mass.z_m", (0.40, 0.25, 0.60), (0.30, 0.20, 0.55), (0.45, 0.30, 0.70)),
    _three("mass.pitch_radius_m", (0.9, 0.75, 1.05), (0.9, 0.75, 1.05), (1.15, 0.95, 1.35)),
    _three("crew.usual_mass_kg", (75.0, 60.0, 90.0), (48.0, 35.0, 60.0), (145.0, 130.0, 160.0)),
    _three("crew.least_mass_kg", (60.0, 50.0, 65.0), (35.0, 30.0, 40.0), (130.0, 110.0, 140.0)),
    _three("crew.greatest_mass_kg", (90.0, 85.0, 100.0), (60.0, 55.0, 70.0), (160.0, 150.0, 180.0)),
    _plus("crew.x_m", "main_foil.x_m", (-0.50, -0.70, -0.30), (-0.42, -0.62, -0.22), (-0.55, -0.80, -0.30)),
    _three("crew.z_m", (0.75, 0.65, 0.90), (0.65, 0.55, 0.80), (0.80, 0.70, 0.95)),
    _three("crew.out_m", (1.55, 1.35, 1.75), (1.2, 1.0, 1.4), (1.75, 1.5, 2.0)),
    _three("crew.drag_area_m2", (0.38, 0.30, 0.48), (0.30, 0.22, 0.40), (0.65, 0.50, 0.80)),
    _three("rig.sail_area_m2", (6.9, 5.5, 8.5), (5.6, 4.5, 7.0), (12.0, 10.0, 16.0)),
    _three("rig.mast_height_m", (4.9, 4.5, 5.4), (4.4, 4.0, 5.0), (6.6, 6.0, 8.0)),
    _plus(
        "rig.effort_x_m", "main_foil.x_m", (-0.35, -0.60, -0.10), (-0.27, -0.50, -0.05), (-0.40, -0.70, -0.10)
    ),
    _times(
        "rig.effort_z_m", "rig.mast_height_m", (0.541, 0.47, 0.60), (0.534, 0.47, 0.60), (0.50, 0.44, 0.56)
    ),
    _three("rig.mast_drag_area_m2", (0.08, 0.05, 0.12), (0.08, 0.05, 0.12), (0.11, 0.07, 0.16)),
    _plus("rig.mast_x_m", "main_foil.x_m", (0.25, 0.0, 0.5), (0.25, 0.0, 0.6), (0.3, 0.0, 0.6)),
    _same("wand.forward_stop_deg", 0.0, -10.0, 15.0),
    _same("wand.aft_stop_deg", 82.0, 70.0, 90.0),
    _same("wand.paddle_length_m", 0.100, 0.05, 0.15),
    _same("wand.paddle_width_m", 0.045, 0.025, 0.06),
    _same("wand.stick_width_m", 0.010, 0.006, 0.014),
    _same("wand.mass_kg", 0.15, 0.08, 0.30),
    _three("wand.tension_n_m", (3.0, 1.5, 5.0), (2.5, 1.2, 4.5), (3.6, 2.0, 6.0)),
    _same("wand.friction_n_m", 0.0, 0.0, 0.6),
    _same("wand.bend_deg_per_n_m", 0.3, 0.0, 1.0, WAND_TUBE),
    _same("wand.time_constant_s", 0.05, 0.02, 0.1),
    _same("chain.wand_deg", 45.0, 40.0, 50.0),
)  # fmt: skip
FOIL_STOPS: dict[str, tuple[Default, ...]] = {
    "flap": (
        _same("chain.foil_least_deg", -6.0, -8.0, -4.0),
        _same("chain.foil_greatest_deg", 12.0, 10.0, 15.0),
    ),
    "whole": (
        _same("chain.foil_least_deg", -3.0, -4.0, -2.0),
        _same("chain.foil_greatest_deg", 6.0, 5.0, 8.0),
    ),
}
CURVE_DEFAULTS: tuple[Default, ...] = (
    _same("chain.slop_deg", 1.0, 0.4, 2.0),
    _same("chain.give_deg_per_n_m", 0.05, 0.0, 0.2, CARBON_TUBE),
)
ROD_DEFAULTS: tuple[Default, ...] = (
    _same("play_mm", 0.1, 0.0, 0.4),
    _same("stretch_mm_per_n", 0.0005, 0.0, 0.002, CARBON_TUBE),
)
AXIS_AT_NOSE = "a strut that turns about its leading edge; " + PRACTICE
STEERING_DEFAULTS: tuple[Default, ...] = (
    _three("rudder.tiller_length_m", (0.9, 0.6, 1.2), (0.8, 0.6, 1.1), (1.1, 0.8, 1.5)),
    Default(
        "rudder.axis_ahead_m",
        Band(0.25, -0.05, 0.6),
        Band(0.25, -0.05, 0.6),
        Band(0.25, -0.05, 0.6),
        AXIS_AT_NOSE,
        "times",
        "rudder.strut_chord_m",
    ),
)
"""Numbers of the tiller: the steady flight has no need of them, and they are asked for apart."""
SECTIONS: dict[str, tuple[str, str]] = {
    "narrow": ("typical 12 %", "typical 9 %"),
    "wide": ("typical 12 %", "typical symmetric 12 %"),
    "two-person": ("typical 12 %", "typical 9 %"),
}
"""Main and rudder foil section where none is given, by form of boat; common practice, no source."""


@lru_cache(maxsize=32)
def defaults_for(control: str, from_curve: bool, rods: tuple[str, ...]) -> tuple[Default, ...]:
    """The table for a boat: with its foil's stops, and what goes with its curve or with each of its rods."""
    if from_curve:
        return DEFAULTS + FOIL_STOPS[control] + CURVE_DEFAULTS
    of_rods = tuple(d._replace(path=f"chain.rods.{rod}.{d.path}") for rod in rods for d in ROD_DEFAULTS)
    return DEFAULTS + FOIL_STOPS[control] + of_rods


def filled(
    form: str, given: Mapping[str, float], table: Sequence[Default], not_wanted: frozenset[str]
) -> tuple[dict[str, float], list[Taken]]:
    """The given numbers with every missing one taken from the table, and what was taken."""
    numbers = dict(given)
    taken: list[Taken] = []
    for default in table:
        path = default.path
        if path not in numbers and path not in not_wanted:
            band = default.for_form(form)
            if default.way == "plus":
                base = numbers[default.base]
                band = Band(base + band[0], base + band[1], base + band[2])
            elif default.way == "times":
                base = numbers[default.base]
                band = Band(base * band[0], base * band[1], base * band[2])
            numbers[path] = band.value
            taken.append(Taken(path, band, default.source))
        if path == "main_foil.mean_chord_m" and "main_foil.area_m2" not in numbers:
            numbers["main_foil.area_m2"] = numbers["main_foil.span_m"] * numbers["main_foil.mean_chord_m"]
    return numbers, taken


def assumption(taken: Taken) -> Assumed:
    """One thing assumed, with its unit from its name."""
    band = taken.band
    low, high = min(band.low, band.high), max(band.low, band.high)
    return Assumed(taken.path, band.value, low, high, _unit_of(taken.path), taken.source)


@lru_cache(maxsize=256)
def _unit_of(path: str) -> str:
    unit = ending_of(path.rsplit(".", 1)[-1])
    return unit.symbol if unit else ""
