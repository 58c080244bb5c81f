"""Boats drawn as their files' uncertainties allow, sheets made of them, and what the fit says of each."""

from __future__ import annotations

import importlib.util
import sys
from functools import cache
from math import radians
from pathlib import Path
from types import ModuleType
from typing import NamedTuple

import numpy as np

from foilwright.documents.bench_boat import Bench, bench_of
from foilwright.documents.boat_file import read_boat
from foilwright.documents.boat_numbers import ready
from foilwright.documents.changed import changed
from foilwright.documents.examples import example
from foilwright.evidence.bench_fit import BenchFit, fit
from foilwright.evidence.bench_model import BenchModel, foils_at

ROOT = Path(__file__).resolve().parents[2]
CASES = ("marram", "marram-curve", "pipkin", "sedge")
SHEETS = 300
# Where nobody measured: wand angles and settings of the adjuster between those of the sheet.
UNSEEN_WAND_DEG = (22.0, 37.0, 52.0, 68.0)
UNSEEN_TURNS = (0.0, 1.5, -2.0)


class Made(NamedTuple):
    """Many sheets of one boat. Parameters in prior standard errors [sheets, parameters], angles in rad."""

    bench: Bench
    truth: np.ndarray
    found: np.ndarray
    covariance: np.ndarray
    set_aside: np.ndarray  # lines wrongly set aside, of each sheet
    settled: np.ndarray
    angle_miss: np.ndarray  # foil angle found less true, at the unseen places [sheets, places]
    angle_band: np.ndarray  # its standard error

    @property
    def errors(self) -> np.ndarray:
        return np.sqrt(np.einsum("nkk->nk", self.covariance))

    @property
    def learned(self) -> np.ndarray:
        """Parameters that the sheets say something about, by the fit's own rule, over all sheets."""
        return np.median(self.errors, axis=0) <= 0.9


@cache
def builder() -> ModuleType:
    """builders/demo_bench.py: the same sheets with other errors."""
    spec = importlib.util.spec_from_file_location("demo_bench", ROOT / "builders" / "demo_bench.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


@cache
def bench_for(name: str) -> Bench:
    # A boat in use: with stretch and friction at nothing, no true boat could have less than its file says.
    used = changed(read_boat(example(name)), {"chain.give_deg_per_n_m": 0.2, "wand.friction_n_m": 0.6})
    bench = builder().template(ready(used))
    moved = "main-rod" in {adjuster.name for adjuster in bench.boat.adjusters}
    return bench_of(bench.boat, bench.sheet, [{"main-rod": t} for t in UNSEEN_TURNS if t] if moved else [])


class Sheet(NamedTuple):
    """A true boat and its readings."""

    truth: np.ndarray
    boat: BenchModel
    values: np.ndarray


def one_sheet(bench: Bench, random: np.random.Generator) -> Sheet:
    truth = builder().drawn_truth(bench, random)
    boat = builder().true_model(bench, truth)
    return Sheet(truth, boat, builder().read_by_people(bench, truth, boat, random, fast=True))


def fitted(bench: Bench, values: np.ndarray) -> BenchFit:
    return fit(bench.model, bench.readings._replace(value=values), fast=True)


@cache
def made(name: str, sheets: int = SHEETS) -> Made:
    bench = bench_for(name)
    random = np.random.default_rng([7, CASES.index(name)])
    truths, found, covariances, set_aside, settled, misses, bands = [], [], [], [], [], [], []
    for _ in range(sheets):
        sheet = one_sheet(bench, random)
        result = fitted(bench, sheet.values)
        truths.append(sheet.truth)
        found.append(result.parameters)
        covariances.append(result.covariance)
        set_aside.append(len(result.outliers))
        settled.append(result.settled)
        miss, band = unseen(bench, sheet, result)
        misses.append(miss)
        bands.append(band)
    return Made(bench, *map(np.array, (truths, found, covariances, set_aside, settled, misses, bands)))


def unseen_places(bench: Bench) -> tuple[np.ndarray, np.ndarray]:
    """Setting and wand angle [rad] of each unseen place."""
    settings = [
        bench.settings.index({"main-rod": turns} if turns else {})
        for turns in UNSEEN_TURNS
        if not turns or {"main-rod": turns} in bench.settings
    ]
    wand = np.tile(np.radians(UNSEEN_WAND_DEG), len(settings))
    return np.repeat(settings, len(UNSEEN_WAND_DEG)), wand


def unseen_slopes(bench: Bench, at: np.ndarray, step: float) -> tuple[np.ndarray, np.ndarray]:
    """Foil angle at the unseen places [rad], and its slopes with the parameters [places, parameters]."""
    setting, wand = unseen_places(bench)
    still = np.zeros(len(setting))
    around = np.vstack([at, at + step * np.eye(len(at))])
    angles, _ = foils_at(
        bench.model, around, setting, np.tile(wand, (len(around), 1)), still, still, fast=True
    )
    return angles[0], (angles[1:] - angles[0]).T / step


def unseen(bench: Bench, sheet: Sheet, result: BenchFit) -> tuple[np.ndarray, np.ndarray]:
    """Foil angle at the unseen places: found less true, and its standard error [rad]."""
    setting, wand = unseen_places(bench)
    still = np.zeros(len(setting))
    found, slopes = unseen_slopes(bench, result.parameters, 0.05)
    true, _ = foils_at(sheet.boat, sheet.truth[None, :], setting, wand[None, :], still, still, fast=True)
    band = np.sqrt(np.einsum("pk,kl,pl->p", slopes, result.covariance, slopes))
    return found - true[0], np.maximum(band, radians(0.001))
