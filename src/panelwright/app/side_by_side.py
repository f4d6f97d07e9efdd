"""The same work on several things, done in several processes at once."""

import os
import pickle
import signal
from collections.abc import Callable, Generator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import active_children, get_context
from typing import Final, TypeVar

from panelwright.errors import PanelwrightError

Item = TypeVar("Item")
Result = TypeVar("Result")
# A process takes about as long to begin as the sheets of a learner: fewer things are done sooner in this one.
LEAST: Final = 4
MOST: Final = 8


def processors() -> int:
    """How many processes are worth having on this machine."""
    return min(os.cpu_count() or 1, MOST)


def side_by_side(work: Callable[[Item], Result], items: Sequence[Item], processes: int) -> Generator[Result]:
    """What comes of each item, in their order.

    Close the iterator (`contextlib.closing`) to stop the work at once.

    Args:
        work: a function of a module, since it is called in another process.
        items: what it is called with.
        processes: how many at once; 1, or for fewer than four items, this one alone. With more, a script that gets
            here needs `if __name__ == "__main__":` round what it does.

    Raises:
        PanelwrightError: if a process was ended from outside; besides, whatever the work raises.
    """
    if processes < 2 or len(items) < LEAST:
        yield from map(work, items)
        return
    pickle.dumps((work, tuple(items)))  # fails at once, where the pool would wait for ever
    # Fresh processes: a copy of one with threads, such as the board's, may never run.
    others = set(active_children())
    pool = ProcessPoolExecutor(min(processes, len(items)), get_context("spawn"), _leave_interrupts)
    done = False
    try:
        yield from pool.map(work, items)
        done = True
    except BrokenProcessPool as error:
        raise PanelwrightError(
            "a part of the work was ended from outside, perhaps for want of memory: close other programs and start "
            "again"
        ) from error
    finally:
        for process in () if done else set(active_children()) - others:
            process.terminate()
        pool.shutdown(cancel_futures=True)


def _leave_interrupts() -> None:
    """Ctrl-C is for the process that a person sees."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
