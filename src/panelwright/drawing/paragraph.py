"""Text in strips: headings, paragraphs and tables of a written page."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from panelwright.drawing.drawing import Anchor, Drawing, Lettering, Sign, Stroke
from panelwright.drawing.page_flow import Strip
from panelwright.drawing.path import Path
from panelwright.drawing.pen import HAIRLINE, RULE
from panelwright.drawing.typeface import typeface

BODY: Final = 2.9
SMALL: Final = 2.6
HEAD: Final = 3.6
LEADING: Final = 1.34
CELL_GAP: Final = 2.5


@dataclass(frozen=True)
class Column:
    """A column of a table.

    Attributes:
        title: over it; a table whose titles are all empty has no head.
        share: of the table's width.
        anchor: how its cells are set.
        bold: in the heavier weight.
    """

    title: str
    share: float
    anchor: Anchor = "left"
    bold: bool = False


def paragraph(text: str, width: float, size: float = BODY, bold: bool = False, indent: float = 0.0) -> Strip:
    """A text broken into lines; all but the first start `indent` mm farther right."""
    face = typeface(bold)
    lines = face.wrapped(face.written(text), size, width - indent)
    signs = [
        Lettering(line, (indent if k else 0.0, -_baseline(size, k)), size, "sheet", bold=bold)
        for k, line in enumerate(lines)
    ]
    return Strip(Drawing(tuple(signs)), len(signs) * size * LEADING)


def section(title: str, width: float) -> Strip:
    """The title of a section over a fine rule; what follows stays with it."""
    height = HEAD * 1.75
    title = typeface(True).shortened(title, HEAD, width)
    rule = Stroke(Path.polyline([(0.0, -height + 1.0), (width, -height + 1.0)]), RULE, "sheet")
    return Strip(Drawing((Lettering(title, (0.0, -1.25 * HEAD), HEAD, "sheet", bold=True), rule)), height, True)


def table(columns: Sequence[Column], rows: Sequence[Sequence[str]], width: float, size: float = BODY) -> list[Strip]:
    """A row of titles, then a strip for each row with a hairline under it; cells are broken into lines."""
    body = [_row(columns, row, width, size) for row in rows]
    if not any(column.title for column in columns):
        return body
    head = _row([replace(column, bold=True) for column in columns], [column.title for column in columns], width, size)
    return [replace(head, with_next=True), *body]


def _row(columns: Sequence[Column], cells: Sequence[str], width: float, size: float) -> Strip:
    signs: list[Sign] = []
    left, most = 0.0, 1
    for column, cell in zip(columns, cells, strict=True):
        wide = column.share * width
        face = typeface(column.bold)
        lines = face.wrapped(face.written(cell), size, wide - CELL_GAP)
        at = {"left": left, "middle": left + (wide - CELL_GAP) / 2, "right": left + wide - CELL_GAP}[column.anchor]
        signs += [
            Lettering(line, (at, -_baseline(size, k)), size, "sheet", anchor=column.anchor, bold=column.bold)
            for k, line in enumerate(lines)
        ]
        left, most = left + wide, max(most, len(lines))
    height = most * size * LEADING + 0.5
    signs.append(Stroke(Path.polyline([(0.0, -height), (width, -height)]), HAIRLINE, "sheet"))
    return Strip(Drawing(tuple(signs)), height + 0.3)


def _baseline(size: float, line: int) -> float:
    """How far the baseline of a line lies under the upper edge of its text."""
    return size * (LEADING * line + 1.0)
