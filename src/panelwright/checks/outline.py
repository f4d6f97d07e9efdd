"""Rule 2: each outline is one closed, simple, anticlockwise loop, and the centre front lies at x = 0.

That the edges close and run anticlockwise, `Piece` sees to; here the outline is looked at more closely.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np
import shapely
from shapely import Polygon

from panelwright.body.worded_length import length_words
from panelwright.checks.shell import own_pieces
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.geometry.trace import trace
from panelwright.pattern.line import is_centre_front
from panelwright.pattern.mark import Point, as_point
from panelwright.pattern.piece import Piece


@dataclass(frozen=True)
class OutlineFault:
    """Why an outline cannot be used, a number for it, and where."""

    kind: Literal["crosses", "corner-twice"]
    value: float
    at: Point | None


def check_outlines(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`outline-crosses`, `corner-twice` and `centre-front-place` errors."""
    return tuple(finding for piece in own_pieces(cutting.pattern) for finding in _check(piece))


@lru_cache(maxsize=256)
def outline_fault(edges: tuple[Curve, ...]) -> OutlineFault | None:
    """What makes an outline unusable, or None; remembered by content.

    A piece with such a fault is left out of the rules that need its outline, so that it is told once.
    """
    vertices = np.array([edge.start for edge in edges])
    i, j = np.triu_indices(len(vertices), 1)
    apart = np.hypot(*(vertices[i] - vertices[j]).T)
    if len(apart) and apart.min() < TOLERANCES.same_point:
        return OutlineFault("corner-twice", float(apart.min()), as_point(vertices[i[apart.argmin()]]))
    outline = Polygon(np.concatenate([trace(edge).points[:-1] for edge in edges]))
    if outline.is_valid:
        return None
    x, _, y = shapely.is_valid_reason(outline).partition("[")[2].rstrip("]").partition(" ")
    return OutlineFault("crosses", 1.0, (float(x), float(y)) if y else None)


def is_sound(piece: Piece) -> bool:
    """Whether a piece's outline can be used by the other rules."""
    return outline_fault(tuple(edge.curve for edge in piece.edges)) is None


def _check(piece: Piece) -> Iterator[Finding]:
    fault = outline_fault(tuple(edge.curve for edge in piece.edges))
    if fault is None:
        yield from _centre_front(piece)
    elif fault.kind == "crosses":
        message = f"{piece.label}: the outline crosses or touches itself."
        remedy = "Move the edges that meet there apart."
        yield Finding("outline-crosses", "error", piece.id, 1, 0, message, remedy, piece.id, fault.at, "times")
    else:
        message = f"{piece.label}: two corners of the outline lie in one place."
        remedy = "Take out the edge of no length between them."
        limit = TOLERANCES.same_point
        yield Finding("corner-twice", "error", piece.id, fault.value, limit, message, remedy, piece.id, fault.at)


def _centre_front(piece: Piece) -> Iterator[Finding]:
    if piece.extent == "whole" or piece.hand == "left" or not any(is_centre_front(edge.line) for edge in piece.edges):
        return
    ring = shapely.get_coordinates(piece.outline)
    reach = float(ring[:, 0].max())
    if abs(reach) > TOLERANCES.straight:
        message = (
            f"{piece.label}: it reaches {length_words(reach, 2)} beyond the line that its centre front should lie on."
        )
        remedy = (
            "Draw the centre front straight, and lay the piece with it on x = 0, outer face up, as the wearer's right "
            "half."
        )
        at = as_point(ring[ring[:, 0].argmax()])
        yield Finding(
            "centre-front-place", "error", piece.id, reach, TOLERANCES.straight, message, remedy, piece.id, at
        )
