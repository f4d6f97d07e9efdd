"""The same work on several things, done in several processes at once."""

import os
import pickle
import signal
from collections.abc import Callable, Generator, Sequence
from contextlib import contextmanager, suppress
from multiprocessing import get_context, resource_tracker
from multiprocessing.connection import Connection, wait
from threading import current_thread, main_thread
from typing import Final, Generic, TypeVar

Item = TypeVar("Item")
Result = TypeVar("Result")
# A process takes about as long to begin as the sheets of a learner: fewer things are done sooner in this one.
LEAST: Final = 4
MOST: Final = 8
_HEED_S: Final = 0.2


def processors() -> int:
    """How many processes are worth having on this machine."""
    return min(os.cpu_count() or 1, MOST)


def side_by_side(
    work: Callable[[Item], Result], items: Sequence[Item], processes: int, heed: Callable[[], None] = lambda: None
) -> Generator[Result]:
    """What comes of each item, in their order.

    Close the iterator (`contextlib.closing`) to stop the work at once. What fails in another process is done again in
    this one, so that an error is told as if there were no other, and a process that is ended costs nothing but time.

    Args:
        work: a function of a module, since it is called in another process; twice for an item, at worst.
        items: what it is called with.
        processes: how many at once; 1, or for fewer than four items, this one alone. With more, a script that gets
            here needs `if __name__ == "__main__":` round what it does.
        heed: called again and again while other processes are waited for; may raise, to stop the work at once.
    """
    if processes < 2 or len(items) < LEAST:
        yield from map(work, items)
        return
    pickle.dumps((work, tuple(items)))  # what cannot travel is our own fault, and told at once
    with _uninterrupted():
        helpers = [_Helper(work) for _ in range(min(processes, len(items)))]
    try:
        yield from _in_order(work, items, helpers, heed)
    finally:
        for helper in helpers:
            helper.end()


class _Helper(Generic[Item, Result]):
    """A fresh process: a copy of one with threads, such as the board's, may never run."""

    def __init__(self, work: Callable[[Item], Result]) -> None:
        context = get_context("spawn")
        self.pipe, far = context.Pipe()
        self.number = -1
        self._process = context.Process(target=_serve, args=(far, work), daemon=True)
        self._process.start()
        far.close()  # or the end of the process would not be noticed

    def give(self, number: int, item: Item) -> bool:
        """Have an item done; False where there is nobody any more."""
        with suppress(OSError):
            self.number = number
            self.pipe.send(item)
            return True
        return False

    def take(self) -> tuple[bool, list[Result]]:
        """(whether it is still there, what it made of its item: one result, or nothing)."""
        try:
            made: list[Result] = self.pipe.recv()
        except (EOFError, OSError):
            return False, []
        return True, made

    def end(self) -> None:
        """Whatever it is at."""
        self._process.kill()
        self._process.join()
        self.pipe.close()


def _in_order(
    work: Callable[[Item], Result],
    items: Sequence[Item],
    helpers: Sequence[_Helper[Item, Result]],
    heed: Callable[[], None],
) -> Generator[Result]:
    begun = 0
    busy: list[_Helper[Item, Result]] = []
    for helper in helpers:
        if helper.give(begun, items[begun]):
            busy.append(helper)
            begun += 1
    made: dict[int, list[Result]] = {}
    for number, item in enumerate(items):
        while number not in made and number < begun:
            heed()
            ready = wait([helper.pipe for helper in busy], _HEED_S)
            for helper in [each for each in busy if each.pipe in ready]:
                there, made[helper.number] = helper.take()
                if there and begun < len(items) and helper.give(begun, items[begun]):
                    begun += 1
                else:
                    busy.remove(helper)
        begun = max(begun, number + 1)
        yield from made.pop(number, []) or [work(item)]


@contextmanager
def _uninterrupted() -> Generator[None]:
    """Processes that begin here never hear Ctrl-C: the one that a person sees may tell them to end, and nobody else."""
    if current_thread() is main_thread():
        handler = signal.signal(signal.SIGINT, signal.SIG_IGN)
        try:
            yield
        finally:
            signal.signal(signal.SIGINT, handler)
    elif hasattr(signal, "pthread_sigmask"):  # another thread may only close its own ears, and hands that on as well
        resource_tracker.ensure_running()  # which would open them again, if it were begun with the first of them
        mask = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
        try:
            yield
        finally:
            signal.pthread_sigmask(signal.SIG_SETMASK, mask)
    else:
        yield


def _serve(pipe: Connection, work: Callable[[Item], Result]) -> None:
    """Do items until nobody gives any more."""
    with suppress(EOFError, OSError):
        while True:
            item = pipe.recv()
            made: list[Result] = []
            with suppress(Exception):  # it is done again, and told, where a person sees it
                made = [work(item)]
            pipe.send(made)
