"""The command line: `foilwright demo | check | chain | fly | sail | steer | day | card | serve` and more.

Thin: words in, an answer out. Exit codes: 0 done, 2 wrong input, 3 the honest answer is "cannot", 4 stopped
by the person. Messages go to stderr; stdout carries the answer only.
"""

import gc
import io
import os
import sys
from collections.abc import Callable, Mapping, Sequence
from typing import Annotated, Any

import typer

from foilwright import side_by_side
from foilwright.cli import show
from foilwright.mistakes import Mistake, Mistakes
from foilwright.words import describe

DONE, WRONG_INPUT, CANNOT, STOPPED = 0, 2, 3, 4
LONG_RUNNING = {"serve", "day", "demo"}
INTERRUPTED = 130  # what the parser makes of the person's interruption

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    help="How a centreline foiling dinghy flies, and its setup card. It never says that anybody may sail.",
)

Boat = Annotated[str, typer.Argument(metavar="BOAT", help="A boat file, or the name of an example: marram.")]
Set = Annotated[
    list[str] | None,
    typer.Option(
        "--set", metavar="NAME=STEPS", help=f"Sets an adjuster: {describe('steps')}. May be repeated."
    ),
]
SailorOption = Annotated[
    str,
    typer.Option(
        "--sailor",
        metavar="KG|FILE.toml",
        help="Everyone aboard together, in wet kit: kilograms, or a sailor file.",
    ),
]
Heel = Annotated[
    str,
    typer.Option("--heel", metavar="DEG", help="Heel in degrees, to leeward positive, to windward negative."),
]
WaterOption = Annotated[
    str, typer.Option("--water", metavar="fresh|sea|SALINITY", help="fresh, sea, or the salinity in g/kg.")
]
Temperature = Annotated[
    str, typer.Option("--temperature", metavar="C", help="Temperature of the water in degrees Celsius.")
]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON object in place of text.")]
Lang = Annotated[str, typer.Option("--lang", metavar="CODE", help="Reserved; only en so far.")]


@app.command()
def demo(
    out: Annotated[
        str, typer.Option("--out", metavar="FOLDER", help="Where the cards and the summary are put.")
    ] = "foilwright-demo",
    json: Json = False,
    lang: Lang = "en",
) -> int:
    """Prepare the example day: sheets, cards and a summary into a folder. No measurement, no real boat."""
    from foilwright.cli import show_day
    from foilwright.jobs.demonstrate import demo as make

    check_language(lang)
    answer = make(out, show_day.Told(sys.stderr))
    return answered(answer, json, lambda: show_day.demo(answer, out), DONE)


@app.command()
def check(
    file: Annotated[
        list[str],
        typer.Argument(metavar="FILE...", help="Boat files, sailor files, bench sheets, day sheets."),
    ],
    json: Json = False,
    lang: Lang = "en",
) -> int:
    """Look a document over and say everything that is wrong with it."""
    from foilwright.jobs import desk

    check_language(lang)
    answer = desk.check(file)
    code = DONE if all(one["ok"] for one in answer["files"]) else WRONG_INPUT
    return answered(answer, json, lambda: show.check(answer), code)


@app.command()
def chain(
    boat: Boat,
    wand: Annotated[
        str,
        typer.Option(
            "--wand",
            metavar="FROM:TO:STEP",
            help=f"Wand angles: {describe('wand')}. The step is 5 if left out.",
        ),
    ] = "0:90:5",
    set_: Set = None,
    json: Json = False,
    lang: Lang = "en",
) -> int:
    """Show how the chain from wand to foil behaves ashore."""
    from foilwright.jobs import desk

    check_language(lang)
    answer = desk.chain(boat, wand, set_ or [])
    code = DONE if any(row["outcome"] == "solved" for row in answer["rows"]) else CANNOT
    return answered(answer, json, lambda: show.chain(answer), code)


