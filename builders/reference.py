"""Writes the reference pages that follow from the code: words, documents of ours, and their JSON schemas.

    python builders/reference.py

`tests/house/test_words.py` holds the pages against what this makes.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from foilwright import words
from foilwright.documents.bench_lines import COLUMNS, CREDIBLE
from foilwright.documents.bench_record import KINDS, BenchHead
from foilwright.documents.boat_chain import AdjusterRecord, Chain, Change, Crank, Curve, Position, Rod
from foilwright.documents.boat_file import FORMAT, VERSION, BoatFile
from foilwright.documents.boat_parts import Crew, Hull, MainFoil, Mass, Reference, Rig, RudderFoil, Wand
from foilwright.documents.day_limits import KINDS as LIMIT_KINDS
from foilwright.documents.day_record import FORMAT as DAY_FORMAT
from foilwright.documents.day_record import (
    Asked,
    DayBoat,
    DaySailor,
    DaySheet,
    FoilSet,
    Forecast,
    HandPairing,
    Limit,
    Measured,
    WaterToday,
)
from foilwright.documents.day_record import Rig as PoolRig
from foilwright.documents.defaults import (
    CURVE_DEFAULTS,
    DEFAULTS,
    FOIL_STOPS,
    ROD_DEFAULTS,
    SECTIONS,
    STEERING_DEFAULTS,
    Default,
)
from foilwright.documents.faults import limits
from foilwright.documents.measured import is_measured, twin_of
from foilwright.documents.twelve import EXTRA, TWELVE
from foilwright.units import ending_of, plain

PAGES = Path(__file__).parent.parent / "docs" / "reference"

BOAT_HEAD = """\
# The boat file

A boat as measured, in TOML. `foilwright check FILE` reads one and says everything that is wrong with it.
The files of the invented boat Marram are a good start: known by its cranks and rods, by its measured curve,
and with its rod reversed.

- The unit stands in the name of every field: `_m` metres, `_mm` millimetres, `_deg` degrees, `_kg`, `_n_m`
  newton metres.
- x counts from the transom forward, z from the keel line up. A rudder behind the transom has a negative x.
- Beside any measured number may stand its **standard error**: `length_m = 1.12`, `length_se_m = 0.005`; of
  a number without a unit `taper_se`. The table below marks each field that has one with ±.
- **Few fields are required** (marked *yes*). Of a pair such as `pivot_x_m` and `ahead_of_main_strut_m` give
  one. What is missing is taken from the form of boat, and every such default is named as assumed, with its
  band: see the end.
