"""The records of a block that is being traced over a picture, format `panelwright-trace/1`; docs/board.md tells it.

Places are pixels of the picture, y down, so that a scale which is set anew moves nothing. Work that is not done yet
can be saved: pieces that are open, no scale.
"""

from typing import Annotated, Final, Literal

from pydantic import Field

from panelwright.app.drawn_record import Name, Record, SeamSide, Words
from panelwright.intake.points_curve import MOST_POINTS
from panelwright.pattern.edge import EdgeKind

FORMAT: Final = "panelwright-trace/1"
LARGEST: Final = 40_000.0  # pixels
MOST_NOTCHES: Final = 100  # of a piece

Pixel = Annotated[float, Field(ge=-LARGEST, le=2 * LARGEST)]
Spot = Annotated[list[Pixel], Field(min_length=2, max_length=2)]
Spots = Annotated[list[Spot], Field(max_length=MOST_POINTS)]
Length = Annotated[float, Field(gt=0, le=5000)]


class PictureRecord(Record):
    """The picture that the places are of; the picture itself is not kept here."""

    width: Annotated[float, Field(gt=0, le=LARGEST)]
    height: Annotated[float, Field(gt=0, le=LARGEST)]


class KnownLength(Record):
    """Two places a known distance apart on the paper."""

    kind: Literal["length"]
    ends: Annotated[list[Spot], Field(min_length=2, max_length=2)]
    mm: Length


class KnownSheet(Record):
    """The corners of a rectangle of known size, in order round it; the first side is the width."""

    kind: Literal["sheet"]
    corners: Annotated[list[Spot], Field(min_length=4, max_length=4)]
    width_mm: Length
    height_mm: Length


class TracedEdge(Record):
    """An edge as far as it is traced; it begins where the one before it ends. Truing leaves it if it is `as_drawn`."""

    points: Spots
    kind: EdgeKind | None = None
    line: Annotated[str, Field(max_length=60)] = ""
    as_drawn: bool = False


class TracedLevel(Record):
    """A level line."""

    id: Name
    points: Annotated[Spots, Field(min_length=2)]


class TracedNotch(Record):
    """A notch on the outline."""

    at: Spot
    count: Annotated[int, Field(ge=1, le=3)] = 1


class TracedMark(Record):
    """A point inside a piece, `bust-point`."""

    id: Name
    at: Spot


class TracedPiece(Record):
    """A piece; `closed` once its last edge ends where the first one begins."""

    id: Name
    label: Words = ""
    whole: bool = False
    closed: bool = False
    edges: Annotated[list[TracedEdge], Field(min_length=1, max_length=100)]
    levels: Annotated[list[TracedLevel], Field(max_length=40)] = Field(default_factory=list)
    grain: Annotated[list[Spot], Field(min_length=2, max_length=2)] | None = None
    notches: Annotated[list[TracedNotch], Field(max_length=MOST_NOTCHES)] = Field(default_factory=list)
    marks: Annotated[list[TracedMark], Field(max_length=100)] = Field(default_factory=list)


class TracedSeam(Record):
    """Edges that the maker has said are sewn to each other."""

    line: Name
    a: SeamSide
    b: SeamSide
    ease_mm: float = 0.0


class TraceRecord(Record):
    """The document."""

    format: Literal["panelwright-trace/1"]
    ref: str
    title: Words = ""
    picture: PictureRecord | None = None
    measured: Annotated[KnownLength | KnownSheet, Field(discriminator="kind")] | None = None
    scale: Literal[1, 4] = 4
    allowance_mm: Annotated[float, Field(ge=0, le=60)] = 0.0
    allowance_centimetre: Literal["garment", "paper"] = "garment"
    pieces: Annotated[list[TracedPiece], Field(max_length=100)] = Field(default_factory=list)
    seams: Annotated[list[TracedSeam], Field(max_length=500)] = Field(default_factory=list)
