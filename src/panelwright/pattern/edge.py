"""An edge: one stretch of a line as it bounds a piece."""

from dataclasses import dataclass, replace
from typing import Final, Literal, Self

from panelwright.errors import GeometryError
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement

EdgeKind = Literal["seam", "finished", "fold", "opening"]
EdgeSide = Literal["left", "right"]

HIGHEST: Final = 10.0  # times its own length that a line may run on above the block


@dataclass(frozen=True)
class Edge:
    """(line, side, interval) on a piece, with its curve and kind.

    Attributes:
        id: unique in the pattern, `SF.front-princess`.
        line: id of the line that the edge lies on.
        side: the side of the directed line that the piece lies on. A piece keeps its inside on the left
            of its outline, so an edge on the `left` of its line runs along it, on the `right` against it.
        kind: `seam` is sewn to something, `finished` is a top, hem or other finished edge, `fold` is laid
            on the fold of the cloth, `opening` is closed by a zip, lacing, hooks, ...
        curve: the edge in the sense of the outline (anticlockwise).
        interval: (from, to): the share of the line that this edge is, in the line's own direction, 0 … 1 on the
            block. A split narrows it. Above 1 a line of the block runs on towards the shoulder.
        pointed_end: the maker asked for a point at the corner where this edge ends, instead of a right
            angle at a centre or a smooth run across a seam.
    """

    id: str
    line: str
    side: EdgeSide
    kind: EdgeKind
    curve: Curve
    interval: tuple[float, float] = (0.0, 1.0)
    pointed_end: bool = False

    def __post_init__(self) -> None:
        low, high = self.interval
        if not 0.0 <= low < high <= HIGHEST:
            raise GeometryError(
                f"edge {self.id}: an interval runs from low to high within 0 to {HIGHEST:g}, not {low} to {high}"
            )

    @property
    def along_line(self) -> bool:
        """Whether the outline runs along the line here (it runs against it on a line's right side)."""
        return self.side == "left"

    @property
    def line_curve(self) -> Curve:
        """The edge's curve in the direction of its line (a seam edge upwards, whatever its piece)."""
        return self.curve if self.along_line else self.curve.reversed()

    def placed(self, placement: Placement) -> Self:
        """The edge moved with its piece; a mirroring placement turns the outline's sense round."""
        curve = self.curve.placed(placement)
        if not placement.mirrored:
            return replace(self, curve=curve)
        return replace(self, curve=curve.reversed(), side="right" if self.side == "left" else "left")

    def part(self, start: float, end: float, id: str | None = None) -> Self:
        """The stretch between two arc positions of this edge's own curve (mm, start < end)."""
        length, (low, high) = self.curve.length, self.interval
        a, b = (start / length, end / length) if self.along_line else (1 - end / length, 1 - start / length)
        return replace(
            self,
            id=id or self.id,
            curve=self.curve.between(start, end),
            interval=(max(low, low + a * (high - low)), min(high, low + b * (high - low))),
            pointed_end=self.pointed_end and end >= length,
        )
