"""Foil, planform and downwash kernels: limits, smoothness, signs."""

from math import pi, radians

import numpy as np
import pytest

from foilwright.water.foil import (
    biplane_factor,
    downwash_angle,
    flap_hinge_moment,
    foil_coefficients,
    kinked_loading_drag,
    lift_doubt_at_low_froude,
    nearness_factor,
    shallowest_tip_depth,
    sheet_average,
    stall_margins,
    surface_factor,
    wetted_factor,
    wetted_share,
    whole_foil_hinge_moment,
    working_depth,
)
from foilwright.water.planform import (
    Planform,
    flap_numbers,
    lifting_line,
    most_loaded_section,
    planform,
)

FOIL = planform(0.98, 0.105, 0.5, 0.0, 1.0)
SLOPE2D = 2.0 * pi


def coefficients(
    alpha: float = 0.05, depth: float = 0.5, sin_heel: float = 0.0, foil: Planform = FOIL
) -> tuple[float, float, float, float]:
    return foil_coefficients(alpha, -0.05, SLOPE2D, 1.4, -0.8, depth, sin_heel, foil)


def assert_smooth(f, start: float, stop: float, steps: int, jump: float) -> None:
    """No jump in value or slope: with a quarter of the step the largest change of slope is less than half."""

    def kink(n: int) -> float:
        values = np.array([f(x) for x in np.linspace(start, stop, n + 1)])
        return float(np.max(np.abs(np.diff(values, 2)))) * n

    coarse, fine = kink(steps), kink(4 * steps)
    assert fine < 0.5 * coarse + jump


def test_deep_limit_is_the_lifting_surface():
    line = lifting_line(FOIL.aspect_ratio, 0.5)
    cl, cdi, slope, wetted = coefficients(depth=1e4)
    assert slope == pytest.approx(line.slope * FOIL.lift_factor, rel=1e-6)
    assert cl == pytest.approx(slope * 0.1, abs=2e-3)
    assert cdi == pytest.approx(cl * cl * FOIL.drag_term, rel=1e-6)
    assert wetted == pytest.approx(1.0)


def test_at_the_surface_the_section_halves_and_the_image_doubles_the_induced_angle():
    assert surface_factor(0.0) == 0.5
    assert surface_factor(50.0) == pytest.approx(1.0, abs=1e-4)
    _, _, slope, _ = coefficients(depth=0.0)
    section = 0.5 * SLOPE2D
    # the rounded corner of the working depth leaves 0.025 chords
    assert slope == pytest.approx(
        FOIL.lift_factor * section / (1.0 + 2.0 * section * FOIL.slope_term), rel=0.02
    )
    assert 0.5 < slope / coefficients(depth=1e4)[2] < 0.6


def test_lift_rises_with_depth_and_recovers_in_a_few_chords():
    depths = np.linspace(0.0, 10.0 * FOIL.chord, 200)
    lift = [coefficients(depth=d)[0] for d in depths]
    assert all(np.diff(lift) > 0.0)
    assert coefficients(depth=4.0 * FOIL.chord)[0] > 0.97 * coefficients(depth=1e4)[0]


def test_out_of_the_water_there_is_nothing():
    for depth in (-0.002, -0.01, -0.5):
        assert coefficients(depth=depth)[:2] == (0.0, 0.0)
    assert 0.0 <= coefficients(depth=0.0)[0] < 1e-3
    assert wetted_factor(0.1) == pytest.approx(0.5)
    assert wetted_factor(0.2) == 1.0


@pytest.mark.parametrize("sin_heel", [0.0, 0.02, -0.3])
def test_c1_in_depth(sin_heel):
    for part in (0, 1, 3):
        assert_smooth(lambda d, i=part: coefficients(depth=d, sin_heel=sin_heel)[i], -0.2, 0.6, 400, 1e-9)


def test_c1_in_heel_and_angle():
    assert_smooth(lambda s: coefficients(depth=0.1, sin_heel=s)[0], -0.5, 0.5, 800, 1e-9)
    assert_smooth(lambda a: coefficients(alpha=a)[0], -0.5, 0.7, 400, 1e-9)
    assert_smooth(lambda a: coefficients(alpha=a)[1], -0.5, 0.7, 400, 1e-9)


def test_lift_never_passes_the_stall_limit_and_never_falls():
    angles = np.linspace(-0.6, 0.8, 300)
    lift = np.array([coefficients(alpha=a)[0] for a in angles])
    assert all(np.diff(lift) > 0.0)
    assert lift.max() < 1.4 * FOIL.stall_share
    assert lift.min() > -0.8 * FOIL.stall_share
    # straight in the middle, rounded by 0.03 where the straight line meets the limit
    cl, _, slope, _ = coefficients(alpha=0.0)
    assert cl == pytest.approx(0.05 * slope, abs=2e-3)
    at_limit = 1.4 * FOIL.stall_share / slope - 0.05
    assert coefficients(alpha=at_limit)[0] == pytest.approx(1.4 * FOIL.stall_share - 0.03, abs=1e-3)


