"""The first page of a class pack: which pages belong to whom."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from panelwright.drawing.heading import Heading, date_text, heading_drawing
from panelwright.drawing.page_flow import flowed, hung, space
from panelwright.drawing.paper import Paper
from panelwright.drawing.paragraph import Column, paragraph, section, table
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.sheet import Laid, Sheet

NAME: Final = "index"
COLUMNS: Final = (
    Column("pack", 0.25, bold=True),
    Column("drawn from", 0.4),
    Column("pages of this file", 0.2, "right"),
    Column("pages", 0.15, "right"),
)
WORDS: Final = (
    "Print at 100 % on one side only, since templates and pieces are cut out. Measure a square before the sheets are "
    "handed out.",
    "Each pack has its own page numbers at the foot of its pages. It holds the block templates, the hand sheet, blank "
    "cloth to lay the pieces on, and the key of marks.",
    "The packs bear references and no names. One that is drawn from a learner’s own measurements is private: hand it "
    "to that learner alone, and let nobody compare.",
    "Pencils and set squares are sharp, scissors and blades more so. Carry them closed, and cut away from the fingers.",
)


@dataclass(frozen=True)
class Entry:
    """A pack of the class.

    Attributes:
        name: `learner 3`, `spare 1`.
        source: reference of the measurements that it is drawn from.
        pages: how many.
    """

    name: str
    source: str
    pages: int


def index_sheets(entries: Sequence[Entry], heading: Heading, paper: Paper) -> tuple[Sheet, ...]:
    """The index, without footings; the packs follow it in the order of its entries.

    Args:
        entries: the packs.
        heading: of the garment; its wearer says from whose measurements the packs are drawn.
        paper: of every page.
    """
    pages = 1
    while True:
        sheets = _sheets(entries, heading, paper, pages)
        if len(sheets) == pages:
            return sheets
        pages = len(sheets)


def _sheets(entries: Sequence[Entry], heading: Heading, paper: Paper, before: int) -> tuple[Sheet, ...]:
    width, top = paper.inner_width, paper.height - paper.margin
    named = replace(heading, title=f"{heading.title}: class pack", estimated=())
    day = [date_text(heading.made_on)] if heading.made_on else []
    notes = [" · ".join([f"Drawn from {heading.wearer}", *day, QUARTER.name])]
    words = [strip for line in WORDS for strip in (paragraph(line, width), space(1.5))]
    rows = _rows(entries, before)
    strips = [*words, space(3.0), section(f"{len(entries)} packs", width), *table(COLUMNS, rows, width)]
    room = top + heading_drawing(named, notes, NAME, 0.0, 0.0, width).bounds[1] - 4.0 - paper.margin
    pages = flowed(strips, room)
    sheets = []
    for number, part in enumerate(pages, 1):
        name = NAME if len(pages) == 1 else f"{NAME}, page {number} of {len(pages)}"
        head = heading_drawing(named, notes, name, paper.margin, top, width)
        laid = (Laid(head), *hung(part, paper.margin, head.bounds[1] - 4.0))
        sheets.append(Sheet(paper.width, paper.height, name, laid))
    return tuple(sheets)


def _rows(entries: Sequence[Entry], before: int) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = []
    for entry in entries:
        rows.append((entry.name, entry.source, f"{before + 1}–{before + entry.pages}", str(entry.pages)))
        before += entry.pages
    return rows
