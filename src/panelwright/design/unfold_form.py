"""Unfolding in a design file."""

from typing import Any, ClassVar, Literal, Self

from panelwright.design.step_form import StepForm
from panelwright.design.unfold_step import Unfold


class UnfoldForm(StepForm):
    """Both sides of the body, drawn."""

    makes: ClassVar[type[Any]] = Unfold

    kind: Literal["unfold"]

    def step(self) -> Unfold:
        """The step."""
        return Unfold(self.uid)

    @classmethod
    def of(cls, step: Unfold) -> Self:
        """The form of the step."""
        return cls(kind="unfold", uid=step.uid)
