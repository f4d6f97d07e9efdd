"""A pattern file to a drawing that other programs open."""

from pathlib import Path
from typing import Final

from panelwright.app.field_fault import nearest
from panelwright.app.garment_folder import PATTERN_FILE
from panelwright.errors import InputError
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.output.dxf_pattern import dxf_bytes
from panelwright.output.svg_pattern import svg_pattern
from panelwright.quotation import quoted
from panelwright.saved_file import save

FORMS: Final = ("dxf", "svg")


def drawing_form(asked: str | None, out: Path | None) -> str:
    """`dxf` or `svg`: what was asked for, else what the file to write ends in, else `dxf`.

    Raises:
        InputError: if it is neither, or the two differ.
    """
    ending = out.suffix.lower().removeprefix(".") if out else ""
    form = (asked or (ending if ending in FORMS else "dxf")).lower()
    if form not in FORMS:
        raise InputError(f"the form {quoted(form)} is not known; {nearest(form, FORMS)}", "to")
    if out and ending in FORMS and ending != form:
        raise InputError(f"{quoted(out.name)} ends in .{ending}, but --to asks for {form}: change one of them", "to")
    return form


def pattern_in(given: Path) -> Path:
    """The pattern file that was meant: the file itself, or the one in a folder that `make` has written.

    Raises:
        InputError: if the folder has none.
    """
    if not given.is_dir():
        return given
    inside = given / PATTERN_FILE
    if not inside.is_file():
        raise InputError(f"there is no {PATTERN_FILE} in the folder {quoted(str(given))}: give a pattern file", "files")
    return inside


def write_drawing(cutting: CuttingPattern, form: str, path: Path) -> None:
    """Write a pattern at full scale as `dxf` or `svg`; the file is there whole or not at all.

    Raises:
        OutputError: if it cannot be written.
    """
    title = cutting.pattern.title or cutting.pattern.design
    save(path, dxf_bytes(cutting) if form == "dxf" else svg_pattern(cutting, title).encode())
