"""Air drag: 1/2 rho V^2 (C_D A). Drag areas of a person from Hoerner, Fluid-Dynamic Drag, 1965, ch. 3 (from
memory): sitting 6 square feet = 0.56 m2."""

import pytest

from foilwright.air.windage import air_drag


@pytest.mark.parametrize(("area", "speed", "drag"), [(0.56, 10.0, 34.30), (0.30, 12.0, 26.46)])
def test_person(area, speed, drag):
    assert air_drag(area, 1.225, speed) == pytest.approx(drag, abs=0.005)


def test_direction():
    """Air from astern pushes; no air, no drag."""
    assert air_drag(0.5, 1.225, -8.0) == -air_drag(0.5, 1.225, 8.0)
    assert air_drag(0.5, 1.225, 0.0) == 0.0
