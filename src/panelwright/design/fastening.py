"""What every way of fastening a closure has in common."""

from dataclasses import dataclass
from typing import ClassVar, Protocol

from panelwright.body.worded_length import given_words, range_words
from panelwright.design.closure_opening import Opening, Spot
from panelwright.pattern.closure import SPREAD_OPEN, ClosureKind
from panelwright.pattern.notion import Notion
from panelwright.pattern.working import Working


@dataclass(frozen=True)
class Strip:
    """A straight piece that lies behind the closed edges.

    Attributes:
        name: its slot, `modesty-panel`.
        label: what is written on it.
        width, height: finished, mm.
    """

    name: str
    label: str
    width: float
    height: float


@dataclass(frozen=True)
class Fitted:
    """A fastening as it comes out on one opening of one wearer.

    Attributes:
        notions, workings: what it asks for, and the lengths that were reckoned.
        spots: marks on the piece.
        strip: a piece that it adds.
        spreads: how far apart the edges come while they are still joined, mm.
    """

    notions: tuple[Notion, ...] = ()
    workings: tuple[Working, ...] = ()
    spots: tuple[Spot, ...] = ()
    strip: Strip | None = None
    spreads: float = SPREAD_OPEN


class Fastening(Protocol):
    """A way of fastening: a frozen, hashable value.

    Attributes:
        kind: what the design file calls it.
    """

    kind: ClassVar[ClosureKind]

    @property
    def style(self) -> str:
        """How it is set in, or empty."""

    @property
    def gap(self) -> float:
        """Between the closed edges, whole, mm."""

    @property
    def stand(self) -> float:
        """By which each edge reaches beyond the line, mm; the edges lap by twice as much."""

    @property
    def side_fault(self) -> str:
        """Why it cannot be at a side seam, where one side alone opens; empty where it can."""

    @property
    def part_fault(self) -> str:
        """Why it cannot end above the hem; empty where it can."""

    def fitted(self, opening: Opening) -> Fitted:
        """What it comes to on an opening.

        Raises:
            DesignError: if it does not fit there.
        """


class EdgeToEdge:
    """What fastenings have in common that close edge to edge, anywhere and as far down as is wanted."""

    style = ""
    gap = 0.0
    stand = 0.0
    side_fault = ""
    part_fault = ""


def within(what: str, length: float, least: float, most: float) -> str:
    """A sentence if a length in mm is out of range, else empty."""
    if least <= length <= most:
        return ""
    return f"{what} is {given_words(length)}; give between {range_words(least, most, 'and')}"
