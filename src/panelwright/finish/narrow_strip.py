"""Strips that are narrower than what is turned inside them: their long edges take a trimmed allowance."""

from collections.abc import Iterable, Iterator, Mapping
from itertools import combinations
from typing import Final

from shapely import LineString

from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge
from panelwright.pattern.piece import Piece

# The usual allowance of a narrow strap, mm (common practice).
TRIMMED: Final = 6.0
# Of a strip's width its turned edges themselves take so much, mm.
TURN: Final = 2.0


def narrow_strips(pieces: Iterable[Piece]) -> dict[str, float]:
    """Line id -> least distance between two finished edges that lie opposite each other in one strip, mm.

    A strip is a piece without material of the block: a strap or a tie that is sewn on. The edges of a strap that grows
    out of a panel are not looked at: they are edges of the panel.
    """
    found: dict[str, float] = {}
    for piece in pieces:
        if not piece.material:
            for edge, width in _opposite(piece):
                found[edge.line] = min(width, found.get(edge.line, width))
    return found


def trimmed(width: float, line: str, strips: Mapping[str, float]) -> float:
    """An allowance of `width` mm, or less where two of them do not lie side by side in a strip.

    In a strip of w mm, 2 · allowance + 2 mm fit at most: 10 mm twice cannot lie inside 16 mm (geometry); 6 mm can.
    """
    strip = strips.get(line)
    if strip is None or 2 * width + TURN <= strip:
        return width
    return max(0.0, min(width, TRIMMED, (strip - TURN) / 2))


def _opposite(piece: Piece) -> Iterator[tuple[Edge, float]]:
    """Each finished edge with the distance to another that does not touch it, where both are longer than that."""
    for one, other in combinations([edge for edge in piece.edges if edge.kind == "finished"], 2):
        if piece.after(one) == other or piece.after(other) == one:
            continue
        curves = [LineString(edge.curve.polyline(TOLERANCES.coarse_polyline)) for edge in (one, other)]
        width = float(curves[0].distance(curves[1]))
        if width < min(curve.length for curve in curves):
            yield one, width
            yield other, width
