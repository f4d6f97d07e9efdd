"""The records of a file of pieces read off paper, format `panelwright-drawn/1`; the user guide tells every field."""

from typing import Annotated, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from panelwright.body.units import Unit
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.intake.points_curve import MOST_POINTS
from panelwright.pattern.edge import EdgeKind
from panelwright.pattern.mark import InsideKind, MarkKind
from panelwright.pattern.piece import Extent

FORMAT: Literal["panelwright-drawn/1"] = "panelwright-drawn/1"

Number = Annotated[float, Field(ge=-TOLERANCES.extent, le=TOLERANCES.extent)]
Name = Annotated[str, Field(min_length=1, max_length=60)]
Words = Annotated[str, Field(max_length=200)]
Place = Annotated[list[Number], Field(min_length=2, max_length=2)]
Table = Annotated[list[Place], Field(min_length=2, max_length=MOST_POINTS)]
Bezier = Annotated[list[Place], Field(min_length=4, max_length=3 * MOST_POINTS + 1)]


class Record(BaseModel):
    """Strict: no text for a number, no NaN, and no field that is not known."""

    model_config = ConfigDict(strict=True, frozen=True, extra="forbid", allow_inf_nan=False, populate_by_name=True)


class LineShape(Record):
    """A line: `points` that it runs smoothly through, or `cubics`, the 3n + 1 Bézier points of n cubics."""

    points: Table | None = None
    cubics: Bezier | None = None


class EdgeRecord(LineShape):
    """One edge of an outline, between two corners; truing leaves one that is to stay `as_drawn`."""

    kind: EdgeKind | None = None
    line: Annotated[str, Field(max_length=60)] = ""
    as_drawn: bool = False


class InsideRecord(LineShape):
    """A line inside a piece."""

    id: Name
    kind: InsideKind = "guide"


class LevelRecord(LineShape):
    """A level line, named as the levels of a block are: `waist`."""

    id: Name


class NotchRecord(Record):
    """A notch on the outline."""

    at: Place
    count: Annotated[int, Field(ge=1, le=3)] = 1


class MarkRecord(Record):
    """A point inside a piece."""

    id: Name
    kind: MarkKind = "point"
    at: Place


class PieceRecord(Record):
    """A piece."""

    id: Name
    label: Words = ""
    extent: Extent | None = None
    edges: Annotated[list[EdgeRecord], Field(min_length=2, max_length=100)]
    grain: Annotated[list[Place], Field(min_length=2, max_length=2)] | None = None
    levels: Annotated[list[LevelRecord], Field(max_length=40)] = []
    inside: Annotated[list[InsideRecord], Field(max_length=200)] = []
    notches: Annotated[list[NotchRecord], Field(max_length=200)] = []
    marks: Annotated[list[MarkRecord], Field(max_length=200)] = []


class EdgeRefRecord(Record):
    """An edge by its piece and its number in the outline, counted from 1."""

    piece: Name
    edge: Annotated[int, Field(ge=1, le=100)]


def _listed(side: object) -> object:
    return side if isinstance(side, list) else [side]


# One edge, or a list of those that lie one after another along the other side.
SeamSide = Annotated[list[EdgeRefRecord], BeforeValidator(_listed), Field(min_length=1, max_length=20)]


class SeamRecord(Record):
    """Edges that are sewn to each other; `ease` is how much longer `b` is meant to be than `a`."""

    line: Name
    a: SeamSide
    b: SeamSide
    ease: float = 0.0


class DrawnRecord(Record):
    """The file."""

    format: Literal["panelwright-drawn/1"]
    ref: str = "own-block"
    title: Words = ""
    unit: Literal["mm", "cm", "in"]
    scale: Literal[1, 4]
    points_centimetre: Literal["garment", "paper"] = "paper"
    allowance: float | None = Field(None, ge=0)
    allowance_centimetre: Literal["garment", "paper"] | None = None
    pieces: Annotated[list[PieceRecord], Field(min_length=1, max_length=100)]
    seams: Annotated[list[SeamRecord], Field(max_length=500)] = []

    @property
    def millimetres(self) -> float:
        """mm of the paper in one unit of its points."""
        ruler = self.scale if self.points_centimetre == "garment" else 1
        return Unit(self.unit).millimetres / ruler

    @property
    def unit_of_garment(self) -> float:
        """mm of the garment in one unit of its allowance."""
        return Unit(self.unit).millimetres
