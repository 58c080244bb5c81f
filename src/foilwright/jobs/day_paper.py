"""The paper cards of a day: all that the bench card has, with the day's three winds for its three speeds."""

from collections.abc import Mapping
from typing import Any

from foilwright.documents.sailor import together
from foilwright.documents.setup_card import CardChoice, SetupCard
from foilwright.jobs.aboard import adjusters_with_crew, row_with_crew
from foilwright.jobs.choose_setting import counting_rows, first_changes
from foilwright.jobs.conditions import Conditions
from foilwright.jobs.day_cards import BENCH_SPEEDS
from foilwright.jobs.day_columns import columns_from
from foilwright.jobs.day_crews import Seat
from foilwright.jobs.make_card import Made, setup_card
from foilwright.setup.standing import Standing, counted, flown_rows
from foilwright.setup.take_off_change import take_off_from
from foilwright.units import from_si, to_si


def day_card(seat: Seat, card: Mapping[str, Any], around: Conditions, day: str) -> SetupCard:
    """The card of one boat and crew as data; `card` as `day_cards.card_of` keeps it, `day` in words."""
    boat = seat.boat.boat
    settings = {one["adjuster"]: one["steps"] for one in card["settings"]}
    row = row_with_crew(boat, settings, seat.crew)
    standing = Standing(
        row_with_crew(boat, {}, seat.crew),
        boat.tables,
        around.water,
        adjusters_with_crew(boat, seat.crew, settings),
        settings,
        0.0,
    )
    winds = columns_from(card["paper"]["winds"])
    whole = {round(from_si(one.seen.speed, "kn")) for one in winds if one.seen is not None}
    speeds = [to_si(float(speed), "kn") for speed in sorted(whole)] or BENCH_SPEEDS
    every = flown_rows(standing, speeds, True)
    states = [counted(rows) for rows in every]
    people = together(seat.crew).model_copy(update={"name": " + ".join(seat.people)})
    record = seat.boat.record
    named = {
        **({"main_foil": record.foil_set} if record.foil_set else {}),
        **({"rig": record.rig} if record.rig else {}),
    }
    made = Made(
        boat, row, seat.boat.settings, settings, people, seat.stage, counting_rows(states, every),
        take_off_from(standing, [one for one in states if one is not None]), around, 0.0,
        first_changes(standing, states), None, None, day,
    )  # fmt: skip
    return setup_card(made)._replace(
        choice=_choice(card["paper"]["choice"]),
        expected=(),
        no_flight=None,
        winds=winds,
        parts={**boat.file.part_ids(), **named},
    )


def _choice(kept: Mapping[str, Any]) -> CardChoice:
    """What was chosen, as it was kept."""
    lists = {name: tuple(part) for name, part in kept.items() if name != "tried"}
    return CardChoice(**lists, tried=kept["tried"])
