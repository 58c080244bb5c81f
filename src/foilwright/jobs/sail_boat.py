"""How a boat sails in a wind: every steady state, the wind it needs to fly, the best angles."""

from collections.abc import Sequence
from math import degrees, radians
from pathlib import Path

from foilwright.air.wind import INLAND_ROUGHNESS
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.documents.sail_answer import SailAnswer, sail_answer
from foilwright.documents.wind_told import HOWS, ToldWind, told_wind
from foilwright.flight.helm_policy import held, usual_helm
from foilwright.flight.many_in_wind import at_hand
from foilwright.flight.sailing_in_wind import Sailed, WindCase, best_made_good, sail_all
from foilwright.flight.take_off_wind import HelmPolicy, Runner, winds_needed
from foilwright.flight.wind_balance import Helm
from foilwright.jobs.aboard import row_with_crew
from foilwright.jobs.conditions import conditions_from, heel_from, range_from, settings_from
from foilwright.jobs.desk import Settings, Who, open_boat, sailor_of
from foilwright.mistakes import Mistake
from foilwright.units import parsed, plain, to_si

ANGLES = "40:150:5"
WIND = "12"
ANGLE_STEP = 5.0  # [deg]
WIND_LIMITS = (1.0, 40.0)  # [kn]: without wind nothing sails, and in a gale no model here is known to hold
ANGLE_LIMITS = (20.0, 175.0)  # [deg]
NEEDED_EVERY = 15.0  # degrees between the angles at which the wind needed is looked for
NEEDED_FROM, NEEDED_TO = 60.0, 120.0  # and where: take-offs are made with the wind about abeam
CLOSER = (2.5, 1.25)  # degrees either way, in which the best angles are looked for again


def sail(
    boat: str | Path | ReadyBoat,
    sailor: Who,
    wind: str | float = WIND,
    angles: str | Sequence[float] = ANGLES,
    heel: str | float | None = None,
    settings: Settings = (),
    measured: str = "forecast",
    water: str | float = "fresh",
    temperature: str | float = 15.0,
) -> SailAnswer:
    """Every steady state in a wind [kn] at true wind angles [deg], and the wind the boat needs to fly.

    heel [deg]: held afloat and in flight alike, the usual policy for the state if left out; measured: how the
    wind was, forecast at 10 m, hand gauge or mast.
    """
    who = sailor_of(sailor)
    told = wind_from(wind, measured)
    asked = angles_from(angles)
    helm = policy_from(heel)
    around = conditions_from(water, temperature)
    ready_boat = boat if isinstance(boat, ReadyBoat) else open_boat(boat)
    present = settings_from(ready_boat, settings)
    row = row_with_crew(ready_boat, present, [who])
    fast = at_hand()

    def states(some: Sequence[float]) -> list[Sailed]:
        cases = [WindCase(told.at_ten, angle, helm(told.at_ten, angle)) for angle in some]
        found = sail_all(row, ready_boat.tables, around.water, INLAND_ROUGHNESS, cases, fast)
        return [one for rows in found for one in rows]

    rows = states(asked)
    best = {}
    for upwind in (True, False):
        best[upwind] = best_made_good(rows, upwind)
        for closer in CLOSER if len(asked) > 1 else ():
            here = best[upwind]
            if here is not None:
                sides = (here.angle - radians(closer), here.angle + radians(closer))
                near = [angle for angle in sides if asked[0] <= angle <= asked[-1]]
                best[upwind] = best_made_good([here, *states(near)], upwind)
    runner = Runner(row, ready_boat.tables, around.water, INLAND_ROUGHNESS, helm, fast)
    needed = winds_needed(runner, needed_angles(asked))
    return sail_answer(
        ready_boat.name, ready_boat.version, present, told, rows, needed, best[True], best[False]
    )


def policy_from(heel: str | float | None) -> HelmPolicy:
    """The usual policy of the helm, or one heel [deg] throughout."""
    if heel is None:
        return usual_helm
    lean = heel_from(heel)

    def one_heel(wind: float, angle: float) -> Helm:
        return held(lean)

    return one_heel


def wind_from(wind: str | float, measured: str) -> ToldWind:
    """The wind as it was told [kn, or with its unit], at 10 m and at the hand gauge."""
    speed = told_speed(f"{wind}")
    if measured not in HOWS:
        raise Mistake(
            "--measured", f"`{measured}`", ", ".join(HOWS), "Write for example --measured forecast."
        )
    return told_wind(speed, measured)


def told_speed(words: str) -> float:
    """A wind as it was measured [m/s], from knots or with its unit."""
    speed = parsed(words, "kn", "--wind")
    low, high = WIND_LIMITS
    if not to_si(low, "kn") <= speed <= to_si(high, "kn"):
        less = speed < to_si(low, "kn")
        raise Mistake(
            "--wind",
            f"`{words}`",
            f"{plain(low)} to {plain(high)} kn",
            "Without wind nothing sails: give the wind you expect."
            if less
            else "That is a gale or more, in which nothing here is known to hold; look at the unit.",
        )
    return speed


def angles_from(angles: str | Sequence[float]) -> list[float]:
    """True wind angles [rad] from FROM:TO:STEP in degrees, or from numbers in degrees."""
    words = [angles] if isinstance(angles, str) else [f"{angle}" for angle in angles]
    everything = (to_si(-360.0, "deg"), to_si(360.0, "deg"))
    found = [
        angle
        for one in words
        for angle in range_from(one, "deg", to_si(ANGLE_STEP, "deg"), everything, "--angle")
    ]
    low, high = ANGLE_LIMITS
    for angle in found:
        if not low - 1e-9 <= degrees(angle) <= high + 1e-9:
            raise Mistake(
                "--angle",
                f"`{plain(round(degrees(angle), 6))}`",
                f"{plain(low)} to {plain(high)} degrees between the course and where the wind comes from",
                "Straight into the wind nothing sails, and straight before it the sail's data end."
                if 0.0 <= degrees(angle) <= 180.0
                else "Give the angle on the windward side, whichever tack.",
            )
    return found


def needed_angles(asked: Sequence[float]) -> list[float]:
    """True wind angles [rad] at which the wind needed is looked for: every 15 degrees about abeam.

    Those within the angles asked for, else the middle of these.
    """
    low, high = min(asked), max(asked)
    count = round((NEEDED_TO - NEEDED_FROM) / NEEDED_EVERY)
    every = [radians(NEEDED_FROM + NEEDED_EVERY * i) for i in range(count + 1)]
    inside = [angle for angle in every if low - 1e-9 <= angle <= high + 1e-9]
    return inside or [asked[len(asked) // 2]]