def test_stall_margins_are_where_the_lines_meet():
    _, _, slope, _ = coefficients()
    up, down = stall_margins(0.05, -0.05, slope, 1.4, -0.8, FOIL)
    assert slope * (0.05 + up + 0.05) == pytest.approx(1.4 * FOIL.stall_share)
    assert slope * (0.05 - down + 0.05) == pytest.approx(-0.8 * FOIL.stall_share)
    assert stall_margins(0.5, -0.05, slope, 1.4, -0.8, FOIL)[0] < 0.0


def test_wetted_share_is_the_average_over_the_span():
    for depth, sin_heel in ((0.05, 0.3), (0.02, 0.02), (-0.04, 0.25), (0.3, 0.1), (0.01, 0.0)):
        stations = (np.arange(4000) + 0.5) / 4000 - 0.5
        local = [wetted_factor((depth + 0.98 * y * sin_heel) / 0.107) for y in stations]
        assert wetted_share(depth, 0.107, 0.98, sin_heel) == pytest.approx(np.mean(local), abs=2e-3)


def test_working_depth_is_the_mean_of_the_wetted_part():
    for depth, sin_heel in ((0.3, 0.2), (0.05, 0.3), (-0.05, 0.3)):
        y = (np.arange(4000) + 0.5) / 4000 - 0.5
        local = depth + 0.98 * y * sin_heel
        expected = np.mean(local[local > 0.0])
        assert working_depth(depth, 0.107, 0.98, sin_heel) == pytest.approx(expected, abs=1.5e-3)


def test_shallowest_tip():
    assert shallowest_tip_depth(0.5, 1.0, 0.0) == 0.5
    for s in (-0.5, 0.5):
        assert shallowest_tip_depth(0.5, 1.0, s) == pytest.approx(0.25, abs=1e-3)
    assert_smooth(lambda s: shallowest_tip_depth(0.5, 1.0, s), -0.01, 0.01, 400, 1e-9)


def test_biplane_factor_falls_smoothly_from_one_to_nothing():
    gaps = np.linspace(0.0, 5.0, 2000)
    values = [biplane_factor(g) for g in gaps]
    assert values[0] == 1.0
    assert all(np.diff(values) < 0.0)
    assert values[-1] < 0.006
    assert_smooth(biplane_factor, 0.02, 3.0, 800, 1e-9)


# --- planform ---


def test_planform_numbers():
    assert FOIL.chord == pytest.approx(0.105 / 0.98)
    assert FOIL.aspect_ratio == pytest.approx(0.98**2 / 0.105)
    # mean aerodynamic chord by quadrature
    y = (np.arange(2000) + 0.5) / 2000
    c = 2.0 * FOIL.chord / 1.5 * (1.0 - 0.5 * y)
    assert FOIL.moment_chord == pytest.approx(np.mean(c * c) / np.mean(c), rel=1e-6)
    assert (FOIL.flap_share, FOIL.kink_cross, FOIL.kink_square) == (1.0, 0.0, 0.0)
    swept = planform(0.98, 0.105, 0.5, radians(20.0), 1.0)
    assert swept.sweep_cosine == pytest.approx(0.9397, abs=1e-4)
    assert coefficients(foil=swept)[2] < coefficients()[2]


def test_the_most_loaded_section_moves_out_with_taper():
    shares = {t: most_loaded_section(t, lifting_line(9.0, t)) for t in (1.0, 0.5, 0.3)}
    assert shares[1.0][1] == 0.0
    assert shares[0.5][1] == pytest.approx(0.53, abs=0.03)
    assert shares[0.3][1] > 0.65
    assert 0.88 < shares[1.0][0] < 0.91
    assert 0.93 < shares[0.5][0] < 0.96


def test_flap_over_part_of_the_span():
    shares = [flap_numbers(9.0, 0.5, s)[0] for s in np.linspace(0.0, 1.0, 60)]
    assert shares[0] == pytest.approx(0.0, abs=0.02)
    assert shares[-1] == 1.0
    assert all(np.diff(shares) > 0.0)
    # the middle of the span is worth more than the tips: 60 % of it gives 70 % of the lift
    share, _, square = flap_numbers(9.15, 0.5, 0.6)
    assert share == pytest.approx(0.70, abs=0.01)
    assert square > 0.0


def test_kinked_loading_costs_what_the_lifting_line_says():
    """A foil at no angle but its flap: all its lift is the flap's; drag by the Fourier sum directly."""
    foil = planform(0.98, 0.105, 0.5, 0.0, 0.6)
    assert kinked_loading_drag(0.4, 0.0, foil) == 0.0
    assert kinked_loading_drag(0.4, 0.3, FOIL) == 0.0
    extra = kinked_loading_drag(0.3, 0.3, foil)
    whole = 0.3**2 * FOIL.drag_term
    assert 0.3 * whole < extra < 0.9 * whole
    # at flight, most lift from the plain foil, the penalty is small
    assert kinked_loading_drag(0.4, 0.05, foil) < 0.02 * 0.4**2 * FOIL.drag_term


