"""What the tests of several processes have done in them: another process has to find it by its name."""

import os
import signal
from collections.abc import Mapping
from threading import Event

from panelwright.errors import InputError


def doubled(number: int) -> tuple[int, int]:
    if number == 13:
        raise InputError("thirteen is not doubled here", "item 13")
    return 2 * number, os.getpid()


def first_alone(number: int) -> int:
    if number:
        Event().wait()
    return number


def ended(number: int) -> int:
    os.kill(os.getpid(), signal.SIGTERM)
    return number


def size_of(mapping: Mapping[str, int]) -> int:
    return len(mapping)
