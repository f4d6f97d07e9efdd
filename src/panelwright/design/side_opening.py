"""The two edges of a side seam, one of whose hands opens."""

from panelwright.errors import DesignError
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import SIDE
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece


def side_edges(pattern: Pattern) -> tuple[str, tuple[tuple[Piece, Edge], tuple[Piece, Edge]]]:
    """(id of the seam, its two edges, each with its piece, the front one first).

    Raises:
        DesignError: if the block has no side seam, or it does not join two whole edges.
    """
    own = (
        seam
        for seam in pattern.seams
        if seam.kind == "join" and all(pattern.edge(span).line == SIDE for span in seam.a + seam.b)
    )
    found = [seam for seam in own if all(pattern.piece(span.piece).layer == "outer" for span in seam.a + seam.b)]
    if not found:
        raise DesignError(
            "the pattern has no side seam; choose a block of 4 or 6 panels, or close the centre back", SIDE
        )
    seam = found[0]
    if len(found) > 1 or len(seam.a) > 1 or len(seam.b) > 1 or min(seam.a[0].share, seam.b[0].share) < 1.0:
        raise DesignError("the side seam runs over several pieces; put this step before the one that cuts them", SIDE)
    front, back = ((pattern.piece(span.piece), pattern.edge(span)) for span in (seam.a[0], seam.b[0]))
    return seam.id, (front, back)
