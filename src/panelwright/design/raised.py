"""A strapless pattern raised to neck, shoulder and armhole, as its block to the shoulder runs on."""

from dataclasses import replace

import numpy as np

from panelwright.design.shoulder_needed import block_to_shoulder
from panelwright.errors import DesignError
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece


def raised(pattern: Pattern, block: Pattern) -> Pattern:
    """The pattern with every panel carried on from the block's upper edge to the shoulder.

    Seams and centre lines run on; what lies below (a hem already cut) stays as it is.

    Raises:
        DesignError: if the block ends at the upper bust, or the pattern no longer has the block's upper edge.
    """
    full = block_to_shoulder(block)
    if full is block:
        return _still_whole(pattern)
    pieces = tuple(_raised_piece(piece, block, full) for piece in pattern.pieces)
    shoulder = full.seam(lines.SHOULDER)
    known = {line.id for line in pattern.lines}
    added = tuple(line for line in full.lines if line.id not in known)
    return replace(pattern, pieces=pieces, lines=(*pattern.lines, *added), seams=(*pattern.seams, shoulder))


def _still_whole(pattern: Pattern) -> Pattern:
    """A pattern whose block was drawn up to the shoulder, as it is."""
    for line in (lines.NECKLINE, lines.SHOULDER, lines.ARMHOLE):
        if not pattern.pieces_on_line(line):
            raise DesignError(
                f"the {line} of the block is no longer there; put this step before any top edge, and leave that out",
                line,
            )
    return pattern


def _raised_piece(piece: Piece, block: Pattern, full: Pattern) -> Piece:
    if not (piece.layer == "outer" and full.has_piece(piece.id)):
        return piece
    top = piece.on_line(lines.TOP)
    if len(top) != 1:
        raise DesignError(
            f"{spoken_piece(piece)} no longer has the block's upper edge; put this step before any top edge, "
            "and leave that out",
            piece.id,
        )
    before, after = piece.before(top[0]), piece.after(top[0])
    k = piece.index(top[0].id)
    first, last = _carried(before, piece, block, full), _carried(after, piece, block, full)
    whole = full.piece(piece.id)
    start, end = whole.index(_edge(whole, before).id), whole.index(_edge(whole, after).id)
    outline = list(piece.edges)
    outline[k - 1], outline[(k + 1) % len(outline)] = first, last
    outline[k : k + 1] = whole.edges[start + 1 : end]
    return Piece.closed(tuple(outline), **{name: getattr(piece, name) for name in _FIELDS})


_FIELDS = ("id", "label", "extent", "hand", "grain", "inside", "marks", "material", "layer", "derived_from")


def _edge(piece: Piece, like: Edge) -> Edge:
    """The piece's edge on the line of another."""
    found = piece.on_line(like.line)
    if len(found) != 1:
        raise DesignError(f"the {like.line.replace('-', ' ')} line does not run on to the shoulder", piece.id)
    return found[0]


def _carried(edge: Edge, piece: Piece, block: Pattern, full: Pattern) -> Edge:
    """An upright edge with what lies above the block's upper edge."""
    low, whole = _edge(block.piece(piece.id), edge), _edge(full.piece(piece.id), edge)
    rest = whole.curve.length - low.curve.length
    upward = edge.line_curve
    if np.linalg.norm(upward.end - low.line_curve.end) > TOLERANCES.seam:
        raise DesignError(
            f"the {edge.line.replace('-', ' ')} edge of {spoken_piece(piece)} has moved; put this step before "
            "closures and other changes of that edge",
            piece.id,
        )
    above = whole.line_curve.between(low.curve.length, low.curve.length + rest)
    curve: Curve = upward.joined(above.ending_at(start=upward.end))
    return replace(
        edge,
        curve=curve if edge.along_line else curve.reversed(),
        interval=(edge.interval[0], whole.interval[1]),
    )
