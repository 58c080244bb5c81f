"""Writes tests/documents/data/outline_0012.json: what NeuralFoil makes of a NACA 0012 given by its outline.

    pip install 'foilwright[polars]'
    python builders/outline_table.py

With it the ordinary tests walk the whole way from a boat file's `section_outline` to a flight without the
extra; `tests/documents/test_section_outline.py` holds it against the extra where that is installed.
"""

from __future__ import annotations

import json
import sys
from importlib.metadata import version
from pathlib import Path

import numpy as np

from foilwright.water.section_polars import tabulate

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from tests.documents.test_section_outline import STORED, symmetric_outline  # noqa: E402

FIGURES = 5


def main() -> None:
    """Tabulate and write."""
    outline = symmetric_outline(0.12)
    line, polar = tabulate(np.array(outline), 0.0)
    kept = {
        "made by": {name: version(name) for name in ("neuralfoil", "aerosandbox")},
        "line": np.vectorize(shortened)(line).tolist(),
        "polar": np.vectorize(shortened)(polar).tolist(),
    }
    STORED.parent.mkdir(exist_ok=True)
    STORED.write_text(json.dumps(kept, separators=(",", ":")) + "\n", encoding="utf-8")
    print(f"{STORED.relative_to(ROOT)}: {STORED.stat().st_size / 1000:.0f} kB")


def shortened(value: float) -> float:
    """To so many significant figures."""
    return float(f"{value:.{FIGURES}g}")


if __name__ == "__main__":
    main()
