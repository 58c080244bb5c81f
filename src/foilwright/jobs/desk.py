"""What can be asked at the desk, one verb each: load, compute, answer. Nothing is printed here.

Texts come in as a person writes them (`12kn`, `4:24:1`, `main-rod=+2`); answers go out in the shapes of
`documents/answers.py`. Wrong input raises Mistake or Mistakes.
"""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from foilwright.documents.answers import (
    CardAnswer,
    ChainAnswer,
    CheckAnswer,
    CheckedFile,
    FlyAnswer,
    FlyRow,
    assumed_answer,
    card_answer,
    chain_row,
    fly_row,
    in_unit,
    settings_answer,
    shown_number,
    swing_answer,
)
from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ReadyBoat, ready
from foilwright.documents.examples import example
from foilwright.documents.sailor import STAGES, Sailor, sailor_from
from foilwright.documents.setup_card import SetupCard
from foilwright.flight.at_speed import Steady, fly_at, take_off_later, take_off_speed
from foilwright.flight.chain_behaviour import chain_at, locks_at
from foilwright.jobs.aboard import row_of, standing_with
from foilwright.jobs.choose_setting import choose_setting, counting_rows, first_changes
from foilwright.jobs.conditions import (
    CARD_SPEEDS,
    FLY_SPEEDS,
    WAND_ANGLES,
    Conditions,
    conditions_from,
    heel_from,
    row_for,
    settings_from,
    speeds_from,
    stripes_from,
    three_of,
    wand_angles_from,
)
from foilwright.jobs.how_sure import Flying, assumed_changes, reference_state
from foilwright.jobs.make_card import Made, setup_card, swing_check, view_of
from foilwright.measures import Floats
from foilwright.mistakes import Mistake, Mistakes
from foilwright.outcomes import SOLVED
from foilwright.setup.standing import compiled_at_hand, counted, flown_rows
from foilwright.setup.take_off_change import take_off_from
from foilwright.side_by_side import side_by_side
from foilwright.words import quantity

Who = str | float | Sailor
"""Kilograms aboard, as a number or as written; the name of a sailor file; or a sailor."""
Speeds = str | Sequence[float]
"""FROM:TO:STEP as written, or boat speeds in knots."""
Settings = Sequence[str] | Mapping[str, float]
"""NAME=STEPS as written, or adjuster -> steps from its mark."""

FORMS = ("paper", "html", "text", "phone")
SHEETS = ("a5", "a4")
ENDINGS = {"paper": ".pdf", "html": ".html", "text": ".txt"}


class Card(NamedTuple):
    """A card made: the answer, the steady states behind it, the card as data, and as the file's bytes."""

    answer: CardAnswer
    rows: list[FlyRow]
    card: SetupCard
    content: bytes


class _Asked(NamedTuple):
    """What was asked, read: the boat with its settings and its sailor, the heel, the water."""

    boat: ReadyBoat
    settings: dict[str, float]
    row: Floats
    sailor: Sailor
    heel: float
    around: Conditions


def open_boat(path: str | Path) -> ReadyBoat:
    """A boat file, checked and ready to fly. The bare name of an example boat is taken too."""
    path = Path(path)
    if path.suffix == "" and not path.exists() and path.parent == Path():
        try:
            path = example(path.name)
        except Mistake as no_example:
            raise Mistake(
                str(path),
                "there is no such file",
                f"a boat file, or an example: {no_example.allowed}",
                "Check the name.",
            ) from None
    return ready(read_boat(path), file=path.name)


def check(paths: Sequence[str | Path]) -> CheckAnswer:
    """Every fault of every file; a file with faults does not stop the next."""
    return {"format": "foilwright/check", "version": 1, "files": [_checked(Path(path)) for path in paths]}


def chain(
    boat: str | Path | ReadyBoat, wand: str | Sequence[float] = WAND_ANGLES, settings: Settings = ()
) -> ChainAnswer:
    """How the chain behaves ashore over a range of wand angles."""
    ready_boat = _boat(boat)
    angles = wand_angles_from(wand)
    present = settings_from(ready_boat, settings)
    row = row_for(ready_boat, present, None)
    return {
        "format": "foilwright/chain",
        "version": 1,
        "boat": ready_boat.name,
        "boat_version": ready_boat.version,
        "settings": settings_answer(present),
        "rows": [chain_row(point) for point in chain_at(row, ready_boat.tables, angles)],
        "locks_at_deg": [
            in_unit(angle, quantity("locks_at").shown) for angle in locks_at(row, ready_boat.tables)
        ],
        "swing_check": swing_answer(swing_check(ready_boat, row, view_of(ready_boat, row, None))),
    }


