"""The markers of the reference sheet: which stands where, and on which of its four strips.

The patterns are numbers 0 to 51 of the open ArUco dictionary of 5 by 5 fields (Garrido-Jurado and others, "Automatic
generation and detection of highly reliable fiducial markers under occlusion", Pattern Recognition 47, 2014; values as in
OpenCV's DICT_5X5_100, Apache License 2.0). They stand here so that the sheet prints without OpenCV.
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
_CODES: Final = (
    0x145B2BC,
    0x01C06E6,
    0x1AF0EDD,
    0x10395F7,
    0x1AEB524,
    0x1D4082D,
    0x0D3D7EC,
    0x0E2146B,
    0x10D6132,
    0x1313FA5,
    0x13CEE03,
    0x1A2DAC0,
    0x1E62B11,
    0x05E7166,
    0x1FCFCA8,
    0x051E37F,
    0x097A758,
    0x0BEA26F,
    0x0F64DC4,
    0x1061DE8,
    0x12DDA75,
    0x150E440,
    0x16B0CA1,
    0x0BA12DE,
    0x19CD023,
    0x1A59972,
    0x1C3CE8B,
    0x0224246,
    0x03B9672,
    0x024223B,
    0x027376E,
    0x0368873,
    0x040D0CE,
    0x04AAAC8,
    0x04643BA,
    0x07A6FEA,
    0x0998AAC,
    0x082D101,
    0x09AAD1D,
    0x0863C72,
    0x0AD2825,
    0x0A52F9E,
    0x0D849F7,
    0x0C309D9,
    0x0DA7E31,
    0x0E9627A,
    0x0E9B997,
    0x0F94806,
    0x0F59125,
    0x0F6B7D7,
    0x11B58E4,
    0x11AD279,
)


@dataclass(frozen=True)
class Marker:
    """A printed square of 7 by 7 fields: a black border round 5 by 5 that tell its number.

    Attributes:
        number: in the dictionary.
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
