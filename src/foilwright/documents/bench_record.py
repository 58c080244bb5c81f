"""The bench sheet as a record: what was read ashore, as it was read, each line with its number."""

from collections.abc import Mapping
from typing import Literal, NamedTuple

from pydantic import Field

from foilwright.documents.measured import Part, told

FORMAT = "foilwright/bench"
VERSION = 1

What = Literal[
    "batten", "batten-zero", "level", "edge", "wand-stop", "foil-stop", "tape", "rake", "weigh", "pull"
]
Travel = Literal["back", "forward"]
Way = Literal["one", "other"]


class Kind(NamedTuple):
    """One kind of reading.

    meaning   in words
    unit      of its reading, where none is written
    error     the head's field with the error of its gauge
    places    what may stand in `at`; empty where nothing belongs there
    wand      whether the wand's angle is needed, and travel with it
    load      whether a weight may hang on it
    """

    meaning: str
    unit: str
    error: str
    places: tuple[str, ...] = ()
    wand: bool = False
    load: bool = False


TAPES: dict[str, tuple[tuple[str, float], ...]] = {
    "wand-length": (("wand.length", 1.0),),
    "pivot-height": (("wand.pivot_z", 1.0),),
    "pivot-to-strut": (("wand.pivot_x", 1.0), ("main.x", -1.0)),
    "main-foil-depth": (("main.z", -1.0),),
    "rudder-foil-depth": (("rudder.z", -1.0),),
    "strut-spacing": (("main.x", 1.0), ("rudder.x", -1.0)),
    "main-foil-span": (("main.span", 1.0),),
    "rudder-foil-span": (("rudder.span", 1.0),),
}
"""What a tape may measure -> the boat's numbers that it is made of."""

TAPE_PATHS: dict[str, tuple[str, ...]] = {
    "wand-length": ("wand.length_m",),
    "pivot-height": ("wand.above_reference_m", "wand.pivot_z_m"),
    "pivot-to-strut": ("wand.ahead_of_main_strut_m", "wand.pivot_x_m"),
    "main-foil-depth": ("main_foil.strut_m", "main_foil.below_keel_m"),
    "rudder-foil-depth": ("rudder.below_keel_m",),
    "strut-spacing": ("rudder.behind_main_strut_m", "rudder.x_m"),
    "main-foil-span": ("main_foil.span_m",),
    "rudder-foil-span": ("rudder.span_m",),
}
"""What a tape may measure -> the number of the boat file that it corrects: the first that the file has."""

KINDS: dict[str, Kind] = {
    "batten": Kind(
        "end of the batten pegged to the foil's moving part, from where it is in line, down positive",
        "mm",
        "batten_error_mm",
        wand=True,
        load=True,
    ),
    "batten-zero": Kind(
        "the batten's end with the flap in line with the foil (a whole foil: chord along the reference)",
        "mm",
        "batten_error_mm",
    ),
    "level": Kind(
        "level laid on a part, bow end up positive (wand: aft of plumb positive)",
        "deg",
        "level_error_deg",
        ("reference", "main-foil", "rudder-foil", "flap"),
    ),
    "edge": Kind(
        "trailing edge at the root, from foil angle 0, down positive", "mm", "ruler_error_mm", wand=True
    ),
    "wand-stop": Kind("wand angle at its stop", "deg", "wand_error_deg", ("forward", "back")),
    "foil-stop": Kind(
        "end of the batten with the foil at its stop", "mm", "batten_error_mm", ("least", "greatest")
    ),
    "tape": Kind("a length by tape", "mm", "tape_error_mm", tuple(TAPES)),
    "rake": Kind("ruler at the foot of the rudder, forward positive", "mm", "ruler_error_mm"),
    "weigh": Kind(
        "scale at one lift point, the boat resting on the other", "kg", "scale_error_kg", ("bow", "stern")
    ),
    "pull": Kind(
        "scale at the wand's mark, square to the wand, while it moves slowly", "N", "pull_error_n", wand=True
    ),
}


def gauge(meaning: str, default: float, least: float, greatest: float) -> float:
    """A field of the head with a stated default."""
    return Field(default, description=meaning, ge=least, le=greatest)


class BenchHead(Part):
    """What stands above the readings: whose they are, with which gauges, and where the gauges stood."""

    format: Literal["foilwright/bench"] = Field(..., description='always "foilwright/bench"')
    version: Literal[1] = Field(..., description="of the format: 1")
    boat: str = Field(..., description="the boat's name, as in its file", min_length=1, max_length=60)
    hull: str | None = told("id of its hull; a boat of another name with this hull is taken as well", None)
    date: str | None = told("the day of the measurement", None)
    notes: str | None = told("anything worth knowing", None)
    level_error_deg: float = gauge("error of a level laid on a part (1 standard error)", 0.3, 0.01, 5.0)
    wand_error_deg: float = gauge("error of a wand angle", 0.5, 0.01, 5.0)
    batten_error_mm: float = gauge("error of a reading at the batten's end", 1.0, 0.05, 20.0)
    ruler_error_mm: float = gauge("error of a reading by ruler", 1.0, 0.05, 20.0)
    tape_error_mm: float = gauge("error of a length by tape", 5.0, 0.1, 50.0)
    scale_error_kg: float = gauge("error of a weight", 0.5, 0.01, 10.0)
    pull_error_n: float = gauge("error of a pull", 1.0, 0.01, 20.0)
    batten_length_mm: float = gauge("hinge to the batten's end", 300.0, 50.0, 2000.0)
    pull_mark_mm: float = gauge("wand pivot to the mark where it is pulled", 300.0, 50.0, 2000.0)
    rake_arm_mm: float = gauge("rudder pin to the foot where the ruler stands", 950.0, 200.0, 2500.0)
    bow_lift_x_m: float | None = Field(
        None, description="bow lift point, forward of the transom", ge=0.5, le=9.0
    )
    stern_lift_x_m: float | None = Field(
        None, description="stern lift point, forward of the transom", ge=-1.5, le=6.0
    )


class Line(NamedTuple):
    """One reading, as read and in SI.

    number    of its line in the file
    as_read   as it was written
    reading   the same in SI;  wand  from plumb [rad];  load  on the batten's end [N]
    way       which way round a level lay: turned end for end its own zero error changes sign
    """

    number: int
    what: str
    at: str
    way: str
    wand: float | None
    travel: str
    settings: Mapping[str, float]
    load: float
    as_read: str
    reading: float


class BenchSheet(NamedTuple):
    """A bench sheet: its head, its lines in the order of the file, and the file's name for messages."""

    head: BenchHead
    lines: tuple[Line, ...]
    file: str
