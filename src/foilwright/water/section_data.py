"""From the name of a foil's section to the table its lookups read (at load time; see water/section.py).

The shipped table holds three families on a grid of camber and thickness, at rest and with plain flaps of
three shares of chord, with free transition and tripped. A named section is blended from its neighbours in the
family; the flap share and the roughness are blended the same way. How far a blend is from a direct
computation: docs/theory/section.md.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np

from foilwright.measures import Floats
from foilwright.mistakes import Mistake
from foilwright.water.section import SectionTables
from foilwright.water.section_outline import outline_faults
from foilwright.water.section_polars import ALPHA, DEGREE, FLAP, LOG_RE, tabulate

Whole = np.ndarray[tuple[Any, ...], np.dtype[np.int16]]
"""Stored integers."""

FAMILIES = ("4-digit", "63", "64")
CAMBERS = (0, 2, 4)  # per cent of chord (4-digit), ten times the design lift (63, 64)
THICKNESSES = (8, 9, 10, 12, 15)  # per cent of chord
SHARES = (0.2, 0.3, 0.4)  # flap chord / chord
REST = int(np.argmin(np.abs(FLAP)))
REST_OF = tuple(
    1 + s for s in range(len(SHARES))
)  # flap at rest, by share: the same section with a hinge moment
COMBINATIONS = 1 + len(SHARES) * len(FLAP)

LINE_STEP = np.array([1e-5, 5e-4, 5e-4, 5e-4])  # what one unit of the stored integers means
POLAR_STEP = np.array([2e-3, 2e-4, 5e-4, 3e-3])  # of ln cd, cm, ch, ln -cp_min

ROUGH_LIFT_LOSS = (
    0.19  # of greatest and least lift at roughness 1: wrapped 63/64-series, Timmer 2009 (18-20 %)
)

TYPICAL = (("4-digit", 2.0), ("63", 2.0), ("63", 4.0), ("64", 2.0), ("64", 4.0))
TYPICAL_SYMMETRIC = (("4-digit", 0.0), ("63", 0.0), ("64", 0.0))
TYPICAL_ZERO_LIFT_BAND = 0.8 * DEGREE  # the members lie within this of the typical section
TYPICAL_GREATEST_LIFT_BAND = 0.15  # ... as a share of the greatest lift

NAMES = (
    "NACA 0009", "NACA 0012", "NACA 2410", "NACA 2412", "NACA 4412",
    "NACA 63-209", "NACA 63-212", "NACA 63-410", "NACA 63-412", "NACA 64-210", "NACA 64-212", "NACA 64-412",
    "typical 9 %", "typical 10 %", "typical 12 %", "typical symmetric 9 %", "typical symmetric 12 %",
)  # fmt: skip
ALLOWED = (
    "NACA four-digit with camber 0 to 4 % at 40 % chord (0012, 2412), NACA 63- or 64-series with design "
    "lift 0 to 0.4 (63-412), 'typical 12 %' or 'typical symmetric 12 %'; thickness 8 to 15 %"
)


@dataclass(frozen=True)
class SectionSpec:
    """One foil's section as a boat file gives it.

    name                  a known name; only a label when coordinates are given
    flap_share            flap chord / chord, 0 without a flap, else 0.2 to 0.4
    roughness             0 smooth with free transition, 1 turbulent from 5 % of chord and a fifth less
                          greatest lift (weed, wear); blended between
    coordinates           (n, 2) outline in shares of chord: trailing edge, upper side, nose, lower side,
                          trailing edge
    zero_lift_shift       [rad] added to the zero-lift angle (the whole polar moves with it)
    greatest_lift_factor  multiplies greatest and least lift
    """

    name: str
    flap_share: float
    roughness: float
    coordinates: Floats | None = None
    zero_lift_shift: float = 0.0
    greatest_lift_factor: float = 1.0


def known_sections() -> tuple[str, ...]:
    """Names worth offering; every name that ALLOWED describes works."""
    return NAMES


def combination(share: int, flap: int) -> int:
    """Place in the shipped table of share number `share` at flap angle number `flap` (never the one at
    rest)."""
    turned = flap if flap < REST else flap - 1
    return 1 + len(SHARES) + share * (len(FLAP) - 1) + turned


def coded_line(line: Floats) -> Whole:
    """The line in whole LINE_STEPs."""
    return np.asarray(np.rint(line / LINE_STEP), dtype=np.int16)


def coded_polar(polar: Floats) -> Whole:
    """ln cd, cm, ch and ln -cp_min in whole steps, as differences along alpha (they compress well)."""
    told = polar.copy()
    told[..., 0] = np.log(polar[..., 0])
    told[..., 3] = np.log(np.maximum(-polar[..., 3], 0.01))
    whole = np.rint(told / POLAR_STEP).astype(np.int64)
    whole[..., 1:, :] = np.diff(whole, axis=-2)
    return np.asarray(whole, dtype=np.int16)


@cache
def shipped() -> tuple[Whole, Whole]:
    """The stored integers of line and polar; refuses a file that is not the one its note describes."""
    folder = files("foilwright.water") / "data"
    content = (folder / "sections.npz").read_bytes()
    note = json.loads((folder / "sections.json").read_text())
    if hashlib.sha256(content).hexdigest() != note["sha256"]:
        raise Mistake(
            where="foilwright/water/data/sections.npz",
            came="its content does not match the sum in sections.json",
            allowed="the section table that came with this version",
            mend="Install foilwright again, or rebuild the table with builders/section_tables.py.",
        )
    with (folder / "sections.npz").open("rb") as file, np.load(file) as stored:
        return stored["line"], stored["polar"]


def parse(name: str) -> tuple[tuple[tuple[str, float], ...], float]:
    """((family, camber), ...) to be averaged, and thickness in per cent, of a section's name."""
    plain = re.sub(r"\s+", " ", name.strip().lower()).removeprefix("naca").strip()
    if found := re.fullmatch(r"typical (symmetric )?(\d+(?:\.\d+)?) ?%", plain):
        return (TYPICAL_SYMMETRIC if found[1] else TYPICAL), checked_thickness(name, float(found[2]))
    if found := re.fullmatch(r"(\d)(\d)(\d\d)", plain):
        camber, place, thickness = int(found[1]), int(found[2]), float(found[3])
        if camber <= CAMBERS[-1] and place == (4 if camber else 0):
            return (("4-digit", float(camber)),), checked_thickness(name, thickness)
    if found := re.fullmatch(r"(63|64)(?:,?\d|\(\d\))?-(\d)(\d\d)", plain):
        camber, thickness = int(found[2]), float(found[3])
        if camber <= CAMBERS[-1]:
            return ((found[1], float(camber)),), checked_thickness(name, thickness)
    raise unknown(name)


