"""Section tables: the lookups give the tabulated values, smoothly, and the loader blends and refuses as it
says."""

import hashlib
import importlib
import json
from math import log
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from foilwright.compiled import plain
from foilwright.mistakes import Mistake
from foilwright.water import section_data, section_polars
from foilwright.water.section import (
    SectionTables,
    inside_tables,
    section_line,
    section_polar,
    spline_weights,
)
from foilwright.water.section_data import SectionSpec, known_sections, tables_for

DEGREE = np.pi / 180.0
MAIN = SectionSpec("NACA 63-412", 0.3, 0.3)
REAR = SectionSpec("NACA 0012", 0.0, 0.3)


@pytest.fixture(scope="module")
def tables() -> SectionTables:
    return tables_for([MAIN, REAR])


def polar_at(tables: SectionTables, *place: float) -> np.ndarray:
    return np.array(section_polar(tables, 0, *place))


def test_the_lookup_passes_through_every_tabulated_point(tables: SectionTables) -> None:
    line, polar = section_data.blended(MAIN)
    line[..., 2:] *= 1.0 - section_data.ROUGH_LIFT_LOSS * MAIN.roughness
    for r in range(0, len(section_polars.LOG_RE), 2):
        for f in range(len(section_polars.FLAP)):
            flap, log_re = section_polars.FLAP[f], section_polars.LOG_RE[r]
            assert section_line(tables, 0, flap, log_re) == pytest.approx(line[r, f], abs=1e-9)
            for a in range(0, len(section_polars.ALPHA), 5):
                found = section_polar(tables, 0, flap, log_re, section_polars.ALPHA[a])
                assert found == pytest.approx(polar[r, f, a], abs=1e-9)


def test_values_and_slopes_are_continuous_where_the_nearest_point_changes(tables: SectionTables) -> None:
    """Half way between grid points the three coefficients in use change; value and slope must not jump."""
    half = {
        0: tables.flap_start + 1.5 * tables.flap_step,
        1: tables.log_re_start + 2.5 * tables.log_re_step,
        2: tables.alpha_start + 12.5 * tables.alpha_step,
    }
    for direction, where in half.items():
        place = [3.3 * DEGREE, log(4.1e5), 2.2 * DEGREE]
        step = 1e-6

        def at(x: float, place: list[float] = place, direction: int = direction) -> np.ndarray:
            moved = list(place)
            moved[direction] = x
            return np.concatenate([polar_at(tables, *moved), section_line(tables, 0, *moved[:2])])

        before = (at(where - step) - at(where - 2 * step)) / step
        after = (at(where + 2 * step) - at(where + step)) / step
        assert at(where - step) == pytest.approx(at(where + step), abs=1e-3 * step / 1e-6)
        assert after == pytest.approx(before, rel=1e-3, abs=1e-3)


def test_spline_weights_sum_to_one_and_place_the_middle() -> None:
    for t in (-0.5, -0.2, 0.0, 0.4, 0.5):
        weights = spline_weights(t)
        assert sum(weights) == pytest.approx(1.0)
        assert weights[2] - weights[0] == pytest.approx(t)


def test_beyond_the_tables_the_edge_is_held_and_said(tables: SectionTables) -> None:
    flap, log_re, alpha = 2 * DEGREE, log(5e5), 3 * DEGREE
    assert inside_tables(tables, flap, log_re, alpha) == 1.0
    for place in ((30 * DEGREE, log_re, alpha), (-20 * DEGREE, log_re, alpha), (flap, log(2e4), alpha),
                  (flap, log(2e7), alpha), (flap, log_re, 0.6), (flap, log_re, -0.6)):  # fmt: skip
        assert inside_tables(tables, *place) == 0.0
    far, edge = (
        polar_at(tables, 30 * DEGREE, log(2e7), 0.6),
        polar_at(tables, 15 * DEGREE, log(3e6), 18 * DEGREE),
    )
    assert far == pytest.approx(edge, rel=1e-9)
    assert section_line(tables, 0, 1.0, 50.0) == pytest.approx(section_line(tables, 0, 15 * DEGREE, log(3e6)))


