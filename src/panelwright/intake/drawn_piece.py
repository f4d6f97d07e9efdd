"""A piece as it was read off paper: its outline between corners, and what is drawn in it."""

from dataclasses import dataclass

from panelwright.errors import InputError
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.pattern.mark import Grain, InsideLine, Mark, Point
from panelwright.pattern.piece import Extent


@dataclass(frozen=True)
class DrawnNotch:
    """A notch on an outline: where it meets the line, in mm of the paper, and how many ticks it has."""

    at: Point
    count: int = 1


@dataclass(frozen=True)
class DrawnPiece:
    """A piece in mm of the paper, y up, outer face up as far as anybody has said.

    Attributes:
        id: unique in its pattern, `SF`, or `piece-2` until a person has named it.
        label: what is written on it; empty until named.
        edges: the outline, anticlockwise; each edge starts exactly where the one before it ends.
        grain: the grain line, or None where none was found.
        inside: what is drawn in it. The id of a level is its name (`waist`), of any other line `line-3`.
        notches: on its outline.
        marks: points.
        extent: `whole` where it is drawn entire; None: half of a piece where an edge lies on the fold, else one of a
            pair.

    Raises:
        InputError: if it has fewer than two edges, or they do not close.
    """

    id: str
    label: str
    edges: tuple[DrawnEdge, ...]
    grain: Grain | None = None
    inside: tuple[InsideLine, ...] = ()
    notches: tuple[DrawnNotch, ...] = ()
    marks: tuple[Mark, ...] = ()
    extent: Extent | None = None

    def __post_init__(self) -> None:
        if len(self.edges) < 2:
            raise InputError(f"piece {self.id} has {len(self.edges)} edge; an outline needs two or more", self.id)
        for before, after in zip(self.edges, self.edges[1:] + self.edges[:1], strict=True):
            gap = abs(before.curve.end - after.curve.start).max()
            if gap > TOLERANCES.same_point:
                raise InputError(f"piece {self.id}: its outline is open by {gap:.2f} mm", self.id)

    def drawn_number(self, place: int) -> int:
        """How whoever drew the piece counts the edge at this place in the outline (0 first): 1 first, as drawn."""
        return self.edges[place].drawn_number or place + 1
