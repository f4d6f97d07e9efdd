"""A sleeve in a design file."""

from typing import Any, ClassVar, Literal, Self

from panelwright.design.sleeve import ARM, Sleeve
from panelwright.design.step_form import Length, StepForm, cm, mm


class SleeveForm(StepForm):
    """Length, cap and widths, in cm."""

    makes: ClassVar[type[Any]] = Sleeve

    kind: Literal["sleeve"]
    length_cm: Length = ARM / 10
    ease_cm: Length = 2.0
    cap_height_cm: Length | None = None
    upper_arm_cm: Length | None = None
    wrist_cm: Length | None = None

    def step(self) -> Sleeve:
        """The step."""
        lengths = (self.cap_height_cm, self.upper_arm_cm, self.wrist_cm)
        return Sleeve(
            self.uid, mm(self.length_cm), mm(self.ease_cm), *(None if each is None else mm(each) for each in lengths)
        )

    @classmethod
    def of(cls, step: Sleeve) -> Self:
        """The form of the step."""
        return cls(
            kind="sleeve",
            uid=step.uid,
            length_cm=cm(step.length),
            ease_cm=cm(step.ease),
            cap_height_cm=None if step.cap_height is None else cm(step.cap_height),
            upper_arm_cm=None if step.upper_arm is None else cm(step.upper_arm),
            wrist_cm=None if step.wrist is None else cm(step.wrist),
        )
