"""Forty kills while saving: the store opens clean and nothing that was confirmed is lost."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.slow
@pytest.mark.skipif(os.name == "nt", reason="kills by POSIX signal")
def test_forty_kills(tmp_path):
    """In a process of its own, since it forks."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.store.killed", str(tmp_path / "store"), "40", "1"],
        cwd=ROOT,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    assert int(done.stdout) > 40
