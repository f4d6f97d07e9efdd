"""A cut piece: what finishing adds to a piece so that it can be laid on cloth and cut."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array, frozen
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Notch

Corner = Literal["mitre", "square", "fold_back"]
CutMode = Literal["fold", "pair", "single"]


@dataclass(frozen=True)
class Cut:
    """How often a piece is cut in one cloth: `count` finished whole pieces (a pair is 2, one on the fold is 1)."""

    cloth: str
    mode: CutMode
    count: int


@dataclass(frozen=True)
class CutSpan:
    """Cut-line points `first` … `last` (inclusive, wrapping) belong to `edge`."""

    edge: str
    first: int
    last: int


@dataclass(frozen=True)
class NotchMark:
    """One side of a notch as it is drawn: from the stitch line square outwards to the cut line.

    Attributes:
        notch: id of the notch.
        edge: id of the edge that it sits on.
        at: on the stitch line, mm.
        to: on the cut line, mm.
        count: how many ticks are drawn side by side.
    """

    notch: str
    edge: str
    at: Point
    to: Point
    count: int


@dataclass(frozen=True)
class CutPiece:
    """The cutting side of one piece.

    Attributes:
        piece: id of the piece.
        allowances: edge id -> seam allowance, mm (0 at a fold).
        corners: edge id -> how the allowance is finished at the corner where the edge ends.
        cut_line: shape (m, 2), closed (first point not repeated), anticlockwise, within 0.02 mm.
        spans: which points of it belong to which edge.
        cuts: cloths and counts.
        notches: ticks to draw.
        text: the lines written on the piece.
        text_at: middle of the text block, inside the piece and clear of the grain line where it can be.
    """

    piece: str
    allowances: Mapping[str, float]
    corners: Mapping[str, Corner]
    cut_line: Array
    spans: tuple[CutSpan, ...]
    cuts: tuple[Cut, ...]
    notches: tuple[NotchMark, ...]
    text: tuple[str, ...]
    text_at: Point

    def __post_init__(self) -> None:
        object.__setattr__(self, "cut_line", frozen(self.cut_line))
        if self.cut_line.ndim != 2 or self.cut_line.shape[1] != 2 or len(self.cut_line) < 3:
            raise GeometryError(f"piece {self.piece}: a cut line is at least three points (m, 2)")
        if any(value < 0 for value in self.allowances.values()):
            raise GeometryError(f"piece {self.piece}: an allowance is not below 0")

    @property
    def code(self) -> str:
        """The code that its text gives in brackets after its name; its id where there is none."""
        name = self.text[0] if self.text else ""
        return name.rpartition("(")[2].removesuffix(")") if name.endswith(")") else self.piece


@dataclass(frozen=True)
class CuttingPattern:
    """The finished pieces, ready to cut: a pattern with its facings, and each piece's cutting side.

    Attributes:
        pattern: the shell and every piece derived from it.
        cut: piece id -> its cutting side; every piece of the pattern has one.
        notches: paired notches on the seams.
    """

    pattern: Pattern
    cut: Mapping[str, CutPiece]
    notches: tuple[Notch, ...]

    @property
    def pieces(self) -> tuple[tuple[Piece, CutPiece], ...]:
        """Each piece with its cutting side, in the pattern's order."""
        return tuple((piece, self.cut[piece.id]) for piece in self.pattern.pieces)
