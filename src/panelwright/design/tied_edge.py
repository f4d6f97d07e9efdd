"""What a tie needs of the garment: finished edges above and below it, and a centre that it may close."""

from panelwright.errors import DesignError
from panelwright.pattern.closure import Closure, ClosurePlace
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import HEM, SHOULDER, TOP
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece
from panelwright.pattern.step_name import step_name


def refuse_unfinished(piece: Piece, edge: Edge) -> None:
    """Refuse an upright edge that still ends at the block's own upper edge or hem.

    Raises:
        DesignError: naming what to put first.
    """
    for neighbour, above in ((piece.after(edge), edge.along_line), (piece.before(edge), not edge.along_line)):
        if neighbour.kind != "finished":
            raise DesignError(
                f"{spoken_piece(piece)} does not end at a {'top edge' if above else 'hem'} there; start the "
                "tie elsewhere",
                piece.id,
            )
        if neighbour.line in (TOP, HEM):
            raise DesignError(
                f"{spoken_piece(piece)} still ends at the block's own {'upper edge' if above else 'hem'}; put the "
                f"{'top edge' if above else 'hem'} before the tie",
                piece.id,
            )


def refuse_strapped(pattern: Pattern) -> None:
    """Refuse a back with straps: where its panels run on as a tie there is no back edge to carry them.

    Raises:
        DesignError: if a strap is sewn to a back panel, or a back panel to the shoulder.
    """
    for seam in pattern.seams:
        sewn = {pattern.edge(span).line.rpartition("/")[2] for span in seam.a + seam.b}
        if sewn & {"strap-back", SHOULDER}:
            raise DesignError(
                "the back has straps or a shoulder, and a back that runs on as a tie cannot carry them; use straps of "
                "the type halter, or start the tie from the centre back",
                seam.id,
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
                f"the {place.replace('-', ' ')} is closed already, by the step {step_name(pattern, closure.id)}; take "
                "it out, or let ties close it",
                closure.id,
            )
    return closures[0] if closures else None
