"""Choosing the settings for a stage of learning over boat speeds, with reasons, runners-up and the grid."""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from foilwright.documents.answers import ChosenSetting, in_unit
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.sailor import Sailor
from foilwright.documents.turn_words import grid_words, reasons, turn_words
from foilwright.flight.at_speed import Steady
from foilwright.jobs.aboard import movable_by, standing_with
from foilwright.setup.choose import Choice, choose, roles_of
from foilwright.setup.effects import slopes_at_state
from foilwright.setup.goals import goal_for
from foilwright.setup.grid import Entry, grid
from foilwright.setup.standing import Standing, compiled_at_hand, counted, flown_rows
from foilwright.setup.take_off_change import take_off_from
from foilwright.units import to_si
from foilwright.water.properties import Water

GRID_SPEED = to_si(12.0, "kn")
"""Where the grid is worked out, or at the nearest speed asked for that flies [m/s]."""


class Chosen(NamedTuple):
    """What goes on a card, and what lies behind it.

    settings      every adjuster, with its change from where it stands
    moves         the changes in the order to make them, in the boat's own words
    grid          words by low, right, high and bow_down, level, bow_up
    rows          the state that counts at each speed with the chosen settings, or the row that says why none
    take_off      with the chosen settings [m/s]
    """

    choice: Choice
    settings: list[ChosenSetting]
    moves: list[str]
    reasons: list[str]
    runners_up: list[dict[str, Any]]
    grid: dict[str, dict[str, str | None]]
    entries: Mapping[tuple[str, str], Entry]
    rows: list[Steady]
    take_off: float | None


def choose_setting(
    boat: ReadyBoat,
    sailor: Sailor,
    settings: Mapping[str, float],
    stage: str,
    speeds: Sequence[float],
    water: Water,
    heel: float = 0.0,
    wave_height: float = 0.0,
) -> Chosen:
    """The settings for a stage over boat speeds [m/s] and waves [m], from where the adjusters stand."""
    standing, fast = standing_with(boat, settings, sailor, water, heel), compiled_at_hand()
    now = flown_rows(standing, speeds, fast)
    states = [counted(rows) for rows in now]
    off = take_off_from(standing, have(states))
    goal = goal_for(stage, boat.form, wave_height)
    choice = choose(standing, goal, speeds, off, boat.bands, fast, states, movable_by(boat, [sailor]))
    records = {record.name: record for record in boat.file.adjusters}
    after = standing
    if choice.moves:
        after = standing._replace(settings=choice.settings)
        solved = iter(choice.states or ())
        states = [None if state is None else next(solved) for state in states]
        off = take_off_from(after, have(states))
    entries = first_changes(after, states)
    return Chosen(
        choice,
        [
            {"adjuster": name, "steps": float(steps), "change": float(steps - settings[name])}
            for name, steps in choice.settings.items()
        ],
        [turn_words(records[move.adjuster], move.steps, True) for move in choice.moves],
        reasons(choice, boat.file.adjusters),
        [
            {
                "settings": [
                    {"adjuster": name, "steps": float(one.settings[name]), "change": float(steps)}
                    for name, steps in one.changes.items()
                ],
                "sentence": " and ".join(
                    turn_words(records[name], steps) for name, steps in one.changes.items()
                ),
                "miss": in_unit(one.miss, ""),
            }
            for one in choice.runners_up
        ],
        grid_words(entries, boat.file.adjusters),
        entries,
        counting_rows(states, now),
        off,
    )


def have(states: Sequence[Steady | None]) -> list[Steady]:
    """The states there are."""
    return [state for state in states if state is not None]


def counting_rows(states: Sequence[Steady | None], rows: Sequence[Sequence[Steady]]) -> list[Steady]:
    """One row a speed: the state that counts, or the row that says why there is none."""
    return [rows_there[0] if state is None else state for state, rows_there in zip(states, rows, strict=True)]


def first_changes(standing: Standing, states: Sequence[Steady | None]) -> Mapping[tuple[str, str], Entry]:
    """The grid of first changes for a boat as it stands; empty where it does not fly."""
    flying = [state for state in states if state is not None and state.state == "flying"]
    if not flying:
        return {}
    state = min(flying, key=lambda one: abs(one.speed - GRID_SPEED))
    slopes = slopes_at_state(standing, state.speed, state)
    return grid(slopes, standing.adjusters, roles_of(standing), standing.settings)
