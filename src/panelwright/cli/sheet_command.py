"""`panelwright sheet`: the reference sheet to lay beside paper pieces on a photo."""

from argparse import Namespace
from datetime import date
from typing import Final

from panelwright.cli.console import Console
from panelwright.cli.given import given_out
from panelwright.drawing.reference_sheet import TITLE, reference_sheet
from panelwright.errors import InputError
from panelwright.output.pdf import write_pdf
from panelwright.quotation import quoted

SHEET_FILE: Final = "reference-sheet.pdf"
PAPERS: Final = {"a4": "A4", "letter": "Letter"}


def run(arguments: Namespace, console: Console) -> int:
    """Write the sheet; returns the exit status."""
    paper = PAPERS.get(arguments.paper.lower())
    if paper is None:
        raise InputError(f"--paper is a4 or letter, not {quoted(arguments.paper)}", "paper")
    path = given_out(arguments, SHEET_FILE)
    write_pdf([reference_sheet(paper)], path, TITLE, date.today())
    console.answer(
        {"status": 0, "command": "sheet", "files": [str(path)]},
        f"The reference sheet is in {path}. Print it at 100 %, measure its square, and lay it beside the pieces.",
    )
    return 0
