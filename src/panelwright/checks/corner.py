"""A corner where a finished edge meets a seam or a fold."""

import math
from dataclasses import dataclass

from panelwright.checks.outline import is_sound
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge
from panelwright.pattern.mark import Point, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Span


@dataclass(frozen=True)
class Corner:
    """The corner where one edge of a piece ends and the next starts.

    Attributes:
        piece: the piece.
        before: the edge that ends here.
        finished: the finished one of the two edges.
        angle: the piece's inner angle, radians.
    """

    piece: Piece
    before: Edge
    finished: Edge
    angle: float

    @property
    def pointed(self) -> bool:
        """Whether the maker asked for a point here."""
        return self.before.pointed_end

    @property
    def at(self) -> Point:
        """Where it is on the piece, mm."""
        return as_point(self.before.curve.end)


def finished_corner(piece: Piece, edge: Edge, at_end: bool) -> Corner | None:
    """The corner at an end of an edge whose neighbour there is finished, or None (also of an unsound outline)."""
    other = piece.after(edge) if at_end else piece.before(edge)
    before = edge if at_end else other
    if other.kind != "finished" or not is_sound(piece):
        return None
    return Corner(piece, before, other, piece.inner_angle(before))


def chain_corner(pattern: Pattern, span: Span, at_end: bool) -> Corner | None:
    """The finished corner in which a seam's chain ends (or starts, at the start of `span`), or None."""
    edge, share = pattern.edge(span), span.end if at_end else span.start
    length = edge.curve.length
    for end, edge_end in ((0.0, False), (1.0, True)):
        if abs(share - end) * length <= TOLERANCES.seam:
            return finished_corner(pattern.piece(span.piece), edge, edge_end)
    return None


def degrees(angle: float) -> str:
    """An angle in radians as degrees with two decimals."""
    return f"{math.degrees(angle):.2f}°"
