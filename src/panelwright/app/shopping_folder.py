"""The files of a group's shopping."""

from pathlib import Path
from typing import Final

from panelwright.app.paper import PaperChoice
from panelwright.app.shopping import Shopping
from panelwright.app.shopping_sheet import group_lay_sheets, shopping_sheets
from panelwright.app.shopping_text import shopping_csv, shopping_text
from panelwright.output.pdf import write_pdf
from panelwright.saved_file import save

LIST_PDF: Final = "shopping-list.pdf"
LIST_TEXT: Final = "shopping-list.txt"
LIST_TABLE: Final = "shopping-list.csv"
GROUP_LAYS: Final = "group-lays.pdf"


def write_shopping(shopping: Shopping, folder: Path, choice: PaperChoice | None = None) -> tuple[Path, ...]:
    """Write the list as PDF, text and CSV, and the lays; each file is there whole or not at all.

    Args:
        shopping: what is needed.
        folder: an open folder; files of the same names are replaced.
        choice: paper, units and date.

    Returns:
        The files, the list to take along first.

    Raises:
        OutputError: if a file cannot be written.
    """
    choice, title = choice or PaperChoice(), shopping.group.title
    files = tuple(folder / name for name in (LIST_PDF, LIST_TEXT, LIST_TABLE, GROUP_LAYS))
    write_pdf(shopping_sheets(shopping, choice), files[0], f"{title}, shopping list", choice.made_on)
    save(files[1], shopping_text(shopping, choice.unit).encode())
    save(files[2], shopping_csv(shopping).encode("utf-8-sig"))  # table programs take it for UTF-8 by its mark
    write_pdf(group_lay_sheets(shopping, choice), files[3], f"{title}, lays", choice.made_on)
    return files
