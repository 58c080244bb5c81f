"""Prints what made bench sheets give back: parameters, foil angles where nobody measured, slips named."""

from __future__ import annotations

from math import degrees, radians

import numpy as np
from scipy.stats import chi2

from tests.recovery.made_sheets import CASES, SHEETS, bench_for, fitted, made, one_sheet

SLIPS = 100
OF_ANGLES = ("batten", "batten-zero", "foil-stop", "level", "wand-stop")


def parameters(name: str) -> None:
    """Learned parameters: prior and posterior standard error, share inside two, spread of the misses."""
    sheets = made(name)
    misses = (sheets.found - sheets.truth) / sheets.errors
    print(f"\n{name}: {SHEETS} sheets of {len(sheets.bench.sheet.lines)} lines")
    for k, thing in enumerate(sheets.bench.unsure):
        share = float(np.median(sheets.errors[:, k]))
        if sheets.learned[k]:
            inside = 100.0 * np.mean(np.abs(misses[:, k]) < 2.0)
            print(
                f"| {name} | {thing.name} | {thing.error:.3g} {thing.unit} | {share * thing.error:.2g} "
                f"| {inside:.0f} % | {misses[:, k].std():.2f} |"
            )
        else:
            print(f"  not learned: {thing.name}")
    learned = sheets.learned
    squares = sum(
        float(miss @ np.linalg.solve(covariance[np.ix_(learned, learned)], miss))
        for miss, covariance in zip((sheets.found - sheets.truth)[:, learned], sheets.covariance, strict=True)
    )
    freedom = SHEETS * int(learned.sum())
    print(f"  chi-square {squares:.0f} of {freedom}, share below {chi2.cdf(squares, freedom):.3f}")
    rms = np.degrees(np.sqrt(np.mean(sheets.angle_miss**2, axis=0)))
    near = 100.0 * np.mean(np.abs(sheets.angle_miss) < radians(0.2), axis=0)
    inside = 100.0 * np.mean(np.abs(sheets.angle_miss) < 2.0 * sheets.angle_band, axis=0)
    print(
        f"  unseen foil angles: rms {rms.min():.3f} to {rms.max():.3f} deg, "
        f"{near.mean():.1f} % within 0.2 deg (worst place {near.min():.1f}), "
        f"{inside.mean():.1f} % inside two errors (worst place {inside.min():.1f}); "
        f"a good line set aside in {100.0 * np.mean(sheets.set_aside > 0):.1f} % of the sheets"
    )


def slips(name: str) -> None:
    """Lines mistyped by 10 deg: in the reading, and in the wand's angle."""
    bench = bench_for(name)
    for column in ("reading", "wand_deg"):
        lines = [
            i
            for i, line in enumerate(bench.sheet.lines)
            if line.what in OF_ANGLES and (column == "reading" or line.wand is not None)
        ]
        random = np.random.default_rng([9, CASES.index(name)])
        named = alone = 0
        for _ in range(SLIPS):
            values = one_sheet(bench, random).values
            i = int(random.choice(lines))
            slip = float(random.choice([-1.0, 1.0])) * radians(10.0)
            if column == "reading":
                values[i] += slip * (1.0 if bench.sheet.lines[i].what in ("level", "wand-stop") else 0.3)
                result = fitted(bench, values)
            else:
                wand = bench.readings.wand.copy()
                wand[i] += slip
                result = fitted(bench._replace(readings=bench.readings._replace(wand=wand)), values)
            named += i in result.outliers
            alone += i in result.outliers and len(result.outliers) == 1
        print(
            f"  {name}: {degrees(radians(10.0)):.0f} deg in {column}: named {named} of {SLIPS}, alone {alone}"
        )


def main() -> None:
    for name in CASES:
        parameters(name)
        slips(name)


if __name__ == "__main__":
    main()
