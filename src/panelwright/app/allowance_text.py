"""The allowance written on each piece, in the unit that a print is asked for: a pattern file keeps it as text."""

from dataclasses import replace
from types import MappingProxyType
from typing import Final

from panelwright.body.units import Unit
from panelwright.finish.cut_piece import CutPiece, CuttingPattern
from panelwright.finish.piece_words import allowance_words
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

_START: Final = "Seam allowance"


def with_allowances_in(cutting: CuttingPattern, unit: Unit) -> CuttingPattern:
    """The pattern whose pieces name their allowances in `unit`; every other line of their text stays as it is.

    The widths are those that the pieces really have, so nothing is lost between units.
    """
    cut = {piece.id: _reworded(piece, side, cutting.pattern, unit) for piece, side in cutting.pieces}
    return replace(cutting, cut=MappingProxyType(cut))


def _reworded(piece: Piece, cut: CutPiece, pattern: Pattern, unit: Unit) -> CutPiece:
    words = allowance_words(piece, cut.allowances, pattern, unit)
    return replace(cut, text=tuple(words if line.startswith(_START) else line for line in cut.text))
