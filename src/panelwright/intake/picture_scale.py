"""From the pixels of a picture to millimetres of the paper that it shows."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Self

import numpy as np

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array, cross
from panelwright.pattern.mark import Point

# Places that were pressed nearer to one another, pixels, give no scale.
LEAST_APART: Final = 5.0
# A rectangle that is seen at a corner this flat is looked at along the table.
_LEAST_CORNER: Final = math.radians(15.0)


@dataclass(frozen=True, eq=False)
class PictureScale:
    """How a picture shows the paper.

    Attributes:
        matrix: of the projection from pixels (x to the right, y down) to mm of the paper (y up), shape (3, 3). It
            never mirrors.
    """

    matrix: Array

    @classmethod
    def of_length(cls, a: Point, b: Point, length: float) -> Self:
        """From two places that are `length` mm apart, in a picture taken straight from above.

        Raises:
            InputError: if the two are in one place.

        >>> PictureScale.of_length((0.0, 0.0), (100.0, 0.0), 25.0).to_paper([(40.0, 20.0)]).tolist()
        [[10.0, -5.0]]
        """
        apart = math.dist(a, b)
        if apart < LEAST_APART:
            raise InputError(
                "the two ends of the known length are in one place: press two places far apart", "measured"
            )
        size = length / apart
        return cls(np.diag([size, -size, 1.0]))

    @classmethod
    def of_sheet(cls, corners: Sequence[Point], width: float, height: float) -> Self:
        """From the four corners of a rectangle in order round it, either way, which takes out the perspective.

        Args:
            corners: pixels; the first two are `width` mm apart, the second and third `height` mm.

        Raises:
            InputError: if they are no four corners of a rectangle that is looked at.
        """
        seen = np.array(corners, float) * (1.0, -1.0)
        sides = np.roll(seen, -1, axis=0) - seen
        lengths = np.hypot(*sides.T)
        turns = np.array([cross(a, b) for a, b in zip(sides, np.roll(sides, -1, axis=0), strict=True)])
        flat = math.sin(_LEAST_CORNER) * lengths * np.roll(lengths, -1)
        if lengths.min() < LEAST_APART or not (np.all(turns > flat) or np.all(turns < -flat)):
            raise InputError(
                "these are not the four corners of a rectangle, in order round it: press them anew", "measured"
            )
        up = height if turns[0] > 0 else -height
        paper = np.array([(0.0, 0.0), (width, 0.0), (width, up), (0.0, up)])
        return cls(_projection(np.array(corners, float), paper))

    def to_paper(self, pixels: Sequence[Point]) -> Array:
        """Places on the paper, mm, y up, shape (n, 2).

        Raises:
            InputError: if one lies where the picture looks over the paper's horizon.
        """
        places = np.column_stack([np.array(pixels, float).reshape(-1, 2), np.ones(len(pixels))]) @ self.matrix.T
        if np.any(places[:, 2] <= 1e-6):
            raise InputError("a point lies beyond the sheet's horizon: press the four corners anew", "measured")
        on_paper: Array = places[:, :2] / places[:, 2:]
        return on_paper


def _projection(pixels: Array, paper: Array) -> Array:
    """The matrix that carries four places to four, with a third coordinate of 1 at the middle of the pixels."""
    middle, size = pixels.mean(axis=0), float(np.abs(pixels - pixels.mean(axis=0)).max())
    rows, right = [], []
    for (x, y), (u, v) in zip((pixels - middle) / size, paper, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        right += [u, v]
    found = np.append(np.linalg.solve(np.array(rows), np.array(right)), 1.0).reshape(3, 3)
    centred = np.array([[1 / size, 0, -middle[0] / size], [0, 1 / size, -middle[1] / size], [0, 0, 1]])
    matrix: Array = found @ centred
    return matrix
