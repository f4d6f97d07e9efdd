"""Where an edge was drawn: its piece, and its place in that piece's outline."""

from dataclasses import dataclass


@dataclass(frozen=True)
class EdgeRef:
    """Edge `number` (0 first, in outline order) of a piece."""

    piece: str
    number: int

    @property
    def name(self) -> str:
        """`SF, edge 2`, as people count."""
        return f"{self.piece}, edge {self.number + 1}"
