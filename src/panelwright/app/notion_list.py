"""The notions of many garments, like with like: how many of what, how long, what they cost, for which garments."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final

from panelwright.app.field_fault import nearest
from panelwright.errors import InputError
from panelwright.pattern.notion import Notion, NotionKind
from panelwright.quotation import quoted

# What is cut off a roll, so that lengths are added up; all else is sold by the piece.
BY_LENGTH: Final[tuple[NotionKind, ...]] = ("cord", "casing")
# Small things get lost or break; zips and bones are bought as they are counted, length by length.
SPARED: Final[tuple[NotionKind, ...]] = ("eyelet", "hook", "button", *BY_LENGTH)
STEP: Final = 100.0  # mm; a roll is cut to full 10 cm
_SAME: Final = 0.05  # mm: lengths that differ by less are one


@dataclass(frozen=True)
class NotionToBuy:
    """One line of a shopping list.

    Attributes:
        kind, name: as a pattern has them.
        count: how many to buy; of what is cut off a roll, into how many pieces it is cut.
        length: of each, mm; of what is cut off a roll all that is bought; None where it has none.
        price: of one, or of a metre off the roll, or None.
        marks: of the garments that need it.
    """

    kind: NotionKind
    name: str
    count: int
    length: float | None
    price: float | None
    marks: tuple[str, ...]

    @property
    def by_length(self) -> bool:
        """Whether it is cut off a roll."""
        return self.kind in BY_LENGTH and self.length is not None

    @property
    def cost(self) -> float | None:
        """What it costs, where it has a price."""
        if self.price is None:
            return None
        return self.price * (self.length or 0.0) / 1000.0 if self.by_length else self.price * self.count


def notions_to_buy(
    needed: Iterable[tuple[str, Notion, int]], prices: Mapping[str, float], spare: float = 0.0
) -> tuple[NotionToBuy, ...]:
    """The list, in the order in which things come up, of one thing the shortest first.

    Args:
        needed: (mark of a garment, notion of one garment, how many garments alike).
        prices: by name.
        spare: share that is bought more of small things and off the roll, rounded up to whole ones and full 10 cm.

    Raises:
        InputError: if a price is given for what no garment needs.
    """
    found: dict[tuple[NotionKind, str], dict[float | None, list[tuple[str, Notion, int]]]] = {}
    for mark, notion, garments in needed:
        lengths = found.setdefault((notion.kind, notion.name), {})
        rolled = notion.kind in BY_LENGTH
        key = None if rolled or notion.length is None else round(notion.length / _SAME) * _SAME
        lengths.setdefault(key, []).append((mark, notion, garments))
    names = {name for _, name in found}
    for name in prices:
        if name not in names:
            known = nearest(name, names) if names else "no garment needs notions"
            raise InputError(f"notion_prices: no garment needs {quoted(name)}; {known}", f"notion_prices.{name}")
    return tuple(
        _line(kind, name, same, prices.get(name), spare)
        for (kind, name), lengths in found.items()
        for _, same in sorted(lengths.items(), key=lambda entry: entry[0] or 0.0)
    )


def _line(
    kind: NotionKind, name: str, same: Sequence[tuple[str, Notion, int]], price: float | None, spare: float
) -> NotionToBuy:
    count = sum(notion.count * garments for _, notion, garments in same)
    spare = spare if kind in SPARED else 0.0
    marks = tuple(dict.fromkeys(mark for mark, _, _ in same))
    if kind in BY_LENGTH and all(notion.length is not None for _, notion, _ in same):
        whole = sum(notion.count * garments * (notion.length or 0.0) for _, notion, garments in same)
        return NotionToBuy(kind, name, count, ceil(whole * (1.0 + spare) / STEP - 1e-9) * STEP, price, marks)
    return NotionToBuy(kind, name, ceil(count * (1.0 + spare) - 1e-9), same[0][1].length, price, marks)
