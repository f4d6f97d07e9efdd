"""Rule 4, an edge that is to be sewn: all of it lies in a seam, and no part of it is joined twice."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import pairwise

from panelwright.body.worded_length import length_words
from panelwright.checks.design_words import edge_words
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge
from panelwright.pattern.mark import as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

# (low, high) arc positions, mm.
Stretch = tuple[float, float]


def check_sewn_edges(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`unsewn-edge` and `sewn-twice` errors."""
    pattern = cutting.pattern
    sewn: dict[str, list[Stretch]] = defaultdict(list)
    joined: dict[str, dict[str, list[Stretch]]] = defaultdict(lambda: defaultdict(list))
    for seam in pattern.seams:
        for span in seam.a + seam.b:
            length = pattern.edge(span).curve.length
            low, high = sorted((span.start * length, span.end * length))
            sewn[span.edge].append((low, high))
            if seam.kind in ("join", "dart"):
                joined[span.edge][span.hand].append((low, high))
    return tuple(
        finding
        for piece in pattern.pieces
        for edge in piece.edges
        for finding in (*_unsewn(pattern, piece, edge, sewn[edge.id]), *_twice(pattern, piece, edge, joined[edge.id]))
    )


def _unsewn(pattern: Pattern, piece: Piece, edge: Edge, stretches: list[Stretch]) -> Iterator[Finding]:
    """The longest stretch of a seam edge that is in no seam."""
    if edge.kind != "seam":
        return
    length = edge.curve.length
    covered, missing, start = 0.0, 0.0, 0.0
    for low, high in [*sorted(stretches), (length, length)]:
        if low - covered > missing:
            missing, start = low - covered, covered
        covered = max(covered, high)
    if missing > TOLERANCES.seam:
        message = (
            f"{piece.label}: {length_words(missing, 2)} of its {edge_words(pattern, edge.line)} is to be sewn, but is "
            "in no seam."
        )
        remedy = "Join the edge to its neighbour, or make it an opening or a finished edge."
        at = as_point(edge.curve.point(start + missing / 2))
        yield Finding("unsewn-edge", "error", edge.id, missing, TOLERANCES.seam, message, remedy, piece.id, at)


def _twice(pattern: Pattern, piece: Piece, edge: Edge, stretches: dict[str, list[Stretch]]) -> Iterator[Finding]:
    laps = ((before[1] - after[0], after[0]) for hand in stretches.values() for before, after in pairwise(sorted(hand)))
    lap, start = max(laps, default=(0.0, 0.0))
    if lap > TOLERANCES.seam:
        message = (
            f"{piece.label}: {length_words(lap, 2)} of its {edge_words(pattern, edge.line)} is joined in two seams."
        )
        remedy = "Take the edge out of one of the two seams."
        at = as_point(edge.curve.point(start))
        yield Finding("sewn-twice", "error", edge.id, lap, TOLERANCES.seam, message, remedy, piece.id, at)
