"""Splitting a piece along a line: a yoke, a panel seam, a colour block."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from panelwright.body.worded_length import length_words
from panelwright.design.chain import EdgePart, resewn
from panelwright.design.outline_cut import CutOutline, OutlinePlace, cut_outline
from panelwright.design.remnant import Remnant, remnant
from panelwright.errors import DesignError, GeometryError
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge, EdgeSide
from panelwright.pattern.level import Level, LevelSpan
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, SeamRegion, Span
from panelwright.pattern.spoken_piece import spoken_piece


@dataclass(frozen=True)
class PartName:
    """What one part of a split piece is called; it may keep the piece's own id."""

    id: str
    label: str


def split_piece(
    pattern: Pattern,
    piece: str,
    cut: Sequence[Curve],
    line: Line,
    parts: tuple[PartName, PartName],
    region: SeamRegion,
) -> Pattern:
    """The pattern with a piece cut in two and the two parts sewn to each other along the cut.

    Seams that the cut meets run on over both parts; levels and inside lines are shared out, and a level that the cut
    crosses is measured over both parts. The regions of the material map get boundaries.

    Args:
        pattern: any pattern.
        piece: id of the piece.
        cut: curves end to end, in the sense of the new line, from one edge of the outline to another. They may be
            0.05 mm off the outline at their ends and are drawn to it.
        line: the new line; the new seam has its id.
        parts: names of what lies on the line's left and on its right.
        region: of the new seam.

    Raises:
        DesignError: if the cut does not run from edge to edge, crosses itself or the outline, or an id is taken.
    """
    old = pattern.piece(piece)
    taken = {other.id for other in pattern.pieces if other.id != piece}
    if parts[0].id == parts[1].id or taken & {part.id for part in parts}:
        raise DesignError(f"the two parts of {piece} need ids of their own that no other piece has", piece)
    places, curves = _on_outline(old, cut)
    left, left_cut = _part(old, curves, places, line, parts[0], "left")
    right, right_cut = _part(old, curves, places, line, parts[1], "right")
    edge_parts = _together(left_cut.parts, right_cut.parts)
    doubled = left.whole & right.whole
    pieces: list[Piece] = []
    for other in pattern.pieces:
        pieces += [left.piece(), right.piece(doubled)] if other.id == piece else [other]
    bare = replace(pattern, pieces=tuple(pieces), seams=(), levels=(), lines=(*pattern.lines, line))
    new = [tuple(edge.id for edge in outline.edges if edge.line == line.id) for outline in (left_cut, right_cut)]
    seam = Seam(
        line.id,
        "join",
        tuple(Span(parts[0].id, edge) for edge in new[0]),
        tuple(Span(parts[1].id, edge, 1.0, 0.0) for edge in reversed(new[1])),
        region,
    )
    return replace(
        bare,
        seams=(*resewn(pattern.seams, edge_parts, pattern, bare), seam),
        levels=tuple(_shared_out(level, piece, parts, (left, right), doubled) for level in pattern.levels),
    )


def place_on_outline(piece: Piece, point: np.ndarray) -> OutlinePlace:
    """The place on a piece's outline where a point lies.

    Raises:
        DesignError: if it is more than 0.05 mm off the outline.
    """
    # Only what is nearest within the accuracy of a polyline is looked at exactly.
    rough = [float(np.abs(_foot(edge.curve.polyline(), point)).min()) for edge in piece.edges]
    near = [edge for edge, gap in zip(piece.edges, rough, strict=True) if gap < min(rough) + TOLERANCES.seam]
    found = [(edge, *edge.curve.nearest(point)) for edge in near]
    edge, arc, gap = min(found, key=lambda each: each[2])
    if gap > TOLERANCES.seam:
        raise DesignError(
            f"a line that splits {spoken_piece(piece)} ends {length_words(gap, 2)} from its outline; run it "
            "from edge to edge",
            piece.id,
        )
    return OutlinePlace(edge.id, arc)