def fly(
    boat: str | Path | ReadyBoat,
    sailor: Who,
    speeds: Speeds = FLY_SPEEDS,
    settings: Settings = (),
    heel: str | float = 0.0,
    water: str | float = "fresh",
    temperature: str | float = 15.0,
) -> FlyAnswer:
    """Every steady state at each boat speed, the take-off speed, and what each assumption is worth."""
    at = speeds_from(speeds, 1.0)
    asked = _asked(boat, sailor_of(sailor), settings, heel, water, temperature)
    tables, still = asked.boat.tables, asked.around.water
    flown = side_by_side(lambda speed: fly_at(asked.row, tables, still, speed, asked.heel), at)
    rows = [steady for rows in flown for steady in rows]
    off = take_off_speed(asked.row, tables, still, asked.heel, rows)
    state = reference_state(rows)
    changes: Sequence[float | None] = [None] * len(asked.boat.assumed)
    if state is not None:
        changes = assumed_changes(Flying(asked.boat, asked.row, still, state))
    return {
        "format": "foilwright/fly",
        "version": 1,
        "boat": asked.boat.name,
        "boat_version": asked.boat.version,
        "settings": settings_answer(asked.settings),
        "rows": [fly_row(steady) for steady in rows],
        "take_off_speed_kn": None if off is None else shown_number("take_off_speed", off),
        "take_off_later_kn": None
        if off is None
        else shown_number("take_off_speed", take_off_later(off, asked.row, still)),
        "assumed": [
            assumed_answer(assumed, state.speed if state else None, change)
            for assumed, change in zip(asked.boat.assumed, changes, strict=True)
        ],
    }


def card(
    boat: str | Path | ReadyBoat,
    sailor: Who,
    speeds: Speeds = CARD_SPEEDS,
    stage: str | None = None,
    form: str = "paper",
    out: str | Path | None = None,
    settings: Settings = (),
    heel: str | float = 0.0,
    water: str | float = "fresh",
    temperature: str | float = 15.0,
    date: str | None = None,
    stripes: str | None = None,
    sheet: str = "a5",
) -> Card:
    """The setup card, written to `out` where that is given; three speeds of those asked for stand on it.

    With a stage of learning, given or the sailor's own, settings are chosen for it; without one they are
    taken as they stand. `stripes` are those seen from another boat, MAIN,RUDDER@SPEED. On the sheet `a4` the
    paper card stands twice. A boat that does not fly at these speeds gets its card too, with the reason.
    """
    check_form(form)
    check_sheet(sheet, form)
    who = sailor_of(sailor)
    stage = check_stage(stage or who.stage)
    at = three_of(speeds_from(speeds, 2.0))
    read = None if stripes is None else stripes_from(stripes)
    asked = _asked(boat, who, settings, heel, water, temperature)
    made = _chosen(asked, stage, at)._replace(stripes=read, date=date)
    written = setup_card(made)
    content = rendered(written, form, sheet)
    if out is not None:
        from foilwright.paper.put_file import put_file

        put_file(Path(out), content)
    outcome, limit = _outcome(made.rows)
    chosen = made.chosen
    answer = card_answer(
        written, chosen.reasons if chosen else (), chosen.runners_up if chosen else (), form, outcome, limit,
        None if out is None else str(out),
    )  # fmt: skip
    return Card(answer, [fly_row(steady) for steady in made.rows], written, content)


def rendered(made: SetupCard, form: str, sheet: str = "a5") -> bytes:
    """A card in one of its forms, as the bytes of its file."""
    if form == "paper":
        from foilwright.paper.paper_card import paper_card, paper_sheet

        return paper_card(made) if sheet == "a5" else paper_sheet((made, made))
    if form == "html":
        from foilwright.paper.html_card import html_card

        return html_card(made).encode()
    from foilwright.paper.text_card import text_card

    return text_card(made).encode()


def check_sheet(sheet: str, form: str) -> None:
    """Raises a Mistake for a sheet of paper that is not known, or where no paper is asked for."""
    if sheet not in SHEETS:
        raise Mistake("--sheet", f"`{sheet}`", "a5 or a4", "Write for example --sheet a4.")
    if sheet != "a5" and form != "paper":
        raise Mistake(
            "--sheet", f"`{sheet}` with the form {form}", "the paper form", "Leave one of them out."
        )


