"""The plain block made ready to cut by hand: blended top and hem, mitred cut lines, notches, a full facing.

It does not use the finishing code, so that checks and drawings rest on something simple that obeys every
rule of docs/pattern-file.md: the cut lines are offset polylines, extended and cut where they cross.
"""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import shapely
from plain_block import plain_block
from shapely import LineString
from shapely.ops import substring

from panelwright.finish.cut_piece import Cut, CutPiece, CutSpan, CuttingPattern, NotchMark
from panelwright.geometry.arrays import unit
from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import HIP, UPPER_BUST
from panelwright.pattern.mark import Point, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Notch, Seam, Span

WIDTHS = {"hem": 10.0, "top": 10.0, "centre-back": 15.0, "centre-front": 0.0}
SEAM_ALLOWANCE = 10.0
FINE = 1e-4  # of the offset lines before they are thinned out, mm
# (seam, place from the hem, count, level): the side seam takes one where no other seam has one.
NOTCHES = (
    ("front-princess", "bust", 1),
    ("front-princess", "waist", 1),
    ("back-princess", "underbust", 2),
    ("back-princess", "waist", 2),
)
SIDE_NOTCH = 240.0


def square(edge: Edge, piece: Piece) -> Edge:
    """A finished edge that leaves both of its neighbours at a right angle."""
    before, after = piece.before(edge).curve.end_tangent, piece.after(edge).curve.start_tangent
    leave, arrive = np.array([-before[1], before[0]]), np.array([after[1], -after[0]])
    start, end = edge.curve.start, edge.curve.end
    reach = np.linalg.norm(end - start) / 3
    return replace(edge, curve=Curve.from_points([start, start + reach * leave, end - reach * arrive, end]))


def blended(piece: Piece) -> Piece:
    edges = tuple(square(edge, piece) if edge.kind == "finished" else edge for edge in piece.edges)
    inside = tuple(line for line in piece.inside if line.id not in (UPPER_BUST, HIP))
    return replace(piece, edges=edges, inside=inside)


def shell() -> Pattern:
    """The plain block with a top and hem that run on across every seam and stand square at both centres."""
    block = plain_block()
    levels = tuple(level for level in block.levels if level.id not in (UPPER_BUST, HIP))
    return replace(block, pieces=tuple(map(blended, block.pieces)), levels=levels)


def width(edge: Edge) -> float:
    return WIDTHS.get(edge.line, SEAM_ALLOWANCE)


def offset(curve: Curve, distance: float) -> LineString:
    """The curve moved to its right by `distance`, and 60 mm straight on at both ends."""
    points = curve.polyline(FINE)
    along = unit(np.gradient(points, axis=0))
    along[0], along[-1] = curve.start_tangent, curve.end_tangent
    points = points + distance * np.column_stack([along[:, 1], -along[:, 0]])
    longer = [points[0] - 60 * along[0], *points, points[-1] + 60 * along[-1]]
    return shapely.simplify(LineString(longer), 0.005)


def cut_line(edges: tuple[Edge, ...], widths: dict[str, float]) -> tuple[np.ndarray, tuple[CutSpan, ...]]:
    """Offset edges, each from where it crosses the one before to where it crosses the next."""
    offsets = [offset(edge.curve, widths[edge.id]) for edge in edges]
    corners = [shapely.intersection(a, b) for a, b in pairwise([offsets[-1], *offsets])]
    points: list[tuple[float, float]] = []
    starts = []
    for k, line in enumerate(offsets):
        ends = line.project(corners[k]), line.project(corners[(k + 1) % len(edges)])
        starts.append(len(points))
        points += substring(line, *ends).coords[:-1]
    spans = tuple(
        CutSpan(edge.id, start, end) for edge, start, end in zip(edges, starts, [*starts[1:], 0], strict=True)
    )
    return np.array(points), spans


def notch_marks(pattern: Pattern, notches: tuple[Notch, ...], piece: Piece) -> tuple[NotchMark, ...]:
    """T marks from the stitch line square outwards to the cut line."""
    marks = []
    for notch in notches:
        seam = pattern.seam(notch.seam)
        for chain, place in ((seam.a, notch.at_a), (seam.b, notch.at_b)):
            span, at, out = pattern.along_chain(chain, place)
            if span.piece == piece.id:
                to = at + out * width(piece.edge(span.edge))
                marks.append(NotchMark(notch.id, span.edge, as_point(at), as_point(to), notch.count))
    return tuple(marks)


def text_at(piece: Piece) -> Point:
    return (piece.grain.start[0] + 12.0, 30.0)


def cut_piece(pattern: Pattern, notches: tuple[Notch, ...], piece: Piece) -> CutPiece:
    widths = {edge.id: width(edge) for edge in piece.edges}
    line, spans = cut_line(piece.edges, widths)
    folded = piece.extent == "half_on_fold"
    words = f"Cut {'1 on fold' if folded else 'a pair'}, {piece.layer}"
    return CutPiece(
        piece.id,
        widths,
        {edge.id: "mitre" for edge in piece.edges},
        line,
        spans,
        (Cut(piece.layer, "fold", 1) if folded else Cut(piece.layer, "pair", 2),),
        notch_marks(pattern, notches, piece),
        (piece.label, words),
        text_at(piece),
    )


def facing(piece: Piece) -> Piece:
    """The whole shape cut again."""
    edges = tuple(replace(e, id=e.id.replace(f"{piece.id}.", f"{piece.id}/facing.")) for e in piece.edges)
    label = f"{piece.label} facing"
    return replace(piece, id=f"{piece.id}/facing", label=label, edges=edges, layer="facing", derived_from=piece.id)


def faced_span(span: Span) -> Span:
    piece = f"{span.piece}/facing"
    return replace(span, piece=piece, edge=span.edge.replace(f"{span.piece}.", f"{piece}."))


def faced_seam(seam: Seam) -> Seam:
    a, b = (tuple(map(faced_span, chain)) for chain in (seam.a, seam.b))
    return replace(seam, id=f"facing/{seam.id}", a=a, b=b)


def with_facing(pattern: Pattern) -> Pattern:
    """Every piece and every seam once more; the levels stay on the outer pieces."""
    pieces = pattern.pieces + tuple(map(facing, pattern.pieces))
    return replace(pattern, pieces=pieces, seams=pattern.seams + tuple(map(faced_seam, pattern.seams)))


def notches_of(pattern: Pattern) -> tuple[Notch, ...]:
    """Both sides of a seam are equal, so a notch stands at the same place of both."""
    notches = []
    for seam_id, level, count in NOTCHES:
        seam = pattern.seam(seam_id)
        piece, edge = pattern.piece(seam.a[0].piece), pattern.edge(seam.a[0])
        place = pattern.level_place(edge, piece, level)
        assert place is not None
        notches.append(Notch(f"{seam_id}/{level}", seam_id, place, place, count, level))
    return (*notches, Notch("side/1", "side", SIDE_NOTCH, SIDE_NOTCH, 1))


def cutting_pattern(pattern: Pattern) -> CuttingPattern:
    """Any pattern of this file's kind with its cutting side."""
    notches = notches_of(pattern)
    return CuttingPattern(pattern, {piece.id: cut_piece(pattern, notches, piece) for piece in pattern.pieces}, notches)


def plain_cutting_pattern(faced: bool = True) -> CuttingPattern:
    """Four outer pieces, and the same four as a facing."""
    return cutting_pattern(with_facing(shell()) if faced else shell())
