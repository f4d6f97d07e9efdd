"""What a drawing file may hold at most, so that none takes more than some seconds and some hundred megabytes."""

from typing import Final

import numpy as np

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array

MOST_BYTES: Final = 20_000_000
MOST_POINTS: Final = 200_000
MOST_STROKES: Final = 30_000
MOST_TEXTS: Final = 5_000
MOST_VISITS: Final = 150_000
MOST_OUTLINES: Final = 300
MOST_PIECES: Final = 100
MOST_EDGES: Final = 400
# Numbers beyond this are no lengths in any unit.
LARGEST: Final = 1e9


class Allotment:
    """What is left of the limits while a drawing is read; the blocks of a bomb are counted as they unfold."""

    def __init__(self) -> None:
        self._strokes = self._points = self._texts = self._visits = 0

    def visit(self) -> None:
        """Count one thing that is looked at, drawn or not, as often as it is inserted.

        Raises:
            InputError: if that is too much.
        """
        self._visits += 1
        if self._visits > MOST_VISITS:
            raise InputError("the drawing repeats its parts without end: save it again, with its blocks dissolved")

    def stroke(self, points: int) -> None:
        """Count one line with so many points.

        Raises:
            InputError: if that is too much.
        """
        self._strokes += 1
        self._points += points
        if self._points > MOST_POINTS:
            raise InputError(f"the drawing has more than {MOST_POINTS:,} points: save the pattern's pieces alone")
        if self._strokes > MOST_STROKES:
            raise InputError(f"the drawing has more than {MOST_STROKES:,} lines: save the pattern's pieces alone")

    def text(self) -> None:
        """Count one text.

        Raises:
            InputError: if that is too much.
        """
        self._texts += 1
        if self._texts > MOST_TEXTS:
            raise InputError(f"the drawing has more than {MOST_TEXTS:,} texts: save the pattern's pieces alone")


def usable(points: Array) -> Array:
    """The points, if every number may be a length.

    Raises:
        InputError: if one is not finite, or beyond 1e9.
    """
    if not bool((np.abs(points) <= LARGEST).all()):  # False for NaN as well
        raise InputError("a coordinate is not a finite number of usual size: save the drawing again")
    return points
