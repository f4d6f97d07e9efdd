"""Joining pieces in a design file."""

from typing import Any, ClassVar, Literal, Self

from panelwright.design.join_step import Join, JoinGrain, JoinMisfit, Opens
from panelwright.design.place_form import LineId, PieceCode
from panelwright.design.step_form import HeightForm, StepForm


class JoinForm(StepForm):
    """Two pieces made one."""

    makes: ClassVar[type[Any]] = Join

    kind: Literal["join"]
    seam: LineId
    first: PieceCode | None = None
    misfit: JoinMisfit = "ease"
    point: HeightForm | None = None
    opens: Opens = "down"
    grain: JoinGrain = "square"

    def step(self) -> Join:
        """The step."""
        point = self.point.height() if self.point else None
        return Join(self.uid, self.seam, self.first, self.misfit, point, self.opens, self.grain)

    @classmethod
    def of(cls, step: Join) -> Self:
        """The form of the step."""
        return cls(
            kind="join",
            uid=step.uid,
            seam=step.seam,
            first=step.first,
            misfit=step.misfit,
            point=HeightForm.of_height(step.point) if step.point else None,
            opens=step.opens,
            grain=step.grain,
        )

    def heights(self) -> list[tuple[str, HeightForm]]:
        """The dart's point, if one is given."""
        return [("point", self.point)] if self.point else []
