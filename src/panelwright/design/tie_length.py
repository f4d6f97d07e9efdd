"""How long a tie is for this wearer, and how that was reckoned."""

from dataclasses import dataclass
from typing import Final

from panelwright.design.tie_knot import Knot, gathered_diameter, knot_parts
from panelwright.errors import DesignError
from panelwright.pattern.working import Part, Working

LEAST_RIGHT: Final = 100.0  # mm that a given length may be longer than reckoned, if the tail is not even longer
SHORTEST_STRIP: Final = 30.0  # mm of a tie beyond where it starts to be one
NOTE: Final = (
    "The knot is reckoned from the gathered cloth by a model of our own and was not measured; tie it at the fitting "
    "before you cut."
)
RULE_OF_THUMB: Final = (
    "About twice the width of the back panels that it replaces for a double knot, on a middling body; a bow needs more."
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

    def working(self, id: str, what: str, reach: tuple[Part, ...]) -> Working:
        """The tie's length: what it reaches over before the knot, the knot, the tail.

        A given length is right down to half the tail, and up to another tail, or 10 cm.

        Args:
            id: of the working.
            what: is that long.
            reach: parts before the knot.

        Raises:
            DesignError: if the given length ends before there is a tie to knot.
        """
        diameter = gathered_diameter(self.width, self.thickness, self.layers)
        parts = (*reach, *knot_parts(self.knot, diameter, self.loop), Part("tail", self.tail))
        least = sum(part.length for part in reach) + SHORTEST_STRIP
        if self.length is not None and self.length < least:
            raise DesignError(
                f"a length of {self.length / 10:.1f} cm ends before the knot; give at least {least / 10:.1f} cm, or "
                "leave it out to have it reckoned",
                id,
            )
        long = max(LEAST_RIGHT, self.tail)
        return Working(id, what, parts, self.length, self.tail / 2, long, NOTE, RULE_OF_THUMB)
