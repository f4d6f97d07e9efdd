"""A shopping list as pages to take along, and the lays of a group."""

from collections.abc import Sequence
from typing import Final

from panelwright.app.paper import PaperChoice
from panelwright.app.shopping import Shopping
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
from panelwright.app.sign_off import page_of
from panelwright.drawing.drawing import Anchor
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.lay_sheet import lay_sheets
from panelwright.drawing.lay_words import group_words
from panelwright.drawing.page_flow import Strip, flowed, hung, kept_together, space
from panelwright.drawing.paragraph import HEAD, SMALL, Column, paragraph, section, table
from panelwright.drawing.sheet import Laid, Sheet

NAME: Final = "shopping list"
_GAP: Final = 3.0
_CLOTH: Final[tuple[tuple[float, Anchor], ...]] = (
    (0.19, "left"), (0.12, "right"), (0.11, "right"), (0.07, "right"), (0.08, "right"), (0.16, "right"),
    (0.13, "right"), (0.14, "left"),
)  # fmt: skip
_NOTION: Final[tuple[tuple[float, Anchor], ...]] = (
    (0.09, "right"), (0.31, "left"), (0.17, "right"), (0.15, "right"), (0.13, "right"), (0.15, "left"),
)  # fmt: skip
_GARMENT: Final[tuple[tuple[float, Anchor], ...]] = ((0.08, "left"), (0.54, "left"), (0.23, "left"), (0.15, "left"))
# So many rows stay on one page.
_FEW: Final = 20


def shopping_sheets(shopping: Shopping, choice: PaperChoice) -> tuple[Sheet, ...]:
    """The list; A4 where the paper is A3."""
    paper = page_of(choice.paper)
    heading = Heading(shopping.group.title, "", choice.made_on, choice.unit)
    top = paper.height - paper.margin
    head = heading_drawing(heading, heading.notes(NAME), "page 1 of 1", paper.margin, top, paper.inner_width)
    room = head.bounds[1] - _GAP - paper.margin
    pages = flowed(_strips(shopping, choice, paper.inner_width), room)
    sheets = []
    for number, strips in enumerate(pages, 1):
        name = f"page {number} of {len(pages)}"
        head = heading_drawing(heading, heading.notes(NAME), name, paper.margin, top, paper.inner_width)
        laid = (Laid(head), *hung(strips, paper.margin, head.bounds[1] - _GAP))
        sheets.append(Sheet(paper.width, paper.height, f"{NAME}, {name}", laid))
    return tuple(sheets)


def group_lay_sheets(shopping: Shopping, choice: PaperChoice) -> tuple[Sheet, ...]:
    """All lays of all cloths at 1:10, one after another; every piece bears the mark of its garment."""
    heading, sheets = Heading(shopping.group.title, "", choice.made_on, choice.unit), list[Sheet]()
    for bought in shopping.cloths:
        for number, lay in enumerate(bought.lays, 1):
            words = group_words(lay, number, len(bought.lays), choice.unit)
            sheets += lay_sheets(lay, heading, choice.paper, 10, words)
    return tuple(sheets)


def _strips(shopping: Shopping, choice: PaperChoice, width: float) -> list[Strip]:
    unit = choice.unit
    cloths = table(_columns(CLOTH_HEADS, _CLOTH), cloth_rows(shopping, unit), width, SMALL)
    notions = table(_columns(NOTION_HEADS, _NOTION), notion_rows(shopping, unit), width, SMALL)
    garments = table(_columns(GARMENT_HEADS, _GARMENT), garment_rows(shopping), width, SMALL)
    told = [paragraph(f"– {note}", width, SMALL, indent=2.0) for note in notes(shopping, unit)]
    return [
        *_together([section("Cloth", width), *cloths]),
        space(_GAP),
        *_together([section("Notions", width), *notions]),
        space(_GAP),
        paragraph(total_words(shopping), width, HEAD, bold=True),
        space(_GAP),
        *_together([section("To mind", width), *told]),
        space(_GAP),
        *_together([section("Garments", width), *garments]),
    ]


def _columns(heads: Sequence[str], looks: Sequence[tuple[float, Anchor]]) -> list[Column]:
    return [
        Column(head, share, anchor, bold=head == heads[0]) for head, (share, anchor) in zip(heads, looks, strict=True)
    ]


def _together(strips: list[Strip]) -> list[Strip]:
    return kept_together(strips) if len(strips) <= _FEW else strips
