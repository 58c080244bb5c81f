"""Known boat, made sheet, 0.3 deg and 1 mm of noise: does the fit give the boat back, as well as it says?

True boats are drawn from what their files call uncertain, so misses in standard errors should look like a
normal draw. Four boats, 300 sheets each: by cranks, by a measured curve, with a whole foil, and for two.
"""

from __future__ import annotations

from math import radians

import numpy as np
import pytest
from scipy.stats import chi2

from foilwright.documents.bench_boat import Bench
from foilwright.evidence.bench_model import expected
from foilwright.evidence.bench_pairs import odd_pairs
from tests.recovery.made_sheets import CASES, SHEETS, Sheet, bench_for, fitted, made, one_sheet

OF_ANGLES = ("batten", "batten-zero", "foil-stop", "level", "wand-stop")
MISTYPED = radians(10.0)


@pytest.mark.parametrize("name", CASES)
def test_what_was_learned_is_known_as_well_as_it_says(name: str) -> None:
    sheets = made(name)
    unsure = sheets.bench.unsure
    assert len(sheets.found) == SHEETS
    assert sheets.settled.all()
    misses = (sheets.found - sheets.truth) / sheets.errors
    for k in np.flatnonzero(sheets.learned):
        inside = np.mean(np.abs(misses[:, k]) < 2.0)
        assert 0.91 <= inside <= 0.99, (unsure[k].name, inside)
        assert 0.85 <= misses[:, k].std() <= 1.15, (unsure[k].name, misses[:, k].std())

    learned = sheets.learned
    squares = [
        miss @ np.linalg.solve(covariance[np.ix_(learned, learned)], miss)
        for miss, covariance in zip((sheets.found - sheets.truth)[:, learned], sheets.covariance, strict=True)
    ]
    freedom = SHEETS * int(learned.sum())
    assert chi2.ppf(0.005, freedom) < sum(squares) < chi2.ppf(0.995, freedom)

    zero = {"pipkin": "main_foil.incidence_deg", "marram-curve": "chain.curve: shift of all foil_deg"}
    slop = {"marram-curve": "chain.slop_deg"}
    pitch = {
        "pipkin": "adjusters.wand-length.changes.1.per_step",
        "marram-curve": "chain.curve: foil_deg for one step",
    }
    names = [thing.name for thing in unsure]
    for wanted in (
        zero.get(name, "chain.foil_deg"),
        slop.get(name, "chain.rods: play_mm of every joint"),
        pitch.get(name, "adjusters.main-rod.changes.1.per_step"),
    ):
        assert (sheets.errors[:, names.index(wanted)] <= 0.9).all(), wanted

    # Foil angle where nobody measured: wand angles in between, the rod in between and beyond.
    # 0.077 deg of standard error are 99 in 100 within 0.2 deg, at each place and not only on the whole.
    assert np.sqrt(np.mean(sheets.angle_miss**2, axis=0)).max() < radians(0.077)
    inside = np.mean(np.abs(sheets.angle_miss) < 2.0 * sheets.angle_band, axis=0)
    assert inside.min() >= 0.92
    near = np.mean(np.abs(sheets.angle_miss) < radians(0.2), axis=0)
    assert near.mean() >= 0.995
    assert near.min() >= 0.99
    assert np.mean(sheets.set_aside > 0) <= 0.02  # a good line is called bad in few sheets of some seventy


@pytest.mark.parametrize("name", CASES)
def test_a_line_mistyped_by_ten_degrees_is_named(name: str) -> None:
    bench = bench_for(name)
    lines = [i for i, line in enumerate(bench.sheet.lines) if line.what in OF_ANGLES]
    random = np.random.default_rng([8, CASES.index(name)])
    named = 0
    for _ in range(100):
        values = one_sheet(bench, random).values
        i = int(random.choice(lines))
        arm = (
            1.0 if bench.sheet.lines[i].what in ("level", "wand-stop") else 0.3
        )  # the batten's end, in metres
        values[i] += random.choice([-1.0, 1.0]) * MISTYPED * arm
        named += i in fitted(bench, values).outliers
    assert named >= 99


@pytest.mark.parametrize("name", CASES)
def test_a_wand_angle_mistyped_by_ten_degrees_is_named(name: str) -> None:
    """As not fitting, and then mostly with the angle that was held; or else as an angle without its partner.

    With the foil at its stop at both angles ten degrees make no difference: those lines, fewer than one in
    ten, are told by their partner alone.
    """
    bench = bench_for(name)
    lines = [
        i for i, line in enumerate(bench.sheet.lines) if line.what in OF_ANGLES and line.wand is not None
    ]
    random = np.random.default_rng([9, CASES.index(name)])
    slips = named = mended = told = blind = 0
    while slips < 100:
        sheet = one_sheet(bench, random)
        i = int(random.choice(lines))
        wand = bench.readings.wand.copy()
        wand[i] += random.choice([-1.0, 1.0]) * MISTYPED
        slipped = bench._replace(readings=bench.readings._replace(wand=wand))
        if not visible(bench, slipped, sheet, i):
            blind += 1
            continue
        slips += 1
        result = fitted(slipped, sheet.values)
        odd = [line for pair in odd_pairs(slipped.readings) for side in pair for line in side]
        right = bool(np.abs(result.held_instead[i] - bench.readings.wand[i]) < radians(0.1))
        named += i in result.outliers
        mended += i in result.outliers and right
        told += i in result.outliers or i in odd
    assert named >= 97
    assert mended >= 97
    assert told == 100
    assert blind < 12


def visible(bench: Bench, slipped: Bench, sheet: Sheet, i: int) -> bool:
    """Whether the true boat would have read otherwise at the angle written, by three errors of the gauge."""
    held, written = (
        expected(sheet.boat, one.readings, sheet.truth[None, :], fast=True)[0][0, i]
        for one in (bench, slipped)
    )
    return bool(abs(held - written) > 3.0 * bench.readings.error[i])
