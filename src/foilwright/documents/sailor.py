"""Who sails: on the command line as kilograms, or a small TOML file. Everyone aboard together, in wet kit.

    format = "foilwright/sailor"
    version = 1
    name = "Ash"             # a first name or a nickname: never a surname, never a birth date
    mass_band_kg = [70, 75]  # a band of 5 kg is enough; [72] where it is known
    build = "middle"         # short, middle or tall: how far out the weight gets
    stage = "improving"
    weighed = "2026-03-02"   # children grow: a band is good for three months

Only the mass has to be there. Weights and builds are for the computation, not for paper that others see.
"""

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any, Literal

from pydantic import Field, ValidationError

from foilwright.documents.faults import mistakes_in
from foilwright.documents.measured import Part, told
from foilwright.documents.toml_file import parsed_toml, read_text
from foilwright.mistakes import Mistake, Mistakes
from foilwright.setup.sailor_hand import Hand, hand_of
from foilwright.setup.sailor_reach import Place, fully_hiked
from foilwright.units import parsed, plain

Stage = Literal["first-hops", "improving", "settled", "expert"]
STAGES: tuple[Stage, ...] = ("first-hops", "improving", "settled", "expert")
Build = Literal["short", "middle", "tall"]
FORMAT = "foilwright/sailor"
LEAST_KG, GREATEST_KG = 25.0, 250.0
PRIVATE = (
    "surname",
    "last_name",
    "family_name",
    "birth_date",
    "date_of_birth",
    "birthday",
    "age",
    "address",
    "height",
    "height_m",
    "height_cm",
    "stature_m",
    "sex",
    "gender",
)
BAND_DAYS = 92
"""How long a band of mass is good for: three months, common practice."""


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
    build: Build | None = told("short, middle or tall for that mass; middle if left out", None)
    stage: Stage | None = told("stage of learning: first-hops, improving, settled or expert", None)
    fore_aft_m: float | None = Field(
        default=None,
        description="how far from the usual place they will go, forward and aft alike; as far as the boat "
        "allows if left out",
        ge=0.0,
        le=1.0,
    )
    weighed: str | None = told("when, YYYY-MM-DD: a band is good for three months", None)

    @property
    def hand(self) -> Hand:
        """How much they wander, by stage of learning; as the improving do where no stage is told."""
        return hand_of(self.stage)

    @property
    def mass_kg(self) -> float:
        """The middle of the mass band."""
        return 0.5 * (self.mass_band_kg[0] + self.mass_band_kg[-1])


def place_of(
    crew: Sequence[Sailor], usual_kg: float, boat_out_m: float, boat_z_m: float, heads: int
) -> Place:
    """Where the centre of these sailors is when fully hiked on a boat.

    usual_kg, boat_out_m, boat_z_m are the boat's own, of its usual crew of that many heads. One sailor record
    for a boat of two stands for both.
    """
    masses = [sailor.mass_kg for sailor in crew]
    builds = [sailor.build or "middle" for sailor in crew]
    if len(crew) == 1 and heads > 1:
        masses = [masses[0] / heads] * heads
        builds = builds * heads
    return fully_hiked(tuple(masses), tuple(builds), usual_kg / heads, boat_out_m, boat_z_m)


def together(crew: Sequence[Sailor]) -> Sailor:
    """The sailors of one boat as one record: bands added, the stage of the one who has learned least.

    The build stays where all have the same; `place_of` takes them one by one.
    """
    stages = [sailor.stage for sailor in crew if sailor.stage is not None]
    builds = {sailor.build for sailor in crew}
    ranges = [sailor.fore_aft_m for sailor in crew if sailor.fore_aft_m is not None]
    return Sailor(
        name=" and ".join(sailor.name for sailor in crew if sailor.name)[:40] or None,
        mass_band_kg=[
            sum(sailor.mass_band_kg[0] for sailor in crew),
            sum(sailor.mass_band_kg[-1] for sailor in crew),
        ],
        build=builds.pop() if len(builds) == 1 else None,
        stage=min(stages, key=STAGES.index) if stages else None,
        fore_aft_m=min(ranges) if ranges else None,
    )


def band_is_old(sailor: Sailor, today: date) -> bool:
    """Whether the band was weighed more than three months ago; one without a date is never old."""
    return sailor.weighed is not None and (today - date.fromisoformat(sailor.weighed)).days > BAND_DAYS


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
                "name, mass_band_kg, build, stage, fore_aft_m, weighed",
                "Take it out: a first name, a band of mass and short, middle or tall are enough.",
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
    if sailor.weighed is not None:
        _check_date(sailor.weighed, f"{file}: weighed")
    return sailor


def _check_date(day: str, where: str) -> None:
    try:
        date.fromisoformat(day)
    except ValueError:
        raise Mistake(where, f'"{day}"', "a date, YYYY-MM-DD", 'Write for example "2026-03-02".') from None


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
