"""Where on the outline of a piece a step of panel surgery starts or ends."""

from dataclasses import dataclass
from typing import Literal

from panelwright.body.worded_length import given_words, length_words, range_words
from panelwright.design.body_chart import closest
from panelwright.design.edge_point import LineEnd
from panelwright.design.outline_cut import OutlinePlace
from panelwright.design.position import spoken
from panelwright.errors import DesignError
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece

LEFT = "/left"
FARTHEST = 1000.0  # mm
WearerSide = Literal["right", "left"]


@dataclass(frozen=True)
class OutlinePoint:
    """A place on a line where it bounds a piece: by a level that meets the line, a distance or a fraction.

    Attributes:
        line: id of any line, `side` or `hem/line`.
        level: id of a level that meets the line there; None for a distance or a fraction.
        offset: mm up the line from the level.
        distance: mm from the end.
        fraction: share of what the piece has of the line, from the end.
        end: where distance and fraction start: at the lower end of an upright line, at the centre-front end of one
            that runs round (`start`), or at the other.
        side: of a piece drawn for both sides of the wearer, on which it is.

    Raises:
        DesignError: unless it is given in one of the three ways, within its limits.
    """

    line: str
    level: str | None = None
    offset: float = 0.0
    distance: float | None = None
    fraction: float | None = None
    end: LineEnd = "start"
    side: WearerSide = "right"

    def __post_init__(self) -> None:
        ways = [way for way in (self.level, self.distance, self.fraction) if way is not None]
        if len(ways) != 1:
            raise DesignError(
                f"a place on the {spoken(self.line)} line is a level, a distance or a fraction: give one of them",
                self.line,
            )
        if self.offset and self.level is None:
            raise DesignError(f"an offset on the {spoken(self.line)} line needs a level to start from", self.line)
        if not abs(self.offset) <= FARTHEST or not 0.0 <= (self.distance or 0.0) <= FARTHEST:
            given = self.offset or self.distance or 0.0
            raise DesignError(
                f"{given_words(given)} along the {spoken(self.line)} line is not within {range_words(0.0, FARTHEST)}",
                self.line,
            )
        if not 0.0 <= (self.fraction or 0.0) <= 1.0:
            raise DesignError(f"{self.fraction:g} of the {spoken(self.line)} line is not between 0 and 1", self.line)

    def on(self, piece: Piece) -> OutlinePlace:
        """The place on a piece's outline.

        Raises:
            DesignError: if the piece has no such edge, the level does not meet it, or it ends before that place.
        """
        edges = edges_on(piece, self.line, self.side)
        whole = sum(edge.curve.length for edge in edges)
        way = self._way(piece, edges, whole)
        if not -1e-6 <= way <= whole + 1e-6:
            beyond = way - whole if way > whole else -way
            raise DesignError(
                f"the place lies {length_words(beyond)} beyond the {spoken(self.line)} edge of {spoken_piece(piece)}, "
                f"which is {length_words(whole)} long; move it by that much",
                self.line,
            )
        for edge in edges:
            length = edge.curve.length
            if way <= length or edge is edges[-1]:
                arc = min(max(way, 0.0), length)
                return OutlinePlace(edge.id, arc if edge.along_line else length - arc)
            way -= length
        raise AssertionError("a line has an edge")

    def _way(self, piece: Piece, edges: tuple[Edge, ...], whole: float) -> float:
        """mm along the line from its start on the piece."""
        if self.level is not None:
            return _level_way(piece, edges, self.level) + self.offset
        way = self.distance if self.distance is not None else (self.fraction or 0.0) * whole
        return way if self.end == "start" else whole - way


def edges_on(piece: Piece, line: str, side: WearerSide = "right") -> tuple[Edge, ...]:
    """A piece's edges on a line, in the line's own sense.

    Raises:
        DesignError: if there are none.
    """
    found = piece.on_line(line)
    if any(edge.id.endswith(LEFT) for edge in found) and not all(edge.id.endswith(LEFT) for edge in found):
        found = tuple(edge for edge in found if edge.id.endswith(LEFT) == (side == "left"))
    if not found:
        names = sorted({edge.line for edge in piece.edges})
        raise DesignError(
            f"{spoken_piece(piece)} has no edge on the line {spoken(line)}{closest(line, names)}", piece.id
        )
    return tuple(sorted(found, key=lambda edge: edge.interval))


def _level_way(piece: Piece, edges: tuple[Edge, ...], level: str) -> float:
    lines = [line for line in piece.inside if line.id == level or line.id.startswith(f"{level}-")]
    passed = 0.0
    for edge in edges:
        for line in lines:
            for end in (line.curve.start, line.curve.end):
                arc, gap = edge.line_curve.nearest(end)
                if gap < TOLERANCES.seam:
                    return passed + arc
        passed += edge.curve.length
    raise DesignError(
        f"the {spoken(level)} level does not meet the {spoken(edges[0].line)} edge of {spoken_piece(piece)}; give "
        "another level, a distance or a fraction",
        piece.id,
    )


def named_piece(pattern: Pattern, id: str) -> Piece:
    """The outer piece with that code.

    Raises:
        DesignError: if there is none; the sentence lists those there are.
    """
    known = [piece.id for piece in pattern.pieces if piece.layer == "outer"]
    if id not in known:
        raise DesignError(f"there is no piece {id!r} here{closest(id, known)}", id)
    return pattern.piece(id)
