"""A boat is a row of numbers with names: every name means the number at its place."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.boat import (
    N_SCALARS,
    PARTS,
    SCALARS,
    Boat,
    boat_from,
    planform_of,
    row_names,
    scratch_shapes,
)
from foilwright.linkage.chain import DRAWN_SIZE, LINK_NUMBERS, LINK_SIZE
from tests.demo_boats import BOATS


def numbered(links: int) -> Boat:
    """A boat whose every number is its own place in the row."""
    row = np.arange(float(N_SCALARS + links * LINK_SIZE))
    of_links, of_drawn = scratch_shapes(len(row))
    return boat_from(row, np.zeros(of_links), np.zeros(of_drawn))


@pytest.mark.parametrize("links", [0, 1, 3, 8])
def test_every_name_is_at_its_place(links):
    boat: Any = numbered(links)
    names = row_names(links)
    found = {}
    assert [type(getattr(boat, part)) for part, _ in PARTS] == [kind for _, kind in PARTS]
    for part, _ in PARTS:
        values: Any = getattr(boat, part)
        for name, value in zip(values._fields, values, strict=True):
            found[f"{part}.{name}"] = value
    for i in range(links):
        for j, name in enumerate(LINK_NUMBERS):
            found[f"links.{i}.{name}"] = boat.links[i, j]
    assert list(found) == list(names)
    assert [found[name] for name in names] == list(range(len(names)))


def test_names_are_told_apart():
    names = row_names(8)
    assert len(set(names)) == len(names)
    assert len(SCALARS) == N_SCALARS
    assert len(LINK_NUMBERS) == LINK_SIZE
    assert scratch_shapes(len(names)) == ((8, LINK_SIZE), (8, DRAWN_SIZE))


def test_the_planform_follows_span_and_area():
    foil = numbered(1).main._replace(span=0.9, area=0.1, moment_chord_ratio=1.04, tau=0.2, delta=0.05)
    planform = planform_of(foil)
    assert planform.chord == pytest.approx(0.1 / 0.9)
    assert planform.aspect_ratio == pytest.approx(8.1)
    assert planform.moment_chord == pytest.approx(1.04 * 0.1 / 0.9)
    assert planform.slope_term == pytest.approx(1.2 / (np.pi * 8.1))
    assert planform.drag_term == pytest.approx(1.05 / (np.pi * 8.1))
    for name in ("lift_factor", "sweep_cosine", "stall_share", "centre_share", "flap_share", "kink_cross"):
        assert getattr(planform, name) == getattr(foil, name)


@pytest.mark.parametrize("name", BOATS)
def test_demo_boats_carry_a_name_a_number(boats: dict[str, ReadyBoat], name: str):
    boat = boats[name]
    assert len(boat.row) == len(boat.names)
    assert np.isfinite(boat.row).all()
    assert boat.row.dtype == np.float64
    assert boat.row.flags.c_contiguous
