"""Who sails: on the command line as kilograms, or a small TOML file. Everyone aboard together, in wet kit.

    format = "foilwright/sailor"
    version = 1
    name = "Ash"             # a first name or a nickname: never a surname, never a birth date
    mass_band_kg = [70, 75]  # a band of 5 kg is enough
    stage = "improving"

Weights are for the computation, not for paper that others see.
"""

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal

from pydantic import Field, ValidationError

from foilwright.documents.faults import mistakes_in
from foilwright.documents.measured import Part, told
from foilwright.documents.toml_file import parsed_toml, read_text
from foilwright.mistakes import Mistake, Mistakes
from foilwright.units import parsed, plain

Stage = Literal["first-hops", "improving", "settled", "expert"]
STAGES: tuple[Stage, ...] = ("first-hops", "improving", "settled", "expert")
FORMAT = "foilwright/sailor"
LEAST_KG, GREATEST_KG = 25.0, 250.0
PRIVATE = ("surname", "last_name", "family_name", "birth_date", "date_of_birth", "birthday", "age", "address")


class Sailor(Part):
    """The sailor or crew as the tool knows them."""

    format: Literal["foilwright/sailor"] = told('always "foilwright/sailor"', FORMAT)
    version: Literal[1] = told("of the format: 1", 1)
    name: str | None = Field(
        default=None, description="a first name or nickname", min_length=1, max_length=40
    )
    mass_band_kg: list[float] = told(
        "lightest and heaviest that they may be, all aboard together, in wet kit"
    )
    stage: Stage | None = told("stage of learning: first-hops, improving, settled or expert", None)

    @property
    def mass_kg(self) -> float:
        """The middle of the mass band."""
        return 0.5 * (self.mass_band_kg[0] + self.mass_band_kg[-1])


def sailor_from(text: str, where: str = "--sailor") -> Sailor:
    """A sailor from what stands behind --sailor: a file where it ends in .toml, otherwise kilograms."""
    if text.strip().lower().endswith(".toml"):
        return read_sailor(text.strip())
    mass = parsed(text, "kg", where)
    _check_mass(mass, where, f"{plain(mass)} kg")
    return Sailor(mass_band_kg=[mass, mass])


def read_sailor(path: str | Path) -> Sailor:
    """Reads and checks a sailor file."""
    path = Path(path)
    return sailor_from_data(parsed_toml(read_text(path), path.name), path.name)


def sailor_from_data(data: Mapping[str, Any], file: str) -> Sailor:
    """A sailor from the tables of a file."""
    if data.get("format") != FORMAT or data.get("version") != 1:
        came = f'format = "{data.get("format")}", version = {data.get("version")}'
        raise Mistake(
            f"{file}: format",
            came,
            f'format = "{FORMAT}", version = 1',
            "Write both lines at the top, if this is a sailor file.",
        )
    for name in PRIVATE:
        if name in data:
            raise Mistake(
                f"{file}: {name}",
                "something about a person that the tool does not need",
                "name, mass_band_kg, stage",
                "Take it out: a first name and a band of mass are enough.",
            )
    try:
        sailor = Sailor.model_validate(dict(data))
    except ValidationError as error:
        raise Mistakes(tuple(mistakes_in(error, Sailor, data, file))) from None
    where = f"{file}: mass_band_kg"
    band = sailor.mass_band_kg
    if not 1 <= len(band) <= 2 or band[0] > band[-1]:
        raise Mistake(where, str(band), "[lightest, heaviest] in kg", "Write for example [70, 75].")
    for mass in band:
        _check_mass(mass, where, f"{plain(mass)} kg")
    return sailor


def _check_mass(mass: float, where: str, came: str) -> None:
    if not LEAST_KG <= mass <= GREATEST_KG:
        pounds = mass > GREATEST_KG and LEAST_KG <= mass * 0.4536 <= GREATEST_KG
        hint = f" If that is pounds, it is {plain(mass * 0.4536, 3)} kg." if pounds else ""
        raise Mistake(
            where,
            came,
            f"{plain(LEAST_KG)} to {plain(GREATEST_KG)} kg",
            f"Give the mass of everyone aboard together, in wet kit, in kilograms.{hint}",
        )
