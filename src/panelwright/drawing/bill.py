"""What a garment costs, as it stands at the end of its order of work."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from panelwright.drawing.page_flow import Strip, kept_together, space
from panelwright.drawing.paragraph import SMALL, Column, paragraph, section, table

Rows = tuple[tuple[str, ...], ...]
CLOTH: Final = (
    Column("Cloth", 0.36), Column("Width", 0.14, "right"), Column("Buy", 0.14, "right"), Column("Price", 0.2, "right"),
    Column("Cost", 0.16, "right"),
)  # fmt: skip
NOTION: Final = (
    Column("", 0.1), Column("Notion", 0.38), Column("Length", 0.16, "right"), Column("Price", 0.2, "right"),
    Column("Cost", 0.16, "right"),
)  # fmt: skip


@dataclass(frozen=True)
class Bill:
    """Lines of cells.

    Attributes:
        cloths: cells as `CLOTH` has them.
        notions: cells as `NOTION` has them.
        total: one sentence.
        notes: what to mind.
    """

    cloths: Rows
    notions: Rows
    total: str
    notes: tuple[str, ...] = ()

    def strips(self, width: float) -> list[Strip]:
        """Its section of the pages."""
        lines = [paragraph(text, width, SMALL) for text in (self.total, *self.notes)]
        return [
            *kept_together([section("What it costs", width), *_table(CLOTH, self.cloths, width)]),
            *kept_together([*_table(NOTION, self.notions, width), *lines]),
        ]


def _table(columns: Sequence[Column], rows: Rows, width: float) -> list[Strip]:
    return [*table(columns, [list(row) for row in rows], width, SMALL), space(2.0)] if rows else []
