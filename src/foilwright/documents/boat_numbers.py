"""A boat file made ready to fly: row of numbers, tables, adjusters, what was assumed, how sure it all is."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from math import radians

import numpy as np

from foilwright.documents.boat_adjusters import adjusters_of
from foilwright.documents.boat_record import BoatFile
from foilwright.documents.boat_row import curve_of, row_of
from foilwright.documents.boat_table import (
    all_numbers,
    given_errors,
    given_numbers,
    hull_numbers,
    numbers_alone,
)
from foilwright.documents.defaults import SECTIONS, STEERING_DEFAULTS, Assumed, assumption, filled
from foilwright.flight.boat import Tables, row_names
from foilwright.measures import Floats
from foilwright.setup.adjusters import Adjuster
from foilwright.water.hull_shape import parametric_hull
from foilwright.water.section_data import SectionSpec, tables_for
from foilwright.water.waves import wave_table

FOILS = ("main_foil", "rudder")
OWN_OUTLINE = "its own outline"
WAVE_SECTIONS = (41, 9)  # stations and nodes: waves want finer sections than hydrostatics


@dataclass(frozen=True)
class ReadyBoat:
    """A boat ready to fly.

    row       its numbers with every adjuster at its mark, in the order of `names` [SI]
    numbers   the same boat by the paths of its file, in the file's units, defaults filled in
    assumed   what the file did not give
    version   ten signs for the meaning of the file
    """

    name: str
    form: str
    row: Floats
    names: tuple[str, ...]
    tables: Tables
    adjusters: tuple[Adjuster, ...]
    assumed: tuple[Assumed, ...]
    version: str
    numbers: Mapping[str, float]
    file: BoatFile = field(repr=False)

    @property
    def present(self) -> dict[str, float]:
        """Where every adjuster stands now, in steps from its mark."""
        return {record.name: record.present for record in self.file.adjusters}

    @property
    def sections(self) -> tuple[str, str]:
        """Section of main and rudder foil, given or assumed."""
        return sections_of(self.file)

    @property
    def assumed_words(self) -> dict[str, str]:
        """What the file did not tell and is no number: path and what was taken."""
        foils = {"main_foil": self.file.main_foil, "rudder": self.file.rudder}
        names = zip(foils, self.sections, strict=True)
        assumed = {
            foil for foil, part in foils.items() if part.section is None and part.section_outline is None
        }
        return {f"{foil}.section": name for foil, name in names if foil in assumed}

    @cached_property
    def bands(self) -> dict[str, float]:
        """How sure each number of the row is [its SI unit]; sure numbers are left out.

        Its standard error, or half the band of what was assumed; where several act on one number, the root of
        the sum of their squares.
        """
        square = np.zeros_like(self.row)
        for path, error in given_errors(self.file).items():
            square += (self.row_with({path: self.numbers[path] + error}) - self.row) ** 2
        for assumed in self.assumed:
            low, high = (self.row_with({assumed.name: end}) for end in (assumed.low, assumed.high))
            square += (0.5 * (high - low)) ** 2
        sure = 1e-12 * np.maximum(np.abs(self.row), 1.0)
        return {
            name: float(b)
            for name, b, rounding in zip(self.names, np.sqrt(square), sure, strict=True)
            if b > rounding
        }

    @cached_property
    def _given(self) -> dict[str, float]:
        return given_numbers(self.file)

    @property
    def steering(self) -> tuple[dict[str, float], list[Assumed]]:
        """The numbers with those of the tiller, and which of these the file did not give."""
        numbers, taken = filled(self.form, self.numbers, STEERING_DEFAULTS, frozenset())
        return numbers, [assumption(one) for one in taken]

    def row_with(self, instead: Mapping[str, float]) -> Floats:
        """The row with other values for numbers of the file, given or assumed; by path, in the file's units.

        The drawing position stays: rods without a length of their own follow. What hangs on them by default
        follows too. The shape of the hull and the sections are tables, not numbers of the row: see `ready`.
        """
        numbers = numbers_alone(self.file, {**self._given, **instead})
        return row_of(self.file, numbers, curve_of(self.file, numbers))


def ready(boat: BoatFile, instead: Mapping[str, float] | None = None, file: str = "") -> ReadyBoat:
    """Makes a checked boat file ready to fly; `instead` puts other values in place of numbers of the file."""
    given = {**given_numbers(boat), **(instead or {})}
    numbers, assumed = all_numbers(boat, given)
    curve = curve_of(boat, numbers)
    row = row_of(boat, numbers, curve)
    hull = parametric_hull(hull_numbers(numbers))
    tables = Tables(
        sections=tables_for(section_specs(boat, numbers)),
        hull=hull,
        waves=wave_table(parametric_hull(hull_numbers(numbers), *WAVE_SECTIONS)),
        curve=curve,
    )
    where = file or boat.name
    return ReadyBoat(
        name=boat.name,
        form=boat.form,
        row=row,
        names=row_names(len(boat.chain.rods)),
        tables=tables,
        adjusters=adjusters_of(boat, numbers, row, curve, where),
        assumed=tuple(assumed),
        version=boat.version_of_content(),
        numbers=numbers,
        file=boat,
    )


def section_specs(boat: BoatFile, numbers: Mapping[str, float]) -> list[SectionSpec]:
    """The sections of main and rudder foil as the section tables want them."""
    return [
        SectionSpec(
            name=name,
            flap_share=numbers.get(f"{foil}.flap_chord_share", 0.0),
            roughness=numbers[f"{foil}.roughness"],
            zero_lift_shift=radians(numbers[f"{foil}.zero_lift_shift_deg"]),
            greatest_lift_factor=numbers[f"{foil}.greatest_lift_factor"],
            coordinates=np.array(part.section_outline) if part.section_outline is not None else None,
        )
        for foil, part, name in zip(FOILS, (boat.main_foil, boat.rudder), sections_of(boat), strict=True)
    ]


def sections_of(boat: BoatFile) -> tuple[str, str]:
    """Section of main and rudder foil, those of its form of boat where they are not given."""
    main, rudder = (
        OWN_OUTLINE if part.section_outline is not None else part.section or usual
        for part, usual in zip((boat.main_foil, boat.rudder), SECTIONS[boat.form], strict=True)
    )
    return main, rudder
