"""Splitting pieces in a design file."""

from typing import Annotated, Any, ClassVar, Literal, Self

from pydantic import Field

from panelwright.design.finished_edge import FreePoint
from panelwright.design.place_form import LineId, PieceCode, PlaceForm
from panelwright.design.split_step import BETWEEN, Split, SplitWay
from panelwright.design.step_form import HeightForm, PointForm, StepForm

MOST_PIECES, MOST_POINTS = 20, 12


class SplitForm(StepForm):
    """A line that cuts pieces apart."""

    makes: ClassVar[type[Any]] = Split

    kind: Literal["split"]
    way: SplitWay = "line"
    pieces: Annotated[list[PieceCode], Field(max_length=MOST_PIECES)]
    start: PlaceForm | None = None
    end: PlaceForm | None = None
    through: list[PointForm] = Field(default=[], max_length=MOST_POINTS)
    height: HeightForm | None = None
    line: LineId | None = None
    towards: LineId | None = None
    fraction: Annotated[float, Field(ge=BETWEEN[0], le=BETWEEN[1], allow_inf_nan=False)] = 0.5

    def step(self) -> Split:
        """The step."""
        return Split(
            self.uid,
            self.way,
            tuple(self.pieces),
            self.start.point() if self.start else None,
            self.end.point() if self.end else None,
            tuple(point.point().at for point in self.through),
            self.height.height() if self.height else None,
            self.line,
            self.towards,
            self.fraction,
        )

    @classmethod
    def of(cls, step: Split) -> Self:
        """The form of the step."""
        return cls(
            kind="split",
            uid=step.uid,
            way=step.way,
            pieces=list(step.pieces),
            start=PlaceForm.of_point(step.start) if step.start else None,
            end=PlaceForm.of_point(step.end) if step.end else None,
            through=[PointForm.of_point(FreePoint(point)) for point in step.through],
            height=HeightForm.of_height(step.height) if step.height else None,
            line=step.line,
            towards=step.towards,
            fraction=step.fraction,
        )

    def heights(self) -> list[tuple[str, HeightForm]]:
        """Every level that it names."""
        found = [("height", self.height)] if self.height else []
        found += self.start.heights("start") if self.start else []
        found += self.end.heights("end") if self.end else []
        return found + [(f"place {k}", point) for k, point in enumerate(self.through, 1)]
