"""A level: a girth of the body as it runs across the pieces."""

from dataclasses import dataclass, field
from typing import Final

UPPER_BUST: Final = "upper-bust"
BUST: Final = "bust"
UNDERBUST: Final = "underbust"
WAIST: Final = "waist"
LOWER_WAIST: Final = "lower-waist"
TOP_HIP: Final = "top-hip"
HIP: Final = "hip"

# From the top of a bodice block down.
LEVELS: Final = (UPPER_BUST, BUST, UNDERBUST, WAIST, LOWER_WAIST, TOP_HIP, HIP)


@dataclass(frozen=True)
class LevelSpan:
    """The level line of one piece: inside line `inside` of `piece`, worn `times` times (twice for a pair)."""

    piece: str
    inside: str
    times: int = 2


@dataclass(frozen=True)
class Level:
    """A named level, mm.

    Attributes:
        id: `waist`.
        label: what is written on the line.
        height: above the waist on the body.
        body_girth: the tape's girth of the body here.
        ease: added on the whole girth (negative: taken off).
        gap: a lacing gap, taken half off each centre edge.
        overlap: what a button stand or placket laps.
        fitted: of the ease, what fitting notes gave (taken off: negative).
        path: the lines that make the girth. A level cut open by a neckline is no level any more: it
            leaves the pattern and its lines stay as guides.
    """

    id: str
    label: str
    height: float
    body_girth: float = field(repr=False)
    ease: float
    path: tuple[LevelSpan, ...]
    gap: float = 0.0
    overlap: float = 0.0
    fitted: float = 0.0

    @property
    def finished_girth(self) -> float:
        """body_girth + ease, mm: what the closed garment measures."""
        return self.body_girth + self.ease
