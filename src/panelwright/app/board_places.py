"""Where the pieces lie on the board: side by side, layer under layer, none on another."""

from collections.abc import Iterable, Mapping
from itertools import groupby
from typing import Final

from panelwright.drawing.unrolled import LAYER_ORDER
from panelwright.finish.cut_piece import CutPiece, CuttingPattern
from panelwright.pattern.mark import Point
from panelwright.pattern.piece import Piece

Box = tuple[float, float, float, float]
BETWEEN: Final = 60.0
# Rows break beyond this width, unless the panels of the block alone take more, mm.
LEAST_ROW: Final = 1200.0


def cut_box(cut: CutPiece) -> Box:
    """(left, bottom, right, top) of what is cut, mm on the piece."""
    left, bottom = cut.cut_line.min(axis=0).tolist()
    right, top = cut.cut_line.max(axis=0).tolist()
    return left, bottom, right, top


def board_places(cutting: CuttingPattern, known: Mapping[str, Point]) -> dict[str, Point]:
    """Piece id -> shift, mm, from the piece's own coordinates to the board's.

    Pieces with a waist lie in a row from centre back to centre front with their waists at one height; all others
    follow below, layer by layer. The first row keeps its heights.

    Args:
        known: places that must not change while a line is dragged.
    """
    if all(piece.id in known for piece in cutting.pattern.pieces):
        return {piece.id: known[piece.id] for piece in cutting.pattern.pieces}
    places: dict[str, Point] = {}
    top: float | None = None
    room = LEAST_ROW
    for row in _rows(cutting.pieces):
        boxes = [(piece, cut_box(cut)) for piece, cut in row]
        if top is None:
            room = max(room, _width(box for _, box in boxes))
        for line in _broken(boxes, room):
            top = _lay(line, top, places)
    return places


def _rows(pieces: Iterable[tuple[Piece, CutPiece]]) -> list[list[tuple[Piece, CutPiece]]]:
    """Panels of each layer from left to right as they were drawn, then what has no waist."""

    def rank(entry: tuple[Piece, CutPiece]) -> tuple[int, bool]:
        return LAYER_ORDER.index(entry[0].layer), entry[0].inside_line("waist") is None

    by_rank = groupby(sorted(pieces, key=rank), key=rank)
    return [sorted(row, key=lambda entry: (cut_box(entry[1])[0], entry[0].id)) for _, row in by_rank]


def _broken(row: list[tuple[Piece, Box]], room: float) -> Iterable[list[tuple[Piece, Box]]]:
    """The row in lines that have room; a piece wider than that has a line of its own."""
    line: list[tuple[Piece, Box]] = []
    for entry in row:
        if line and _width(box for _, box in [*line, entry]) > room:
            yield line
            line = []
        line.append(entry)
    yield line


def _width(boxes: Iterable[Box]) -> float:
    return sum(right - left + BETWEEN for left, _, right, _ in boxes) - BETWEEN


def _lay(line: list[tuple[Piece, Box]], top: float | None, places: dict[str, Point]) -> float:
    """Put a line's pieces in place below `top`, centre front at x = 0; returns where the next line begins."""
    waists = all(piece.inside_line("waist") is not None for piece, _ in line)
    drops = [0.0 if waists else -box[3] for _, box in line]
    highest = max(box[3] + drop for (_, box), drop in zip(line, drops, strict=True))
    down = 0.0 if top is None else top - highest
    x = -_width(box for _, box in line)
    lowest = 0.0
    for (piece, box), drop in zip(line, drops, strict=True):
        places[piece.id] = (x - box[0], drop + down)
        lowest = min(lowest, box[1] + drop + down)
        x += box[2] - box[0] + BETWEEN
    return lowest - BETWEEN
