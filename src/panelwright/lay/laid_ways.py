"""The ways in which a cloth may be laid: folded, spread out, or either of them."""

from collections.abc import Sequence
from dataclasses import replace

from panelwright.body.units import Unit
from panelwright.errors import LayError
from panelwright.lay.cloth import Cloth
from panelwright.lay.fitting import is_folded
from panelwright.lay.lay import Lay
from panelwright.lay.lay_garment import SPACING, lay_pieces
from panelwright.lay.piece_to_cut import PieceToCut
from panelwright.lay.planned_lay import Planning


def ways_of(cloth: Cloth, pieces: Sequence[PieceToCut], unit: Unit = Unit.CM) -> tuple[Cloth, ...]:
    """The cloth laid as it says, or where it leaves the choice laid in every way that takes the pieces.

    Folded comes first. Where folded cloth would give a piece too many, and the cloth leaves the choice, it is spread
    out.

    Raises:
        LayError: if no way takes all pieces.
    """
    if cloth.folded is not None:
        is_folded(cloth, pieces, unit)
        return (cloth,)
    found = []
    if not any(piece.spare for piece in pieces):
        folded = replace(cloth, folded=True)
        if _takes(folded, pieces):
            found.append(folded)
    spread = replace(cloth, folded=False)
    if not found:
        is_folded(spread, pieces, unit)
    return (*found, *([spread] if _takes(spread, pieces) else []))


def shortest_way(
    cloth: Cloth,
    pieces: Sequence[PieceToCut],
    spacing: float = SPACING,
    unit: Unit = Unit.CM,
    planning: Planning | None = None,
) -> Lay:
    """The shorter of the lays that the cloth allows; the folded one where both are as long.

    Raises:
        LayError: if a piece is too wide for the cloth.
    """
    lays = [lay_pieces(way, pieces, spacing, unit, planning) for way in ways_of(cloth, pieces, unit)]
    return min(lays, key=lambda lay: (lay.to_buy, lay.length))


def _takes(cloth: Cloth, pieces: Sequence[PieceToCut]) -> bool:
    try:
        is_folded(cloth, pieces)
    except LayError:
        return False
    return True
