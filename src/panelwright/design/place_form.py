"""Places on the outline of a piece, as a design file writes them."""

from typing import Annotated, Self

from pydantic import ConfigDict, Field

from panelwright.design.edge_point import LineEnd
from panelwright.design.outline_point import OutlinePoint, WearerSide
from panelwright.design.step_form import FormRecord, Fraction, HeightForm, Offset, Text, cm, mm

Distance = Annotated[Offset, Field(ge=0)]
PieceCode = Annotated[str, Field(min_length=1, max_length=120)]
LineId = Annotated[str, Field(min_length=1, max_length=120)]


class PlaceForm(FormRecord):
    """A place on a line where it bounds a piece. `from` is a word of Python, so the field has another name here."""

    model_config = ConfigDict(**{**FormRecord.model_config, "serialize_by_alias": True})

    line: LineId
    level: Text | None = None
    offset_cm: Offset = 0.0
    distance_cm: Distance | None = None
    fraction: Fraction | None = None
    end: LineEnd = Field(default="start", alias="from")
    side: WearerSide = "right"

    def point(self) -> OutlinePoint:
        """The place, mm."""
        distance = None if self.distance_cm is None else mm(self.distance_cm)
        return OutlinePoint(self.line, self.level, mm(self.offset_cm), distance, self.fraction, self.end, self.side)

    @classmethod
    def of_point(cls, point: OutlinePoint) -> Self:
        """The form of a place."""
        return cls.model_validate(
            {
                "line": point.line,
                "level": point.level,
                "offset_cm": cm(point.offset),
                "distance_cm": None if point.distance is None else cm(point.distance),
                "fraction": point.fraction,
                "from": point.end,
                "side": point.side,
            }
        )

    def heights(self, name: str) -> list[tuple[str, HeightForm]]:
        """The level that it names, for checking the name."""
        return [(name, HeightForm(level=self.level, offset_cm=self.offset_cm))] if self.level else []
