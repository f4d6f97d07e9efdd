"""What the tests of several processes have done in them: another process has to find it by its name."""

import os
import signal
from collections.abc import Mapping
from multiprocessing import parent_process
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


def ended_elsewhere(number: int) -> tuple[int, int]:
    if parent_process() is not None:
        os.kill(os.getpid(), signal.SIGKILL)
    return number, os.getpid()


def interrupted(number: int) -> tuple[int, int]:
    if parent_process() is not None:
        os.kill(os.getpid(), signal.SIGINT)
    return number, os.getpid()


def ended_at_four(number: int) -> tuple[int, int]:
    return ended_elsewhere(number) if number == 4 else (number, os.getpid())


def divided(number: int) -> float:
    return 1 / number


def where(_number: int) -> int:
    return os.getpid()


def size_of(mapping: Mapping[str, int]) -> int:
    return len(mapping)
