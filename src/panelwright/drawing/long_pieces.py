"""Pieces too long for a page at quarter scale, such as the ties of a bow: over several pages to join."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.paper import Paper, turned
from panelwright.drawing.piece_drawing import PieceDrawing
from panelwright.drawing.ruler import scale_bar
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.sheet import Sheet
from panelwright.drawing.tile_grid import fewest_tiles
from panelwright.drawing.tiled_sheets import holds_first_page, plane_sheets, tiled_plane
from panelwright.errors import InputError
from panelwright.geometry.tolerances import TOLERANCES

BAR_HEIGHT: Final = 5.5
LONGEST_COUNT: Final = "400 pages to join, 20 rows of 20"


def long_piece_sheets(
    drawings: Sequence[PieceDrawing], heading: Heading, notes: Sequence[str], paper: Paper, before: int = 0
) -> tuple[Sheet, ...]:
    """A first page to measure and find one's way, then the pages to join: upright or on their side, the fewer.

    They are joined as the pages at full scale are.

    Args:
        drawings: pieces at quarter scale, at least one.
        heading: what the garment is.
        notes: the lines under the title of the first page.
        paper: upright.
        before: how many sheets come before; all are counted in one run.

    Raises:
        InputError: if the paper is too small to find one's way on, or a piece is longer than a garment can be.
    """
    first, *others = notes
    sample = [f"{first} · {LONGEST_COUNT}", *others]
    head = -heading_drawing(heading, sample, "sheet 1 of 400, first to join", 0.0, 0.0, paper.inner_width).bounds[1]
    for piece in drawings:
        _refuse_too_large(piece, paper, head)
    planes = [tiled_plane(drawings, page) for page in (paper, turned(paper))]
    best = fewest_tiles([plane.grid for plane in planes])
    plane = next(plane for plane in planes if plane.grid is best)
    bar = scale_bar((0.0, -BAR_HEIGHT), QUARTER, heading.unit)
    lines = [f"{first} · {plane.count}", *others]
    return plane_sheets(plane, heading, lines, paper, bar, "quarter scale, ", before)


def _refuse_too_large(piece: PieceDrawing, paper: Paper, head: float) -> None:
    width, height = np.ptp(piece.cut_line, axis=0)
    if not holds_first_page(paper, head):
        raise InputError(
            f"piece {piece.label} is {width:.0f} by {height:.0f} mm at quarter scale, more than a page "
            f"of {paper.name} holds: print the large sheet or choose a larger paper",
            "paper",
        )
    if max(width, height) > TOLERANCES.extent * QUARTER.factor:
        raise InputError(
            f"piece {piece.label} is {max(width, height) / QUARTER.factor / 1000:.1f} m long, "
            f"and {TOLERANCES.extent / 1000:g} m are the most that can be joined of pages: make it shorter",
            "pieces",
        )
