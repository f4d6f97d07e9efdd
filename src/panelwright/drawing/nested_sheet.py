"""The nested drawing of a range: every piece in all sizes on one another, a named layer for each size."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from panelwright.drawing.drawing import Drawing, Lettering, Sign, Stroke
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.paper import LONGEST_PAGE, Paper
from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen
from panelwright.drawing.ruler import small_square
from panelwright.drawing.scale import FULL, QUARTER, Scale
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.shelf import shelved
from panelwright.grading.nested_piece import NestedPiece
from panelwright.pattern.level import WAIST

NAME: Final = "nested sizes"
DASHES: Final = ((), (4.0, 1.2), (1.6, 1.0), (5.0, 1.0, 0.6, 1.0), (0.6, 0.9), (7.0, 1.0, 0.6, 1.0, 0.6, 1.0))
CUT, STITCH, LEVEL, CROSS = 0.35, 0.14, 0.12, 0.25  # mm: widths of pens
GAP: Final = 8.0
MARGIN: Final = 10.0
ROLL_WIDTH: Final = 900.0
OVERVIEW_WIDTH: Final = 230.0
SQUARE: Final = 2.0
LEGEND: Final = 24.0


def layer_of(bust: int) -> str:
    """The name of a size's layer."""
    return f"size {bust}"


def nested_overview(pieces: Sequence[NestedPiece], heading: Heading, where: str) -> Sheet:
    """All nested pieces at quarter scale on one sheet as high as they need, for a screen.

    Args:
        pieces: of the range, at least one.
        heading: of the garment, for nobody.
        where: the reference in words.
    """
    drawings = [_drawing(piece, QUARTER) for piece in pieces]
    width = _as_wide(drawings, OVERVIEW_WIDTH)
    head, used = _head(heading, NAME, where, list(pieces[0].members), width, QUARTER)
    height = float(np.ceil(_deepest(drawings, width) + used + 2 * MARGIN))
    return Sheet(width + 2 * MARGIN, height, NAME, _laid(drawings, width, head, (height - MARGIN, used)))


def nested_sheets(
    pieces: Sequence[NestedPiece], heading: Heading, where: str, paper: Paper | None = None
) -> tuple[Sheet, ...]:
    """The nested pieces at quarter scale on pages, or without `paper` at full scale on one long sheet.

    A piece that is larger than the page has a page of its own, as large as it needs; the long sheet is as wide
    as the widest piece, no less than a roll of paper, and goes on to another where it would be too long for a PDF.

    Args:
        pieces: of the range, at least one.
        heading: of the garment, for nobody.
        where: the reference in words.
        paper: of the pages, upright.
    """
    scale = FULL if paper is None else QUARTER
    drawings = [_drawing(piece, scale) for piece in pieces]
    busts = list(pieces[0].members)
    least = _as_wide(drawings, ROLL_WIDTH) if paper is None else paper.width - 2 * MARGIN
    longest = LONGEST_PAGE if paper is None else paper.height
    pages = _paged(drawings, least, longest - 2 * MARGIN - _head(heading, "", where, busts, least, scale)[1])
    sheets = []
    for number, page in enumerate(pages, 1):
        name = NAME if len(pages) == 1 else f"{NAME}, {number} of {len(pages)}"
        width = _as_wide(page, least)
        head, used = _head(heading, name, where, busts, width, scale)
        height = _at_least(0.0 if paper is None else paper.height, _deepest(page, width) + used + 2 * MARGIN)
        sheets.append(Sheet(width + 2 * MARGIN, height, name, _laid(page, width, head, (height - MARGIN, used))))
    return tuple(sheets)


def _paged(drawings: Sequence[Drawing], width: float, room: float) -> list[list[Drawing]]:
    """Pages of what fits on them, and then one for each drawing that does not."""
    pages: list[list[Drawing]] = []
    large = []
    for drawing in drawings:
        wide, tall = _size(drawing)
        if wide > width or tall > room:
            large.append([drawing])
            continue
        if not pages or _deepest([*pages[-1], drawing], width) > room:
            pages.append([])
        pages[-1].append(drawing)
    return [*pages, *large]


