"""Slashing and spreading a piece, in a design file."""

from typing import Annotated, Any, ClassVar, Literal, Self

from pydantic import Field

from panelwright.design.outline_point import WearerSide
from panelwright.design.place_form import LineId, PieceCode
from panelwright.design.spread_step import MOST_SLASHES, USUAL_SLASHES, SpreadPiece
from panelwright.design.step_form import Length, StepForm, cm, mm


class SpreadForm(StepForm):
    """A piece slashed and spread."""

    makes: ClassVar[type[Any]] = SpreadPiece

    kind: Literal["spread"]
    piece: PieceCode
    open: LineId
    closed: LineId
    amount_cm: Length
    closed_amount_cm: Length = 0.0
    slashes: Annotated[int, Field(ge=1, le=MOST_SLASHES)] = USUAL_SLASHES
    side: WearerSide = "right"

    def step(self) -> SpreadPiece:
        """The step."""
        amounts = mm(self.amount_cm), mm(self.closed_amount_cm)
        return SpreadPiece(self.uid, self.piece, self.open, self.closed, *amounts, self.slashes, self.side)

    @classmethod
    def of(cls, step: SpreadPiece) -> Self:
        """The form of the step."""
        return cls(
            kind="spread",
            uid=step.uid,
            piece=step.piece,
            open=step.open,
            closed=step.closed,
            amount_cm=cm(step.amount),
            closed_amount_cm=cm(step.closed_amount),
            slashes=step.slashes,
            side=step.side,
        )
