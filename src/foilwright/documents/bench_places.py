"""Wand angles at which a bench sheet asks for the foil: where the foil moves, not where it stands at a stop.

At a stop the foil says nothing about the chain, and a slip in the wand's angle cannot be seen. So the places
follow from the boat file: they lie where the foil is free, closer together towards both ends of that, as the
extremes of a Chebyshev polynomial do. There the curve is known from one side only, and beyond them it is
drawn on (P. G. Hoel and A. Levine, Optimal spacing and weighting in polynomial prediction,
Annals of Mathematical Statistics 35, 1964; from memory).
"""

from collections.abc import Mapping
from math import ceil, degrees, floor, radians

import numpy as np

from foilwright.documents.bench_boat import rows_at
from foilwright.documents.boat_record import BoatFile
from foilwright.documents.boat_row import curve_of
from foilwright.documents.boat_table import all_numbers, given_numbers
from foilwright.evidence.bench_angles import only_curve
from foilwright.flight.boat import boat_from, scratch_shapes
from foilwright.flight.control import chain_from

FREE_DEG = 1.5  # foil from its stops: a file may be a degree wrong about its zero
OFF_STOP_DEG = 5.0  # wand from its own stops
ROUND_DEG = 5.0
LEAST_TRAVEL_DEG = 20.0  # below it the file's stops are not believed


def wand_places(boat: BoatFile, setting: Mapping[str, float], count: int) -> tuple[float, ...]:
    """So many wand angles [deg], lowest first, multiples of 5."""
    low, high = _free_travel(boat, setting)
    shares = 0.5 - 0.5 * np.cos(np.linspace(0.0, np.pi, count))
    steps = np.round((low + (high - low) * shares) / ROUND_DEG) * ROUND_DEG
    return tuple(dict.fromkeys(float(step) for step in steps))


def _free_travel(boat: BoatFile, setting: Mapping[str, float]) -> tuple[float, float]:
    """First and last multiple of 5 [deg] at which the foil is free of its stops."""
    numbers, _ = all_numbers(boat, given_numbers(boat))
    rows, _ = rows_at(boat, [{}, setting], boat.name)
    tables = only_curve(curve_of(boat, numbers))
    links, drawn = (np.zeros(shape) for shape in scratch_shapes(rows.shape[1]))
    ready = boat_from(rows[1], links, drawn)
    low = ceil((degrees(ready.wand.forward_stop) + OFF_STOP_DEG) / ROUND_DEG)
    high = floor((degrees(ready.wand.aft_stop) - OFF_STOP_DEG) / ROUND_DEG)
    every = [ROUND_DEG * step for step in range(low, high + 1)]
    least = degrees(ready.chain.foil_least) + FREE_DEG
    greatest = degrees(ready.chain.foil_greatest) - FREE_DEG
    free = [
        wand
        for wand in every
        if least
        <= degrees(ready.chain.foil_at_drawing + chain_from(ready, tables, radians(wand)).turn)
        <= greatest
    ]
    if not free or free[-1] - free[0] < LEAST_TRAVEL_DEG:
        return every[0], every[-1]
    return free[0], free[-1]
