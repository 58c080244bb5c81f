"""Going through a few independent things on two cores, in a command that answers once and ends.

Plain physics holds one core; a copy of the process takes every other item. Only where that is safe and
wanted: a door that is one short command says so once (`allow`), the process has no other threads, and the
system copies processes cheaply. Everywhere else, and where the copy is lost on its way, the items are gone
through here.
"""

import os
import sys
import threading
from collections.abc import Callable, Sequence
from typing import Any, TypeVar

Item = TypeVar("Item")
Done = TypeVar("Done")

_allowed = False


def allow() -> None:
    """From now on this process may copy itself: called by the door of a short command."""
    global _allowed
    _allowed = True


def side_by_side(work: Callable[[Item], Done], items: Sequence[Item]) -> list[Done]:
    """[work(item) for item in items]; each result depends on its own item alone and can be pickled."""
    if len(items) < 2 or not _allowed or not _can():
        return [work(item) for item in items]
    import multiprocessing  # here: 10 ms that other commands need not spend

    context = multiprocessing.get_context("fork")
    receiving, sending = context.Pipe(duplex=False)
    with receiving:
        helper = context.Process(target=_send, args=(sending, work, items[1::2]), daemon=True)
        helper.start()
        sending.close()  # so that the end of the helper is seen here
        first = [work(item) for item in items[::2]]
        try:
            second = receiving.recv()
        except EOFError:  # the helper ended without an answer; what went wrong shows here, if it does again
            second = [work(item) for item in items[1::2]]
        helper.join()
    done: list[Done] = [first[0]] * len(items)
    done[::2], done[1::2] = first, second
    return done


def _can() -> bool:
    # Copying is unsafe beside threads, which a copy does not get, and on macOS beside its own libraries.
    return sys.platform == "linux" and threading.active_count() == 1 and len(os.sched_getaffinity(0)) > 1


def _send(sending: Any, work: Callable[[Item], Done], items: Sequence[Item]) -> None:
    try:
        sending.send([work(item) for item in items])
        sending.close()
    except BaseException:
        os._exit(1)  # without a trace: the one that waits does it again and says it
