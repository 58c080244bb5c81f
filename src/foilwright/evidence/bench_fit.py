"""The boat that fits a bench sheet best, how sure that is, and the lines that do not fit.

Maximum a posteriori: what the boat file says, with its standard errors, is the prior; the gauges' errors are
those of the readings. The sum of both squares is made least by the Gauss-Newton rule with step halving; the
inverse of its normal matrix is the covariance (Laplace's approximation). An error in the wand angle counts
through the gearing (effective variance; Fuller, Measurement Error Models, 1987).

A line is set aside where the fit without it would miss it by more than MOST_MISS standard errors
(the studentised residual with known variance, r / (sigma sqrt(1 - h)); Cook and Weisberg, Residuals and
Influence in Regression, 1982). The worst goes first and the fit is made again, since one slip can make good
lines look bad.

A wand angle that has no partner (bench_pairs) is compared with what its partner says: the line is set
aside unless it lies clearly nearer to the fit without it as it was written than at its partner's angle. Among
angles that are all in pairs, one that is not is a slip more often than not: odds of e to 1.
"""

from typing import NamedTuple

import numpy as np

from foilwright.evidence.bench_model import ANGLE, SINE, BenchModel, Readings, expected, straight_part
from foilwright.evidence.bench_pairs import odd_pairs, other_wands
from foilwright.measures import Bools, Floats, Ints

MOST_MISS = 4.0  # standard errors; one good line in 16 000 lies further out
MOST_OUTLIERS_SHARE = 0.2  # of the lines; beyond that it is the sheet, not a line
LEARNED_SHARE = 0.9  # a parameter known no better than this share of its prior error was not learned
SLIP_ODDS = 1.0  # logarithm of the odds that a wand angle without its partner is a slip
TELLING = 1.0  # standard errors between both places; below that the line cannot tell them apart
STEP = 0.01  # for slopes, in prior standard errors
SETTLED = 2e-3  # prior standard errors
MOST_STEPS = 80


class BenchFit(NamedTuple):
    """A fitted sheet.

    parameters   in prior standard errors from what the file says [parameters]
    covariance   of them
    values       what each line should have read [lines], SI
    errors       of each line [lines], SI
    misses       (read - should) / error, each compared with the fit without it
    slopes       of `values` with the parameters [lines, parameters]
    cost         sum of squares of used misses and parameters
    used         which lines were used;  outliers  the others, worst first
    held_instead wand angle at which a line set aside would fit, where another line says so [lines], rad;
                 not a number for all other lines
    settled      whether the least was found
    """

    parameters: Floats
    covariance: Floats
    values: Floats
    errors: Floats
    misses: Floats
    slopes: Floats
    cost: float
    used: Bools
    outliers: Ints
    held_instead: Floats
    settled: bool

    @property
    def standard_errors(self) -> Floats:
        """Of the parameters, in prior standard errors."""
        return np.sqrt(np.diag(self.covariance))

    @property
    def learned(self) -> Bools:
        """Which parameters the sheet says something about."""
        return np.asarray(self.standard_errors <= LEARNED_SHARE)


def fit(model: BenchModel, readings: Readings, fast: bool = False) -> BenchFit:
    """Fits the boat to the sheet, lines that do not fit set aside by name."""
    n = len(readings.value)
    used = np.ones(n, dtype=bool)
    outliers: list[int] = []
    found = _best(model, readings, used, fast)
    odd = odd_pairs(readings)
    while len(outliers) < int(MOST_OUTLIERS_SHARE * n) + 1:
        worst = int(np.argmax(np.where(used, np.abs(found.misses), 0.0)))
        if not used[worst] or abs(found.misses[worst]) <= MOST_MISS:
            gains = {
                i: _gain(model, readings, found, i, wand, fast)
                for pair in odd
                if all(used[i] for i in (*pair.back, *pair.forward))
                for i, wand in other_wands(readings, pair)
            }
            worst = max(gains, key=lambda i: gains[i], default=-1)
            if worst < 0 or gains[worst] <= 0.0:
                break
        used[worst] = False
        outliers.append(worst)
        found = _best(model, readings, used, fast)
    instead = np.full(n, np.nan)
    for i, wand in (one for pair in odd for one in other_wands(readings, pair)):
        if not used[i] and _gain(model, readings, found, i, wand, fast) > 0.0:
            instead[i] = wand
    return found._replace(outliers=np.array(outliers, dtype=np.int64), held_instead=instead)


