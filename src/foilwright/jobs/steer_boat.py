"""How a boat answers its tiller, floating and flying, and the tiller elastic that suits the hand on it."""

from collections.abc import Sequence
from pathlib import Path

from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.steer_answer import (
    ElasticFound,
    SteerAnswer,
    Steered,
    Tiller,
    at_tiller,
    steer_answer,
)
from foilwright.flight.at_speed import Steady, case_of, fly_at
from foilwright.flight.steering import Turn, bench_turn
from foilwright.flight.steering_elastic import TillerHand, tiller_elastic, tiller_hand
from foilwright.jobs.conditions import conditions_from, heel_from, row_for, settings_from, speeds_from
from foilwright.jobs.desk import Settings, Speeds, Who, check_stage, open_boat, sailor_of
from foilwright.measures import Floats
from foilwright.mistakes import Mistake
from foilwright.outcomes import SOLVED
from foilwright.setup.sailor_hand import USUAL_STAGE, hand_of
from foilwright.units import parsed, plain, to_si
from foilwright.water.properties import Water

STEER_SPEEDS = "4:20:2"
STEER_STEP = 2.0  # [kn]
JUNIOR_FORM = "wide"  # the form of boat that juniors sail
ANGLE_LIMITS = (to_si(0.2, "deg"), to_si(10.0, "deg"))
HAND_LIMITS = (0.1, 50.0)  # [N]


def steer(
    boat: str | Path | ReadyBoat,
    sailor: Who,
    speeds: Speeds = STEER_SPEEDS,
    settings: Settings = (),
    heel: str | float = 0.0,
    stage: str | None = None,
    keep_within: str | float | None = None,
    hand: str | float | None = None,
    out: str | Path | None = None,
    water: str | float = "fresh",
    temperature: str | float = 15.0,
) -> SteerAnswer:
    """The turn a degree of tiller makes at every steady state of each boat speed, and the tiller elastic.

    stage: whose hand is on the tiller, that of the sailor where left out; keep_within: rudder angle [deg] and
    hand: stray pull [N] in place of those of the stage; out: an SVG chart of it all is written there.
    """
    who = sailor_of(sailor)
    asked = speeds_from(speeds, STEER_STEP)
    lean = heel_from(heel)
    around = conditions_from(water, temperature)
    whose = check_stage(stage or who.stage) or USUAL_STAGE
    ready_boat = boat if isinstance(boat, ReadyBoat) else open_boat(boat)
    hand_there = hand_from(whose, ready_boat.form == JUNIOR_FORM, keep_within, hand)
    present = settings_from(ready_boat, settings)
    chart = chart_path(out)
    rows = turns_at(ready_boat, row_for(ready_boat, present, who), around.water, asked, lean)
    numbers, assumed = ready_boat.steering
    tiller = Tiller(numbers["rudder.tiller_length_m"], numbers["rudder.axis_ahead_m"])
    elastic = elastic_for(rows, tiller, whose, hand_there)
    answer = steer_answer(
        ready_boat.name,
        ready_boat.version,
        present,
        rows,
        tiller,
        elastic,
        assumed,
        None if chart is None else str(out),
    )
    if chart is not None:
        from foilwright.paper.put_file import put_file
        from foilwright.paper.steer_chart import steer_chart

        put_file(chart, steer_chart(answer).encode())
    return answer


def turns_at(
    boat: ReadyBoat, row: Floats, water: Water, speeds: Sequence[float], heel: float
) -> list[Steered]:
    """Every steady state at each speed [m/s] with the turn from it."""
    radius = boat.numbers["mass.pitch_radius_m"]
    return [
        Steered(steady, _turn(row, boat, water, steady, radius))
        for speed in speeds
        for steady in fly_at(row, boat.tables, water, speed, heel)
    ]


def _turn(row: Floats, boat: ReadyBoat, water: Water, steady: Steady, radius: float) -> Turn | None:
    if not steady.state:
        return None
    case = case_of(row, boat.tables, water, steady.speed, steady.heel)
    try:
        return bench_turn(case, steady.height, steady.trim, radius)
    except ValueError:
        return None


def elastic_for(rows: Sequence[Steered], tiller: Tiller, stage: str, hand: TillerHand) -> ElasticFound:
    """The elastic for the flying rows, or for all of them where none flies."""
    with_turn = [
        (one.steady, one.turn)
        for one in rows
        if one.turn is not None and one.steady.stable and one.steady.outcome == SOLVED
    ]
    flying = [(steady, turn) for steady, turn in with_turn if steady.state == "flying"]
    taken = flying or with_turn
    if not taken:
        return ElasticFound(stage, hand, None, None, None)
    forces = [at_tiller(turn.blade_force, tiller) for _, turn in taken]
    speeds = [steady.speed for steady, _ in taken]
    found = tiller_elastic(hand, tiller.length, min(forces), max(forces))
    return ElasticFound(stage, hand, found, min(speeds), max(speeds))


def hand_from(
    stage: str, junior: bool, keep_within: str | float | None, hand: str | float | None
) -> TillerHand:
    """The hand of a stage, kept as steady as that stage is without help unless another angle [deg] is asked.

    hand: another stray pull [N].
    """
    angle = hand_of(stage).tiller
    if keep_within is not None:
        angle = _within(f"{keep_within}", "deg", ANGLE_LIMITS, "--keep-within")
    found = tiller_hand(stage, angle, junior)
    if hand is not None:
        found = found._replace(stray=_within(f"{hand}", "N", HAND_LIMITS, "--hand"))
    return found


def _within(words: str, unit: str, limits: tuple[float, float], where: str) -> float:
    value = parsed(words, unit, where)
    if not limits[0] <= value <= limits[1]:
        low, high = (plain(round(end / to_si(1.0, unit), 6)) for end in limits)
        raise Mistake(where, f"`{words}`", f"{low} to {high} {unit}", "Look at the number and its unit.")
    return value


def chart_path(out: str | Path | None) -> Path | None:
    """Where the chart goes; it is an SVG."""
    if out is None:
        return None
    path = Path(out)
    if path.suffix.lower() != ".svg":
        raise Mistake("--out", f"`{out}`", "a file that ends in .svg", "Write for example --out steer.svg.")
    return path
