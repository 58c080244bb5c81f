"""What the page asks while things are moved. All of it only looks; an address says everything it is about."""

from typing import Annotated, Any, NamedTuple

from fastapi import APIRouter, Body, Depends, Query, Request
from pydantic import Field

from foilwright.documents.sailor import sailor_from
from foilwright.jobs import explore, explore_wind, turn_adjusters
from foilwright.jobs.compare_versions import words_of_fitted
from foilwright.jobs.keep_boats import text_of
from foilwright.jobs.measure_bench import fit_text
from foilwright.jobs.sail_boat import WIND
from foilwright.mistakes import Mistake
from foilwright.web.fields import Version, Words, point

router = APIRouter(prefix="/ask")
MOST_SIGNS = 80

Short = Annotated[Words, Query(max_length=MOST_SIGNS)]
VersionAsked = Annotated[int | None, Query(ge=0, le=2**31 - 1)]
Setting = Annotated[Words, Field(max_length=MOST_SIGNS)]
Settings = Annotated[list[Setting] | None, Query(alias="set", max_length=30)]
Aboard = Annotated[Words, Query(max_length=20, description="everyone aboard together, in kg")]


class Choice(NamedTuple):
    """A boat, a version of it, and where its adjusters were put, as an address tells it."""

    boat: str
    version: int | None
    it: explore.Asked


def aboard(words: str, where: str = "sailor") -> str:
    """The mass aboard as it was typed. A file's name is none: the page reads no files of this machine."""
    mass = point(words)
    if mass.lower().endswith(".toml"):
        raise Mistake(where, f"`{words}`", "a number in kg", "Write for example 72,5.")
    return mass


def choice(
    request: Request,
    boat: Short,
    version: VersionAsked = None,
    sailor: Aboard = "",
    setting: Settings = None,
    heel: Short = "0",
    water: Short = "fresh",
    temperature: Short = "15",
) -> Choice:
    """Reads the choice of an address. Without a version it is the newest, and the answer says which."""
    text, base = text_of(request.app.state.store, boat, version)
    ready = explore.boat_of_text(text, boat)
    settings = [point(one) for one in setting or ()]
    it = explore.asked(ready, aboard(sailor), settings, point(heel), point(water), point(temperature))
    return Choice(boat, base, it)


Chosen = Annotated[Choice, Depends(choice)]


@router.get("/drawing")
def drawing(chosen: Chosen) -> dict[str, Any]:
    """The boat and its chain, with the adjusters where they were put."""
    return {**explore.drawing(chosen.it), "version_id": chosen.version or 0}


@router.get("/sweep")
def sweep(chosen: Chosen, speed: Short = explore.SWEEP, take_off: bool = True) -> dict[str, Any]:
    """Steady states over boat speeds, with the loads as arrows."""
    return dict(explore.sweep(chosen.it, point(speed), take_off))


@router.get("/wind")
def wind(
    request: Request,
    chosen: Chosen,
    wind: Short = WIND,
    angle: Short = explore_wind.ANGLE,
    measured: Short = explore_wind.MEASURED,
    needed: bool = True,
) -> dict[str, Any]:
    """Steady states over winds at one true wind angle, with the loads as arrows, and the wind it takes.

    Until the compiled physics is there, one wind is answered and `later_kn` says which are left to further
    questions. Without a `heel` the helm holds its usual one.
    """
    request.app.state.wind_wanted()
    heel = request.query_params.get("heel")
    held = None if heel is None else point(heel)
    told = explore_wind.sweep_wind(chosen.it, point(wind), point(angle), measured.strip(), held, needed)
    return dict(told)


@router.get("/wind-ready")
def wind_ready() -> dict[str, Any]:
    """Whether the compiled physics of sailing in a wind is there, so that whole sweeps can be asked for."""
    return dict(explore_wind.wind_ready())


@router.get("/moved")
def moved(chosen: Chosen, speed: Short = "12") -> dict[str, Any]:
    """Drawing and steady states at one boat speed, asked together while a hand turns something."""
    return {"drawing": drawing(chosen), "sweep": dict(explore.sweep(chosen.it, point(speed), False))}


@router.get("/effects")
def effects(chosen: Chosen, speed: Short = "12") -> dict[str, Any]:
    """What one step of every adjuster does at a boat speed."""
    return dict(explore.effects_at(chosen.it, point(speed)))


@router.get("/assumed")
def assumed(chosen: Chosen) -> dict[str, Any]:
    """What was not measured, and what each guess costs."""
    return dict(explore.guesses(chosen.it))


@router.get("/same-as")
def same_as(
    request: Request,
    boat_a: Short,
    adjuster_a: Short,
    boat_b: Short,
    adjuster_b: Short,
    sailor_a: Aboard = "",
    sailor_b: Aboard = "",
    speed: Short = "12",
) -> dict[str, Any]:
    """How many steps of one boat's adjuster do what one step of another's does."""
    ready = [
        explore.boat_of_text(text_of(request.app.state.store, name)[0], name) for name in (boat_a, boat_b)
    ]
    who = [
        sailor_from(aboard(sailor, where) or f"{explore.usual_mass(boat):g}", where)
        for sailor, where, boat in zip((sailor_a, sailor_b), ("sailor_a", "sailor_b"), ready, strict=True)
    ]
    return dict(turn_adjusters.same(ready[0], adjuster_a, ready[1], adjuster_b, who[0], point(speed), who[1]))


@router.get("/sheet")
def sheet(request: Request, boat: Short, version: VersionAsked = None) -> dict[str, Any]:
    """The bench sheet of a boat before anything was read: its lines in order, and every kind of reading."""
    text, _ = text_of(request.app.state.store, boat, version)
    return dict(explore.sheet_to_fill(explore.boat_of_text(text, boat)))


@router.post("/bench-fit")
def bench_fit(
    request: Request,
    boat: Annotated[Words, Body(max_length=MOST_SIGNS)],
    sheet: Annotated[Words, Body(max_length=200_000)],
    version: Annotated[Version | None, Body()] = None,
    setting: Annotated[list[Setting] | None, Body(alias="set", max_length=30)] = None,
) -> dict[str, Any]:
    """Fits the boat to a sheet as it stands so far, and draws the fitted chain; nothing is kept."""
    if not sheet.strip():
        raise Mistake("sheet", "nothing yet", "at least one reading", "Type the first reading.")
    text, _ = text_of(request.app.state.store, boat, version)
    ready = explore.boat_of_text(text, boat)
    answer, values = fit_text(ready, sheet, "sheet.csv")
    chain = explore.chain_with(ready, values, [point(one) for one in setting or ()])
    names = {one["name"] for one in answer["fitted"]} | set(answer["not_learned"])
    return {**answer, "chain": chain, "words": {name: words_of_fitted(name) for name in sorted(names)}}
