"""A thousand kills while saving: after each the store must open clean and hold all that was confirmed."""

import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from tests.store.killed import kill_and_look  # noqa: E402

SEED = 7
IN_ONE_STORE = 50  # so that looking at every version after every kill stays quick


def main() -> None:
    kills = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    began, confirmed, done = time.monotonic(), 0, 0
    while done < kills:
        with tempfile.TemporaryDirectory() as folder:
            some = min(IN_ONE_STORE, kills - done)
            confirmed += kill_and_look(Path(folder) / "store", some, SEED + done)
            done += some
        print(f"{done} kills, {confirmed} saves confirmed and none lost", flush=True)
    print(f"{time.monotonic() - began:.0f} s")


if __name__ == "__main__":
    main()
