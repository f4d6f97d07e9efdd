"""Sheets in a file whose ending says what it is: PDF, SVG or PNG."""

from collections.abc import Sequence
from pathlib import Path
from typing import Final

from panelwright.app.paper import PaperChoice
from panelwright.drawing.sheet import Sheet
from panelwright.errors import InputError
from panelwright.output.pdf import write_pdf
from panelwright.output.png import write_png
from panelwright.output.svg import write_svg
from panelwright.quotation import quoted

FORMS: Final = ("svg", "pdf", "png")


def picture_form(path: Path) -> str:
    """`svg`, `pdf` or `png`: what a file ends in.

    Raises:
        InputError: if it ends in something else.
    """
    form = path.suffix.lower().removeprefix(".")
    if form not in FORMS:
        raise InputError(f"{quoted(path.name)} is no picture that can be drawn: end it in .svg, .pdf or .png", "draw")
    return form


def write_picture(sheets: Sequence[Sheet], path: Path, title: str, choice: PaperChoice) -> None:
    """Write sheets as what the file ends in; it is there whole or not at all.

    Raises:
        InputError: if it ends in something else, or a picture is to hold several sheets.
        OutputError: if it cannot be written.
    """
    form = picture_form(path)
    if form == "pdf":
        write_pdf(sheets, path, title, choice.made_on)
        return
    if len(sheets) != 1:
        raise InputError(f"{quoted(path.name)} cannot hold {len(sheets)} pages: end it in .pdf", "draw")
    write = write_svg if form == "svg" else write_png
    write(sheets[0], path)
