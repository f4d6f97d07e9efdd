"""A shopping list as text and as a table of commas (CSV)."""

import csv
from collections.abc import Iterator, Sequence
from io import StringIO
from typing import Final

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
from panelwright.body.units import Unit

HEADS: Final = ("what", "name", "count", "width_cm", "length_each_cm", "buy_cm", "price", "cost", "for")
# A cell that begins so would be reckoned by a table program.
_RECKONED: Final = ("=", "+", "-", "@", "\t", "\r")


def shopping_text(shopping: Shopping, unit: Unit = Unit.CM) -> str:
    """The list to read: cloths, notions, cost, garments, what to mind."""
    parts = [
        f"{shopping.group.title}: shopping list",
        _columns(CLOTH_HEADS, cloth_rows(shopping, unit)),
        _columns(NOTION_HEADS, notion_rows(shopping, unit)),
        total_words(shopping),
        _columns(GARMENT_HEADS, garment_rows(shopping)),
        "\n".join(notes(shopping, unit)),
    ]
    return "\n\n".join(parts) + "\n"


def shopping_csv(shopping: Shopping) -> str:
    """The list for a table program: a line for each cloth and notion, lengths in cm, prices as they were given."""
    file = StringIO()
    writer = csv.writer(file, lineterminator="\r\n")
    writer.writerow(HEADS)
    writer.writerows([_plain(cell) for cell in row] for row in _rows(shopping))
    return file.getvalue()


def _rows(shopping: Shopping) -> Iterator[Sequence[object]]:
    for bought in shopping.cloths:
        cloth, marks = bought.cloth, " ".join(garment.mark for garment in bought.garments)
        yield (
            "cloth",
            cloth.name,
            1,
            _cm(cloth.width),
            "",
            _cm(bought.to_buy),
            _sum(cloth.price),
            _sum(bought.cost),
            marks,
        )
    for notion in shopping.notions:
        each, whole = ("", _cm(notion.length)) if notion.by_length else (_cm(notion.length), "")
        costs = _sum(notion.price), _sum(notion.cost)
        yield notion.kind, notion.name, notion.count, "", each, whole, *costs, " ".join(notion.marks)
    yield "thread", "reel of 100 m", shopping.reels, "", "", _cm(shopping.thread), "", "", " ".join(shopping.marks)


def _cm(length: float | None) -> str:
    return "" if length is None else f"{length / 10:.1f}"


def _sum(amount: float | None) -> str:
    return "" if amount is None else f"{amount:.2f}"


def _plain(cell: object) -> str:
    """A cell that is text and nothing else."""
    text = str(cell)
    return f"'{text}" if text.startswith(_RECKONED) else text


def _columns(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    cells = [heads, *rows]
    wide = [max(len(row[k]) for row in cells) for k in range(len(heads))]
    return "\n".join(
        "  ".join(cell.ljust(room) for cell, room in zip(row, wide, strict=True)).rstrip() for row in cells
    )
