"""Air drag: 1/2 rho V^2 (C_D A), and what the drag area of a person is.

Hoerner, Fluid-Dynamic Drag, 1965, ch. 3 (from memory): standing 9 square feet, sitting 6. An upright cyclist
with bicycle: table 1 of a journal paper, doi 10.1007/s12283-021-00345-2. Hiking on a rack: an estimate
between those rows, common practice, no source. Areas of ours are the assumed ones of the boat file.
"""

import pytest

from foilwright.air.windage import POSTURES, air_drag, crew_drag_area
from foilwright.documents.defaults import DEFAULTS
from tests.literature.published import (
    CLOSED_FORM,
    MEMORY,
    MEMORY_SURE,
    PRACTICE,
    READ,
    Source,
    between,
    compare,
)

TOPIC = "Windage"
FORMULA = Source(TOPIC, "1/2 rho V² (C_D A), air 1.225 kg/m³", CLOSED_FORM)
PERSON = Source(TOPIC, "Hoerner, Fluid-Dynamic Drag, 1965, ch. 3: 9 and 6 square feet", MEMORY_SURE)
CROUCHED = Source(TOPIC, "Hoerner, Fluid-Dynamic Drag, 1965, ch. 3", MEMORY)
TUBES = Source(TOPIC, "Circular tubes and wires across the wind, Reynolds numbers 1e3 to 2e5", MEMORY_SURE)
CYCLIST = Source(TOPIC, "doi 10.1007/s12283-021-00345-2, table 1", READ)
HIKING = Source(TOPIC, "Estimate between the rows of a person sitting and crouched", PRACTICE)


@pytest.mark.parametrize(("area", "speed", "drag"), [(0.56, 10.0, 34.30), (0.30, 12.0, 26.46)])
def test_person(area, speed, drag):
    compare(f"{area} m² at {speed:g} m/s", drag, air_drag(area, 1.225, speed), 0.005, "N", FORMULA)


@pytest.mark.parametrize(
    ("posture", "square_feet", "area"), [("standing", 9.0, 0.84), ("sitting", 6.0, 0.56)]
)
def test_drag_area_of_a_person_in_old_units(posture, square_feet, area):
    compare(
        f"{posture}: {square_feet:g} square feet", area, square_feet * 0.3048**2, 0.005, "m²", PERSON, True
    )


def test_postures():
    compare("standing, as we have it", 0.84, POSTURES["standing"], 0.005, "m²", PERSON)
    compare("sitting, as we have it", 0.56, POSTURES["sitting"], 0.005, "m²", PERSON)
    between("crouched", 0.2, 0.3, POSTURES["crouched"], "m²", CROUCHED)
    between("hiking", 0.25, 0.45, POSTURES["hiking"], "m²", HIKING)
    assert crew_drag_area(0.38, "hiking", 75.0, 75.0) == pytest.approx(0.38)
    assert crew_drag_area(0.38, "sitting", 75.0, 75.0) == pytest.approx(0.608)
    assert crew_drag_area(0.38, "hiking", 48.0, 75.0) == pytest.approx(0.38 * 0.770, rel=1e-3)


@pytest.mark.parametrize(("form", "length"), [("narrow", 4.9), ("wide", 4.4), ("two-person", 6.6)])
def test_assumed_drag_area_of_a_mast(form, length):
    """Less than a bare tube of 55 mm: the sail behind it makes the tube the nose of an aerofoil."""
    [area] = [row.for_form(form).value for row in DEFAULTS if row.path == "rig.mast_drag_area_m2"]
    bare = 0.055 * length
    between(f"{form}: assumed mast over a bare tube of 55 mm", 0.0, 1.2, area / bare, "", TUBES)


@pytest.mark.parametrize(("form", "people"), [("narrow", 1), ("wide", 1), ("two-person", 2)])
def test_assumed_drag_area_of_a_hiking_sailor(form, people):
    """Less than a person sitting upright or a cyclist with bicycle, and in the range given for a hiker."""
    [assumed] = [row.for_form(form).value for row in DEFAULTS if row.path == "crew.drag_area_m2"]
    between(f"{form}: assumed drag area of a hiking sailor", 0.25, 0.45, assumed / people, "m²", HIKING)
    between(f"{form}: the same under a cyclist with bicycle", 0.0, 0.473, assumed / people, "m²", CYCLIST)
    assert assumed / people < 0.56


def test_direction():
    """Air from astern pushes; no air, no drag."""
    assert air_drag(0.5, 1.225, -8.0) == -air_drag(0.5, 1.225, 8.0)
    assert air_drag(0.5, 1.225, 0.0) == 0.0