- A boat is a hull, a main foil, a rudder, a rig and a wand, each with its own `id`, since they are swapped.
- **Any straight reference** will do for the angles, as long as it is the same for all.
  `reference.keel_line_deg` is its angle to the keel line, positive where its bow end stands higher. It is
  added to every chord angle (main foil, rudder, and a whole foil's angles in the chain) and taken from
  every wand angle. Flap angles are to the foil's chord and stay. The difference between the two foils
  decides how the boat flies; an error that both share only shifts the bow angle shown.
- **Of a whole foil** the incidence at the mark and the foil angle in the drawing position are one and the
  same angle: `incidence_deg`, with the wand at the chain's `wand_deg`. Nothing is added to it.
- **The chain** is given by cranks and rods, any number of them, wand crank first and horn of the foil last,
  drawn with the wand at `wand_deg`; the rods are as long as the drawing has them unless `length_m` says
  otherwise. *Or* it is given by a measured curve at two or more positions of its adjuster, for boats whose
  rods cannot be reached; a curve that only moved up or down may be given as `foil_change_deg`. Between
  positions and a little beyond, the curves are joined smoothly.
- **Adjusters** count in steps from their mark. What a step changes is either `changes` (so much a step) or
  `positions` (one entry a hole). Numbers are named by their path in the file, entries of lists by their
  names: `chain.rods.main-rod.length_m`. The adjuster of a measured curve changes `chain.curve_position`.
  Where an arm or a pivot moves, `rods = "kept"` means the rods keep their length, `rods = "re-made"` that
  they are set so that the drawing position is kept. Changes of several adjusters add up; between whole
  steps they are straight.
- The **version** printed on cards is ten signs that change with the meaning of the file; comments, order
  and the spelling of numbers do not count.
- Saving keeps comments. A file is replaced all at once, or not at all.

"""
TABLES: tuple[tuple[str, type[BaseModel]], ...] = (
    ("top of the file", BoatFile),
    ("[reference]", Reference),
    ("[mass]", Mass),
    ("[crew]", Crew),
    ("[hull]", Hull),
    ("[main_foil]", MainFoil),
    ("[rudder]", RudderFoil),
    ("[rig]", Rig),
    ("[wand]", Wand),
    ("[chain]", Chain),
    ("[[chain.cranks]]", Crank),
    ("[[chain.rods]]", Rod),
    ("[[chain.curve]]", Curve),
    ("[[adjusters]]", AdjusterRecord),
    ("changes of an adjuster", Change),
    ("positions of an adjuster", Position),
)


DAY_HEAD = """\
# The day sheet

One day in TOML: place and times, wind and water, sailors, boats, the centre's own limits, and what people
decided. `foilwright day DAYSHEET --out DIR` prepares the day from it; [how to](../how-to/prepare-a-day.md).
Copy `the-evening-before.toml` or `the-morning.toml` from the examples.

- The wind is a **forecast** with its spread at 10 m, or **measured**, with how it was measured: a hand gauge
  at 2 m reads less than a forecast. The measured one is used where there is one; both figures are shown.
- Files of boats and sailors are named from where the day sheet lies.
- What is left out stays unknown. A limit left blank, and a limit whose figure of the day is left out, are
  named as loudly as one that is exceeded.
- A pairing set by hand stands, whatever is computed, and its reason stays with the day.
- A boat out of service gets no card; whoever put it out of service releases it.
- A first name or a nickname, a band of mass, a stage: nothing else about a person belongs here.
"""
DAY_TABLES: tuple[tuple[str, type[BaseModel]], ...] = (
    ("top of the sheet", DaySheet),
    ("[forecast]", Forecast),
    ("[measured]", Measured),
    ("[water]", WaterToday),
    ("[[sailors]]", DaySailor),
    ("[[boats]]", DayBoat),
    ("[[rigs]]", PoolRig),
    ("[[foil_sets]]", FoilSet),
    ("[[limits]]", Limit),
    ("[[asked]]", Asked),
    ("[[hand_pairings]]", HandPairing),
)


def day_page() -> str:
    """docs/reference/day-sheet.md."""
    lines = [DAY_HEAD.rstrip(), ""]
    for title, model in DAY_TABLES:
        lines += [f"## {title}", "", (model.__doc__ or "").strip(), ""]
        lines += ["| field | | needed | meaning | range |", "|---|---|---|---|---|"]
        lines += [field_row(name, field) for name, field in model.model_fields.items()]
        lines.append("")
    lines += ["## What may be limited", "", "| what | meaning | unit | |", "|---|---|---|---|"]
    lines += [
        f"| {what} | {kind.words} | {kind.unit or '-'} | {'at most' if kind.most else 'at least'} |"
        for what, kind in LIMIT_KINDS.items()
    ]
    return "\n".join(lines) + "\n"


def day_schema() -> str:
    """docs/reference/day-sheet.schema.json."""
    made = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$comment": f"{DAY_FORMAT}, version 1; made from the code",
        **DaySheet.model_json_schema(),
    }
    return json.dumps(made, indent=1, ensure_ascii=False) + "\n"


def words_page() -> str:
    """docs/reference/words.md."""
    lines = ["# Words", "", "One word for one thing: in boat files, code, screens, cards and messages.", ""]
    lines += [
        "## Quantities",
        "",
        "| word | meaning | SI | shown in | decimals | positive |",
        "|---|---|---|---|---|---|",
    ]
    for q in words.QUANTITIES:
        lines.append(
            f"| {q.name} | {q.meaning} | {q.unit or '-'} | {q.shown or '-'} "
            f"| {q.decimals} | {q.positive or '-'} |"
        )
    lines += [
        "",
        "In JSON a quantity carries its shown unit in its key (`boat_speed_kn`), a change the word too "
        "(`ride_height_change_mm`). Heel and bow angle are words on screens and paper, signed in JSON.",
    ]
    for title, entries in (
        ("Parts", words.PARTS),
        ("States", words.STATES),
        ("Stages of learning", words.STAGES),
        ("Forms of boat", words.FORMS),
        ("Other words", words.THINGS),
    ):
        lines += ["", f"## {title}", "", "| word | meaning |", "|---|---|"]
        lines += [f"| {word.name} | {word.meaning} |" for word in entries]
    lines += ["", "## Other keys of JSON", "", "| key | meaning |", "|---|---|"]
    lines += [f"| {key} | {meaning} |" for key, meaning in words.KEYS.items()]
    return "\n".join(lines) + "\n"


def twelve_lines() -> list[str]:
    """The twelve keys, as a table."""
    lines = [
        "## Twelve numbers are enough",
        "",
        "A card comes from twelve numbers that two people read in one sitting; `marram-twelve.toml` is made "
        "of nothing else. A rod of fixed length has no `foil_change_deg`. Where the keel line cannot be "
        "reached, measure against any straight line and say how it lies: `keel_line_deg`, `above_keel_m`.",
        "",
        "| | number | in the file | read by |",
        "|---|---|---|---|",
    ]
    lines += [f"| {i + 1} | {key.name} | {key.path} | {key.how} |" for i, key in enumerate(TWELVE)]
    lines += [f"| beside | {key.name} | {key.path} | {key.how} |" for key in EXTRA]
    return [*lines, ""]


BENCH_HEAD = """\
# The bench sheet

What two people read ashore, **as read**: nothing is computed before it is written down, and no program of
ours writes into the sheet. `foilwright bench BOAT SHEET` fits the boat to it.
[How to measure](../how-to/measure-a-boat.md) says in which order to read, and
[the theory page](../theory/bench-fit.md) what is made of it.

As CSV: the head, one `name,value` a line; then the names of the columns; then one reading a line. Lines
beginning with #, empty lines and lines without a reading are passed over; semicolons or tabs do as well as
commas. As TOML: the same head at the top, and `readings = [...]` with the same names. Begin from
`foilwright bench BOAT --form sheet.csv`, or copy `marram-bench.csv` or `marram-bench.toml`.

- A bare reading is in the unit of the table below; another may be written with the number (`4.6cm`).
- `wand_deg` is read from plumb, aft positive. `travel` is the way the wand came to its place: `back` (going
  aft) or `forward`. Both ways are wanted: the difference is lost motion.
- `settings` says where the adjusters stood, counted from their marks: `main-rod=3`, several joined by
  spaces. Those not named stood at their marks.
- `way` is `one` or `other`: the level turned end for end on the same place. On the wand it lies as in `one`.
- `load_n` is a weight hung on the batten's end: half a litre of water is 5 N.
"""


def bench_page() -> str:
    """docs/reference/bench-sheet.md."""
    lines = [
        BENCH_HEAD.rstrip(),
        "",
        "## Head",
        "",
        "| name | needed | meaning | usual | range |",
        "|---|---|---|---|---|",
    ]
    for name, field in BenchHead.model_fields.items():
        low, high = limits(field)
        span = "" if low is None or high is None else f"{plain(low)} to {plain(high)}"
        usual = "" if field.is_required() or field.default is None else str(field.default)
        needed = "yes" if field.is_required() else ""
        lines.append(f"| {name} | {needed} | {field.description} | {usual} | {span} |")
    lines += [
        "",
        f"## Readings: {', '.join(COLUMNS)}",
        "",
        "| what | at | wand and travel | unit | credible | meaning |",
    ]
    lines += ["|---|---|---|---|---|---|"]
    for what, kind in KINDS.items():
        low, high = CREDIBLE[what]
        wand = "yes" if kind.wand else "flap; a whole foil" if what == "level" else ""
        lines.append(
            f"| {what} | {', '.join(kind.places)} | {wand} | {kind.unit} | {plain(low)} to {plain(high)} "
            f"| {kind.meaning} |"
        )
    return "\n".join(lines) + "\n"


def boat_page() -> str:
    """docs/reference/boat-file.md."""
    lines = [BOAT_HEAD.rstrip(), "", *twelve_lines()]
    for title, model in TABLES:
        lines += [
            f"## {title}",
            "",
            (model.__doc__ or "").strip().split("\n\n")[0].replace("\n    ", " "),
            "",
        ]
        lines += ["| field | | needed | meaning | range |", "|---|---|---|---|---|"]
        lines += [field_row(name, field) for name, field in model.model_fields.items()]
        lines.append("")
    lines += ["## What is assumed where nothing is given", ""]
    lines += [
        "Value and band by form of boat, in the unit of the number; sums and products hang on another.",
        "",
        "| number | narrow | wide | two-person | source |",
        "|---|---|---|---|---|",
    ]
    lines += [default_row(default, "") for default in DEFAULTS]
    lines += [
        "| main_foil.strut_top_m, rudder.strut_top_m | the hull's bottom there, ± 0.02 | same | same | "
        "follows from the hull |",
        "| rig.mast_z_m | half way up the mast, -0.3 to +0.5 | same | same | follows from the mast |",
    ]
    for control, stops in FOIL_STOPS.items():
        lines += [default_row(default, f" ({control})") for default in stops]
    lines += [default_row(default, " (by curve)") for default in CURVE_DEFAULTS]
    lines += [default_row(d._replace(path=f"chain.rods.NAME.{d.path}"), "") for d in ROD_DEFAULTS]
    lines += [default_row(default, " (for `steer`)") for default in STEERING_DEFAULTS]
    mains, rudders = zip(*SECTIONS.values(), strict=True)
    lines += [
        f"| {part}.section | {' | '.join(names)} | {words_of_practice()} |"
        for part, names in (("main_foil", mains), ("rudder", rudders))
    ]
    return "\n".join(lines) + "\n"


def words_of_practice() -> str:
    return "common practice, no source"


def field_row(name: str, field: FieldInfo) -> str:
    """One line of a table: field, whether it has a standard error, whether it is needed, meaning, range."""
    low, high = limits(field)
    unit = ending_of(name)
    span = (
        ""
        if low is None or high is None
        else f"{plain(low)} to {plain(high)} {unit.symbol if unit else ''}".strip()
    )
    choices = [str(word) for word in literals(field.annotation)]
    what = span or " / ".join(choices)
    needed = "yes" if field.is_required() else ""
    sure = "±" if is_measured(field) else ""
    meaning = (field.description or "") + (
        f" (`{twin_of(name)}`)" if sure and ending_of(name) is None else ""
    )
    return f"| {name} | {sure} | {needed} | {meaning} | {what} |"


def literals(annotation: object) -> Iterable[str]:
    """The words that a field allows."""
    for arg in get_args(annotation):
        if isinstance(arg, str):
            yield arg
        else:
            yield from literals(arg)


def default_row(default: Default, note: str) -> str:
    """One line of the table of defaults."""
    sign = {"plus": f"{default.base} + ", "times": f"{default.base} × "}.get(default.way, "")
    bands = (
        f"{sign}{plain(band.value)} ({plain(band.low)} to {plain(band.high)})"
        for band in (default.narrow, default.wide, default.two_person)
    )
    return f"| {default.path}{note} | {' | '.join(bands)} | {default.source} |"


def schema() -> str:
    """docs/reference/boat-file.schema.json."""
    made = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$comment": f"{FORMAT}, version {VERSION}; made from the code",
        **BoatFile.model_json_schema(),
    }
    return json.dumps(made, indent=1, ensure_ascii=False) + "\n"


def pages() -> dict[str, str]:
    """Name of each page -> its text."""
    return {
        "words.md": words_page(),
        "boat-file.md": boat_page(),
        "boat-file.schema.json": schema(),
        "bench-sheet.md": bench_page(),
        "day-sheet.md": day_page(),
        "day-sheet.schema.json": day_schema(),
    }


def main() -> None:
    PAGES.mkdir(parents=True, exist_ok=True)
    for name, text in pages().items():
        (PAGES / name).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
