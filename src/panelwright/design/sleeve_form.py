"""A sleeve in a design file."""

from typing import Any, ClassVar, Literal, Self

from panelwright.design.sleeve import Sleeve
from panelwright.design.step_form import Length, StepForm, cm, mm


class SleeveForm(StepForm):
    """Length, cap and widths, in cm."""

    makes: ClassVar[type[Any]] = Sleeve

    kind: Literal["sleeve"]
    length_cm: Length | None = None
    ease_cm: Length = 2.0
    cap_height_cm: Length | None = None
    upper_arm_cm: Length | None = None
    wrist_cm: Length | None = None

    def step(self) -> Sleeve:
        """The step."""
        return Sleeve(
            self.uid,
            _mm(self.length_cm),
            mm(self.ease_cm),
            _mm(self.cap_height_cm),
            _mm(self.upper_arm_cm),
            _mm(self.wrist_cm),
        )

    @classmethod
    def of(cls, step: Sleeve) -> Self:
        """The form of the step."""
        return cls(
            kind="sleeve",
            uid=step.uid,
            length_cm=_cm(step.length),
            ease_cm=cm(step.ease),
            cap_height_cm=_cm(step.cap_height),
            upper_arm_cm=_cm(step.upper_arm),
            wrist_cm=_cm(step.wrist),
        )


def _mm(length: float | None) -> float | None:
    return None if length is None else mm(length)


def _cm(length: float | None) -> float | None:
    return None if length is None else cm(length)
