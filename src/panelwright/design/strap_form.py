"""Straps in a design file."""

from typing import Any, ClassVar, Literal, Self

from panelwright.design.step_form import Fraction, Length, StepForm, cm, mm
from panelwright.design.strap import SPOKEN, Nape, Strap, StrapType
from panelwright.design.strap_fields import ALL, foreign_fault, own_fields
from panelwright.design.tie_knot import Knot
from panelwright.errors import DesignError


class StrapForm(StepForm):
    """Straps, in cm; what belongs to another type than its own is refused."""

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
        """The step.

        Raises:
            DesignError: if a field does not belong to the type, or a number is out of range.
        """
        given = (name for name in ALL if name in self.model_fields_set and getattr(self, name) is not None)
        if fault := foreign_fault(self.type, self.nape, given):
            raise DesignError(f"{SPOKEN}: {fault}", f"step {self.uid}")
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
        """The form of the step, with the fields of its type."""
        own = {field: getattr(step, name) for field, name in own_fields(step.type, step.nape).items()}
        written = {field: _cm(value) if field.endswith("_cm") else value for field, value in own.items()}
        return cls.model_validate({"kind": step.kind, "uid": step.uid, "type": step.type, **written})


def _mm(length_cm: float | None) -> float | None:
    return None if length_cm is None else mm(length_cm)


def _cm(length_mm: float | None) -> float | None:
    return None if length_mm is None else cm(length_mm)
