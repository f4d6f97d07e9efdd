"""What was read off paper, as a picture: every piece with its name, its edges numbered as the file numbers them."""

from typing import Final

import numpy as np

from panelwright.drawing.drawing import Drawing, Lettering, Sign, Stroke
from panelwright.drawing.path import Path
from panelwright.drawing.pen import CUT, FOLD, GRAIN, LEVEL
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.typeface import typeface
from panelwright.geometry.arrays import unit
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.drawn_piece import DrawnPiece

MARGIN: Final = 10.0
GAP: Final = 14.0
NAME_SIZE: Final = 4.0
NUMBER_SIZE: Final = 3.0
LEVEL_SIZE: Final = 2.2
NOTCH: Final = 0.9  # mm: half of a notch's cross
INWARDS: Final = 4.0
ROW: Final = 400.0  # mm; pieces that go beyond it begin a new row


def reading_sheet(drawn: DrawnPattern) -> Sheet:
    """The pieces at quarter scale, whatever the paper's scale is: folds dashed, notches crossed, levels named."""
    factor = 0.25 * drawn.scale
    laid: list[Laid] = []
    x, y, wide, low = MARGIN, 0.0, 0.0, 0.0
    for piece in drawn.pieces:
        drawing = _piece(piece, factor)
        left, bottom, right, top = drawing.bounds
        if x > MARGIN and x + right - left > ROW:
            x, y = MARGIN, low - GAP
        laid.append(Laid(drawing, (x - left, y - top)))
        wide, low = max(wide, x + right - left), min(low, y - (top - bottom))
        x += right - left + GAP
    height = MARGIN - low + MARGIN
    moved = tuple(Laid(each.drawing, (each.shift[0], each.shift[1] + height - MARGIN)) for each in laid)
    return Sheet(wide + MARGIN, height, "what was read off paper", moved)


def _piece(piece: DrawnPiece, factor: float) -> Drawing:
    signs: list[Sign] = []
    for line in piece.inside:
        curve = line.curve.scaled(factor)
        signs.append(Stroke(Path.curve(curve), LEVEL, "level lines"))
        if line.kind == "level":
            x, y = curve.point(curve.length / 2)
            name = typeface(False).written(line.id)
            signs.append(Lettering(name, (float(x), float(y) + 0.6), LEVEL_SIZE, anchor="middle"))
    for notch in piece.notches:
        at = factor * np.array(notch.at)
        signs.append(Stroke(Path.polyline(at + NOTCH * np.array([[-1, -1], [1, 1]])), CUT, "stitch lines"))
        signs.append(Stroke(Path.polyline(at + NOTCH * np.array([[-1, 1], [1, -1]])), CUT, "stitch lines"))
    if piece.grain is not None:
        ends = factor * np.array([piece.grain.start, piece.grain.end])
        signs.append(Stroke(Path.polyline(ends), GRAIN, "grain and fold"))
    for number, edge in enumerate(piece.edges, 1):
        curve = edge.curve.scaled(factor)
        signs.append(Stroke(Path.curve(curve), FOLD if edge.kind == "fold" else CUT, "stitch lines"))
        middle = curve.point(curve.length / 2)
        along = unit(curve.point(0.51 * curve.length) - curve.point(0.49 * curve.length))
        x, y = middle + min(INWARDS, curve.length / 3) * np.array([-along[1], along[0]])
        signs.append(Lettering(str(number), (float(x), float(y) - NUMBER_SIZE / 3), NUMBER_SIZE, anchor="middle"))
    left, bottom, right, _ = Drawing(tuple(signs)).bounds
    name = typeface(True).written(piece.id)
    signs.append(Lettering(name, ((left + right) / 2, bottom - 6.0), NAME_SIZE, anchor="middle", bold=True))
    return Drawing(tuple(signs))
