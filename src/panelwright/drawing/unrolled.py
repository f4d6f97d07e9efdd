"""Pieces in rows, unrolled as they lie round the body: from the centre back at the left to the centre front."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Final

from panelwright.drawing.piece_drawing import PieceDrawing
from panelwright.pattern.mark import Point

# The panels of every block, whatever their number, in the order in which they lie round the body.
PANEL_ORDER: Final = ("CB", "SB", "UB", "UA", "SP", "UF", "SF", "CF")
LAYER_ORDER: Final = ("outer", "facing", "lining", "interfacing")
LEAST_GAP: Final = 6.0


@dataclass(frozen=True)
class Row:
    """Pieces side by side, their waists at one height.

    Attributes:
        layer: of its pieces.
        laid: (piece, shift): the row's lower left corner is the origin.
        width, height: mm.
    """

    layer: str
    laid: tuple[tuple[PieceDrawing, Point], ...]
    width: float
    height: float


def unrolled(drawings: Iterable[PieceDrawing]) -> list[PieceDrawing]:
    """The pieces layer by layer, in each from centre back to centre front; what has no panel comes last."""
    backwards = list(drawings)[::-1]
    return sorted(backwards, key=lambda drawing: (LAYER_ORDER.index(drawing.layer), _panel_rank(drawing.panel)))


def rows(drawings: Iterable[PieceDrawing], width: float) -> list[Row]:
    """The unrolled pieces in rows of at most `width` mm, a new one for each layer.

    Between two pieces at least two drawn allowances stay free. A piece wider than a row has a row of its own.
    The pieces of a layer are spread over its rows as evenly as their order allows.
    """
    made = []
    for layer, members in groupby(unrolled(drawings), key=lambda drawing: drawing.layer):
        pieces = list(members)
        made += [_row(layer, row) for row in _even(pieces, width)]
    return made


def gap(before: PieceDrawing, after: PieceDrawing) -> float:
    """Room between two pieces, mm on paper: two drawn allowances, and never less than `LEAST_GAP`."""
    return max(2 * before.allowance, 2 * after.allowance, LEAST_GAP)


def _panel_rank(panel: str) -> int:
    """Place of a block panel in the order; blocks of more panels number theirs: SF2 stands with SF."""
    return next((k for k, name in enumerate(PANEL_ORDER) if panel.startswith(name)), len(PANEL_ORDER))


def _even(pieces: Sequence[PieceDrawing], width: float) -> list[list[PieceDrawing]]:
    """As few rows as the width allows, the widest of them as narrow as so many rows can be."""
    fewest = _filled(pieces, width)
    widest = max(_width([piece]) for piece in pieces)
    narrower = sorted(_width(pieces[a:b]) for a in range(len(pieces)) for b in range(a + 1, len(pieces) + 1))
    tries = (_filled(pieces, limit) for limit in narrower if widest <= limit < width)
    return next((row for row in tries if len(row) == len(fewest)), fewest)


def _filled(pieces: Sequence[PieceDrawing], width: float) -> list[list[PieceDrawing]]:
    """Rows filled one after the other."""
    filled: list[list[PieceDrawing]] = [[]]
    for piece in pieces:
        if filled[-1] and _width([*filled[-1], piece]) > width:
            filled.append([])
        filled[-1].append(piece)
    return filled


def _width(row: Sequence[PieceDrawing]) -> float:
    widths = sum(drawing.box[2] - drawing.box[0] for drawing in row)
    return widths + sum(gap(a, b) for a, b in pairwise(row))


def _row(layer: str, row: Sequence[PieceDrawing]) -> Row:
    aligned = all(drawing.waist is not None for drawing in row)
    lifts = [-(drawing.waist or 0.0) if aligned else -drawing.box[1] for drawing in row]
    bottom = min(drawing.box[1] + lift for drawing, lift in zip(row, lifts, strict=True))
    top = max(drawing.box[3] + lift for drawing, lift in zip(row, lifts, strict=True))
    laid, x = [], 0.0
    for k, (drawing, lift) in enumerate(zip(row, lifts, strict=True)):
        x += gap(row[k - 1], drawing) if k else 0.0
        laid.append((drawing, (x - drawing.box[0], lift - bottom)))
        x += drawing.box[2] - drawing.box[0]
    return Row(layer, tuple(laid), x, top - bottom)
