"""The chain from wand to foil and the adjusters, as a person measures and describes them."""

from typing import Literal

from pydantic import Field

from foilwright.documents.measured import Part, measurable, told

NAME = r"^[a-z0-9]+(-[a-z0-9]+)*$"


class Crank(Part):
    """One turning part: the wand crank first, then levers and bell cranks, the horn of the foil last.

    Directions in the drawing position, from forward towards up: 90 is up, 180 aft, -90 down.
    """

    name: str = Field(..., description="lower-case letters, digits and hyphens", pattern=NAME)
    pivot_x_m: float | None = measurable(
        "pivot, forward of the transom (the wand crank turns on the wand's pivot)", -2.0, 9.0
    )
    pivot_z_m: float | None = measurable("pivot, above the keel line", -2.5, 2.0)
    in_arm_m: float | None = measurable(
        "length of the arm that is pushed (not of the wand crank)", 0.003, 0.6
    )
    in_direction_deg: float | None = measurable("its direction", -360.0, 360.0)
    out_arm_m: float | None = measurable("length of the arm that pushes (not of the horn)", 0.003, 0.6)
    out_direction_deg: float | None = measurable("its direction", -360.0, 360.0)


class Rod(Part):
    """A push rod from the crank before it to the crank after it."""

    name: str = Field(..., description="lower-case letters, digits and hyphens", pattern=NAME)
    length_m: float | None = measurable(
        "length, joint to joint, at the mark; left out: as the drawing has it", 0.01, 5.0
    )
    play_mm: float | None = measurable("lost motion in each of its two joints", 0.0, 5.0)
    stretch_mm_per_n: float | None = measurable("stretch of rod and seats", 0.0, 0.05)


class Curve(Part):
    """What the foil did when the wand was moved, adjuster at one position."""

    position: float = Field(..., description="of the adjuster, in steps from the mark", ge=-100.0, le=100.0)
    wand_deg: list[float] = told("wand angles, rising", [])
    foil_deg: list[float] = told("foil angle at each of them", [])
    foil_se_deg: list[float] = told("standard error of each of them", [])
    foil_change_deg: float | None = measurable(
        "in place of the two lists: how far the whole curve at the mark moved", -30.0, 30.0
    )


class Chain(Part):
    """From wand to foil: cranks joined by rods, or a measured curve."""

    wand_deg: float | None = measurable("wand angle in the drawing position", -30.0, 110.0)
    foil_deg: float | None = measurable(
        "flap angle (of a whole foil: its chord to the reference) in the drawing position", -20.0, 30.0
    )
    foil_least_deg: float | None = measurable("foil stop: least angle", -45.0, 10.0)
    foil_greatest_deg: float | None = measurable("foil stop: greatest angle", 0.0, 60.0)
    slop_deg: float | None = measurable(
        "lost motion at the foil, both ways together, beside that of the rods' joints", 0.0, 15.0
    )
    give_deg_per_n_m: float | None = measurable(
        "turn of the foil per N m on it, beside the stretch of the rods", 0.0, 2.0
    )
    cranks: list[Crank] = told("the cranks, in order from wand to foil", [])
    rods: list[Rod] = told("the rods, one between each crank and the next", [])
    curve: list[Curve] = told(
        "in place of cranks and rods: the measured curve at two or more adjuster positions", []
    )


class Change(Part):
    """What one step changes: one number of this file, named by its path."""

    number: str = told("path of the number in this file, for example chain.rods.main-rod.length_m")
    per_step: float = Field(
        ..., description="its change for one step more, in its own unit", json_schema_extra={"measured": True}
    )


class Position(Part):
    """One hole: the values that the numbers have there."""

    step: int = told("steps from the mark")
    values: dict[str, float] = told("path of each number -> its value in this hole, in its own unit")


class AdjusterRecord(Part):
    """Anything that sailor or coach can change."""

    name: str = Field(..., description="lower-case letters, digits and hyphens", pattern=NAME)
    choice: bool = told("true where it is no part but a choice, such as where the sailor sits", False)
    one_step: str = told("one step in the boat's own words: one turn, one hole")
    how: str | None = told(
        "how to move it, in the boat's own words: twist away from you, pull the tail", None
    )
    more: str | None = told("which way is more, and what it does", None)
    who: str | None = told("who may move it", None)
    when: Literal["ashore", "stopped", "flying"] | None = told("when it may be moved", None)
    mark: str | None = told("how to find the mark again with a ruler when the count is lost", None)
    mark_mm: float | None = Field(None, description="what the ruler reads at the mark", ge=-2000.0, le=5000.0)
    mark_mm_per_step: float | None = Field(
        None, description="and how much more for each step", ge=-500.0, le=500.0
    )
    lock: str | None = told("what must be locked afterwards", None)
    photo: str | None = told("a picture of it: file name beside this file", None)
    least: int = Field(..., description="lower end of its range, in steps from the mark", ge=-200, le=200)
    greatest: int = Field(..., description="upper end of its range, in steps from the mark", ge=-200, le=200)
    present: float = Field(
        0.0, description="where it stands now, in steps from the mark", ge=-200.0, le=200.0
    )
    rods: Literal["re-made", "kept"] = told(
        "where it moves an arm or a pivot: the rods keep their length, or are re-made to keep the drawing",
        "kept",
    )
    changes: list[Change] = told("what one step changes", [])
    positions: list[Position] = told("in place of changes: the holes, one entry each", [])
