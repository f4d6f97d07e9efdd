"""The fitting sheet of a toile: a picture of each piece with its levels, and lines to write what was pinned."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from panelwright.drawing import pen
from panelwright.drawing.drawing import Drawing, Lettering, Sign, Stroke
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.page_flow import Strip, beside, flowed, hung, kept_together, space
from panelwright.drawing.paper import Paper
from panelwright.drawing.paragraph import SMALL, Column, paragraph, section, table
from panelwright.drawing.path import Path
from panelwright.drawing.sheet import Sheet
from panelwright.finish.cut_piece import CutPiece
from panelwright.pattern.mark import BONE_GUIDE
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

NAME: Final = "fitting sheet"
REDUCTIONS: Final = (6, 8, 10, 12, 15, 20, 25, 30)  # 1 mm on paper is so many of cloth, the largest picture first
PICTURE: Final = (62.0, 66.0)
GUTTER: Final = 8.0
ROWS: Final = 5
ROW_HEIGHT: Final = 8.0
NAMES: Final = 2.0  # mm: letters of the levels
HOW: Final = (
    "Sew the toile by its stitch lines with long stitches, right side of the drawn lines outwards. Try it on standing, "
    "sitting, with both arms up and with a deep breath, over what will be worn under it. Balance lines lie level and "
    "upright where the toile hangs well. Pin what is too wide; where it is too tight, open the seam and measure the "
    "gap. Write amounts for each side of the seam, and where they run out to nothing."
)
CAUTION: Final = (
    "Pins lie along the seam with their points away from the body. Numbness, short breath or dizziness: open the toile "
    "at once."
)
_SEAMS: Final = (
    Column("Seam", 0.26), Column("Level", 0.2), Column("In", 0.08), Column("Out", 0.08),
    Column("Each side", 0.16), Column("Nothing at", 0.22),
)  # fmt: skip
_WHOLE: Final = (Column("Figure", 0.44), Column("Amount", 0.16), Column("Remark", 0.4))
WHOLE: Final = (
    "Longer · shorter above the waist",
    "Longer · shorter below the waist",
    "Sway back: wedge out at centre back waist",
    "Full bust: wider, each side of the front princess",
    "Full bust: longer over the bust",
    "Shoulders square · sloping · forward",
    "Straps shorter · longer",
    "Neckline gapes: in at the front princess, upper bust",
)


def toile_sheets(
    pieces: Sequence[tuple[Piece, CutPiece]], pattern: Pattern, heading: Heading, paper: Paper
) -> tuple[Sheet, ...]:
    """The pages, without footings.

    Args:
        pieces: of the toile, in order.
        pattern: that they are of.
        heading: of the garment.
        paper: of every page, upright.
    """
    width = paper.inner_width
    head = heading_drawing(heading, heading.notes("pictures and no pattern"), NAME, 0.0, 0.0, width)
    fitted = "Fitting of ____________________ · fitted by ____________________ · toile number ______"
    strips = [Strip(head, -head.bounds[1] + 3.0), paragraph(fitted, width), space(2.0), paragraph(HOW, width, SMALL)]
    strips += [paragraph(CAUTION, width, SMALL, bold=True), space(3.0)]
    before = [note.label for note in pattern.fitting]
    if before:
        strips += [paragraph("Already in this block: " + "; ".join(before) + ".", width, SMALL), space(3.0)]
    for piece, cut in pieces:
        strips += [*_piece(piece, cut, pattern, width), space(4.0)]
    strips += kept_together(
        [section("The whole figure", width), *_blank(_WHOLE, width, [(text, "", "") for text in WHOLE])]
    )
    pages = flowed(strips, paper.height - 2 * paper.margin)
    return tuple(
        Sheet(
            paper.width, paper.height, f"{NAME}, page {number} of {len(pages)}",
            tuple(hung(page, paper.margin, paper.height - paper.margin)),
        )
        for number, page in enumerate(pages, 1)
    )  # fmt: skip


def _piece(piece: Piece, cut: CutPiece, pattern: Pattern, width: float) -> list[Strip]:
    """Its name, and under it the picture beside lines to write on."""
    seams = [pattern.line(edge.line).label for edge in piece.edges if edge.kind in ("seam", "opening")]
    left = PICTURE[0] + GUTTER
    rows = [(seam, *[""] * 5) for seam in dict.fromkeys(seams)]
    rows += [("",) * 6] * max(0, ROWS - len(rows))
    columns = [(0.0, [space(1.0), _picture(piece, cut)]), (left, [space(1.0), *_blank(_SEAMS, width - left, rows)])]
    return kept_together([section(f"{cut.code}  {piece.label}", width), beside(columns)])


def _blank(columns: Sequence[Column], width: float, rows: Sequence[Sequence[str]]) -> list[Strip]:
    """A table whose rows are high enough to write in."""
    head, *body = table(columns, rows, width, SMALL)
    line = Stroke(Path.polyline([(0.0, -ROW_HEIGHT), (width, -ROW_HEIGHT)]), pen.HAIRLINE, "sheet")
    high = []
    for strip in body:
        words = [sign.moved((0.0, -3.2)) for sign in strip.drawing if isinstance(sign, Lettering)]
        high.append(Strip(Drawing((*words, line)), ROW_HEIGHT))
    return [head, *high]


def _picture(piece: Piece, cut: CutPiece) -> Strip:
    """The piece as large as it may be: cut line, stitch lines, balance lines and the names of the levels."""
    (left, bottom), (right, top) = cut.cut_line.min(axis=0).tolist(), cut.cut_line.max(axis=0).tolist()
    wide, tall = PICTURE
    reduction = next(
        (each for each in REDUCTIONS if (right - left) / each <= wide and (top - bottom) / each <= tall), REDUCTIONS[-1]
    )
    factor = 1 / reduction
    shift = (wide / 2 - (left + right) / 2 * factor, -top * factor)
    signs: list[Sign] = [Stroke(Path.polyline(cut.cut_line * factor, closed=True), pen.Pen(0.3), "cut lines")]
    for edge in piece.edges:
        own = pen.FOLD if edge.kind == "fold" else pen.Pen(0.15)
        signs.append(Stroke(Path.curve(edge.curve).scaled(factor), own, "stitch lines"))
    for line in piece.inside:
        if line.kind in ("level", "guide", "dart") and not line.id.endswith(BONE_GUIDE):
            signs.append(Stroke(Path.curve(line.curve).scaled(factor), pen.LEVEL, "level lines"))
        if line.kind == "level":
            at = line.curve.point(0.0) * factor + np.array([1.2, 0.7])
            name = line.id.replace("-", " ")
            signs.append(Lettering(name, (float(at[0]), float(at[1])), NAMES, "text"))
    return Strip(Drawing(tuple(sign.moved(shift) for sign in signs)), (top - bottom) * factor + 1.0)
