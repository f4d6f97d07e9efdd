"""The lays of a garment: one for each cloth that it is cut from."""

from collections.abc import Mapping, Sequence
from typing import Final

from panelwright.body.units import Unit
from panelwright.errors import InputError, LayError
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.lay.cloth import Cloth
from panelwright.lay.fault import lay_faults
from panelwright.lay.first_lay import first_lay
from panelwright.lay.fitting import is_folded
from panelwright.lay.lay import Lay
from panelwright.lay.piece_to_cut import PieceToCut, cloths_of, pieces_to_cut
from panelwright.lay.planned_lay import Planning, planned_lay
from panelwright.lay.two_sets import two_sets
from panelwright.quotation import quoted

# Room for a chalk line between two pieces, mm.
SPACING: Final = 2.0
MOST_SPACING: Final = 50.0


def lay_garment(
    cutting: CuttingPattern, cloths: Mapping[str, Cloth], spacing: float = SPACING, unit: Unit = Unit.CM
) -> tuple[Lay, ...]:
    """One lay for each cloth, in the order in which the pieces name them.

    Args:
        cutting: pieces ready to cut.
        cloths: cloth name, as the pieces' cuts have it -> the cloth.
        spacing: least distance of two pieces, mm.
        unit: of the lengths in a refusal.

    Raises:
        LayError: if nothing is said about a cloth, or a piece is too wide for its cloth; every cloth is looked at
            before any place is looked for.
        InputError: if the spacing cannot be.
    """
    if not 0.0 <= spacing <= MOST_SPACING:
        raise InputError(f"the spacing is {spacing / 10:g} cm; give between 0 and {MOST_SPACING / 10:g} cm", "spacing")
    names = cloths_of(cutting)
    for name in names:
        if name not in cloths:
            raise LayError(f"nothing is said about the cloth {quoted(name)}: give its width", name)
    wanted = {name: pieces_to_cut(cutting, name) for name in names}
    folded = {name: is_folded(cloths[name], wanted[name], unit) for name in names}
    return tuple(_proved(cloths[name], folded[name], wanted[name], spacing) for name in names)


def lay_pieces(
    cloth: Cloth,
    pieces: Sequence[PieceToCut],
    spacing: float = SPACING,
    unit: Unit = Unit.CM,
    planning: Planning | None = None,
) -> Lay:
    """Pieces laid on one cloth; with `planning` a short lay is searched for beside the first one.

    Raises:
        LayError: if one is too wide for it.
    """
    return _proved(cloth, is_folded(cloth, pieces, unit), pieces, spacing, planning)


def _proved(
    cloth: Cloth, folded: bool, pieces: Sequence[PieceToCut], spacing: float, planning: Planning | None = None
) -> Lay:
    """A lay, once its true outlines have been tried."""
    own = pieces if folded else [piece.spread() for piece in pieces]
    width = cloth.half if folded else cloth.width
    ways = [find(own, width, folded, cloth.one_way, spacing) for find in (first_lay, two_sets)]
    if planning is not None:
        ways.append(planned_lay(own, width, folded, cloth.one_way, spacing, planning))
    lay = min((Lay(cloth, folded, laid, spacing) for laid in ways if laid or not own), key=lambda lay: lay.length)
    faults = lay_faults(lay, own)
    if faults:
        raise RuntimeError(f"the lay on {cloth.name} has faults: {faults}")
    return lay
