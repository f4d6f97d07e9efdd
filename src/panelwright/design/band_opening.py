"""Where a waistband opens: it goes once round the wearer and ends where the skirt does."""

from dataclasses import dataclass, replace

from panelwright.design.attach import EdgeRow
from panelwright.errors import DesignError
from panelwright.file_words import in_file
from panelwright.pattern.closure import ClosureHand, ClosurePlace
from panelwright.pattern.line import SIDE
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Span


@dataclass(frozen=True)
class BandOpening:
    """A place of the waist at which its band begins and ends.

    Attributes:
        place, hand: as of a closure.
        front: how many edges of the half's row, from the centre front, lie before it: none at a centre front, all at
            a centre back.
    """

    place: ClosurePlace
    hand: ClosureHand
    front: int

    @property
    def laps_at_start(self) -> bool:
        """Whether the end that lies underneath is the one where the band begins, seen from outside on the left: the
        wearer's left at a centre front, the back at a left side."""
        return self.place == "centre-front" or (self.place == "side" and self.hand == "left")

    def chain(self, row: EdgeRow) -> tuple[Span, ...]:
        """The waist edges in the order in which the band meets them, seen from outside from left to right.

        Args:
            row: of the right half, from centre front to centre back.
        """
        right = [replace(span, start=1.0, end=0.0) for span in reversed(row.spans)]
        left = [replace(span, hand="mirror") for span in row.spans]
        back = len(row.spans) - self.front
        if self.place == "side" and self.hand == "left":
            return (*left[self.front :], *right, *left[: self.front])
        if self.place == "side":
            return (*right[back:], *left, *right[:back])
        return (*left, *right) if self.place == "centre-front" else (*right, *left)


def opening_of(pattern: Pattern, row: EdgeRow) -> BandOpening:
    """Where the skirt opens at its waist: by a closure, else by an edge that the block left open.

    Raises:
        DesignError: if it opens nowhere.
    """
    for closure in pattern.closures:
        if closure.to_top:
            return BandOpening(closure.place, closure.hand, _before(closure.place, pattern, row))
    for place, edge in (("centre-back", row.ends[1]), ("centre-front", row.ends[0])):
        if edge.kind == "opening":
            where: ClosurePlace = "centre-back" if place == "centre-back" else "centre-front"
            return BandOpening(where, "centre", _before(where, pattern, row))
    raise DesignError(
        "the skirt opens nowhere at its waist, so that its band would be a closed ring; put a closure"
        f"{in_file('a step of kind closure')} before it"
    )


def _before(place: ClosurePlace, pattern: Pattern, row: EdgeRow) -> int:
    if place != "side":
        return 0 if place == "centre-front" else len(row.spans)
    for number, span in enumerate(row.spans, 1):
        piece = pattern.piece(span.piece)
        if piece.after(pattern.edge(span)).line == SIDE:
            return number
    raise DesignError("the skirt has no side seam to open the band at")
