"""Writes docs/theory/sailing-credibility.md: what the demo boats do in a wind, beside what is expected.

    python builders/sailing_table.py

Compiles the physics the first time. Nothing here is measured: the boats are invented, and the ranges are what
practised sailors would believe of such boats (common practice, no source).
"""

from __future__ import annotations

from math import degrees, radians, sqrt
from pathlib import Path
from typing import NamedTuple

import numpy as np

from foilwright.air.wind import INLAND_ROUGHNESS
from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ReadyBoat, ready
from foilwright.documents.examples import example
from foilwright.flight.helm_policy import usual_helm
from foilwright.flight.many_in_wind import all_in_wind
from foilwright.flight.sailing_in_wind import Sailed, sail_all
from foilwright.flight.sailing_in_wind import WindCase as Wind
from foilwright.flight.take_off_wind import Runner, WindNeeded, winds_needed
from foilwright.measures import Floats
from foilwright.water.properties import water_at

PAGE = Path(__file__).parent.parent / "docs" / "theory" / "sailing-credibility.md"
KN = 1852.0 / 3600.0
WATER = water_at(15.0, 0.0)
ANGLES = (60.0, 75.0, 90.0, 105.0, 120.0)

HEAD = """\
# What the demo boats do in a wind

Made by `builders/sailing_table.py`. Still fresh water at 15 degrees, adjusters at their marks, the usual
policy for the heel ([sailing in a wind](sailing-in-wind.md)), wind in kn at 10 m over inland water. The
ranges are what practised sailors would believe of such boats (common practice, no source); outside one,
boat or model is wrong.

"""


class Expected(NamedTuple):
    """Ranges for one boat, for its lightest, usual and heaviest crew where there are three."""

    masses: tuple[float, float, float]
    take_off: tuple[tuple[float, float], ...]
    keeps: tuple[float, float]
    at_50: tuple[float, float]
    at_90: tuple[float, float]


EXPECTED = {
    "marram": Expected(
        (60.0, 75.0, 90.0), ((7.5, 10.0), (8.0, 11.0), (8.5, 12.0)), (6.5, 8.5), (10.5, 13.0), (15.5, 19.5)
    ),
    "pipkin": Expected(
        (35.0, 48.0, 60.0), ((7.5, 10.0), (8.0, 11.0), (8.5, 12.0)), (6.5, 8.5), (7.5, 10.5), (13.0, 16.0)
    ),
    "sedge": Expected(
        (130.0, 145.0, 160.0), ((7.5, 10.0), (8.0, 11.0), (8.0, 11.5)), (6.0, 8.5), (11.5, 14.5), (17.0, 21.5)
    ),
}

TAIL = """
## Oddities

Every number with a range is inside it. Pipkin once was not (in 12 kn at 50 degrees it lifted at 6.2 kn and
did not fly): the boat was wrong, not the model. Its foil stood 1.5 degrees too low, which its ranges at a
given boat speed had shown as well.

- **Pipkin in 12 kn at 50 degrees** flies at 9.7 kn once it is up, and does not come up from rest there: it
  takes off further off the wind and is brought up to it, as is usual with such boats.
- **The junior's boat close to the wind in a blow** stays in the water from rest, because the sail must be
  eased before the boat is fast enough: more wind does not help (at 60 degrees the lightest child does not get
  up from rest in any wind).
- **Speeds on a reach in 16 kn and more** (20 to 28 kn) are an upper end: no ventilation, no cavitation,
  no waves, perfect hands. Over 22 kn a demo boat is beyond what its foils were drawn for.
- **Take-off at 120 degrees** asks 14 to 16 kn: below that the apparent wind dies before the hump.
"""


def row_with(boat: ReadyBoat, mass: float) -> Floats:
    """The boat with another mass aboard, in the same place."""
    row = boat.row.copy()
    row[boat.names.index("crew.mass")] = mass
    return row


def sailed(boat: ReadyBoat, row: Floats, wind_kn: float, angles: tuple[float, ...]) -> list[list[Sailed]]:
    """Stable states at each angle, slowest first."""
    winds = [Wind(wind_kn * KN, radians(angle), usual_helm(wind_kn * KN, radians(angle))) for angle in angles]
    found = sail_all(row, boat.tables, WATER, INLAND_ROUGHNESS, winds, True)
    return [[one for one in rows if one.state and one.stable] for rows in found]


def told(value: float | None, span: tuple[float, float] | None = None, unit: float = KN) -> str:
    """A number with its range, in bold where it is outside."""
    if value is None:
        return "**none**" if span else "none"
    text = f"{value / unit:.1f}"
    if span is None:
        return text
    inside = span[0] <= value / unit <= span[1]
    return f"{text if inside else f'**{text}**'} ({span[0]:g} to {span[1]:g})"