def unknown(name: str) -> Mistake:
    """What to say about a section name that cannot be served."""
    return Mistake(
        where="section", came=f"'{name}'", allowed=ALLOWED,
        mend="Name the nearest, use 'typical N %' with N the thickness measured, or give coordinates.",
    )  # fmt: skip


def checked_thickness(name: str, thickness: float) -> float:
    """The thickness [% of chord], or a Mistake when the families do not reach it."""
    if not THICKNESSES[0] <= thickness <= THICKNESSES[-1]:
        raise unknown(name)
    return thickness


def near(at: float, nodes: Sequence[float]) -> list[tuple[int, float]]:
    """(node number, weight) of the straight line between the two nodes around `at`."""
    right = min(max(int(np.searchsorted(nodes, at)), 1), len(nodes) - 1)
    share = (at - nodes[right - 1]) / (nodes[right] - nodes[right - 1])
    return [(n, w) for n, w in ((right - 1, 1.0 - share), (right, share)) if w != 0.0]


def through(at: float, nodes: Sequence[float]) -> list[tuple[int, float]]:
    """(node number, weight) of the parabola through three nodes."""
    weights = [
        float(np.prod([(at - m) / (n - m) for m in nodes if m != n])) for n in nodes
    ]  # fmt: skip
    return [(i, w) for i, w in enumerate(weights) if abs(w) > 1e-12]


