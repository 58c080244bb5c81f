"""Settings over the samples of a day: heights and bow angles for all of them, and what follows from these.

Each sample is a flight at a boat speed, heel and pull of the sail; every setting is balanced in every sample
by the compiled kernel, begun from where the effects of its adjusters put it.
"""

from collections.abc import Sequence
from math import cos, sin
from typing import NamedTuple

import numpy as np

from foilwright.flight.at_speed import case_of
from foilwright.flight.boat import N_SCALARS, row_names
from foilwright.flight.look import DRAG
from foilwright.flight.many import all_states, looks_at, near_states
from foilwright.linkage.chain import LINK_SIZE
from foilwright.measures import Floats
from foilwright.outcomes import SOLVED
from foilwright.setup.adjusters import turned
from foilwright.setup.goals import Goal, wanted_at
from foilwright.setup.samples import Samples
from foilwright.setup.standing import Standing
from foilwright.setup.take_offs import TRIMS, climb_speeds, take_offs_of
from foilwright.water.hull import lowest_point

DRAG_AT = (0.5, 0.8)  # of the winds in order of boat speed: where drag is worked out

Setting = tuple[float, ...]
"""Where every adjuster stands, in the boat's order [steps from the mark]."""


class Ground(NamedTuple):
    """What all settings of one boat and day stand on.

    present, heights, trims  the present setting and its states [W, B]; nothing where it has none
    slopes_h, slopes_t       by wind and adjuster [m, rad a step]
    low, high                ride height wanted at each wind [W];  tip  least depth of a foil's tip [m]
    lowest                   the hull's lowest point over trim [W, trims], for height 0
    climb_speeds             boat speeds at which a take-off is looked for [m/s]
    """

    standing: Standing
    names: tuple[str, ...]
    present: Setting
    samples: Samples
    heights: Floats
    trims: Floats
    slopes_h: Floats
    slopes_t: Floats
    low: Floats
    high: Floats
    tip: float
    lowest: Floats
    climb_speeds: Floats


class Seen(NamedTuple):
    """How one setting does.

    flies, in_band, safe  shares of the samples: hull clear; at the height wanted; tips deep enough as well
    by_boat               the share `safe` for each boat of the samples [B]
    mean, spread          ride height over all of them [m]
    drag                  over weight, of the boat as it stands, in the middle wind and in a strong one
    take_off              slowest boat speed at which the boat as it stands flies [m/s]; infinite without one
    too_high              the most that it flies above the band [m]
    """

    setting: Setting
    flies: float
    in_band: float
    safe: float
    by_boat: Floats
    mean: float
    spread: float
    drag: float
    too_high: float
    take_off: float


def ground_of(standing: Standing, goal: Goal, samples: Samples, take_off: float | None) -> Ground | None:
    """The present setting in every sample; none where it flies in none of them."""
    names = tuple(adjuster.name for adjuster in standing.adjusters)
    present = tuple(standing.settings.get(name, 0.0) for name in names)
    heights, trims = _from_nothing(standing, samples)
    if not np.isfinite(heights).any():
        return None
    # A sample without a state borrows the mean of the others as a place to begin from.
    start_h = np.where(np.isfinite(heights), heights, np.nanmean(heights))
    start_t = np.where(np.isfinite(trims), trims, np.nanmean(trims))
    wanted = wanted_at(goal, [float(speed) for speed in samples.speeds], take_off)
    boat = case_of(standing.present_row, standing.tables, standing.water, 1.0, 0.0).boat
    lowest = np.array(
        [
            [
                lowest_point(
                    standing.tables.hull, 0.0, sin(trim), cos(trim), sin(heel), cos(heel), boat.main.x
                )
                for trim in TRIMS
            ]
            for heel in samples.heels
        ]
    )
    flat = np.zeros((len(samples.speeds), len(names)))
    ground = Ground(
        standing, names, present, samples, start_h, start_t, flat, flat,
        np.array([one.low for one in wanted]), np.array([one.high for one in wanted]), goal.keep["tip_depth"],
        lowest, climb_speeds(take_off, float(np.median(samples.speeds))),
    )  # fmt: skip
    return _with_slopes(ground)


