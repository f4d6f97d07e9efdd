"""A cutting pattern as SVG at true size: one group a piece, its lines told apart by class, for other programs to open.

The classes are plain words: `cut-line`, `stitch-line`, `fold-line`, `inside-line`, `notch`, `grain-line`, `mark`, and
`sign` for what is only there to be looked at. One unit is one millimetre; y runs down, as SVG has it.
"""

import re
from collections.abc import Iterable, Iterator
from typing import Final

import numpy as np

from panelwright.drawing import pen
from panelwright.drawing.drawing import Fill, Lettering, Stroke
from panelwright.drawing.path import Path
from panelwright.drawing.piece_drawing import piece_drawing
from panelwright.drawing.piece_line import (
    INSIDE_PENS,
    bracket_lines,
    fold_brackets,
    grain_line,
    mark_signs,
    marks,
    notch_ticks,
)
from panelwright.drawing.ruler import HUNDRED, hundred_square
from panelwright.drawing.scale import FULL
from panelwright.finish.cut_piece import CutPiece, CuttingPattern
from panelwright.geometry.curve import Curve
from panelwright.output.piece_rows import piece_rows
from panelwright.output.svg import SvgSurface
from panelwright.pattern.mark import Point
from panelwright.pattern.piece import Piece

MARGIN: Final = 15.0
# The point that a sign stands round, mm: whoever reads the file finds it exactly.
DOT: Final = 0.2
# Text under a narrow piece needs room that its cut line does not take.
_ROOM: Final = 50.0


def svg_pattern(cutting: CuttingPattern, title: str) -> str:
    """The pattern as one SVG document in millimetres at full scale, a square of 100 mm below the pieces to measure."""
    shifts = piece_rows(cutting, _ROOM)
    low = MARGIN + _ROOM + HUNDRED
    lines = np.concatenate([cut.cut_line + shifts[piece.id] for piece, cut in cutting.pieces])
    width, height = np.ceil(lines.max(axis=0) + np.array([2 * MARGIN, low + MARGIN])).tolist()
    surface = SvgSurface(title)
    surface.begin_page(max(width, HUNDRED + 2 * MARGIN), height)
    taken: set[str] = set()
    for piece, cut in cutting.pieces:
        x, y = shifts[piece.id]
        surface.begin_group(_id(piece.id, taken), "piece", piece.label)
        _piece(surface, piece, cut, (x + MARGIN, y + low))
        surface.end_layer()
    surface.begin_group("square-to-measure", "sign", "100 mm")
    _signs(surface, hundred_square((MARGIN, MARGIN)))
    surface.end_layer()
    return surface.finished()


def _id(text: str, taken: set[str]) -> str:
    """A name that an SVG may have as an id, once: `CF/facing` is `CF-facing`."""
    plain = name = re.sub(r"[^\w.-]+", "-", text) or "piece"
    number = 1
    while name in taken:
        number += 1
        name = f"{plain}-{number}"
    taken.add(name)
    return name


def _piece(surface: SvgSurface, piece: Piece, cut: CutPiece, shift: Point) -> None:
    surface.named_stroke(Path.polyline(cut.cut_line, closed=True).moved(shift), pen.CUT, "cut-line")
    stitched = Path.curve(_outline(piece))
    surface.named_stroke(Path(stitched.codes + "Z", stitched.points).moved(shift), pen.STITCH, "stitch-line")
    for edge in piece.edges:
        if edge.kind == "fold":
            surface.named_stroke(Path.curve(edge.curve).moved(shift), pen.FOLD, "fold-line", edge.line)
    for line in piece.inside:
        name = "fold-line" if line.kind == "fold" else "inside-line"
        surface.named_stroke(Path.curve(line.curve).moved(shift), INSIDE_PENS[line.kind], name, _plain(line.id))
    ticks = notch_ticks(piece, cut.notches, FULL)
    for stem, bar in zip(ticks[::2], ticks[1::2], strict=True):
        surface.named_stroke(stem.path.moved(shift), pen.NOTCH, "notch")
        surface.named_stroke(bar.path.moved(shift), pen.NOTCH, "sign")
    for mark, sign in zip(marks(piece), mark_signs(piece, FULL), strict=True):
        dot = Path.circle(mark.at, DOT)
        surface.named_stroke(dot.moved(shift), pen.SYMBOL, "mark", _plain(mark.id))
        surface.named_stroke(sign.path.moved(shift), pen.SYMBOL, "sign")
    grain, *heads = grain_line(piece, FULL)
    surface.named_stroke(grain.path.moved(shift), pen.GRAIN, "grain-line")
    surface.begin_group("", "sign")
    brackets = (sign for bracket in fold_brackets(piece, FULL) for sign in bracket_lines(bracket, FULL))
    _signs(surface, (sign.moved(shift) for sign in (*heads, *brackets)))
    surface.end_layer()
    _signs(surface, _lettering(piece, cut, shift))


def _plain(id: str) -> str:
    return id.rsplit("/", 1)[-1]


def _outline(piece: Piece) -> Curve:
    return Curve(np.concatenate([edge.curve.cubics for edge in piece.edges]))


def _lettering(piece: Piece, cut: CutPiece, shift: Point) -> Iterator[Lettering]:
    drawn = piece_drawing(piece, cut, FULL).drawing
    return (sign.moved(shift) for sign in drawn if isinstance(sign, Lettering))


def _signs(surface: SvgSurface, signs: Iterable[Stroke | Fill | Lettering]) -> None:
    for sign in signs:
        match sign:
            case Stroke(path, used):
                surface.stroke(path, used)
            case Fill(path, shade):
                surface.fill(path, shade)
            case Lettering():
                surface.text(sign)
