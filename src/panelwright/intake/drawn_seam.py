"""Two drawn edges that are sewn to each other."""

from dataclasses import dataclass
from typing import Final

from panelwright.errors import InputError
from panelwright.intake.edge_ref import EdgeRef

MOST_EASE: Final = 50.0  # mm (own choice)


@dataclass(frozen=True)
class DrawnSeam:
    """Two edges that are sewn to each other, from one end to the other; `line` is the name of the seam.

    `ease` is how much longer `b` is meant to be than `a`, mm of the garment; below 0: `a` is the longer one.

    Raises:
        InputError: if that is more than can be eased in.
    """

    a: EdgeRef
    b: EdgeRef
    line: str
    ease: float = 0.0

    def __post_init__(self) -> None:
        refuse_ease(self.line, self.ease)

    @property
    def edges(self) -> tuple[EdgeRef, ...]:
        """Both of them."""
        return self.a, self.b


def refuse_ease(line: str, ease: float) -> None:
    """Raises InputError if a seam is meant to ease in more than can be."""
    if not abs(ease) <= MOST_EASE:
        raise InputError(
            f"seam {line}: an ease of {abs(ease) / 10:g} cm cannot be eased in; give 0 to {MOST_EASE / 10:g} cm, and "
            "draw more as gathers or a dart",
            "seams",
        )
