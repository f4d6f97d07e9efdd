"""What is bought beside the cloth, in words: the one place for the sign-off page and the board alike."""

from collections.abc import Sequence
from dataclasses import dataclass

from panelwright.body.units import Unit
from panelwright.drawing.amount import amount
from panelwright.pattern.notion import Notion


@dataclass(frozen=True)
class NotionWords:
    """One thing to buy.

    Attributes:
        count: how many, `4 ×`.
        name: `spiral steel bone`.
        length: of each, `23.5 cm each`, or empty.
        detail: where it goes or how it was reckoned, or empty.
    """

    count: str
    name: str
    length: str
    detail: str

    @property
    def row(self) -> list[str]:
        """As a row of a table."""
        return [self.count, self.name, self.length, self.detail]


def notion_words(notions: Sequence[Notion], unit: Unit) -> tuple[NotionWords, ...]:
    """Every notion of a pattern in the order in which its steps ask for them."""
    return tuple(
        NotionWords(
            f"{notion.count} ×",
            notion.name,
            "" if notion.length is None else f"{amount(notion.length, unit)}{' each' if notion.count > 1 else ''}",
            notion.detail,
        )
        for notion in notions
    )
