"""The records of a pattern file, format `panelwright-pattern/1`, as docs/pattern-file.md describes them.

They check shapes, words and sizes; `pattern.schema.json` is made from them. Fields with a default are ours
beyond the contract: a file without them can be read. Fields that are not named here are passed over.
"""

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from panelwright.finding import Severity
from panelwright.finish.cut_piece import Corner, CutMode
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.closure import ClosureHand, ClosureKind, ClosurePlace
from panelwright.pattern.edge import HIGHEST, EdgeKind, EdgeSide
from panelwright.pattern.mark import InsideKind, MarkKind
from panelwright.pattern.notion import NotionKind
from panelwright.pattern.piece import Extent, Hand, Layer
from panelwright.pattern.seam import SeamKind, SeamRegion, SpanHand

FORMAT: Literal["panelwright-pattern/1"] = "panelwright-pattern/1"
DIALECT = "https://json-schema.org/draft/2020-12/schema"

_MOST = TOLERANCES.extent
Text = Annotated[str, Field(min_length=1, max_length=500)]
Words = Annotated[str, Field(max_length=500)]
Number = Annotated[float, Field(ge=-_MOST, le=_MOST)]
Length = Annotated[float, Field(ge=0, le=_MOST)]
Share = Annotated[float, Field(ge=0, le=1)]
LineShare = Annotated[float, Field(ge=0, le=HIGHEST)]
Count = Annotated[int, Field(ge=0, le=1000)]
Several = Annotated[int, Field(ge=1, le=1000)]
Index = Annotated[int, Field(ge=0, le=100_000)]
Point = tuple[Number, Number]
Points = Annotated[list[Point], Field(max_length=100_000)]
Bezier = Annotated[list[Point], Field(min_length=4, max_length=3001)]


class Record(BaseModel):
    """Strict: no text for a number, no NaN, no infinity."""

    model_config = ConfigDict(
        hide_input_in_errors=True, strict=True, frozen=True, extra="ignore", allow_inf_nan=False, populate_by_name=True
    )


class WearerRecord(Record):
    """Whom it is for, without a name, and which measurements were estimated."""

    ref: Text = Field(description="neutral reference, never a name")
    estimated: list[Text]


class StepEntry(Record):
    """A step of the design: an opaque trace."""

    uid: Text
    kind: Text
    label: Text


class DesignRecord(Record):
    """The design that the pattern was made by."""

    ref: Text
    steps: list[StepEntry]
    title: Words = Field("", description="what the maker calls the garment")


class LineRecord(Record):
    """A line of the block or of a step; edges lie on lines."""

    id: Text
    origin: Text = Field(description="`block`, or the uid of the step that made it")
    label: Text


class LevelSpanRecord(Record):
    """The level line of one piece, worn `times` times."""

    piece: Text
    inside: Text
    times: Count


class LevelRecord(Record):
    """A girth: finished_girth = body_girth + ease = arcs of the path · times + gap − overlap."""

    id: Text
    body_girth: Length
    ease: Number
    gap: Length
    overlap: Length
    finished_girth: Length
    path: list[LevelSpanRecord]
    label: Text | None = None
    height: Number | None = Field(None, description="above the waist on the body, mm")
    fitted: Number = Field(0.0, description="of the ease, what fitting notes gave (taken off: negative), mm")


class CutRecord(Record):
    """How often a piece is cut in one cloth: `count` finished whole pieces."""

    cloth: Text
    mode: CutMode
    count: Count


class EdgeRecord(Record):
    """An edge of the outline from vertex v[0] to v[1], with its interior Bézier points."""

    id: Text
    line: Text
    kind: EdgeKind
    v: tuple[Index, Index]
    controls: Annotated[list[Point], Field(min_length=2, max_length=3000)]
    allowance: Length
    corner_at_end: Corner
    side: EdgeSide | None = Field(None, description="which side of its line the piece lies on")
    interval: tuple[LineShare, LineShare] = Field(
        (0.0, 1.0), description="the share of the line that this edge is; above 1 it runs on above the block"
    )


class CutSpanRecord(Record):
    """Points `from` to `to` of the cut line, inclusive and wrapping, belong to an edge."""

    edge: Text
    first: Index = Field(alias="from")
    last: Index = Field(alias="to")


class InsideRecord(Record):
    """A line inside a piece."""

    id: Text
    kind: InsideKind
    bezier: Bezier


class MarkRecord(Record):
    """A point to transfer to the cloth."""

    id: Text
    kind: MarkKind
    at: Point


class PlacementRecord(Record):
    """Mirror x (if mirrored), turn anticlockwise, shift."""

    angle_rad: float = 0.0
    x: Number = 0.0
    y: Number = 0.0
    mirrored: bool = False


class RegionRecord(Record):
    """A region of a piece, the block panel that it came from and how that was moved."""

    panel: Text
    placement: PlacementRecord = PlacementRecord()
    boundary: Points = []


class NotchMarkRecord(Record):
    """One side of a notch as it is drawn."""

    notch: Text
    edge: Text
    at: Point
    to: Point
    count: Count


