"""Drag of the air on hull, racks, mast and sailors. A kernel, and drag areas of people as data."""

from math import fabs


def air_drag(drag_area: float, air_density: float, speed: float) -> float:
    """Air drag [N] along the flow: 1/2 rho_air (C_D A) V |V|.

    drag_area C_D A [m2], of the part as it stands in the stream; air_density [kg/m3]; speed of the air past
    the part [m/s], the sign of the drag follows its sign. Blunt bodies at Reynolds numbers above 1e4. Areas:
    Hoerner, Fluid-Dynamic Drag, 1965, ch. 3 (standing person 0.84 m2, sitting 0.56 m2).
    """
    return 0.5 * air_density * drag_area * speed * fabs(speed)


POSTURES: dict[str, float] = {"standing": 0.84, "sitting": 0.56, "hiking": 0.35, "crouched": 0.25}
"""Drag area C_D A of a grown-up [m2]. Standing and sitting: Hoerner 1965, ch. 3, 9 and 6 square feet;
crouched the middle of his 0.2 to 0.3 (from memory). Hiking on a rack, body along the beam and seen from
ahead: the middle of 0.25 to 0.45, common practice, no source."""


def crew_drag_area(boat_area: float, posture: str, mass: float, usual_mass: float) -> float:
    """Drag area of these sailors in a posture [m2], from that of a boat's usual crew hiking.

    boat_area [m2]; masses of all aboard [kg]. Goes with the posture's area and with mass^0.585: body surface
    by mass^0.425 stature^0.725 (Du Bois & Du Bois 1916, Archives of Internal Medicine 17:863-871) and stature
    by mass^0.22. Set-up.
    """
    return float(boat_area * POSTURES[posture] / POSTURES["hiking"] * (mass / usual_mass) ** 0.585)
