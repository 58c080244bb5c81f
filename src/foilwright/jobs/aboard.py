"""Who is aboard, as numbers of the boat's row: mass, reach, height and drag area of the crew."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from foilwright.air.windage import crew_drag_area
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.sailor import Sailor, place_of, together
from foilwright.jobs.conditions import row_for
from foilwright.measures import Floats
from foilwright.setup.adjusters import Adjuster
from foilwright.setup.standing import Standing
from foilwright.water.properties import Water

HEADS = {"two-person": 2}
"""How many the usual crew of a form is, where it is not one."""


def row_with_crew(boat: ReadyBoat, settings: Mapping[str, float], crew: Sequence[Sailor]) -> Floats:
    """The boat's row with its settings and these sailors aboard, for sailing in a wind.

    On the bench (`row_for`) only the mass of a sailor counts. In a wind their build moves the centre of the
    crew out or in from the boat's own, fully hiked, and their drag area goes with their mass.
    """
    row = row_for(boat, settings, together(crew))
    heads = HEADS.get(boat.form, 1)
    number = boat.numbers
    usual = number["crew.usual_mass_kg"]
    place = place_of(crew, usual, number["crew.out_m"], number["crew.z_m"], heads)
    # Changes, since an adjuster may have moved these numbers already.
    row[boat.names.index("crew.out")] += place.out - number["crew.out_m"]
    row[boat.names.index("crew.z")] += place.z - number["crew.z_m"]
    area = number["crew.drag_area_m2"]
    mass = row[boat.names.index("crew.mass")]
    row[boat.names.index("air.crew_drag_area")] += crew_drag_area(area, "hiking", mass, usual) - area
    return row


def fore_and_aft(boat: ReadyBoat, crew: Sequence[Sailor]) -> tuple[float, float]:
    """How far this crew may be asked to move, in steps of the adjuster that moves it.

    The boat's range, and theirs within it; no way at all where the boat has no such adjuster.
    """
    will = together(crew).fore_aft_m
    for record in boat.file.adjusters:
        for change in record.changes:
            if change.number == "crew.x_m" and change.per_step:
                steps = float("inf") if will is None else will / abs(change.per_step)
                return max(float(record.least), -steps), min(float(record.greatest), steps)
    return 0.0, 0.0


def adjusters_with_crew(
    boat: ReadyBoat, crew: Sequence[Sailor], settings: Mapping[str, float]
) -> tuple[Adjuster, ...]:
    """The boat's adjusters, the sailors' place only as far as they will go, and where it stands now."""
    index = boat.names.index("crew.x")
    least, greatest = fore_and_aft(boat, crew)
    found = []
    for one in boat.adjusters:
        if one.numbers == (index,):
            at = settings.get(one.name, 0.0)
            inside = (one.steps >= min(least, at) - 1e-9) & (one.steps <= max(greatest, at) + 1e-9)
            if np.count_nonzero(inside) > 1:
                one = replace(one, steps=one.steps[inside], amounts=one.amounts[inside])
        found.append(one)
    return tuple(found)


def movable_by(boat: ReadyBoat, crew: Sequence[Sailor]) -> list[str]:
    """The adjusters that may be touched with this crew: all, but no place that they will not leave."""
    index = boat.names.index("crew.x")
    least, greatest = fore_and_aft(boat, crew)
    stays = greatest - least < 1.0
    return [one.name for one in boat.adjusters if not (stays and one.numbers == (index,))]


def row_of(boat: ReadyBoat, settings: Mapping[str, float], who: Sailor) -> Floats:
    """The boat's row with who is aboard: by mass alone, and by build as well where a build was told."""
    return row_for(boat, settings, who) if who.build is None else row_with_crew(boat, settings, [who])


def standing_with(
    boat: ReadyBoat, settings: Mapping[str, float], who: Sailor, water: Water, heel: float
) -> Standing:
    """A boat ready to fly with who is aboard; their place moves only as far as they told."""
    adjusters = adjusters_with_crew(boat, [who], settings)
    return Standing(row_of(boat, {}, who), boat.tables, water, adjusters, settings, heel)
