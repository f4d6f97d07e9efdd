"""Buttons on a stand."""

from dataclasses import dataclass
from typing import ClassVar, Final

from panelwright.body.worded_length import length_words
from panelwright.design.button_row import button_row
from panelwright.design.closure_opening import Opening, Spot
from panelwright.design.fastening import Fitted, within
from panelwright.errors import DesignError
from panelwright.file_words import in_file
from panelwright.pattern.closure import ClosureKind
from panelwright.pattern.line import CENTRE_FRONT
from panelwright.pattern.notion import Notion

LEAST_ABOVE: Final = 10.0  # mm from a button at the bust to the upper edge
NEAREST, FARTHEST = 15.0, 200.0  # mm from one button to the next


@dataclass(frozen=True)
class Buttons:
    """Buttons on the centre line of edges that lap.

    Attributes:
        stand: by which each edge reaches beyond the centre line, mm.
        spacing: wanted from one button to the next, mm; it is made to come out even.

    Raises:
        DesignError: if a number is out of range.
    """

    kind: ClassVar[ClosureKind] = "buttons"
    style: ClassVar[str] = ""
    gap: ClassVar[float] = 0.0
    side_fault: ClassVar[str] = (
        "a button stand would be added to both side seams, though one alone opens; button the centre front or the "
        "centre back, or choose a zip or hooks here"
    )
    part_fault: ClassVar[str] = (
        f"a button stand runs to the hem; leave out where it ends{in_file('down_to, opening_cm')}"
    )

    stand: float = 15.0
    spacing: float = 60.0

    def __post_init__(self) -> None:
        fault = within("a button stand", self.stand, 8.0, 60.0) or within(
            "the spacing of buttons", self.spacing, NEAREST, FARTHEST
        )
        if fault:
            raise DesignError(fault, "buttons")

    def fitted(self, opening: Opening) -> Fitted:
        """Buttons on the centre line, the first and the last as far from the ends as the stand is wide, or
        one at the bust nearer to the upper edge.

        Raises:
            DesignError: if two buttons have no room.
        """
        bust = opening.bust if opening.place == CENTRE_FRONT else None
        if opening.length - 2 * self.stand < NEAREST:
            raise DesignError(
                f"the {length_words(opening.length)} that open have no room for two buttons; choose hooks or a tie",
                opening.piece.id,
            )
        heights = button_row(*self.between(opening.low, opening.high, bust), self.spacing, bust)
        spots = tuple(Spot("button", f"button-{k}", height) for k, height in enumerate(heights, 1))
        detail = f"{opening.words}: buttonholes on the wearer's right half, buttons on the left"
        notion = Notion("button", "button", len(heights), None, opening.uid, detail)
        return Fitted((notion,), (), spots)

    def between(self, low: float, high: float, bust: float | None) -> tuple[float, float]:
        """The lowest and the highest place for a button on a line that opens from `low` to `high`, mm."""
        top = high - self.stand
        if bust is not None and top < bust <= high - LEAST_ABOVE:
            top = bust
        return low + self.stand, top
