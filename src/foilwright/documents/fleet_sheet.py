"""The fleet sheet and the pencil slate as data: what everybody may see. No mass, no age, no reason."""

from typing import NamedTuple


class FleetLine(NamedTuple):
    """One boat of the day.

    people       who sails it, in the order of the day sheet
    settings     the two that matter most, in the boat's own words
    first        the first change afloat, if it flies too low or too high
    note         the boat's note, where it has one
    changed      what is not as on the sheet before: person, boat, settings ...; empty where nothing is
    """

    people: tuple[str, ...]
    boat: str
    sail: str
    foil_set: str
    settings: tuple[str, ...]
    first: str
    note: str
    changed: tuple[str, ...]


class Depths(NamedTuple):
    """How far down a boat reaches, foils floating and mast upside down, and what the day has [m].

    foils, mast  needed without anything to spare;  slip, area  as in the day sheet, none where unknown
    """

    boat: str
    foils: float
    mast: float
    slip: float | None
    area: float | None


class FleetSheet(NamedTuple):
    """One A4 for the fleet.

    wind, water  in words, one line each;  times  in words
    lines        boats that are sailed;  not_in_a_boat  names only
    out          boats out of service, with who and why
    warned       limits exceeded, unknown or not entered, in words, all alike
    depths       of every boat that is sailed
    before       whether there was a sheet before this one
    """

    invented: bool
    date: str
    place: str
    times: str
    wind: tuple[str, ...]
    water: str
    lines: tuple[FleetLine, ...]
    not_in_a_boat: tuple[str, ...]
    absent: tuple[str, ...]
    out: tuple[str, ...]
    warned: tuple[str, ...]
    depths: tuple[Depths, ...]
    before: bool
