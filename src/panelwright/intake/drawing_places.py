"""Places on the outline of a piece: which edge is nearest, and where along the whole outline that is."""

from collections.abc import Sequence
from typing import Final

import numpy as np
import shapely

from panelwright.geometry.arrays import Array
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.intake.drawing_stroke import Stroke
from panelwright.intake.drawn_edge import DrawnEdge

# What is nearer than this lies on a line, mm.
ON_THE_LINE: Final = 1.0


class OutlinePlaces:
    """The edges of an outline, to find places on them."""

    def __init__(self, edges: Sequence[DrawnEdge]) -> None:
        self.curves = [edge.curve for edge in edges]
        self._lines = np.array([shapely.LineString(c.polyline(TOLERANCES.coarse_polyline)) for c in self.curves])

    def nearest(self, at: Array) -> int:
        """The edge nearest to a point."""
        off = shapely.distance(self._lines, shapely.Point(at))
        close = np.flatnonzero(off <= off.min() + 2 * TOLERANCES.coarse_polyline)[:8]
        return int(min(close, key=lambda k: self.curves[k].nearest(at)[1]))

    def arc(self, at: Array) -> float:
        """Arc position along the whole outline of the place nearest to a point, mm."""
        k = self.nearest(at)
        return sum(curve.length for curve in self.curves[:k]) + self.curves[k].nearest(at)[0]

    def point(self, arc: float) -> Array:
        """The place at an arc position along the whole outline."""
        for curve in self.curves:
            if arc <= curve.length:
                return curve.point(arc)
            arc -= curve.length
        return self.curves[-1].end

    def has(self, stroke: Stroke) -> bool:
        """Whether a line lies on one of them."""
        curve = self.curves[self.nearest(stroke.middle)]
        return all(curve.nearest(at)[1] < ON_THE_LINE for at in (stroke.start, stroke.middle, stroke.end))
