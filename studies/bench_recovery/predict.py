"""Prints how well foil angles where nobody measured come out, by the covariance alone: no sheets made.

For a sheet with another batten, or with every reading of an angle made several times.
"""

from __future__ import annotations

from math import erf, sqrt

import numpy as np

from foilwright.documents.bench_blank import BATTEN_MM, blank_sheet, csv_text
from foilwright.documents.bench_boat import Bench, bench_of
from foilwright.documents.bench_sheet import sheet_from_text
from foilwright.documents.bench_time import minutes
from foilwright.evidence.bench_fit import errors_of
from foilwright.evidence.bench_model import expected
from tests.recovery.made_sheets import CASES, bench_for, builder, unseen_slopes

BOATS = 24  # true boats drawn of each file
STEP = 0.02  # for slopes, in prior standard errors
WANTED_DEG = 0.2
OF_ANGLES = ("batten", "batten-zero", "foil-stop", "level")


def sheet_of(name: str, batten_mm: float, times: int) -> tuple[Bench, float]:
    """The boat's sheet with another batten, every angle read so many times; and its minutes."""
    bench = bench_for(name)
    blanks = [
        blank
        for blank in blank_sheet(bench.boat.file)
        for _ in range(times if blank.what in OF_ANGLES else 1)
    ]
    head = [*dict(builder().head_of(bench.boat.file), batten_length_mm=f"{batten_mm:g}").items()]
    stands = {"weigh": "20", "tape": "1000"}
    text = csv_text(head, blanks, [stands.get(blank.what, "0") for blank in blanks])
    return bench_of(bench.boat, sheet_from_text(text, "made.csv"), bench.settings), minutes(blanks)


def bands(bench: Bench) -> np.ndarray:
    """Standard error of the foil angle [boats, unseen places], deg."""
    random = np.random.default_rng(3)
    found = []
    for _ in range(BOATS):
        truth = builder().drawn_truth(bench, random)
        around = np.vstack([truth, truth + STEP * np.eye(len(truth))])
        values, wand_slopes = expected(bench.model, bench.readings, around, fast=True)
        slopes = (values[1:] - values[0]).T / STEP
        scaled = slopes / errors_of(bench.readings, wand_slopes[0])[:, None]
        covariance = np.linalg.inv(scaled.T @ scaled + np.eye(len(truth)))
        _, at_places = unseen_slopes(bench, truth, STEP)
        found.append(np.degrees(np.sqrt(np.einsum("pk,kl,pl->p", at_places, covariance, at_places))))
    return np.array(found)


def main() -> None:
    for name in CASES:
        for batten_mm, times in ((BATTEN_MM, 1), (450.0, 1), (300.0, 1), (300.0, 2), (300.0, 3)):
            bench, minute = sheet_of(name, batten_mm, times)
            band = bands(bench)
            near = np.vectorize(lambda error: erf(WANTED_DEG / error / sqrt(2.0)))(band).mean(axis=0)
            print(
                f"{name}: batten {batten_mm:g} mm, angles {times} times: {len(bench.sheet.lines)} lines, "
                f"{minute:.0f} minutes; worst place {np.sqrt((band**2).mean(axis=0)).max():.3f} deg, "
                f"{100.0 * near.min():.1f} % within 0.2 deg; over all {100.0 * near.mean():.1f} %"
            )


if __name__ == "__main__":
    main()
