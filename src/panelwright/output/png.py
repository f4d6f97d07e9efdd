"""A sheet as a PNG picture, with its true size written in: the page of its PDF, drawn by a PDF reader."""

from contextlib import closing
from io import BytesIO
from math import sqrt
from pathlib import Path
from typing import Final

from pypdfium2 import PdfDocument

from panelwright.drawing.sheet import Sheet
from panelwright.output.pdf import POINTS_PER_MM, pdf_bytes
from panelwright.saved_file import save

PER_MM: Final = 6.0  # pixels: about 150 an inch
MOST_PIXELS: Final = 40e6  # a larger sheet is drawn coarser
_INCH: Final = 25.4


def write_png(sheet: Sheet, path: Path) -> None:
    """Write one sheet to a PNG file; the file appears whole or not at all.

    Raises:
        OutputError: if it cannot be written, or the sheet is longer than a PDF page can be.
    """
    save(path, png_bytes(sheet))


def png_bytes(sheet: Sheet, per_mm: float = PER_MM) -> bytes:
    """The sheet as a grey PNG picture; equal sheets give equal bytes.

    Args:
        sheet: one page.
        per_mm: pixels for each mm; fewer where the sheet is very large.

    Raises:
        OutputError: if the sheet is longer than a PDF page can be.
    """
    fine = min(per_mm, sqrt(MOST_PIXELS / (sheet.width * sheet.height)))
    with closing(PdfDocument(pdf_bytes([sheet], sheet.name))) as document:
        picture = document[0].render(scale=fine / POINTS_PER_MM, grayscale=True).to_pil()
    told = BytesIO()
    picture.save(told, "PNG", dpi=(fine * _INCH, fine * _INCH))
    return told.getvalue()
