"""A place on an upright edge of the pattern, told in two ways: mm up the edge, or mm up its line on the block."""

from dataclasses import dataclass

from panelwright.design.body_chart import BodyChart
from panelwright.design.track import Track
from panelwright.pattern.edge import Edge
from panelwright.pattern.piece import Piece


@dataclass(frozen=True, eq=False)
class UprightEdge:
    """An edge of a piece that lies on an upright line of the block, as steps have left it.

    Attributes:
        chart: of the block's half.
        piece, edge: of the pattern.
    """

    chart: BodyChart
    piece: Piece
    edge: Edge

    @property
    def upright(self) -> int:
        """Number of the line on the chart.

        Raises:
            DesignError: if the edge lies on another kind of line.
        """
        return self.chart.index(self.edge.line)

    def on_line(self, arc: float) -> float:
        """mm up the line for mm up the edge."""
        low, high = self.edge.interval
        return (low + arc / self.edge.curve.length * (high - low)) * self.chart.uprights[self.upright].length

    def track(self, arc: float) -> Track:
        """Along the edge, by mm up it, held at `arc`."""
        curve = self.edge.line_curve
        return Track(self.piece.id, arc, 0.0, curve.length, curve.point)
