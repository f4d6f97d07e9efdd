"""A skirt that is sewn to a bodice, in a design file."""

from typing import Any, ClassVar, Literal, Self

from panelwright.blocks.skirt_options import CircleShare, SkirtOptions
from panelwright.design.place_form import LineId
from panelwright.design.skirt_step import HIP_EASE, SkirtStep, SkirtType
from panelwright.design.step_form import Length, StepForm, cm, mm
from panelwright.errors import DesignError, InputError


class SkirtForm(StepForm):
    """Where it is sewn on and its shape, as the block of a skirt has it; lengths in cm."""

    makes: ClassVar[type[Any]] = SkirtStep

    kind: Literal["skirt"]
    line: LineId
    type: SkirtType = "circle-skirt"
    length_cm: Length = SkirtOptions.length / 10
    circle: CircleShare = SkirtOptions.circle
    gores: int = SkirtOptions.gores
    flare_cm: Length = SkirtOptions.flare / 10
    cloth_width_cm: Length = SkirtOptions.cloth_width / 10
    ease_cm: Length = 0.0
    hip_ease_cm: Length = HIP_EASE / 10
    opening_cm: Length | None = None

    def step(self) -> SkirtStep:
        """The step.

        Raises:
            DesignError: if no skirt can be of that shape.
        """
        try:
            shape = SkirtOptions(
                length=mm(self.length_cm),
                circle=self.circle,
                gores=self.gores,
                flare=mm(self.flare_cm),
                cloth_width=mm(self.cloth_width_cm),
            )
        except InputError as error:
            raise DesignError(f"skirt: {error}", f"step {self.uid}") from error
        opening = None if self.opening_cm is None else mm(self.opening_cm)
        return SkirtStep(self.uid, self.line, self.type, shape, mm(self.ease_cm), mm(self.hip_ease_cm), opening)

    @classmethod
    def of(cls, step: SkirtStep) -> Self:
        """The form of the step."""
        shape = step.shape
        return cls(
            kind="skirt",
            uid=step.uid,
            line=step.line,
            type=step.type,
            length_cm=cm(shape.length),
            circle=shape.circle,
            gores=shape.gores,
            flare_cm=cm(shape.flare),
            cloth_width_cm=cm(shape.cloth_width),
            ease_cm=cm(step.ease),
            hip_ease_cm=cm(step.hip_ease),
            opening_cm=None if step.opening is None else cm(step.opening),
        )
