"""Quarter-scale sheets: the whole garment small, allowances to scale, to copy, cut and play with."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from typing import Final

import numpy as np

from panelwright.body.units import Unit, format_length
from panelwright.drawing.drawing import Drawing, Lettering
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.legend import legend
from panelwright.drawing.long_pieces import long_piece_sheets
from panelwright.drawing.paper import Paper, turned
from panelwright.drawing.piece_drawing import PieceDrawing
from panelwright.drawing.ruler import SMALL_SIDES, scale_bar, small_square
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.unrolled import Row, rows

LAYER_NAMES: Final = {
    "outer": "Outer cloth",
    "facing": "Facing",
    "lining": "Lining",
    "interfacing": "Interfacing",
}
WITH_FACING: Final = "Outer cloth, for the facing too"
LAYER_SIZE: Final = 3.6
LAYER_ROOM: Final = 1.5 * LAYER_SIZE
ROW_GAP: Final = 4.0
FOOT_GAP: Final = 4.0
_HEAD_GAP: Final = 3.0


def quarter_sheets(drawings: Sequence[PieceDrawing], heading: Heading, paper: Paper) -> tuple[Sheet, ...]:
    """The pieces at 1:4 on as many pages as they need, unrolled from centre back to centre front, layer by layer.

    The pages lie on their side where that takes fewer of them, or a piece, such as a long tie, is wider than an
    upright one. Each page has a square to measure, the largest that costs no further page. A piece that is too
    large for a page either way comes last, over several pages to join.

    Raises:
        InputError: if a piece is too large to be joined of pages, or the paper too small for any piece.
    """
    upright, on_side = (_Page(heading, each, tuple(drawings)) for each in (paper, turned(paper)))
    single: list[PieceDrawing] = []
    long: list[PieceDrawing] = []
    for drawing in drawings:
        (single if upright.holds_piece(drawing) or on_side.holds_piece(drawing) else long).append(drawing)
    filled = [filled for page, members in _shared(single, upright, on_side) for filled in page.filled(members)]
    joined = long_piece_sheets(long, heading, quarter_notes(heading), paper, len(filled)) if long else ()
    total = len(filled) + len(joined)
    sheets = []
    for k, (page, foot, stack) in enumerate(filled, 1):
        sheets.append(page.sheet(f"sheet {k} of {total}", foot, stack))
    return (*sheets, *joined)


@dataclass(frozen=True)
class _Page:
    """A page for a heading, pieces and a footing; `drawings` are those that its legend is of."""

    heading: Heading
    paper: Paper
    drawings: tuple[PieceDrawing, ...]

    @cached_property
    def top(self) -> float:
        """Where the pieces begin, mm above the page's lower edge."""
        return self._head("sheet 1 of 1").bounds[1] - _HEAD_GAP

    @cached_property
    def feet(self) -> tuple[Drawing, ...]:
        """The footings, the one with the largest square first."""
        left, width = self.paper.margin, self.paper.inner_width
        return tuple(_footing(self.heading, self.drawings, left, width, side) for side in _sides(self.heading))

    @cached_property
    def rooms(self) -> tuple[float, ...]:
        """Height for pieces above each footing, mm."""
        return tuple(self.top - foot.bounds[3] - FOOT_GAP for foot in self.feet)

    def holds(self, row: Row) -> bool:
        """Whether a row of pieces has room, above the smallest footing at least."""
        return row.width <= self.paper.inner_width and _tall([row]) <= max(self.rooms)

    def holds_piece(self, drawing: PieceDrawing) -> bool:
        """Whether a piece has room on its own."""
        return self.holds(rows([drawing], self.paper.inner_width)[0])

    def filled(self, drawings: Sequence[PieceDrawing]) -> Iterator[tuple["_Page", Drawing, list[Row]]]:
        """The pages that pieces need: (page, its footing, its rows)."""
        width = self.paper.inner_width
        made: list[Row] = []
        for row in rows(drawings, width):
            made += [row] if self.holds(row) else [single for piece, _ in row.laid for single in rows([piece], width)]
        tallest = max(_tall([row]) for row in made)
        tries = range(len(self.feet))
        best = min(tries, key=lambda k: (tallest > self.rooms[k], len(_pages(made, self.rooms[k]))))
        for page in _pages(made, self.rooms[best]):
            yield self, self.feet[best], page

    def sheet(self, name: str, foot: Drawing, page: Sequence[Row]) -> Sheet:
        """The page with its rows."""
        laid = [Laid(self._head(name)), Laid(foot)]
        laid += stacked(page, self.paper.margin, self.top, self.paper.inner_width)
        return Sheet(self.paper.width, self.paper.height, f"quarter scale, {name}", tuple(laid))

    def _head(self, name: str) -> Drawing:
        notes, paper = quarter_notes(self.heading), self.paper
        return heading_drawing(self.heading, notes, name, paper.margin, paper.height - paper.margin, paper.inner_width)