@app.command()
def fly(
    boat: Boat,
    sailor: SailorOption,
    speed: Annotated[
        str,
        typer.Option(
            "--speed",
            metavar="FROM:TO:STEP",
            help="Boat speeds in kn, both ends included. The step is 1 if left out.",
        ),
    ] = "4:24:1",
    set_: Set = None,
    heel: Heel = "0",
    water: WaterOption = "fresh",
    temperature: Temperature = "15",
    json: Json = False,
    lang: Lang = "en",
) -> int:
    """Find every steady state at each boat speed: height, bow angle, margins."""
    from foilwright.jobs import desk

    check_language(lang)
    answer = desk.fly(boat, sailor, speed, set_ or [], heel, water, temperature)
    code = DONE if desk.solved_rows(answer) else CANNOT
    return answered(answer, json, lambda: show.fly(answer), code)


@app.command()
def bench(
    boat: Boat,
    sheet: Annotated[
        str | None, typer.Argument(metavar="SHEET", help="The bench sheet: CSV or TOML, as read ashore.")
    ] = None,
    save: Annotated[
        str | None,
        typer.Option("--save", metavar="FILE", help="Write the fitted boat there, comments kept."),
    ] = None,
    form: Annotated[
        str | None,
        typer.Option(
            "--form",
            metavar="FILE",
            help="In place of a sheet: write an empty one for this boat, .pdf to print or .csv to type in.",
        ),
    ] = None,
    json: Json = False,
    lang: Lang = "en",
) -> int:
    """Fit the boat to readings taken ashore; or write the empty form for them."""
    from foilwright.cli import show_bench
    from foilwright.jobs import measure_bench as job

    check_language(lang)
    if form is not None:
        made = job.write_form(boat, form, sheet)
        return answered(made, json, lambda: show_bench.form(made), DONE)
    if sheet is None:
        raise Mistake("SHEET", "nothing", "a bench sheet", "Name one, or ask for an empty one with --form.")
    answer = job.measure_bench(boat, sheet, save)
    return answered(answer, json, lambda: show_bench.bench(answer), DONE if answer["settled"] else CANNOT)


@app.command()
def effects(
    boat: Boat,
    sailor: SailorOption,
    speed: Annotated[
        str,
        typer.Option(
            "--speed",
            metavar="FROM:TO:STEP",
            help="Boat speeds in kn, both ends included. The step is 3 if left out.",
        ),
    ] = "9:18:3",
    set_: Set = None,
    heel: Heel = "0",
    water: WaterOption = "fresh",
    temperature: Temperature = "15",
    json: Json = False,
    lang: Lang = "en",
) -> int:
    """Show what one step of every adjuster and of the sail's pull does, over boat speeds."""
    from foilwright.cli import show_turning
    from foilwright.jobs import turn_adjusters

    check_language(lang)
    answer = turn_adjusters.effects_of(boat, sailor, speed, set_ or [], heel, water, temperature)
    code = DONE if any(row["outcome"] == "solved" for row in answer["rows"]) else CANNOT
    return answered(answer, json, lambda: show_turning.effects(answer), code)


@app.command(name="same-as")
def same_as(
    boat_a: Annotated[str, typer.Argument(metavar="BOAT_A", help="The boat whose step is to be matched.")],
    adjuster_a: Annotated[str, typer.Argument(metavar="ADJUSTER", help="One step of this adjuster of it.")],
    boat_b: Annotated[str, typer.Argument(metavar="BOAT_B", help="The other boat, or the same again.")],
    adjuster_b: Annotated[str, typer.Argument(metavar="ADJUSTER", help="In steps of this adjuster of it.")],
    sailor: SailorOption,
    sailor_b: Annotated[
        str | None,
        typer.Option(
            "--sailor-b", metavar="KG|FILE.toml", help="Who sails the other boat; the same if left out."
        ),
    ] = None,
    speed: Annotated[str, typer.Option("--speed", metavar="KN", help="One boat speed in kn.")] = "12",
    heel: Heel = "0",
    water: WaterOption = "fresh",
    temperature: Temperature = "15",
    json: Json = False,
    lang: Lang = "en",
) -> int:
    """Say how many steps of one adjuster do what one step of another does."""
    from foilwright.cli import show_turning
    from foilwright.jobs import turn_adjusters

    check_language(lang)
    answer = turn_adjusters.same(
        boat_a, adjuster_a, boat_b, adjuster_b, sailor, speed, sailor_b, heel, water, temperature
    )
    code = DONE if answer["outcome"] == "solved" else CANNOT
    return answered(answer, json, lambda: show_turning.same_as(answer), code)


