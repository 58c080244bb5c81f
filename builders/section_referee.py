"""Runs XFOIL 6.99 (a general-purpose section code) and stores its answers for tests/literature.

    python builders/section_referee.py OUT.csv [path of the no-op library]

N = 200 panels, Ncrit 9; angle of attack marched up from 0 and down from 0 in 0.5 deg steps; flap by GDES/FLAP
at mid-thickness. Where the packaged program stops on a floating-point trap, build and name a one-line library
that makes `_gfortran_set_fpe` do nothing: void _gfortran_set_fpe(int x) {}. Every run has a time limit:
points behind the stall can loop for ever.
"""

from __future__ import annotations

import contextlib
import csv
import os
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
from section_shapes import section_coordinates

SECTIONS = {
    "NACA 0009": ("4-digit", 0, 9), "NACA 0012": ("4-digit", 0, 12), "NACA 2412": ("4-digit", 2, 12),
    "NACA 4412": ("4-digit", 4, 12), "NACA 63-209": ("63", 2, 9), "NACA 63-212": ("63", 2, 12),
    "NACA 63-412": ("63", 4, 12), "NACA 64-210": ("64", 2, 10),
}  # fmt: skip
LIMIT_S = 15.0  # a run
COLUMNS = [
    "section",
    "flap_share",
    "flap_deg",
    "reynolds",
    "tripped",
    "alpha_deg",
    "cl",
    "cd",
    "cm",
    "cp_min",
    "ch",
]


def run(job: tuple[str, float, float, float, bool, tuple[float, ...]], preload: str) -> list[list[str]]:
    name, share, flap, reynolds, tripped, alphas = job
    with tempfile.TemporaryDirectory() as folder:
        here = Path(folder)
        outline = section_coordinates(*SECTIONS[name])
        (here / "a.dat").write_text("section\n" + "".join(f"{x:.7f} {y:.7f}\n" for x, y in outline))
        lines = ["PLOP", "G F", "", "LOAD a.dat", "PPAR", "N 200", "", ""]
        if share > 0.0:
            lines += ["GDES", "FLAP", f"{1.0 - share}", "999", "0.5", f"{flap}", "EXEC", "", "PANE"]
        lines += ["OPER", "CINC", f"VISC {reynolds}", "ITER 60"]
        if share > 0.0:
            lines += ["HINC"]
        if tripped:
            lines += ["VPAR", "XTR", "0.05", "0.05", ""]
        lines += ["PACC", "p.txt", "", *[f"ALFA {a}" for a in alphas], "PACC", "", "QUIT", ""]
        with contextlib.suppress(subprocess.TimeoutExpired):
            subprocess.run(
                ["xfoil"],
                input="\n".join(lines),
                text=True,
                cwd=here,
                timeout=LIMIT_S,
                check=False,
                env={**os.environ, "LD_PRELOAD": preload},
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
            )
        rows: list[list[str]] = []
        text = (here / "p.txt").read_text() if (here / "p.txt").exists() else ""
        heads: list[str] = []
        for line in text.splitlines():
            words = line.split()
            if words and words[0] == "alpha":
                heads = words
            elif heads and words and not line.strip().startswith("-----"):
                value = dict(zip(heads, words, strict=False))
                # XFOIL counts the hinge moment positive trailing edge up, on the whole chord squared
                hinge = f"{-float(value['Chinge']) / share**2:.4f}" if "Chinge" in value else ""
                rows.append(
                    [
                        name,
                        f"{share}",
                        f"{flap}",
                        f"{reynolds:.0f}",
                        f"{int(tripped)}",
                        value["alpha"],
                        value["CL"],
                        value["CD"],
                        value["CM"],
                        value.get("Cpmin", ""),
                        hinge,
                    ]
                )
        return rows


def jobs() -> list[tuple[str, float, float, float, bool, tuple[float, ...]]]:
    up = tuple(np.arange(0.0, 18.01, 0.5))
    down = tuple(np.arange(-0.5, -8.01, -0.5))
    found = []
    for name in SECTIONS:
        for reynolds in (2e5, 5e5, 1e6, 2e6):
            for tripped in (False, True):
                found += [(name, 0.0, 0.0, reynolds, tripped, up), (name, 0.0, 0.0, reynolds, tripped, down)]
    for name in ("NACA 0012", "NACA 63-412"):
        for share in (0.2, 0.3, 0.4):
            for flap in (-10.0, -5.0, 5.0, 10.0, 15.0):
                for tripped in (False, True):
                    found.append((name, share, flap, 1e6, tripped, tuple(np.arange(0.0, 8.01, 1.0))))
                    found.append((name, share, flap, 1e6, tripped, tuple(np.arange(-1.0, -6.01, -1.0))))
        for tripped in (False, True):  # the hinge moment of the flap at rest
            found.append((name, 0.3, 0.01, 1e6, tripped, tuple(np.arange(0.0, 8.01, 1.0))))
    return found


if __name__ == "__main__":
    library = sys.argv[2] if len(sys.argv) > 2 else ""
    with ThreadPoolExecutor(2) as pool:
        answers = list(pool.map(lambda job: run(job, library), jobs()))
    with open(sys.argv[1], "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(COLUMNS)
        for rows in answers:
            writer.writerows(rows)
    print(sum(len(rows) for rows in answers), "rows")
