"""Items shared with a copy of the process: the same list as a plain loop's, whatever becomes of the copy."""

import os
import subprocess
import sys
import threading
from collections.abc import Iterator

import pytest

from foilwright import side_by_side as module
from foilwright.side_by_side import side_by_side

ONLY_LINUX = pytest.mark.skipif(sys.platform != "linux", reason="elsewhere the items are gone through here")
HERE = os.getpid()


@pytest.fixture
def allowed(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    # The test runner has threads of its own, which take no part in this.
    monkeypatch.setattr(module, "_allowed", True)
    monkeypatch.setattr(module, "_can", lambda: True)
    yield


def test_without_leave_nothing_is_copied() -> None:
    assert side_by_side(lambda n: (n, os.getpid()), range(4)) == [(n, HERE) for n in range(4)]


@ONLY_LINUX
@pytest.mark.filterwarnings("ignore:.*multi-threaded, use of fork.*:DeprecationWarning")
@pytest.mark.usefixtures("allowed")
class TestWithACopy:
    @pytest.mark.parametrize("count", [0, 1, 2, 3, 8])
    def test_the_list_is_that_of_a_plain_loop(self, count: int) -> None:
        done = side_by_side(lambda n: (n * n, os.getpid()), range(count))
        assert [one for one, _ in done] == [n * n for n in range(count)]
        assert len({who for _, who in done}) == min(count, 2)

    def test_a_lost_copy_loses_nothing(self) -> None:
        def work(n: int) -> int:
            if os.getpid() != HERE:
                os._exit(9)
            return n

        assert side_by_side(work, range(5)) == [0, 1, 2, 3, 4]

    def test_what_goes_wrong_there_is_said_here(self) -> None:
        def work(n: int) -> int:
            if n == 3:
                raise ValueError("three")
            return n

        with pytest.raises(ValueError, match="three"):
            side_by_side(work, range(5))

    def test_what_goes_wrong_here_leaves_no_copy_behind(self) -> None:
        def work(n: int) -> int:
            if n == 2:
                raise ValueError("two")
            return n

        with pytest.raises(ValueError, match="two"):
            side_by_side(work, range(5))


def test_beside_threads_nothing_is_copied(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "_allowed", True)
    stop = threading.Event()
    other = threading.Thread(target=stop.wait)
    other.start()
    try:
        assert side_by_side(lambda n: os.getpid(), range(4)) == [HERE] * 4
    finally:
        stop.set()
        other.join()


def test_a_command_and_the_library_answer_alike() -> None:
    words = ["fly", "marram", "--sailor", "75", "--speed", "8:14:2", "--json"]
    shared = subprocess.run(
        [sys.executable, "-m", "foilwright.cli.main", *words], capture_output=True, check=True
    )
    inside = "import sys; from foilwright.cli.main import run; sys.exit(run(sys.argv[1:]))"
    alone = subprocess.run([sys.executable, "-c", inside, *words], capture_output=True, check=True)
    assert shared.stdout == alone.stdout != b""