def _foot(polyline: np.ndarray, point: np.ndarray) -> np.ndarray:
    """How far a point is from each chord of a polyline, mm."""
    start, run = polyline[:-1], np.diff(polyline, axis=0)
    share = np.clip(((point - start) * run).sum(axis=1) / np.maximum((run * run).sum(axis=1), 1e-12), 0.0, 1.0)
    gaps: np.ndarray = np.linalg.norm(start + share[:, None] * run - point, axis=1)
    return gaps


def _on_outline(piece: Piece, cut: Sequence[Curve]) -> tuple[tuple[OutlinePlace, OutlinePlace], tuple[Curve, ...]]:
    """Where the cut starts and ends on the outline, and its curves drawn exactly to those places."""
    places = place_on_outline(piece, cut[0].start), place_on_outline(piece, cut[-1].end)
    start, end = (piece.edge(place.edge).curve.point(place.arc) for place in places)
    curves = [curve.ending_at(start=before.end) for before, curve in pairwise(cut)]
    curves = [cut[0].ending_at(start=start), *curves]
    curves[-1] = curves[-1].ending_at(end=end)
    return places, tuple(curves)


def _part(
    piece: Piece,
    curves: tuple[Curve, ...],
    places: tuple[OutlinePlace, OutlinePlace],
    line: Line,
    name: PartName,
    side: EdgeSide,
) -> tuple[Remnant, CutOutline]:
    """What lies on one side of the cut: its outline leaves the old one where the new edges start."""
    new = _edges(curves, line, name, side)
    leave, enter = places if side == "left" else places[::-1]
    outline = cut_outline(piece, leave, enter, new, rename=name.id)
    folded = any(edge.kind == "fold" for edge in outline.edges)
    extent = "one_side" if piece.extent == "half_on_fold" and not folded else piece.extent
    try:
        left = remnant(piece, outline.edges, curves, keep_levels=True, id=name.id, label=name.label, extent=extent)
        left.piece()
    except GeometryError as error:
        raise DesignError(
            f"the line does not split {spoken_piece(piece)} in two; run it inside the piece from edge to edge "
            f"({error})",
            piece.id,
        ) from error
    return left, outline


def _edges(curves: tuple[Curve, ...], line: Line, name: PartName, side: EdgeSide) -> tuple[Edge, ...]:
    lengths = [curve.length for curve in curves]
    shares = [0.0, *np.minimum(np.cumsum(lengths) / sum(lengths), 1.0).tolist()]
    shares[-1] = 1.0
    edges = [
        Edge(
            f"{name.id}.{line.id}" + (f"-{k + 1}" if k else ""), line.id, side, "seam",
            curve if side == "left" else curve.reversed(), (shares[k], shares[k + 1]),
        )
        for k, curve in enumerate(curves)
    ]  # fmt: skip
    return tuple(edges if side == "left" else edges[::-1])


def _together(
    left: Mapping[str, tuple[EdgePart, ...]], right: Mapping[str, tuple[EdgePart, ...]]
) -> dict[str, tuple[EdgePart, ...]]:
    return {edge: tuple(sorted(left[edge] + right[edge], key=lambda part: part.low)) for edge in left}


def _shared_out(
    level: Level,
    piece: str,
    parts: tuple[PartName, PartName],
    remnants: tuple[Remnant, Remnant],
    doubled: frozenset[str],
) -> Level:
    """The level over the two parts; a line along the cut itself counts on its left only."""
    path: list[LevelSpan] = []
    for step in level.path:
        if step.piece != piece:
            path.append(step)
            continue
        for k, (part, rest) in enumerate(zip(parts, remnants, strict=True)):
            if not (k and step.inside in doubled):
                path += [LevelSpan(part.id, inside, step.times) for inside in rest.inside[step.inside]]
    return replace(level, path=tuple(path))
