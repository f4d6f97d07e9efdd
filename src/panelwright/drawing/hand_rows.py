"""Pictures side by side, from centre back to centre front as they lie round the body."""

from collections.abc import Sequence
from typing import Final

from panelwright.drawing.drawing import Drawing
from panelwright.drawing.hand_picture import Picture
from panelwright.drawing.page_flow import Strip
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.unrolled import PANEL_ORDER
from panelwright.pattern.piece import Piece

GAP: Final = 3.0
# Beside each piece for its letters and the gap, mm; and how small pieces may become to stand in one row.
ASIDE: Final = 17.0
LEAST_SIZE: Final = 0.6
UNDER: Final = 2.0


def picture_rows(pictures: Sequence[Picture], width: float) -> list[Strip]:
    """The pictures in rows, each in the middle of the page; those of one row have their crosses at one height."""
    rows: list[list[Picture]] = [[]]
    for picture in sorted(pictures, key=lambda picture: _rank(picture.panel)):
        if rows[-1] and _width([*rows[-1], picture]) > width:
            rows.append([])
        rows[-1].append(picture)
    return [_strip(row, width) for row in rows if row]


def one_row(pieces: Sequence[Piece], width: float) -> float:
    """By how much pieces have to be drawn smaller to stand in one row; 1 where that would make them too small."""
    boxes = [piece.outline.bounds for piece in pieces]
    wide = sum(right - left for left, _, right, _ in boxes) * QUARTER.factor
    fitting = (width - len(pieces) * ASIDE) / wide
    return min(1.0, fitting) if fitting >= LEAST_SIZE else 1.0


def _rank(panel: str) -> int:
    return next((k for k, name in enumerate(PANEL_ORDER) if panel.startswith(name)), len(PANEL_ORDER))


def _width(row: Sequence[Picture]) -> float:
    return sum(picture.box[2] - picture.box[0] for picture in row) + GAP * (len(row) - 1)


def _strip(row: Sequence[Picture], width: float) -> Strip:
    top = max(picture.box[3] for picture in row)
    bottom = min(picture.box[1] for picture in row)
    x = (width - _width(row)) / 2
    laid = []
    for picture in row:
        laid.append(picture.drawing.moved((x - picture.box[0], -top - UNDER)))
        x += picture.box[2] - picture.box[0] + GAP
    return Strip(Drawing.together(laid), top - bottom + 2 * UNDER)
