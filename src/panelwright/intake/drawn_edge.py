"""An edge of a piece as it lies on paper, before anybody has said what it is."""

from dataclasses import dataclass

from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import EdgeKind


@dataclass(frozen=True)
class DrawnEdge:
    """One stretch of an outline between two corners.

    Attributes:
        curve: in mm of the paper, y up, in the sense of the outline (anticlockwise).
        kind: what becomes of it; None where neither paper nor person has said so.
        line: the name of the line that it lies on, `side`; empty where it has none yet.
        as_drawn: whether truing leaves it as it was drawn.
        drawn_number: its number as whoever drew it counts, 1 first, where that is not its place in the outline: the
            outline was drawn clockwise, or an edge before it was divided.
    """

    curve: Curve
    kind: EdgeKind | None = None
    line: str = ""
    as_drawn: bool = False
    drawn_number: int | None = None
