"""Reads a cut pattern as a maker would lay it together: where a finished edge meets a seam, on both its sides."""

import math
from collections.abc import Iterator

import numpy as np

from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece


def degrees_inside(before: Edge, after: Edge) -> float:
    """The inner angle between two edges that follow each other, from their end control points alone."""
    u = before.curve.points[-1] - before.curve.points[-2]
    v = after.curve.points[1] - after.curve.points[0]
    return 180.0 - math.degrees(math.atan2(u[0] * v[1] - u[1] * v[0], u @ v))


def corner_degrees(piece: Piece, upright: str, finished: str) -> float:
    """The piece's inner angle where an upright edge meets an edge of the line `finished`."""
    edge = piece.on_line(upright)[0]
    before, after = piece.before(edge), piece.after(edge)
    if after.line == finished:
        return degrees_inside(edge, after)
    assert before.line == finished
    return degrees_inside(before, edge)


def seam_pairs(pattern: Pattern) -> Iterator[tuple[str, Piece, Piece]]:
    """(line, the two pieces) of every seam that joins panels."""
    for seam in pattern.seams:
        if seam.kind == "join" and not seam.is_centre:
            a, b = seam.a[0].piece, seam.b[0].piece
            yield pattern.edge(seam.a[0]).line, pattern.piece(a), pattern.piece(b)


def drawn(piece: Piece, line: str) -> np.ndarray:
    """Points of a piece's edges on a line, in outline order."""
    return np.concatenate([edge.curve.polyline(0.001) for edge in piece.on_line(line)])
