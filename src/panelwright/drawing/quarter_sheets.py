"""Quarter-scale sheets: the whole garment small, allowances to scale, to copy, cut and play with."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby
from typing import Final

import numpy as np

from panelwright.body.units import Unit, format_length
from panelwright.drawing.drawing import Drawing, Lettering
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.legend import legend
from panelwright.drawing.paper import Paper
from panelwright.drawing.piece_drawing import PieceDrawing
from panelwright.drawing.ruler import SMALL_SIDES, scale_bar, small_square
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.unrolled import Row, rows
from panelwright.errors import InputError

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

    The pages lie on their side when a piece, such as a long tie, is wider than an upright one. Each page has
    a square to measure, the largest that costs no further page.

    Raises:
        InputError: if a piece is larger than a page.
    """
    paper = _turned_for(drawings, paper)
    top = paper.height - paper.margin
    head = top - _head(heading, "sheet 1 of 1", paper).bounds[1] + _HEAD_GAP
    made = rows(drawings, paper.inner_width)
    tries = [_footing(heading, paper.margin, paper.margin, paper.inner_width, side) for side in _sides(heading)]
    rooms = [top - head - foot.bounds[3] - FOOT_GAP for foot in tries]
    tallest = max(_tall([row]) for row in made)
    best = min(range(len(tries)), key=lambda k: (tallest > rooms[k], len(_pages(made, rooms[k]))))
    foot, room = tries[best], rooms[best]
    for row in made:
        _refuse_too_large(row, paper, room)
    pages = _pages(made, room)
    sheets = []
    for k, page in enumerate(pages, 1):
        name = f"sheet {k} of {len(pages)}"
        laid = [Laid(_head(heading, name, paper)), Laid(foot)]
        laid += stacked(page, paper.margin, top - head, paper.inner_width)
        sheets.append(Sheet(paper.width, paper.height, f"quarter scale, {name}", tuple(laid)))
    return tuple(sheets)


def overview_sheet(drawings: Sequence[PieceDrawing], heading: Heading, margin: float = 10.0) -> Sheet:
    """All pieces at 1:4 on one page that is as large as they need: a picture for the screen."""
    made = rows(drawings, float("inf"))
    width = float(np.ceil(max(180.0, *(row.width for row in made))))
    head = heading_drawing(heading, _notes(heading), "all pieces", margin, 0.0, width)
    tall = _HEAD_GAP - head.bounds[1]
    foot = _footing(heading, margin, margin, width, _sides(heading)[0])
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


def _notes(heading: Heading) -> list[str]:
    first, *others = heading.notes(QUARTER.name)
    one = heading.unit.millimetres * QUARTER.factor
    here = format_length(one, Unit.INCH if heading.unit is Unit.INCH else Unit.MM)
    return [f"{first} · 1 {heading.unit} of cloth is {here} here, allowances too", *others]


def _head(heading: Heading, name: str, paper: Paper) -> Drawing:
    notes = _notes(heading)
    return heading_drawing(heading, notes, name, paper.margin, paper.height - paper.margin, paper.inner_width)


def _sides(heading: Heading) -> tuple[float, ...]:
    return SMALL_SIDES[heading.unit]


def _footing(heading: Heading, left: float, bottom: float, width: float, side: float) -> Drawing:
    """The scale bar, the legend and a square of `side` units to measure, standing on `bottom`."""
    drawn = side * heading.unit.millimetres
    bar = scale_bar((left + 1.0, bottom), QUARTER, heading.unit)
    lines = legend((left + 82.0, 0.0), width - 82.0 - drawn - 4.0)
    square = small_square((left + width - drawn, bottom), side, heading.unit)
    return bar + lines.moved((0.0, bottom - lines.bounds[1])) + square


def _turned_for(drawings: Sequence[PieceDrawing], paper: Paper) -> Paper:
    """The paper on its side if that, and not upright, is wide enough for every piece; else as it is."""
    widest = max((drawing.box[2] - drawing.box[0] for drawing in drawings), default=0.0)
    on_its_side = replace(paper, width=paper.height, height=paper.width)
    return on_its_side if paper.inner_width < widest <= on_its_side.inner_width else paper


def _refuse_too_large(row: Row, paper: Paper, room: float) -> None:
    if row.width > paper.inner_width or _tall([row]) > room:
        piece = row.laid[0][0]
        raise InputError(
            f"piece {piece.label} is {row.width:.0f} by {row.height:.0f} mm at quarter scale, more than a page "
            f"of {paper.name} holds: print the large sheet or choose a larger paper",
            "paper",
        )
