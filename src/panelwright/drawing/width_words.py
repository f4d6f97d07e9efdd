"""What the table of lengths by width says, on a page and on the command line alike."""

from collections.abc import Iterator, Sequence
from typing import Final

from panelwright.body.units import Unit, format_length
from panelwright.lay.cloth import Cloth
from panelwright.lay.length_by_width import OneWidth

WAYS: Final = {True: "folded", False: "spread out"}
NOTHING: Final = "–"


def heads(ways: Sequence[bool], unit: Unit) -> list[str]:
    """The titles of the columns."""
    titles = [f"Width, {unit}"]
    for folded in ways:
        titles += [f"Lay, {WAYS[folded]}", "Buy", "Used"]
    return titles


def rows(widths: Sequence[OneWidth], ways: Sequence[bool], unit: Unit) -> list[list[str]]:
    """A row for each width: of each way the lay's length, what to buy and what share becomes pieces."""
    return [_row(one, ways, unit) for one in widths]


def _row(one: OneWidth, ways: Sequence[bool], unit: Unit) -> list[str]:
    cells = [_number(one.width, unit)]
    for folded in ways:
        lay = one.lay(folded)
        if lay is None:
            cells += [NOTHING] * 3
        else:
            cells += [_number(lay.length, unit), _number(lay.to_buy, unit), f"{100 * lay.use:.0f} %"]
    return cells


def notes(cloth: Cloth, widths: Sequence[OneWidth], unit: Unit) -> list[str]:
    """What to mind."""
    return list(_notes(cloth, widths, unit))


def _notes(cloth: Cloth, widths: Sequence[OneWidth], unit: Unit) -> Iterator[str]:
    sold = format_length(cloth.sold_by, _exact(cloth.sold_by, unit))
    shrunk = f" and what the cloth shrinks, {100 * cloth.shrinkage:g} %, added" if cloth.shrinkage else ""
    yield f"What to buy is rounded up to full {sold}{shrunk}. The width is the usable one, without the selvages."
    if cloth.one_way:
        yield "One-way cloth: the tops of all pieces lie the same way."
    too_narrow = [one for one in widths if not one.lays]
    if too_narrow:
        yield f"{NOTHING} Too narrow. {_opened(too_narrow[-1].refusal)}."
    elif any(len(one.lays) < max(len(each.lays) for each in widths) for one in widths):
        yield f"{NOTHING} A piece is too wide for cloth that lies so."


def _exact(length: float, unit: Unit) -> Unit:
    """Centimetres for what is a whole number of them, whatever the unit: shops that sell by 10 cm say so."""
    return Unit.CM if abs(length / 10.0 - round(length / 10.0)) < 1e-6 else unit


def _number(length: float, unit: Unit) -> str:
    return format_length(length, unit).removesuffix(f" {unit}")


def _opened(text: str) -> str:
    return text[:1].upper() + text[1:]