def seen(ground: Ground, settings: Sequence[Setting]) -> list[Seen]:
    """Every setting over every sample."""
    if not settings:
        return []
    standing = ground.standing
    rows = np.array([row_of(ground, one) for one in settings])
    heights, trims = _states_of_rows(ground, settings, rows - standing.present_row)
    low, high = ground.low[None, :, None], ground.high[None, :, None]
    clear = np.empty_like(heights)
    for w, table in enumerate(ground.lowest):
        clear[:, w] = heights[:, w] + np.interp(trims[:, w], TRIMS, table)
    tips = _tip_depths(ground, rows, heights, trims)
    have = np.isfinite(heights)
    flies = have & (clear > 0.0)
    in_band = flies & (heights >= low) & (heights <= high)
    safe = in_band & (tips >= ground.tip)
    drags = _drags(ground, rows, heights, trims)
    take_offs = take_offs_of(standing, ground.climb_speeds, rows - standing.present_row)
    found = []
    for i, setting in enumerate(settings):
        mine = heights[i][have[i]]
        above = np.where(have[i], heights[i] - ground.high[:, None], -1.0)
        found.append(
            Seen(
                setting,
                float(flies[i].mean()),
                float(in_band[i].mean()),
                float(safe[i].mean()),
                safe[i].mean(axis=0),
                float(mine.mean()) if mine.size else 0.0,
                float(mine.std()) if mine.size else 0.0,
                float(drags[i]),
                float(above.mean(axis=1).max()),
                take_offs[i],
            )
        )
    return found


def states_of(ground: Ground, settings: Sequence[Setting]) -> tuple[Floats, Floats]:
    """Height [m] and trim [rad] of every setting in every sample [settings, W, B]; nan without one."""
    rows = np.array([row_of(ground, one) for one in settings])
    return _states_of_rows(ground, settings, rows - ground.standing.present_row)


def _states_of_rows(ground: Ground, settings: Sequence[Setting], rows: Floats) -> tuple[Floats, Floats]:
    """The same; `rows` is what each setting changes of the boat's row as it stands."""
    standing, samples = ground.standing, ground.samples
    steps = np.array(settings) - np.array(ground.present)
    crew_x = standing_names(standing).index("crew.x")
    winds, boats = len(samples.speeds), len(samples.doubts)
    heights = np.full((len(settings), winds, boats), np.nan)
    trims = np.full_like(heights, np.nan)
    for w in range(winds):
        changes = (rows[:, None, :] + samples.doubts[None, :, :]).reshape(-1, len(standing.row))
        changes[:, crew_x] += samples.places[w]
        begin_h = (ground.heights[w][None, :] + (steps @ ground.slopes_h[w])[:, None]).reshape(-1)
        begin_t = (ground.trims[w][None, :] + (steps @ ground.slopes_t[w])[:, None]).reshape(-1)
        found_h, found_t = _balanced(standing, samples, w, changes, begin_h, begin_t)
        heights[:, w], trims[:, w] = found_h.reshape(-1, boats), found_t.reshape(-1, boats)
    return heights, trims


def row_of(ground: Ground, setting: Setting) -> Floats:
    """The boat's row with this setting."""
    standing = ground.standing
    return turned(standing.row, standing.adjusters, dict(zip(ground.names, setting, strict=True)))


