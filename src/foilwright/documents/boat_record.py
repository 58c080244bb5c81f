"""The boat file as a record: hull, main foil, rudder, rig, wand, each with its identity; chain; adjusters."""

import hashlib
import json
from typing import Literal

from pydantic import Field

from foilwright.documents.boat_chain import AdjusterRecord, Chain
from foilwright.documents.boat_parts import Crew, Form, Hull, MainFoil, Mass, Reference, Rig, RudderFoil, Wand
from foilwright.documents.measured import Part, told

FORMAT = "foilwright/boat"
VERSION = 1


class BoatFile(Part):
    """A boat file."""

    format: Literal["foilwright/boat"] = Field(..., description='always "foilwright/boat"')
    version: Literal[1] = Field(..., description="of the format: 1")
    name: str = Field(..., description="what the boat is called", min_length=1, max_length=60)
    form: Form = told("the form of boat, from which missing numbers are taken: narrow, wide or two-person")
    notes: str | None = told("anything worth knowing", None)
    reference: Reference = told("what the angles were measured against", Reference())
    mass: Mass = told("the rigged boat", Mass())
    crew: Crew = told("who sails it", Crew())
    hull: Hull = told("the hull", Hull())
    main_foil: MainFoil = told("the main foil and its strut")
    rudder: RudderFoil = told("the rudder and its foil")
    rig: Rig = told("the rig", Rig())
    wand: Wand = told("the wand")
    chain: Chain = told("from wand to foil")
    adjusters: list[AdjusterRecord] = told("what sailor and coach can change", [])

    def version_of_content(self) -> str:
        """Ten signs that change with the meaning of the file; comments, order and spelling do not count."""
        content = json.dumps(
            self.model_dump(mode="json", exclude_none=True), sort_keys=True, separators=(",", ":")
        )
        return hashlib.sha256(content.encode()).hexdigest()[:10]

    def part_ids(self) -> dict[str, str]:
        """Which hull, main foil, rudder, rig and wand this boat sails with."""
        parts: dict[str, Hull | MainFoil | RudderFoil | Rig | Wand] = {
            "hull": self.hull,
            "main_foil": self.main_foil,
            "rudder": self.rudder,
            "rig": self.rig,
            "wand": self.wand,
        }
        own = self.name.lower().replace(" ", "-")
        return {part: table.id or f"{own}-{part.replace('_', '-')}" for part, table in parts.items()}
