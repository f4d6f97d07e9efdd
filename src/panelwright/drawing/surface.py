"""What a drawing is put on: paper as PDF, as SVG, or the recorder of the tests."""

from typing import Protocol

from panelwright.drawing.drawing import Bounds, Lettering
from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen


class Surface(Protocol):
    """Pages to draw on. All lengths mm, the origin at the lower left corner of the page, y up.

    Between `begin_layer` and `end_layer` what is drawn belongs to a named layer; between `begin_window`
    and `end_window` nothing shows outside the window. Windows hold layers, never the other way round.
    """

    def begin_page(self, width: float, height: float) -> None:
        """Open a page of this size."""

    def end_page(self) -> None:
        """Close the page."""

    def begin_window(self, window: Bounds) -> None:
        """Show nothing outside (left, bottom, right, top)."""

    def end_window(self) -> None:
        """Show everything again."""

    def begin_layer(self, name: str) -> None:
        """Open a named layer; the same name may come again."""

    def end_layer(self) -> None:
        """Close the layer."""

    def stroke(self, path: Path, pen: Pen) -> None:
        """Draw along a path."""

    def fill(self, path: Path, shade: float) -> None:
        """Fill a path; 0 is black, 1 the paper."""

    def text(self, lettering: Lettering) -> None:
        """Write a line of text."""
