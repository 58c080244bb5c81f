"""What the page draws of a steady state in a wind: who carries the weight, and the loads as arrows.

Numbers only, as in `page_view.py`.
"""

from foilwright.axes import attitude, to_body, to_earth
from foilwright.compiled import plain
from foilwright.documents.answers import in_unit
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.page_view import Arrow, arrows
from foilwright.documents.sail_answer import SailRow, sail_row
from foilwright.flight.boat import Tables
from foilwright.flight.chain_behaviour import unpacked
from foilwright.flight.loads import ITEMS, loads
from foilwright.flight.many_in_wind import scratch_in_wind, wind_around
from foilwright.flight.sailing_in_wind import Sailed
from foilwright.flight.state import State
from foilwright.measures import Floats
from foilwright.water.properties import Water

STRUTS = ("main strut", "rudder strut")


class WindRow(SailRow):
    """A row of `sail` with what carries the weight and the loads as arrows. `told_kn` is the
    wind as it was told, `hand_gauge_kn` what a hand gauge reads in it."""

    told_kn: float
    hand_gauge_kn: float
    main_lift_n: float | None
    rudder_lift_n: float | None
    buoyancy_n: float | None
    strut_lift_n: float | None
    sail_lift_n: float | None
    arrows: list[Arrow]


def wind_row(
    one: Sailed, told_kn: float, hand_kn: float, row: Floats, boat: ReadyBoat, water: Water, rough: float
) -> WindRow:
    """A state in a wind with its loads; row: the boat's numbers, crew aboard; rough: roughness length [m]."""
    base = sail_row(one)
    if not one.state:
        return {
            **base,
            "told_kn": told_kn,
            "hand_gauge_kn": hand_kn,
            "main_lift_n": None,
            "rudder_lift_n": None,
            "buoyancy_n": None,
            "strut_lift_n": None,
            "sail_lift_n": None,
            "arrows": [],
        }
    side, buoyancy = seen_from_the_side(one, row, boat.tables, water, rough)
    upright = attitude(one.trim, 0.0, 0.0)
    up = {name: to_earth(upright, *load[:3])[2] for name, load in side.items()}
    return {
        **base,
        "told_kn": told_kn,
        "hand_gauge_kn": hand_kn,
        "main_lift_n": in_unit(up["main foil"], "N"),
        "rudder_lift_n": in_unit(up["rudder foil"], "N"),
        "buoyancy_n": in_unit(buoyancy, "N"),
        "strut_lift_n": in_unit(sum(up[name] for name in STRUTS), "N"),
        "sail_lift_n": in_unit(up["sail"], "N"),
        "arrows": arrows(side, row, boat.names, one.trim),
    }


def seen_from_the_side(
    one: Sailed, row: Floats, tables: Tables, water: Water, rough: float
) -> tuple[dict[str, tuple[float, ...]], float]:
    """The loads of a state as a side view has them, and the buoyancy [N].

    The side view stands upright along the course: forces along the course and up, and moments bow up or
    down, are kept as they are in the earth's axes and turned by the trim alone. What acts to the side, and
    the moments about the other two axes, are left out.
    """
    state = State(
        one.speed, one.height, one.trim, one.heel, one.leeway, one.rudder, 0.0, 0.0, 0.0, 0.0,
        one.out_share, one.power,
    )  # fmt: skip
    items = plain(scratch_in_wind()).items
    around = wind_around(one.wind, one.angle, rough)
    flight = loads(plain(unpacked(row)), plain(tables), plain(water), around, state, 0.0, items)
    a, upright = attitude(one.trim, one.heel, one.leeway), attitude(one.trim, 0.0, 0.0)
    found: dict[str, tuple[float, ...]] = {}
    for i, name in enumerate(ITEMS):
        along, _, up = to_earth(a, items[i, 0], items[i, 1], items[i, 2])
        _, moment, _ = to_earth(a, items[i, 3], items[i, 4], items[i, 5])
        found[name] = (*to_body(upright, along, 0.0, up), 0.0, moment, 0.0)
    return found, float(water.density * water.gravity * flight.hull.volume)
