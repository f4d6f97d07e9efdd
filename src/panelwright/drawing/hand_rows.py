"""Pictures side by side, from centre back to centre front as they lie round the body."""

from collections.abc import Sequence
from typing import Final

from panelwright.drawing.drawing import Drawing
from panelwright.drawing.hand_picture import Picture
from panelwright.drawing.page_flow import Strip
from panelwright.drawing.unrolled import PANEL_ORDER

GAP: Final = 3.0
UNDER: Final = 2.0


def picture_rows(pictures: Sequence[Picture], width: float) -> list[Strip]:
    """The pictures in rows, each in the middle of the page; those of one row have their crosses at one height."""
    rows: list[list[Picture]] = [[]]
    for picture in sorted(pictures, key=lambda picture: _rank(picture.panel)):
        if rows[-1] and _width([*rows[-1], picture]) > width:
            rows.append([])
        rows[-1].append(picture)
    return [_strip(row, width) for row in rows if row]


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
    return Strip(Drawing.together(laid), top - bottom + 2 * UNDER, with_next=True)
