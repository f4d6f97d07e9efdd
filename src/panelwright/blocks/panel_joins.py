"""How the panels of a block are joined, from the centre front round."""

from collections.abc import Sequence
from typing import Protocol

from panelwright.pattern.seam import Seam, SeamRegion, Span


class Named(Protocol):
    """A panel, as far as its seams go."""

    @property
    def id(self) -> str:
        """Its code; its edges are called by it and their line."""


def panel_joins(names: Sequence[str], panels: Sequence[Named]) -> list[Seam]:
    """The seams between neighbouring panels.

    The front panel's edge runs down its outline, the back panel's up: one span is backwards.

    Args:
        names: lines from the centre front to the centre back, one more than panels.
        panels: in the same order.
    """
    return [
        Seam(
            line, "join", (Span(front.id, f"{front.id}.{line}", 1.0, 0.0),),
            (Span(back.id, f"{back.id}.{line}"),), region_of(line),
        )
        for line, front, back in zip(names[1:-1], panels, panels[1:], strict=False)
    ]  # fmt: skip


def region_of(line: str) -> SeamRegion:
    """Where a line of a block lies, by its name."""
    return "back" if "back" in line else "front" if "front" in line else "side"
