"""What the width of a pencil, or rounding on a ruler, becomes on a pattern's girth."""

from dataclasses import dataclass
from typing import Final

from panelwright.body.worded_length import length_words
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.level import Level
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

PENCILS: Final = (0.25, 0.5)  # mm of the paper that a line may lie off, of a fine and of a plain pencil


@dataclass(frozen=True)
class PencilGirth:
    """What a pencil's error comes to round the body.

    Attributes:
        level: id.
        edges: seam and centre edges that the level crosses round the whole body; a fold is no edge of the cloth.
        off: of the line on each edge, mm of the paper.
        scale: of the drawing, 1 or 4.
    """

    level: str
    edges: int
    off: float
    scale: float

    @property
    def girth(self) -> float:
        """The error of the girth if every line is off the same way, mm."""
        return self.off * self.scale * self.edges

    @property
    def words(self) -> str:
        """`0.25 mm of pencil on each of 14 edges at the waist, …, is 1.4 cm of girth.`"""
        scale = ", four times as much at full scale," if self.scale == 4 else ""
        return (
            f"{self.off:g} mm of pencil on each of {self.edges} edges at the {self.level.replace('-', ' ')}{scale} is "
            f"{length_words(self.girth)} of girth."
        )


def pencil_girth(pattern: Pattern, level: str, off: float, scale: float) -> PencilGirth:
    """How much a line that is `off` mm of the paper wide of its place on every edge changes a level's girth.

    Args:
        off: half of the pencil's line, or half of what a reading is rounded to, mm of the paper.
        scale: of the drawing.

    Raises:
        KeyError: if no such level runs whole through the pattern.
    """
    return PencilGirth(level, _edges(pattern, pattern.level(level)), off, scale)


def rounding_girth(pattern: Pattern, level: str, step: float, scale: float) -> PencilGirth:
    """The same for places read to the nearest `step` mm of the paper: each is off by half of it at most."""
    return pencil_girth(pattern, level, step / 2, scale)


def _edges(pattern: Pattern, level: Level) -> int:
    """Edges crossed round the whole body: each side of every piece as often as it is worn."""
    count = 0
    for step in level.path:
        piece = pattern.piece(step.piece)
        line = piece.inside_line(step.inside)
        if line is not None:
            ends = (tuple(line.curve.start.tolist()), tuple(line.curve.end.tolist()))
            count += step.times * sum(not _on_fold(piece, end) for end in ends)
    return count


def _on_fold(piece: Piece, at: Point) -> bool:
    folds = (edge.curve for edge in piece.edges if edge.kind == "fold")
    return any(curve.nearest(at)[1] < TOLERANCES.seam for curve in folds)
