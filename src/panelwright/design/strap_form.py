"""Straps in a design file."""

from typing import Any, ClassVar, Literal, Self

from panelwright.design.step_form import Fraction, Length, StepForm, cm, mm
from panelwright.design.strap import Nape, Strap, StrapType
from panelwright.design.tie_knot import Knot


class StrapForm(StepForm):
    """Straps, in cm."""

    makes: ClassVar[type[Any]] = Strap

    kind: Literal["strap"]
    type: StrapType = "grown"
    at_shoulder_cm: Length | None = None
    share_of_shoulder: Fraction | None = None
    width_cm: Length = 3.0
    width_at_foot_cm: Length | None = None
    at_front_cm: Length | None = None
    at_back_cm: Length | None = None
    rounding_cm: Length = 2.5
    corner: bool = False
    length_cm: Length | None = None
    crossed: bool = False
    nape: Nape = "seam"
    knot: Knot = "bow"
    tail_cm: Length = 10.0
    loop_cm: Length = 12.0

    def step(self) -> Strap:
        """The step."""
        return Strap(
            uid=self.uid,
            type=self.type,
            at_shoulder=_mm(self.at_shoulder_cm),
            share=self.share_of_shoulder,
            width=mm(self.width_cm),
            foot_width=_mm(self.width_at_foot_cm),
            at_front=_mm(self.at_front_cm),
            at_back=_mm(self.at_back_cm),
            rounding=mm(self.rounding_cm),
            corner=self.corner,
            length=_mm(self.length_cm),
            crossed=self.crossed,
            nape=self.nape,
            knot=self.knot,
            tail=mm(self.tail_cm),
            loop=mm(self.loop_cm),
        )

    @classmethod
    def of(cls, step: Strap) -> Self:
        """The form of the step."""
        return cls(
            kind="strap",
            uid=step.uid,
            type=step.type,
            at_shoulder_cm=_cm(step.at_shoulder),
            share_of_shoulder=step.share,
            width_cm=cm(step.width),
            width_at_foot_cm=_cm(step.foot_width),
            at_front_cm=_cm(step.at_front),
            at_back_cm=_cm(step.at_back),
            rounding_cm=cm(step.rounding),
            corner=step.corner,
            length_cm=_cm(step.length),
            crossed=step.crossed,
            nape=step.nape,
            knot=step.knot,
            tail_cm=cm(step.tail),
            loop_cm=cm(step.loop),
        )


def _mm(length_cm: float | None) -> float | None:
    return None if length_cm is None else mm(length_cm)


def _cm(length_mm: float | None) -> float | None:
    return None if length_mm is None else cm(length_mm)
