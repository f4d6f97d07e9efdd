"""What a page is told of a group's shopping, and the files that go with it."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from panelwright.app.board_piece import Document
from panelwright.app.cloth_record import ClothRecord
from panelwright.app.paper import PaperChoice
from panelwright.app.shopping import Shopping
from panelwright.app.shopping_folder import GROUP_LAYS, LIST_PDF, LIST_TABLE
from panelwright.app.shopping_rows import (
    CLOTH_HEADS,
    GARMENT_HEADS,
    NOTION_HEADS,
    cloth_rows,
    garment_rows,
    notes,
    notion_rows,
    total_words,
)
from panelwright.app.shopping_sheet import group_lay_sheets, shopping_sheets
from panelwright.app.shopping_text import shopping_csv
from panelwright.drawing.lay_sheet import lay_alone
from panelwright.finish.cut_count import cloth_words
from panelwright.lay.group_lay import ClothToBuy
from panelwright.output.pdf import pdf_bytes
from panelwright.output.svg import svg_text

PDF: Final = "application/pdf"
SVG: Final = "image/svg+xml"
CSV: Final = "text/csv; charset=utf-8"


@dataclass(frozen=True, eq=False)
class GroupFacts:
    """A group's shopping, as it is told and drawn.

    Attributes:
        shopping: what is needed.
        choice: paper, units and date.
    """

    shopping: Shopping
    choice: PaperChoice

    def document(self) -> Document:
        """The *Group* answer of docs/board.md."""
        shopping, unit = self.shopping, self.choice.unit
        pictures = _pictures()
        rows = cloth_rows(shopping, unit)
        return {
            "cloth_heads": CLOTH_HEADS,
            "cloths": [_cloth(bought, row, pictures) for bought, row in zip(shopping.cloths, rows, strict=True)],
            "notion_heads": NOTION_HEADS,
            "notions": notion_rows(shopping, unit),
            "notion_names": sorted({notion.name for notion in shopping.notions}),
            "garment_heads": GARMENT_HEADS,
            "garments": garment_rows(shopping),
            "total": total_words(shopping),
            "notes": notes(shopping, unit),
        }

    def files(self) -> dict[str, tuple[bytes, str]]:
        """Name -> (content, media type): the list as PDF and table, the lays as PDF and one by one as pictures."""
        shopping, title, made_on = self.shopping, self.shopping.group.title, self.choice.made_on
        listed = pdf_bytes(shopping_sheets(shopping, self.choice), f"{title}, shopping list", made_on)
        laid = pdf_bytes(group_lay_sheets(shopping, self.choice), f"{title}, lays", made_on)
        lays = (lay for bought in shopping.cloths for lay in bought.lays)
        drawn = ((svg_text(lay_alone(lay, self.choice.unit)).encode(), SVG) for lay in lays)
        return {
            LIST_PDF: (listed, PDF),
            GROUP_LAYS: (laid, PDF),
            LIST_TABLE: (shopping_csv(shopping).encode("utf-8-sig"), CSV),
            **dict(zip(_pictures(), drawn, strict=False)),
        }


def _pictures() -> Iterator[str]:
    """`lay-1.svg`, `lay-2.svg` … for the lays of all cloths, one after another."""
    number = 1
    while True:
        yield f"lay-{number}.svg"
        number += 1


def _cloth(bought: ClothToBuy, row: list[str], pictures: Iterator[str]) -> Document:
    return {
        "name": bought.cloth.name,
        "label": cloth_words(bought.cloth.name),
        "row": row,
        "record": ClothRecord.of(bought.cloth).model_dump(mode="json", exclude_none=True),
        "lays": [next(pictures) for _ in bought.lays],
    }
