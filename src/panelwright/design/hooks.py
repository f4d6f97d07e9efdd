"""Hooks and eyes."""

from dataclasses import dataclass
from typing import ClassVar, Final

from panelwright.design.closure_opening import Opening, Spot
from panelwright.design.fastening import EdgeToEdge, Fitted, Strip, within
from panelwright.design.spaced import evenly
from panelwright.errors import DesignError
from panelwright.pattern.closure import ClosureKind
from panelwright.pattern.notion import Notion

FROM_ENDS: Final = 6.0  # mm from the ends of the opening to the nearest hook


@dataclass(frozen=True)
class Hooks(EdgeToEdge):
    """Hooks and eyes that hold two edges together, edge to edge.

    Attributes:
        spacing: wanted from one to the next, mm; it is made to come out even.
        underlap: how far a strip behind the closed edges reaches to either side, mm, or None for no strip.

    Raises:
        DesignError: if a number is out of range.
    """

    kind: ClassVar[ClosureKind] = "hooks"

    spacing: float = 20.0
    underlap: float | None = None

    def __post_init__(self) -> None:
        fault = within("the spacing of hooks", self.spacing, 8.0, 100.0)
        if self.underlap is not None:
            fault = fault or within("the underlap behind hooks", self.underlap, 8.0, 80.0)
        if fault:
            raise DesignError(fault, "hooks")

    def fitted(self, opening: Opening) -> Fitted:
        """Hooks in an even row, the strip behind them, and where the opening ends."""
        heights = evenly(opening.low + FROM_ENDS, opening.high - FROM_ENDS, self.spacing)
        detail = f"{opening.words}, evenly along the edge"
        notion = Notion("hook", "hook and eye", len(heights), None, opening.uid, detail)
        strip = Strip("underlap", "Underlap", 2 * self.underlap, opening.length) if self.underlap else None
        spots = () if opening.to_hem else (Spot("point", "opening-end", opening.low),)
        return Fitted((notion,), (), spots, strip)
