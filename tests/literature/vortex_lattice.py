"""Vortex lattice of flat horseshoe panels, with or without the free surface's image: a referee for the foil
formulas.

Recipe (Katz & Plotkin, Low-Speed Aerodynamics, ch. 12): bound vortex on the quarter line of each panel,
flow tangency on its three-quarter line, trailing vortices straight aft, linear boundary condition, cosine
spacing of the edges along the span. Free surface at z = 0 at infinite Froude number: the potential is zero
there, so the image of the flow (u, v, w)(x, y, z) is (-u, -v, w)(x, y, -z). Here x runs aft, y across, z
up.
"""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]


class Lattice(NamedTuple):
    """Panels as rows: ends of the bound vortex, control point, unit normal, spanwise strip number."""

    left: Floats
    right: Floats
    control: Floats
    normal: Floats
    strip: Floats


def cosine_edges(span: float, strips: int) -> Floats:
    return -0.5 * span * np.cos(np.pi * np.arange(strips + 1) / strips)


def wing(span: float, root: float, taper: float, rows: int, strips: int, z: float = 0.0) -> Lattice:
    """A flat trapezoidal wing in the plane z with a straight quarter-chord line at x = 0."""
    y = cosine_edges(span, strips)
    chord = root * (1.0 - (1.0 - taper) * np.abs(2.0 * y / span))
    i = np.arange(rows)[:, None]

    def line(share: float) -> Floats:
        s = (i + share) / rows - 0.25
        shape = (rows, strips + 1)
        return np.stack([s * chord, np.broadcast_to(y, shape), np.full(shape, z)], -1)

    bound, rear = line(0.25), line(0.75)
    # halfway in the cosine angle, not in distance: converges faster (Lan 1974)
    half = -0.5 * span * np.cos(np.pi * (np.arange(strips) + 0.5) / strips)
    t = ((half - y[:-1]) / (y[1:] - y[:-1]))[None, :, None]
    control = rear[:, :-1] + t * (rear[:, 1:] - rear[:, :-1])
    n = rows * strips
    strip = np.broadcast_to(np.arange(strips), (rows, strips)).reshape(n).astype(float)
    return Lattice(
        bound[:, :-1].reshape(n, 3),
        bound[:, 1:].reshape(n, 3),
        control.reshape(n, 3),
        np.tile([0.0, 0.0, 1.0], (n, 1)),
        strip,
    )


def blade(length: float, chord: float, top: float, rows: int, strips: int) -> Lattice:
    """A vertical blade in the plane y = 0 from z = top - length (first strip) up to z = top."""
    flat = wing(length, chord, 1.0, rows, strips)

    def upright(p: Floats) -> Floats:
        return np.stack([p[:, 0], p[:, 2], p[:, 1] + top - 0.5 * length], -1)

    return Lattice(
        upright(flat.left),
        upright(flat.right),
        upright(flat.control),
        np.tile([0.0, -1.0, 0.0], (len(flat.strip), 1)),
        flat.strip,
    )


def joined(a: Lattice, b: Lattice) -> Lattice:
    def both(p: Floats, q: Floats) -> Floats:
        return np.concatenate([p, q])

    return Lattice(
        both(a.left, b.left),
        both(a.right, b.right),
        both(a.control, b.control),
        both(a.normal, b.normal),
        both(a.strip, b.strip + a.strip.max() + 1.0),
    )


def velocity(points: Floats, left: Floats, right: Floats, wake: bool = False) -> Floats:
    """Velocity (points, vortices, 3) of unit horseshoes; with wake only their two trailing legs.

    A horseshoe comes in along its left leg from far aft, crosses to the right and leaves aft.
    """
    out = np.zeros((len(points), len(left), 3))
    ends = []
    for end, sign in ((left, -1.0), (right, 1.0)):
        # each component for itself: three times as quick as np.cross and np.linalg.norm
        x, y, z = (points[:, None, i] - end[None, :, i] for i in range(3))
        d2 = y * y + z * z
        n = np.sqrt(x * x + d2)
        ends.append((x, y, z, n))
        # semi-infinite leg from the end towards +x: (x-hat cross r) (1 + x/|r|) / (4 pi d^2)
        k = sign * (1.0 + x / n) / (4.0 * np.pi * np.maximum(d2, 1e-20))
        out[..., 1] -= k * z
        out[..., 2] += k * y
    if not wake:
        (x1, y1, z1, n1), (x2, y2, z2, n2) = ends
        product = n1 * n2
        dot = x1 * x2 + y1 * y2 + z1 * z2
        k = (n1 + n2) / (4.0 * np.pi * product * np.maximum(product + dot, 1e-20))
        out[..., 0] += k * (y1 * z2 - z1 * y2)
        out[..., 1] += k * (z1 * x2 - x1 * z2)
        out[..., 2] += k * (x1 * y2 - y1 * x2)
    return out


