"""The strip of a tie: where its edges run and how it ends."""

from dataclasses import dataclass
from typing import Final, Literal, get_args

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge

TieEnd = Literal["square", "pointed"]
TIE_ENDS: Final[tuple[str, ...]] = get_args(TieEnd)
POINT: Final = 0.5  # depth of a pointed end, as a share of the width there: a right angle at its tip


@dataclass(frozen=True, eq=False)
class Strip:
    """The straight part of a tie, on paper, its middle running from `start` in `direction`.

    Attributes:
        start: shape (2,), mm.
        direction: unit vector, shape (2,).
        length: mm, to the tip where it is pointed.
        width, end_width: across at the start and at the end, mm.
        end: square or pointed.
    """

    start: Array
    direction: Array
    length: float
    width: float
    end_width: float
    end: TieEnd

    @property
    def across(self) -> Array:
        """Unit vector on the right of the direction: upwards when the strip runs to the left."""
        return np.array([self.direction[1], -self.direction[0]])

    @property
    def starts(self) -> tuple[Array, Array]:
        """Where its upper and its lower edge start."""
        half = self.width / 2 * self.across
        return self.start + half, self.start - half

    @property
    def corners(self) -> tuple[Array, ...]:
        """The corners of its end, from the upper edge to the lower one: two, or three with the tip between."""
        tip = self.start + self.length * self.direction
        half = self.end_width / 2 * self.across
        if self.end == "square":
            return tip + half, tip - half
        shoulder = tip - POINT * self.end_width * self.direction
        return shoulder + half, tip, shoulder - half

    def end_edges(self, piece: str, line: str) -> tuple[Edge, ...]:
        """The finished edges of the end, from the upper edge to the lower one; the line is directed upwards."""
        corners = self.corners
        count = len(corners) - 1
        return tuple(
            Edge(
                f"{piece}.{line}" + (f"-{k + 1}" if k else ""), line, "right", "finished",
                Curve.straight(corners[k], corners[k + 1]), ((count - k - 1) / count, (count - k) / count),
                pointed_end=k + 1 < count,
            )
            for k in range(count)
        )  # fmt: skip
