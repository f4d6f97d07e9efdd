"""Swinging a dart in a design file."""

from typing import Annotated, Any, ClassVar, Literal, Self

from pydantic import Field

from panelwright.design.place_form import LineId, PlaceForm
from panelwright.design.step_form import HeightForm, Length, StepForm, cm, mm
from panelwright.design.swing_step import LEAST_SHARE, SwingDart


class SwingForm(StepForm):
    """A dart moved to another place."""

    makes: ClassVar[type[Any]] = SwingDart

    kind: Literal["swing"]
    dart: LineId
    to: PlaceForm
    share: Annotated[float, Field(ge=LEAST_SHARE, le=1, allow_inf_nan=False)] = 1.0
    point_back_cm: Length | None = None

    def step(self) -> SwingDart:
        """The step."""
        back = None if self.point_back_cm is None else mm(self.point_back_cm)
        return SwingDart(self.uid, self.dart, self.to.point(), self.share, back)

    @classmethod
    def of(cls, step: SwingDart) -> Self:
        """The form of the step."""
        return cls(
            kind="swing",
            uid=step.uid,
            dart=step.dart,
            to=PlaceForm.of_point(step.to),
            share=step.share,
            point_back_cm=None if step.point_back is None else cm(step.point_back),
        )

    def heights(self) -> list[tuple[str, HeightForm]]:
        """The level of the new place, if one is given."""
        return self.to.heights("to")
