"""A tie in a design file."""

from typing import Annotated, Any, ClassVar, Literal, Self

from pydantic import ConfigDict, Field

from panelwright.design.back_tie import Misfit
from panelwright.design.step_form import FormRecord, HeightForm, Length, StepForm, cm, mm
from panelwright.design.tie import MOST_TIES, Tie, TieStart
from panelwright.design.tie_knot import Knot
from panelwright.design.tie_shape import TieEnd

Thickness = Annotated[float, Field(ge=0.05, le=10, allow_inf_nan=False)]


class TieForm(StepForm):
    """A tie. `from` is a word of Python, so the field has another name in the code."""

    model_config = ConfigDict(**{**FormRecord.model_config, "serialize_by_alias": True})

    makes: ClassVar[type[Any]] = Tie

    kind: Literal["tie"]
    start: TieStart = Field(default="side", alias="from")
    knot: Knot = "double"
    width_cm: Length | None = None
    end_width_cm: Length | None = None
    end: TieEnd = "square"
    tail_cm: Length = 10.0
    loop_cm: Length = 12.0
    length_cm: Length | None = None
    height: HeightForm | None = None
    count: Annotated[int, Field(ge=1, le=MOST_TIES)] = 1
    misfit: Misfit = "eased"
    grain_along: bool = False
    cloth_thickness_mm: Thickness = 0.4
    layers: Annotated[int, Field(ge=1, le=4)] = 2

    def step(self) -> Tie:
        """The step."""
        return Tie(
            self.uid,
            self.start,
            self.knot,
            _mm(self.width_cm),
            _mm(self.end_width_cm),
            self.end,
            mm(self.tail_cm),
            mm(self.loop_cm),
            _mm(self.length_cm),
            self.height.height() if self.height else None,
            self.count,
            self.misfit,
            self.grain_along,
            self.cloth_thickness_mm,
            self.layers,
        )

    @classmethod
    def of(cls, step: Tie) -> Self:
        """The form of the step."""
        return cls.model_validate(
            {
                "kind": step.kind,
                "uid": step.uid,
                "from": step.start,
                "knot": step.knot,
                "width_cm": _cm(step.width),
                "end_width_cm": _cm(step.end_width),
                "end": step.end,
                "tail_cm": cm(step.tail),
                "loop_cm": cm(step.loop),
                "length_cm": _cm(step.length),
                "height": HeightForm.of_height(step.height) if step.height else None,
                "count": step.count,
                "misfit": step.misfit,
                "grain_along": step.grain_along,
                "cloth_thickness_mm": step.thickness,
                "layers": step.layers,
            }
        )

    def heights(self) -> list[tuple[str, HeightForm]]:
        """The height, if one is given."""
        return [("height", self.height)] if self.height else []


def _mm(length_cm: float | None) -> float | None:
    return None if length_cm is None else mm(length_cm)


def _cm(length_mm: float | None) -> float | None:
    return None if length_mm is None else cm(length_mm)