def test_plain_run_over_memoryviews_gives_the_same_numbers(tables: SectionTables) -> None:
    bare = plain(tables)
    assert section_polar(bare, 1, 0.01, 13.1, 0.05) == section_polar(tables, 1, 0.01, 13.1, 0.05)
    assert section_line(bare, 0, 0.1, 12.2) == section_line(tables, 0, 0.1, 12.2)


def test_without_a_flap_nothing_depends_on_the_flap_angle(tables: SectionTables) -> None:
    assert section_polar(tables, 1, 0.2, 13.0, 0.03) == pytest.approx(
        section_polar(tables, 1, -0.1, 13.0, 0.03)
    )
    assert section_line(tables, 1, 0.2, 13.0) == pytest.approx(section_line(tables, 1, -0.1, 13.0))
    assert section_polar(tables, 1, 0.2, 13.0, 0.03)[2] == 0.0


def test_a_symmetric_section_upside_down_is_itself() -> None:
    tables = tables_for([SectionSpec("NACA 0012", 0.3, 0.5)])
    for flap, alpha in ((0.0, 3.0), (5.0, 2.0), (10.0, 6.0), (-10.0, 8.0)):
        up = polar_at(tables, flap * DEGREE, 13.2, alpha * DEGREE)
        down = polar_at(tables, -flap * DEGREE, 13.2, -alpha * DEGREE)
        assert down == pytest.approx(up * [1, -1, -1, 1], rel=0.01, abs=5e-4)
    line_up, line_down = section_line(tables, 0, 0.1, 13.2), section_line(tables, 0, -0.1, 13.2)
    assert line_down[0] == pytest.approx(-line_up[0], abs=0.1 * DEGREE)
    assert line_down[3] == pytest.approx(-line_up[2], rel=0.02)
    assert section_line(tables, 0, 0.0, 13.2)[0] == pytest.approx(0.0, abs=0.01 * DEGREE)


def test_flap_down_lifts_and_pushes_back() -> None:
    tables = tables_for([SectionSpec("NACA 63-412", share, 0.5) for share in (0.2, 0.25, 0.3, 0.4)])
    zero_lift = [
        [section_line(tables, s, flap * DEGREE, 13.2)[0] for flap in range(-10, 11, 2)] for s in range(4)
    ]
    assert np.all(np.diff(zero_lift, axis=1) < 0.0)
    assert np.all(np.diff(np.array(zero_lift)[:, -1] - np.array(zero_lift)[:, 5]) < 0.0), (
        "a larger flap turns more"
    )
    hinge = [section_polar(tables, 2, flap * DEGREE, 13.2, 0.0)[2] for flap in range(-10, 11, 2)]
    assert np.all(np.diff(hinge) < 0.0), "the further down the flap, the more it is pushed up"


def test_roughness_lies_between_smooth_and_rough_and_drags() -> None:
    tables = tables_for([SectionSpec("NACA 63-412", 0.3, share) for share in (0.0, 0.5, 1.0)])
    drag = [section_polar(tables, s, 0.0, 13.5, 0.0)[0] for s in range(3)]
    assert drag[0] < drag[1] < drag[2]
    assert drag[2] > 1.4 * drag[0]


def test_a_users_shift_and_factor_move_the_line_and_the_polar() -> None:
    shift = 0.8 * DEGREE
    tables = tables_for(
        [MAIN, SectionSpec("NACA 63-412", 0.3, 0.3, zero_lift_shift=shift, greatest_lift_factor=0.9)]
    )
    plain_line, moved_line = section_line(tables, 0, 0.05, 13.0), section_line(tables, 1, 0.05, 13.0)
    assert moved_line == pytest.approx(
        (plain_line[0] + shift, plain_line[1], 0.9 * plain_line[2], 0.9 * plain_line[3])
    )
    assert section_polar(tables, 1, 0.05, 13.0, 0.06 + shift) == pytest.approx(
        section_polar(tables, 0, 0.05, 13.0, 0.06), rel=0.02, abs=2e-4
    )


