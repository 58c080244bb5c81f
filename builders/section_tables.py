"""Rebuilds the section table that the package ships (src/foilwright/water/data/sections.npz and
sections.json).

    pip install 'foilwright[polars]'
    python builders/section_tables.py [folder]

Takes a few minutes. The same versions of the two libraries give the same file, byte for byte on the same
machine.
"""

from __future__ import annotations

import hashlib
import json
import sys
from concurrent.futures import ProcessPoolExecutor
from importlib.metadata import version
from pathlib import Path

import numpy as np
from section_shapes import section_coordinates

from foilwright.water import section_data as data
from foilwright.water import section_polars as polars

HERE = Path(__file__).resolve().parent
Member = tuple[str, int, int]


def member_rows(member: Member) -> tuple[np.ndarray, np.ndarray]:
    """Line [trip, combination, re, 4] and polar [trip, combination, re, alpha, 4] of one member of a family.

    Combination 0 is the flap at rest, the others are each share at each flap angle but zero
    (data.combination).
    """
    outline = section_coordinates(*member)
    rest = int(np.argmin(np.abs(polars.FLAP)))
    rest_line, rest_polar = polars.tabulate(outline, 0.0)
    turned = [polars.tabulate(outline, share) for share in data.SHARES]
    line = np.zeros((2, data.COMBINATIONS, len(polars.LOG_RE), 4))
    polar = np.zeros((2, data.COMBINATIONS, len(polars.LOG_RE), len(polars.ALPHA), 4))
    line[:, 0], polar[:, 0] = rest_line[:, :, 0], rest_polar[:, :, 0]
    for s, (share_line, share_polar) in enumerate(turned):
        for f in range(len(polars.FLAP)):
            if f == rest:  # only the hinge moment depends on the share
                line[:, data.REST_OF[s]], polar[:, data.REST_OF[s]] = (
                    share_line[:, :, f],
                    share_polar[:, :, f],
                )
            else:
                c = data.combination(s, f)
                line[:, c], polar[:, c] = share_line[:, :, f], share_polar[:, :, f]
    return line, polar


def main(folder: Path) -> None:
    members: list[Member] = [
        (family, camber, thickness)
        for family in data.FAMILIES for camber in data.CAMBERS for thickness in data.THICKNESSES
    ]  # fmt: skip
    with ProcessPoolExecutor(2) as pool:
        rows = list(pool.map(member_rows, members))
    shape = (len(data.FAMILIES), len(data.CAMBERS), len(data.THICKNESSES))
    line = np.array([r[0] for r in rows]).reshape(*shape, *rows[0][0].shape)
    polar = np.array([r[1] for r in rows]).reshape(*shape, *rows[0][1].shape)
    folder.mkdir(parents=True, exist_ok=True)
    target = folder / "sections.npz"
    # Not compressed: unpacking it cost every command 25 ms, and a wheel is compressed anyway.
    np.savez(target, line=data.coded_line(line), polar=data.coded_polar(polar))
    note = {
        "what": "Two-dimensional section data: NACA four-digit, 63- and 64-series, with plain flaps",
        "made by": {name: version(name) for name in ("neuralfoil", "aerosandbox", "numpy", "scipy")},
        "model": polars.MODEL,
        "critical amplification": polars.CRITICAL_AMPLIFICATION,
        "trip, share of chord": polars.TRIP,
        "families": list(data.FAMILIES),
        "camber, per cent or ten times design lift": list(data.CAMBERS),
        "thickness, per cent": list(data.THICKNESSES),
        "flap shares": list(data.SHARES),
        "alpha, deg": [
            float(np.degrees(polars.ALPHA[0])),
            float(np.degrees(polars.ALPHA[-1])),
            len(polars.ALPHA),
        ],
        "flap, deg": [
            float(np.degrees(polars.FLAP[0])),
            float(np.degrees(polars.FLAP[-1])),
            len(polars.FLAP),
        ],
        "reynolds": [float(np.exp(polars.LOG_RE[0])), float(np.exp(polars.LOG_RE[-1])), len(polars.LOG_RE)],
        "sha256": hashlib.sha256(target.read_bytes()).hexdigest(),
    }
    (folder / "sections.json").write_text(json.dumps(note, indent=2) + "\n")
    print(target, target.stat().st_size, "bytes")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else HERE.parent / "src/foilwright/water/data")
