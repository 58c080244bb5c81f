"""Smooth stand-ins: how far from the sharp function, slopes without a corner, no way out of a limit."""

from __future__ import annotations

from functools import partial

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from foilwright.smooth import (
    clip,
    positive_part,
    positive_slope,
    share_of,
    sign_of,
    smooth_abs,
    smooth_clip,
    smooth_max,
    smooth_min,
    smooth_step,
)

WIDTH = 0.1
NUMBERS = st.floats(-10.0, 10.0)


@given(NUMBERS, NUMBERS)
def test_larger_and_smaller_are_off_by_half_a_width_at_most(a, b):
    larger, smaller = smooth_max(a, b, WIDTH), smooth_min(a, b, WIDTH)
    assert 0.0 <= larger - max(a, b) <= 0.5 * WIDTH + 1e-12
    assert 0.0 <= min(a, b) - smaller <= 0.5 * WIDTH + 1e-12
    assert larger + smaller == pytest.approx(a + b, abs=1e-12)


@given(NUMBERS)
def test_positive_part_and_its_slope(x):
    assert positive_part(x, WIDTH) > -1e-15
    assert 0.0 <= positive_part(x, WIDTH) - max(x, 0.0) <= 0.5 * WIDTH
    step = 1e-5
    slope = (positive_part(x + step, WIDTH) - positive_part(x - step, WIDTH)) / (2.0 * step)
    assert positive_slope(x, WIDTH) == pytest.approx(slope, abs=1e-6)


@given(NUMBERS)
def test_clip_never_leaves_its_limits(x):
    soft, sharp = smooth_clip(x, -1.0, 2.0, WIDTH), clip(x, -1.0, 2.0)
    assert -1.0 - 1e-12 <= soft <= 2.0 + 1e-12
    assert abs(soft - sharp) <= 0.5 * WIDTH


def test_at_the_corner_and_three_widths_away():
    assert positive_part(0.0, WIDTH) == pytest.approx(0.5 * WIDTH)
    assert smooth_max(1.0, 1.0, WIDTH) == pytest.approx(1.0 + 0.5 * WIDTH)
    assert smooth_min(1.0, 1.0, WIDTH) == pytest.approx(1.0 - 0.5 * WIDTH)
    assert smooth_abs(0.0, WIDTH) == 0.0
    assert smooth_clip(2.0, -1.0, 2.0, WIDTH) == pytest.approx(2.0 - 0.5 * WIDTH, abs=0.01 * WIDTH)
    for x in (-3.0 * WIDTH, 3.0 * WIDTH):
        assert abs(positive_part(x, WIDTH) - max(x, 0.0)) < 0.09 * WIDTH
        assert abs(smooth_abs(x, WIDTH) - (abs(x) - WIDTH)) < 0.17 * WIDTH


@pytest.mark.parametrize(
    "smooth",
    [
        lambda x: positive_part(x, WIDTH),
        lambda x: smooth_abs(x, WIDTH),
        lambda x: smooth_clip(x, -0.3, 0.4, WIDTH),
        lambda x: smooth_max(x, 0.1, WIDTH),
        lambda x: smooth_min(x, 0.1, WIDTH),
        partial(smooth_step, low=-0.3, high=0.4),
    ],
)
def test_slopes_have_no_corner(smooth):
    """Over a step of a hundredth of a width no slope jumps by more than its curvature allows."""
    x = np.arange(-1.0, 1.0, 0.001)
    slopes = np.diff([smooth(float(at)) for at in x]) / 0.001
    assert np.abs(np.diff(slopes)).max() < 0.03


def test_step_is_flat_outside_and_half_in_the_middle():
    assert [smooth_step(x, 1.0, 3.0) for x in (0.0, 1.0, 2.0, 3.0, 9.0)] == [0.0, 0.0, 0.5, 1.0, 1.0]


def test_sign_and_share():
    assert [sign_of(x) for x in (-2.0, -0.0, 0.0, 2.0)] == [-1.0, 1.0, 1.0, 1.0]
    assert share_of(-3.0, 6.0) == 0.5
    assert share_of(-3.0, 0.0) == 0.0
