"""Full scale on one large sheet, for a plotter or a print shop."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from panelwright.drawing.drawing import Drawing
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.legend import legend
from panelwright.drawing.paper import LONGEST_PAGE
from panelwright.drawing.piece_drawing import PieceDrawing
from panelwright.drawing.ruler import FOUR_INCHES, four_inch_square, hundred_square
from panelwright.drawing.scale import FULL
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.shelf import shelved
from panelwright.errors import InputError
from panelwright.pattern.mark import Point

# The usual roll of a plotter is 36 inches wide; some of it is lost at the edges.
ROLL_WIDTH: Final = 900.0
MARGIN: Final = 10.0
GAP: Final = 8.0
_SQUARES: Final = (2 * FOUR_INCHES + 8.0, FOUR_INCHES)


def large_sheets(
    drawings: Sequence[PieceDrawing], heading: Heading, width: float = ROLL_WIDTH, longest: float = LONGEST_PAGE
) -> tuple[Sheet, ...]:
    """The pieces at full scale on one sheet at most `width` mm wide and as long as they need.

    A second sheet is begun only where one would be longer than `longest`. Pieces wider than the sheet, such
    as long ties, come on sheets of their own that lie on their side: as wide as they need and `width` high.

    Raises:
        InputError: if a piece is larger than a sheet may be.
    """
    standing = [piece for piece in drawings if _wide(piece) <= width - 2 * MARGIN]
    long = [piece for piece in drawings if _wide(piece) > width - 2 * MARGIN]
    along = max((_wide(piece) for piece in long), default=0.0) + 2 * MARGIN
    _refuse_too_large(standing, long, heading, width, longest)
    pages = [(page, width) for page in _pages(standing, heading, width, longest)]
    pages += [(page, along) for page in _pages(long, heading, along, width)]
    return tuple(_sheet(page, heading, wide, k, len(pages)) for k, (page, wide) in enumerate(pages, 1))


def _pages(
    drawings: Sequence[PieceDrawing], heading: Heading, width: float, longest: float
) -> list[list[PieceDrawing]]:
    """The pieces in their order, as many on a sheet as keep it within `longest`."""
    pages: list[list[PieceDrawing]] = []
    for piece in drawings:
        if not pages or _height([*pages[-1], piece], width, heading) > longest:
            pages.append([])
        pages[-1].append(piece)
    return pages


def _wide(piece: PieceDrawing) -> float:
    return piece.box[2] - piece.box[0]


def _boxes(page: Sequence[PieceDrawing]) -> list[tuple[float, float]]:
    """Sizes of the pieces and, last, of the pair of squares to measure."""
    return [*((piece.box[2] - piece.box[0], piece.box[3] - piece.box[1]) for piece in page), _SQUARES]


def _sheet(page: Sequence[PieceDrawing], heading: Heading, width: float, number: int, count: int) -> Sheet:
    sizes = _boxes(page)
    corners = shelved(sizes, width - 2 * MARGIN, GAP)
    used = max(x + wide for (x, _), (wide, _) in zip(corners, sizes, strict=True))
    height = _height(page, width, heading)
    name = "one sheet" if count == 1 else f"sheet {number} of {count}"
    head = _head(heading, name, used, page)
    top = height - MARGIN + head.bounds[1] - GAP
    laid = [Laid(head, (0.0, height - MARGIN)), Laid(_squares(corners[-1], top))]
    laid += [
        Laid(piece.drawing, (MARGIN + x - piece.box[0], top + y - piece.box[3]))
        for piece, (x, y) in zip(page, corners[:-1], strict=True)
    ]
    return Sheet(float(np.ceil(used + 2 * MARGIN)), height, f"{FULL.name}, {name}", tuple(laid))


def _height(page: Sequence[PieceDrawing], width: float, heading: Heading) -> float:
    sizes = _boxes(page)
    corners = shelved(sizes, width - 2 * MARGIN, GAP)
    used = max(x + wide for (x, _), (wide, _) in zip(corners, sizes, strict=True))
    deepest = max(tall - y for (_, y), (_, tall) in zip(corners, sizes, strict=True))
    return float(np.ceil(deepest + GAP - _head(heading, "sheet 1 of 1", used, page).bounds[1] + 2 * MARGIN))


def _head(heading: Heading, name: str, width: float, page: Sequence[PieceDrawing]) -> Drawing:
    """The heading and the legend of the page's pieces, hanging from 0."""
    head = heading_drawing(heading, heading.notes(FULL.name), name, MARGIN, 0.0, width)
    return head + legend((MARGIN, head.bounds[1] - 5.0), width, page)


def _squares(corner: Point, top: float) -> Drawing:
    x, y = MARGIN + corner[0], top + corner[1] - FOUR_INCHES
    return hundred_square((x, y)) + four_inch_square((x + FOUR_INCHES + 8.0, y))


def _refuse_too_large(
    standing: Sequence[PieceDrawing], long: Sequence[PieceDrawing], heading: Heading, width: float, longest: float
) -> None:
    for piece in long:
        along = _wide(piece) + 2 * MARGIN
        if along > longest or _height([piece], along, heading) > width:
            raise InputError(
                f"piece {piece.label} is {_wide(piece):.0f} mm wide and a sheet of {width:.0f} mm has room for "
                f"{width - 2 * MARGIN:.0f} mm: choose a wider sheet or print tiles",
                "width",
            )
    for piece in standing:
        tall = piece.box[3] - piece.box[1]
        if tall > longest - 200.0:
            raise InputError(
                f"piece {piece.label} is {tall:.0f} mm long and a page ends at {longest:.0f} mm: print tiles",
                "pieces",
            )