def short(states: list[Sailed]) -> str:
    """The stable states of a case in short: speed and f(loating), l(ifting) or flying."""
    signs = {"floating": "f", "lifting": "l", "flying": ""}
    return " / ".join(f"{one.speed / KN:.1f}{signs[one.state]}" for one in states) or "–"


def page() -> str:
    """The whole page."""
    lines = [HEAD]
    lines += ["## Take-off\n"]
    lines += [
        "| boat, aboard | take-off wind, 90 degrees | keeps flying down to | least take-off wind, at "
        "| take-off speed | by root of total mass | run, a knot more |",
        "|---|---|---|---|---|---|---|",
    ]
    tables = []
    for name, expected in EXPECTED.items():
        boat = ready(read_boat(example(name)))
        boat_mass = float(boat.row[boat.names.index("mass.mass")])
        usual: WindNeeded | None = None
        needs = {}
        for mass in (expected.masses[1], expected.masses[0], expected.masses[2]):
            runner = Runner(row_with(boat, mass), boat.tables, WATER, INLAND_ROUGHNESS, usual_helm, True)
            needs[mass] = winds_needed(runner, [radians(angle) for angle in ANGLES])
            usual = usual or needs[mass][2]
        assert usual is not None and usual.take_off_speed is not None
        for k, mass in enumerate(expected.masses):
            abeam = needs[mass][2]
            least = min(
                (one.take_off_wind, degrees(one.angle))
                for one in needs[mass]
                if one.take_off_wind is not None
            )
            root = usual.take_off_speed * sqrt((mass + boat_mass) / (expected.masses[1] + boat_mass))
            lines.append(
                f"| {boat.name}, {mass:.0f} kg | {told(abeam.take_off_wind, expected.take_off[k])} "
                f"| {told(abeam.keeps_flying_wind, expected.keeps if k == 1 else None)} "
                f"| {told(least[0])}, {least[1]:.0f} deg | {told(abeam.take_off_speed)} | {told(root)} "
                f"| {told(abeam.seconds, None, 1.0)} s |"
            )
        tables += speeds(boat, expected)
    return "\n".join(lines + tables) + "\n" + TAIL


def speeds(boat: ReadyBoat, expected: Expected) -> list[str]:
    """Boat speeds of one boat over winds and angles."""
    angles = (45.0, 50.0, 60.0, 75.0, 90.0, 105.0, 110.0, 120.0, 135.0, 150.0)
    lines = [
        f"\n## {boat.name}: stable boat speeds, kn\n",
        "f floating, l lifting, otherwise flying; usual crew, and the lightest and heaviest in 16 kn.\n",
        "| wind, aboard | " + " | ".join(f"{angle:.0f}" for angle in angles) + " |",
        "|---" * (len(angles) + 1) + "|",
    ]
    light, usual, heavy = expected.masses
    cases = [(8.0, usual), (12.0, usual), (16.0, light), (16.0, usual), (16.0, heavy), (20.0, usual)]
    for wind, mass in cases:
        found = sailed(boat, row_with(boat, mass), wind, angles)
        lines.append(f"| {wind:.0f} kn, {mass:.0f} kg | " + " | ".join(map(short, found)) + " |")
    at = sailed(boat, row_with(boat, usual), 12.0, (50.0, 90.0))
    best = [max((one.speed for one in states), default=None) for states in at]
    lines.append(
        f"\nIn 12 kn at 50 degrees {told(best[0], expected.at_50)} kn, "
        f"at 90 degrees {told(best[1], expected.at_90)} kn."
    )
    return lines


def lost_share() -> str:
    """How many of a whole table of winds and angles the search gives up on."""
    winds = np.array(
        [
            (wind * KN, radians(angle), *usual_helm(wind * KN, radians(angle)))
            for wind in np.linspace(4, 28, 13)
            for angle in np.linspace(30, 170, 29)
        ]
    )
    total = lost = 0
    for name in EXPECTED:
        boat = ready(read_boat(example(name)))
        found = all_in_wind(
            boat.row, boat.tables, WATER, INLAND_ROUGHNESS, np.zeros(0, dtype=np.int64),
            np.zeros((len(winds), 0)), winds,
        )  # fmt: skip
        total += len(winds)
        lost += int((found.outcomes == 4).sum())
    return (
        f"\nOf {total} cases (three boats, 13 winds from 4 to 28 kn, 29 angles from 30 to 170 degrees) the "
        f"search gave up on {lost}.\n"
    )


if __name__ == "__main__":
    PAGE.write_text(page() + lost_share(), encoding="utf-8")