@app.command()
def sail(
    boat: Boat,
    sailor: SailorOption,
    wind: Annotated[
        str,
        typer.Option("--wind", metavar="KN", help="Wind in kn, at 10 m unless --measured says otherwise."),
    ] = "12",
    angle: Annotated[
        str,
        typer.Option(
            "--angle",
            metavar="FROM:TO:STEP",
            help=f"True wind angles: {describe('wind_angle')}. The step is 5 if left out.",
        ),
    ] = "40:150:5",
    heel: Annotated[
        str | None,
        typer.Option(
            "--heel",
            metavar="DEG",
            help="Heel in degrees, to windward negative; by state, wind and angle if left out.",
        ),
    ] = None,
    set_: Set = None,
    measured: Annotated[
        str,
        typer.Option("--measured", metavar="HOW", help="How the wind was: forecast, hand gauge or mast."),
    ] = "forecast",
    water: WaterOption = "fresh",
    temperature: Temperature = "15",
    json: Json = False,
    lang: Lang = "en",
) -> int:
    """Find every steady state in a wind, the wind that it takes to fly, and the best angles."""
    from foilwright.cli import show_sail
    from foilwright.jobs import sail_boat

    check_language(lang)
    answer = sail_boat.sail(boat, sailor, wind, angle, heel, set_ or [], measured, water, temperature)
    code = DONE if any(row["outcome"] == "solved" for row in answer["rows"]) else CANNOT
    return answered(answer, json, lambda: show_sail.sail(answer), code)


@app.command()
def steer(
    boat: Boat,
    sailor: SailorOption,
    speed: Annotated[
        str,
        typer.Option(
            "--speed",
            metavar="FROM:TO:STEP",
            help="Boat speeds in kn, both ends included. The step is 2 if left out.",
        ),
    ] = "4:20:2",
    set_: Set = None,
    heel: Heel = "0",
    stage: Annotated[
        str | None,
        typer.Option(
            "--stage",
            metavar="STAGE",
            help="Whose hand is on the tiller: first-hops, improving, settled, expert. The sailor's stage, "
            "else improving.",
        ),
    ] = None,
    keep_within: Annotated[
        str | None,
        typer.Option(
            "--keep-within",
            metavar="DEG",
            help="Rudder angle that a stray hand may make, in degrees; by stage if left out.",
        ),
    ] = None,
    hand: Annotated[
        str | None,
        typer.Option(
            "--hand", metavar="N", help="Stray pull of the hand at the tiller's end; by stage if left out."
        ),
    ] = None,
    out: Annotated[
        str | None, typer.Option("--out", metavar="FILE.svg", help="Draw it as a chart, too.")
    ] = None,
    water: WaterOption = "fresh",
    temperature: Temperature = "15",
    json: Json = False,
    lang: Lang = "en",
) -> int:
    """Show how the boat answers its tiller, floating and flying, and what tiller elastic steadies it."""
    from foilwright.cli import show_steer
    from foilwright.jobs import steer_boat

    check_language(lang)
    answer = steer_boat.steer(
        boat, sailor, speed, set_ or [], heel, stage, keep_within, hand, out, water, temperature
    )
    code = DONE if any(row["outcome"] == "solved" for row in answer["rows"]) else CANNOT
    return answered(answer, json, lambda: show_steer.steer(answer), code)


