"""A small picture of a garment: its pieces laid out as on the quarter-scale sheet, each with its short name."""

from collections.abc import Collection, Sequence
from dataclasses import replace
from typing import Final

import shapely

from panelwright.drawing.drawing import Drawing, Lettering, Stroke
from panelwright.drawing.page_flow import Strip
from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen
from panelwright.drawing.piece_drawing import PieceDrawing
from panelwright.drawing.typeface import typeface
from panelwright.drawing.unrolled import Row, rows
from panelwright.finish.piece_code import same_shape

# 1 mm on paper is so many of cloth, the largest picture first.
REDUCTIONS: Final = (8, 10, 12, 15, 20, 25, 30, 40, 60, 80, 120)
NAME_SIZE: Final = 2.2
GAP: Final = 3.0
CUT: Final = Pen(0.3)
STITCH: Final = Pen(0.12)
FOLD: Final = Pen(0.3, (2.4, 0.7, 0.5, 0.7))
BOLD: Final = Pen(0.9)
NOTE_ROOM: Final = 3.6


def garment_picture(
    pieces: Sequence[PieceDrawing],
    width: float,
    height: float,
    noted: bool = True,
    bold: Collection[str] = (),
    name_size: float = NAME_SIZE,
) -> Strip:
    """The pieces as large as `width` and `height` mm allow; a layer that repeats a piece's shape is named, not drawn.

    Args:
        pieces: at any scale.
        noted: whether the scale and what is not drawn are written under it.
        bold: ids of edges to draw bold.
        name_size: of the short names, mm.
    """
    shown, repeated = _own_shapes(pieces)
    for reduction in REDUCTIONS:
        made = rows([_reduced(piece, 1 / reduction, bold, name_size) for piece in shown], width)
        tall = sum(row.height + GAP for row in made) + (NOTE_ROOM if noted else 0.0)
        if tall <= height and all(row.width <= width for row in made):
            break
    drawings, top = [], 0.0
    for row in made:
        drawings.append(_laid(row, width, top))
        top -= row.height + GAP
    if not noted:
        return Strip(Drawing.together(drawings), -top)
    words = f"1 : {reduction}, a picture and no pattern" + (f"; {repeated}" if repeated else "")
    face = typeface()
    note = Lettering(face.shortened(words, NAME_SIZE, width), (0.0, top - NAME_SIZE * 0.6), NAME_SIZE, "sheet")
    return Strip(Drawing.together([*drawings, Drawing((note,))]), NOTE_ROOM - top)


def _laid(row: Row, width: float, top: float) -> Drawing:
    left, bottom = (width - row.width) / 2, top - row.height
    return Drawing.together(piece.drawing.moved((left + x, bottom + y)) for piece, (x, y) in row.laid)


def _own_shapes(pieces: Sequence[PieceDrawing]) -> tuple[list[PieceDrawing], str]:
    """The pieces whose outline no drawn piece has, and which layers repeat the others."""
    origins = {piece.piece: piece.source[0] for piece in pieces}
    shown, layers = [], []
    for piece in pieces:
        if same_shape(piece.source[0], origins.get(piece.source[0].derived_from or "")):
            layers.append(piece.layer)
        else:
            shown.append(piece)
    names = " and ".join(dict.fromkeys(layers))
    return shown, f"{names} of the same shapes" if names else ""


def _reduced(piece: PieceDrawing, factor: float, bold: Collection[str], name_size: float) -> PieceDrawing:
    """Cut line, stitch line, fold and short name of a piece, `factor` of its true size."""
    own, cut = piece.source
    signs = [Stroke(Path.polyline(cut.cut_line * factor, closed=True), CUT, "cut lines")]
    for edge in own.edges:
        pen = BOLD if edge.id in bold else FOLD if edge.kind == "fold" else STITCH
        signs.append(Stroke(Path.curve(edge.curve).scaled(factor), pen, "stitch lines"))
    lines = Drawing(tuple(signs))
    smaller = factor / piece.scale.factor
    return replace(
        piece,
        drawing=lines + Drawing((_name(piece, factor, lines, name_size),)),
        cut_line=cut.cut_line * factor,
        allowance=0.0,
        waist=None if piece.waist is None else piece.waist * smaller,
    )


def _name(piece: PieceDrawing, factor: float, lines: Drawing, size: float) -> Lettering:
    """The short name inside the piece where it has room, else under it."""
    own, cut = piece.source
    at = cut.text_at[0] * factor, cut.text_at[1] * factor - 0.35 * size
    words = typeface(True).written(piece.code)
    inside = Lettering(words, at, size, "text", anchor="middle", bold=True)
    outline = shapely.transform(own.outline, lambda points: points * factor)
    if outline.contains(shapely.Polygon(inside.box)):
        return inside
    left, bottom, right, _ = lines.bounds
    return replace(inside, at=((left + right) / 2, bottom - 1.1 * size))
