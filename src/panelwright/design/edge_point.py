"""Where along an edge: for ties, facings and pieces that have no levels."""

from dataclasses import dataclass
from typing import Literal

from panelwright.body.worded_length import given_words, length_words, range_words
from panelwright.design.body_chart import closest
from panelwright.errors import DesignError
from panelwright.pattern.edge import EdgeSide
from panelwright.pattern.mark import Point, as_point
from panelwright.pattern.pattern import Pattern

LineEnd = Literal["start", "end"]


@dataclass(frozen=True)
class EdgePoint:
    """A place along a line of the pattern as it is now: for ties, facings and pieces without levels.

    Attributes:
        line: id of any line, `top` or `neck/line`.
        distance: mm from the end; None when `fraction` is given.
        fraction: share of the line's length from the end; None when `distance` is given.
        end: `start` is the lower end of an upright line, the centre-front end of one that runs round.
        side: which side of the line's two edges is meant where it has two.

    Raises:
        DesignError: unless just one of `distance` and `fraction` is given, within 0 … 5 m or 0 … 1.
    """

    line: str
    distance: float | None = None
    fraction: float | None = None
    end: LineEnd = "start"
    side: EdgeSide | None = None

    def __post_init__(self) -> None:
        if (self.distance is None) == (self.fraction is None):
            raise DesignError(f"give a distance along {self.line} or a fraction of it: one of the two", self.line)
        if self.distance is not None and not 0.0 <= self.distance <= 5000.0:
            raise DesignError(
                f"{given_words(self.distance)} along {self.line} is not between {range_words(0.0, 5000.0, 'and')}",
                self.line,
            )
        if self.fraction is not None and not 0.0 <= self.fraction <= 1.0:
            raise DesignError(f"{self.fraction:g} of {self.line} is not between 0 and 1", self.line)


@dataclass(frozen=True)
class EdgePlace:
    """An `EdgePoint` on the pattern: `arc` mm from the edge's start in the outline's own sense."""

    piece: str
    edge: str
    arc: float
    point: Point


def resolve_edge_point(point: EdgePoint, pattern: Pattern) -> EdgePlace:
    """Where an edge point lies on the pattern.

    Raises:
        DesignError: if no edge lies on the line, or the distance is longer than the line.
    """
    found = [
        (piece, edge)
        for piece, edge in pattern.pieces_on_line(point.line)
        if point.side in (None, edge.side) and piece.layer == "outer"
    ]
    if not found:
        raise DesignError(
            f"no edge lies on {point.line!r}{closest(point.line, [line.id for line in pattern.lines])}", point.line
        )
    side = point.side or found[0][1].side
    found = sorted(((p, e) for p, e in found if e.side == side), key=lambda pair: pair[1].interval)
    whole = sum(edge.curve.length for _, edge in found)
    way = point.distance if point.distance is not None else (point.fraction or 0.0) * whole
    if way > whole + 1e-6:
        raise DesignError(
            f"{length_words(way)} along {point.line} is past its end: it is {length_words(whole)} long", point.line
        )
    left = way if point.end == "start" else whole - way
    for piece, edge in found:
        length = edge.curve.length
        if left <= length or edge is found[-1][1]:
            arc = min(left, length) if edge.along_line else max(length - left, 0.0)
            return EdgePlace(piece.id, edge.id, arc, as_point(edge.curve.point(arc)))
        left -= length
    raise DesignError(f"no edge lies on {point.line!r}", point.line)
