"""A closure: where a garment opens, how it is shut, and how far it opens."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal

from panelwright.errors import GeometryError

ClosurePlace = Literal["centre-front", "centre-back", "side"]
ClosureKind = Literal["zip", "lacing", "hooks", "buttons", "tie"]
ClosureHand = Literal["centre", "left", "right"]

SPREAD_OPEN: Final = float("inf")


@dataclass(frozen=True)
class Closure:
    """One opening of the garment. A fold or a sewn seam is none.

    Attributes:
        id: uid of the step that made it.
        place: the line that opens; at the `side` only the seam of one hand does.
        kind: how it is shut.
        style: a word for the way it is set in, `centred`, `lapped`, `exposed`, `invisible`, or empty.
        hand: `centre`, or the wearer's side that opens.
        seam: id of the seam that is closed by it, or empty where ties alone hold the edges.
        low, high: the stretch of the line that opens, mm upwards along the finished edge from its lower end.
        to_top, to_hem: whether the opening runs out at the upper edge, and at the lower edge.
        gap: between the closed edges, whole, mm (lacing; the teeth of an exposed zip).
        overlap: of the closed edges, whole, mm (button stand).
        spreads: how far apart the edges come when opened but still joined, mm (lacing let out); infinite where
            they come apart.

    Raises:
        GeometryError: if nothing opens, or a gap or overlap is below 0.
    """

    id: str
    place: ClosurePlace
    kind: ClosureKind
    style: str
    hand: ClosureHand
    seam: str
    low: float
    high: float
    to_top: bool = True
    to_hem: bool = True
    gap: float = 0.0
    overlap: float = 0.0
    spreads: float = SPREAD_OPEN

    def __post_init__(self) -> None:
        if not 0.0 <= self.low < self.high:
            raise GeometryError(f"closure {self.id} opens from {self.low} to {self.high} mm of its line")
        if self.gap < 0 or self.overlap < 0:
            raise GeometryError(f"closure {self.id} has a gap of {self.gap} and an overlap of {self.overlap} mm")

    @property
    def opening(self) -> float:
        """Length of the edge that opens, mm."""
        return self.high - self.low

    @property
    def runs_on(self) -> bool:
        """Whether it runs on below the lower edge, into a skirt that is sewn there: its edges part, but not wholly."""
        return self.kind == "zip" and self.to_hem and self.spreads != SPREAD_OPEN

    @property
    def opens_flat(self) -> bool:
        """Whether the garment comes apart there from its upper to its lower edge."""
        return self.to_top and self.to_hem and self.spreads == SPREAD_OPEN


def carried_on(closures: Iterable[Closure]) -> dict[str, Closure]:
    """Id of a closure that runs on into a skirt -> the closure of the skirt below it."""
    known = tuple(closures)
    return {
        one.id: other
        for one in known
        if one.runs_on
        for other in known
        if other is not one and (other.place, other.kind) == (one.place, one.kind)
    }
