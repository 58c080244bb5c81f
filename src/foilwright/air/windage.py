"""Drag of the air on hull, racks, mast and sailors. A kernel."""

from math import fabs


def air_drag(drag_area: float, air_density: float, speed: float) -> float:
    """Air drag [N] along the flow: 1/2 rho_air (C_D A) V |V|.

    drag_area C_D A [m2], of the part as it stands in the stream; air_density [kg/m3]; speed of the air past
    the part [m/s], the sign of the drag follows its sign. Blunt bodies at Reynolds numbers above 1e4. Areas:
    Hoerner, Fluid-Dynamic Drag, 1965, ch. 3 (standing person 0.84 m2, sitting 0.56 m2).
    """
    return 0.5 * air_density * drag_area * speed * fabs(speed)
