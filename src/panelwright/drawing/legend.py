"""The legend: which line means what."""

from typing import Final

from panelwright.drawing import pen
from panelwright.drawing.drawing import Drawing, Lettering, Sign, Stroke
from panelwright.drawing.path import Path
from panelwright.drawing.typeface import typeface
from panelwright.pattern.mark import Point

ENTRIES: Final = (
    (pen.CUT, "cut here"),
    (pen.STITCH, "stitch or finish here"),
    (pen.FOLD, "lay on the fold"),
    (pen.LEVEL, "level of the body"),
    (pen.INSIDE_STITCH, "bone channel"),
    (pen.GUIDE, "guide, such as a bone on a seam"),
    (pen.OLD, "the block’s old line"),
)
SIZE: Final = 2.6
SAMPLE: Final = 13.6
ROW: Final = 4.6


def legend(at: Point, width: float) -> Drawing:
    """Samples of the lines with their meaning, in rows from `at` (the left end of the first baseline) down."""
    x, y = at
    signs: list[Sign] = []
    for ink, words in ENTRIES:
        needed = SAMPLE + 1.5 + typeface().width(words, SIZE)
        if x > at[0] and x + needed > at[0] + width:
            x, y = at[0], y - ROW
        signs.append(Stroke(Path.polyline([(x, y + 0.3 * SIZE), (x + SAMPLE, y + 0.3 * SIZE)]), ink, "sheet"))
        signs.append(Lettering(words, (x + SAMPLE + 1.5, y), SIZE, "sheet"))
        x += needed + 5.0
    return Drawing(tuple(signs))
