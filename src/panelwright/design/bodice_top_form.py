"""A bodice to the shoulder in a design file."""

from typing import Any, ClassVar, Literal, Self

from panelwright.design.bodice_top import BodiceTop
from panelwright.design.neck_curve import NeckShape
from panelwright.design.step_form import Length, StepForm, cm, mm


class BodiceTopForm(StepForm):
    """Neckline and armholes, in cm."""

    makes: ClassVar[type[Any]] = BodiceTop

    kind: Literal["bodice-top"]
    shape: NeckShape = "round"
    front_depth_cm: Length = 0.0
    back_depth_cm: Length = 0.0
    width_cm: Length = 0.0
    armhole_lower_cm: Length = 1.0
    shoulder_in_cm: Length = 0.0

    def step(self) -> BodiceTop:
        """The step."""
        depths = mm(self.front_depth_cm), mm(self.back_depth_cm)
        armhole = mm(self.armhole_lower_cm), mm(self.shoulder_in_cm)
        return BodiceTop(self.uid, self.shape, *depths, mm(self.width_cm), *armhole)

    @classmethod
    def of(cls, step: BodiceTop) -> Self:
        """The form of the step."""
        return cls(
            kind="bodice-top",
            uid=step.uid,
            shape=step.shape,
            front_depth_cm=cm(step.front_depth),
            back_depth_cm=cm(step.back_depth),
            width_cm=cm(step.width),
            armhole_lower_cm=cm(step.armhole_lower),
            shoulder_in_cm=cm(step.shoulder_in),
        )
