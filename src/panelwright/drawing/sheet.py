"""A sheet: one page, with drawings laid on it."""

from collections.abc import Iterable
from dataclasses import dataclass

from panelwright.drawing.drawing import LAYERS, Bounds, Drawing, Fill, Lettering, Sign, Stroke
from panelwright.drawing.surface import Surface
from panelwright.pattern.mark import Point


@dataclass(frozen=True)
class Laid:
    """A drawing laid on a page.

    Attributes:
        drawing: what is laid.
        shift: from the drawing's coordinates to the page's, mm.
        window: nothing shows outside it: (left, bottom, right, top) on the page, or None for the whole page.
    """

    drawing: Drawing
    shift: Point = (0.0, 0.0)
    window: Bounds | None = None


@dataclass(frozen=True)
class Sheet:
    """One page.

    Attributes:
        width, height: mm.
        name: what it is: `row B, column 3 of 5`.
        laid: the drawings, from the lowest to the topmost.
        row, column: place among the tiles, from 1, or 0 where the sheet is no tile.
    """

    width: float
    height: float
    name: str
    laid: tuple[Laid, ...]
    row: int = 0
    column: int = 0

    def draw(self, surface: Surface) -> None:
        """Put the page on a surface."""
        surface.begin_page(self.width, self.height)
        for laid in self.laid:
            _lay(laid, surface)
        surface.end_page()


def draw_drawing(drawing: Drawing, surface: Surface) -> None:
    """Put a drawing on an open page, layer after layer."""
    others = dict.fromkeys(sign.layer for sign in drawing if sign.layer not in LAYERS)  # layers by size
    for name in (*LAYERS, *others):
        signs = [sign for sign in drawing if sign.layer == name]
        if signs:
            surface.begin_layer(name)
            _put(signs, surface)
            surface.end_layer()


def _lay(laid: Laid, surface: Surface) -> None:
    drawing = laid.drawing
    if laid.window is None:
        draw_drawing(drawing.moved(laid.shift), surface)
        return
    x, y = laid.shift
    left, bottom, right, top = laid.window
    shown = drawing.within((left - x, bottom - y, right - x, top - y))
    surface.begin_window(laid.window)
    draw_drawing(shown.moved(laid.shift), surface)
    surface.end_window()


def _put(signs: Iterable[Sign], surface: Surface) -> None:
    for sign in signs:
        match sign:
            case Stroke(path, pen):
                surface.stroke(path, pen)
            case Fill(path, shade):
                surface.fill(path, shade)
            case Lettering():
                surface.text(sign)
