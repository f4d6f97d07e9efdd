"""The material map: which part of a piece came from which block panel, and how it was moved."""

from dataclasses import dataclass, field, replace
from typing import Self

import numpy as np

from panelwright.geometry.placement import Placement
from panelwright.pattern.mark import Point


@dataclass(frozen=True)
class Region:
    """One region of a piece.

    Attributes:
        panel: id of the block panel that it was cut from.
        placement: takes the panel's own coordinates to the piece's.
        boundary: outline of the region in the piece's coordinates, or () for the whole piece.
    """

    panel: str
    placement: Placement = field(default_factory=Placement)
    boundary: tuple[Point, ...] = ()

    def placed(self, placement: Placement) -> Self:
        """The region moved with its piece."""
        points = _moved(placement, self.boundary)
        return replace(self, placement=placement.after(self.placement), boundary=points)


def _moved(placement: Placement, points: tuple[Point, ...]) -> tuple[Point, ...]:
    if not points:
        return ()
    (a, b), (c, d) = placement.matrix
    x, y = np.array(points).T
    return tuple(zip((a * x + b * y + placement.x).tolist(), (c * x + d * y + placement.y).tolist(), strict=True))
