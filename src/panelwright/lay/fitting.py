"""Which way a cloth is laid, and what is refused before any place is looked for."""

import math
from collections.abc import Iterator, Sequence
from typing import Final

from panelwright.body.units import Unit, format_length
from panelwright.errors import LayError
from panelwright.file_words import in_file
from panelwright.finish.cut_count import cloth_words
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.lay.cloth import WIDEST, Cloth
from panelwright.lay.piece_to_cut import PieceToCut
from panelwright.quotation import quoted

# A width that is named as wide enough is rounded up to this, mm.
_ROUND: Final = 10.0


def is_folded(cloth: Cloth, pieces: Sequence[PieceToCut], unit: Unit = Unit.CM) -> bool:
    """Whether the cloth is laid folded: as it says, or else if every piece fits its half and none is spare.

    Raises:
        LayError: if a piece is too wide for it; the message names the widest, the limit and the remedies.
    """
    choice = cloth.folded
    if choice is None:
        choice = not any(piece.spare for piece in pieces) and not any(_too_wide(cloth, pieces, True))
    refused = list(_too_wide(cloth, pieces, choice))
    if refused:
        widest = max(refused, key=lambda piece: _across(piece, choice))
        across, room = _across(widest, choice), _room(cloth, choice)
        reason, remedy = _refusal(cloth, widest, choice, unit)
        raise LayError(f"{reason}: {remedy}", cloth.name, across, room, remedy)
    return choice


def _too_wide(cloth: Cloth, pieces: Sequence[PieceToCut], folded: bool) -> Iterator[PieceToCut]:
    for piece in pieces:
        if _across(piece, folded) > _room(cloth, folded) + TOLERANCES.same_point:
            yield piece


def _across(piece: PieceToCut, folded: bool) -> float:
    return (piece if folded else piece.spread()).extent()[1]


def _room(cloth: Cloth, folded: bool) -> float:
    return cloth.half if folded else cloth.width


def _refusal(cloth: Cloth, piece: PieceToCut, folded: bool, unit: Unit) -> tuple[str, str]:
    """(the reason, what helps)."""
    across, room = _across(piece, folded), _room(cloth, folded)
    if format_length(across, unit) == format_length(room, unit):
        unit = Unit.MM
    wide = f"{format_length(room, unit)} wide{', as is assumed' if cloth.assumed else ''}"
    way, remedies = "folded" if folded else "spread out", _remedies(cloth, piece, folded, unit)
    reason = (
        f"{piece.label} ({piece.id}) is {format_length(across, unit)} across the grain and the "
        f"{_words(cloth)}, {way}, is {wide}"
    )
    return reason, _either(remedies)


def _remedies(cloth: Cloth, piece: PieceToCut, folded: bool, unit: Unit) -> list[str]:
    """What helps, the cheapest first."""
    remedies = []
    if folded and _across(piece, False) <= cloth.width:
        remedies.append(f"spread it out{in_file('folded, false')}")
    along, across = piece.extent()
    if piece.fold is None and along <= _room(cloth, folded):
        remedies.append(f"lay it lengthwise{in_file('of a tie, grain_along, true')}")
    needed = across * (2 if folded or piece.fold is not None else 1)
    needed = math.ceil(needed / _ROUND - TOLERANCES.same_point) * _ROUND
    if needed <= WIDEST:
        remedies.append(f"take cloth at least {format_length(needed, unit)} wide")
    return [*remedies, "put a seam across the piece"]


def _either(remedies: Sequence[str]) -> str:
    *others, last = remedies
    return f"{', '.join(others)} or {last}" if others else last


def _words(cloth: Cloth) -> str:
    """`outer cloth`, or `cloth "silk"` of one with a name of its own."""
    words = cloth_words(cloth.name)
    return words if words != cloth.name else f"cloth {quoted(words)}"