def _gain(model: BenchModel, readings: Readings, found: BenchFit, i: int, wand: float, fast: bool) -> float:
    """Twice the logarithm of the odds that line i's wand was held at `wand` [rad], not where it says.

    By how much the square of its miss falls, and what an angle without its partner says before that. Both
    against the fit without the line: its parameters lie C J' r / (1 - h) away from those with it.
    """
    at, error = found.parameters, found.errors[i]
    scaled = found.slopes[i] / error
    reach = found.covariance @ scaled
    leverage = float(scaled @ reach)
    room = np.sqrt(1.0 - leverage if found.used[i] else 1.0 + leverage)
    if found.used[i]:
        at = at - reach * (found.misses[i] / room)
    line = Readings(*(column[np.array([i])] for column in readings))._replace(wand=np.array([wand]))
    should, _ = expected(model, line, at[None, :], fast)
    miss = (readings.value[i] - should[0, 0]) / error * (room if found.used[i] else 1.0 / room)
    if abs(found.misses[i] - miss) < TELLING:
        return -np.inf
    return float(found.misses[i] ** 2 - miss**2) + 2.0 * SLIP_ODDS


def errors_of(readings: Readings, slope: Floats) -> Floats:
    """Error of each line [lines]: of its gauge, and of the wand angle through the gearing."""
    return np.asarray(np.hypot(readings.error, slope * readings.wand_error))


def _best(model: BenchModel, readings: Readings, used: Bools, fast: bool) -> BenchFit:
    """The better of two ways down: from the file, and from what the lines say that need no chain.

    A foil stop makes a kink, on either side of which the sum of squares may have a least of its own.
    """
    nothing = np.zeros(model.row_changes.shape[1])
    straight = used & (readings.kind != ANGLE) & (readings.kind != SINE)
    simple = Readings(*(column[straight] for column in readings))
    from_file = _least(model, readings, used, nothing, fast)
    first = _least(model, simple, straight[straight], nothing, fast).parameters
    other = _least(model, readings, used, first, fast)
    return min((from_file, other), key=lambda found: found.cost)


def _least(model: BenchModel, readings: Readings, used: Bools, start: Floats, fast: bool) -> BenchFit:
    at = start
    step = np.zeros_like(at)
    last = np.inf
    settled = False
    straight = straight_part(model, readings)
    for _ in range(MOST_STEPS):
        trial = at + step
        # The candidate itself and one small step of each parameter, all at once.
        around = np.vstack([trial, trial + STEP * np.eye(len(trial))])
        values, wand_slopes = expected(model, readings, around, fast, straight)
        error = errors_of(readings, wand_slopes[0])
        miss = (readings.value - values[0]) / error
        cost = float(np.sum(miss[used] ** 2) + trial @ trial)
        uphill = cost > last + 1e-6
        if uphill and np.abs(step).max() > SETTLED:
            step = 0.5 * step
            continue
        at, last = trial, cost
        slopes = (values[1:] - values[0]).T / STEP
        scaled = slopes / error[:, None]
        normal = scaled[used].T @ scaled[used] + np.eye(len(at))
        step = np.linalg.solve(normal, scaled[used].T @ miss[used] - at)
        # At a stop the least may lie in a kink, where every further step leads uphill.
        settled = uphill or bool(np.abs(step).max() < SETTLED)
        if settled:
            break
    covariance = np.linalg.inv(normal)
    leverage = np.einsum("nk,kl,nl->n", scaled, covariance, scaled)
    # A used line is compared with the fit without it, a line set aside with the fit as it is.
    room = np.where(used, np.maximum(1.0 - leverage, 1e-6), 1.0 + leverage)
    return BenchFit(
        at,
        covariance,
        values[0],
        error,
        miss / np.sqrt(room),
        slopes,
        last,
        used,
        np.array([], dtype=np.int64),
        np.full(len(miss), np.nan),
        settled,
    )


def band_of(fitted: BenchFit, slopes: Floats) -> Floats:
    """Standard error of anything whose slopes with the parameters are known [..., parameters]."""
    return np.asarray(np.sqrt(np.einsum("...k,kl,...l->...", slopes, fitted.covariance, slopes)))


def needed_error(effect: float, height: float) -> float:
    """How well an angle must be known [rad] for the ride height to be known to `height` [m].

    effect  change of ride height per radian of it [m/rad]
    """
    return abs(height / effect) if abs(effect) > 1e-9 else np.inf