def _shared(
    drawings: Sequence[PieceDrawing], upright: _Page, on_side: _Page
) -> Iterator[tuple[_Page, list[PieceDrawing]]]:
    """Which kind of page which pieces go on: one kind for all, the one of fewer pages, or else on their side only those
    that must."""
    able = [page for page in (upright, on_side) if all(page.holds_piece(drawing) for drawing in drawings)]
    if able and drawings:
        parts = [(min(able, key=lambda page: len(list(page.filled(drawings)))), list(drawings))]
    else:
        parts = [(upright, []), (on_side, [])]
        for drawing in drawings:
            parts[not upright.holds_piece(drawing)][1].append(drawing)
    yield from ((page, members) for page, members in parts if members)


def overview_sheet(drawings: Sequence[PieceDrawing], heading: Heading, margin: float = 10.0) -> Sheet:
    """All pieces at 1:4 on one page that is as large as they need: a picture for the screen."""
    made = rows(drawings, float("inf"))
    width = float(np.ceil(max(180.0, *(row.width for row in made))))
    head = heading_drawing(heading, quarter_notes(heading), "all pieces", margin, 0.0, width)
    tall = _HEAD_GAP - head.bounds[1]
    foot = _footing(heading, drawings, margin, width, _sides(heading)[0])
    height = float(np.ceil(margin + tall + _tall(made) + FOOT_GAP + foot.bounds[3]))
    laid = [Laid(head, (0.0, height - margin)), Laid(foot), *stacked(made, margin, height - margin - tall, width)]
    return Sheet(width + 2 * margin, height, "all pieces at quarter scale", tuple(laid))


def stacked(page: Sequence[Row], left: float, top: float, width: float) -> list[Laid]:
    """Rows under one another, centred in `width`; the name of a layer stands above its first row."""
    laid: list[Laid] = []
    named = ""
    for row in page:
        if row.layer != named:
            words = WITH_FACING if all(piece.with_facing for piece, _ in row.laid) else LAYER_NAMES[row.layer]
            name = Lettering(words, (left, top - LAYER_SIZE), LAYER_SIZE, "sheet", bold=True)
            laid.append(Laid(Drawing((name,))))
            named = row.layer
            top -= LAYER_ROOM
        x, y = left + (width - row.width) / 2, top - row.height
        laid += [Laid(piece.drawing, (x + dx, y + dy)) for piece, (dx, dy) in row.laid]
        top = y - ROW_GAP
    return laid


def _tall(page: Sequence[Row]) -> float:
    """Height of rows under one another, with the names of their layers."""
    layers = sum(1 for _ in groupby(row.layer for row in page))
    return layers * LAYER_ROOM + sum(row.height + ROW_GAP for row in page)


def _pages(made: Sequence[Row], room: float) -> list[list[Row]]:
    pages: list[list[Row]] = [[]]
    for row in made:
        if pages[-1] and _tall([*pages[-1], row]) > room:
            pages.append([])
        pages[-1].append(row)
    return pages


def quarter_notes(heading: Heading) -> list[str]:
    """The lines under the title of a page at quarter scale."""
    first, *others = heading.notes(QUARTER.name)
    one = heading.unit.millimetres * QUARTER.factor
    here = format_length(one, Unit.INCH if heading.unit is Unit.INCH else Unit.MM)
    return [f"{first} · 1 {heading.unit} of cloth is {here} here, allowances too", *others]


def _sides(heading: Heading) -> tuple[float, ...]:
    return SMALL_SIDES[heading.unit]


def _footing(heading: Heading, drawings: Sequence[PieceDrawing], margin: float, width: float, side: float) -> Drawing:
    """The scale bar, the legend and a square of `side` units to measure, in the lower left corner of the margins."""
    left = bottom = margin
    drawn = side * heading.unit.millimetres
    bar = scale_bar((left + 1.0, bottom), QUARTER, heading.unit)
    lines = legend((left + 82.0, 0.0), width - 82.0 - drawn - 4.0, drawings)
    square = small_square((left + width - drawn, bottom), side, heading.unit)
    return bar + lines.moved((0.0, bottom - lines.bounds[1])) + square
