"""Frills and peplums in a design file."""

from typing import Annotated, Any, ClassVar, Literal, Self

from pydantic import Field

from panelwright.design.frill import RATIO, Frill, FrillShape, Peplum
from panelwright.design.place_form import LineId
from panelwright.design.step_form import Length, StepForm, cm, mm

Ratio = Annotated[float, Field(ge=RATIO[0], le=RATIO[1], allow_inf_nan=False)]


class FrillForm(StepForm):
    """A frill."""

    makes: ClassVar[type[Any]] = Frill

    kind: Literal["frill"]
    line: LineId
    shape: FrillShape = "straight"
    width_cm: Length = 5.0
    ratio: Ratio = 1.5

    def step(self) -> Frill:
        """The step."""
        return Frill(self.uid, self.line, self.shape, mm(self.width_cm), self.ratio)

    @classmethod
    def of(cls, step: Frill) -> Self:
        """The form of the step."""
        return cls(
            kind="frill", uid=step.uid, line=step.line, shape=step.shape, width_cm=cm(step.width), ratio=step.ratio
        )


class PeplumForm(StepForm):
    """A peplum."""

    makes: ClassVar[type[Any]] = Peplum

    kind: Literal["peplum"]
    line: LineId
    length_cm: Length = 15.0
    flare: Ratio = 1.5

    def step(self) -> Peplum:
        """The step."""
        return Peplum(self.uid, self.line, mm(self.length_cm), self.flare)

    @classmethod
    def of(cls, step: Peplum) -> Self:
        """The form of the step."""
        return cls(kind="peplum", uid=step.uid, line=step.line, length_cm=cm(step.length), flare=step.flare)