def blended(spec: SectionSpec) -> tuple[Floats, Floats]:
    """Line [re, flap, 4] and polar [re, flap, alpha, 4] of a named section, values at the grid points."""
    means, thickness = parse(spec.name)
    lines, polars = shipped()
    line = np.zeros((len(LOG_RE), len(FLAP), 4))
    polar = np.zeros((len(LOG_RE), len(FLAP), len(ALPHA), 4))
    for family, camber in means:
        f = FAMILIES.index(family)
        for c, wc in through(camber, CAMBERS):
            for t, wt in near(thickness, THICKNESSES):
                for trip, wr in ((0, 1.0 - spec.roughness), (1, spec.roughness)):
                    weight = wc * wt * wr / len(means)
                    if weight != 0.0:
                        one_line, one_polar = with_flap(
                            lines[f, c, t, trip], polars[f, c, t, trip], spec.flap_share
                        )
                        line, polar = line + weight * one_line, polar + weight * one_polar
    return told(line, polar)


def with_flap(line: Whole, polar: Whole, flap_share: float) -> tuple[Floats, Floats]:
    """Pick and blend the combinations of one flap share: [re, flap, ...], still in stored units, as
    floats."""
    if flap_share == 0.0:
        picks = [([0] * len(FLAP), 1.0)]
    else:
        picks = [
            ([REST_OF[s] if f == REST else combination(s, f) for f in range(len(FLAP))], weight)
            for s, weight in through(flap_share, SHARES)
        ]
    whole = sum(weight * np.cumsum(polar[pick].astype(np.float64), axis=-2) for pick, weight in picks)
    straight = sum(weight * line[pick].astype(np.float64) for pick, weight in picks)
    return np.moveaxis(np.asarray(straight), 0, 1), np.moveaxis(np.asarray(whole), 0, 1)


def told(line: Floats, polar: Floats) -> tuple[Floats, Floats]:
    """Stored units to values."""
    line, polar = line * LINE_STEP, polar * POLAR_STEP
    polar[..., 0] = np.exp(polar[..., 0])
    polar[..., 3] = -np.exp(polar[..., 3])
    return line, polar


def spline_coefficients(values: Floats, axis: int) -> Floats:
    """Coefficients (two more than values) of the quadratic B-spline through equally spaced values.

    At a point: (before + 6 here + after) / 8 = value; at both ends the third difference of coefficients is
    zero.
    """
    n = values.shape[axis]
    matrix = np.zeros((n + 2, n + 2))
    for i in range(n):
        matrix[i, i : i + 3] = (0.125, 0.75, 0.125)
    matrix[n, :4] = matrix[n + 1, -4:] = (1.0, -3.0, 3.0, -1.0)
    moved = np.moveaxis(values, axis, 0)
    right = np.zeros((n + 2, *moved.shape[1:]))
    right[:n] = moved
    solved = np.linalg.solve(matrix, right.reshape(n + 2, -1)).reshape(right.shape)
    return np.ascontiguousarray(np.moveaxis(solved, 0, axis))


def shifted(polar: Floats, shift: float) -> Floats:
    """The polar [re, flap, alpha, 4] moved by `shift` [rad] to larger angles; end values held."""
    coefficients = spline_coefficients(polar, 2)
    place = np.clip((ALPHA - shift - ALPHA[0]) / (ALPHA[1] - ALPHA[0]), 0.0, len(ALPHA) - 1.0)
    nearest = np.minimum(np.floor(place + 0.5).astype(int), len(ALPHA) - 1)
    t = (place - nearest)[None, None, :, None]
    return np.asarray(
        0.5 * (0.5 - t) ** 2 * coefficients[:, :, nearest]
        + (0.75 - t**2) * coefficients[:, :, nearest + 1]
        + 0.5 * (0.5 + t) ** 2 * coefficients[:, :, nearest + 2]
    )


