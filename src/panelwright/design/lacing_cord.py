"""The cord of a lacing: how long it must be, and how far a cord of some length lets the edges apart."""

import math
from dataclasses import dataclass
from typing import Final

from panelwright.pattern.working import OR_LONGER, Part, Working

# To tie and to hold, mm, with what it may be less or more: 60 to 100 cm, from memory.
TO_TIE: Final = 800.0
EITHER_WAY: Final = 200.0
SOLD_BY: Final = 100.0  # mm: nobody cuts a cord nearer than to full 10 cm
_SAME: Final = 1e-6  # mm


@dataclass(frozen=True)
class LacingCord:
    """A cord through pairs of eyelets.

    Attributes:
        pairs: of eyelets.
        pitch: from one pair to the next, mm along the edge.
        inset: of each eyelet from its edge, mm.
    """

    pairs: int
    pitch: float
    inset: float

    @classmethod
    def of_worn(cls, pairs: int, worn: float, gap: float, inset: float) -> "LacingCord":
        """The cord whose zigzag is `worn` mm when the edges are `gap` mm apart: the same formula, solved for pitch."""
        one = worn / (2 * pairs)
        return cls(pairs, math.sqrt(max(0.0, one * one - (gap + 2 * inset) ** 2)), inset)

    def zigzag(self, gap: float) -> float:
        """Cord through the eyelets, mm, when the edges are `gap` mm apart: 2 · pairs · √(w² + pitch²).

        The formula is from memory; w is taken from eyelet to eyelet, gap + 2 · inset.
        """
        return 2 * self.pairs * math.hypot(gap + 2 * self.inset, self.pitch)

    def spread(self, length: float) -> float:
        """How far apart the edges come with a cord of `length`, mm, when `TO_TIE` of it is kept in the hands.

        0 where it is too short to let the edges come apart at all.
        """
        one = (length - TO_TIE) / (2 * self.pairs)
        across = math.sqrt(max(0.0, one * one - self.pitch * self.pitch))
        return max(0.0, across - 2 * self.inset)

    def needed(self, gap: float, spread: float | None) -> float:
        """The cord that is long enough, mm; arguments as in `working`."""
        return self.zigzag(gap if spread is None else max(gap, spread)) + TO_TIE

    def working(self, id: str, gap: float, spread: float | None, given: float | None) -> Working:
        """The length reckoned, up to full 10 cm.

        Args:
            id: of the working.
            gap: between the edges as worn, mm.
            spread: between them to get in, mm; None where another opening lets the wearer in.
            given: a length that the maker asked for, mm.
        """
        worn = self.zigzag(gap)
        more = max(0.0, self.zigzag(spread) - worn) if spread is not None else 0.0
        parts = [Part("through the eyelets, as worn", worn)]
        parts += [Part("more through them, opened to get in", more)] if more else []
        parts.append(Part("ends to tie and to hold", TO_TIE))
        needed = self.needed(gap, spread)
        if (over := math.ceil((needed - _SAME) / SOLD_BY) * SOLD_BY - needed) > _SAME:
            parts.append(Part("more, up to full 10 cm", over))
        note = (
            "Reckoned opened wide enough for the hips, because no other opening lets the wearer in."
            if spread is not None
            else "Reckoned as worn: another opening lets the wearer in."
        )
        return Working(
            id, "Lacing cord", tuple(parts), given, EITHER_WAY, OR_LONGER, note,
            "Twice the pairs of eyelets times the slanting way from one to the next, and 60 to 100 cm for the ends "
            "(from memory).",
        )  # fmt: skip
