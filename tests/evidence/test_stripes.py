"""Strut stripes: what is drawn of a boat as it flies is read back as its ride height and bow angle."""

from __future__ import annotations

from math import cos, degrees, radians, sqrt

import numpy as np
import pytest

from foilwright.documents.flight_view import exposed, flight_view
from foilwright.evidence.stripes import Struts, seen_from_stripes
from foilwright.jobs.conditions import stripes_from, three_of
from foilwright.jobs.desk import open_boat
from foilwright.mistakes import Mistake

STRUTS = Struts(spacing=2.3, main_top=0.01, rudder_top=0.03, stripe=0.1)


@pytest.mark.parametrize("name", ["marram", "sedge", "pipkin"])
@pytest.mark.parametrize(
    ("height", "trim_deg", "heel_deg"), [(0.45, 1.2, 0.0), (0.2, -1.0, -10.0), (0.6, 3.0, 0.0)]
)
def test_what_is_drawn_is_read_back(name, height, trim_deg, heel_deg):
    boat = open_boat(name)
    view = flight_view(boat, boat.row, True, height, radians(trim_deg), radians(45.0), 0.0)
    lean = 0.1 * cos(radians(heel_deg))
    struts = Struts(view.main.top[0] - view.rudder.top[0], view.main.top[1], view.rudder.top[1], 0.1)
    seen = seen_from_stripes(
        exposed(view, view.main) / lean, exposed(view, view.rudder) / lean, struts, radians(heel_deg)
    )
    assert seen.height == pytest.approx(height, abs=1e-9)
    assert degrees(seen.trim) == pytest.approx(trim_deg, abs=1e-9)


def test_the_errors_are_those_of_two_counts_to_half_a_stripe():
    """Half a stripe either way, all places alike: 29 mm of height; and 1 degree over 2.3 m."""
    seen = seen_from_stripes(4.0, 4.0, STRUTS)
    assert seen.height_error == pytest.approx(0.1 / sqrt(12.0), rel=1e-3)
    assert degrees(seen.trim_error) == pytest.approx(1.02, abs=0.01)
    chance = np.random.default_rng(1).uniform(-0.5, 0.5, (20000, 2)) + 4.0
    many = [seen_from_stripes(main, rudder, STRUTS) for main, rudder in chance]
    assert np.std([one.height for one in many]) == pytest.approx(seen.height_error, rel=0.02)
    assert np.std([one.trim for one in many]) == pytest.approx(seen.trim_error, rel=0.02)


def test_bow_up_hides_the_stripes_of_the_rudder():
    assert seen_from_stripes(4.0, 3.5, STRUTS).trim > seen_from_stripes(4.0, 4.0, STRUTS).trim


def test_stripes_as_written():
    assert stripes_from("4½,5@14")[:2] == (4.5, 5.0) == stripes_from("4.5, 5 @14kn")[:2]
    for wrong in ("4,5", "4@12", "-1,2@12", "4,5@12:14", "a,b@c"):
        with pytest.raises(Mistake):
            stripes_from(wrong)


def test_slow_middle_and_fast():
    assert three_of([5.0, 6.0, 7.0, 8.0, 9.0]) == [5.0, 7.0, 9.0]
    assert three_of([6.0]) == [6.0] and three_of([9.0, 5.0]) == [5.0, 9.0]
