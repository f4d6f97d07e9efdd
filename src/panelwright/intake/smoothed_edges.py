"""Finished edges that run on smoothly across seams, and meet folds and closed centres square."""

import math
from collections.abc import Set
from dataclasses import replace
from typing import Final

from panelwright.intake.bent_end import turned_end
from panelwright.intake.worked_pattern import with_edge
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Span

# A finished edge that misses a smooth run across a seam by more is meant to have a point there; so is one that misses a
# right angle at a fold or centre, as that of a sweetheart does: a hand that draws square is off by a few degrees.
MOST_TURNED: Final = math.radians(50.0)
MOST_SQUARED: Final = math.radians(25.0)

# A corner: piece, and the number of the edge that ends there.
_Corner = tuple[str, int]


def smoothed(pattern: Pattern, kept: Set[str]) -> Pattern:
    """Finished edges turned at the ends of seams, and where they meet a fold or a closed centre.

    Args:
        kept: ids of edges that stay as they are; across a seam the other one turns by the whole angle.
    """
    for seam in pattern.seams:
        for at_end in (False, True):
            a, b = (_corner(pattern, side[-1 if at_end else 0], at_end) for side in (seam.a, seam.b))
            if seam.is_centre and a is not None:
                pattern = _turned(pattern, a, math.pi / 2, kept)
            elif not seam.is_centre and seam.blend and a is not None and b is not None:
                pattern = _blended(pattern, (a, b), kept)
    for piece in pattern.pieces:
        for edge in piece.edges:
            if edge.kind == "fold":
                for k in (piece.index(edge.id) - 1, piece.index(edge.id)):
                    corner = (piece.id, k % len(piece.edges))
                    if "finished" in (e.kind for e in _beside(pattern, corner)):
                        pattern = _turned(pattern, corner, math.pi / 2, kept)
    return pattern


def _blended(pattern: Pattern, corners: tuple[_Corner, _Corner], kept: Set[str]) -> Pattern:
    """The two corners at one end of a seam, turned until what bounds them runs on across it."""
    off = sum(_angle(pattern, corner) for corner in corners) - math.pi
    turning = sum(_finished(pattern, corner).id not in kept for corner in corners)
    for corner in corners:
        pattern = _turned(pattern, corner, _angle(pattern, corner) - off / max(turning, 1), kept, abs(off))
    return pattern


def _corner(pattern: Pattern, span: Span, at_end: bool) -> _Corner | None:
    """Where a seam's side ends, if it runs into a finished edge there."""
    share = span.end if at_end else span.start
    if share not in (0.0, 1.0):
        return None
    piece = pattern.piece(span.piece)
    k = piece.index(span.edge)
    corner = (piece.id, k if share == 1.0 else (k - 1) % len(piece.edges))
    beside = piece.edges[(k + 1 if share == 1.0 else k - 1) % len(piece.edges)]
    return corner if beside.kind == "finished" else None


def _beside(pattern: Pattern, corner: _Corner) -> tuple[Edge, Edge]:
    piece = pattern.piece(corner[0])
    return piece.edges[corner[1]], piece.edges[(corner[1] + 1) % len(piece.edges)]


def _finished(pattern: Pattern, corner: _Corner) -> Edge:
    """The edge that turns at a corner."""
    before, after = _beside(pattern, corner)
    return after if after.kind == "finished" else before


def _angle(pattern: Pattern, corner: _Corner) -> float:
    piece: Piece = pattern.piece(corner[0])
    return piece.inner_angle(piece.edges[corner[1]])


def _turned(pattern: Pattern, corner: _Corner, wanted: float, kept: Set[str], off: float | None = None) -> Pattern:
    """The corner with the inner angle that is wanted, by turning its finished edge; one that is meant becomes a point.

    Args:
        off: how far the run across a seam is off smooth, radians; None: the corner is to be square to a centre.
    """
    before = _beside(pattern, corner)[0]
    by = _angle(pattern, corner) - wanted
    meant = abs(by) > MOST_SQUARED if off is None else off > MOST_TURNED
    if meant or before.pointed_end:
        piece = pattern.piece(corner[0])
        edges = tuple(replace(e, pointed_end=True) if e.id == before.id else e for e in piece.edges)
        return pattern.with_pieces(replace(piece, edges=edges))
    turning = _finished(pattern, corner)
    if abs(by) < 1e-9 or turning.id in kept:
        return pattern
    at_end = turning.id == before.id
    return with_edge(pattern, corner[0], turning.id, turned_end(turning.curve, at_end, -by if at_end else by))
