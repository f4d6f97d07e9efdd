"""How the opening of a bodice runs on into the skirt that is sewn to it."""

from dataclasses import dataclass, replace
from typing import Final

from panelwright.body.worded_length import length_words
from panelwright.design.position import spoken
from panelwright.design.zip import zip_to_buy
from panelwright.errors import DesignError
from panelwright.pattern.closure import Closure
from panelwright.pattern.edge import Edge
from panelwright.pattern.mark import Mark, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam
from panelwright.pattern.working import Part

BELOW: Final = 20.0  # mm of the centre seam that are sewn below a zip, at least


@dataclass(frozen=True)
class SkirtOpening:
    """A slit at one centre of the skirt.

    Attributes:
        uid: of the step.
        closure: of the bodice above it.
        piece, edge: of the skirt.
        depth: mm down from the waist.
    """

    uid: str
    closure: Closure
    piece: Piece
    edge: Edge
    depth: float

    def on(self, pattern: Pattern) -> Pattern:
        """The pattern of bodice and skirt with one zip through the waist seam, down to the slit's end.

        The bodice's edges come apart at the waist by what the slit lets them, twice its depth, and no longer wholly.
        """
        length = self.edge.curve.length
        low = length - self.depth
        (sewn,) = (seam for seam in pattern.seams if seam.is_centre and seam.a[0].edge == self.edge.id)
        open_id = f"{sewn.id}-opening"
        parts = _parted(sewn, low / length, open_id)
        above = replace(self.closure, spreads=2 * self.depth)
        # A bodice may open at both centres.
        id = f"{self.uid}-2" if any(one.id == self.uid for one in pattern.closures) else self.uid
        below = Closure(id, above.place, "zip", above.style, "centre", open_id, low, length, to_hem=False)
        words = spoken(above.place).capitalize()
        edges = Part(f"{words} of the bodice", above.opening), Part("and of the skirt", self.depth)
        before = next(each for each in pattern.workings if each.id == f"{above.id}/zip")
        notion, working = zip_to_buy(above.id, words, above.style, edges, before.given, separating=False)
        mark = Mark(f"{self.uid}/zip-end", "point", as_point(self.edge.line_curve.point(low)))
        own = pattern.piece(self.piece.id)
        return replace(
            pattern.with_pieces(replace(own, marks=(*own.marks, mark))),
            seams=(*(seam for seam in pattern.seams if seam.id != sewn.id), *parts),
            closures=(*(above if one.id == above.id else one for one in pattern.closures), below),
            notions=tuple(notion if one.step == above.id and one.kind == "zip" else one for one in pattern.notions),
            workings=tuple(working if one.id == working.id else one for one in pattern.workings),
        )


def opening_into(pattern: Pattern, skirt: Pattern, end: Edge, uid: str, depth: float) -> SkirtOpening | None:
    """The slit of the skirt under one centre of the bodice; None where that is on the fold or sewn.

    Args:
        pattern: of the bodice.
        skirt: under the lines of the step.
        end: the bodice's edge at that centre.
        uid: of the step.
        depth: of the slit, mm.

    Raises:
        DesignError: if the bodice opens there without a closure, otherwise than by a plain zip, or beside the centres;
            or if the skirt is too short.
    """
    beside = next((one for one in pattern.closures if one.hand != "centre"), None)
    if beside is not None:
        raise DesignError(
            f"the bodice opens at the wearer's {beside.hand} side, and a skirt goes on below a centre only; let it "
            "open at the centre back or centre front",
            beside.id,
        )
    closure = next((one for one in pattern.closures if one.place == end.line), None)
    if closure is None:
        if end.kind == "opening":
            raise DesignError(
                f"nothing says yet how the {spoken(end.line)} of the bodice is shut; put its closure before the skirt",
                end.line,
            )
        return None
    if closure.kind != "zip" or closure.gap or not closure.to_hem:
        raise DesignError(
            f"the {spoken(end.line)} of the bodice is not shut by a plain zip down to the waist; a skirt goes on below "
            "a centred, lapped or invisible zip, a seam or a fold",
            closure.id,
        )
    found = skirt.pieces_on_line(f"{uid}/{end.line}")
    (piece, edge) = found[0]
    if edge.curve.length < depth + BELOW:
        raise DesignError(
            f"the zip would run {length_words(depth)} down the skirt, whose {spoken(end.line)} is "
            f"{length_words(edge.curve.length)} long; make the skirt longer, or the opening shorter"
        )
    return SkirtOpening(uid, closure, piece, edge, depth)


def _parted(seam: Seam, share: float, open_id: str) -> tuple[Seam, Seam]:
    """A centre seam sewn up to a share of its length from the hem, and closed by the zip above it."""

    def stretch(own: Seam, low: float, high: float) -> Seam:
        chains = []
        for chain in (own.a, own.b):
            (span,) = chain
            way = span.end - span.start
            chains.append((replace(span, start=span.start + low * way, end=span.start + high * way),))
        return replace(own, a=chains[0], b=chains[1])

    return stretch(seam, 0.0, share), replace(stretch(seam, share, 1.0), id=open_id, kind="closure")
