"""A seam: two chains of edge spans that are sewn to each other."""

from dataclasses import dataclass
from typing import Literal

from panelwright.errors import GeometryError

SeamKind = Literal["join", "dart", "attach", "closure"]
SpanHand = Literal["same", "mirror"]
SeamRegion = Literal["front", "side", "back"]


@dataclass(frozen=True)
class Span:
    """A directed stretch of one edge.

    Attributes:
        piece, edge: ids.
        start, end: shares of the edge's arc length, 0 … 1 in the edge's own sense; start > end runs backwards.
        hand: `same` as the piece is drawn, `mirror` for the piece of the other side of the body (a
            centre-back seam joins an edge to its own mirror image).
    """

    piece: str
    edge: str
    start: float = 0.0
    end: float = 1.0
    hand: SpanHand = "same"

    def __post_init__(self) -> None:
        if not (0.0 <= self.start <= 1.0 and 0.0 <= self.end <= 1.0 and self.start != self.end):
            raise GeometryError(f"a span of edge {self.edge} runs from {self.start} to {self.end}, outside 0 to 1")

    @property
    def share(self) -> float:
        """How much of the edge it covers, 0 … 1."""
        return abs(self.end - self.start)


@dataclass(frozen=True)
class Seam:
    """Two ordered chains of spans; both start at the same end of the seam.

    Attributes:
        id: the line that is sewn, `front-princess`.
        kind: `join` two panels, close a `dart`, `attach` something flat on something, or a `closure`
            (zip, lacing, hooks) that need not be of equal length.
        a, b: the chains. A waistband meets four panels: four spans against one.
        region: front and side seams take single notches, back seams double ones.
        ratio, ease: length(b) = length(a) · ratio + ease, mm.
        blend: finished edges that meet at the seam's ends run on smoothly across it.
        master: whose shape is kept when the seam is trued again.
    """

    id: str
    kind: SeamKind
    a: tuple[Span, ...]
    b: tuple[Span, ...]
    region: SeamRegion
    ratio: float = 1.0
    ease: float = 0.0
    blend: bool = True
    master: Literal["a", "b", "both"] = "both"

    def __post_init__(self) -> None:
        if not self.a or not self.b:
            raise GeometryError(f"seam {self.id}: a seam has two sides")
        if not self.ratio > 0:
            raise GeometryError(f"seam {self.id}: a ratio is above 0, not {self.ratio}")

    @property
    def is_centre(self) -> bool:
        """Whether an edge is sewn to its own mirror image."""
        here = {(span.edge, span.hand) for span in self.a}
        turned = {(span.edge, "same" if span.hand == "mirror" else "mirror") for span in self.b}
        return here == turned


@dataclass(frozen=True)
class Notch:
    """A pair of notches on the two sides of a seam.

    Attributes:
        seam: id of the seam.
        at_a, at_b: arc positions along chain a and chain b from the seam's start, mm.
        count: 1 on front and side seams, 2 on back seams.
        level: the level that it marks, if it marks one.
    """

    id: str
    seam: str
    at_a: float
    at_b: float
    count: int
    level: str | None = None
