"""Paper that people have: sizes, and what a page can be at most."""

from dataclasses import dataclass, replace
from typing import Final


@dataclass(frozen=True)
class Paper:
    """A paper size, upright, mm.

    Attributes:
        margin: kept free on every side, since most printers cannot print to the edge.
    """

    name: str
    width: float
    height: float
    margin: float = 10.0

    @property
    def inner_width(self) -> float:
        """Width between the margins."""
        return self.width - 2 * self.margin

    @property
    def inner_height(self) -> float:
        """Height between the margins."""
        return self.height - 2 * self.margin


def turned(paper: Paper) -> Paper:
    """The same paper on its side."""
    return replace(paper, width=paper.height, height=paper.width)


# ISO 216 for A4 and A3; Letter is 8.5 by 11 inches (ANSI/ASME Y14.1, size A).
PAPERS: Final = {
    "A4": Paper("A4", 210.0, 297.0),
    "A3": Paper("A3", 297.0, 420.0),
    "Letter": Paper("Letter", 215.9, 279.4),
}
# A PDF page ends at 14 400 units of 1/72 inch (ISO 32000-1, annex C): 200 inches.
LONGEST_PAGE: Final = 5080.0
