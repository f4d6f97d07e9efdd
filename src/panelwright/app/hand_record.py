"""What a hand has moved in a lay, move by move, as it is kept: every move can be taken back and made again."""

from collections.abc import Sequence
from typing import Annotated, Final, Self

from pydantic import Field, model_validator

from panelwright.app.block_record import Record
from panelwright.app.place_record import MOST_LAID, CopyNumber, PieceId, PlaceRecord
from panelwright.quotation import quoted

FARTHEST: Final = 50_000.0
# Older steps become one, with the last move of each piece, so that what is kept stays small.
MOST_STEPS: Final = 300


class MoveRecord(Record):
    """Where a piece went from where the planner laid it: turned round about its middle if so, then shifted, mm."""

    piece: PieceId
    number: CopyNumber
    turned: bool = False
    x: Annotated[float, Field(ge=-FARTHEST, le=FARTHEST)] = 0.0
    y: Annotated[float, Field(ge=-FARTHEST, le=FARTHEST)] = 0.0

    @property
    def key(self) -> tuple[str, int]:
        """Which piece, and which of its copies."""
        return self.piece, self.number

    @property
    def is_still(self) -> bool:
        """Whether it lies where the planner laid it."""
        return not (self.turned or self.x or self.y)


Step = Annotated[tuple[MoveRecord, ...], Field(min_length=1, max_length=MOST_LAID, strict=False)]


class HandRecord(Record):
    """All moves.

    Attributes:
        places: where the pieces lay before the first one.
        steps: what was moved at once, the oldest first; what was taken back is among them.
        done: how many of them hold.
    """

    places: Annotated[tuple[PlaceRecord, ...], Field(max_length=MOST_LAID, strict=False)]
    steps: Annotated[tuple[Step, ...], Field(max_length=MOST_STEPS, strict=False)] = ()
    done: Annotated[int, Field(ge=0, le=MOST_STEPS)] = 0

    @model_validator(mode="after")
    def _can_be(self) -> Self:
        """Refuse what no hand can have done."""
        if self.done > len(self.steps):
            raise ValueError(f"done says that {self.done} steps hold, but steps has {len(self.steps)}")
        known = {(place.piece, place.number) for place in self.places}
        if strange := next((key for key in _last(self.steps) if key not in known), None):
            raise ValueError(f"steps move {quoted(strange[0])} number {strange[1]}, which has no place in places")
        return self

    @property
    def moves(self) -> dict[tuple[str, int], MoveRecord]:
        """(piece, copy) -> where it went; what lies where it lay is not among them."""
        return {key: move for key, move in _last(self.steps[: self.done]).items() if not move.is_still}

    @property
    def can_undo(self) -> bool:
        """Whether a move can be taken back."""
        return self.done > 0

    @property
    def can_redo(self) -> bool:
        """Whether a move was taken back."""
        return self.done < len(self.steps)

    def moved(self, *steps: Step) -> "HandRecord":
        """With further moves; those that were taken back are gone."""
        own = (*self.steps[: self.done], *steps)
        if len(own) > MOST_STEPS:
            old = len(own) - MOST_STEPS + 1
            own = (tuple(_last(own[:old]).values()), *own[old:])
        return self.model_copy(update={"steps": own, "done": len(own)})

    def undone(self) -> "HandRecord":
        """Without the last move; the same where there is none."""
        return self.model_copy(update={"done": max(0, self.done - 1)})

    def redone(self) -> "HandRecord":
        """With the move again that was last taken back; the same where there is none."""
        return self.model_copy(update={"done": min(len(self.steps), self.done + 1)})

    def put_back(self) -> "HandRecord":
        """With every piece where it lay before the first move, as one move more."""
        still = tuple(MoveRecord(piece=piece, number=number) for piece, number in self.moves)
        return self.moved(still) if still else self


def _last(steps: Sequence[Step]) -> dict[tuple[str, int], MoveRecord]:
    """(piece, copy) -> its last move."""
    return {move.key: move for step in steps for move in step}
