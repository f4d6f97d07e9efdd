"""Where an edge was drawn: its piece, and its place in that piece's outline."""

from dataclasses import dataclass


@dataclass(frozen=True)
class EdgeRef:
    """Edge `number` (0 first, in outline order) of a piece; `DrawnPattern.edge_name` tells it as people count."""

    piece: str
    number: int