@app.command()
def card(
    boat: Boat,
    sailor: SailorOption,
    speed: Annotated[
        str,
        typer.Option(
            "--speed",
            metavar="FROM:TO:STEP",
            help="Boat speeds in kn; the card shows the slowest, the middle and the fastest. The step is 2.",
        ),
    ] = "10:18:2",
    stage: Annotated[
        str | None,
        typer.Option(
            "--stage", metavar="STAGE", help="Stage of learning: first-hops, improving, settled, expert."
        ),
    ] = None,
    form: Annotated[
        str,
        typer.Option("--form", metavar="FORM", help="paper (A5 PDF), html or text; phone is reserved."),
    ] = "paper",
    out: Annotated[
        str | None,
        typer.Option(
            "--out", metavar="FILE", help="The file to write. The text form is printed if it is left out."
        ),
    ] = None,
    sheet: Annotated[
        str, typer.Option("--sheet", metavar="a5|a4", help="Paper: a5, or the card twice on one A4 sheet.")
    ] = "a5",
    stripes: Annotated[
        str | None,
        typer.Option(
            "--stripes",
            metavar="MAIN,RUDDER@SPEED",
            help="Strut stripes seen from another boat, to half a stripe, and its speed in kn: 4.5,5@14.",
        ),
    ] = None,
    set_: Set = None,
    heel: Heel = "0",
    water: WaterOption = "fresh",
    temperature: Temperature = "15",
    date: Annotated[
        str | None,
        typer.Option("--date", metavar="WORDS", help="The day the card is for, as it is to be printed."),
    ] = None,
    json: Json = False,
    lang: Lang = "en",
) -> int:
    """Make the setup card: with a stage it chooses the settings, without one they are taken as they stand."""
    from foilwright.jobs import desk

    check_language(lang)
    desk.check_form(form)
    if out is None and form != "text":
        raise Mistake(
            "--out", "nothing", "the file to write", f"Write for example --out card{desk.ENDINGS[form]}."
        )
    made = desk.card(
        boat, sailor, speed, stage, form, out, set_ or [], heel, water, temperature, date, stripes, sheet
    )
    code = DONE if made.answer["outcome"] == "solved" else CANNOT
    text = made.content.decode() if form == "text" and out is None else ""
    return answered(made.answer, json, lambda: show.card(made.answer, text), code)


@app.command()
def day(
    daysheet: Annotated[str, typer.Argument(metavar="DAYSHEET", help="The day sheet, in TOML.")],
    out: Annotated[
        str,
        typer.Option(
            "--out", metavar="FOLDER", help="Where sheets and cards are put, and what is known is kept."
        ),
    ],
    json: Json = False,
    lang: Lang = "en",
) -> int:
    """Prepare a day: pairings, settings, fleet sheet, pencil slate, cards, and who not today and why."""
    from foilwright.cli import show_day
    from foilwright.jobs.prepare_day import prepare_day

    check_language(lang)
    answer = prepare_day(daysheet, out, show_day.Told(sys.stderr))
    code = DONE if answer["cards"] else CANNOT
    return answered(answer, json, lambda: show_day.day(answer), code)


@app.callback(invoke_without_command=True)
def first(
    version: Annotated[
        bool, typer.Option("--version", help="Print the version and end.", is_eager=True)
    ] = False,
) -> None:
    """How a centreline foiling dinghy flies, and its setup card. It never says that anybody may sail."""
    if version:
        from importlib.metadata import PackageNotFoundError
        from importlib.metadata import version as version_of

        try:
            print(f"foilwright {version_of('foilwright')}")
        except PackageNotFoundError:
            print("foilwright, not installed")
        raise typer.Exit


