"""Take-offs of many settings on a ladder of speeds, against each one solved by itself."""

from __future__ import annotations

import random

import numpy as np
import pytest

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.sailor import Sailor
from foilwright.jobs.aboard import row_with_crew
from foilwright.setup.adjusters import turned
from foilwright.setup.standing import Standing
from foilwright.setup.take_off_change import take_off
from foilwright.setup.take_offs import CLIMB_STEP, CLIMB_STEPS, climb_speeds, take_offs_of
from foilwright.water.properties import Water

MASSES = {"marram": 75.0, "pipkin": 48.0, "sedge": 145.0}
SETTINGS = 12
TOUCHING, FOLD = 0.07, 0.11  # how far off it may be, by how the flight ends on the way down [m/s]


@pytest.mark.parametrize("name", list(MASSES))
@pytest.mark.usefixtures("compiled_physics")
def test_the_ladder_finds_the_take_offs_that_are_solved_one_by_one(
    boats: dict[str, ReadyBoat], fresh: Water, name: str
) -> None:
    boat = boats[name]
    row = row_with_crew(boat, {}, [Sailor(mass_band_kg=[MASSES[name]])])
    standing = Standing(row, boat.tables, fresh, boat.adjusters, boat.present)
    now = take_off(standing, [], True)
    assert now is not None
    r = random.Random(name)
    settings = [
        {
            **boat.present,
            **{a.name: float(r.randint(int(a.least), int(a.greatest))) for a in r.sample(boat.adjusters, 2)},
        }
        for _ in range(SETTINGS)
    ]
    rows = np.array([turned(row, boat.adjusters, one) for one in settings])
    found = take_offs_of(standing, climb_speeds(now.speed, 9.0), rows - standing.present_row)
    furthest = CLIMB_STEP * CLIMB_STEPS
    compared = 0
    for one, speed in zip(settings, found, strict=True):
        solved = take_off(standing._replace(settings=one), [], True)
        if solved is None:
            continue
        if solved.speed > now.speed + furthest:
            assert speed == np.inf
        elif solved.speed > now.speed - furthest:
            assert speed == pytest.approx(solved.speed, abs=TOUCHING if solved.clear else FOLD)
            compared += 1
    assert compared >= SETTINGS // 2


def test_without_a_take_off_now_the_ladder_stands_around_what_is_sailed() -> None:
    assert climb_speeds(None, 6.0) == pytest.approx(np.linspace(4.8, 7.2, 17))
    assert climb_speeds(4.0, 6.0)[CLIMB_STEPS] == 4.0
