"""Lengths in the sentences of steps and refusals, in the unit of whoever reads them.

A step is carried out without knowing who will read why it failed. Whoever asks says once in what unit, for all that
is done inside `worded_in`; centimetres unless told. Nothing but wording depends on it.
"""

import math
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Final

from panelwright.body.units import Unit

_unit: Final[ContextVar[Unit]] = ContextVar("unit of the words", default=Unit.CM)
_INCH: Final = Unit.INCH.millimetres
SIXTEENTHS: Final = 16
_SAME: Final = 1e-6  # of a sixteenth


@contextmanager
def worded_in(unit: Unit) -> Iterator[None]:
    """Lengths are worded in this unit inside."""
    token = _unit.set(unit)
    try:
        yield
    finally:
        _unit.reset(token)


def words_unit() -> Unit:
    """The unit that lengths are worded in here."""
    return _unit.get()


def length_words(length: float, digits: int = 1) -> str:
    """A length that was found, mm: `4.3 cm`, or inches to the nearest sixteenth, `1 11/16 in`.

    Args:
        digits: decimal places of centimetres; millimetres have one fewer.
    """
    unit = words_unit()
    if not math.isfinite(length):
        return f"{length:g} {unit.value}"
    if unit is Unit.INCH:
        sixteenths = round(abs(length) / _INCH * SIXTEENTHS)
        if sixteenths == 0 and abs(length) >= 0.05:
            return "less than 1/16 in"
        return f"{'-' if length < 0 and sixteenths else ''}{_fraction(sixteenths)} in"
    return f"{length / unit.millimetres:.{digits if unit is Unit.CM else digits - 1}f} {unit.value}"


def given_words(length: float) -> str:
    """A length that somebody gave, or a round limit of ours, mm: `0.8 cm`, or inches as `length_words` has them."""
    unit = words_unit()
    return length_words(length) if unit is Unit.INCH else f"{length / unit.millimetres:g} {unit.value}"


def range_words(least: float, most: float, between: str = "to") -> str:
    """What may be given, mm: `0.8 to 12 cm`; in inches to the sixteenth inside the limits, so that both can be typed.

    Args:
        between: `to` or `and`.
    """
    unit = words_unit()
    if unit is not Unit.INCH:
        return f"{least / unit.millimetres:g} {between} {most / unit.millimetres:g} {unit.value}"
    low = math.ceil(least / _INCH * SIXTEENTHS - _SAME)
    high = math.floor(most / _INCH * SIXTEENTHS + _SAME)
    return f"{_signed(low)} {between} {_signed(high)} in"


def least_words(least: float) -> str:
    """The least that will do, mm: `1.5 cm`, or inches rounded up: to a millimetre, or a sixteenth of an inch."""
    unit = words_unit()
    if unit is not Unit.INCH:
        return given_words(math.ceil(round(least, 6)))
    return f"{_signed(math.ceil(least / _INCH * SIXTEENTHS - _SAME))} in"


def _signed(sixteenths: int) -> str:
    return f"{'-' if sixteenths < 0 else ''}{_fraction(abs(sixteenths))}"


def _fraction(sixteenths: int) -> str:
    """`1 11/16` of an inch, reduced."""
    whole, part = divmod(sixteenths, SIXTEENTHS)
    if part == 0:
        return str(whole)
    shared = math.gcd(part, SIXTEENTHS)
    fraction = f"{part // shared}/{SIXTEENTHS // shared}"
    return f"{whole} {fraction}" if whole else fraction
