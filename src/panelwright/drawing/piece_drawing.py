"""One piece drawn: lines, signs and lettering."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import shapely

from panelwright.drawing import piece_line, piece_text
from panelwright.drawing.drawing import Bounds, Drawing, Fill, Lettering, Stroke
from panelwright.drawing.free_space import FreeSpace
from panelwright.drawing.mark_names import mark_names
from panelwright.drawing.old_line import old_lines
from panelwright.drawing.path import Path
from panelwright.drawing.pen import CUT
from panelwright.drawing.scale import FULL, Scale
from panelwright.drawing.sheet import draw_drawing
from panelwright.drawing.surface import Surface
from panelwright.drawing.typeface import typeface
from panelwright.finish.cut_piece import CutPiece, CuttingPattern
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Layer, Piece

# Text under a piece may be this many letter sizes wide where the piece is narrower.
CAPTION_WIDTH = 16.0
# A caption of a piece that goes over several pages is at most this wide, to be whole on one of them, mm.
JOINED_CAPTION_WIDTH = 100.0


@dataclass(frozen=True)
class PieceDrawing:
    """A piece as it is drawn, mm on paper.

    Attributes:
        source: the piece and how it is cut.
        scale: at which it is drawn.
        piece: id.
        code: short name that stands on it.
        label: what the piece is called.
        layer: outer, facing, lining or interfacing.
        panel: the block panel that it came from first, or "".
        cuts: how often it is cut, in the words that stand on it; "" where none do.
        drawing: its lines and lettering; the origin is the piece's own.
        cut_line: shape (m, 2), closed.
        allowance: the widest seam allowance as drawn.
        waist: height of the waist on the drawing, or None.
    """

    source: tuple[Piece, CutPiece]
    scale: Scale
    piece: str
    code: str
    label: str
    layer: Layer
    panel: str
    cuts: str
    drawing: Drawing
    cut_line: Array
    allowance: float
    waist: float | None

    @cached_property
    def area(self) -> shapely.Polygon:
        """What is inside the cut line."""
        return shapely.Polygon(self.cut_line)

    @cached_property
    def box(self) -> Bounds:
        """(left, bottom, right, top) of all that is drawn."""
        return self.drawing.bounds

    @property
    def with_facing(self) -> bool:
        """Whether an outer piece is cut twice as often as a garment has it, for its facing too."""
        piece, cut_piece = self.source
        once = 2 if piece.extent == "one_side" and piece.hand == "both" else 1
        return piece.layer == "outer" and any(cut.count == 2 * once for cut in cut_piece.cuts)

    def clear_of(self, joins: Sequence[Path]) -> "PieceDrawing":
        """The same with its text clear of lines where pages are joined, as far as there is room for it.

        A caption under the piece goes where it is whole on one page, which may make the box lower; any other
        text outside the lines stays as it is.
        """
        lines = [sign for sign in self.drawing if not isinstance(sign, Lettering)]
        text = _lettering(*self.source, [sign.path for sign in lines], self.scale, joins)
        moved = replace(self, drawing=Drawing((*lines, *text)))
        return moved if self.scale.captioned or moved.box == self.box else self


def draw_piece(
    piece: Piece,
    cut_piece: CutPiece,
    surface: Surface,
    scale: Scale = FULL,
    old_outline: Sequence[Curve] = (),
    at: Point = (0.0, 0.0),
) -> None:
    """Draw a piece on an open page; `at` is where the origin of the piece comes to lie, mm on the page."""
    drawing = piece_drawing(piece, cut_piece, scale, old_outline).drawing
    draw_drawing(drawing.moved(at), surface)


def draw_pieces(finished: CuttingPattern, scale: Scale, block: Pattern | None = None) -> tuple[PieceDrawing, ...]:
    """Every piece of a cutting pattern, in its order.

    With `block`, the block's old line shows faintly on the pieces of the shell; facings and other derived
    pieces repeat their shape and go without.
    """
    return tuple(
        piece_drawing(piece, cut_piece, scale, old_lines(piece, block) if block and not piece.derived_from else ())
        for piece, cut_piece in finished.pieces
    )


def piece_drawing(
    piece: Piece, cut_piece: CutPiece, scale: Scale = FULL, old_outline: Sequence[Curve] = ()
) -> PieceDrawing:
    """A piece drawn at a scale: its paths are `scale.factor` times the true ones, pens and letters are not."""
    brackets = piece_line.fold_brackets(piece, scale)
    lines: list[Stroke | Fill] = [
        *piece_line.old_block_lines(tuple(old_outline), cut_piece, scale),
        *piece_line.inside_lines(piece, scale),
        *piece_line.stitch_lines(piece, scale),
        *piece_line.cut_lines(piece, cut_piece, scale),
        *piece_line.notch_ticks(piece, cut_piece.notches, scale),
        *piece_line.mark_signs(piece, scale),
        *piece_line.grain_line(piece, scale),
        *(sign for bracket in brackets for sign in piece_line.bracket_lines(bracket, scale)),
    ]
    text = _lettering(piece, cut_piece, [sign.path for sign in lines], scale)
    waist = piece.inside_line("waist")
    return PieceDrawing(
        source=(piece, cut_piece),
        scale=scale,
        piece=piece.id,
        code=cut_piece.code,
        label=piece.label,
        layer=piece.layer,
        panel=piece.material[0].panel if piece.material else "",
        cuts=_cuts(cut_piece),
        drawing=Drawing((*lines, *text)),
        cut_line=cut_piece.cut_line * scale.factor,
        allowance=max(cut_piece.allowances.values(), default=0.0) * scale.factor,
        waist=None if waist is None else float(waist.curve.point(waist.curve.length / 2)[1]) * scale.factor,
    )


def _lettering(
    piece: Piece, cut_piece: CutPiece, paths: list[Path], scale: Scale, joins: Sequence[Path] = ()
) -> list[Lettering]:
    """All text of the piece; what needs its own place is set before what can go anywhere."""
    factor = scale.factor
    outline = shapely.Polygon(np.array(piece.outline.exterior.coords) * factor)
    space = FreeSpace(outline, paths, scale.clearance, joins)
    found = [piece_text.fold_words(bracket, space, scale) for bracket in piece_line.fold_brackets(piece, scale)]
    found += [piece_text.mark_name(name, space, scale) for name in mark_names(piece_line.marks(piece))]
    found += [piece_text.level_name(line, space, scale) for line in piece.inside if piece_text.has_name(line)]
    left, bottom, right, _ = Drawing(tuple(Stroke(path, CUT, "cut lines") for path in paths)).bounds
    at = (cut_piece.text_at[0] * factor, cut_piece.text_at[1] * factor)
    below = ((left + right) / 2, bottom - 2 * scale.clearance)
    width = max(right - left, CAPTION_WIDTH * scale.body)
    if scale.captioned and joins:
        width = min(width, JOINED_CAPTION_WIDTH)
        below = piece_text.caption_place(cut_piece.text, below, width, scale, (left, right), joins)
    short = typeface(True).written(cut_piece.code)
    found += piece_text.piece_text(cut_piece.text, short, at, space, scale, below, width)
    grain = np.array([piece.grain.start, piece.grain.end]) * factor
    found.append(piece_text.grain_word(grain[0], grain[1], space, scale))
    return [lettering for lettering in found if lettering is not None]


def _cuts(cut_piece: CutPiece) -> str:
    """`cut 1 on fold in outer cloth; cut 1 pair in lining cotton`: as the piece's own text says it."""
    lines = [line for line in cut_piece.text[1:] if line.startswith("Cut ")]
    return typeface().written("; ".join(f"cut {line.removeprefix('Cut ')}" for line in lines))
