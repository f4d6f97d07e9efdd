"""The edge of a half pattern at its centre front or centre back: on the fold, sewn, or open."""

import math
from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from panelwright.design.grain_place import grain_inside
from panelwright.design.position import spoken
from panelwright.errors import DesignError
from panelwright.file_words import in_file
from panelwright.geometry.arrays import Array, turn
from panelwright.geometry.placement import Placement
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.geometry.trace import Trace, trace
from panelwright.pattern.edge import Edge, EdgeKind
from panelwright.pattern.level import WAIST
from panelwright.pattern.line import CENTRE_BACK, CENTRE_FRONT, HEM, TOP
from panelwright.pattern.mark import Grain, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Extent, Piece
from panelwright.pattern.seam import Seam, SeamKind, SeamRegion, Span
from panelwright.pattern.spoken_piece import spoken_piece

CentreLine = Literal["centre-front", "centre-back"]

_REGIONS: Final[dict[str, SeamRegion]] = {CENTRE_FRONT: "front", CENTRE_BACK: "back"}
_UPWARDS: Final = np.array([0.0, 1.0])
SQUARE_ENOUGH: Final = 1e-6  # radians; a grain line this near is left alone


@dataclass(frozen=True)
class CentreEdge:
    """Where a half pattern meets its mirror image.

    Attributes:
        piece, edge: the one edge that lies on the line.
    """

    piece: Piece
    edge: Edge

    @classmethod
    def of(cls, pattern: Pattern, line: CentreLine) -> "CentreEdge":
        """The edge on a centre line.

        Raises:
            DesignError: if there is none or more than one, both sides are drawn, or it is sewn to something else.
        """
        found = [(piece, edge) for piece, edge in pattern.pieces_on_line(line) if piece.layer == "outer"]
        if not found:
            raise DesignError(
                f"the pattern has no {spoken(line)} edge any more; take this step out, or the one that took it away",
                line,
            )
        pieces = " and ".join(dict.fromkeys(spoken_piece(piece) for piece, _ in found))
        if len(found) > 1:
            raise DesignError(
                f"the {spoken(line)} runs over several edges, of {pieces}; put this step before the one that cuts it",
                line,
            )
        centre = cls(*found[0])
        if centre.piece.extent == "whole" or centre.piece.hand != "both":
            raise DesignError(
                f"{pieces} is drawn for one side or entire; put this step before both sides are drawn", line
            )
        centre._refuse_sewn(pattern)
        return centre

    def _refuse_sewn(self, pattern: Pattern) -> None:
        for seam in pattern.seams:
            if not seam.is_centre and any(span.edge == self.edge.id for span in seam.a + seam.b):
                raise DesignError(
                    f"the {spoken(self.edge.line)} edge is already sewn in the {spoken(seam.id)} seam; put this step "
                    "before it",
                    self.piece.id,
                )

    def span(self, low: float = 0.0, high: float = 1.0) -> Span:
        """The stretch from `low` to `high`, shares of the length from the hem up, directed upwards."""
        ends = (low, high) if self.edge.along_line else (1.0 - low, 1.0 - high)
        return Span(self.piece.id, self.edge.id, *ends)

    def sewn(self, pattern: Pattern, piece: Piece, kind: EdgeKind, seams: tuple[Seam, ...]) -> Pattern:
        """The pattern with this piece in place, its centre edge of a kind and in these seams and no others."""
        edges = tuple(replace(edge, kind=kind) if edge.id == self.edge.id else edge for edge in piece.edges)
        extent: Extent = "half_on_fold" if any(edge.kind == "fold" for edge in edges) else "one_side"
        kept = tuple(seam for seam in pattern.seams if all(span.edge != self.edge.id for span in seam.a + seam.b))
        made = replace(pattern.with_pieces(replace(piece, edges=edges, extent=extent)), seams=(*kept, *seams))
        return _with_grain(made, self)


def centre_seam(centre: CentreEdge, id: str, kind: SeamKind, low: float = 0.0, high: float = 1.0) -> Seam:
    """The centre edge sewn to, or closed on, its own mirror image, from `low` to `high` (shares from the hem up)."""
    span = centre.span(low, high)
    return Seam(id, kind, (span,), (replace(span, hand="mirror"),), _REGIONS[centre.edge.line])


def on_fold(pattern: Pattern, centre: CentreEdge) -> Pattern:
    """The pattern with its centre on the fold: half of a piece, the grain along the fold, which stands upright.

    Raises:
        DesignError: if the edge bends by more than 0.2 mm.
    """
    if centre.edge.kind == "fold":
        return pattern
    curve = centre.edge.line_curve
    away, _ = Trace(np.array([curve.start, curve.end])).nearest(trace(curve).points)
    bend = float(away.max())
    if bend > TOLERANCES.straight:
        remedy = (
            f"; draw the centre back straight{in_file('block.centre_back_shape, straight')}, or choose a seam"
            if centre.edge.line == CENTRE_BACK
            else "; choose a seam"
        )
        raise DesignError(
            f"the {spoken(centre.edge.line)} of {spoken_piece(centre.piece)} bends {bend:.2f} mm off the straight; "
            f"a fold may bend {TOLERANCES.straight:g} mm{remedy}",
            centre.piece.id,
        )
    piece = _upright(centre.piece, curve.chord)
    middle = np.add(piece.grain.start, piece.grain.end) / 2
    half = piece.grain.length / 2 * _UPWARDS
    grain = grain_inside(piece.outline, Grain(as_point(middle - half), as_point(middle + half)))
    return centre.sewn(pattern, replace(piece, grain=grain), "fold", ())


def refuse_unfinished(piece: Piece, edge: Edge) -> None:
    """Refuse an upright edge that still ends at the block's own top or hem: what is made here has its length.

    Raises:
        DesignError: if it does.
    """
    for beside in (piece.before(edge), piece.after(edge)):
        if beside.line in (TOP, HEM):
            raise DesignError("its length is not settled yet; put this step after the top edge and the hem", piece.id)


def _upright(piece: Piece, direction: Array) -> Piece:
    """The piece turned about its middle so that a direction on it points up."""
    middle = np.array(piece.outline.centroid.coords[0])
    return piece.placed(Placement.carrying(middle, direction, middle, _UPWARDS))


def _with_grain(pattern: Pattern, before: CentreEdge) -> Pattern:
    """A back piece keeps its grain square to its own waist line, as the outline now is; a front's lies along the
    centre. A grain that a step had turned stays as it is."""
    piece = pattern.piece(before.piece.id)
    waist, was = piece.inside_line(WAIST), before.piece.inside_line(WAIST)
    if piece.extent != "one_side" or before.edge.line != CENTRE_BACK or waist is None or was is None:
        return pattern
    square = abs(_off_square(before.piece.grain, was.curve.chord)) <= TOLERANCES.grain
    off = _off_square(piece.grain, waist.curve.chord)
    if waist.kind != "level" or not (square or before.edge.kind == "fold") or abs(off) < SQUARE_ENOUGH:
        return pattern
    middle = np.add(piece.grain.start, piece.grain.end) / 2
    turned = Placement(off).vectors(piece.grain.vector) / 2
    grain = grain_inside(piece.outline, Grain(as_point(middle - turned), as_point(middle + turned)))
    return pattern.with_pieces(replace(piece, grain=grain))


def _off_square(grain: Grain, waist: Array) -> float:
    """The angle by which the grain must turn anticlockwise to stand square on the waist line, radians, ± π/2."""
    off = turn(grain.vector, np.array([-waist[1], waist[0]]))
    return math.remainder(off, math.pi)
