"""The lays that were kept with a garment, held against the garment as it is made now."""

from typing import Final

from panelwright.app.cloth_lay import ClothLay
from panelwright.app.garment import Garment
from panelwright.app.hand_lay import fault_words
from panelwright.app.lays_file import LayRecord, LaysRecord
from panelwright.app.place_record import placed
from panelwright.body.units import Unit
from panelwright.errors import InputError
from panelwright.finish.cut_count import cloth_words
from panelwright.lay.cloth import Cloth
from panelwright.lay.fault import lay_faults
from panelwright.lay.lay import Lay
from panelwright.lay.lay_garment import lay_pieces
from panelwright.lay.piece_to_cut import as_laid, cloths_of, pieces_to_cut
from panelwright.quotation import quoted

_OR_ANEW: Final = "or leave --lays away, and it is laid anew"


def lays_as_kept(garment: Garment, kept: LaysRecord, unit: Unit = Unit.CM) -> tuple[Lay, ...]:
    """The lays of those cloths that some are kept of, as the board cuts by them: proved on the true outlines, at the
    prices that the design gives now.

    Args:
        garment: as it was made.
        kept: the newest first; what is kept for other states of a cloth besides is passed over.
        unit: of the lengths in a refusal.

    Returns:
        In the order of the garment's cloths; a cloth that is too narrow is not among them.

    Raises:
        InputError: if they are the lays of another garment, of none of its cloths, of its pieces or its cloth as they
            were, or cannot be cut.
    """
    _refuse_other_garment(garment, kept)
    cloths = cloths_of(garment.cutting)
    if not any(lay.cloth in cloths for lay in kept.lays):
        told = " and ".join(dict.fromkeys(cloth_words(lay.cloth) for lay in kept.lays)) or "nothing"
        raise InputError(
            f"the lays are of {told}, but {garment.design.ref} is cut from {' and '.join(map(cloth_words, cloths))}: "
            f"give the lays that are kept with this design, {_OR_ANEW}",
            "lays",
        )
    told_of = {lay.cloth for lay in kept.lays}
    return tuple(_lay(garment, cloth, kept, unit) for cloth in garment.cloths if cloth.name in told_of)


def _refuse_other_garment(garment: Garment, kept: LaysRecord) -> None:
    given, of = (garment.design.ref, garment.wearer.ref), (kept.design, kept.wearer)
    if given != of:
        raise InputError(
            f"the lays are of {quoted(of[0])} for {quoted(of[1])}, but {given[0]} for {given[1]} is made: "
            f"give those that are kept with it, {_OR_ANEW}",
            "lays",
        )


def _lay(garment: Garment, cloth: Cloth, kept: LaysRecord, unit: Unit) -> Lay:
    pieces = pieces_to_cut(garment.cutting, cloth.name)
    now = ClothLay(lay_pieces(cloth, pieces, unit=unit), pieces)
    records = [lay for lay in kept.lays if lay.cloth == cloth.name]
    own = next((lay for lay in records if lay.laid_for == now.laid_for), None)
    if own is None:
        was = records[0].laid_for.unlike(now.laid_for, unit)
        raise InputError(
            f"the lay of {cloth_words(cloth.name)} is kept for {was}, which is not how it is cut now: give the "
            "measurements, design and fitting notes that it was kept with, move the pieces again on the board, "
            f"{_OR_ANEW}",
            f"lays, {cloth.name}",
        )
    laid = ClothLay(now.first, pieces, kept=own)
    _refuse_uncuttable(laid, own)
    return laid.lay


def _refuse_uncuttable(laid: ClothLay, own: LayRecord) -> None:
    """The board lays anew what it cannot cut; here somebody has asked for this very lay."""
    cloth = laid.first.cloth.name
    faults = laid.hand.faults if own.is_by_hand else ()
    strange = own.hand is not None and own.is_by_hand and placed(laid.first, own.hand.places) is None
    if own.found and not own.is_by_hand:
        found = placed(laid.first, own.found)
        strange = found is None
        faults = () if found is None else lay_faults(found, as_laid(laid.pieces, laid.first.folded))
    if strange:
        what = "it has not a place for each of its pieces"
    elif faults:
        what = fault_words(faults[0], {piece.id: piece.label for piece in laid.pieces}).removesuffix(".")
    else:
        return
    raise InputError(
        f"the lay of {cloth_words(cloth)} cannot be cut as it is kept, since {what}: move the pieces on the board "
        f"until nothing is wrong there, {_OR_ANEW}",
        f"lays, {cloth}",
    )
