"""The table of wave resistance and its look-up."""

import numpy as np
import pytest

from foilwright.compiled import compiled, plain
from foilwright.water import waves
from foilwright.water.hull_shape import HullNumbers, hull_from_offsets, parametric_hull
from foilwright.water.waves import WaveTable, thin_ship_resistance, wave_resistance, wave_table

NARROW = HullNumbers(3.35, 0.36, 0.36, 0.42, 1.5, 0.0, 0.55, 0.05, 0.045, 3.0)
WIDE = HullNumbers(3.05, 1.15, 0.36, 0.5, 1.0, 0.45, 0.8, 0.22, 0.05, 2.2)
G = 9.80665


@pytest.fixture(scope="module", params=[NARROW, WIDE], ids=["narrow", "wide"])
def table_and_hull(request):
    shape = parametric_hull(request.param, 41, 9)
    return wave_table(shape), shape


def test_look_up_against_the_integral(table_and_hull):
    """Between rows and columns: 0.15 N of up to 36 N on the narrow hull, 1.2 N of up to 270 N on the wide."""
    table, shape = table_and_hull
    speeds, drafts = np.linspace(1.5, 7.0, 23), np.linspace(0.06, 0.24, 7)
    direct = 999.1 * thin_ship_resistance(shape, drafts, speeds, G)
    fine = np.linspace(0.0, 0.25, 2001)
    volumes = np.interp(drafts, fine, waves._level_volumes(shape, fine))
    found = np.array([[wave_resistance(plain(table), u, v, 999.1, G) for v in volumes] for u in speeds])
    assert np.abs(found - direct).max() < (0.15 if shape.widest < 0.3 else 1.2)


def test_nothing_slow_or_dry(table_and_hull):
    table = plain(table_and_hull[0])
    assert wave_resistance(table, 0.0, 0.1, 999.1, G) == 0.0
    assert wave_resistance(table, 0.5, 0.1, 999.1, G) == 0.0
    assert wave_resistance(table, 4.0, 0.0, 999.1, G) == 0.0
    assert 0.0 < wave_resistance(table, 4.0, 1e-4, 999.1, G) < 0.05


def test_smooth_in_speed_and_volume(table_and_hull):
    """No slope jumps at the rows, at the table's ends or beyond them: with a step ten times as fine, second
    differences fall a hundredfold, where a corner would let them fall tenfold."""
    table = plain(table_and_hull[0])

    def sharpest(values):
        return np.abs(np.diff(values, 2)).max()

    def over_speed(step):
        return [wave_resistance(table, u, 0.1, 999.1, G) for u in np.arange(0.3, 14.0, step)]

    def over_volume(step):
        volumes = np.arange(0.01, 1.3 * table.top_volume, step)
        return [wave_resistance(table, 3.0, v, 999.1, G) for v in volumes]

    assert sharpest(over_speed(0.004)) < sharpest(over_speed(0.04)) / 20.0
    assert sharpest(over_volume(1e-4)) < sharpest(over_volume(1e-3)) / 20.0


def test_scales(table_and_hull):
    """By density; by gravity at equal Froude number; the sign of the speed does not matter."""
    table, shape = table_and_hull
    one = wave_resistance(plain(table), 3.0, 0.1, 1000.0, G)
    assert wave_resistance(plain(table), 3.0, 0.1, 1025.0, G) == pytest.approx(1.025 * one)
    assert wave_resistance(plain(table), 3.0 * 2.0**0.5, 0.1, 1000.0, 2.0 * G) == pytest.approx(2.0 * one)
    assert wave_resistance(plain(table), -3.0, 0.1, 1000.0, G) == one
    assert wave_table(shape, gravity=5.0, speeds=6).share == pytest.approx(wave_table(shape, speeds=6).share)


def test_rows_are_met_exactly(table_and_hull):
    table = table_and_hull[0]
    low, high = 0.12 / 0.62, 2.0 / 2.5
    rows = table.share.shape[0]
    for row, column in [(7, 3), (20, 8), (rows - 1, 5)]:
        across = low + (high - low) * row / (rows - 1)
        speed = 0.5 * across / (1.0 - across) * np.sqrt(G * table.length)
        volume = table.top_volume * (column / (table.share.shape[1] - 1)) ** 2
        expected = table.share[row, column] * 1000.0 * G * volume
        assert wave_resistance(plain(table), speed, volume, 1000.0, G) == pytest.approx(expected, rel=1e-9)


def test_compiled_equals_plain(table_and_hull):
    table = table_and_hull[0]
    quick = compiled(wave_resistance)
    for speed, volume in [(0.4, 0.1), (2.7, 0.09), (5.0, 0.001), (11.0, 0.6)]:
        slow = wave_resistance(plain(table), speed, volume, 999.1, G)
        assert quick(table, speed, volume, 999.1, G) == pytest.approx(slow, rel=1e-13)


def test_mirrored_hull():
    """Thin-ship theory of a closed hull does not know forward from aft."""
    x = np.linspace(0.0, 3.0, 31)
    half = 0.15 * np.sin(np.pi * x / 3.0) * (1.0 + 0.3 * np.cos(np.pi * x / 3.0))
    half[[0, -1]] = 0.0
    y, z = np.outer(half, [0.0, 1.0, 1.0]), np.tile([0.0, 0.0, 0.2], (31, 1))
    speeds, draft = np.array([1.5, 2.5, 4.0]), np.array([0.2])
    ahead = thin_ship_resistance(hull_from_offsets(x, y, z), draft, speeds, G)
    astern = thin_ship_resistance(hull_from_offsets(x, y[::-1], z), draft, speeds, G)
    assert ahead == pytest.approx(astern, rel=1e-9)


def test_weights_sum_to_one():
    for t in (0.0, 0.3, 1.0):
        for ends in [(False, False), (True, False), (False, True), (True, True)]:
            for straight in (0.0, 1.0):
                assert sum(waves.cubic_weights(t, *ends, straight)) == pytest.approx(1.0)
    assert waves.cubic_weights(0.4, True, False, 1.0) @ np.array([9.0, 2.0, 3.0, 4.0]) == pytest.approx(2.4)
    assert waves.cubic_weights(0.4, False, True, 1.0) @ np.array([1.0, 2.0, 3.0, 9.0]) == pytest.approx(2.4)


def test_blunt_bow_is_closed_and_transom_open():
    """A box has no waves but those of its bow step; without it there would be none at all."""
    x = np.linspace(0.0, 3.0, 7)
    y, z = np.tile([0.0, 0.2, 0.2], (7, 1)), np.tile([0.0, 0.0, 0.3], (7, 1))
    shape = hull_from_offsets(x, y, z)
    assert (waves._steps_of_breadth(shape, 0.2)[1:, :-1] == 0.0).all()
    assert waves._steps_of_breadth(shape, 0.2)[5, -1] == pytest.approx(-0.2)
    assert isinstance(wave_table(shape, speeds=4, volumes=3), WaveTable)
