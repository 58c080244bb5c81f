"""The drawings: to scale from the boat's own numbers, chain parts where they are, words not overlapping."""

import re
from itertools import combinations
from math import hypot, radians
from xml.etree import ElementTree

import numpy as np
import pytest

from foilwright.documents.flight_view import FlightView, edge_travel, exposed, flight_view
from foilwright.jobs.desk import open_boat
from foilwright.paper.boat_drawing import boat_drawing
from foilwright.paper.boat_labels import Label, high_labels, label_height, placed_above, placed_below
from foilwright.paper.chain_drawing import chain_drawing
from foilwright.paper.paper_card import BOAT_WIDTH_MM, HEIGHTS_MM
from foilwright.paper.side_view import frame_for
from foilwright.setup.adjusters import turned

WIDTH, SIZE = 136.0, 3.175


def view_of(name: str, height: float = 0.45, trim_deg: float = 1.0, wand_deg: float = 45.0) -> FlightView:
    boat = open_boat(name)
    return flight_view(boat, boat.row, True, height, radians(trim_deg), radians(wand_deg), radians(2.5))


def labels(view: FlightView) -> list[Label]:
    return [Label(name, name.replace("-", " "), "at the mark") for name in view.anchors]


def draw(view: FlightView) -> ElementTree.Element:
    made = boat_drawing(view, labels(view), [], "a boat", WIDTH, 70.0, SIZE)
    return ElementTree.fromstring(made.svg)


@pytest.mark.parametrize("name", ["marram", "sedge", "pipkin"])
def test_rods_keep_their_lengths_at_every_wand_angle(name):
    for wand in range(5, 81, 5):
        view = view_of(name, wand_deg=wand)
        for i, length in enumerate(view.rod_lengths):
            start, end = view.cranks[i].out_tip, view.cranks[i + 1].in_tip
            assert start is not None and end is not None
            assert hypot(end[0] - start[0], end[1] - start[1]) == pytest.approx(length, abs=1e-9)


def test_the_chain_turns_the_flap_as_the_solver_has_it():
    """The horn's arm in the drawing turns as far as the flap does: 2.5 deg at wand 45, 8.47 at 65."""
    at_45, at_65 = view_of("marram", wand_deg=45).cranks[-1], view_of("marram", wand_deg=65).cranks[-1]

    def angle(crank):
        return (
            np.degrees(np.arctan2(crank.in_tip[1] - crank.pivot[1], crank.in_tip[0] - crank.pivot[0])) % 360.0
        )

    assert angle(at_65) - angle(at_45) == pytest.approx(8.47 - 2.50, abs=0.01)


def test_an_adjuster_moves_what_is_drawn():
    boat = open_boat("marram")
    longer = turned(boat.row, boat.adjusters, {"wand-length": 2})
    view = flight_view(boat, longer, True, 0.45, 0.0, radians(45.0), 0.0)
    length = hypot(view.wand_tip[0] - view.wand_pivot[0], view.wand_tip[1] - view.wand_pivot[1])
    assert length == pytest.approx(1.12 + 2 * 0.030)


def test_the_boat_is_drawn_to_its_scale():
    """Between wand pivot and rudder head lie 3.45 + 0.35 m."""
    view = view_of("marram", trim_deg=0.0)
    frame, _ = frame_for(view, WIDTH, 70.0, 0.0)
    pivot, rudder = frame.place(view.wand_pivot), frame.place((view.rudder.foot[0], view.wand_pivot[1]))
    assert (pivot[0] - rudder[0]) * frame.scale == pytest.approx(3800.0, abs=0.01)


def test_bow_up_lifts_the_bow_and_not_the_keel_at_the_main_strut():
    level, up = (frame_for(view_of("marram", trim_deg=t), WIDTH, 70.0, 0.0)[0] for t in (0.0, 3.0))
    view = view_of("marram")
    keel = (view.main.top[0], 0.0)
    assert (level.water - level.place(keel)[1]) * level.scale == pytest.approx(450.0, abs=0.1)
    assert (up.water - up.place(keel)[1]) * up.scale == pytest.approx(450.0, abs=0.1)
    bow = (view.wand_pivot[0], 0.0)
    assert (up.water - up.place(bow)[1]) * up.scale > (level.water - level.place(bow)[1]) * level.scale + 50.0


def test_stripes_stand_every_100_mm_down_from_the_hull():
    strut = view_of("marram").main
    assert [strut.top[1] - z for _, z in strut.stripes] == pytest.approx([0.1 * (i + 1) for i in range(10)])


def test_exposed_length_tells_height_and_bow_angle():
    """2.3 m between the struts: one degree bow up hides 2.3 sin(1 deg) = 40 mm more of the rudder strut."""
    level, up = view_of("marram", trim_deg=0.0), view_of("marram", trim_deg=1.0)
    assert exposed(level, level.main) == pytest.approx(0.45 + level.main.top[1])
    assert exposed(level, level.rudder) - exposed(up, up.rudder) == pytest.approx(0.040, abs=0.001)


def test_edge_travel_of_a_flap():
    """Root chord 2 x 0.107 / 1.5 m, flap 30 % of it, 12 deg: 8.9 mm."""
    main = view_of("marram").main
    assert edge_travel(main, False, 0.0, radians(12.0)) == pytest.approx(0.00891, abs=2e-5)


