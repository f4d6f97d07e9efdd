"""Ctrl-C while a lay is searched for: the search ends, and the best lay so far is used."""

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from types import FrameType


@dataclass(eq=False)
class Interrupt:
    """Whether Ctrl-C has been pressed."""

    asked: bool = False


@contextmanager
def first_interrupt() -> Iterator[Interrupt]:
    """Note the first Ctrl-C instead of ending the program; the second ends it as ever."""
    interrupt = Interrupt()
    if threading.current_thread() is not threading.main_thread():  # signals reach the main thread alone
        yield interrupt
        return

    def heard(_number: int, _frame: FrameType | None) -> None:
        signal.signal(signal.SIGINT, before)
        interrupt.asked = True

    before = signal.signal(signal.SIGINT, heard)
    try:
        yield interrupt
    finally:
        signal.signal(signal.SIGINT, before)
