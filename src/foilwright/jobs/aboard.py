"""Who is aboard, as numbers of the boat's row: mass, reach, height and drag area of the crew."""

from collections.abc import Mapping, Sequence

from foilwright.air.windage import crew_drag_area
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.sailor import Sailor, place_of, together
from foilwright.jobs.conditions import row_for
from foilwright.measures import Floats

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
