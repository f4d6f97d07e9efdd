"""Compiling inner loops to machine code."""

from collections.abc import Callable
from typing import Any, Final, TypeVar, cast

from numba import njit

Function = TypeVar("Function", bound=Callable[..., Any])

# Sums may be taken in any order, so that several are taken at once; for loops where nothing is infinite or no number.
_ANY_ORDER: Final = {"nnan", "nsz", "reassoc", "contract"}


def compiled(function: Function) -> Function:
    """The function in machine code; it runs without the interpreter's lock.

    The code is kept beside the function's file or in the user's cache. Where neither can be written it is made anew
    in every process, which takes some seconds.
    """
    return _made(function, fastmath=False)


def compiled_in_any_order(function: Function) -> Function:
    """The same for a loop that may take several steps at once."""
    return _made(function, fastmath=_ANY_ORDER)


def _made(function: Function, **options: Any) -> Function:
    options |= {"nogil": True, "error_model": "numpy"}
    try:
        return cast("Function", njit(cache=True, **options)(function))
    except RuntimeError:
        return cast("Function", njit(**options)(function))
