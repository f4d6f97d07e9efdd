"""Sheets as a PDF: true millimetres, real curves, named layers, embedded fonts, the same bytes every time."""

from collections.abc import Iterable, Sequence
from contextlib import ExitStack, closing, nullcontext
from datetime import UTC, date, datetime, time
from math import degrees
from pathlib import Path as FilePath
from typing import Final, cast

from fpdf import FPDF
from fpdf.fonts import TTFFont

from panelwright.drawing.drawing import Bounds, Lettering
from panelwright.drawing.paper import LONGEST_PAGE
from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen
from panelwright.drawing.sheet import Sheet
from panelwright.drawing.typeface import typeface
from panelwright.errors import OutputError
from panelwright.saved_file import save

FAMILY: Final = "lettering"
POINTS_PER_MM: Final = 72 / 25.4
# A document must bear a date; this one stands where the caller gives none, so that bytes repeat.
NO_DATE: Final = date(2000, 1, 1)
_MOVES: Final = {
    "M": "%.4f %.4f m\n",
    "L": "%.4f %.4f l\n",
    "C": "%.4f %.4f %.4f %.4f %.4f %.4f c\n",
    "Z": "h\n",
}


def write_pdf(sheets: Sequence[Sheet], path: FilePath, title: str, made_on: date | None = None) -> None:
    """Write sheets to a PDF file, one page each; the file appears whole or not at all.

    Raises:
        OutputError: if it cannot be written, or a page would be longer than a PDF page can be.
    """
    save(path, pdf_bytes(sheets, title, made_on))


def pdf_bytes(sheets: Iterable[Sheet], title: str, made_on: date | None = None) -> bytes:
    """The PDF of sheets; equal sheets, title and date give equal bytes.

    Args:
        sheets: at least one.
        title: of the document.
        made_on: its date, given by the caller.

    Raises:
        OutputError: if a page would be longer than a PDF page can be (5080 mm).
    """
    with closing(PdfSurface(title, made_on)) as surface:
        for sheet in sheets:
            sheet.draw(surface)
        return surface.finished()


class PdfSurface:
    """A surface whose pages become a PDF."""

    def __init__(self, title: str, made_on: date | None = None) -> None:
        self._pdf = FPDF(unit="mm")
        self._pdf.set_auto_page_break(False)
        self._pdf.set_margin(0)
        self._pdf.c_margin = 0
        self._pdf.set_title(title)
        self._pdf.set_creator("Panelwright")
        self._pdf.set_creation_date(datetime.combine(made_on or NO_DATE, time(), UTC))
        for bold, style in ((False, ""), (True, "B")):
            self._pdf.add_font(FAMILY, style, typeface(bold).file)
        self._fonts = [font for font in self._pdf.fonts.values() if isinstance(font, TTFFont)]
        self._layer = ExitStack()
        self._height = 0.0

    def finished(self) -> bytes:
        """The document, when all pages are drawn."""
        return bytes(self._pdf.output())

    def close(self) -> None:
        """Let go of the font files."""
        for font in self._fonts:
            font.close()

    def begin_page(self, width: float, height: float) -> None:
        """A page of exactly this size.

        Raises:
            OutputError: if PDF has no page as long.
        """
        if max(width, height) > LONGEST_PAGE:
            raise OutputError(
                f"a sheet of {width:.0f} by {height:.0f} mm cannot be a PDF page, which ends at "
                f"{LONGEST_PAGE:.0f} mm: print tiles or choose a wider sheet"
            )
        self._pdf.add_page(orientation="portrait", format=(width, height))
        self._height = height
        self._write("1 j")

    def end_page(self) -> None:
        """Nothing is left open."""

    def begin_window(self, window: Bounds) -> None:
        """Clip to a rectangle."""
        left, bottom, right, top = (value * POINTS_PER_MM for value in window)
        self._write(f"q {left:.4f} {bottom:.4f} {right - left:.4f} {top - bottom:.4f} re W n")

    def end_window(self) -> None:
        """Stop clipping."""
        self._write("Q")

    def begin_layer(self, name: str) -> None:
        """Begin an optional-content group that a viewer can show or hide by name."""
        # fpdf2 keeps one group for each visibility; a name, which is true, keeps one for each name.
        self._layer.enter_context(self._pdf.optional_content(on_view=cast(bool, name), label=name))

    def end_layer(self) -> None:
        """End the group."""
        self._layer.close()

    def stroke(self, path: Path, pen: Pen) -> None:
        """Draw along a path, its cubics as cubics."""
        dash = " ".join(f"{length * POINTS_PER_MM:.4f}" for length in pen.dash)
        self._write(f"q {pen.width * POINTS_PER_MM:.4f} w {pen.shade:g} G [{dash}] 0 d\n{_operators(path)}S Q")

    def fill(self, path: Path, shade: float) -> None:
        """Fill a path."""
        self._write(f"q {shade:g} g\n{_operators(path)}f Q")

    def text(self, lettering: Lettering) -> None:
        """Write a line of text in the embedded typeface."""
        x, y = lettering.start
        self._pdf.set_font(FAMILY, "B" if lettering.bold else "", lettering.size * POINTS_PER_MM)
        written = typeface(lettering.bold).written(lettering.text)
        turned = self._pdf.rotation(degrees(lettering.angle), x, self._height - y) if lettering.angle else nullcontext()
        with turned:
            self._pdf.text(x, self._height - y, written)

    def _write(self, operators: str) -> None:
        """Append to the page's content: fpdf2's own path objects are slower and round to fewer places."""
        self._pdf._out(operators)


def _operators(path: Path) -> str:
    moves = "".join(_MOVES[code] for code in path.codes)
    return moves % tuple((path.points * POINTS_PER_MM).ravel().tolist())