def check_form(form: str) -> None:
    """Raises a Mistake for a form of card that cannot be made."""
    if form == "phone":
        raise Mistake(
            "--form", "`phone`, which is not made yet", "paper, html or text", "Take --form html for a phone."
        )
    if form not in FORMS:
        raise Mistake("--form", f"`{form}`", "paper, html or text", "Write for example --form paper.")


def check_stage(stage: str | None) -> str | None:
    """The stage of learning as it was given, if it is one."""
    if stage is not None and stage not in STAGES:
        raise Mistake("--stage", f"`{stage}`", ", ".join(STAGES), "Write for example --stage improving.")
    return stage


def sailor_of(who: Who) -> Sailor:
    """Who sails, from kilograms or a sailor file."""
    return who if isinstance(who, Sailor) else sailor_from(f"{who}")


def solved_rows(answer: FlyAnswer) -> int:
    """How many rows of an answer of `fly` are solved."""
    return sum(row["outcome"] == "solved" for row in answer["rows"])


def _asked(
    boat: str | Path | ReadyBoat,
    who: Sailor,
    settings: Settings,
    heel: str | float,
    water: str | float,
    temperature: str | float,
) -> _Asked:
    lean = heel_from(heel)
    around = conditions_from(water, temperature)
    ready_boat = _boat(boat)
    present = settings_from(ready_boat, settings)
    return _Asked(ready_boat, present, row_of(ready_boat, present, who), who, lean, around)


def _chosen(asked: _Asked, stage: str | None, speeds: Sequence[float]) -> Made:
    """All that the card is made of: the settings chosen for a stage, or without one as they stand."""
    boat, who, water, heel = asked.boat, asked.sailor, asked.around.water, asked.heel
    made = Made(
        boat, asked.row, asked.settings, asked.settings, who, stage, (), None, asked.around, heel, {}, None,
        None, None,
    )  # fmt: skip
    if stage is not None:
        chosen = choose_setting(boat, who, asked.settings, stage, speeds, water, heel)
        settings = {one["adjuster"]: one["steps"] for one in chosen.settings}
        return made._replace(
            row=row_of(boat, settings, who), settings=settings, rows=chosen.rows, take_off=chosen.take_off,
            entries=chosen.entries, chosen=chosen,
        )  # fmt: skip
    standing = standing_with(boat, asked.settings, who, water, heel)
    every = flown_rows(standing, speeds, compiled_at_hand())
    states = [counted(rows) for rows in every]
    return made._replace(
        rows=counting_rows(states, every),
        take_off=take_off_from(standing, [state for state in states if state is not None]),
        entries=first_changes(standing, states),
    )


def _boat(boat: str | Path | ReadyBoat) -> ReadyBoat:
    return boat if isinstance(boat, ReadyBoat) else open_boat(boat)


def _outcome(rows: Sequence[Steady]) -> tuple[int, str]:
    """The outcome of a whole run of rows: solved where any row is, otherwise that of the first."""
    if any(steady.outcome == SOLVED for steady in rows):
        return SOLVED, ""
    return rows[0].outcome, rows[0].limit


def _checked(path: Path) -> CheckedFile:
    kind: str | None = None
    try:
        kind = _kind_of(path)
        if kind == "sailor":
            sailor_from(str(path))
        elif kind == "bench":
            from foilwright.documents.bench_sheet import read_sheet

            read_sheet(path)
        elif kind == "day":
            from foilwright.documents.day_sheet import read_day

            read_day(path)
        else:
            open_boat(path)
    except Mistake as one:
        return {"path": str(path), "kind": kind, "ok": False, "faults": [one.as_json()["error"]]}  # type: ignore[list-item]
    except Mistakes as several:
        faults = [one.as_json()["error"] for one in several.found]
        return {"path": str(path), "kind": kind, "ok": False, "faults": faults}  # type: ignore[typeddict-item]
    return {"path": str(path), "kind": kind, "ok": True, "faults": []}


def _kind_of(path: Path) -> str:
    """Which document of ours a file says it is."""
    from foilwright.documents.toml_file import read_toml

    if path.suffix.lower() == ".csv":
        return "bench"  # the only table of ours
    said = read_toml(path).get("format")
    kinds = {f"foilwright/{kind}": kind for kind in ("boat", "sailor", "bench", "day")}
    if said not in kinds:
        raise Mistake(
            f"{path.name}: format",
            "missing" if said is None else f"`{said}`",
            " or ".join(kinds),
            'Write for example format = "foilwright/boat" at the top, if this is a boat file.',
        )
    return kinds[said]
