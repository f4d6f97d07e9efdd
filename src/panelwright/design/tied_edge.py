"""What a tie needs of the garment: finished edges above and below it, and a centre that it may close."""

from panelwright.errors import DesignError
from panelwright.pattern.closure import Closure, ClosurePlace
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import BLOCK
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece


def refuse_unfinished(pattern: Pattern, piece: Piece, edge: Edge) -> None:
    """Refuse an upright edge that still ends at the block's own upper edge or hem.

    Raises:
        DesignError: naming what to put first.
    """
    for neighbour, above in ((piece.after(edge), edge.along_line), (piece.before(edge), not edge.along_line)):
        if neighbour.kind != "finished":
            raise DesignError(
                f"piece {piece.id} does not end at a {'top edge' if above else 'hem'} there; start the tie elsewhere",
                piece.id,
            )
        if pattern.line(neighbour.line).origin == BLOCK:
            raise DesignError(
                f"piece {piece.id} still ends at the block's own {'upper edge' if above else 'hem'}; put the "
                f"{'top edge' if above else 'hem'} before the tie",
                piece.id,
            )


def closed_by(pattern: Pattern, place: ClosurePlace) -> Closure | None:
    """The closure of type tie that the centre has already, or None if none closes it yet.

    Raises:
        DesignError: if it is closed in another way.
    """
    closures = [closure for closure in pattern.closures if closure.place == place]
    for closure in closures:
        if closure.kind != "tie":
            raise DesignError(
                f"the {place.replace('-', ' ')} is closed already, with {closure.kind} ({closure.id}); take that step "
                "out, or give it the type tie",
                closure.id,
            )
    return closures[0] if closures else None