# --- downwash ---


def downwash(height: float = 0.05, rear: float = 0.84, depth: float = 0.5) -> float:
    return downwash_angle(0.4, 9.15, 0.98, rear, height, depth, depth, 2.3)


def test_downwash_limits():
    flat = 2.0 * 0.4 / (pi * 9.15)
    thin = nearness_factor(2.3 / 0.98) * flat
    assert sheet_average(0.42, 0.0, 0.49, 0.0) == sheet_average(0.05, 0.0, 0.49, 0.0) == 1.0
    assert downwash(0.0, 0.1, 1e4) == pytest.approx(0.95 * thin, rel=0.01)
    assert 0.90 * thin < downwash(0.0, 0.84, 1e4) < 0.91 * thin
    assert downwash(10.0, 0.84, 1e4) < 0.01 * flat
    # a rear foil much wider than the wake stands partly in its upwash
    assert downwash(0.0, 2.0, 1e4) < 0.2 * flat
    # the image adds
    assert downwash(0.0, 0.84, 0.4) > downwash(0.0, 0.84, 1e4)
    assert downwash(0.0, 0.84, 1e-6) == pytest.approx(2.0 * downwash(0.0, 0.84, 1e4), rel=1e-4)
    assert downwash_angle(-0.4, 9.15, 0.98, 0.84, 0.05, 0.5, 0.5, 2.3) == -downwash()


@pytest.mark.parametrize("rear", [0.3, 0.84, 0.97, 1.2])
def test_thin_sheet_is_the_average_of_the_elliptic_sheet(rear):
    """The closed form against quadrature of the local velocity, far aft, deep."""
    for height in (0.15, 0.3, 0.6):
        y = (np.arange(20000) + 0.5) / 20000 * 0.5 * rear
        zeta = y + 1j * height
        local = 1.0 - (zeta / (np.sqrt(zeta - 0.49) * np.sqrt(zeta + 0.49))).real
        assert sheet_average(0.5 * rear, height, 0.49, 0.0) == pytest.approx(np.mean(local), abs=1e-4)


@pytest.mark.parametrize("rear", [0.3, 0.84, 0.98, 1.2])
@pytest.mark.parametrize("height", [0.0, 0.01, -0.05, 0.2])
def test_core_is_that_of_the_sheets_filaments(rear, height):
    """Against the velocity of 4,000 filaments, each Gamma r / (2 pi (r^2 + core^2)), averaged."""
    core, theta = 0.025 * 0.98, np.pi * (np.arange(4000) + 0.5) / 4000
    place, strength = (
        -0.49 * np.cos(theta),
        2.0 * 0.49 * np.cos(theta) * np.pi / 4000,
    )  # downwash 1 on the sheet
    y = (np.arange(400) + 0.5) / 400 * 0.5 * rear
    away = place[None, :] - y[:, None]
    local = np.sum(strength * away / (away**2 + height**2 + core**2), axis=1) / (2.0 * np.pi)
    got = downwash_angle(0.5 * pi, 1.0, 0.98, rear, height, 1e5, 1e5, 1e6)
    assert got == pytest.approx(abs(np.mean(local)), abs=1e-3)


def test_downwash_is_smooth_across_the_sheet_and_the_same_above_and_below():
    for height in (0.02, 0.1, 0.4):
        assert downwash(height) == pytest.approx(downwash(-height), rel=1e-12)
    for rear in (0.84, 0.98, 1.1):
        assert_smooth(lambda h, r=rear: downwash(h, r), -0.3, 0.3, 600, 1e-9)
    assert_smooth(lambda d: downwash(0.05, 0.84, d), 0.05, 1.0, 600, 1e-9)


# --- hinge moments and cautions ---


def test_hinge_moments():
    assert flap_hinge_moment(1e4, 0.03, 0.03, -0.2) == pytest.approx(-1.8)
    symmetric = whole_foil_hinge_moment(1e4, 0.4, 0.0, 0.0, 0.0, FOIL.centre_share, FOIL)
    assert symmetric == pytest.approx(0.0, abs=1e-12)
    # lift ahead of the pivot pushes the nose up, to more lift; camber pushes it down
    assert whole_foil_hinge_moment(1e4, 0.4, 0.0, 0.0, 0.0, 0.30, FOIL) > 0.0
    assert whole_foil_hinge_moment(1e4, 0.0, 0.0, -0.05, 0.0, 0.30, FOIL) == pytest.approx(
        -0.05 * 1e4 * 0.105 * FOIL.moment_chord
    )


def test_low_froude_doubt_is_of_the_stated_size():
    assert lift_doubt_at_low_froude(2.0) == pytest.approx(0.11)
    assert lift_doubt_at_low_froude(0.0) == 0.13
    doubts = [lift_doubt_at_low_froude(0.5 + 0.1 * i) for i in range(100)]
    assert doubts == sorted(doubts, reverse=True)