@pytest.mark.parametrize("name", known_sections())
def test_every_offered_name_has_credible_numbers(name: str) -> None:
    tables = tables_for([SectionSpec(name, 0.3, 0.3)])
    zero_lift, slope, greatest, least = section_line(tables, 0, 0.0, log(5e5))
    assert -4.5 * DEGREE < zero_lift < 0.01 * DEGREE
    assert 0.095 < slope * DEGREE < 0.125
    assert 0.8 < greatest < 1.8
    assert -1.4 < least < -0.5
    for log_re in (11.5, 13.0, 14.9):
        for alpha in np.arange(-10, 18.1, 0.7) * DEGREE:
            cd, _, _, cp_min = section_polar(tables, 0, 0.04, log_re, float(alpha))
            assert 0.003 < cd < 0.5
            assert cp_min < -0.1


@pytest.mark.parametrize("name", ["naca 2412", "2412", "NACA2412", " NACA  2412 "])
def test_a_name_may_be_written_in_several_ways(name: str) -> None:
    assert section_data.parse(name) == ((("4-digit", 2.0),), 12.0)


def test_six_series_subscript_is_allowed() -> None:
    assert section_data.parse("NACA 63(1)-412") == section_data.parse("63,1-412") == ((("63", 4.0),), 12.0)


@pytest.mark.parametrize(
    "name", ["NACA 65-212", "NACA 6412", "NACA 2512", "NACA 0018", "63-812", "plank", "typical 20 %"]
)
def test_a_name_outside_is_refused_with_what_is_allowed(name: str) -> None:
    with pytest.raises(Mistake) as refused:
        tables_for([SectionSpec(name, 0.0, 0.0)])
    assert name in refused.value.came
    assert "typical" in refused.value.allowed


@pytest.mark.parametrize(("share", "rough"), [(0.1, 0.0), (0.5, 0.0), (0.3, 1.2), (0.3, -0.1)])
def test_shares_and_roughness_outside_are_refused(share: float, rough: float) -> None:
    with pytest.raises(Mistake):
        tables_for([SectionSpec("NACA 0012", share, rough)])


def test_a_changed_table_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "data"
    folder.mkdir()
    (folder / "sections.npz").write_bytes(b"not the table")
    (folder / "sections.json").write_text(json.dumps({"sha256": "0" * 64}))
    monkeypatch.setattr(section_data, "files", lambda package: tmp_path)
    with pytest.raises(Mistake) as refused:
        section_data.shipped.__wrapped__()
    assert "sections.json" in refused.value.came


def test_the_note_tells_what_made_the_table() -> None:
    folder = Path(section_data.__file__).parent / "data"
    note = json.loads((folder / "sections.json").read_text())
    assert hashlib.sha256((folder / "sections.npz").read_bytes()).hexdigest() == note["sha256"]
    assert {"neuralfoil", "aerosandbox"} <= set(note["made by"])
    assert (folder / "sections.npz").stat().st_size < 3_000_000


def test_own_coordinates_need_the_extra(monkeypatch: pytest.MonkeyPatch) -> None:
    def absent(name: str) -> Any:
        raise ImportError(name)

    monkeypatch.setattr(importlib, "import_module", absent)
    turn = np.linspace(0.0, 2.0 * np.pi, 41)
    outline = np.stack([0.5 + 0.5 * np.cos(turn), 0.06 * np.sin(turn)], axis=1)
    with pytest.raises(Mistake) as refused:
        tables_for([SectionSpec("mine", 0.0, 0.0, coordinates=outline)])
    assert "polars" in refused.value.mend


def test_own_coordinates_of_the_wrong_shape_are_refused() -> None:
    with pytest.raises(Mistake):
        tables_for([SectionSpec("mine", 0.0, 0.0, coordinates=np.zeros((5, 2)))])
