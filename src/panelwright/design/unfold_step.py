"""The step that draws both sides of the body."""

from dataclasses import dataclass
from typing import ClassVar

from panelwright.design.step import blamed, checked_uid
from panelwright.design.unfold import unfold
from panelwright.errors import DesignError
from panelwright.pattern.pattern import Pattern

SPOKEN = "unfold"


@dataclass(frozen=True)
class Unfold:
    """Opens what is on the fold and draws both pieces of every pair, so that the two sides may differ from there on.

    A piece on the fold keeps its code. Half of a pair keeps it for the wearer's right side; the left one is called
    `<code>/left`.

    Attributes:
        uid: permanent name in the design.
    """

    kind: ClassVar[str] = "unfold"
    needs_shoulder: ClassVar[bool] = False

    uid: str

    def __post_init__(self) -> None:
        checked_uid(self.uid)

    @property
    def label(self) -> str:
        """`Unfold`."""
        return "Unfold"

    @property
    def slots(self) -> tuple[str, ...]:
        """None: no line is new."""
        return ()

    @property
    def uses(self) -> frozenset[str]:
        """No earlier step."""
        return frozenset()

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:  # noqa: ARG002  # every step is given the block
        """The pattern with both sides.

        Raises:
            DesignError: if it is drawn for both sides already, or a whole piece is sewn to half of a pair.
        """
        with blamed(self.uid, SPOKEN):
            unfolded = unfold(pattern)
            if len(unfolded.pieces) == len(pattern.pieces) and all(
                piece.extent != "half_on_fold" for piece in pattern.pieces
            ):
                raise DesignError("every piece is drawn for one side or entire already; take this step out")
            return unfolded
