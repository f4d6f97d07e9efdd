"""Rule 2: each outline is one closed, simple, anticlockwise loop, and the centre front lies at x = 0.

That the edges close and run anticlockwise, `Piece` sees to; here the outline is looked at more closely.
"""

from collections.abc import Iterator

import numpy as np
import shapely

from panelwright.checks.centre import is_centre_front
from panelwright.checks.shell import own_pieces
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.mark import as_point
from panelwright.pattern.piece import Piece


def check_outlines(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`outline-crosses`, `corner-twice` and `centre-front-place` errors."""
    return tuple(finding for piece in own_pieces(cutting.pattern) for finding in _check(piece))


def _check(piece: Piece) -> Iterator[Finding]:
    vertices = piece.vertices
    i, j = np.triu_indices(len(vertices), 1)
    apart = np.hypot(*(vertices[i] - vertices[j]).T)
    for k in np.flatnonzero(apart < TOLERANCES.same_point)[:1]:
        message = f"{piece.label}: two corners of the outline lie in one place."
        remedy = "Take out the edge of no length between them."
        at = as_point(vertices[i[k]])
        yield Finding(
            "corner-twice", "error", piece.id, float(apart[k]), TOLERANCES.same_point, message, remedy, piece.id, at
        )
        return
    if not piece.outline.is_valid:
        message = f"{piece.label}: the outline crosses or touches itself."
        remedy = "Move the edges that meet there apart."
        crossing = _crossing(piece)
        yield Finding("outline-crosses", "error", piece.id, 1, 0, message, remedy, piece.id, crossing, "times")
        return
    yield from _centre_front(piece)


def _crossing(piece: Piece) -> tuple[float, float] | None:
    x, _, y = shapely.is_valid_reason(piece.outline).partition("[")[2].rstrip("]").partition(" ")
    return (float(x), float(y)) if y else None


def _centre_front(piece: Piece) -> Iterator[Finding]:
    if piece.extent == "whole" or piece.hand == "left" or not any(is_centre_front(edge.line) for edge in piece.edges):
        return
    ring = shapely.get_coordinates(piece.outline)
    reach = float(ring[:, 0].max())
    if abs(reach) > TOLERANCES.straight:
        message = (
            f"{piece.label}: it reaches to x = {reach:.2f} mm; the centre front lies at x = 0, the piece left of it."
        )
        remedy = "Lay the piece with its centre front on x = 0, outer face up, the wearer's right half."
        at = as_point(ring[ring[:, 0].argmax()])
        yield Finding(
            "centre-front-place", "error", piece.id, reach, TOLERANCES.straight, message, remedy, piece.id, at
        )
