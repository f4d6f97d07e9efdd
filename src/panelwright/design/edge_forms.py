"""Top edge and hem in a design file."""

from typing import Any, ClassVar, Literal, Self

from pydantic import Field

from panelwright.design.edge_shape import HemShape, TopShape
from panelwright.design.finished_edge import FreePoint
from panelwright.design.hem import Hem
from panelwright.design.position import Height
from panelwright.design.step_form import HeightForm, PointForm, StepForm
from panelwright.design.top_edge import TopEdge

MOST_POINTS = 40


class EdgeForm(StepForm):
    """What both have: heights at centre front, side and centre back, free points, a point or a right angle."""

    shape: Any
    centre: HeightForm
    side: HeightForm
    back: HeightForm | None = None
    points: list[PointForm] = Field(default=[], max_length=MOST_POINTS)
    point_at_centre: bool | None = None

    @classmethod
    def of(cls, step: TopEdge | Hem) -> Self:
        """The form of the step."""
        return cls.model_validate(
            {
                "kind": step.kind,
                "uid": step.uid,
                "shape": step.shape,
                "centre": HeightForm.of_height(step.centre),
                "side": HeightForm.of_height(step.side),
                "back": HeightForm.of_height(step.back) if step.back else None,
                "points": [PointForm.of_point(point) for point in step.points],
                "point_at_centre": step.point_at_centre,
            }
        )

    def heights(self) -> list[tuple[str, HeightForm]]:
        """Centre, side, back and every point."""
        named = [("centre", self.centre), ("side", self.side)]
        named += [("back", self.back)] if self.back else []
        return named + [(f"point {k}", point) for k, point in enumerate(self.points, 1)]

    def anchors(self) -> tuple[Height, Height, Height | None, tuple[FreePoint, ...], bool | None]:
        """What the steps take, in their order."""
        back = self.back.height() if self.back else None
        points = tuple(point.point() for point in self.points)
        return self.centre.height(), self.side.height(), back, points, self.point_at_centre


class TopEdgeForm(EdgeForm):
    """A top edge."""

    makes: ClassVar[type[Any]] = TopEdge

    kind: Literal["top-edge"]
    shape: TopShape

    def step(self) -> TopEdge:
        """The step."""
        return TopEdge(self.uid, self.shape, *self.anchors())


class HemForm(EdgeForm):
    """A hem."""

    makes: ClassVar[type[Any]] = Hem

    kind: Literal["hem"]
    shape: HemShape

    def step(self) -> Hem:
        """The step."""
        return Hem(self.uid, self.shape, *self.anchors())
