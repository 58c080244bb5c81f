"""The shape of a hull as arrays of nodes, made once when a boat is read.

Two ways in: the small parametric shape of the boat file, or a table of offsets. Both end as a `HullShape`,
which the kernels of `hull.py` walk through. The hull is symmetric about its centreline; only one side is
stored.
"""

from typing import NamedTuple

import numpy as np

from foilwright.measures import Floats


class HullShape(NamedTuple):
    """Sections of a hull from the transom forward, each a string of nodes from the centreline to the deck
    edge.

    The bottom is straight between two nodes; the deck is straight from edge to edge.
    """

    x: Floats
    """[stations] distance forward of the transom [m], ascending"""
    y: Floats
    """[stations, nodes] half-breadth [m]; the first node stands on the centreline, y = 0"""
    z: Floats
    """[stations, nodes] height above the keel line [m]"""
    width: Floats
    """[stations] length of hull that a station stands for [m]: weights of the lengthwise sum"""
    area: Floats
    """[stations, nodes - 1] outside area of the panel before each node, one side, obliquity included [m2]"""
    low: Floats
    """[stations] lowest z of the station [m]"""
    beam: Floats
    """[stations] greatest half-breadth of the station [m]"""
    lowest: float
    """lowest z of the hull [m]"""
    widest: float
    """greatest half-breadth of the hull [m]"""
    length: float
    """from the first to the last station [m]"""


class HullNumbers(NamedTuple):
    """The parametric hull: metres, and shares without unit."""

    length: float
    beam: float
    """at the deck, at the widest place [m]"""
    depth: float
    """from keel line to deck [m]"""
    widest_at: float
    """place of greatest beam as a share of the length from the transom"""
    bow_exponent: float
    """fullness of the bow in plan: 1 an ellipse, larger is finer"""
    bow_beam_share: float
    """beam at the stem head over greatest beam; 0 for a pointed bow"""
    transom_beam_share: float
    """beam of the transom over greatest beam"""
    bow_rise: float
    """height of the bottom above the keel line at the bow [m]"""
    stern_rise: float
    """height of the bottom above the keel line at the transom [m]"""
    section_exponent: float
    """section z ~ y^p: 2 a parabola, larger is boxier"""


def parametric_hull(numbers: HullNumbers, stations: int = 21, nodes: int = 7) -> HullShape:
    """Hull from ten numbers.

    With X the place of greatest beam: forward of it u = (x - X)/(L - X),
    half-beam = beam/2 [w + (1 - w)(1 - u^2)^(n/2)], keel height = bow_rise u^2.2; aft of it u = (X - x)/X,
    half-beam = beam/2 [1 - (1 - t) u^2], keel height = stern_rise u^2. Section: z = z_k + (D - z_k) (y /
    half-beam)^p.

    Nodes are evenly spaced in y. Between its ends each is lowered by a twelfth of h^2 z'' so that the
    straight segments enclose, segment by segment, the area of the curve, which a polygon on the curve itself
    would not reach.
    """
    x = np.linspace(0.0, numbers.length, stations)
    half_beam, keel = parametric_lines(numbers, x)
    share = np.linspace(0.0, 1.0, nodes)
    p = numbers.section_exponent
    curve = share**p
    step = share[1]
    curve[1:-1] -= step * step / 12.0 * p * (p - 1.0) * share[1:-1] ** (p - 2.0)
    curve = np.maximum(curve, 0.0)
    y = half_beam[:, None] * share[None, :]
    z = keel[:, None] + (numbers.depth - keel)[:, None] * curve[None, :]
    return hull_from_offsets(x, y, z)


def parametric_lines(numbers: HullNumbers, x: Floats) -> tuple[Floats, Floats]:
    """Half-beam at the deck and keel height [m] at the places x [m] of the parametric hull."""
    place = numbers.widest_at * numbers.length
    forward = np.clip((x - place) / (numbers.length - place), 0.0, 1.0)
    aft = np.clip((place - x) / place, 0.0, 1.0)
    w, t = numbers.bow_beam_share, numbers.transom_beam_share
    bow = w + (1.0 - w) * (1.0 - forward**2) ** (0.5 * numbers.bow_exponent)
    half_beam = 0.5 * numbers.beam * np.where(x >= place, bow, 1.0 - (1.0 - t) * aft**2)
    keel = numbers.bow_rise * forward**2.2 + numbers.stern_rise * aft**2
    return half_beam, keel


