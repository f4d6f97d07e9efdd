"""How long a tie is for this wearer, and how that was reckoned."""

from dataclasses import dataclass
from typing import Final

from panelwright.body.worded_length import least_words, length_words
from panelwright.design.tie_knot import Knot, gathered_diameter, knot_parts
from panelwright.errors import DesignError
from panelwright.pattern.working import Part, Working

LEAST_RIGHT: Final = 100.0  # mm that a given length may be longer than reckoned, if the tail is not even longer
SHORTEST_STRIP: Final = 30.0  # mm of a tie beyond where it starts to be one
SASH_OVER: Final = 600.0  # mm that a sash is longer than its way round, for both ends together (a home-sewing rule)
_LAYERS: Final = {
    1: "one layer of cloth",
    2: "two layers of cloth",
    3: "three layers of cloth",
    4: "four layers of cloth",
}


@dataclass(frozen=True)
class Thumb:
    """The trade's own rule for a tie.

    Attributes:
        words: one sentence without a number.
        length: what it comes to for this wearer, mm.
    """

    words: str
    length: float


def back_thumb(knot: Knot, width: float) -> Thumb:
    """The rule for a back that is a tie (common practice).

    Args:
        knot: a bow takes more than the rule gives.
        width: of the back panels on one side, mm.
    """
    if knot == "double":
        return Thumb(
            "About twice the width of the back panels that it replaces, for a double knot on a middling body.",
            2 * width,
        )
    return Thumb(
        "More than twice the width of the back panels that it replaces, which is enough for a double knot.", 2 * width
    )


def sash_thumb(width: float) -> Thumb:
    """The rule for a sash that lies over the back: its way round and 60 cm to tie, half of that for each end.

    Args:
        width: of the back on one side, mm.
    """
    return Thumb(
        "For each end of a sash, its own side of the back and half of what a tied sash is longer than its way round.",
        width + SASH_OVER / 2,
    )


@dataclass(frozen=True)
class Tying:
    """How the two ends are tied.

    Attributes:
        knot: a `double` knot or a `bow`.
        width: of the tie where it is knotted, mm.
        thickness: of one layer of cloth, mm.
        layers: of cloth.
        tail: that hangs from the knot, mm.
        loop: of a bow, from the knot to its tip, mm.
        length: that the maker asked for, mm, measured along the middle from where the tie starts; None: as reckoned.
    """

    knot: Knot
    width: float
    thickness: float
    layers: int
    tail: float
    loop: float
    length: float | None = None

    @property
    def note(self) -> str:
        """How sure the knot is, and for how many layers of cloth it is reckoned."""
        return (
            f"The knot is reckoned from the gathered cloth, {_LAYERS[self.layers]}, by a model of our own and was not "
            "measured; tie it at the fitting before you cut. Where facing or lining make it other layers, say so in "
            "the step (layers)."
        )

    def working(self, id: str, what: str, reach: tuple[Part, ...], thumb: Thumb | None = None) -> Working:
        """The tie's length: what it reaches over before the knot, the knot, the tail.

        A given length is right down to half the tail, and up to another tail, or 10 cm.

        Args:
            id: of the working.
            what: is that long.
            reach: parts before the knot.
            thumb: the trade's own rule, where there is one for such a tie.

        Raises:
            DesignError: if the given length ends before there is a tie to knot.
        """
        diameter = gathered_diameter(self.width, self.thickness, self.layers)
        parts = (*reach, *knot_parts(self.knot, diameter, self.loop), Part("tail", self.tail))
        least = sum(part.length for part in reach) + SHORTEST_STRIP
        if self.length is not None and self.length < least:
            raise DesignError(
                f"a length of {length_words(self.length)} ends before the knot; give at least {least_words(least)}, "
                "or leave it out to have it reckoned",
                id,
            )
        long = max(LEAST_RIGHT, self.tail)
        rule = (thumb.words, thumb.length) if thumb else ("", None)
        return Working(id, what, parts, self.length, self.tail / 2, long, self.note, *rule)
