"""The list of the pieces that carry only a number on a lay: what each is, how it lies, where its grain lies."""

from math import ceil
from typing import Final

from panelwright.drawing.lay_drawing import LayDrawing
from panelwright.drawing.lay_label import cut_here, length_number
from panelwright.drawing.lay_words import edge_words
from panelwright.drawing.page_flow import Strip, beside, kept_together
from panelwright.drawing.paragraph import SMALL, Column, paragraph, table
from panelwright.lay.lay import LaidPiece, Lay

LIST_TITLE: Final = "Pieces that carry a number on the lay"
# One column of the list is at least so wide, mm.
LEAST_WIDTH: Final = 95.0
MOST_WIDTH: Final = 130.0
_GAP: Final = 6.0
_SHARES: Final = (0.08, 0.45, 0.21, 0.26)


def piece_list(drawn: LayDrawing, width: float) -> list[Strip]:
    """A row for each numbered piece, in as many columns side by side as `width` mm hold; [] where none has a number."""
    rows = [_row(drawn, laid, number) for laid, number in drawn.numbers.items()]
    if not rows:
        return []
    count = min(len(rows), max(1, int((width + _GAP) / (LEAST_WIDTH + _GAP))))
    each = ceil(len(rows) / count)
    wide = min(MOST_WIDTH, (width + _GAP) / count - _GAP)
    titles = ("No.", "Piece", "Cut here", f"Grain to {edge_words(drawn.lay)}, {drawn.unit}")
    columns = [Column(title, share, bold=k == 0) for k, (title, share) in enumerate(zip(titles, _SHARES, strict=True))]
    tables = [table(columns, rows[k : k + each], wide, SMALL) for k in range(0, len(rows), each)]
    listed = tables[0] if len(tables) == 1 else [beside([(k * (wide + _GAP), one) for k, one in enumerate(tables)])]
    return kept_together([paragraph(LIST_TITLE, wide, bold=True), *listed])


def _row(drawn: LayDrawing, laid: LaidPiece, number: int) -> list[str]:
    piece = laid.piece
    name = piece.label if piece.code == piece.label else f"{piece.label} ({piece.code})"
    first, second = (length_number(distance, drawn.unit) for distance in drawn.lay.grain_distances(laid))
    return [str(number), name, _counted(drawn.lay, laid), f"{first} and {second}"]


def _counted(lay: Lay, laid: LaidPiece) -> str:
    """`1, face down`, `1 on the fold`, `a pair`."""
    cut = cut_here(lay, laid)
    if lay.folded:
        return f"1 {cut}" if laid.piece.fold is not None else cut
    return f"1, {cut}"