def hull_from_offsets(x: Floats, y: Floats, z: Floats) -> HullShape:
    """Hull from a table of offsets: x [stations], y and z [stations, nodes], metres, from the transom
    forward.

    Nodes run from the bottom at the centreline outward and up to the deck edge; if the first node of any
    station stands off the centreline (a flat bottom given by its edge), a node on the centreline at the same
    height is put before it. A closed bow is a station whose half-breadths are zero. Raises ValueError when
    the table is no hull.
    """
    x = np.ascontiguousarray(x, dtype=np.float64)
    y = np.ascontiguousarray(y, dtype=np.float64)
    z = np.ascontiguousarray(z, dtype=np.float64)
    matching = x.ndim == 1 and y.ndim == 2 and y.shape == z.shape and y.shape[0] == x.size
    if not matching or x.size < 3 or y.shape[1] < 2:
        raise ValueError(
            "offsets need 3 or more stations and, alike, tables of 2 or more nodes a station; "
            f"got x {x.shape}, half-breadths {y.shape}, heights {z.shape}"
        )
    if not (np.isfinite(x).all() and np.isfinite(y).all() and np.isfinite(z).all()):
        raise ValueError("offsets hold a value that is not a number")
    if not (np.diff(x) > 0.0).all():
        raise ValueError("stations must run forward from the transom, each ahead of the one before")
    if (y < 0.0).any():
        raise ValueError("a half-breadth is negative; give one side, counted from the centreline")
    if (y[:, 0] > 0.0).any():
        y = np.hstack([np.zeros((x.size, 1)), y])
        z = np.hstack([z[:, :1], z])
    return HullShape(
        x=x,
        y=y,
        z=z,
        width=station_widths(x),
        area=panel_areas(x, y, z),
        low=z.min(axis=1),
        beam=y.max(axis=1),
        lowest=float(z.min()),
        widest=float(y.max()),
        length=float(x[-1] - x[0]),
    )


def resampled(x: Floats, y: Floats, z: Floats, stations: int = 21) -> HullShape:
    """Hull from a coarse table of offsets, with evenly spaced stations faired in between.

    Every line of nodes follows a monotone cubic along x (Fritsch & Butland 1984), so that nothing overshoots
    a measured station. The table's stations need not be even.
    """
    x = np.asarray(x, dtype=np.float64)
    places = np.linspace(x[0], x[-1], stations)
    return hull_from_offsets(
        places,
        np.maximum(_monotone_cubic(x, np.asarray(y, dtype=np.float64), places), 0.0),
        _monotone_cubic(x, np.asarray(z, dtype=np.float64), places),
    )


def station_widths(x: Floats) -> Floats:
    """Weights of the lengthwise sum [m]: trapezoids, or Gregory's third-order end correction on even
    stations.

    Gregory: 3/8, 7/6, 23/24, 1, 1 ... 1, 23/24, 7/6, 3/8 times the spacing. All weights stay near 1, so the
    sum does not ripple when the waterline passes from one station to the next, as it would with Simpson's
    1-4-2-4-1.
    """
    gaps = np.diff(x)
    width = np.zeros_like(x)
    width[:-1] += 0.5 * gaps
    width[1:] += 0.5 * gaps
    if x.size >= 7 and np.ptp(gaps) < 1e-9 * (x[-1] - x[0]):
        end = gaps[0] * np.array([3.0 / 8.0, 7.0 / 6.0, 23.0 / 24.0])
        width[:3] = end
        width[-3:] = end[::-1]
    return width


def panel_areas(x: Floats, y: Floats, z: Floats) -> Floats:
    """Outside area [m2] of the panel between node j and j + 1 that a station stands for, one side.

    The tangent along the hull times the segment across it, so that the slope of the sides in plan and of the
    bottom in profile counts: area = width |t_x cross t_s|.
    """
    width = station_widths(x)
    along_y = np.gradient(0.5 * (y[:, 1:] + y[:, :-1]), x, axis=0)
    along_z = np.gradient(0.5 * (z[:, 1:] + z[:, :-1]), x, axis=0)
    dy, dz = np.diff(y, axis=1), np.diff(z, axis=1)
    oblique = np.sqrt(dy**2 + dz**2 + (along_y * dz - along_z * dy) ** 2)
    return np.ascontiguousarray(width[:, None] * oblique)


def _monotone_cubic(x: Floats, values: Floats, places: Floats) -> Floats:
    """Columns of values at x, read at places, by piecewise cubics with harmonic-mean slopes."""
    gaps = np.diff(x)[:, None]
    rise = np.diff(values, axis=0) / gaps
    slope = np.zeros_like(values)
    before, after = gaps[:-1], gaps[1:]
    same_way = rise[:-1] * rise[1:] > 0.0
    w1, w2 = 2.0 * after + before, after + 2.0 * before
    with np.errstate(divide="ignore", invalid="ignore"):
        mean = (w1 + w2) / (w1 / rise[:-1] + w2 / rise[1:])
    slope[1:-1] = np.where(same_way, mean, 0.0)
    slope[0], slope[-1] = rise[0], rise[-1]
    i = np.clip(np.searchsorted(x, places, side="right") - 1, 0, x.size - 2)
    h = gaps[i]
    t = ((places - x[i]) / gaps[i, 0])[:, None]
    t2, t3 = t * t, t * t * t
    return np.asarray(
        (2 * t3 - 3 * t2 + 1) * values[i]
        + (t3 - 2 * t2 + t) * h * slope[i]
        + (3 * t2 - 2 * t3) * values[i + 1]
        + (t3 - t2) * h * slope[i + 1]
    )
