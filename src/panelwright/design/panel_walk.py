"""The panels of a block in the order in which they go round the body."""

from dataclasses import dataclass

from panelwright.errors import GeometryError
from panelwright.geometry.placement import Placement
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

MIRROR = Placement(mirrored=True)


@dataclass(frozen=True)
class WalkedPanel:
    """One panel of a walk round the body.

    Attributes:
        piece: the block's panel; on the wearer's left half it is mirrored at x = 0.
        entry, exit: ids of the upright edges by which the walk enters and leaves it.
        mirrored: whether it is the left half's.
    """

    piece: Piece
    entry: str
    exit: str
    mirrored: bool = False

    @property
    def entry_edge(self) -> Edge:
        """The upright edge by which the walk enters."""
        return self.piece.edge(self.entry)

    @property
    def exit_edge(self) -> Edge:
        """The upright edge by which the walk leaves."""
        return self.piece.edge(self.exit)

    def mirror(self) -> "WalkedPanel":
        """The other half's panel, walked the other way: on paper every walk runs from right to left."""
        return WalkedPanel(self.piece.placed(MIRROR), self.exit, self.entry, not self.mirrored)


def half_walk(block: Pattern) -> tuple[WalkedPanel, ...]:
    """The panels from centre front to centre back.

    Raises:
        GeometryError: if the block is not one row of panels, each with a top, a hem and two upright edges.
    """
    start = [piece for piece, _ in block.pieces_on_line(lines.CENTRE_FRONT)]
    if len(start) != 1:
        raise GeometryError(f"a block has one panel at the centre front, not {len(start)}")
    walked: list[WalkedPanel] = []
    piece, line = start[0], lines.CENTRE_FRONT
    while line != lines.CENTRE_BACK:
        panel = _crossed(piece, line)
        walked.append(panel)
        line = panel.exit_edge.line
        beyond = [other for other, _ in block.pieces_on_line(line) if other.id != piece.id]
        if line != lines.CENTRE_BACK:
            if len(beyond) != 1 or len(walked) > len(block.pieces):
                raise GeometryError(f"the block's panels do not follow one another across {line}")
            piece = beyond[0]
    return tuple(walked)


def whole_walk(block: Pattern) -> tuple[WalkedPanel, ...]:
    """The panels all round, from the wearer's left centre back by the centre front to the right centre back."""
    right = half_walk(block)
    return tuple(panel.mirror() for panel in reversed(right)) + right


def _crossed(piece: Piece, line: str) -> WalkedPanel:
    legs = {edge.line for edge in piece.edges if len(piece.on_line(edge.line)) > 1}  # of darts
    upright = [
        edge
        for edge in piece.edges
        if edge.kind != "finished" and edge.line != lines.SHOULDER and edge.line not in legs
    ]
    entry = [edge for edge in upright if edge.line == line]
    if len(upright) != 2 or len(entry) != 1:
        raise GeometryError(f"panel {piece.id} of the block does not have just two upright edges")
    exit = upright[1 - upright.index(entry[0])]
    return WalkedPanel(piece, entry[0].id, exit.id)
