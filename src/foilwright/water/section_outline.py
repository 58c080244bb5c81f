"""A section's own outline as a person lists it: what can be wrong with the list, one sentence each.

Kept order: trailing edge, upper side, nose, lower side, trailing edge; x from 0 at the nose to 1 at the
trailing edge, y up, both in shares of the chord.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from foilwright.measures import Floats
from foilwright.mistakes import Mistake

LEAST_ROWS = 20
CHORD_SLACK = 0.02  # how far nose and trailing edge may lie from 0 and 1
GREATEST_GAP = 0.02  # of a blunt trailing edge, shares of chord
SAME_POINT = 1e-6
BACKWARDS = 1e-4  # x may step back by so much: rounded figures at the nose
THICKNESS = (0.03, 0.30)  # greatest thickness that a foil's section may have
ORDER = "from the trailing edge over the upper side to the nose and back along the lower side"


def outline_faults(outline: Floats, where: str) -> Iterator[Mistake]:
    """The first thing wrong with a list of x and y, if any; what follows from it is not told."""
    if outline.ndim != 2 or outline.shape[1] != 2 or len(outline) < LEAST_ROWS:
        yield Mistake(
            where,
            f"coordinates of shape {outline.shape}",
            f"at least {LEAST_ROWS} rows of x and y in shares of chord",
            f"List more points, {ORDER}; 60 or more, closer together at the nose.",
        )
        return
    if not np.isfinite(outline).all():
        row = 1 + int(np.argmin(np.isfinite(outline).all(axis=1)))
        yield Mistake(where, f"row {row} is no pair of numbers", "two finite numbers a row", "Mend that row.")
        return
    for look in (_size, _twice, _ends, _order, _sides):
        fault = look(outline, where)
        if fault is not None:
            yield fault
            return


def _size(outline: Floats, where: str) -> Mistake | None:
    least, greatest = float(outline[:, 0].min()), float(outline[:, 0].max())
    came, allowed = f"x from {least:g} to {greatest:g}", "x from 0 at the nose to 1 at the trailing edge"
    if greatest - least > 1.5:
        mend = f"Millimetres or per cent? Divide x and y by the chord, {greatest - least:g}."
        return Mistake(where, came, allowed, mend)
    if abs(least) > CHORD_SLACK or abs(greatest - 1.0) > CHORD_SLACK:
        return Mistake(where, came, allowed, "Shift and scale the list so that the chord runs from 0 to 1.")
    return None


def _twice(outline: Floats, where: str) -> Mistake | None:
    away = np.abs(outline[:, None, :] - outline[None, :, :]).max(axis=2)
    first, second = np.nonzero(np.triu(away < SAME_POINT, 1))
    for one, other in zip(first.tolist(), second.tolist(), strict=True):
        if (one, other) != (0, len(outline) - 1):
            return Mistake(
                where,
                f"rows {one + 1} and {other + 1} are the same point, {outline[one, 0]:g} {outline[one, 1]:g}",
                "every point once; only the trailing edge may stand first and last",
                "Take one of them out.",
            )
    return None


def _ends(outline: Floats, where: str) -> Mistake | None:
    first, last = outline[0], outline[-1]
    if first[0] < 1.0 - 2.0 * CHORD_SLACK:
        mend = (
            "The nose comes first here: turn the upper side round."
            if first[0] < 0.1
            else "Begin the list there."
        )
        return Mistake(where, f"a list that begins at x = {first[0]:g}", f"a list {ORDER}", mend)
    if last[0] < 1.0 - 2.0 * CHORD_SLACK or abs(first[1] - last[1]) > GREATEST_GAP:
        return Mistake(
            where,
            f"an open outline: it begins at {first[0]:g} {first[1]:g} and ends at {last[0]:g} {last[1]:g}",
            f"both ends at the trailing edge, at most {GREATEST_GAP:g} of the chord apart",
            "Add the points that are missing.",
        )
    return None


def _order(outline: Floats, where: str) -> Mistake | None:
    nose = int(np.argmin(outline[:, 0]))
    forward, aft = np.diff(outline[: nose + 1, 0]) > BACKWARDS, np.diff(outline[nose:, 0]) < -BACKWARDS
    turns = [*(np.flatnonzero(forward) + 2).tolist(), *(np.flatnonzero(aft) + nose + 2).tolist()]
    if turns:
        return Mistake(
            where,
            f"x turns back at row {turns[0]}, {outline[turns[0] - 1, 0]:g} {outline[turns[0] - 1, 1]:g}",
            f"x falling to the nose and rising again: {ORDER}",
            "Put the points in the order in which they lie along the outline.",
        )
    return None


def _sides(outline: Floats, where: str) -> Mistake | None:
    nose = int(np.argmin(outline[:, 0]))
    x = np.linspace(0.02, 0.96, 95)
    upper = np.interp(x, outline[nose::-1, 0], outline[nose::-1, 1])
    lower = np.interp(x, outline[nose:, 0], outline[nose:, 1])
    thick = upper - lower
    if (thick < 0.0).all():
        return Mistake(
            where, "the lower side listed first", f"a list {ORDER}", "Turn the order of the rows round."
        )
    if (thick <= 0.0).any():
        crossing = float(x[np.argmin(thick)])
        return Mistake(
            where,
            f"an outline that crosses itself: the lower side lies above the upper one at x = {crossing:.2f}",
            "the upper side above the lower one everywhere",
            "Look for a wrong sign or a slip of the decimal point near there.",
        )
    greatest = float(thick.max())
    if not THICKNESS[0] <= greatest <= THICKNESS[1]:
        return Mistake(
            where,
            f"a thickness of {greatest:.3g} of the chord",
            f"{THICKNESS[0]:g} to {THICKNESS[1]:g}",
            "Give y in shares of the chord, as x.",
        )
    return None
