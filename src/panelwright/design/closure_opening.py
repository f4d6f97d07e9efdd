"""How far a closure opens its line."""

from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString

from panelwright.body.worded_length import least_words, length_words
from panelwright.design.body_chart import half_chart
from panelwright.design.position import Height, arc_on, spoken
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array
from panelwright.pattern.closure import ClosurePlace
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import BUST
from panelwright.pattern.mark import MarkKind, Point, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

SHORTEST: Final = 30.0  # mm that open at least
_ROUNDING: Final = 1e-6
_PLACES: Final = 33  # where room beside the edge is measured
LEFT_SEWN: Final = 15.0  # mm; a shorter bit below the opening opens too


@dataclass(frozen=True)
class Opening:
    """The stretch of an upright edge that opens, from `low` up to the upper edge, mm from the edge's lower end.

    Attributes:
        uid: of the step.
        place: which line.
        piece, edge: where it lies. Of a lapped closure the centre line, of every other the edge as it is cut.
        low: where it ends; 0 at the hem.
        bust: mm from the lower end to the bust level, or None where that does not meet the edge.
    """

    uid: str
    place: ClosurePlace
    piece: Piece
    edge: Edge
    low: float = 0.0
    bust: float | None = None

    @classmethod
    def of(
        cls,
        uid: str,
        place: ClosurePlace,
        pattern: Pattern,
        piece: Piece,
        edge: Edge,
        low: float = 0.0,
    ) -> "Opening":
        """The opening down to `low`, held to the hem where hardly anything would be left sewn.

        Raises:
            DesignError: if it opens less than 3 cm.
        """
        held = 0.0 if low < LEFT_SEWN else low
        if edge.curve.length - held < SHORTEST:
            raise DesignError(
                f"it would open {length_words(max(0.0, edge.curve.length - held))} of the {spoken(edge.line)} edge; "
                f"open at least {least_words(SHORTEST)}",
                piece.id,
            )
        return cls(uid, place, piece, edge, held, pattern.level_place(edge, piece, BUST))

    @property
    def high(self) -> float:
        """Where it starts: the upper edge, mm from the lower end."""
        return self.edge.curve.length

    @property
    def length(self) -> float:
        """Of the edge that opens, mm."""
        return self.high - self.low

    @property
    def to_hem(self) -> bool:
        """Whether it runs out at the hem."""
        return self.low == 0.0

    @property
    def words(self) -> str:
        """`Centre back`."""
        return spoken(self.place).capitalize()

    def at(self, height: float, inwards: float = 0.0) -> Point:
        """The place on the piece `height` mm up the edge and `inwards` mm square to it into the piece."""
        curve = self.edge.line_curve
        point, along = curve.frame(height)
        left = 1.0 if self.edge.along_line else -1.0
        inward: Array = left * inwards * np.array([-along[1], along[0]])
        return as_point(point + inward)

    def clear(self, inwards: float, from_ends: float) -> tuple[float, float]:
        """Lowest and highest place `inwards` mm from the edge that lies in the piece and `from_ends` mm away from its
        upper edge and hem; mm up the edge. The second comes out below the first where there is none."""
        heights = np.append(np.arange(self.low + from_ends, self.high - from_ends, 1.0), self.high - from_ends)
        places = self._places(heights, inwards)
        away = self._away(places, (self.piece.before(self.edge), self.piece.after(self.edge)))
        free = heights[(away >= from_ends - _ROUNDING) & shapely.intersects(self.piece.outline, places)]
        return (float(free[0]), float(free[-1])) if len(free) else (self.high, self.low)

    def room(self, inwards: float, low: float, high: float) -> float:
        """Least distance of the places between two heights, `inwards` mm from the edge, from the other seams, mm."""
        beside = {self.edge.id, self.piece.before(self.edge).id, self.piece.after(self.edge).id}
        others = tuple(edge for edge in self.piece.edges if edge.id not in beside)
        return float(self._away(self._places(np.linspace(low, high, _PLACES), inwards), others).min())

    def _places(self, heights: Array, inwards: float) -> NDArray[np.object_]:
        return np.asarray(shapely.points([self.at(float(height), inwards) for height in heights]))

    def _away(self, places: NDArray[np.object_], edges: tuple[Edge, ...]) -> Array:
        lines = [LineString(edge.curve.polyline()) for edge in edges]
        away: Array = np.min([shapely.distance(line, places) for line in lines], axis=0)
        return away


@dataclass(frozen=True)
class Spot:
    """A mark to be put on the piece: `height` mm up the opening's edge, `inwards` mm square to it into the piece."""

    kind: MarkKind
    name: str
    height: float
    inwards: float = 0.0


def height_on(block: Pattern, edge: Edge, height: Height) -> float:
    """Where a height of the wearer lies on an upright edge, mm up from its lower end; may lie beyond it.

    Raises:
        DesignError: if the block lacks the line or the level.
    """
    chart = half_chart(block)
    upright = chart.index(edge.line)
    share = arc_on(chart, upright, height) / chart.uprights[upright].length
    low, high = edge.interval
    return (share - low) / (high - low) * edge.curve.length
