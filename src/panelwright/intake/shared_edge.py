"""An edge that is sewn to several, which lie one after another along it: a whole shoulder to a divided one."""

from dataclasses import dataclass

from panelwright.errors import InputError
from panelwright.intake.drawn_seam import refuse_ease
from panelwright.intake.edge_ref import EdgeRef


@dataclass(frozen=True)
class SharedEdge:
    """One side of a seam that was drawn in one, and the edges of the other side.

    Attributes:
        whole: the edge that several are sewn to.
        parts: those, in their order along it; which of its ends the first one lies at, the pieces tell.
        line: name of the seam.
        ease: how much longer the parts are meant to be together than the whole, mm of the garment.

    Raises:
        InputError: if there are fewer than two parts, or that is more than can be eased in.
    """

    whole: EdgeRef
    parts: tuple[EdgeRef, ...]
    line: str
    ease: float = 0.0

    def __post_init__(self) -> None:
        if len(self.parts) < 2:
            raise InputError(f"seam {self.line}: an edge is shared by two edges or more; give all of them", "seams")
        refuse_ease(self.line, self.ease)

    @property
    def edges(self) -> tuple[EdgeRef, ...]:
        """The whole edge, then its parts."""
        return self.whole, *self.parts
