"""What a review of a learner's pattern tells: one departure from the brief, with its number, limit and place."""

from dataclasses import dataclass
from typing import Final, Literal

from panelwright.pattern.mark import Point

PointKind = Literal["seam", "edge", "corner", "fold-angle", "shape", "missing", "unknown"]

# What a point of a drawn line may lie off, mm of the paper, whatever its scale (common practice: a pencil's width).
PENCIL: Final = 0.5
# How much two sides of a seam may differ more than they should, mm of the garment (common practice).
SEAM: Final = 2.0
# What a corner on the fold may be off, radians, measured over `ARM` (own choice: a pencil's width over so much).
FOLD_ANGLE: Final = 0.035
ARM: Final = 20.0  # mm of the paper


@dataclass(frozen=True)
class ReviewPoint:
    """One thing in a learner's pattern that differs from the brief by more than its limit.

    Attributes:
        kind: `seam`: its two sides do not fit each other; `edge`: a line lies off between its corners, or as a whole;
            `corner`; `fold-angle`: the angle at a corner on the fold; `shape`: the corners are not those of the
            model, so that lines cannot be told; `missing` or `unknown`: a piece.
        piece: label of the model's piece, of the learner's where it is unknown.
        lines: the seam; or the edge; or the two edges at the corner; empty of a whole piece.
        value: mm of the garment, positive outside the model's outline and negative inside; of a seam how much longer
            its first side is than it should be; of an angle radians more than the model's; of a shape how many
            corners it has; of a piece 1.
        limit: what the size of the value is held against, in the same unit; of a shape the model's corners.
        at: where, in the model's piece, mm of the garment; None where it has no one place.
        others: labels of the pieces on both sides of a seam, its first side first.
        all_along: the whole edge lies on that side, both its corners too.
        edge: id of the model's edge that a place lies on or begins; the first edge of a seam's first side.
        beside: the first edge of a seam's second side.
    """

    kind: PointKind
    piece: str
    lines: tuple[str, ...] = ()
    value: float = 1.0
    limit: float = 0.0
    at: Point | None = None
    others: tuple[tuple[str, ...], tuple[str, ...]] | None = None
    all_along: bool = False
    edge: str = ""
    beside: str = ""

    @property
    def excess(self) -> float:
        """How many times its limit it is; of a piece as a whole, without end."""
        return abs(self.value) / self.limit if self.limit and self.kind != "shape" else float("inf")
