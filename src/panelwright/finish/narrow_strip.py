"""Strips that are narrower than what is turned inside them: their long edges take a trimmed allowance."""

from collections.abc import Iterator, Mapping
from itertools import combinations
from typing import Final

from shapely import LineString

from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import SHOULDER
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

# The usual allowance of a narrow strap, mm (common practice).
TRIMMED: Final = 6.0
# Of a strip's width its turned edges themselves take so much, mm.
TURN: Final = 2.0


# What follows the slash in the lines of a strap that grows out of its panels.
GROWN: Final = ("strap-neckline", "strap-armhole")


def narrow_strips(pattern: Pattern) -> dict[str, float]:
    """Line id -> least distance between two finished edges that lie opposite each other in one strip, mm.

    A strip is a piece without material of the block: a strap or a tie that is sewn on. A strap that grows out of its
    panels is one too: its edges may lie on two panels, so it is as wide as its part of the shoulder seam.
    """
    found: dict[str, float] = {}
    for piece in pattern.pieces:
        for edge, width in _opposite(piece):
            found[edge.line] = min(width, found.get(edge.line, width))
    for strap, width in _at_shoulder(pattern):
        for slot in GROWN:
            line = f"{strap}/{slot}"
            found[line] = min(width, found.get(line, width))
    return found


def _at_shoulder(pattern: Pattern) -> Iterator[tuple[str, float]]:
    """(uid of the step, width at the shoulder seam over all panels together) of each grown strap, mm."""
    for seam in pattern.seams:
        for chain in (seam.a, seam.b):
            strap, _, slot = pattern.edge(chain[0]).line.rpartition("/")
            if strap and slot == SHOULDER:
                yield strap, pattern.chain_length(chain)


def trimmed(width: float, line: str, strips: Mapping[str, float]) -> float:
    """An allowance of `width` mm, or less where two of them do not lie side by side in a strip.

    In a strip of w mm, 2 · allowance + 2 mm fit at most: 10 mm twice cannot lie inside 16 mm (geometry); 6 mm can.
    """
    strip = strips.get(line)
    if strip is None or 2 * width + TURN <= strip + TOLERANCES.seam:
        return width
    return max(0.0, min(width, TRIMMED, (strip - TURN) / 2))


def _opposite(piece: Piece) -> Iterator[tuple[Edge, float]]:
    """Each finished edge with the distance to another that does not touch it, where both are longer than that.

    On a panel of the block only the two edges of a grown strap lie opposite each other.
    """
    finished = [edge for edge in piece.edges if edge.kind == "finished"]
    if piece.material:
        finished = [edge for edge in finished if edge.line.rpartition("/")[2] in GROWN]
    for one, other in combinations(finished, 2):
        if piece.after(one) == other or piece.after(other) == one or (piece.material and one.line == other.line):
            continue
        curves = [LineString(edge.curve.polyline(TOLERANCES.coarse_polyline)) for edge in (one, other)]
        width = float(curves[0].distance(curves[1]))
        if width < min(curve.length for curve in curves):
            yield one, width
            yield other, width
