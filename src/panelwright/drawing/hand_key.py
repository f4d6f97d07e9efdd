"""The key of marks: one page with every sign of the sheets and what it means."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from panelwright.drawing import pen
from panelwright.drawing.drawing import Drawing, Fill, Lettering, Sign, Stroke
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.page_flow import Strip, hung
from panelwright.drawing.paper import Paper
from panelwright.drawing.paragraph import BODY, paragraph
from panelwright.drawing.path import Path
from panelwright.drawing.ruler import HUNDRED, hundred_square
from panelwright.drawing.scale import FULL
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.symbol import arrow_head, mark_sign
from panelwright.pattern.mark import MarkKind

NAME: Final = "key of marks"
SAMPLE: Final = 26.0
ROOM: Final = 11.5
GUTTER: Final = 8.0
Sample = Callable[[], Sequence[Sign]]


def key_sheet(heading: Heading, paper: Paper) -> Sheet:
    """The page, without footing."""
    named = replace(heading, title="Key of marks", estimated=())
    top = paper.height - paper.margin
    notes = ["Every sheet uses the same lines and signs; all are black, so that any printer shows them."]
    head = heading_drawing(named, notes, NAME, paper.margin, top, paper.inner_width)
    top = head.bounds[1] - 5.0
    wide = (paper.inner_width - GUTTER) / 2
    half = (len(ENTRIES) + 1) // 2
    laid = [Laid(head)]
    for entries, left in ((ENTRIES[:half], 0.0), (ENTRIES[half:], wide + GUTTER)):
        laid += hung([_row(sample, words, wide) for sample, words in entries], paper.margin + left, top)
    laid.append(Laid(hundred_square((paper.margin, paper.margin))))
    beside = paragraph(_SQUARE, paper.inner_width - HUNDRED - 8.0)
    laid += hung([beside], paper.margin + HUNDRED + 8.0, paper.margin + HUNDRED)
    return Sheet(paper.width, paper.height, NAME, tuple(laid))


_SQUARE: Final = (
    "Before anything is measured or traced, measure the square. The smaller squares on the other sheets serve the same "
    "end. A printer that fits pages to its paper makes everything a little too small, and a garment of fourteen seams "
    "shows it."
)


def _row(sample: Sample, words: str, width: float) -> Strip:
    """A sign at the left, its name and what it means at the right."""
    name, meaning = words.split(": ", 1)
    title = paragraph(name, width - SAMPLE - 4.0, BODY, bold=True)
    text = paragraph(meaning, width - SAMPLE - 4.0)
    height = max(ROOM, title.height + text.height + 2.6)
    shown = Drawing(tuple(sample())).moved((0.0, -height / 2))
    told = title.drawing.moved((SAMPLE + 4.0, -1.0)) + text.drawing.moved((SAMPLE + 4.0, -1.0 - title.height))
    return Strip(shown + told, height)


def _line(ink: pen.Pen) -> Sample:
    return lambda: [_stroke([(0.0, 0.0), (SAMPLE, 0.0)], ink)]


def _stroke(points: Sequence[tuple[float, float]], ink: pen.Pen) -> Stroke:
    return Stroke(Path.polyline(points), ink, "sheet")


def _grain() -> Sequence[Sign]:
    ends = np.array([(0.0, 0.0), (SAMPLE, 0.0)])
    heads = [arrow_head(ends[0], ends[0] - ends[1], 2.6), arrow_head(ends[1], ends[1] - ends[0], 2.6)]
    return [_stroke([(0.0, 0.0), (SAMPLE, 0.0)], pen.GRAIN), *(Fill(head, 0.0, "sheet") for head in heads)]


def _bracket() -> Sequence[Sign]:
    fold = _stroke([(0.0, -3.0), (SAMPLE, -3.0)], pen.FOLD)
    shape = _stroke([(6.0, -3.0), (6.0, 2.0), (20.0, 2.0), (20.0, -3.0)], pen.GRAIN)
    heads = [arrow_head((x, -3.0), np.array([0.0, -1.0]), 2.2) for x in (6.0, 20.0)]
    return [fold, shape, *(Fill(head, 0.0, "sheet") for head in heads)]


def _notches(count: int) -> Sample:
    def drawn() -> Sequence[Sign]:
        signs = [_stroke([(0.0, 2.2), (SAMPLE, 2.2)], pen.CUT), _stroke([(0.0, -2.2), (SAMPLE, -2.2)], pen.STITCH)]
        for k in range(count):
            x = SAMPLE / 2 + (k - (count - 1) / 2) * 3.0
            signs += [_stroke([(x, -2.2), (x, 2.2)], pen.NOTCH), _stroke([(x - 0.8, -2.2), (x + 0.8, -2.2)], pen.NOTCH)]
        return signs

    return drawn


def _cross() -> Sequence[Sign]:
    lines = [_stroke([(4.0, 0.0), (22.0, 0.0)], pen.HAIRLINE), _stroke([(13.0, -4.5), (13.0, 4.5)], pen.HAIRLINE)]
    return [*lines, Fill(Path.circle((13.0, 0.0), 0.45), 0.0, "sheet"), Lettering("O", (15.6, -3.6), BODY, "sheet")]


def _letter() -> Sequence[Sign]:
    return [
        _stroke([(0.0, -1.0), (SAMPLE, -1.0)], pen.STITCH),
        Fill(Path.circle((13.0, -1.0), 0.45), 0.0, "sheet"),
        Lettering("C", (13.0, 0.6), BODY, "sheet", anchor="middle", bold=True),
    ]


def _ruler() -> Sequence[Sign]:
    """A curve over the line of its ruler."""
    heights = (2.1, 3.2, 2.4)
    xs = (6.5, 13.0, 19.5)
    bend = Path("MCC", np.array([(0, -3), (3, 0.2), (8, 2.4), (13, 1.8), (18, 1.2), (23, -1), (26, -3)], float))
    signs: list[Sign] = [_stroke([(0.0, -3.0), (SAMPLE, -3.0)], pen.GUIDE), Stroke(bend, pen.CUT, "sheet")]
    for x, height in zip(xs, heights, strict=True):
        top = -3.0 + 1.5 * height
        signs += [_stroke([(x, -3.0), (x, top)], pen.HAIRLINE)]
    return signs


def _changed() -> Sequence[Sign]:
    return [_stroke([(0.0, 2.0), (SAMPLE, 2.0)], pen.OLD), _stroke([(0.0, -2.0), (SAMPLE, -2.0)], pen.CUT)]


def _mark(kind: MarkKind) -> Sample:
    return lambda: [Stroke(mark_sign(kind, (SAMPLE / 2, 0.0), FULL.radius), pen.SYMBOL, "sheet")]


ENTRIES: Final[Sequence[tuple[Sample, str]]] = (
    (_line(pen.CUT), "Cut line: Cut here. On a block template, which has no allowance, it is the stitch line."),
    (_line(pen.STITCH), "Stitch line: Sew or finish here. The allowance lies between it and the cut line."),
    (_line(pen.FOLD), "Fold: Lay this edge on the fold of the cloth; it has no allowance and is not cut."),
    (_bracket, "Fold bracket: Points to the edge that lies on the fold; the piece is cut whole in double cloth."),
    (_grain, "Grain: Lies alongside the selvage; measure the same distance to it at both arrow heads."),
    (_line(pen.LEVEL), "Level: A girth of the body, with its name, such as waist or bust. Levels meet at the seams."),
    (_line(pen.INSIDE_STITCH), "Stitching inside: A bone channel; sew here through the layers."),
    (_notches(1), "Single notch: Front and side seams; match it with the one on the other piece."),
    (_notches(2), "Double notch: Back seams; match both with those on the other piece."),
    (_mark("point"), "Point: The bust point, or where a strap or tie is set."),
    (_mark("button"), "Button: The middle of a button."),
    (_mark("eyelet"), "Eyelet: The middle of an eyelet for lacing."),
    (_cross, "Cross: The first two lines of a piece, one along the grain, one square to it. They meet at O."),
    (_letter, "Lettered point: Write the letter beside the point; the words of the hand sheet speak of it."),
    (_ruler, "Ruler and points: Lay the ruler from letter to letter, go square to it, draw one smooth line."),
    (_changed, "Old and new: Dotted, the line before this step; bold, the line that takes its place."),
)
