"""The reference sheet: printed, it lies beside paper pieces on a photo and tells how large everything is."""

from typing import Final

from panelwright.drawing.drawing import Drawing, Fill, Sign, Stroke
from panelwright.drawing.page_flow import hung
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.paragraph import BODY, paragraph, section
from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen
from panelwright.drawing.reference_markers import FIELDS, SIDE, Marker, markers, window
from panelwright.drawing.ruler import FOUR_INCHES, HUNDRED, four_inch_square, hundred_square
from panelwright.drawing.sheet import Laid, Sheet

TITLE: Final = "Reference sheet for photos"
CUT_HERE: Final = Pen(0.2, (3.0, 2.0), 0.45)
STEPS: Final = (
    "Print at 100 %, “actual size”, and measure the square below. If it is not true, print again.",
    "Lay the pieces flat, printed or drawn side up and not touching each other, on a plain dark table or cloth.",
    "For a few small pieces, lay this sheet flat beside them, close by. For the best result, and for large pieces, cut "
    "along the dashed lines and lay the four strips round the pieces, one on each side, flat and any way round.",
    "Take the photo from above, in even light without glare or flash, with everything in the picture and sharp. Fill "
    "the picture, stand back rather than lean over, and don’t zoom out to the widest lens.",
    "Keep the white border round the black squares, and let nothing lie on them.",
)


def reference_sheet(paper: str = "A4") -> Sheet:
    """The sheet on `A4` or `Letter` paper: black squares round its edge, what to do and a square to measure inside."""
    page = PAPERS[paper]
    left, low, right, high = window(page)
    signs = [sign for marker in markers(paper) for sign in _printed(marker)]
    wide = right - left - 12.0
    strips = [
        section(TITLE, wide),
        *(paragraph(f"{k}  {step}", wide, BODY + 0.4, indent=4.0) for k, step in enumerate(STEPS, 1)),
    ]
    middle = (left + right) / 2
    if paper == "Letter":
        square = four_inch_square((middle - FOUR_INCHES / 2, low + 6.0))
    else:
        square = hundred_square((middle - HUNDRED / 2, low + 6.0))
    drawing = Drawing((*signs, *_cuts(paper)))
    return Sheet(page.width, page.height, TITLE, (Laid(drawing), *hung(strips, left + 6.0, high - 3.0), Laid(square)))


def _printed(marker: Marker) -> list[Sign]:
    """The marker: a black square with its white fields in it."""
    field = SIDE / (FIELDS + 2)
    signs: list[Sign] = [Fill(Path.box(marker.left, marker.bottom, SIDE, SIDE), 0.0, "sheet")]
    top = marker.bottom + SIDE
    for column, row in marker.white:
        signs.append(
            Fill(Path.box(marker.left + (column + 1) * field, top - (row + 2) * field, field, field), 1.0, "sheet")
        )
    return signs


def _cuts(paper: str) -> list[Sign]:
    """Dashed lines that part the strips from each other and from the middle."""
    page = PAPERS[paper]
    left, low, right, high = window(page)
    lines = (
        ((0.0, low), (page.width, low)),
        ((0.0, high), (page.width, high)),
        ((left, low), (left, high)),
        ((right, low), (right, high)),
    )
    return [Stroke(Path.polyline(line), CUT_HERE, "sheet") for line in lines]
