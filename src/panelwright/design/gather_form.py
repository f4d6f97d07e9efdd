"""A dart turned into gathers or tucks, in a design file."""

from typing import Any, ClassVar, Literal, Self

from panelwright.design.gather_step import Gather
from panelwright.design.place_form import LineId
from panelwright.design.released_dart import Fullness
from panelwright.design.step_form import Length, StepForm, cm, mm


class GatherForm(StepForm):
    """A dart that becomes fullness."""

    makes: ClassVar[type[Any]] = Gather

    kind: Literal["gather"]
    dart: LineId
    fullness: Fullness = "gathers"
    tuck_cm: Length | None = None

    def step(self) -> Gather:
        """The step."""
        return Gather(self.uid, self.dart, self.fullness, None if self.tuck_cm is None else mm(self.tuck_cm))

    @classmethod
    def of(cls, step: Gather) -> Self:
        """The form of the step."""
        tuck = None if step.tuck is None else cm(step.tuck)
        return cls(kind="gather", uid=step.uid, dart=step.dart, fullness=step.fullness, tuck_cm=tuck)
