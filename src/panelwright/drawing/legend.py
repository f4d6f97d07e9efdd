"""The legend: which line and which sign means what, of those that the pieces bear."""

from collections.abc import Callable, Iterator, Sequence
from typing import Final

import numpy as np

from panelwright.checks.seam_height import BUST_POINT
from panelwright.drawing import pen
from panelwright.drawing.drawing import Drawing, Fill, Lettering, Sign, Stroke
from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen
from panelwright.drawing.piece_drawing import PieceDrawing
from panelwright.drawing.piece_line import marks
from panelwright.drawing.symbol import arrow_head, mark_sign
from panelwright.drawing.typeface import typeface
from panelwright.pattern.mark import MarkKind, Point

Sample = Callable[[float, float], list[Sign]]

LINES: Final = (
    (pen.CUT, "cut here"),
    (pen.STITCH, "stitch or finish here"),
    (pen.FOLD, "lay on the fold"),
    (pen.LEVEL, "level of the body"),
    (pen.INSIDE_STITCH, "bone channel"),
    (pen.GUIDE, "guide, such as a bone on a seam"),
    (pen.OLD, "the block’s old line"),
)
BRACKET: Final = "points to the fold"
NOTCH: Final = "notch"
MARKS: Final[tuple[tuple[MarkKind, str], ...]] = (("eyelet", "eyelet"), ("button", "button"))
SIZE: Final = 2.6
SAMPLE: Final = 13.6
ROW: Final = 4.6


def legend(at: Point, width: float, drawings: Sequence[PieceDrawing]) -> Drawing:
    """Samples of what the drawings bear, with their meaning.

    They stand in rows of at most `width` mm from `at`, the left end of the first baseline, down.
    """
    x, y = at
    signs: list[Sign] = []
    for sample, words in _entries(drawings):
        needed = SAMPLE + 1.5 + typeface().width(words, SIZE)
        if x > at[0] and x + needed > at[0] + width:
            x, y = at[0], y - ROW
        signs += sample(x, y + 0.3 * SIZE)
        signs.append(Lettering(words, (x + SAMPLE + 1.5, y), SIZE, "sheet"))
        x += needed + 5.0
    return Drawing(tuple(signs))


def _entries(drawings: Sequence[PieceDrawing]) -> Iterator[tuple[Sample, str]]:
    inks = {sign.pen for drawing in drawings for sign in drawing.drawing if isinstance(sign, Stroke)}
    yield from ((_line(ink), words) for ink, words in LINES if ink in inks)
    if pen.FOLD in inks:
        yield _bracket, BRACKET
    if pen.NOTCH in inks:
        yield _notch, NOTCH
    drawn = [mark for drawing in drawings for mark in marks(drawing.source[0])]
    if any(mark.id.endswith(BUST_POINT) for mark in drawn):
        yield _mark("point"), "bust point; on a seam, half of it"
    yield from ((_mark(kind), words) for kind, words in MARKS if any(mark.kind == kind for mark in drawn))


def _line(ink: Pen) -> Sample:
    return lambda x, y: [Stroke(Path.polyline([(x, y), (x + SAMPLE, y)]), ink, "sheet")]


def _bracket(x: float, y: float) -> list[Sign]:
    low, ends = y - 0.5 * SIZE, (x + 2.0, x + SAMPLE - 2.0)
    shape = [(ends[0], low), (ends[0], y + 0.4 * SIZE), (ends[1], y + 0.4 * SIZE), (ends[1], low)]
    heads = [Fill(arrow_head((end, low), np.array([0.0, -1.0]), 1.4), 0.0, "sheet") for end in ends]
    return [Stroke(Path.polyline(shape), pen.GRAIN, "sheet"), *heads]


def _notch(x: float, y: float) -> list[Sign]:
    """A T: its bar on the stitch line, its stem over the allowance."""
    low, middle = y - 0.4 * SIZE, x + SAMPLE / 2
    stitched = Stroke(Path.polyline([(x, low), (x + SAMPLE, low)]), pen.STITCH, "sheet")
    parts = [[(middle - 0.8, low), (middle + 0.8, low)], [(middle, low), (middle, y + 0.5 * SIZE)]]
    return [stitched, *(Stroke(Path.polyline(part), pen.NOTCH, "sheet") for part in parts)]


def _mark(kind: MarkKind) -> Sample:
    return lambda x, y: [Stroke(mark_sign(kind, (x + SAMPLE / 2, y), 0.42 * SIZE), pen.SYMBOL, "sheet")]
