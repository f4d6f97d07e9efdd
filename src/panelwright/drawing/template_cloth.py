"""Blank cloth at quarter scale, folded lengthwise, to lay the paper pieces on and find out how much to buy."""

from collections.abc import Iterator
from math import pi
from typing import Final

from panelwright.body.units import Unit
from panelwright.drawing import pen
from panelwright.drawing.drawing import Drawing, Lettering, Sign, Stroke
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.page_flow import hung
from panelwright.drawing.paper import Paper
from panelwright.drawing.paragraph import BODY, SMALL, paragraph
from panelwright.drawing.path import Path
from panelwright.drawing.ruler import scale_bar
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.sheet import Laid, Sheet

# Widths that cloth is sold in, before it is folded, in the unit itself (common practice).
WIDTHS: Final = {
    Unit.MM: (900.0, 1150.0, 1400.0, 1500.0),
    Unit.CM: (90.0, 115.0, 140.0, 150.0),
    Unit.INCH: (36.0, 45.0, 54.0, 60.0),
}
STEPS: Final = {Unit.MM: 100.0, Unit.CM: 10.0, Unit.INCH: 5.0}
NAME: Final = "blank cloth"
WORDS: Final = (
    "Lay the cut-out paper pieces on the cloth: fold edges on the fold, grain lines alongside the selvage, every piece "
    "clear of its neighbours. A piece that is cut as a pair is laid once, since the cloth is double. On one-way cloth "
    "turn no piece upside down. Read the length to buy at the lowest piece. For longer cloth join the next sheet "
    "below; for cloth that lies open, join two sheets at their folds."
)
BAR_ROOM: Final = 13.0


def widths(unit: Unit) -> tuple[float, ...]:
    """The widths of cloth that there are sheets for, mm."""
    return tuple(width * unit.millimetres for width in WIDTHS[unit])


def nearest_width(width: float, unit: Unit) -> float:
    """The widest of them that a cloth of a width, mm, has room for; the narrowest where none is."""
    fitting = [known for known in widths(unit) if known <= width + 1.0]
    return max(fitting, default=min(widths(unit)))


def cloth_sheet(width: float, heading: Heading, paper: Paper, number: int = 1) -> Sheet:
    """One page of cloth, without footing.

    Args:
        width: of the cloth before it is folded, mm.
        heading: at its head.
        paper: upright.
        number: 1 begins at the cut end, the next ones go on where the one before ends.
    """
    unit = heading.unit
    title = f"{width / unit.millimetres:g} {unit} cloth, folded"
    notes = [f"{QUARTER.name} · the fold at the left, the two selvages at the right"]
    named = Heading(title, heading.wearer, heading.made_on, unit)
    head = heading_drawing(
        named, notes, f"{NAME}, sheet {number}", paper.margin, paper.height - paper.margin, paper.inner_width
    )
    words = paragraph(WORDS, paper.inner_width, SMALL)
    top = head.bounds[1] - 2.0
    laid = [Laid(head), *hung([words], paper.margin, top)]
    bottom = paper.margin + BAR_ROOM
    high = top - words.height - 4.0 - bottom
    cloth = _cloth(width, high, unit, number)
    shift = ((paper.width - cloth_width(width)) / 2, bottom + high)
    laid += [Laid(cloth, shift), Laid(scale_bar((paper.margin + 1.0, paper.margin), QUARTER, unit))]
    return Sheet(paper.width, paper.height, f"{NAME}, {title}, sheet {number}", tuple(laid))


def cloth_width(width: float) -> float:
    """Width of folded cloth on paper, mm."""
    return width / 2 * QUARTER.factor


def _cloth(width: float, high: float, unit: Unit, number: int) -> Drawing:
    """The cloth hanging from its upper left corner."""
    wide, step = cloth_width(width), STEPS[unit] * unit.millimetres * QUARTER.factor
    rows = int(high / step)
    low = -rows * step
    signs: list[Sign] = [*_grid(wide, rows, step, unit, (number - 1) * rows)]
    signs.append(Stroke(Path.polyline([(0.0, 0.0), (0.0, low)]), pen.FOLD, "grain and fold"))
    signs.append(Stroke(Path.polyline([(wide, 0.0), (wide, low)]), pen.CUT, "cut lines"))
    signs.append(Stroke(Path.polyline([(wide - 1.2, 0.0), (wide - 1.2, low)]), pen.HAIRLINE, "cut lines"))
    ends = pen.STITCH if number == 1 else pen.GUIDE
    signs.append(Stroke(Path.polyline([(0.0, 0.0), (wide, 0.0)]), ends, "cut lines"))
    signs.append(Stroke(Path.polyline([(0.0, low), (wide, low)]), pen.GUIDE, "cut lines"))
    signs.append(Lettering("fold", (3.2, low / 2), BODY, angle=pi / 2, anchor="middle"))
    signs.append(Lettering("selvages", (wide - 2.2, low / 2), BODY, angle=pi / 2, anchor="middle"))
    return Drawing(tuple(signs))


def _grid(wide: float, rows: int, step: float, unit: Unit, before: int) -> Iterator[Sign]:
    """Faint lines across and along, the lengths beside those across."""
    for k in range(1, rows):
        yield Stroke(Path.polyline([(0.0, -k * step), (wide, -k * step)]), pen.HAIRLINE, "sheet")
        words = f"{(before + k) * STEPS[unit]:g} {unit}"
        yield Lettering(words, (wide / 2, -k * step + 0.7), SMALL, "sheet", anchor="middle")
    for k in range(1, int(wide / step) + 1):
        if k * step < wide - 1.0:
            yield Stroke(Path.polyline([(k * step, 0.0), (k * step, -rows * step)]), pen.OLD, "sheet")