@cache
def tabulated(content: bytes, flap_share: float) -> tuple[Floats, Floats]:
    """A section's own outline through NeuralFoil, once a process (seconds; needs the extra `polars`)."""
    return tabulate(np.frombuffer(content).reshape(-1, 2), flap_share)


def from_coordinates(outline: Floats, spec: SectionSpec) -> tuple[Floats, Floats]:
    """Line [re, flap, 4] and polar [re, flap, alpha, 4] of a section given by its outline."""
    line, polar = tabulated(np.ascontiguousarray(outline, dtype=np.float64).tobytes(), spec.flap_share)
    share = spec.roughness
    told = polar.copy()  # drag and pressure blend as logarithms, as those of the named sections do
    told[..., 0], told[..., 3] = np.log(polar[..., 0]), np.log(np.maximum(-polar[..., 3], 0.01))
    line, told = (1.0 - share) * line[0] + share * line[1], (1.0 - share) * told[0] + share * told[1]
    polar = told.copy()
    polar[..., 0], polar[..., 3] = np.exp(told[..., 0]), -np.exp(told[..., 3])
    if line.shape[1] == 1:  # no flap: the same at every flap angle
        line, polar = np.repeat(line, len(FLAP), axis=1), np.repeat(polar, len(FLAP), axis=1)
    return line, polar


def checked(spec: SectionSpec) -> SectionSpec:
    """The spec itself, or a Mistake about its flap share, roughness or coordinates."""
    where = f"section '{spec.name}'"
    if spec.flap_share != 0.0 and not SHARES[0] <= spec.flap_share <= SHARES[-1]:
        raise Mistake(
            where,
            f"flap chord share {spec.flap_share:g}",
            f"0 (no flap) or {SHARES[0]} to {SHARES[-1]}",
            "Measure hinge to trailing edge over the whole chord.",
        )
    if not 0.0 <= spec.roughness <= 1.0:
        raise Mistake(
            where,
            f"roughness {spec.roughness:g}",
            "0 (smooth) to 1 (rough from 5 % of chord)",
            "Choose 0 for a polished foil, 0.5 for a used one.",
        )
    if spec.coordinates is not None:
        for mistake in outline_faults(spec.coordinates, where):
            raise mistake
    return spec


def tables_for(sections: Sequence[SectionSpec]) -> SectionTables:
    """The lookup tables of a boat: row i of `line` and `polar` is sections[i]."""
    lines, polars = [], []
    for spec in map(checked, sections):
        line, polar = blended(spec) if spec.coordinates is None else from_coordinates(spec.coordinates, spec)
        if spec.flap_share == 0.0:
            polar[..., 2] = 0.0
        if spec.zero_lift_shift != 0.0:
            line[..., 0] += spec.zero_lift_shift
            polar = shifted(polar, spec.zero_lift_shift)
        line[..., 2:] *= spec.greatest_lift_factor * (1.0 - ROUGH_LIFT_LOSS * spec.roughness)
        for axis in (0, 1):
            line, polar = spline_coefficients(line, axis), spline_coefficients(polar, axis)
        lines.append(line)
        polars.append(spline_coefficients(polar, 2))
    return SectionTables(
        alpha_start=float(ALPHA[0]), alpha_step=float(ALPHA[1] - ALPHA[0]),
        flap_start=float(FLAP[0]), flap_step=float(FLAP[1] - FLAP[0]),
        log_re_start=float(LOG_RE[0]), log_re_step=float(LOG_RE[1] - LOG_RE[0]),
        line=np.array(lines), polar=np.array(polars),
    )  # fmt: skip
