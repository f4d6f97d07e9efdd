"""A strip of cloth on a sheet: its edges by name, and a ruler along it."""

from typing import Final

import numpy as np

from panelwright.body.units import Unit
from panelwright.drawing import pen
from panelwright.drawing.drawing import Drawing, Fill, Lettering, Sign, Stroke
from panelwright.drawing.path import Path
from panelwright.drawing.pen import HAIRLINE, Pen
from panelwright.drawing.symbol import arrow_head
from panelwright.drawing.typeface import typeface
from panelwright.lay.lay import Lay

SELVAGE: Final = Pen(0.5)
END: Final = Pen(0.3, (2.0, 1.2))
CLOTH_SHADE: Final = 0.93
WORDS: Final = 2.4
# Room that the words above a strip and the ruler and words below it take, mm.
ABOVE: Final = 4.6
BELOW: Final = 8.4
# (length between two ticks, ticks from number to number) of the ruler, in the unit itself.
_TICKS: Final = {Unit.MM: (100.0, 5), Unit.CM: (10.0, 5), Unit.INCH: (6.0, 2)}


def cloth_length(lay: Lay) -> float:
    """How much cloth lies there once what was bought is washed, mm."""
    return max(lay.length, lay.to_buy * (1.0 - lay.cloth.shrinkage))


def strip_drawing(lay: Lay, low: float, high: float, factor: float, unit: Unit) -> Drawing:
    """The cloth from `low` to `high` mm along it, drawn with (low, 0) at the origin, `factor` times as large."""
    wide, tall = (high - low) * factor, lay.width * factor
    signs: list[Sign] = [Fill(Path.box(0.0, 0.0, wide, tall), CLOTH_SHADE, "sheet")]
    signs += _fold(wide, 0.0, -1.0) if lay.folded else _selvage(wide, 0.0, -1.0, "selvage")
    if lay.tubular:
        signs += _fold(wide, tall, 1.0)
    else:
        signs += _selvage(wide, tall, 1.0, "both selvages" if lay.folded else "selvage")
    signs += [_upright(x, tall, high_end) for x, high_end in ((0.0, low > 0), (wide, high < cloth_length(lay) - 1e-6))]
    if low < lay.length <= high:
        signs.append(Stroke(Path.polyline([((lay.length - low) * factor, y) for y in (0.0, tall)]), END, "sheet"))
    return Drawing((*signs, *_ruler(low, high, factor, unit), *_one_way(lay, tall)))


def _upright(x: float, tall: float, goes_on: bool) -> Stroke:
    """An end of the strip: solid where the cloth ends, broken where it goes on."""
    return Stroke(Path.polyline([(x, 0.0), (x, tall)]), END if goes_on else pen.STITCH, "sheet")


def _selvage(wide: float, y: float, out: float, words: str) -> list[Sign]:
    """A strong edge with a fine line outside it, which is up (1) or down (-1): what is beyond the usable width."""
    return [
        Stroke(Path.polyline([(0.0, y), (wide, y)]), SELVAGE, "sheet"),
        Stroke(Path.polyline([(0.0, y + 0.9 * out), (wide, y + 0.9 * out)]), HAIRLINE, "sheet"),
        Lettering(words, (1.0, _beyond(y, out)), WORDS, "sheet"),
    ]


def _fold(wide: float, y: float, out: float) -> list[Sign]:
    """A fold edge, with two arrows that point to it from outside: up (1) or down (-1)."""
    signs: list[Sign] = [
        Stroke(Path.polyline([(0.0, y), (wide, y)]), pen.FOLD, "grain and fold"),
        Lettering("fold", (1.0, _beyond(y, out)), WORDS, "sheet", bold=True),
    ]
    start = 2.5 + typeface(True).width("fold", WORDS)
    foot, tip = y + 3.6 * out, y + 0.2 * out
    for x in (start, start + 6.0):
        signs.append(Stroke(Path.polyline([(x, foot), (x, tip)]), pen.GRAIN, "grain and fold"))
        signs.append(Fill(arrow_head((x, tip), np.array([0.0, -out]), 1.6), 0.0, "grain and fold"))
    bar = Path.polyline([(start, foot), (start + 6.0, foot)])
    return [*signs, Stroke(bar, pen.GRAIN, "grain and fold")]


def _beyond(y: float, out: float) -> float:
    """The foot of words outside an edge."""
    return y + 1.9 if out > 0 else y - 1.9 - 0.7 * WORDS


def _ruler(low: float, high: float, factor: float, unit: Unit) -> list[Sign]:
    """Ticks along the lower edge, below its words, numbered from the beginning of the cloth."""
    step, each = _TICKS[unit][0] * unit.millimetres, _TICKS[unit][1]
    y = -BELOW + 2.6
    signs: list[Sign] = [Stroke(Path.polyline([(0.0, y), ((high - low) * factor, y)]), HAIRLINE, "sheet")]
    for k in range(int(np.ceil(low / step - 1e-9)), int(np.floor(high / step + 1e-9)) + 1):
        x, numbered = (k * step - low) * factor, k % each == 0
        signs.append(Stroke(Path.polyline([(x, y), (x, y + (1.6 if numbered else 0.9))]), HAIRLINE, "sheet"))
        if numbered:
            text = f"{k * _TICKS[unit][0]:g}" + (f" {unit}" if k == 0 else "")
            signs.append(Lettering(text, (x, y - 2.2), 2.2, "sheet"))
    return signs


def _one_way(lay: Lay, tall: float) -> list[Sign]:
    """On one-way cloth: an arrow the way that all tops point."""
    if not lay.cloth.one_way:
        return []
    x, y = 34.0, tall + 2.6
    words = Lettering("one-way cloth: all tops this way", (x + 11.0, tall + 1.9), WORDS, "sheet")
    line = Stroke(Path.polyline([(x, y), (x + 9.0, y)]), pen.GRAIN, "sheet")
    return [line, Fill(arrow_head((x + 9.5, y), np.array([1.0, 0.0]), 2.0), 0.0, "sheet"), words]
