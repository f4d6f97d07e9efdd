"""A drawing: strokes, fills and lettering on named layers, in mm on paper, y up."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final, Literal

import numpy as np

from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen
from panelwright.drawing.typeface import typeface
from panelwright.geometry.arrays import Array
from panelwright.pattern.mark import Point

Anchor = Literal["left", "middle", "right"]
Bounds = tuple[float, float, float, float]

# From the lowest to the topmost.
LAYERS: Final = (
    "sheet",
    "old block line",
    "level lines",
    "stitch lines",
    "cut lines",
    "notches",
    "grain and fold",
    "text",
    "joining marks",
)


@dataclass(frozen=True)
class Stroke:
    """A line drawn along a path."""

    path: Path
    pen: Pen
    layer: str

    @property
    def bounds(self) -> Bounds:
        """(left, bottom, right, top), mm."""
        return self.path.bounds

    def moved(self, shift: Sequence[float]) -> "Stroke":
        """The same, shifted by (x, y) mm."""
        return replace(self, path=self.path.moved(shift))


@dataclass(frozen=True)
class Fill:
    """An area filled with a shade: 0 is black, 1 is the paper."""

    path: Path
    shade: float
    layer: str

    @property
    def bounds(self) -> Bounds:
        """(left, bottom, right, top), mm."""
        return self.path.bounds

    def moved(self, shift: Sequence[float]) -> "Fill":
        """The same, shifted by (x, y) mm."""
        return replace(self, path=self.path.moved(shift))


@dataclass(frozen=True)
class Lettering:
    """One line of text.

    Attributes:
        text: what is written.
        at: on the baseline: the text's left end, middle or right end, as `anchor` says, mm.
        size: the em, mm.
        angle: of the baseline, radians, anticlockwise.
        bold: set in the heavier weight.
    """

    text: str
    at: Point
    size: float
    layer: str = "text"
    angle: float = 0.0
    anchor: Anchor = "left"
    bold: bool = False

    @property
    def width(self) -> float:
        """Length of the text, mm."""
        return typeface(self.bold).width(self.text, self.size)

    @property
    def start(self) -> Point:
        """Where the baseline starts, mm."""
        back = {"left": 0.0, "middle": 0.5, "right": 1.0}[self.anchor] * self.width
        return self.at[0] - back * math.cos(self.angle), self.at[1] - back * math.sin(self.angle)

    @cached_property
    def box(self) -> Array:
        """The four corners of the room that it takes, shape (4, 2), anticlockwise from the lower left."""
        face = typeface(self.bold)
        (x, y), c, s = self.start, math.cos(self.angle), math.sin(self.angle)
        low, high, wide = -face.descent * self.size, face.ascent * self.size, self.width
        corners = ((0.0, low), (wide, low), (wide, high), (0.0, high))
        return np.array([(x + a * c - u * s, y + a * s + u * c) for a, u in corners])

    @property
    def bounds(self) -> Bounds:
        """(left, bottom, right, top) of its box, mm."""
        low, high = self.box.min(axis=0), self.box.max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])

    def moved(self, shift: Sequence[float]) -> "Lettering":
        """The same, shifted by (x, y) mm."""
        return replace(self, at=(self.at[0] + shift[0], self.at[1] + shift[1]))


Sign = Stroke | Fill | Lettering


@dataclass(frozen=True)
class Drawing:
    """Signs in the order in which they are drawn; layers are sorted when it is put on a surface."""

    signs: tuple[Sign, ...] = ()

    def __add__(self, other: "Drawing") -> "Drawing":
        return Drawing(self.signs + other.signs)

    def __iter__(self) -> Iterator[Sign]:
        return iter(self.signs)

    @cached_property
    def bounds(self) -> Bounds:
        """(left, bottom, right, top) of all that is drawn, mm."""
        boxes = np.array([sign.bounds for sign in self.signs])
        low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])

    def moved(self, shift: Sequence[float]) -> "Drawing":
        """The drawing shifted by (x, y) mm."""
        return Drawing(tuple(sign.moved(shift) for sign in self.signs))

    def within(self, window: Bounds) -> "Drawing":
        """The signs of which something may show in a window (left, bottom, right, top); none is cut."""
        return Drawing(tuple(sign for sign in self.signs if meets(sign.bounds, window)))

    @classmethod
    def together(cls, drawings: Iterable["Drawing"]) -> "Drawing":
        """Several drawings as one."""
        return cls(tuple(sign for drawing in drawings for sign in drawing.signs))


def meets(a: Bounds, b: Bounds) -> bool:
    """Whether two rectangles share a point."""
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]
