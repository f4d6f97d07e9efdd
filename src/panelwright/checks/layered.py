"""Whether a garment is cut double, and whether anything opens its centres."""

from typing import Final

from panelwright.checks.opened_girth import closed_centres
from panelwright.checks.shoulder import is_shoulder_seam
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.pattern import line as lines
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

WHOLE: Final = 0.9  # of a panel's area: a layer of so much is the whole shape again
CENTRES: Final = (lines.CENTRE_FRONT, lines.CENTRE_BACK)


def is_faced_whole(cutting: CuttingPattern) -> bool:
    """Whether every outer panel is there twice: a full facing or lining of its own, or cut twice as often."""
    outer = [p for p in cutting.pattern.pieces if p.layer == "outer" and any(i.kind == "level" for i in p.inside)]
    return bool(outer) and all(_is_doubled(p, cutting) or _is_cut_twice(p.id, cutting) for p in outer)


def _is_doubled(piece: Piece, cutting: CuttingPattern) -> bool:
    own = (p for p in cutting.pattern.pieces if p.derived_from == piece.id and p.layer in ("facing", "lining"))
    return any(p.outline.area > WHOLE * piece.outline.area for p in own)


def _is_cut_twice(id: str, cutting: CuttingPattern) -> bool:
    whole = {"half_on_fold": 1, "one_side": 2, "whole": 1}[cutting.pattern.piece(id).extent]
    return sum(cut.count for cut in cutting.cut[id].cuts) >= 2 * whole


def opens_at_a_centre(pattern: Pattern) -> bool:
    """Whether a centre is open from its upper to its lower edge while it is sewn; a lacing is laced afterwards."""
    told = closed_centres(pattern)
    if any(closure.hand == "centre" and closure.to_top and closure.to_hem for closure in pattern.closures):
        return True
    return any(
        edge.kind == "opening" and edge.line in CENTRES and edge.line not in told
        for piece in pattern.pieces
        for edge in piece.edges
        if piece.layer == "outer"
    )


def has_sewn_shoulders(pattern: Pattern) -> bool:
    """Whether front and back, or the two halves of a strap, are sewn together at the shoulder."""
    return any(is_shoulder_seam(pattern, seam) for seam in pattern.seams)
