"""Splitting a piece along a line: a yoke, a panel seam, a colour block."""

from collections.abc import Sequence
from dataclasses import replace

from panelwright.design.chain import resewn
from panelwright.design.divided_piece import DividedPiece, PartName, divided
from panelwright.errors import DesignError
from panelwright.geometry.curve import Curve
from panelwright.pattern.level import Level, LevelSpan
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, SeamRegion, Span


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
    parted = divided(old, tuple(cut), line, parts)
    pieces: list[Piece] = []
    for other in pattern.pieces:
        pieces += parted.pieces if other.id == piece else [other]
    bare = replace(pattern, pieces=tuple(pieces), seams=(), levels=(), lines=(*pattern.lines, line))
    seam = Seam(
        line.id,
        "join",
        tuple(Span(parts[0].id, edge) for edge in parted.cut[0]),
        tuple(Span(parts[1].id, edge, 1.0, 0.0) for edge in reversed(parted.cut[1])),
        region,
    )
    return replace(
        bare,
        seams=(*resewn(pattern.seams, parted.edges, pattern, bare), seam),
        levels=tuple(_shared_out(level, piece, parts, parted) for level in pattern.levels),
    )


def _shared_out(level: Level, piece: str, parts: tuple[PartName, PartName], parted: DividedPiece) -> Level:
    """The level over the two parts; a line along the cut itself counts on its left only."""
    path: list[LevelSpan] = []
    for step in level.path:
        if step.piece != piece:
            path.append(step)
            continue
        for k, (part, rest) in enumerate(zip(parts, parted.remnants, strict=True)):
            if not (k and step.inside in parted.doubled):
                path += [LevelSpan(part.id, inside, step.times) for inside in rest.inside[step.inside]]
    return replace(level, path=tuple(path))
