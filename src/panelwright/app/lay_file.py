"""Lays drawn into one file of their own: SVG, PDF or PNG, by its ending."""

from collections.abc import Sequence
from pathlib import Path
from typing import Final

from panelwright.app.field_fault import nearest
from panelwright.app.paper import PaperChoice
from panelwright.app.picture_file import picture_form, write_picture
from panelwright.drawing.heading import Heading
from panelwright.drawing.lay_sheet import lay_picture, lay_sheets
from panelwright.errors import InputError
from panelwright.lay.lay import Lay
from panelwright.output.pdf import write_pdf
from panelwright.quotation import quoted

REDUCTIONS: Final = {"tenth": 10, "quarter": 4}


def lay_reduction(scale: str | None) -> int | None:
    """10 for `tenth`, 4 for `quarter`, None for what suits the paper or the screen.

    Raises:
        InputError: if it is none of them.
    """
    if scale is None:
        return None
    if scale.lower() not in REDUCTIONS:
        raise InputError(f"the scale {quoted(scale)} is not known; {nearest(scale, REDUCTIONS)}", "scale")
    return REDUCTIONS[scale.lower()]


def write_lay_file(
    lays: Sequence[Lay], heading: Heading, path: Path, choice: PaperChoice, reduction: int | None = None
) -> None:
    """Draw lays into a file; it is there whole or not at all.

    Args:
        lays: at least one. A PDF has a page or more for each, the others hold all of them in one picture.
        heading: what stands at the head.
        path: ends in .svg, .pdf or .png.
        choice: paper of a PDF, and its date.
        reduction: 10 for 1:10. None: 1:10 in a PDF, in a picture as suits a screen.

    Raises:
        InputError: if the file ends in something else.
        OutputError: if it cannot be written.
    """
    if picture_form(path) == "pdf":
        sheets = [sheet for lay in lays for sheet in lay_sheets(lay, heading, choice.paper, reduction or 10)]
        write_pdf(sheets, path, f"{heading.title}, lays", choice.made_on)
    else:
        write_picture([lay_picture(lays, heading, reduction=reduction)], path, heading.title, choice)
