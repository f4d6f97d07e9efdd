"""The neckline of a garment with closed shoulders: the loop that head, or hips, must pass."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from panelwright.checks.opened_girth import closed_centres, slit
from panelwright.checks.shoulder import is_shoulder_seam
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.skirt_below import held_closures


@dataclass(frozen=True)
class NeckOpening:
    """The finished edge from shoulder to shoulder, before and behind.

    Attributes:
        length: of the whole edge, closed, mm.
        opened: the same with every closure that runs into it opened; infinite where the garment parts there.
        piece, at: where its lowest place in front is drawn.
    """

    length: float
    opened: float
    piece: str
    at: tuple[float, float]


def neck_opening(pattern: Pattern) -> NeckOpening | None:
    """The neckline, or None where the shoulders are open or the garment has none."""
    if not any(is_shoulder_seam(pattern, seam) for seam in pattern.seams):
        return None
    front = list(_edges(pattern, lines.CENTRE_FRONT))
    back = list(_edges(pattern, lines.CENTRE_BACK))
    if not front or not back:
        return None
    length = 2 * sum(edge.curve.length for _, edge in (*front, *back))
    piece, edge = front[0]
    x, y = (float(value) for value in (edge.curve.start if edge.along_line else edge.curve.end))
    return NeckOpening(length, length + _added(pattern), piece.id, (x, y))


def _added(pattern: Pattern) -> float:
    """What closures at the centres add: twice the length of the slit, or all of it where the garment parts."""
    added = 0.0
    for closure in held_closures(pattern):
        if closure.hand == "centre" and closure.to_top:
            added += math.inf if closure.opens_flat else slit(closure, closure.high)
    untold = set(_CENTRES) - closed_centres(pattern)
    parted = any(edge.kind == "opening" and edge.line in untold for piece in pattern.pieces for edge in piece.edges)
    return math.inf if parted else added


_CENTRES = (lines.CENTRE_FRONT, lines.CENTRE_BACK)


def _edges(pattern: Pattern, centre: str) -> Iterator[tuple[Piece, Edge]]:
    """(piece, edge) of the finished edges from a centre to the shoulder seam; nothing if they do not lead there."""
    outer = [(p, e) for p, e in pattern.pieces_on_line(centre) if p.layer == "outer" and p.derived_from is None]
    if not outer:
        return
    piece, edge = max(outer, key=lambda found: found[1].interval[1])
    rising = edge.along_line
    found: list[tuple[Piece, Edge]] = []
    for _ in range(4 * len(pattern.pieces)):
        edge = piece.after(edge) if rising else piece.before(edge)
        if edge.kind == "finished":
            found.append((piece, edge))
        elif edge.line.rpartition("/")[2] == lines.SHOULDER:
            yield from found
            return
        else:
            beyond = _across(pattern, piece, edge)
            if beyond is None:
                return
            piece, edge = beyond


def _across(pattern: Pattern, piece: Piece, edge: Edge) -> tuple[Piece, Edge] | None:
    """The piece and edge that an upright edge is sewn to."""
    for seam in pattern.seams:
        for own, other in ((seam.a, seam.b), (seam.b, seam.a)):
            if any(span.piece == piece.id and span.edge == edge.id for span in own):
                span = other[-1]
                return (pattern.piece(span.piece), pattern.edge(span)) if span.piece != piece.id else None
    return None
