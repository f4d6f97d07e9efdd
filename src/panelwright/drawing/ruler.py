"""Things to measure on a sheet: squares that prove the print is true, and a bar that shows the scale."""

from typing import Final

from panelwright.body.units import Unit, format_length
from panelwright.drawing.drawing import Drawing, Fill, Lettering, Sign, Stroke
from panelwright.drawing.path import Path
from panelwright.drawing.pen import RULE
from panelwright.drawing.scale import Scale
from panelwright.drawing.typeface import typeface
from panelwright.pattern.mark import Point

HUNDRED: Final = 100.0
FOUR_INCHES: Final = 101.6
# Sides of the square on a quarter-scale sheet, in the unit itself, the best first: a larger one shows a smaller fault.
SMALL_SIDES: Final = {Unit.MM: (40.0, 30.0, 20.0), Unit.CM: (4.0, 3.0, 2.0), Unit.INCH: (1.5, 1.0, 0.75)}
# (length of one field, number of fields) of the scale bar, in the unit itself.
_FIELDS: Final = {Unit.MM: (50.0, 4), Unit.CM: (5.0, 4), Unit.INCH: (2.0, 4)}


def measuring_square(at: Point, side: float, name: str, words: str) -> Drawing:
    """A square of `side` mm with its lower left corner at `at`, its size and what to do written inside."""
    x, y = at
    middle = x + side / 2
    signs: list[Sign] = [
        Stroke(Path.box(x, y, side, side), RULE, "sheet"),
        Lettering(name, (middle, y + 0.62 * side), 7.0, "sheet", anchor="middle", bold=True),
    ]
    for k, line in enumerate(typeface().wrapped(words, 3.4, 0.8 * side)):
        signs.append(Lettering(line, (middle, y + 0.62 * side - 9.0 - 4.6 * k), 3.4, "sheet", anchor="middle"))
    return Drawing(tuple(signs))


def hundred_square(at: Point) -> Drawing:
    """The square of 100 mm."""
    words = (
        "Measure this square first: it is 100 mm wide and 100 mm high. If yours is not, print again "
        "at 100 %, “actual size”, without fitting to the page."
    )
    return measuring_square(at, HUNDRED, "100 mm", words)


def four_inch_square(at: Point) -> Drawing:
    """The square of 4 inches."""
    return measuring_square(
        at, FOUR_INCHES, "4 in", "For an inch ruler: this square is 4 inches wide and 4 inches high."
    )


def small_square(at: Point, side: float, unit: Unit) -> Drawing:
    """A square of `side` units of paper, its size and, where it has room, what to do written inside."""
    x, y = at
    drawn = side * unit.millimetres
    middle = x + drawn / 2
    name = format_length(drawn, Unit.INCH if unit is Unit.INCH else Unit.MM)
    lines = typeface().wrapped("wide and high on paper: measure it first", 2.4, 0.86 * drawn)
    top = y + drawn / 2 + 1.5 * len(lines)
    signs: list[Sign] = [
        Stroke(Path.box(x, y, drawn, drawn), RULE, "sheet"),
        Lettering(name, (middle, top - 1.0), 3.6, "sheet", anchor="middle", bold=True),
    ]
    for k, line in enumerate(lines, 1):
        signs.append(Lettering(line, (middle, top - 1.2 - 3.0 * k), 2.4, "sheet", anchor="middle"))
    return Drawing(tuple(signs))


def scale_bar(at: Point, scale: Scale, unit: Unit) -> Drawing:
    """A bar in fields, light and dark in turn, that gives lengths on the cloth; 7 mm high, its lower left at `at`."""
    x, y = at
    step, fields = _FIELDS[unit]
    drawn = step * unit.millimetres * scale.factor
    signs: list[Sign] = [Stroke(Path.box(x, y, fields * drawn, 1.6), RULE, "sheet")]
    signs += [Fill(Path.box(x + k * drawn, y, drawn, 1.6), 0.0, "sheet") for k in range(0, fields, 2)]
    for k in range(fields + 1):
        sign = f" {unit} of cloth" if k == fields else ""
        text = f"{k * step:g}"
        left = x + k * drawn - typeface().width(text, 2.6) / 2
        signs.append(Lettering(text + sign, (left, y + 3.0), 2.6, "sheet"))
    return Drawing(tuple(signs))