@app.command()
def serve(
    port: Annotated[
        int,
        typer.Option(
            "--port", metavar="PORT", help="Where the page is; 0 takes any free one.", min=0, max=65535
        ),
    ] = 8640,
    data: Annotated[
        str | None,
        typer.Option(
            "--data", metavar="FOLDER", help="Where boats and settings are kept; or a postgresql:// address."
        ),
    ] = None,
    lan: Annotated[
        bool,
        typer.Option("--lan", help="Open it to the local network. Whoever is on it can change what is kept."),
    ] = False,
) -> int:
    """Open the page on this machine, until you press Ctrl-C."""
    from foilwright.web.serving import serve as run_server

    def say(addresses: list[str], where: object) -> None:
        if lan:
            print("foilwright: open to everyone on this network; there is no password.", file=sys.stderr)
        # Of a database the address may hold a password.
        place = "the database that you named" if "://" in str(where) else where
        print(f"foilwright: what is kept lies in {place}", file=sys.stderr)
        print("foilwright: Ctrl-C stops it. The page:", file=sys.stderr, flush=True)
        print("\n".join(addresses), flush=True)

    run_server(port, data, lan, say)
    return DONE


def answered(answer: Mapping[str, Any], as_json: bool, words: Callable[[], str], code: int) -> int:
    """Print an answer, as JSON or in words, and hand on the exit code."""
    if as_json:
        from foilwright.documents.answers import as_json as written

        print(written(answer))
    else:
        print(words(), end="")
    return code


def check_language(lang: str) -> None:
    """Only one language is written so far."""
    if lang != "en":
        raise Mistake("--lang", f"`{lang}`", "en", "Other languages are not written yet; leave it out.")


# The door ------------------------------------------------------------------------------------------------


def run(arguments: Sequence[str]) -> int:
    """One command; every mistake becomes a sentence on stderr, or the one error object with --json."""
    wants_json = "--json" in arguments
    try:
        code = app(list(arguments), prog_name="foilwright", standalone_mode=False)
        if code == INTERRUPTED:
            raise KeyboardInterrupt
        sys.stdout.flush()
        return code if isinstance(code, int) else DONE
    except (Mistake, Mistakes) as wrong:
        return refused(wrong, wants_json)
    except BrokenPipeError:
        # Whoever read our answer has seen enough; keep Python from complaining at its end.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except (KeyboardInterrupt, typer.Abort):
        print("foilwright: stopped.", file=sys.stderr)
        return STOPPED
    except Exception as error:
        if type(error).__name__ == "NoArgsIsHelpError":
            return WRONG_INPUT  # the help is on the screen already
        wrong_line = mistake_of_the_line(error)
        if wrong_line is None:
            raise
        return refused(wrong_line, wants_json)


def mistake_of_the_line(error: Exception) -> Mistake | None:
    """What the parser of the command line has to say, in our words; nothing if the error is not its own."""
    sentence = getattr(error, "format_message", None)
    if sentence is None:
        return None
    context = getattr(error, "ctx", None)
    command = context.command if context is not None else None
    words = " ".join(str(sentence()).split()).rstrip(".?")
    names = [name for one in getattr(command, "params", ()) for name in one.opts if name.startswith("--")]
    allowed = list(getattr(command, "commands", ())) or names or ["what the help of the command shows"]
    path = context.command_path if context is not None else "foilwright"
    where = path.removeprefix("foilwright").strip() or "command line"
    return Mistake(where, words[:1].lower() + words[1:], ", ".join(allowed), f"See {path} --help.")


def refused(wrong: Mistake | Mistakes, wants_json: bool) -> int:
    """Say what is wrong, on stderr; with --json as the answer."""
    if wants_json:
        import json

        print(json.dumps(wrong.as_json(), ensure_ascii=False, indent=2))
    else:
        print("\n".join(f"foilwright: {line}" for line in str(wrong).splitlines()), file=sys.stderr)
    return WRONG_INPUT


def main() -> None:
    """The entry point of the `foilwright` command."""
    if not LONG_RUNNING.intersection(sys.argv[1:2]):
        gc.disable()  # a command is over before collecting garbage pays: a twentieth of its time
        side_by_side.allow()
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal that lacks a sign still gets the rest
    sys.exit(run(sys.argv[1:]))


if __name__ == "__main__":
    main()
