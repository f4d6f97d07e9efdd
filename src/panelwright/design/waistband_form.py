"""A waistband in a design file."""

from typing import Any, ClassVar, Literal, Self

from panelwright.design.step_form import Length, StepForm, cm, mm
from panelwright.design.waistband import Waistband


class WaistbandForm(StepForm):
    """Width and overlap, in cm."""

    makes: ClassVar[type[Any]] = Waistband

    kind: Literal["waistband"]
    width_cm: Length = 3.0
    overlap_cm: Length = 3.0
    folded: bool = True

    def step(self) -> Waistband:
        """The step."""
        return Waistband(self.uid, mm(self.width_cm), mm(self.overlap_cm), self.folded)

    @classmethod
    def of(cls, step: Waistband) -> Self:
        """The form of the step."""
        return cls(
            kind="waistband",
            uid=step.uid,
            width_cm=cm(step.width),
            overlap_cm=cm(step.overlap),
            folded=step.folded,
        )