class PieceRecord(Record):
    """A piece, outer face up, the right half of the wearer, with its cutting side."""

    id: Text
    label: Text
    layer: Layer
    derived_from: Text | None
    extent: Extent
    hand: Hand
    cut: list[CutRecord]
    vertices: Annotated[list[Point], Field(min_length=1, max_length=1000)]
    edges: Annotated[list[EdgeRecord], Field(min_length=1, max_length=1000)]
    cut_line: Annotated[list[Point], Field(min_length=3, max_length=100_000)]
    cut_spans: list[CutSpanRecord]
    inside: list[InsideRecord]
    grain: tuple[Point, Point]
    marks: list[MarkRecord]
    material: list[RegionRecord] = Field([], description="the block panels that the piece came from")
    notch_marks: list[NotchMarkRecord] = Field([], description="ticks from the stitch line to the cut line")
    text: list[str] = Field([], description="the lines written on the piece")
    text_at: Point | None = Field(None, description="middle of that text")


class SpanRecord(Record):
    """A directed stretch of an edge, mm along it; `from` > `to` runs backwards."""

    piece: Text
    edge: Text
    start: Number = Field(alias="from")
    end: Number = Field(alias="to")
    hand: SpanHand
    shares: tuple[Share, Share] | None = Field(None, description="`from` and `to` as shares of the edge")


class SeamRecord(Record):
    """Two chains of spans that are sewn together: length(b) = length(a)·ratio + ease."""

    id: Text
    kind: SeamKind
    a: Annotated[list[SpanRecord], Field(min_length=1)]
    b: Annotated[list[SpanRecord], Field(min_length=1)]
    ratio: Annotated[float, Field(ge=1e-3, le=1e3)]
    ease: Number
    blend: bool
    region: SeamRegion | None = Field(None, description="front and side seams take single notches, back double")
    master: Literal["a", "b", "both"] = Field("both", description="whose shape is kept when it is trued again")


class NotchRecord(Record):
    """A pair of notches, mm along both chains."""

    id: Text
    seam: Text
    at_a: Number
    at_b: Number
    count: Count
    level: Text | None


class PointedRecord(Record):
    """A corner where the maker asked for a point."""

    piece: Text
    vertex: Index


class ClosureRecord(Record):
    """Where the garment opens and how it is shut."""

    id: Text
    place: ClosurePlace
    kind: ClosureKind
    low: Length = Field(alias="from", description="where the opening starts, mm up the line from its lower end")
    high: Length = Field(alias="to", description="where it ends")
    style: Words = Field("", description="how it is set in, or empty")
    hand: ClosureHand = Field("centre", description="the wearer's side that opens")
    seam: Words = Field("", description="id of the seam that it closes, or empty")
    to_top: bool = True
    to_hem: bool = True
    gap: Length = 0.0
    overlap: Length = 0.0
    spreads: Length | None = Field(None, description="how far the opened edges come apart; null: they part")


class NotionRecord(Record):
    """What is bought beside the cloth."""

    kind: NotionKind
    name: Text
    count: Several
    length: Annotated[float, Field(gt=0, le=_MOST)] | None = Field(None, description="of each, mm")
    step: Words = Field("", description="uid of the step that asks for it, or empty")
    detail: Words = ""
    working: Words = Field("", description="id of the working that gave its length, or empty")


class PartRecord(Record):
    """One term of a working; below 0 where it is taken off."""

    label: Text
    length: Number


class WorkingRecord(Record):
    """A length reckoned for this wearer: the sum of its parts, and a given one held against it."""

    id: Text
    what: Text
    parts: Annotated[list[PartRecord], Field(min_length=1, max_length=100)]
    given: Length | None = Field(None, description="what the maker asked for instead, mm")
    short: Length = Field(20.0, description="how far below the sum a given length is still right")
    long: Length = Field(20.0, description="how far above it")
    note: Words = ""
    rule_of_thumb: Words = ""
    rule_length: Length | None = Field(None, description="what that rule comes to for this wearer, mm")


class FindingRecord(Record):
    """A result of checking."""

    code: Text
    severity: Severity
    subject: Text
    value: float
    limit: float
    at: Point | None
    remedy: Text
    message: Text | None = None
    piece: Text | None = Field(None, description="the piece that `at` lies on")
    unit: Text | None = Field(None, description="unit of `value` and `limit`")


class PatternRecord(Record):
    """A whole file. Lengths in mm at full scale, y up, outlines anticlockwise, pieces outer face up."""

    format: Literal["panelwright-pattern/1"]
    unit: Literal["mm"]
    wearer: WearerRecord
    design: DesignRecord
    lines: list[LineRecord]
    levels: list[LevelRecord]
    pieces: list[PieceRecord]
    seams: list[SeamRecord]
    notches: list[NotchRecord]
    pointed: list[PointedRecord]
    findings: list[FindingRecord]
    closures: Annotated[list[ClosureRecord], Field(max_length=100)] = []
    notions: Annotated[list[NotionRecord], Field(max_length=1000)] = []
    workings: Annotated[list[WorkingRecord], Field(max_length=1000)] = []
    fitting: Annotated[list[StepEntry], Field(max_length=1000)] = Field(
        default=[], description="fitting notes of the wearer that the block was changed by"
    )


def pattern_schema() -> dict[str, Any]:
    """The published JSON Schema, draft 2020-12: what `pattern.schema.json` holds."""
    schema = _untitled(PatternRecord.model_json_schema(by_alias=True))
    return {"$schema": DIALECT, "title": FORMAT, **schema}


def _untitled(schema: Any) -> Any:
    """The schema without pydantic's titles, which only repeat the names of fields; a field may be called title."""
    if isinstance(schema, list):
        return [_untitled(entry) for entry in schema]
    if isinstance(schema, dict):
        return {key: _untitled(value) for key, value in schema.items() if key != "title" or isinstance(value, dict)}
    return schema
