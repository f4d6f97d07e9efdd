"""Length against cloth width on a page: a plot and a table."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from panelwright.body.units import Unit
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.line_plot import Series, line_plot
from panelwright.drawing.page_flow import Strip, flowed, hung, space
from panelwright.drawing.paper import Paper
from panelwright.drawing.paragraph import SMALL, Column, paragraph, table
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.width_words import WAYS, heads, notes, rows
from panelwright.finish.cut_count import cloth_words
from panelwright.lay.cloth import Cloth
from panelwright.lay.length_by_width import OneWidth

PLOT_HEIGHT: Final = 100.0
BETWEEN: Final = "Between two widths the line shows what is certain: no more than the narrower cloth takes."
_GAP: Final = 3.0
_LOOKS: Final = {True: ((), False), False: ((2.0, 1.0), True)}


def width_sheets(cloth: Cloth, widths: Sequence[OneWidth], heading: Heading, paper: Paper) -> tuple[Sheet, ...]:
    """The plot and the table of one cloth, on as many pages as they need.

    Args:
        cloth: which.
        widths: from narrow to wide; at least one of them takes the pieces.
        heading: of the garment.
        paper: upright.
    """
    name = f"{cloth_words(cloth.name)}, length by width"
    head = heading_drawing(
        heading, heading.notes(name), "widths", paper.margin, paper.height - paper.margin, paper.inner_width
    )
    top = head.bounds[1] - _GAP
    pages = flowed(_strips(cloth, widths, heading.unit, paper.inner_width), top - paper.margin)
    return tuple(
        Sheet(paper.width, paper.height, f"{name}, page {number}", (Laid(head), *hung(page, paper.margin, top)))
        for number, page in enumerate(pages, 1)
    )


def _strips(cloth: Cloth, widths: Sequence[OneWidth], unit: Unit, width: float) -> list[Strip]:
    ways = [folded for folded in (True, False) if any(row.lay(folded) for row in widths)]
    lines = [_series(widths, folded, unit) for folded in ways]
    plot = line_plot(lines, f"width of the cloth, {unit}", f"length of the lay, {unit}", width, PLOT_HEIGHT)
    titles = heads(ways, unit)
    share = 1.0 / len(titles)
    columns = [Column(title, share, "left" if k == 0 else "right", bold=k == 0) for k, title in enumerate(titles)]
    listed = table(columns, rows(widths, ways, unit), width)
    return [
        plot,
        space(_GAP),
        *listed,
        space(_GAP),
        *(paragraph(note, width, SMALL) for note in notes(cloth, widths, unit)),
    ]


def _series(widths: Sequence[OneWidth], folded: bool, unit: Unit) -> Series:
    lays = [(row.width, lay.length) for row in widths if (lay := row.lay(folded)) is not None]
    dash, hollow = _LOOKS[folded]
    return Series(WAYS[folded], np.array(lays) / unit.millimetres, dash, hollow)
