"""The markers of the reference sheet: which stands where, and on which of its four strips.

The patterns are our own, 5 by 5 fields in a black border: drawn by chance, and kept where at least 8 fields differ from
every other pattern, and from itself, however it is turned.
"""

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from panelwright.drawing.drawing import Bounds
from panelwright.drawing.paper import PAPERS, Paper
from panelwright.geometry.arrays import Array

Strip = Literal["top", "right", "bottom", "left"]
STRIPS: Final[tuple[Strip, ...]] = ("top", "right", "bottom", "left")
FIELDS: Final = 5
SIDE: Final = 24.0
MARGIN: Final = 10.0
ACROSS: Final = 6
DOWN: Final = 9
PER_SHEET: Final = 2 * ACROSS + 2 * (DOWN - 2)
# Each paper has its own markers, so that a photo tells which sheet it shows.
FIRST: Final = {"A4": 0, "Letter": PER_SHEET}
DIFFERING: Final = 8  # fields, at least
_CODES: Final = (
    0x08101EB,
    0x1D23364,
    0x0D5A751,
    0x0B4F3E6,
    0x0537698,
    0x14EB91A,
    0x0AAC897,
    0x078E708,
    0x07123AC,
    0x15F6A51,
    0x1AC948C,
    0x1947F58,
    0x054968E,
    0x1AB06BB,
    0x09DE10D,
    0x0CD3288,
    0x123372A,
    0x0D829A9,
    0x1D9595E,
    0x0601D8B,
    0x1714037,
    0x1B4584D,
    0x0F56091,
    0x1665B9C,
    0x01A939A,
    0x1C71F00,
    0x0EFD965,
    0x1D5C0BC,
    0x135E7B9,
    0x0CB6A62,
    0x14CDE0D,
    0x0E1C5A7,
    0x157DAB3,
    0x128D112,
    0x0DC5611,
    0x1C67CFA,
    0x043E8A8,
    0x0E026FD,
    0x16D6145,
    0x0C40396,
    0x0874EEE,
    0x10E1663,
    0x0A0215E,
    0x116F782,
    0x1A853F4,
    0x1652EC8,
    0x1F78219,
    0x19B2B90,
    0x005BD28,
    0x07AB9D1,
    0x01FE8DA,
    0x0FF4C1D,
)


@dataclass(frozen=True)
class Marker:
    """A printed square of 7 by 7 fields: a black border round 5 by 5 that tell its number.

    Attributes:
        number: of its pattern.
        strip: the one that carries it.
        left, bottom: its lower left corner on the uncut sheet, mm from the sheet's.
    """

    number: int
    strip: Strip
    left: float
    bottom: float

    @property
    def corners(self) -> Array:
        """Upper left, upper right, lower right, lower left, shape (4, 2), mm on the uncut sheet, y up."""
        return np.array([self.left, self.bottom]) + SIDE * np.array([(0, 1), (1, 1), (1, 0), (0, 0)], float)

    @property
    def white(self) -> tuple[tuple[int, int], ...]:
        """(column, row) of each white field, from 0 to 4, the upper left first."""
        code = _CODES[self.number]
        last = FIELDS * FIELDS - 1
        return tuple((k % FIELDS, k // FIELDS) for k in range(last + 1) if code >> (last - k) & 1)


def patterns() -> Array:
    """Every pattern, shape (52, 5, 5), the upper row first: 1 where a field is white."""
    last = FIELDS * FIELDS - 1
    fields = [[code >> (last - k) & 1 for k in range(last + 1)] for code in _CODES]
    return np.array(fields, float).reshape(-1, FIELDS, FIELDS)


def markers(paper: str) -> tuple[Marker, ...]:
    """Those of the sheet on `A4` or `Letter` paper: the upper row, the lower row, then right and left from above."""
    page, first = PAPERS[paper], FIRST[paper]
    xs, ys = _places(page.width, ACROSS), _places(page.height, DOWN)[::-1]
    places: list[tuple[Strip, float, float]] = [("top", x, ys[0]) for x in xs]
    places += [("bottom", x, ys[-1]) for x in xs]
    places += [("right", xs[-1], y) for y in ys[1:-1]]
    places += [("left", xs[0], y) for y in ys[1:-1]]
    return tuple(Marker(first + k, *place) for k, place in enumerate(places))


def strip_bounds(paper: str) -> dict[Strip, Bounds]:
    """(left, bottom, right, top) of each strip on the uncut sheet, mm: the cuts run midway between markers."""
    page = PAPERS[paper]
    left, low = (inner_edge(page.width, ACROSS), inner_edge(page.height, DOWN))
    right, high = page.width - left, page.height - low
    return {
        "top": (0.0, high, page.width, page.height),
        "right": (right, low, page.width, high),
        "bottom": (0.0, 0.0, page.width, low),
        "left": (0.0, low, left, high),
    }


def window(page: Paper) -> Bounds:
    """(left, bottom, right, top) of the part inside the strips, mm."""
    left, low = inner_edge(page.width, ACROSS), inner_edge(page.height, DOWN)
    return left, low, page.width - left, page.height - low


def inner_edge(length: float, count: int) -> float:
    """How far a strip along the edge of a sheet reaches into it, mm."""
    return MARGIN + SIDE + (_pitch(length, count) - SIDE) / 2


def _pitch(length: float, count: int) -> float:
    return (length - 2 * MARGIN - SIDE) / (count - 1)


def _places(length: float, count: int) -> list[float]:
    return [MARGIN + k * _pitch(length, count) for k in range(count)]
