"""Where drawn pieces come to lie: the wearer's right half, upright, centre front at x = 0 on the right."""

import math
from collections.abc import Mapping
from typing import Final

from panelwright.geometry.placement import Placement
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.own_edges import OwnEdge
from panelwright.intake.piece_upright import upwards
from panelwright.intake.seam_score import ROW
from panelwright.pattern import line as lines
from panelwright.pattern.level import WAIST
from panelwright.pattern.piece import Piece

BETWEEN: Final = 40.0  # mm
_UPRIGHT: Final = math.pi / 2


def placements(
    whole: DrawnPattern, pieces: Mapping[str, Piece], edges: Mapping[EdgeRef, OwnEdge]
) -> dict[str, Placement]:
    """How each piece is moved from where it was drawn at full scale.

    With a centre front: that piece has it on the right, at x = 0; pieces sewn to it follow, each turned over where it
    was drawn for the wearer's other half, since the outlines of two pieces run against each other along their seam.
    They stand upright in a row from right to left, their waist lines at y = 0. Without one, pieces stay as they lie.
    """
    start = [ref for ref, edge in edges.items() if edge.line == lines.CENTRE_FRONT]
    if not start:
        return {piece.id: Placement() for piece in whole.pieces}
    over = _turned_over(whole, edges, start[0])
    placed, right = {}, 0.0
    for id in _row(whole, start[0].piece):
        standing = _upright(whole, edges, pieces[id], over.get(id, False))
        moved = pieces[id].placed(standing)
        left, bottom, far, _ = moved.outline.bounds
        waist = moved.inside_line(WAIST)
        foot = bottom if waist is None else float(waist.curve.point(waist.curve.length / 2)[1])
        x = right - far
        if id == start[0].piece:
            ref = next(edge for edge in moved.edges if edge.line == lines.CENTRE_FRONT)
            x = -float((ref.curve.start[0] + ref.curve.end[0]) / 2)
        placed[id] = Placement(x=x, y=-foot).after(standing)
        right = left + x - BETWEEN
    return placed


def _turned_over(whole: DrawnPattern, edges: Mapping[EdgeRef, OwnEdge], start: EdgeRef) -> dict[str, bool]:
    """Which pieces were drawn for the wearer's left half; those that no seam leads to are taken as they are."""
    over = {start.piece: edges[start].rising is False}
    reached = [start.piece]
    while reached:
        here = reached.pop(0)
        for seam in whole.seams:
            for mine, other in ((seam.a, seam.b), (seam.b, seam.a)):
                if mine.piece == here and other.piece not in over:
                    rising, beyond = edges[mine].rising, edges[other].rising
                    same = rising is not None and rising == beyond
                    over[other.piece] = over[here] != same
                    reached.append(other.piece)
    return over


def _row(whole: DrawnPattern, first: str) -> list[str]:
    """From centre front round to centre back: in the usual order, else as the seams lead, else as they were given."""
    rest = [piece.id for piece in whole.pieces if piece.id != first]
    if all(id in ROW for id in rest):
        return [first, *sorted(rest, key=ROW.index)]
    found = [first]
    for id in found:
        for seam in whole.seams:
            for mine, other in ((seam.a.piece, seam.b.piece), (seam.b.piece, seam.a.piece)):
                if mine == id and other not in found:
                    found.append(other)
    return [*found, *(id for id in rest if id not in found)]


def _upright(whole: DrawnPattern, edges: Mapping[EdgeRef, OwnEdge], piece: Piece, over: bool) -> Placement:
    """Up the body is up the paper; a fold or the centre front stands exactly upright, else the waist lies level."""
    drawn = whole.piece(piece.id)
    axis = upwards(drawn)
    refs = [EdgeRef(piece.id, k) for k in range(len(drawn.edges))]
    centre = [ref for ref in refs if edges[ref].line == lines.CENTRE_FRONT or edges[ref].kind == "fold"]
    if centre:
        chord = drawn.edges[centre[0].number].curve.chord
        axis = chord if chord @ axis > 0 else -chord
    turned = math.atan2(float(axis[1]), float(axis[0]))
    # A mirroring placement turns over about the upright before it turns: first stand it up, then turn it over.
    standing = Placement(_UPRIGHT - turned)
    return Placement(mirrored=True).after(standing) if over else standing
