"""The form of a step in a design file: what every kind of step has there, and how heights and lengths are written.

Lengths are in cm here, and the fields say so; a text may name its own unit.
"""

import math
from decimal import Decimal
from typing import Annotated, Any, ClassVar, Self

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from panelwright.body.length_field import centimetres
from panelwright.design.finished_edge import FreePoint
from panelwright.design.position import BodyPoint, Height
from panelwright.design.step import Step

MOST_TEXT = 60
MOST_NOTE = 300


def _one_line(note: str) -> str:
    if not note.strip() or not note.isprintable():
        raise ValueError(f"write a note in one line of 1 to {MOST_NOTE} letters, or leave it out")
    return note


Text = Annotated[str, Field(min_length=1, max_length=MOST_TEXT)]
Share = Annotated[float, Field(ge=-1, le=1, allow_inf_nan=False)]
Note = Annotated[str, Field(max_length=MOST_NOTE), AfterValidator(_one_line)]
Fraction = Annotated[float, Field(ge=0, le=1, allow_inf_nan=False)]
Offset = Annotated[float, Field(ge=-100, le=100, allow_inf_nan=False), BeforeValidator(centimetres)]
# Its limits are the step's own, so that the first refusal names those that hold.
Length = Annotated[float, Field(allow_inf_nan=False), BeforeValidator(centimetres)]


class FormRecord(BaseModel):
    """Strict: no text for a number unless it is a length with its unit, no NaN, no field that is not known."""

    model_config = ConfigDict(hide_input_in_errors=True, extra="forbid", strict=True, frozen=True)


class HeightForm(FormRecord):
    """A level and how far from it."""

    level: Text
    offset_cm: Offset = 0.0
    share_to_next_level: Share = 0.0

    @model_validator(mode="after")
    def _one_of_two(self) -> Self:
        if self.offset_cm and self.share_to_next_level:
            raise ValueError("give offset_cm or share_to_next_level, not both")
        return self

    def height(self) -> Height:
        """The height, mm."""
        return Height(self.level, mm(self.offset_cm), self.share_to_next_level)

    @classmethod
    def of_height(cls, height: Height) -> "HeightForm":
        """The form of a height."""
        return HeightForm(level=height.level, offset_cm=cm(height.offset), share_to_next_level=height.share)


class PointForm(HeightForm):
    """A place on the wearer, on a line or between two."""

    line: Text
    towards: Text | None = None
    fraction: Fraction = 0.0
    corner: bool = False

    @model_validator(mode="after")
    def _two_lines(self) -> Self:
        if self.fraction and self.towards is None:
            raise ValueError("a fraction needs `towards`, the line that it leads to")
        return self

    def point(self) -> FreePoint:
        """The free point, mm."""
        return FreePoint(BodyPoint(self.height(), self.line, self.towards, self.fraction), self.corner)

    @classmethod
    def of_point(cls, point: FreePoint) -> "PointForm":
        """The form of a free point."""
        at = point.at
        return PointForm(
            level=at.height.level,
            offset_cm=cm(at.height.offset),
            share_to_next_level=at.height.share,
            line=at.line,
            towards=at.towards,
            fraction=at.fraction,
            corner=point.corner,
        )


class StepForm(FormRecord):
    """One kind of step. A subclass adds `kind: Literal["top-edge"]` and its own fields, names the step's class in
    `makes`, and turns itself into the step and back.

    Attributes:
        uid: permanent name of the step.
        off: the step stays in the list and is not carried out.
        note: of the maker, for whoever reads the list; it changes nothing.
        makes: the class of the step.
    """

    makes: ClassVar[type[Any]]

    uid: Text
    off: bool = False
    note: Note | None = None

    def step(self) -> Step:
        """The step.

        Raises:
            DesignError: if it cannot be.
        """
        raise NotImplementedError

    @classmethod
    def of(cls, step: Any) -> Self:
        """The form of a step of the class `makes`; `form.step()` is the same step again."""
        raise NotImplementedError

    def heights(self) -> list[tuple[str, HeightForm]]:
        """(how it is called, height) of every level that the step names, for checking the names."""
        return []


def mm(length_cm: float) -> float:
    """Exact in decimals, so that what was written as cm comes back as the same mm."""
    return float(Decimal(repr(length_cm)) * 10) if math.isfinite(length_cm) else length_cm


def cm(length_mm: float) -> float:
    """Exact in decimals, like `mm`."""
    return float(Decimal(repr(float(length_mm))) / 10)
