"""The step that slashes a piece and spreads it."""

from dataclasses import dataclass
from typing import ClassVar, Final

from panelwright.body.worded_length import given_words, range_words
from panelwright.design.body_chart import half_chart
from panelwright.design.outline_point import WearerSide, named_piece
from panelwright.design.panel_place import worn_region
from panelwright.design.position import spoken
from panelwright.design.sound_outline import refuse_crossed
from panelwright.design.spread_piece import Spread, spread
from panelwright.design.squared_grain import squared
from panelwright.design.step import blamed, checked_uid
from panelwright.errors import DesignError
from panelwright.pattern.pattern import Pattern

SPOKEN = "spread"
AMOUNT: Final = (2.0, 1000.0)  # mm
MOST_SLASHES: Final = 8
USUAL_SLASHES: Final = 3


@dataclass(frozen=True)
class SpreadPiece:
    """Slashes a piece between two edges and spreads it: flare, or fullness.

    Attributes:
        uid: permanent name in the design.
        piece: its code.
        open: line of the edge that gets wider.
        closed: line of the edge opposite.
        amount: what the open edge gains in all, mm.
        closed_amount: what the other gains, mm: 0 for flare, as much as the open one for fullness.
        slashes: how many.
        side: of a piece drawn for both sides of the wearer.

    Raises:
        DesignError: if a number is out of range, the closed edge gains more than the open one, or both are one line.
    """

    kind: ClassVar[str] = "spread"
    needs_shoulder: ClassVar[bool] = False

    uid: str
    piece: str
    open: str
    closed: str
    amount: float
    closed_amount: float = 0.0
    slashes: int = USUAL_SLASHES
    side: WearerSide = "right"

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        if not AMOUNT[0] <= self.amount <= AMOUNT[1]:
            self._refuse(f"an edge that gains {given_words(self.amount)} cannot be; give {range_words(*AMOUNT)}")
        if not 0.0 <= self.closed_amount <= AMOUNT[1]:
            self._refuse(
                f"the other edge cannot gain {given_words(self.closed_amount)}; give {range_words(0.0, AMOUNT[1])}"
            )
        if not 1 <= self.slashes <= MOST_SLASHES:
            self._refuse(f"{self.slashes} slashes are not 1 to {MOST_SLASHES}")
        if self.open == self.closed:
            self._refuse("a slash runs from one edge to another; name two lines")

    def _refuse(self, why: str) -> None:
        raise DesignError(f"{SPOKEN}: {why}", f"step {self.uid}")

    @property
    def label(self) -> str:
        """`Spread: SF, flare at the hem`."""
        what = "fullness between" if self.closed_amount else "flare at"
        other = f" and {_spoken(self.closed)}" if self.closed_amount else ""
        return f"Spread: {self.piece}, {what} {_spoken(self.open)}{other}"

    @property
    def slots(self) -> tuple[str, ...]:
        """None: no line is new."""
        return ()

    @property
    def uses(self) -> frozenset[str]:
        """The steps that made the two edges."""
        makers = (line.partition("/") for line in (self.open, self.closed))
        return frozenset(maker for maker, slash, _ in makers if slash)

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern with the piece spread.

        Raises:
            DesignError: if there is no such piece or edge, the edges do not lie opposite each other, or the piece
                would lap over itself.
        """
        with blamed(self.uid, SPOKEN):
            piece = named_piece(pattern, self.piece)
            how = Spread(self.open, self.closed, self.amount, self.closed_amount, self.slashes, self.side)
            after = spread(pattern, piece, how, worn_region(half_chart(block), piece))
            refuse_crossed(after, (piece.id,), "spread it less")
            return squared(after, (piece.id,))


def _spoken(line: str) -> str:
    return spoken(line).removesuffix("/line")