def _laid(page: Sequence[Drawing], width: float, head: Drawing, heights: tuple[float, float]) -> tuple[Laid, ...]:
    """The head and the drawings under it; `heights` are the top of the page and what the head takes of it."""
    top, used = heights
    laid = [Laid(head, (MARGIN, top))]
    for drawing, (x, y) in zip(page, shelved([_size(drawing) for drawing in page], width, GAP), strict=True):
        left, _, _, above = drawing.bounds
        laid.append(Laid(drawing, (MARGIN + x - left, top - used + y - above)))
    return tuple(laid)


def _as_wide(drawings: Sequence[Drawing], least: float) -> float:
    """`least`, or what the widest of the drawings needs."""
    return _at_least(least, max(_size(drawing)[0] for drawing in drawings))


def _at_least(least: float, needed: float) -> float:
    """Whole millimetres only where `least` is too little: a Letter page stays 279.4 mm long."""
    return least if needed <= least + 1e-6 else float(np.ceil(needed))


def _size(drawing: Drawing) -> tuple[float, float]:
    left, bottom, right, top = drawing.bounds
    return right - left, top - bottom


def _deepest(page: Sequence[Drawing], width: float) -> float:
    sizes = [_size(drawing) for drawing in page]
    return max(tall - y for (_, y), (_, tall) in zip(shelved(sizes, width, GAP), sizes, strict=True))


def _drawing(piece: NestedPiece, scale: Scale) -> Drawing:
    """All sizes of a piece with their reference at the origin."""
    signs: list[Sign] = []
    count = len(piece.members)
    for number, (bust, (own, cut)) in enumerate(piece.members.items()):
        layer, shift = layer_of(bust), -piece.references[bust] * scale.factor
        dash = DASHES[number % len(DASHES)]
        line = cut.cut_line * scale.factor + shift
        signs.append(Stroke(Path.polyline(line, closed=True), Pen(CUT, dash), layer))
        for edge in own.edges:
            path = Path.curve(edge.curve).scaled(scale.factor).moved(shift.tolist())
            signs.append(Stroke(path, Pen(STITCH, dash), layer))
        waist = own.inside_line(WAIST)
        if waist is not None:
            signs.append(
                Stroke(Path.curve(waist.curve).scaled(scale.factor).moved(shift.tolist()), Pen(LEVEL, dash, 0.2), layer)
            )
        low, high = line.min(axis=0), line.max(axis=0)
        at = (float(low[0] + (number + 0.5) / count * (high[0] - low[0])), float(low[1]) - 1.3 * scale.small)
        signs.append(Lettering(str(bust), at, scale.small, layer, anchor="middle"))
    left, bottom, right, _ = Drawing(tuple(signs)).bounds
    arm = 2.0 if scale is QUARTER else 5.0
    cross = [Path.polyline([(-arm, 0.0), (arm, 0.0)]), Path.polyline([(0.0, -arm), (0.0, arm)])]
    signs += [Stroke(path, Pen(CROSS), "sheet") for path in cross]
    label = (float(left + right) / 2, bottom - 1.6 * scale.title)
    signs.append(Lettering(piece.label, label, scale.title, "text", anchor="middle", bold=True))
    return Drawing(tuple(signs))


def _head(
    heading: Heading, name: str, where: str, busts: Sequence[int], width: float, scale: Scale
) -> tuple[Drawing, float]:
    """(heading, legend of the sizes and a square to measure, hanging from 0; the room that they take)."""
    notes = [*heading.notes(scale.name), f"Sizes by bust girth in cm, laid on one another {where}; a layer for each."]
    drawing = heading_drawing(heading, notes, name, 0.0, 0.0, width)
    y = drawing.bounds[1] - 6.0
    signs: list[Sign] = []
    x = 0.0
    for number, bust in enumerate(busts):
        pen = Pen(CUT, DASHES[number % len(DASHES)])
        signs.append(Stroke(Path.polyline([(x, y), (x + 12.0, y)]), pen, layer_of(bust)))
        signs.append(Lettering(str(bust), (x + 13.5, y - 1.0), 3.0, layer_of(bust)))
        x += LEGEND
        if x + LEGEND > width - 60.0:
            x, y = 0.0, y - 5.0
    side = SQUARE if heading.unit.value == "cm" else 1.0
    drawn = side * heading.unit.millimetres
    square = small_square((width - drawn, drawing.bounds[1] - 3.0 - drawn), side, heading.unit)
    whole = Drawing((*drawing.signs, *signs)) + square
    return whole, GAP - whole.bounds[1]