def standing_names(standing: Standing) -> tuple[str, ...]:
    """Names of the numbers of a standing boat's row."""
    return row_names((len(standing.row) - N_SCALARS) // LINK_SIZE)


def tip_depths(ground: Ground, settings: Sequence[Setting], heights: Floats, trims: Floats) -> Floats:
    """Depth of the shallowest foil tip [m], heel taken in; flat foils without sweep."""
    return _tip_depths(ground, np.array([row_of(ground, one) for one in settings]), heights, trims)


def _tip_depths(ground: Ground, rows: Floats, heights: Floats, trims: Floats) -> Floats:
    """The same of these rows."""
    names = standing_names(ground.standing)
    at = {name: rows[:, names.index(name)][:, None, None] for name in (
        "main.x", "main.z", "main.span", "rudder.x", "rudder.z", "rudder.span")}  # fmt: skip
    heels = ground.samples.heels[None, :, None]
    depths = []
    for foil in ("main", "rudder"):
        ahead = at[f"{foil}.x"] - at["main.x"]
        up = at[f"{foil}.z"] * np.cos(heels) + 0.5 * at[f"{foil}.span"] * np.abs(np.sin(heels))
        depths.append(-(heights + ahead * np.sin(trims) + np.cos(trims) * up))
    return np.asarray(np.minimum(depths[0], depths[1]), dtype=float)


def _from_nothing(standing: Standing, samples: Samples) -> tuple[Floats, Floats]:
    """The state that counts in every sample of the present setting [W, B]; nan where there is none."""
    names = standing_names(standing)
    base, everything = standing.present_row, np.arange(len(standing.row))
    crew_x = names.index("crew.x")
    winds, boats = len(samples.speeds), len(samples.doubts)
    heights, trims = np.full((winds, boats), np.nan), np.full((winds, boats), np.nan)
    for w in range(winds):
        changes = samples.doubts.copy()
        changes[:, crew_x] += samples.places[w]
        states, counts, _ = all_states(
            base, standing.tables, standing.water, everything, changes, np.full(boats, samples.speeds[w]),
            float(samples.heels[w]), float(samples.pulls[w]),
        )  # fmt: skip
        for b in range(boats):
            # Of several stable states the lowest that flies; a state above it is a breach.
            stable = [one for one in states[b][: counts[b]] if one[2] > 0.0]
            if stable:
                flying = [one for one in stable if one[0] > 0.0] or stable
                best = min(flying, key=lambda one: float(one[0]))
                heights[w, b], trims[w, b] = best[0], best[1]
    return heights, trims


def _balanced(
    standing: Standing, samples: Samples, w: int, changes: Floats, heights: Floats, trims: Floats
) -> tuple[Floats, Floats]:
    """The states near these beginnings at one wind; searched from nothing where that does not settle."""
    base = standing.present_row
    numbers = np.flatnonzero(np.abs(changes).max(axis=0) > 0.0)
    moved = np.ascontiguousarray(changes[:, numbers])
    speeds = np.full(len(changes), samples.speeds[w])
    heel, pull = float(samples.heels[w]), float(samples.pulls[w])
    near = np.stack([heights, trims], axis=1)
    states, outcomes = near_states(
        base, standing.tables, standing.water, numbers, moved, speeds, near, heel, pull
    )
    good = outcomes == SOLVED
    found_h = np.where(good, states[:, 0], np.nan)
    found_t = np.where(good, states[:, 1], np.nan)
    lost = np.flatnonzero(~good)
    if lost.size:
        again, counts, _ = all_states(
            base,
            standing.tables,
            standing.water,
            numbers,
            np.ascontiguousarray(moved[lost]),
            speeds[lost],
            heel,
            pull,
        )
        for k, i in enumerate(lost):
            stable = [one for one in again[k][: counts[k]] if one[2] > 0.0]
            flying = [one for one in stable if one[0] > 0.0] or stable
            if flying:
                best = min(flying, key=lambda one: float(one[0]))
                found_h[i], found_t[i] = best[0], best[1]
    return found_h, found_t


def _with_slopes(ground: Ground) -> Ground:
    """What one step of each adjuster does in each wind, from steps solved either way."""
    standing = ground.standing
    alone = ground._replace(samples=ground.samples._replace(doubts=np.zeros((1, len(standing.row)))))
    alone = alone._replace(heights=ground.heights[:, :1], trims=ground.trims[:, :1])
    count = len(standing.adjusters)
    by_h, by_t = np.zeros((count, len(ground.low))), np.zeros((count, len(ground.low)))
    for k, adjuster in enumerate(standing.adjusters):
        at = ground.present[k]
        ends = (min(at + 1.0, adjuster.greatest), max(at - 1.0, adjuster.least))
        moved = [tuple(end if j == k else s for j, s in enumerate(ground.present)) for end in ends]
        heights, trims = states_of(alone, moved)
        apart = max(ends[0] - ends[1], 1e-9)
        by_h[k] = np.nan_to_num((heights[0] - heights[1])[:, 0] / apart)
        by_t[k] = np.nan_to_num((trims[0] - trims[1])[:, 0] / apart)
    return ground._replace(slopes_h=by_h.T, slopes_t=by_t.T)


def _drags(ground: Ground, rows: Floats, heights: Floats, trims: Floats) -> list[float]:
    """Drag over weight of the boat as it stands, averaged over those of DRAG_AT with a state; nan without."""
    standing, samples = ground.standing, ground.samples
    winds = sorted({min(int(share * len(samples.speeds)), len(samples.speeds) - 1) for share in DRAG_AT})
    names, base = standing_names(standing), standing.present_row
    changes = rows - base
    weights = (rows[:, names.index("mass.mass")] + rows[:, names.index("crew.mass")]) * standing.water.gravity
    shares = np.full((len(rows), len(winds)), np.nan)
    for k, w in enumerate(winds):
        have = np.flatnonzero(np.isfinite(heights[:, w, 0]))
        moved = np.flatnonzero(np.abs(changes[have]).max(axis=0, initial=0.0) > 0.0)
        seen = looks_at(
            base, standing.tables, standing.water, moved, np.ascontiguousarray(changes[have][:, moved]),
            np.full(len(have), samples.speeds[w]), np.stack([heights[have, w, 0], trims[have, w, 0]], axis=1),
            float(samples.heels[w]), float(samples.pulls[w]),
        )  # fmt: skip
        shares[have, k] = seen[:, DRAG] / weights[have]
    return [float(one[np.isfinite(one)].mean()) if np.isfinite(one).any() else float("nan") for one in shares]