@pytest.mark.parametrize("name", ["marram", "marram-curve", "sedge", "pipkin"])
@pytest.mark.parametrize("size", [SIZE, 4.9])
def test_labels_do_not_overlap(name, size):
    view = view_of(name)
    frame, _ = frame_for(view, WIDTH, 70.0, 0.0)
    short = [Label(name, f"{i + 1}", "mark") for i, name in enumerate(view.anchors)]
    high = [one for one in short if view.anchors[one.adjuster][1] >= -0.1]
    low = [one for one in short if one not in high]
    placed = placed_above(high, view, frame, WIDTH, size)[0] + placed_below(low, view, frame, WIDTH, size)[0]
    assert len(placed) == len(short)
    for a, b in combinations(placed, 2):
        apart = a.x + a.width <= b.x + 1e-9 or b.x + b.width <= a.x + 1e-9
        assert apart or abs(a.y - b.y) >= 2.3 * size, (a, b)
    assert all(one.x >= -1e-9 and one.x + one.width <= WIDTH + 1e-9 for one in placed)


def test_every_setting_stands_at_its_part():
    view = view_of("marram")
    words = [element.text for element in draw(view).iter() if element.tag.endswith("text")]
    for label in labels(view):
        assert label.name in words
    assert words.count("at the mark") == len(view.anchors)


def test_many_adjusters_get_numbers_instead():
    view = view_of("marram")
    anchors = {f"{name}-{k}": at for k in range(3) for name, at in view.anchors.items()}
    view = view._replace(anchors=anchors)
    numbered = [Label(name, str(i + 1), "mark") for i, name in enumerate(anchors)]
    assert boat_drawing(view, labels(view), numbered, "a boat", WIDTH, 70.0, SIZE).numbered


def test_a_measured_curve_is_drawn_as_a_hidden_box():
    svg, scale = chain_drawing(view_of("marram-curve"), "a chain", WIDTH, SIZE, 4, 26.0)
    assert scale == 0.0
    assert "hidden, not measured" in svg


@pytest.mark.parametrize("name", ["marram", "pipkin"])
def test_cranks_are_drawn_to_the_stated_scale(name):
    view = view_of(name)
    svg, scale = chain_drawing(view, "a chain", WIDTH, SIZE, 4, 26.0)
    drawn = set()
    for points in re.findall(r'<polyline points="([^"]*)"[^>]*stroke-width="1.1"', svg):
        (x0, y0), (x1, y1) = ([float(v) for v in point.split(",")] for point in points.split())
        drawn.add(round(hypot(x1 - x0, y1 - y0) * scale, 0))
    arms = {
        round(1000.0 * hypot(tip[0] - crank.pivot[0], tip[1] - crank.pivot[1]), 0)
        for crank in view.cranks
        for tip in (crank.in_tip, crank.out_tip)
        if tip
    }
    assert all(min(abs(arm - found) for found in drawn) <= 1.0 for arm in arms)


def test_drawings_are_the_same_every_time_and_hold_no_nonsense():
    first, second = (
        boat_drawing(view_of("marram"), [], [], "a boat", WIDTH, 70.0, SIZE).svg for _ in range(2)
    )
    assert first == second
    assert "nan" not in first and "inf" not in first


@pytest.mark.parametrize(
    "name", ["marram", "marram-curve", "marram-reversed", "marram-twelve", "sedge", "pipkin"]
)
@pytest.mark.parametrize("longest", [False, True])
def test_labels_do_not_overlap_on_the_card(name, longest):
    """In every height that a card may be drawn in, low and high over the water, long names too."""
    for height, trim in ((0.08, 3.0), (0.45, 1.0), (0.65, -1.0)):
        view = view_of(name, height, trim)
        full = [
            Label(one, "rudder twist grip" if longest else one.replace("-", " "), "−2.5 steps")
            for one in view.anchors
        ]
        short = [Label(one, f"{i + 1}", "−2.5") for i, one in enumerate(view.anchors)]
        for tallest, _ in HEIGHTS_MM:
            drawn = boat_drawing(view, full, short, "a boat", BOAT_WIDTH_MM, tallest, SIZE)
            used = short if drawn.numbered else full
            high = high_labels(used, view)
            rows = len(
                placed_above(
                    high, view, frame_for(view, BOAT_WIDTH_MM, tallest, 0.0)[0], BOAT_WIDTH_MM, SIZE
                )[1]
            )
            frame, _ = frame_for(view, BOAT_WIDTH_MM, tallest, (rows - 1) * label_height(SIZE))
            placed = placed_above(high, view, frame, BOAT_WIDTH_MM, SIZE)[0]
            placed += placed_below(
                [one for one in used if one not in high], view, frame, BOAT_WIDTH_MM, SIZE
            )[0]
            assert len(placed) == len(view.anchors)
            for a, b in combinations(placed, 2):
                apart = a.x + a.width <= b.x + 1e-9 or b.x + b.width <= a.x + 1e-9
                assert apart or abs(a.y - b.y) >= 2.3 * SIZE, (tallest, a, b)
            assert all(one.x >= -1e-9 and one.x + one.width <= BOAT_WIDTH_MM + 1e-9 for one in placed)