def field(points: Floats, lattice: Lattice, surface: bool) -> Floats:
    """Velocity of unit horseshoes at the points, with the image above the surface z = 0 if wanted."""
    v = velocity(points, lattice.left, lattice.right)
    if surface:
        mirrored = points * np.array([1.0, 1.0, -1.0])
        v = v + velocity(mirrored, lattice.left, lattice.right) * np.array([-1.0, -1.0, 1.0])
    return v


def circulation(lattice: Lattice, angle: Floats, surface: bool) -> Floats:
    """Circulations [m2/s] at unit speed; angle [rad]: onset flow into each panel's normal."""
    influence = np.einsum("ijk,ik->ij", field(lattice.control, lattice, surface), lattice.normal)
    solved: Floats = np.linalg.solve(influence, -angle)
    return solved


def strip_sums(lattice: Lattice, gamma: Floats) -> tuple[Floats, Floats, Floats]:
    """Circulation of each strip's wake and the two points where it leaves, in the cross plane."""
    n = int(lattice.strip.max()) + 1
    total: Floats = np.bincount(lattice.strip.astype(int), weights=gamma, minlength=n).astype(np.float64)
    first = np.array([np.flatnonzero(lattice.strip == i)[0] for i in range(n)])
    return total, lattice.left[first, 1:], lattice.right[first, 1:]


def far_downwash(points: Floats, lattice: Lattice, gamma: Floats, surface: bool) -> Floats:
    """Velocities (v, w) far downstream at cross-plane points (y, z) of the straight wake."""
    total, left, right = strip_sums(lattice, gamma)

    def plane(p: Floats) -> Floats:
        out = np.zeros_like(p)
        for end, sign in ((left, -1.0), (right, 1.0)):
            r = p[:, None, :] - end[None]
            d2 = np.maximum(np.sum(r * r, axis=-1), 1e-20)
            k = sign * total / (2.0 * np.pi * d2)
            out[:, 0] -= np.sum(k * r[..., 1], axis=1)
            out[:, 1] += np.sum(k * r[..., 0], axis=1)
        return out

    v = plane(points)
    if surface:
        v = v + plane(points * np.array([1.0, -1.0])) * np.array([-1.0, 1.0])
    return v


def wake_drag(lattice: Lattice, gamma: Floats, surface: bool) -> float:
    """Induced drag / density at unit speed [m4/s2], from the wake far downstream (Trefftz plane).

    Stations halfway in the cosine angle of each strip, where cosine spacing makes the sum exact.
    """
    total, left, right = strip_sums(lattice, gamma)
    out = 0.0
    # a lattice may hold several surfaces: find each run of strips that join end to end
    start = 0
    for i in range(1, len(total) + 1):
        if i == len(total) or np.linalg.norm(left[i] - right[i - 1]) > 1e-9:
            ends = np.concatenate([left[start:i], right[i - 1 : i]])
            m = i - start
            theta = np.pi * (np.arange(m) + 0.5) / m
            middle = ends[0] + (ends[-1] - ends[0]) * (0.5 - 0.5 * np.cos(theta))[:, None]
            wash = far_downwash(middle, lattice, gamma, surface)
            along = right[start:i] - left[start:i]
            # force per density: U-hat x ... reduces to the wash across the strip
            across = wash[:, 1] * along[:, 0] - wash[:, 0] * along[:, 1]
            out += -0.5 * float(np.sum(total[start:i] * across))
            start = i
    return out


def wing_results(
    aspect_ratio: float, taper: float, depth_in_chords: float | None, rows: int = 10, strips: int = 60
) -> tuple[float, float, float]:
    """Lift slope [1/rad], induced-drag factor CDi pi AR / CL^2, aerodynamic centre in mean chords from the
    leading edge of the mean chord (quarter line straight): of a flat wing of mean chord 1."""
    span = aspect_ratio
    root = 2.0 / (1.0 + taper)
    z = 0.0 if depth_in_chords is None else -depth_in_chords
    surface = depth_in_chords is not None
    lattice = wing(span, root, taper, rows, strips, z)
    gamma = circulation(lattice, np.ones(len(lattice.strip)), surface)
    width = lattice.right[:, 1] - lattice.left[:, 1]
    slope = 2.0 * float(np.sum(gamma * width)) / span
    drag = 2.0 * wake_drag(lattice, gamma, surface) / span
    middle = 0.5 * (lattice.left[:, 0] + lattice.right[:, 0])
    place = float(np.sum(gamma * width * middle) / np.sum(gamma * width))
    return slope, drag * np.pi * aspect_ratio / slope**2, 0.25 + place
