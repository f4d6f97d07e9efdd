"""What is drawn inside a piece: level lines and guides, points, the grain line."""

from dataclasses import dataclass, replace
from typing import Final, Literal, Self

import numpy as np

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.geometry.tolerances import TOLERANCES

# How the id of a guide ends that shows where a bone lies on a seam; it bears no name.
BONE_GUIDE: Final = "-bone"
InsideKind = Literal["level", "dart", "fold", "stitch", "guide"]
MarkKind = Literal["point", "drill", "button", "eyelet"]
Point = tuple[float, float]


def as_point(array: Array) -> Point:
    """A plane point as a pair of plain floats."""
    return float(array[0]), float(array[1])


@dataclass(frozen=True)
class InsideLine:
    """A line inside a piece. A `level` runs across the whole piece, from its left edge to its right.

    Attributes:
        id: unique within the piece; of a level, the level's id.
    """

    id: str
    kind: InsideKind
    curve: Curve

    def placed(self, placement: Placement) -> Self:
        """The line moved with its piece; a mirroring placement keeps it running from left to right."""
        curve = self.curve.placed(placement)
        return replace(self, curve=curve.reversed() if placement.mirrored else curve)


@dataclass(frozen=True)
class Mark:
    """A point on a piece that the maker transfers to the cloth.

    Attributes:
        id: unique within the piece, `bust-point`.
    """

    id: str
    kind: MarkKind
    at: Point

    def placed(self, placement: Placement) -> Self:
        """The mark moved with its piece."""
        return replace(self, at=as_point(placement.points(np.array(self.at))))


@dataclass(frozen=True)
class Grain:
    """The grain line: the lengthwise thread of the cloth runs from `start` to `end`.

    Raises:
        GeometryError: if it has no length.
    """

    start: Point
    end: Point

    def __post_init__(self) -> None:
        if self.length < TOLERANCES.same_point:
            raise GeometryError("a grain line has no length")

    @property
    def vector(self) -> Array:
        """end - start, mm."""
        return np.subtract(self.end, self.start)

    @property
    def length(self) -> float:
        """Distance from start to end, mm."""
        return float(np.hypot(*np.subtract(self.end, self.start)))

    def placed(self, placement: Placement) -> Self:
        """The grain moved with its piece."""
        points = placement.points(np.array([self.start, self.end]))
        return replace(self, start=as_point(points[0]), end=as_point(points[1]))
