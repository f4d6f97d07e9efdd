"""Pieces side by side in rows on one large surface, at full scale."""

from typing import Final

import numpy as np

from panelwright.drawing.shelf import shelved
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.pattern.mark import Point

ROW_WIDTH: Final = 1500.0
GAP: Final = 20.0


def piece_rows(cutting: CuttingPattern, gap: float = GAP) -> dict[str, Point]:
    """Piece id -> by how much it is shifted (x, y), mm: rows of at most 1.5 m, or as wide as the widest piece.

    The lower left corner of all cut lines together comes to lie at (0, 0); no two come nearer than `gap`.
    """
    lines = {piece.id: cut.cut_line for piece, cut in cutting.pieces}
    sizes = [tuple(np.ptp(line, axis=0).tolist()) for line in lines.values()]
    corners = shelved([(wide, high) for wide, high in sizes], ROW_WIDTH, gap)
    depth = max(high - y for (_, y), (_, high) in zip(corners, sizes, strict=True))
    shifts = {}
    for (id, line), (x, y) in zip(lines.items(), corners, strict=True):
        shifts[id] = float(x - line[:, 0].min()), float(y + depth - line[:, 1].max())
    return shifts
