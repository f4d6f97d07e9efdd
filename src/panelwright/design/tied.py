"""Edges that ties hold together."""

from dataclasses import dataclass
from typing import ClassVar

from panelwright.design.closure_opening import Opening, Spot
from panelwright.design.fastening import EdgeToEdge, Fitted
from panelwright.pattern.closure import ClosureKind


@dataclass(frozen=True)
class Tied(EdgeToEdge):
    """Edge to edge, held by ties that a step of their own makes."""

    kind: ClassVar[ClosureKind] = "tie"

    def fitted(self, opening: Opening) -> Fitted:
        """Where the opening ends."""
        return Fitted(spots=() if opening.to_hem else (Spot("point", "opening-end", opening.low),))
